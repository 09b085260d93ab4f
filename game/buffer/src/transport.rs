//! Boards that run on the belts. Places along the flow are those of a board's leading edge, in µm
//! from the rack's infeed end.

use rackproof_model::{Micrometres, Micros};

use crate::{
    AxisName, Board, Condition, Half, HalfSlot, Harm, HarmKind, Hear, Machine, Motion, Outcome,
    Phase, Place, State,
    runners::{Purpose, RUNNERS_MOST, Runners},
};

impl Machine {
    /// How far the belts run for their purpose.
    #[inline]
    fn belts_way(&self, s: &State) -> Micrometres {
        let [infeed_rest, outfeed_rest] = self.rest_leads().map(|lead| lead.0);
        let end = self.outfeed_end();
        let first_gone = || {
            let first = s.runners.first()?;
            Some(end + self.length(first.board) - first.start)
        };
        Micrometres(match s.runners.purpose {
            Purpose::TakeIn => {
                let half = self.half_to_fill(s, s.slot);
                self.rest_leads()[half as usize].0 - self.belt_start()
            }
            Purpose::RunOut => end - infeed_rest,
            Purpose::Send => first_gone().unwrap_or(end - infeed_rest),
            Purpose::Through => {
                // At least until the last board lies wholly on our belts.
                let last = s.runners.last();
                let entered = last.map_or(0, |last| self.length(last.board));
                first_gone().unwrap_or(end - self.belt_start()).max(entered)
            }
            Purpose::RunPast | Purpose::DrawBack => {
                let past = self.parts.storing.draw_back.map_or(0, |back| back.past.0);
                self.parts.rack_length.0 + past - outfeed_rest
            }
        })
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
        s.faults.slip = self.slip(s);
        s.faults.blocked = purpose.sends() && !self.downstream_takes(s);
        s.runners = Runners::running_for(purpose);
        let [on_infeed, before_end, at_end] = self.belt_leads();
        if purpose.sends()
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
            for half in [Half::Outfeed, Half::Infeed] {
                if let Some(board) = s.rack.take(HalfSlot { slot, half }) {
                    s.runners
                        .push(board, [infeed_rest, outfeed_rest][half as usize]);
                }
            }
        }
        let belt_start = self.belt_start();
        if purpose.takes_in() {
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
        }
        s.faults.blocked |= purpose.sends() && self.meets_old_rails(s);
        let way = self.belts_way(s);
        s.belts = Motion::begin(&self.parts.axes.belts, way);
        hear(Outcome::Started(AxisName::Belts));
    }

    /// Stops the belts as hard as they can.
    pub(crate) fn brake_belts(&self, s: &mut State, hear: &mut Hear) {
        if s.belts.is_run() {
            self.part_from_upstream(s, hear);
            self.begin_where_they_are(s);
            s.belts = s.belts.brake(&self.parts.axes.belts);
        }
    }

    /// The way at which the board from upstream lies wholly on our belts, until it has.
    #[inline(always)] // mostly it finds nothing
    fn entered_mark(&self, s: &State) -> Option<Micrometres> {
        if !s.runners.purpose.takes_in() || s.runners.entered || !s.belts.is_run() {
            return None;
        }
        let last = s.runners.last()?;
        Some(self.belt_way(s, self.length(last.board)))
    }

    /// Whether a runner may meet another one, the end beam, or a board in another slot. Mostly one
    /// runs, alone, to where nobody looks.
    #[inline]
    fn may_meet(&self, s: &State) -> bool {
        let meets = s.runners.purpose == Purpose::TakeIn && s.runners.len > 1;
        meets || s.phase == Phase::RunningOut || self.parts_may_meet()
    }

    /// The ways at which runners meet something: another runner, the end beam, a board in another
    /// slot.
    fn meeting_marks(&self, s: &State) -> [Option<Micrometres>; 3] {
        if !self.may_meet(s) || !s.belts.is_run() || s.runners.purpose == Purpose::DrawBack {
            return [None; 3];
        }
        let stops = self.stops(s);
        let meets = s.runners.purpose == Purpose::TakeIn && s.runners.len > 1;
        let collided = meets
            .then(|| self.first_collision(s, &stops).map(|(_, way)| way))
            .flatten();
        let reached = (s.phase == Phase::RunningOut)
            .then(|| self.first_at_end(s, &stops).map(|(_, way)| way))
            .flatten();
        let struck = self.first_struck(s, &stops).map(|(.., way)| way);
        [collided, reached, struck].map(|way| way.map(|way| self.belt_way(s, way)))
    }

    /// The first runner that runs into the one before it, and the way until then.
    fn first_collision(&self, s: &State, stops: &[i32; RUNNERS_MOST]) -> Option<(usize, i32)> {
        let behind = s.runners.list().iter().enumerate().skip(1);
        behind
            .filter(|(_, runner)| runner.board.condition < Condition::Collided)
            .filter(|(_, runner)| self.jam_stop(**runner).is_none())
            .map(|(at, runner)| (at, stops[at] - runner.start))
            .min_by_key(|&(_, way)| way)
    }

    /// The first runner that the end beam sees, and the way until then.
    fn first_at_end(&self, s: &State, stops: &[i32; RUNNERS_MOST]) -> Option<(usize, i32)> {
        let beam = self.outfeed_end() - self.parts.end_beam_before.0;
        let seen = s.runners.list().iter().enumerate();
        seen.filter(|(at, runner)| stops[*at] >= beam && self.end_sees(s, runner.board.kind))
            .map(|(at, runner)| (at, beam - runner.start))
            .min_by_key(|&(_, way)| way)
    }

    /// Time to the belts' next event.
    pub(crate) fn belts_next(&self, s: &State) -> Option<Micros> {
        if s.belts.is_rest() {
            return None;
        }
        let axis = &self.parts.axes.belts;
        let mut next = s.belts.left();
        let mut mark = |way: Option<Micrometres>| {
            if let Some(at) = way.and_then(|way| s.belts.time_to(axis, way)) {
                next = next.min(at);
            }
        };
        mark(self.entered_mark(s));
        if self.may_meet(s) {
            self.meeting_marks(s).into_iter().for_each(mark);
        }
        Some(next)
    }

    /// Moments before the next event at which a stop leaves boards elsewhere: the last before a
    /// board would come to lie in the next of the places where boards lie at rest.
    pub(crate) fn belts_critical(&self, s: &State, found: &mut dyn FnMut(Micros)) {
        if !s.belts.is_run() {
            return;
        }
        let axis = &self.parts.axes.belts;
        let back = s.runners.purpose == Purpose::DrawBack;
        let mut mark = |way: i32| {
            if way != 0 && (way < 0) == back {
                crate::time::last_stop_before(&s.belts, axis, self.belt_way(s, way), found);
            }
        };
        if s.runners.purpose.takes_in() && !s.runners.entered {
            // Short of this the incoming board is still in the machine upstream.
            mark(1);
        }
        for (runner, stop) in s.runners.list().iter().zip(self.stops(s)) {
            let edges = self.place_edges(runner.board.kind);
            for edge in edges.into_iter().filter(|&edge| edge <= stop) {
                mark(edge - i32::from(back) - runner.start);
            }
        }
    }

    /// Does what is due on belts that run. True if something was.
    #[inline(never)] // keeps the frame of `settle` small
    pub(crate) fn belts_due(&self, s: &mut State, hear: &mut Hear) -> bool {
        let over = s.belts.left() == Micros(0);
        let entering = self.entered_mark(s);
        let meeting = self.may_meet(s);
        // At its start a run has come nowhere.
        let begins = s.belts.elapsed() == Micros(0);
        if !over && !meeting && (begins || entering.is_none()) {
            return false;
        }
        let covered = s.belts.covered(&self.parts.axes.belts);
        let entered = entering.is_some_and(|way| covered >= way);
        let mut met = false;
        if meeting {
            // By what was so before any of it happens.
            let marks = self.meeting_marks(s);
            self.enter_if(s, entered, hear);
            met = self.met(s, marks, covered, hear);
        } else {
            self.enter_if(s, entered, hear);
        }
        if !over {
            return entered || met;
        }
        if s.phase == Phase::RunningPast && s.belts.is_run() {
            self.turn_back(s, hear);
        } else {
            self.belts_end(s, hear);
        }
        true
    }

    #[inline]
    fn enter_if(&self, s: &mut State, entered: bool, hear: &mut Hear) {
        if entered {
            s.runners.entered = true;
            self.board_entered(s, hear);
        }
    }

    /// The belts have come to the end of their motion.
    #[inline]
    fn belts_end(&self, s: &mut State, hear: &mut Hear) {
        // Belts that slip may end their run with a board still half in the machine upstream.
        self.part_from_upstream(s, hear);
        let ran = s.belts.elapsed();
        let sends = matches!(
            s.phase,
            Phase::Sending | Phase::PassingThrough | Phase::SendingOff
        );
        // They lie where they are: the belts have come to rest.
        let lead = self.begin_where_they_are(s);
        let left = lead.is_some_and(|lead| self.has_left(s, lead));
        let sent = sends && s.belts.is_run() && left;
        if let Some(lead) = lead {
            self.run_into_downstream(s, lead, hear);
        }
        if sent {
            self.pushed_out(s, hear);
            self.falls_behind(s, hear);
            s.runners.drop_first();
        }
        self.deposit(s);
        s.belts = Motion::default();
        (s.faults.slip, s.faults.blocked) = (0, false);
        hear(Outcome::Stopped(AxisName::Belts));
        self.belts_arrived(s, sent, ran, hear);
    }

    /// Does what becomes of runners that have met something. True if there was anything.
    fn met(
        &self,
        s: &mut State,
        marks: [Option<Micrometres>; 3],
        covered: Micrometres,
        hear: &mut Hear,
    ) -> bool {
        let [collided, reached, struck] = marks.map(|way| way.is_some_and(|way| covered >= way));
        if collided {
            self.collide(s, hear);
        }
        if struck && let Some((at, other, _)) = self.first_struck(s, &self.stops(s)) {
            self.strike(s, at, other, hear);
        }
        if reached {
            self.reached_end(s, hear);
        }
        collided || reached || struck
    }

    fn collide(&self, s: &mut State, hear: &mut Hear) {
        let stops = self.stops(s);
        let Some((at, _)) = self.first_collision(s, &stops) else {
            return;
        };
        let wanted = self.rest_leads()[1].0;
        for hit in [at - 1, at] {
            if let Some(runner) = s.runners.get_mut(hit) {
                runner.board.worsen(Condition::Collided);
            }
        }
        let board = s.runners.get_mut(at).map(|runner| runner.board.kind);
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
}
