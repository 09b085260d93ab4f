//! Commands of the standard that have no button of their own: Hold, Suspend and the like. Each is
//! done or refused in words.

use crate::{
    Command, Hear, Machine, Mode, Phase, Refusal, State, Task, UnitState, panel::rest,
    panel::set_task,
};

impl Machine {
    /// Gives the unit a command by its name in the standard.
    pub(crate) fn order(
        &self,
        s: &mut State,
        command: Command,
        hear: &mut Hear,
    ) -> Result<(), Refusal> {
        let refused = Refusal::Order(command, s.unit);
        if self
            .parts
            .service
            .unit_states
            .after(s.unit, command)
            .is_none()
        {
            return Err(refused);
        }
        match command {
            Command::Start => self.press_start(s, hear),
            Command::Reset | Command::Clear => self.press_reset(s, hear),
            Command::Stop => self.press_stop(s, hear),
            Command::Abort => {
                self.abort(s, None, hear);
                Ok(())
            }
            // A question is answered at its place: what goes on then depends on the answer.
            Command::Unhold if s.question().is_some() => self.press_start(s, hear),
            Command::Unhold | Command::Unsuspend => self.resume(s, command, hear),
            Command::Hold | Command::Suspend | Command::Complete => self.pause(s, command, hear),
        }
    }

    /// Brings the work to rest where it is, by way of Holding, Suspending or Completing.
    fn pause(&self, s: &mut State, command: Command, hear: &mut Hear) -> Result<(), Refusal> {
        if !s.belts.is_rest() {
            return Err(Refusal::BoardOnItsWay);
        }
        self.brake_lift(s);
        self.brake_rails(s);
        self.open_signals(s, hear);
        s.service.confirm_left.0 = 0;
        s.arrival_left.0 = 0;
        rest(s);
        if command == Command::Complete {
            set_task(s, Task::None, hear);
        }
        self.command(s, command, hear);
        Ok(())
    }

    /// Goes on after Hold or Suspend: from the beginning of what the mode and the task ask, by the
    /// reference first if that was not found yet.
    pub(crate) fn resume(
        &self,
        s: &mut State,
        command: Command,
        hear: &mut Hear,
    ) -> Result<(), Refusal> {
        if s.mode == Mode::Manual {
            return Err(Refusal::Manual);
        }
        if s.mode == Mode::Changeover && s.task == Task::None {
            return Err(Refusal::NoTask);
        }
        self.command(s, command, hear);
        if s.referenced {
            self.begin_work(s, hear);
        } else {
            s.phase = Phase::Referencing;
            self.send_lift(s, crate::LiftPlace::Reference, hear);
        }
        Ok(())
    }
}

impl UnitState {
    /// The states in which an edition takes a command, in the order of their numbers.
    pub fn that_take(command: Command, edition: crate::Edition) -> impl Iterator<Item = UnitState> {
        let all = UnitState::ALL.into_iter();
        all.filter(move |state| edition.after(*state, command).is_some())
    }
}

#[cfg(test)]
#[path = "orders_tests.rs"]
mod tests;
