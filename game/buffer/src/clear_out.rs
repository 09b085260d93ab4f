//! The clear-out: slot by slot, each answered by a person. Slow on purpose.

use rackproof_model::Micros;

use crate::{
    Alarm, Answer, Defect, Hear, LiftPlace, Machine, Mode, Outcome, Phase, Refusal, State, Task,
    UnitState, outcome::Question, panel::set_task, runners::Purpose,
};

impl Machine {
    /// Chooses the clear-out as the task: in Idle of all slots that the loaded product uses and of
    /// what the map does not believe empty, of what is unknown after a sweep that saw a board.
    pub(crate) fn choose_clear_out(&self, s: &mut State, hear: &mut Hear) -> Result<(), Refusal> {
        if s.mode != Mode::Changeover {
            return Err(Refusal::Mode);
        }
        match (s.unit, s.question()) {
            (UnitState::Idle, _) => {
                s.map = crate::SlotMap {
                    unknown: self.used_slots(s) | s.map.full | s.map.unknown,
                    ..Default::default()
                };
                s.order_len = 0;
            }
            (UnitState::Held, Some(Question::Seen(_))) => {}
            _ => return Err(Refusal::State),
        }
        set_task(s, Task::ClearOut, hear);
        Ok(())
    }

    /// Begins with the lowest unknown slot.
    pub(crate) fn first_unknown(&self, s: &mut State, hear: &mut Hear) {
        s.slot = self.parts.slots - 1;
        self.next_unknown(s, hear);
    }

    /// Goes to the next unknown slot above, from the lowest again after the highest. None left: the
    /// clear-out is done.
    pub(crate) fn next_unknown(&self, s: &mut State, hear: &mut Hear) {
        let slots = self.parts.slots;
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
            self.hold(s, Phase::AskTake, hear);
            return;
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
            Phase::RunningOut => self.hold(s, Phase::AskAnswer, hear),
            Phase::ReachedEnd => self.hold(s, Phase::AskTake, hear),
            Phase::TakingIn => self.taken_in(s, ran, hear),
            Phase::Sending => self.sent(s, sent, ran, hear),
            Phase::PassingThrough => self.passed(s, sent, ran, hear),
            Phase::DrawingBack => self.send_if_called(s, hear),
            Phase::NothingPast => self.await_arrival(s, ran, hear),
            _ => {}
        }
    }

    pub(crate) fn answer(
        &self,
        s: &mut State,
        answer: Answer,
        hear: &mut Hear,
    ) -> Result<(), Refusal> {
        let Some(Question::Answer(slot)) = s.question() else {
            return Err(Refusal::State);
        };
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

    /// A board did not arrive: Held, with the alarm.
    pub(crate) fn not_arrived(&self, s: &mut State, hear: &mut Hear) {
        s.alarms |= 1 << Alarm::NoArrival as u8;
        hear(Outcome::Alarmed(Alarm::NoArrival));
        self.hold(s, Phase::AskArrival, hear);
    }
}
