//! The clear-out: slot by slot, each answered by a person. Slow on purpose.

use rackproof_model::Micros;

use crate::{
    Alarm, Answer, Asks, Defect, Half, Hear, LiftPlace, Machine, Mode, Outcome, Phase, Refusal,
    Side, State, Task, UnitState, halves::slots_mask, outcome::Question, panel::set_task,
    runners::Purpose,
};

impl Machine {
    /// Chooses the clear-out as the task: in Idle anew, see [`Machine::slots_to_clear`], of what is
    /// unknown after a sweep that saw a board.
    pub(crate) fn choose_clear_out(&self, s: &mut State, hear: &mut Hear) -> Result<(), Refusal> {
        if s.mode != Mode::Changeover {
            return Err(Refusal::Mode);
        }
        match (s.unit, s.question()) {
            (UnitState::Idle, _) => {
                s.map = crate::SlotMap {
                    unknown: self.slots_to_clear(s),
                    ..Default::default()
                };
                s.order_len = 0;
                s.service.said_before = 0;
            }
            (UnitState::Held, Some(Question::Seen(_))) => {}
            _ => return Err(Refusal::State(s.unit)),
        }
        set_task(s, Task::ClearOut, hear);
        Ok(())
    }

    /// What a clear-out from Idle asks about: the slots that the loaded product uses, and what the
    /// map does not believe empty. If one that the product passes over is unknown, every slot: a
    /// clear-out that was broken off is not made whole by another of fewer slots.
    pub(crate) fn slots_to_clear(&self, s: &State) -> u64 {
        let used = self.used_slots(s);
        let asked = if s.map.unknown & !used == 0 {
            used
        } else {
            slots_mask(s.service.settings.slot_count) | s.map.unknown
        };
        asked | s.map.full
    }

    /// One of the sets of unknown slots, not empty, that are alike outside a clear-out: the same
    /// products pass over one of their slots, so that whichever is loaded, a new clear-out asks
    /// about the same.
    pub(crate) fn unknown_alike(&self, s: &State) -> u64 {
        let counted = slots_mask(s.service.settings.slot_count);
        let used = self.used[..self.parts.products.len()].iter();
        let whole = used
            .map(|used| used & counted)
            .filter(|used| s.map.unknown & !used == 0);
        whole.fold(counted, |all, used| all & used)
    }

    /// Begins with the lowest unknown slot.
    pub(crate) fn first_unknown(&self, s: &mut State, hear: &mut Hear) {
        s.slot = s.service.settings.slot_count - 1;
        self.next_unknown(s, hear);
    }

    /// Goes to the next unknown slot above, from the lowest again after the highest. None left: the
    /// clear-out is done.
    pub(crate) fn next_unknown(&self, s: &mut State, hear: &mut Hear) {
        let slots = s.service.settings.slot_count;
        let next = (1..=slots)
            .map(|step| (s.slot + step) % slots)
            .find(|slot| s.map.unknown >> slot & 1 == 1);
        if let Some(slot) = next {
            s.slot = slot;
            s.phase = Phase::Indexing;
            self.send_lift(s, LiftPlace::At(slot), hear);
        } else {
            hear(Outcome::ClearedOut);
            self.complete(s, hear);
        }
    }

    /// Runs the slot's belts and the outfeed belt out.
    pub(crate) fn run_out(&self, s: &mut State, hear: &mut Hear) {
        if self.end_is_broken(s) {
            // The end beam is broken already: nothing runs until that board is taken.
            return self.at_end(s, hear);
        }
        s.phase = Phase::RunningOut;
        self.run_belts(s, Purpose::RunOut, None, hear);
    }

    /// A board is at the end beam.
    pub(crate) fn reached_end(&self, s: &mut State, hear: &mut Hear) {
        s.phase = Phase::ReachedEnd;
        hear(Outcome::BoardReachedEnd(s.slot));
        self.brake_belts(s, hear);
    }

    /// The belts came to rest after so long. `sent`: a board left for the machine downstream.
    pub(crate) fn belts_arrived(&self, s: &mut State, sent: bool, ran: Micros, hear: &mut Hear) {
        match s.phase {
            Phase::RunningOut if self.has(Defect::RunsOutUnasked) => {
                s.map.unknown &= !(1 << s.slot);
                self.next_unknown(s, hear);
            }
            Phase::RunningOut => self.ask_answer(s, hear),
            Phase::ReachedEnd => self.at_end(s, hear),
            Phase::SendingOff => self.sent_off(s, sent, hear),
            Phase::TakingIn => self.taken_in(s, ran, hear),
            Phase::Sending => self.sent(s, sent, ran, hear),
            Phase::PassingThrough => self.passed(s, sent, ran, hear),
            Phase::DrawingBack => self.send_if_called(s, hear),
            Phase::NothingPast => self.await_arrival(s, ran, hear),
            _ => {}
        }
    }

    /// Nothing came: a person must look, and answer.
    fn ask_answer(&self, s: &mut State, hear: &mut Hear) {
        let phase = match self.parts.service.clear_out_asks {
            Asks::Slot => Phase::AskAnswer,
            Asks::Place => Phase::AskHalf,
        };
        (s.service.asked, s.service.halves) = (Half::Infeed, [false; 2]);
        self.hold(s, phase, hear);
    }

    /// A board is at the end: the machine downstream takes it, where it does so and its signal is
    /// closed, or a hand.
    fn at_end(&self, s: &mut State, hear: &mut Hear) {
        let closed = s.downstream_fresh && self.signal_read(s, Side::Outfeed);
        let ready = closed && s.available_open_left.0 == 0;
        if !(self.parts.service.downstream_takes && ready) {
            return self.hold(s, Phase::AskTake, hear);
        }
        self.set_board_available(s, true, hear);
        s.downstream_fresh = false;
        s.phase = Phase::SendingOff;
        self.run_belts(s, Purpose::Send, None, hear);
    }

    /// The machine downstream has the board: is there another in the slot?
    fn sent_off(&self, s: &mut State, sent: bool, hear: &mut Hear) {
        self.board_left(s, hear);
        if !sent {
            return self.hold(s, Phase::AskTake, hear);
        }
        hear(Outcome::BoardSent(s.slot));
        self.run_out(s, hear);
    }

    pub(crate) fn answer(
        &self,
        s: &mut State,
        answer: Answer,
        hear: &mut Hear,
    ) -> Result<(), Refusal> {
        let (slot, answer) = match s.question() {
            Some(Question::Answer(slot)) => (slot, answer),
            Some(Question::AnswerHalf(at)) => {
                hear(Outcome::AnsweredHalf(at, answer));
                let [unsure, taken] = &mut s.service.halves;
                *unsure |= answer == Answer::NotSure;
                *taken |= answer == Answer::Taken;
                if at.half == Half::Infeed {
                    s.service.asked = Half::Outfeed;
                    s.question()
                        .into_iter()
                        .for_each(|next| hear(Outcome::Asked(next)));
                    return Ok(());
                }
                (at.slot, whole_answer(s.service.halves))
            }
            _ => return Err(Refusal::State(s.unit)),
        };
        (s.service.asked, s.service.halves) = (Half::Infeed, [false; 2]);
        let bit = 1 << slot;
        match answer {
            Answer::Taken => s.map.said_taken |= bit,
            Answer::SeenEmpty => s.map.said_empty |= bit,
            Answer::NotSure => {}
        }
        if answer != Answer::NotSure {
            s.map.unknown &= !bit;
        }
        hear(Outcome::Answered(slot, answer));
        self.unhold(s, hear);
        self.next_unknown(s, hear);
        Ok(())
    }

    /// Puts the machine as a shift leaves it that went in the middle of a clear-out: what it
    /// answered for, and the slot that the panel asks about. Without one, the unit was stopped, and
    /// its task is forgotten; what is unknown stays unknown.
    pub fn leave_half_cleared(&self, s: &mut State, said: &[(u8, Answer)], asked: Option<u8>) {
        s.mode = Mode::Changeover;
        s.map = crate::SlotMap {
            unknown: self.used_slots(s),
            ..Default::default()
        };
        s.order_len = 0;
        s.service.said_before = 0;
        for &(slot, answer) in said {
            let bit = 1 << slot;
            match answer {
                Answer::Taken => s.map.said_taken |= bit,
                Answer::SeenEmpty => s.map.said_empty |= bit,
                Answer::NotSure => continue,
            }
            s.map.unknown &= !bit;
            s.service.said_before |= bit;
        }
        let Some(slot) = asked else { return };
        s.lift_place = LiftPlace::At(slot);
        s.lift_from = self.height(s.lift_place);
        (s.unit, s.task, s.slot) = (UnitState::Held, Task::ClearOut, slot);
        s.phase = match self.parts.service.clear_out_asks {
            Asks::Slot => Phase::AskAnswer,
            Asks::Place => Phase::AskHalf,
        };
    }

    /// A board did not arrive: Held, with the alarm.
    pub(crate) fn not_arrived(&self, s: &mut State, hear: &mut Hear) {
        hear(Outcome::Alarmed(Alarm::NoArrival));
        self.hold(s, Phase::AskArrival, hear);
    }
}

/// What two halves say of their slot: not sure of one is not sure of all.
fn whole_answer([unsure, taken]: [bool; 2]) -> Answer {
    match (unsure, taken) {
        (true, _) => Answer::NotSure,
        (false, true) => Answer::Taken,
        (false, false) => Answer::SeenEmpty,
    }
}

#[cfg(test)]
#[path = "clear_out_tests.rs"]
mod tests;
