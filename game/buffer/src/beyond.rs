//! What is beyond our contacts: whether the neighbours do what their signals say.
//!
//! The controller reads contacts alone. Whether a board truly comes when Board Available is closed,
//! and whether anybody takes one when Machine Ready is closed, is truth that it cannot know.
//! Source of the signals: IPC-SMEMA-9851, closed means yes; that a jumper or a stuck contact says
//! yes for nobody, and what boards do then, is common practice.

use rackproof_model::{Micrometres, key::Coder};

use crate::{
    Board, BoardFault, Condition, Harm, HarmKind, Hear, Listener, Machine, Outcome, Phase, Place,
    Side, State,
};

/// What never changes about neighbours whose signals may say what is not so.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Neighbouring {
    /// Nothing is behind the outfeed: what is sent falls over its end.
    pub nobody_behind: bool,
    /// The width of downstream's rails until it changes over, where that is another than ours.
    pub old_width: Option<Micrometres>,
}

/// The truth about the neighbours, where their signals may say otherwise.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Beyond {
    /// Upstream's Board Available is closed, a board there or not.
    pub(crate) claims: bool,
    /// The machine downstream does not run its belts for a board.
    pub(crate) stands: bool,
    /// Downstream's rails still have their old width.
    pub(crate) is_old: bool,
}

impl Beyond {
    /// The fields in a key: two bits, and one more with rails that change over.
    pub(crate) fn code(&mut self, neighbouring: Neighbouring, coder: &mut impl Coder) {
        coder.flag(&mut self.claims);
        coder.flag(&mut self.stands);
        if neighbouring.old_width.is_some() {
            coder.flag(&mut self.is_old);
        } else {
            self.is_old = false;
        }
    }
}

impl Machine {
    /// The same machine between neighbours whose signals may say what is not so.
    #[must_use]
    pub fn with_neighbours(self, neighbouring: Neighbouring) -> Machine {
        Machine {
            neighbouring: Some(neighbouring),
            smooth: false,
            ..self
        }
    }

    /// Upstream's Board Available is closed from now on whatever it has, or follows its boards
    /// again.
    pub fn upstream_claims(&self, s: &mut State, claims: bool, hear: &mut Hear) {
        s.beyond.claims = claims;
        s.upstream_fresh |= !self.signal_read(s, Side::Infeed);
        self.settle(s, hear);
    }

    /// Whether the machine downstream takes no board, whatever its signal says, and whether its
    /// rails still have their old width. A run of the belts that began before goes on as it began.
    pub fn downstream_stands(&self, s: &mut State, stands: bool, is_old: bool) {
        s.beyond.stands = stands;
        s.beyond.is_old = is_old;
    }

    /// Whether a hand-over runs at a side: the belts move for it, and its board is not yet wholly
    /// on the one who takes it.
    pub fn hands_over(&self, s: &State, side: Side) -> bool {
        let purpose = s.runners.purpose;
        !s.belts.is_rest()
            && match side {
                Side::Infeed => purpose.takes_in() && !s.runners.entered,
                Side::Outfeed => purpose.sends(),
            }
    }

    /// Upstream's belts stop in the middle of a hand-over and its signal opens. A board that does
    /// not lie on our belt by half slips back; one that does is drawn in by it.
    pub fn upstream_drops(&self, s: &mut State, hear: &mut Hear) {
        if !self.hands_over(s, Side::Infeed) {
            return;
        }
        let at = (s.runners.len as usize).wrapping_sub(1);
        let lead = self.leads(s).get(at).copied();
        let slips =
            s.runners.last().zip(lead).is_some_and(|(last, lead)| {
                2 * (lead - self.belt_start()) < self.length(last.board)
            });
        if slips {
            s.runners.entered = true;
            s.runners.drop_last();
        }
        self.upstream_signal(s, None, hear);
    }

    /// Downstream's signal opened. In the middle of a hand-over our belts stop: the board bridges
    /// the two machines, or lies at our end.
    ///
    /// Source: IPC-SMEMA-9851, both signals closed while a board is handed over; that the giving
    /// machine stops its belts is common practice.
    /// True if they do.
    #[inline]
    pub(crate) fn stop_if_dropped(
        &self,
        s: &mut State,
        hear: &mut (impl Listener + ?Sized),
    ) -> bool {
        let sends = matches!(s.phase, Phase::Sending | Phase::PassingThrough);
        let asks = s.service.settings.signals;
        let drops = sends && asks && s.belts.is_run();
        if drops {
            self.stop_in_hand_over(s, &mut |outcome| hear(outcome));
        }
        drops
    }

    #[inline(never)] // seldom, and it would make each signal dearer
    fn stop_in_hand_over(&self, s: &mut State, hear: &mut Hear) {
        if !self.first_has_left(s) {
            self.brake_belts(s, hear);
        }
    }

    /// Whether a board that upstream gives goes between our rails at all.
    pub fn goes_between_rails(&self, s: &State, board: Board) -> bool {
        let width = self.parts.kinds[board.kind as usize].width;
        !self.may_be_other_width(board) || width <= s.width(self)
    }

    /// Whether upstream may give a board that is not as wide as our rails want it: its rails may
    /// be others than ours, or it lies turned.
    fn may_be_other_width(&self, board: Board) -> bool {
        self.neighbouring.is_some() || self.odd(board.kind) == Some(BoardFault::Turned)
    }

    /// A board of another width than ours falls between our rails as it comes.
    #[inline]
    pub(crate) fn falls_as_it_comes(&self, s: &mut State, hear: &mut (impl Listener + ?Sized)) {
        // Mostly every board is as wide as its kind.
        if self.neighbouring.is_some() || !self.odds.is_empty() {
            self.falls_between_rails(s, &mut |outcome| hear(outcome));
        }
    }

    #[inline(never)] // keeps the frame of `board_entered` small
    fn falls_between_rails(&self, s: &mut State, hear: &mut Hear) {
        let at = (s.runners.len as usize).wrapping_sub(1);
        let last = s.runners.last();
        let Some(last) = last.filter(|last| self.may_be_other_width(last.board)) else {
            return;
        };
        let (mut board, width) = (last.board, s.width(self));
        if width > self.press_limits(board.kind).dropped_over {
            self.press_board(&mut board, Place::Belt(Side::Infeed), width, hear);
        }
        if let Some(runner) = s.runners.get_mut(at) {
            runner.board = board;
        }
    }

    /// Whether the first board runs against downstream's rails, which stand nearer than it is wide.
    pub(crate) fn meets_old_rails(&self, s: &State) -> bool {
        let Some(width) = self.old_width(s) else {
            return false;
        };
        let first = s.runners.first();
        first.is_some_and(|first| self.parts.kinds[first.board.kind as usize].width > width)
    }

    fn old_width(&self, s: &State) -> Option<Micrometres> {
        let neighbouring = self.neighbouring?;
        neighbouring.old_width.filter(|_| s.beyond.is_old)
    }

    /// What becomes of the board that has just left us, where nobody takes it as it should be
    /// taken: it falls over our end, or between rails that stand too far apart.
    pub(crate) fn falls_behind(&self, s: &State, hear: &mut Hear) {
        let (Some(first), Some(neighbouring)) = (s.runners.first(), self.neighbouring) else {
            return;
        };
        let kind = first.board.kind;
        let fallen = |number, limit| {
            Outcome::Harmed(Harm {
                kind: HarmKind::Dropped,
                board: Some(kind),
                place: None,
                number,
                limit,
            })
        };
        if first.board.condition >= Condition::Dropped {
            return;
        }
        if neighbouring.nobody_behind {
            return hear(fallen(self.length(first.board), 0));
        }
        if let Some(width) = self.old_width(s)
            && width > self.press_limits(kind).dropped_over
        {
            let clearance = width.0 - self.parts.kinds[kind as usize].width.0;
            hear(fallen(clearance, self.parts.ledge.0));
        }
    }
}
