//! The panel: buttons, pages, and what the unit does on them.

use rackproof_model::Micrometres;

use crate::{
    Command, Hear, Machine, Mode, Outcome, Phase, Refusal, Setting, State, Task, UnitState,
    outcome::Question,
};

/// A person's answer for a slot in a clear-out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Answer {
    /// Its board was taken.
    Taken,
    /// It was seen empty.
    SeenEmpty,
    /// Not sure: it stays unknown.
    NotSure,
}

/// Something pressed on the panel.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Button {
    /// Start; in Held: go on.
    Start,
    /// Stop.
    Stop,
    /// Reset; in Aborted: Clear.
    Reset,
    /// Change the mode.
    Mode(Mode),
    /// Choose a product by its number.
    Choose(u8),
    /// Type a board width for the chosen product, in µm.
    EditWidth(Micrometres),
    /// Save the edited product.
    Save,
    /// Load the chosen product: the task is a changeover to it.
    Load,
    /// Choose the clear-out as the task.
    ClearOut,
    /// Answer for the slot that the panel asks about.
    Answer(Answer),
    /// Begin to hold the declare button.
    HoldDeclare,
    /// Let go of the declare button.
    LetGoDeclare,
    /// Acknowledge the alarms.
    Acknowledge,
    /// Save the edited width, or the stored one, over another product's number.
    SaveOver(u8),
    /// Change a machine setting: for setters.
    Set(Setting),
    /// Give the unit a command of the standard that has no button of its own.
    Order(Command),
}

impl Machine {
    /// Presses something on the panel. Without power nothing happens.
    pub fn press(&self, s: &mut State, button: Button, hear: &mut Hear) {
        if !s.powered {
            return;
        }
        let done = match button {
            Button::Start => self.press_start(s, hear),
            Button::Stop => self.press_stop(s, hear),
            Button::Reset => self.press_reset(s, hear),
            Button::Mode(mode) => self.change_mode(s, mode, hear),
            Button::Choose(product) => self.choose(s, product, hear),
            Button::EditWidth(width) => self.edit_width(s, width, hear),
            Button::Save => self.save(s, hear),
            Button::SaveOver(product) => self.save_over(s, product, hear),
            Button::Set(setting) => self.set(s, setting, hear),
            Button::Order(command) => self.order(s, command, hear),
            Button::Load => self.load(s, hear),
            Button::ClearOut => self.choose_clear_out(s, hear),
            Button::Answer(answer) => self.answer(s, answer, hear),
            Button::HoldDeclare => self.hold_declare(s),
            Button::LetGoDeclare => {
                s.hold_left.0 = 0;
                Ok(())
            }
            Button::Acknowledge => {
                self.acknowledge_alarms(s);
                Ok(())
            }
        };
        if let Err(refusal) = done {
            hear(Outcome::Refused(refusal));
        }
        self.settle(s, hear);
    }

    pub(crate) fn go_to(&self, s: &mut State, unit: UnitState, hear: &mut Hear) {
        s.unit = unit;
        // Declare empty is for a machine at rest: Reset and Start while the button is held end it.
        if !matches!(unit, UnitState::Stopped | UnitState::Aborted) {
            s.hold_left.0 = 0;
        }
        hear(Outcome::UnitChanged(unit));
    }

    /// Gives the unit a command. `false` if it has no effect in this state.
    pub(crate) fn command(&self, s: &mut State, command: Command, hear: &mut Hear) -> bool {
        let Some(unit) = self.parts.service.unit_states.after(s.unit, command) else {
            return false;
        };
        self.go_to(s, unit, hear);
        true
    }

    /// The acting state's own work is done.
    pub(crate) fn unit_done(&self, s: &mut State, hear: &mut Hear) {
        if let Some(unit) = s.unit.when_done() {
            self.go_to(s, unit, hear);
        }
    }

    pub(crate) fn press_start(&self, s: &mut State, hear: &mut Hear) -> Result<(), Refusal> {
        if s.unit == UnitState::Held {
            return self.go_on(s, hear);
        }
        if s.unit.after(Command::Start).is_none() {
            return Err(Refusal::Button(Command::Start, s.unit));
        }
        match (s.mode, s.task) {
            (Mode::Manual, _) => return Err(Refusal::Manual),
            (Mode::Changeover, Task::None) => return Err(Refusal::NoTask),
            (Mode::Changeover, Task::Changeover) if !s.map.is_empty() => {
                return Err(Refusal::MapNotEmpty);
            }
            (Mode::Production, _) if s.map.unknown != 0 => return Err(Refusal::MapUnknown),
            (Mode::Production, _) if !self.width_is_wanted(s) => {
                return Err(Refusal::WidthNotReached);
            }
            _ => {}
        }
        self.command(s, Command::Start, hear);
        if s.referenced {
            self.begin_work(s, hear);
        } else {
            s.phase = Phase::Referencing;
            self.send_lift(s, crate::LiftPlace::Reference, hear);
        }
        Ok(())
    }

    /// Start in Held.
    fn go_on(&self, s: &mut State, hear: &mut Hear) -> Result<(), Refusal> {
        match s.question() {
            Some(Question::Rails | Question::Take(_) | Question::Confirmation) => {}
            Some(Question::Seen(_)) if s.task == Task::ClearOut => {}
            Some(Question::Seen(_)) => return Err(Refusal::BoardSeen),
            // Held on an order: nothing is asked.
            None => return self.resume(s, Command::Unhold, hear),
            _ => return Err(Refusal::Question),
        }
        self.unhold(s, hear);
        match s.phase {
            Phase::AskRails => self.begin_rails(s, hear),
            Phase::AskTake => self.run_out(s, hear),
            Phase::AskConfirmation => self.confirm_width(s, hear),
            _ => self.first_unknown(s, hear),
        }
        Ok(())
    }

    pub(crate) fn unhold(&self, s: &mut State, hear: &mut Hear) {
        self.command(s, Command::Unhold, hear);
        self.unit_done(s, hear);
    }

    /// From Execute to Held, with `phase` as what is asked.
    pub(crate) fn hold(&self, s: &mut State, phase: Phase, hear: &mut Hear) {
        s.phase = phase;
        self.command(s, Command::Hold, hear);
        self.unit_done(s, hear);
        if let Some(question) = s.question() {
            hear(Outcome::Asked(question));
        }
    }

    /// The machine is ready: do what the mode and the task ask.
    pub(crate) fn begin_work(&self, s: &mut State, hear: &mut Hear) {
        self.unit_done(s, hear);
        match (s.mode, s.task) {
            // Start is refused in Manual, and the mode does not change at work.
            (Mode::Production | Mode::Manual, _) => self.produce(s, hear),
            (Mode::Changeover, Task::ClearOut) => self.first_unknown(s, hear),
            (Mode::Changeover, _) => self.begin_sweep(s, hear),
        }
    }

    /// The task is done: by Completing to Complete.
    pub(crate) fn complete(&self, s: &mut State, hear: &mut Hear) {
        rest(s);
        set_task(s, Task::None, hear);
        self.unit_done(s, hear);
        self.unit_done(s, hear);
    }

    pub(crate) fn press_stop(&self, s: &mut State, hear: &mut Hear) -> Result<(), Refusal> {
        if !self.command(s, Command::Stop, hear) {
            return Err(Refusal::Button(Command::Stop, s.unit));
        }
        self.forget(s, hear);
        Ok(())
    }

    /// Brakes all axes, opens all signals, forgets the task.
    pub(crate) fn forget(&self, s: &mut State, hear: &mut Hear) {
        self.brake_lift(s);
        self.brake_rails(s);
        self.brake_belts(s, hear);
        self.open_signals(s, hear);
        rest(s);
        s.hold_left.0 = 0;
        s.arrival_left.0 = 0;
        s.service.confirm_left.0 = 0;
        set_task(s, Task::None, hear);
    }

    pub(crate) fn press_reset(&self, s: &mut State, hear: &mut Hear) -> Result<(), Refusal> {
        if s.emergency {
            return Err(Refusal::EmergencyLatched);
        }
        if s.hatch_open {
            return Err(Refusal::HatchOpen);
        }
        let command = if s.unit == UnitState::Aborted {
            Command::Clear
        } else {
            Command::Reset
        };
        let reset = self.reset_alarms(s);
        if self.command(s, command, hear) {
            self.unit_done(s, hear);
        } else if !reset {
            return Err(Refusal::Button(Command::Reset, s.unit));
        }
        Ok(())
    }

    fn change_mode(&self, s: &mut State, mode: Mode, hear: &mut Hear) -> Result<(), Refusal> {
        if !s.unit.lets_mode_change() {
            return Err(Refusal::State(s.unit));
        }
        if s.mode == mode {
            return Err(Refusal::ModeAlready);
        }
        if mode == Mode::Manual && !self.parts.service.manual_mode {
            return Err(Refusal::NotFitted);
        }
        s.mode = mode;
        hear(Outcome::ModeChanged(mode));
        set_task(s, Task::None, hear);
        Ok(())
    }

    fn hold_declare(&self, s: &mut State) -> Result<(), Refusal> {
        if !self.may_declare(s) {
            return Err(Refusal::Reference);
        }
        if !s.key_turned && !self.has(crate::Defect::DeclareKeyless) {
            return Err(Refusal::Key);
        }
        s.hold_left = self.parts.declare_hold;
        Ok(())
    }

    /// Whether declare empty is offered: at rest in Stopped or Aborted, reference lost.
    pub fn may_declare(&self, s: &State) -> bool {
        matches!(s.unit, UnitState::Stopped | UnitState::Aborted) && !s.referenced && !s.moves()
    }

    pub(crate) fn declare_empty(&self, s: &mut State, hear: &mut Hear) {
        s.map = crate::SlotMap::default();
        s.order_len = 0;
        hear(Outcome::DeclaredEmpty);
    }
}

/// The controller is about nothing, and about no slot: a slot left over would make two states of
/// one.
pub(crate) fn rest(s: &mut State) {
    s.phase = Phase::Rest;
    s.slot = 0;
}

pub(crate) fn set_task(s: &mut State, task: Task, hear: &mut Hear) {
    if s.task != task {
        s.task = task;
        hear(Outcome::TaskChanged(task));
    }
}
