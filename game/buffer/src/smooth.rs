//! Work in which nothing is odd: nearly all of production. One board runs alone, nothing lies in
//! its way, and one axis moves at a time, so that the phase tells what may be due.
//!
//! It goes the way of [`Machine::settle_all`], step for step, and leaves to it what is not as it
//! mostly is. A test lays both beside each other.

use rackproof_model::{Micrometres, Micros};

use crate::{
    AxisName, Board, Half, HalfSlot, KINDS_MOST, LiftPlace, Listener, Machine, MachineParts,
    Motion, Order, Outcome, Phase, Side, State, UnitState, flow::Flow, production::Step,
    runners::Purpose, storing::lowest,
};

/// Whether boards of each kind run alone and come to rest in the outfeed half of a slot, by what
/// the file says. Beams in the middle, boards drawn back and tall parts ask for more than that.
pub(crate) fn may_be_smooth(parts: &MachineParts, parts_meet: bool) -> bool {
    let [_, rest] = crate::machine::rest_leads(parts);
    let rests_there = parts.kinds.iter().all(|kind| {
        let length = kind.length.0;
        (parts.rack_length.0 + length < 2 * rest.0) && length <= rest.0
    });
    let storing = &parts.storing;
    rests_there && !parts_meet && storing.middle_beam.is_none() && storing.draw_back.is_none()
}

/// A run of the belts with one board.
#[derive(Clone, Copy, Debug, Default)]
struct LoneRun {
    /// The leading edge at its beginning, in µm from the rack's infeed end.
    from: i32,
    way: Micrometres,
    time: Micros,
}

/// Those of one machine, worked out once: a root is dear.
#[derive(Clone, Copy, Debug)]
pub(crate) struct LoneRuns {
    takes_in: LoneRun,
    /// For each kind of board.
    sends: [LoneRun; KINDS_MOST],
}

impl LoneRuns {
    pub(crate) fn of(parts: &MachineParts, flow: &Flow) -> LoneRuns {
        let run = |from: i32, to: i32| {
            let way = Micrometres(to - from);
            let time = Motion::begin(&parts.axes.belts, way).left();
            LoneRun { from, way, time }
        };
        let rest = flow.rest_leads[1];
        let mut sends = [LoneRun::default(); KINDS_MOST];
        for (sends, kind) in sends.iter_mut().zip(&parts.kinds) {
            *sends = run(rest, flow.outfeed_end + kind.length.0);
        }
        LoneRuns {
            takes_in: run(flow.belt_start, rest),
            sends,
        }
    }
}

/// What came of it that something may have been due.
enum Due {
    /// It was done.
    Done,
    /// Nothing is due.
    Nothing,
    /// It is not as it mostly is.
    Odd,
}

impl Machine {
    /// Whether it is at work, and nothing is odd.
    #[inline]
    pub(crate) fn works_smoothly(&self, s: &State) -> bool {
        let works = self.smooth && s.unit == UnitState::Execute && s.alarms.first_up().is_none();
        debug_assert!(
            !works || !s.is_unsound(),
            "a machine without faults has one"
        );
        works
    }

    /// The same, where it waits at a slot: then nothing moves, and nobody is waited for but the
    /// neighbours.
    #[inline]
    pub(crate) fn waits_smoothly(&self, s: &State) -> bool {
        let waits = s.phase == Phase::Waiting && self.works_smoothly(s);
        debug_assert!(!waits || !(s.moves() || s.waits()), "something moves");
        waits
    }

    /// Does what is due where it waits at a slot: mostly a signal closes, and nothing begins.
    #[inline(never)] // keeps the frame of `settle` small
    pub(crate) fn settle_at_slot(&self, s: &mut State, hear: &mut (impl Listener + ?Sized)) {
        let begins = self.due_at_slot(s, hear);
        if begins.is_some() {
            self.go_on_smoothly(s, hear, begins);
        }
    }

    /// Does what begins, what moves, and what follows from it.
    #[inline(never)] // keeps the frame of `settle` small
    pub(crate) fn go_on_smoothly(
        &self,
        s: &mut State,
        hear: &mut (impl Listener + ?Sized),
        begins: Option<Step>,
    ) {
        match self.moves_smoothly(s, hear, begins) {
            // At the slot other signals may be closed by now.
            Due::Done => self.settle_at_slot(s, hear),
            Due::Nothing => {}
            Due::Odd => self.settle_oddly(s, hear),
        }
    }

    #[inline]
    fn due_at_slot(&self, s: &mut State, hear: &mut (impl Listener + ?Sized)) -> Option<Step> {
        let offered = s.neighbour_signal(Side::Infeed);
        let called = self.is_called_by(s, s.downstream_ready);
        // Without a beam in the middle no slot takes two.
        self.next_at_slot(s, [offered, called, false], hear)
    }

    /// What begins, and what moves: in the order in which a board comes by it, up to the first move
    /// that is not over.
    #[inline]
    fn moves_smoothly(
        &self,
        s: &mut State,
        hear: &mut (impl Listener + ?Sized),
        begins: Option<Step>,
    ) -> Due {
        match begins {
            Some(Step::TakeIn) if self.takes_in_alone(s, hear) => {}
            Some(Step::TakeIn) => {
                self.take_in(s, &mut |outcome| hear(outcome));
                return Due::Odd;
            }
            Some(Step::Send) => self.go_to_send(s, hear),
            None => {}
        }
        if s.phase == Phase::ToSend {
            match self.due_of_lift(s, hear) {
                Due::Done => self.at_slot_to_send(s, hear),
                other => return other,
            }
        }
        if matches!(s.phase, Phase::TakingIn | Phase::Sending) {
            match self.due_of_belts(s, hear) {
                Due::Done => self.wait_at(s, lowest(self.free_slots(s)), hear),
                other => return other,
            }
        }
        if s.phase == Phase::Seeking {
            match self.due_of_lift(s, hear) {
                Due::Done => s.phase = Phase::Waiting,
                other => return other,
            }
        }
        if s.phase == Phase::Waiting {
            Due::Done
        } else {
            Due::Odd
        }
    }

    /// The belts run with one board.
    #[inline]
    fn due_of_belts(&self, s: &mut State, hear: &mut (impl Listener + ?Sized)) -> Due {
        if s.runners.len != 1 || !s.belts.is_run() {
            return Due::Odd;
        }
        if s.belts.left() > Micros(0) {
            // At its start a run has come nowhere.
            let begins = s.belts.elapsed() == Micros(0);
            return if begins { Due::Nothing } else { Due::Odd };
        }
        if s.phase == Phase::TakingIn {
            self.took_in_alone(s, hear)
        } else {
            self.sent_alone(s, hear)
        }
    }

    /// The lift moves to a slot that production asked for.
    #[inline]
    fn due_of_lift(&self, s: &mut State, hear: &mut (impl Listener + ?Sized)) -> Due {
        if s.mouths != [None; 2] || !s.lift.is_run() {
            return Due::Odd;
        }
        if s.lift.left() > Micros(0) {
            return Due::Nothing;
        }
        let (at, way) = (LiftPlace::At(s.slot), s.lift.way());
        let height = s.lift_from + way;
        if self.height(at) != height {
            return Due::Odd;
        }
        (s.lift_place, s.lift_from, s.lift) = (at, height, Motion::default());
        if way.0 != 0 {
            hear(Outcome::Stopped(AxisName::Lift));
        }
        Due::Done
    }

    /// The lift stands at the slot that is sent.
    #[inline]
    fn at_slot_to_send(&self, s: &mut State, hear: &mut (impl Listener + ?Sized)) {
        let called = self.is_called_by(s, s.downstream_ready);
        if !(s.board_available && called && s.order_len > 0 && self.sends_alone(s, hear)) {
            self.send_if_called(s, &mut |outcome| hear(outcome));
        }
    }

    /// Whether nothing lies in the slot at the belts, or just so many boards in its outfeed half.
    #[inline]
    fn lies_there(s: &State, in_outfeed: u64) -> bool {
        let present = s.rack.present();
        s.lift_place == LiftPlace::At(s.slot)
            && present.infeed >> s.slot & 1 == 0
            && present.outfeed >> s.slot & 1 == in_outfeed
    }

    /// The board from upstream begins to run into the empty slot, if nothing is in its way.
    #[inline]
    fn takes_in_alone(&self, s: &mut State, hear: &mut (impl Listener + ?Sized)) -> bool {
        let free = s.infeed_belt.is_none() && s.mouths[0].is_none() && Machine::lies_there(s, 0);
        let stores = self.order_in_force(s) != Order::StraightThrough;
        let Some(board) = s.upstream_board.filter(|_| free && stores) else {
            return false;
        };
        s.upstream_fresh = false;
        s.phase = Phase::TakingIn;
        self.run_alone(s, Purpose::TakeIn, board, self.lone_runs.takes_in, hear);
        true
    }

    /// The board in the slot begins to run to the machine downstream, if nothing is in its way.
    #[inline]
    fn sends_alone(&self, s: &mut State, hear: &mut (impl Listener + ?Sized)) -> bool {
        let free = s.outfeed_belt == [None; 2] && s.mouths[1].is_none() && !s.beyond.stands;
        let at = HalfSlot {
            slot: s.slot,
            half: Half::Outfeed,
        };
        if !free || !Machine::lies_there(s, 1) {
            return false;
        }
        let Some(board) = s.rack.take(at) else {
            return false;
        };
        s.downstream_fresh = false;
        s.phase = Phase::Sending;
        let run = self.lone_runs.sends[board.kind as usize];
        self.run_alone(s, Purpose::Send, board, run, hear);
        true
    }

    #[inline]
    fn run_alone(
        &self,
        s: &mut State,
        purpose: Purpose,
        board: Board,
        run: LoneRun,
        hear: &mut (impl Listener + ?Sized),
    ) {
        s.runners.begin_alone(purpose, board, run.from);
        s.belts = Motion::begin_known(run.way, run.time);
        hear(Outcome::Started(AxisName::Belts));
    }

    #[inline]
    fn end_run_alone(&self, s: &mut State, hear: &mut (impl Listener + ?Sized)) {
        s.runners.end_alone();
        s.belts = Motion::default();
        hear(Outcome::Stopped(AxisName::Belts));
    }

    /// The belts that took a board in came to rest, and nothing else lies in its slot.
    #[inline]
    fn took_in_alone(&self, s: &mut State, hear: &mut (impl Listener + ?Sized)) -> Due {
        let arrives = |board: Board| self.infeed_sees >> board.kind & 1 == 1;
        let Some(board) = s.runners.first().map(|runner| runner.board) else {
            return Due::Odd;
        };
        if !arrives(board) || !Machine::lies_there(s, 0) {
            return Due::Odd;
        }
        if !s.runners.entered {
            self.board_entered(s, hear);
        }
        let at = HalfSlot {
            slot: s.slot,
            half: Half::Outfeed,
        };
        s.rack.set(at, board);
        self.end_run_alone(s, hear);
        self.stored(s, hear);
        Due::Done
    }

    /// The belts that sent a board came to rest, and it has left.
    #[inline]
    fn sent_alone(&self, s: &mut State, hear: &mut (impl Listener + ?Sized)) -> Due {
        let asked = s.service.settings.signals && !s.faults.blocked;
        let left = s.runners.first().is_some_and(|first| {
            first.start + s.belts.way().0 >= self.outfeed_end() + self.length(first.board)
        });
        if !asked || !left {
            return Due::Odd;
        }
        self.end_run_alone(s, hear);
        self.has_sent(s, hear);
        Due::Done
    }
}

#[cfg(test)]
#[path = "smooth_tests.rs"]
mod tests;
