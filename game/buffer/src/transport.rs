//! Boards that run on the belts. Places along the flow are those of a board's leading edge, in µm
//! from the rack's infeed end.

use rackproof_model::{Micrometres, Micros};

use crate::{
    AxisName, Board, Condition, Half, HalfSlot, Harm, HarmKind, Hear, Machine, Motion, Outcome,
    Phase, Place, State,
    runners::{Purpose, RUNNERS_MOST, Runners},
};

/// No stop in the way.
const NO_STOP: i32 = i32::MAX / 2;

impl Machine {
    pub(crate) fn length(&self, board: Board) -> i32 {
        self.parts.kinds[board.kind as usize].length.0
    }

    /// Where the outfeed belt ends.
    pub(crate) fn outfeed_end(&self) -> i32 {
        self.parts.rack_length.0 + self.parts.gap.0 + self.parts.outfeed_length.0
    }

    /// Where the leading edge of a board is that has just left the machine upstream no further than
    /// its end: at the start of our infeed belt.
    pub(crate) fn belt_start(&self) -> i32 {
        -self.parts.gap.0 - self.parts.infeed_length.0
    }

    /// How far the belts run for their purpose. `half` is the one to be filled.
    fn belts_way(&self, s: &State, half: Half) -> Micrometres {
        let [infeed_rest, outfeed_rest] = self.rest_leads().map(|lead| lead.0);
        let end = self.outfeed_end();
        let first = s.runners.list().next();
        let first_gone = first.map(|first| end + self.length(first.board) - first.start);
        Micrometres(match s.runners.purpose {
            Purpose::TakeIn => self.rest_leads()[half as usize].0 - self.belt_start(),
            Purpose::RunOut => end - infeed_rest,
            Purpose::Send => first_gone.unwrap_or(end - infeed_rest),
            Purpose::Through => {
                // At least until the last board lies wholly on our belts.
                let last = s.runners.last();
                let entered = last.map_or(0, |last| self.length(last.board));
                first_gone.unwrap_or(end - self.belt_start()).max(entered)
            }
            Purpose::RunPast | Purpose::DrawBack => {
                let past = self.parts.storing.draw_back.map_or(0, |back| back.past.0);
                self.parts.rack_length.0 + past - outfeed_rest
            }
        })
    }

    /// How far each runner can come: its own stop, or the tail of the one ahead.
    fn stops(&self, s: &State) -> [i32; RUNNERS_MOST] {
        let mut stop = match s.runners.purpose {
            Purpose::TakeIn => self.rest_leads()[1].0,
            Purpose::RunOut | Purpose::RunPast | Purpose::DrawBack => {
                let lying = s.outfeed_belt[0].map_or(0, |board| self.length(board));
                self.outfeed_end() - lying
            }
            Purpose::Send | Purpose::Through if s.faults.blocked => self.outfeed_end(),
            Purpose::Send | Purpose::Through => NO_STOP,
        };
        // The second board of a slot comes to rest at the mouth when the first has left.
        let mouth = self.rest_leads()[1].0;
        let stays = s.runners.purpose == Purpose::Send && self.stores_pairs(s);
        let mut stops = [NO_STOP; RUNNERS_MOST];
        for (at, runner) in s.runners.list().enumerate() {
            if stays && at > 0 && runner.start <= mouth {
                stop = stop.min(mouth);
            }
            stop = stop.min(self.jam_stop(runner).unwrap_or(NO_STOP));
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
        let covered = self.board_way(s, s.belts.covered(&self.parts.axes.belts).0);
        if s.runners.purpose == Purpose::DrawBack {
            return self.leads_drawn_back(s, covered);
        }
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
        let half = self.half_to_fill(s, s.slot);
        s.faults.slip = self.slip(s);
        s.faults.blocked = purpose.sends() && !self.downstream_takes(s);
        s.runners = Runners {
            purpose,
            ..Runners::default()
        };
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
            while let Some((half, board)) = s.rack.take_first(slot) {
                s.runners
                    .push(board, [infeed_rest, outfeed_rest][half as usize]);
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
        let way = self.belts_way(s, half);
        s.belts = Motion::begin(&self.parts.axes.belts, way);
        hear(Outcome::Started(AxisName::Belts));
    }

    /// Stops the belts as hard as they can.
    pub(crate) fn brake_belts(&self, s: &mut State, hear: &mut Hear) {
        if s.belts.is_run() {
            self.part_from_upstream(s, hear);
            let leads = self.leads(s);
            for (runner, lead) in s.runners.items.iter_mut().flatten().zip(leads) {
                runner.start = lead;
            }
            s.belts = s.belts.brake(&self.parts.axes.belts);
        }
    }

    /// The ways at which something happens on the belts.
    fn belt_marks(&self, s: &State) -> [Option<Micrometres>; 4] {
        if !s.belts.is_run() || s.runners.purpose == Purpose::DrawBack {
            return [None; 4];
        }
        let entering = s.runners.purpose.takes_in() && !s.runners.entered;
        let entered = s.runners.last().filter(|_| entering);
        let entered = entered.map(|last| self.belt_way(s, self.length(last.board)));
        // Mostly one board runs, alone, to where nobody looks.
        let meets = s.runners.purpose == Purpose::TakeIn && s.runners.len > 1;
        let reaches = s.phase == Phase::RunningOut;
        if !(meets || reaches || self.has_tall_parts()) {
            return [entered, None, None, None];
        }
        let stops = self.stops(s);
        let collided = meets
            .then(|| self.first_collision(s, &stops).map(|(_, way)| way))
            .flatten();
        let reached = reaches
            .then(|| self.first_at_end(s, &stops).map(|(_, way)| way))
            .flatten();
        let struck = self.first_struck(s, &stops).map(|(.., way)| way);
        let way = |way: Option<i32>| way.map(|way| self.belt_way(s, way));
        [entered, way(collided), way(reached), way(struck)]
    }

    /// The first runner that runs into the one before it, and the way until then.
    fn first_collision(&self, s: &State, stops: &[i32; RUNNERS_MOST]) -> Option<(usize, i32)> {
        let behind = s.runners.list().enumerate().skip(1);
        behind
            .filter(|(_, runner)| runner.board.condition < Condition::Collided)
            .filter(|(_, runner)| self.jam_stop(*runner).is_none())
            .map(|(at, runner)| (at, stops[at] - runner.start))
            .min_by_key(|&(_, way)| way)
    }

    /// The first runner that the end beam sees, and the way until then.
    fn first_at_end(&self, s: &State, stops: &[i32; RUNNERS_MOST]) -> Option<(usize, i32)> {
        let beam = self.outfeed_end() - self.parts.end_beam_before.0;
        let seen = s.runners.list().enumerate();
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
        for way in self.belt_marks(s).into_iter().flatten() {
            if let Some(at) = s.belts.time_to(axis, way) {
                next = next.min(at);
            }
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
        for (runner, stop) in s.runners.list().zip(self.stops(s)) {
            let edges = self.place_edges(self.length(runner.board));
            for edge in edges.into_iter().filter(|&edge| edge <= stop) {
                mark(edge - i32::from(back) - runner.start);
            }
        }
    }

    /// Does what is due on the belts. True if something was.
    #[inline(never)] // keeps the frame of `settle` small
    pub(crate) fn belts_due(&self, s: &mut State, hear: &mut Hear) -> bool {
        if s.belts.is_rest() {
            return false;
        }
        let marks = self.belt_marks(s);
        let over = s.belts.left() == Micros(0);
        if !over && marks == [None; 4] {
            return false;
        }
        let covered = s.belts.covered(&self.parts.axes.belts);
        let [entered, collided, reached, struck] =
            marks.map(|way| way.is_some_and(|way| covered >= way));
        if entered {
            s.runners.entered = true;
            self.board_entered(s, hear);
        }
        if collided {
            self.collide(s, hear);
        }
        if struck && let Some((at, other, _)) = self.first_struck(s, &self.stops(s)) {
            self.strike(s, at, other, hear);
        }
        if reached {
            self.reached_end(s, hear);
        }
        if !over {
            return entered || collided || reached || struck;
        }
        if s.phase == Phase::RunningPast && s.belts.is_run() {
            self.turn_back(s, hear);
            return true;
        }
        // Belts that slip may end their run with a board still half in the machine upstream.
        self.part_from_upstream(s, hear);
        let ran = s.belts.elapsed();
        let sends = [Phase::Sending, Phase::PassingThrough, Phase::SendingOff].contains(&s.phase);
        let sent = sends && s.belts.is_run() && self.first_has_left(s);
        self.run_into_downstream(s, hear);
        if sent {
            self.pushed_out(s, hear);
            self.falls_behind(s, hear);
            self.send_off(s);
        }
        self.deposit(s);
        s.belts = Motion::default();
        (s.faults.slip, s.faults.blocked) = (0, false);
        hear(Outcome::Stopped(AxisName::Belts));
        self.belts_arrived(s, sent, ran, hear);
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
