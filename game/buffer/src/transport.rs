//! Boards that run on the belts. Places along the flow are those of a board's leading edge, in µm
//! from the rack's infeed end.

use rackproof_model::{Micrometres, Micros, key::Coder};

use crate::{
    AxisName, Board, Condition, Half, HalfSlot, Harm, HarmKind, Hear, Machine, Motion, Outcome,
    Phase, Place, State,
};

/// Most boards that run at once.
const RUNNERS_MOST: usize = 6;
/// No stop in the way.
const NO_STOP: i32 = i32::MAX / 2;

/// What the belts run for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Purpose {
    /// A board comes from upstream into the slot.
    #[default]
    TakeIn,
    /// The slot is run out onto the outfeed belt.
    RunOut,
    /// The first board goes to the machine downstream.
    Send,
}

/// A board that runs on the belts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Runner {
    pub(crate) board: Board,
    /// Its leading edge when this motion began.
    start: i32,
}

/// The boards that run, the one farthest along the flow first.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Runners {
    items: [Option<Runner>; RUNNERS_MOST],
    len: u8,
    purpose: Purpose,
    /// No board is coming in any more: the last runner lies wholly on our belts.
    entered: bool,
}

impl Runners {
    fn push(&mut self, board: Board, start: i32) {
        debug_assert!(
            (self.len as usize) < RUNNERS_MOST,
            "too many boards on the belts"
        );
        self.items[self.len as usize] = Some(Runner { board, start });
        self.len += 1;
    }

    pub(crate) fn list(&self) -> impl Iterator<Item = Runner> + '_ {
        self.items.iter().take(self.len as usize).copied().flatten()
    }

    /// How many run, without one that is still leaving the machine upstream.
    #[cfg(test)]
    pub(crate) fn boards_inside(&self) -> usize {
        let leaving = self.len > 0 && self.purpose == Purpose::TakeIn && !self.entered;
        self.list().count() - usize::from(leaving)
    }

    /// The fields in a key.
    pub(crate) fn code(&mut self, coder: &mut impl Coder) {
        coder.byte(&mut self.len, 3);
        let mut purpose = self.purpose as u8;
        coder.byte(&mut purpose, 2);
        self.purpose = match purpose {
            0 => Purpose::TakeIn,
            1 => Purpose::RunOut,
            _ => Purpose::Send,
        };
        coder.flag(&mut self.entered);
        self.items[(self.len as usize).min(RUNNERS_MOST)..].fill(None);
        for at in 0..self.len as usize {
            let runner = self.items[at].unwrap_or(Runner {
                board: Board::good(0),
                start: 0,
            });
            let (mut board, mut start) = (Some(runner.board), runner.start);
            crate::coding::code_board(&mut board, coder);
            coder.signed(&mut start);
            self.items[at] = board.map(|board| Runner { board, start });
        }
    }
}

impl Machine {
    pub(crate) fn length(&self, board: Board) -> i32 {
        self.parts.kinds[board.kind as usize].length.0
    }

    /// Where the outfeed belt ends.
    pub(crate) fn outfeed_end(&self) -> i32 {
        self.parts.rack_length.0 + self.parts.gap.0 + self.parts.outfeed_length.0
    }

    /// How far each runner can come: its own stop, or the tail of the one ahead.
    fn stops(&self, s: &State) -> [i32; RUNNERS_MOST] {
        let mut stop = match s.runners.purpose {
            Purpose::TakeIn => self.rest_leads()[1].0,
            Purpose::RunOut => {
                let lying = s.outfeed_belt[0].map_or(0, |board| self.length(board));
                self.outfeed_end() - lying
            }
            Purpose::Send => NO_STOP,
        };
        let mut stops = [NO_STOP; RUNNERS_MOST];
        for (at, runner) in s.runners.list().enumerate() {
            stops[at] = stop;
            stop = if stop == NO_STOP {
                self.outfeed_end()
            } else {
                stop - self.length(runner.board)
            };
        }
        stops
    }

    /// Leading edges now.
    pub(crate) fn leads(&self, s: &State) -> [i32; RUNNERS_MOST] {
        let covered = s.belts.covered(&self.parts.axes.belts).0;
        let mut leads = self.stops(s);
        for (lead, runner) in leads.iter_mut().zip(s.runners.list()) {
            *lead = (*lead).min(runner.start + covered).max(runner.start);
        }
        leads
    }

    /// Starts the belts. `incoming` comes from upstream.
    pub(crate) fn run_belts(
        &self,
        s: &mut State,
        purpose: Purpose,
        incoming: Option<Board>,
        hear: &mut Hear,
    ) {
        let [infeed_rest, outfeed_rest] = self.rest_leads().map(|lead| lead.0);
        s.runners = Runners {
            purpose,
            ..Runners::default()
        };
        let (gap, end) = (self.parts.gap.0, self.outfeed_end());
        let [on_infeed, before_end, at_end] = self.belt_leads();
        if purpose == Purpose::Send
            && let Some(board) = s.outfeed_belt[0].take()
        {
            s.runners.push(board, at_end);
        }
        if purpose != Purpose::TakeIn
            && let Some(board) = s.outfeed_belt[1].take()
        {
            s.runners.push(board, before_end);
        }
        if purpose != Purpose::TakeIn
            && let Some(board) = s.mouths[1].take()
        {
            let lead = self.mouth_leads(self.length(board))[1];
            s.runners.push(board, lead);
        }
        if let Some(slot) = s.slot_at_belts() {
            while let Some((half, board)) = s.rack.take_first(slot) {
                s.runners
                    .push(board, [infeed_rest, outfeed_rest][half as usize]);
            }
        }
        let belt_start = -gap - self.parts.infeed_length.0;
        let way = match purpose {
            Purpose::TakeIn => {
                if let Some(board) = s.mouths[0].take() {
                    let lead = self.mouth_leads(self.length(board))[0];
                    s.runners.push(board, lead);
                }
                if let Some(board) = s.infeed_belt.take() {
                    s.runners.push(board, on_infeed);
                }
                // Four boards are all that lie from the belt's start to the slot's end: with them
                // there the incoming one stays where it is, in the machine upstream.
                match incoming {
                    Some(board) if s.runners.len < 4 => s.runners.push(board, belt_start),
                    _ => s.runners.entered = true,
                }
                outfeed_rest - belt_start
            }
            Purpose::RunOut => end - infeed_rest,
            Purpose::Send => {
                let first = s.runners.list().next();
                first.map_or(end - infeed_rest, |first| {
                    end + self.length(first.board) - first.start
                })
            }
        };
        s.belts = Motion::begin(&self.parts.axes.belts, Micrometres(way));
        hear(Outcome::Started(AxisName::Belts));
    }

    /// Stops the belts as hard as they can.
    pub(crate) fn brake_belts(&self, s: &mut State, hear: &mut Hear) {
        if s.belts.is_run() {
            if s.runners.purpose == Purpose::TakeIn && !s.runners.entered {
                s.runners.entered = true;
                if self.stays_upstream(s) {
                    s.runners.len -= 1;
                    s.upstream_fresh = true;
                } else {
                    // A board that bridges the two machines counts as ours: our belt holds it.
                    self.board_entered(s, hear);
                }
            }
            let leads = self.leads(s);
            for (runner, lead) in s.runners.items.iter_mut().flatten().zip(leads) {
                runner.start = lead;
            }
            let running = s.runners.len as usize;
            s.runners.items[running..].fill(None);
            s.belts = s.belts.brake(&self.parts.axes.belts);
        }
    }

    /// Whether a stop now leaves the incoming board in the machine upstream: it does not reach our
    /// belt, or another board still lies there.
    fn stays_upstream(&self, s: &State) -> bool {
        let axis = &self.parts.axes.belts;
        let end = (s.belts.covered(axis) + s.belts.stopping_way(axis)).0;
        let before = s
            .runners
            .list()
            .nth((s.runners.len as usize).wrapping_sub(2));
        let belt_taken = before.is_some_and(|before| before.start + end <= -self.parts.gap.0);
        end == 0 || belt_taken
    }

    /// The ways at which something happens on the belts.
    fn belt_marks(&self, s: &State) -> [Option<Micrometres>; 3] {
        if !s.belts.is_run() {
            return [None; 3];
        }
        let stops = self.stops(s);
        let last = s.runners.list().last();
        let entering = s.runners.purpose == Purpose::TakeIn && !s.runners.entered;
        let entered = last
            .filter(|_| entering)
            .map(|last| self.length(last.board));
        let collided = (s.runners.purpose == Purpose::TakeIn)
            .then(|| self.first_collision(s, &stops).map(|(_, way)| way))
            .flatten();
        let reached = match s.phase {
            Phase::RunningOut => self.first_at_end(s, &stops).map(|(_, way)| way),
            _ => None,
        };
        [entered, collided, reached].map(|way| way.map(Micrometres))
    }

    /// The first runner that runs into the one before it, and the way until then.
    fn first_collision(&self, s: &State, stops: &[i32; RUNNERS_MOST]) -> Option<(usize, i32)> {
        let behind = s.runners.list().enumerate().skip(1);
        behind
            .filter(|(_, runner)| runner.board.condition < Condition::Collided)
            .map(|(at, runner)| (at, stops[at] - runner.start))
            .min_by_key(|&(_, way)| way)
    }

    /// The first runner that the end beam sees, and the way until then.
    fn first_at_end(&self, s: &State, stops: &[i32; RUNNERS_MOST]) -> Option<(usize, i32)> {
        let beam = self.outfeed_end() - self.parts.end_beam_before.0;
        let seen = s.runners.list().enumerate();
        seen.filter(|(at, runner)| stops[*at] >= beam && self.end_beam_sees(runner.board.kind))
            .map(|(at, runner)| (at, beam - runner.start))
            .min_by_key(|&(_, way)| way)
    }

    /// Time to the belts' next event.
    pub(crate) fn belts_next(&self, s: &State) -> Option<Micros> {
        if s.belts.is_rest() {
            return None;
        }
        let axis = &self.parts.axes.belts;
        let marks = self.belt_marks(s).into_iter().flatten();
        marks
            .filter_map(|way| s.belts.time_to(axis, way))
            .chain([s.belts.left()])
            .min()
    }

    /// Moments before the next event at which a stop leaves boards elsewhere: the last before a
    /// board would come to lie in the next of the places where boards lie at rest.
    pub(crate) fn belts_critical(&self, s: &State, found: &mut dyn FnMut(Micros)) {
        if !s.belts.is_run() {
            return;
        }
        let axis = &self.parts.axes.belts;
        let mut mark = |way: i32| {
            if way > 0 {
                crate::time::last_stop_before(&s.belts, axis, Micrometres(way), found);
            }
        };
        if s.runners.purpose == Purpose::TakeIn && !s.runners.entered {
            // Short of this the incoming board is still in the machine upstream.
            mark(1);
        }
        for (runner, stop) in s.runners.list().zip(self.stops(s)) {
            let edges = self.place_edges(self.length(runner.board));
            for edge in edges.into_iter().filter(|&edge| edge <= stop) {
                mark(edge - runner.start);
            }
        }
    }

    /// Does what is due on the belts. True if something was.
    pub(crate) fn belts_due(&self, s: &mut State, hear: &mut Hear) -> bool {
        if s.belts.is_rest() {
            return false;
        }
        let covered = s.belts.covered(&self.parts.axes.belts);
        let [entered, collided, reached] = self
            .belt_marks(s)
            .map(|way| way.is_some_and(|way| covered >= way));
        if entered {
            s.runners.entered = true;
            self.board_entered(s, hear);
        }
        if collided {
            self.collide(s, hear);
        }
        if reached {
            self.reached_end(s, hear);
        }
        if s.belts.left() > Micros(0) {
            return entered || collided || reached;
        }
        let sends = matches!(s.phase, Phase::Sending | Phase::SendingOff);
        let sent = sends && s.belts.is_run() && s.runners.len > 0;
        if sent {
            self.pushed_out(s, hear);
            self.send_off(s);
        }
        self.deposit(s);
        s.belts = Motion::default();
        hear(Outcome::Stopped(AxisName::Belts));
        self.belts_arrived(s, sent, hear);
        true
    }

    fn collide(&self, s: &mut State, hear: &mut Hear) {
        let stops = self.stops(s);
        let Some((at, _)) = self.first_collision(s, &stops) else {
            return;
        };
        let wanted = self.rest_leads()[1].0;
        for hit in [at - 1, at] {
            if let Some(runner) = &mut s.runners.items[hit] {
                runner.board.worsen(Condition::Collided);
            }
        }
        let board = s.runners.items[at].map(|runner| runner.board.kind);
        let place = s.slot_at_belts().map(|slot| {
            Place::Slot(HalfSlot {
                slot,
                half: Half::Outfeed,
            })
        });
        let (number, limit) = (wanted - stops[at], 0);
        let kind = HarmKind::Collided;
        hear(Outcome::Harmed(Harm {
            kind,
            board,
            place,
            number,
            limit,
        }));
    }

    /// The first runner is gone.
    fn send_off(&self, s: &mut State) {
        let leads = self.leads(s);
        let mut left = Runners {
            purpose: s.runners.purpose,
            ..Runners::default()
        };
        for (runner, lead) in s.runners.list().zip(leads).skip(1) {
            left.push(runner.board, lead);
        }
        s.runners = left;
        // They lie where they are: the belts have come to rest.
        s.belts = Motion::default();
    }
}
