//! Colours of lamps and buttons by IEC 60204-1, section 10, and which lamp of the light tower is
//! lit. Whoever draws the machine takes them from here: hall, panel, terminal.

use crate::{Button, Command, Machine, State, UnitState};

/// A colour of the standard.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Colour {
    /// Emergency: act at once.
    Red,
    /// Abnormal: watch, or step in.
    Yellow,
    /// Normal.
    Green,
    /// Mandatory: a person must do something.
    Blue,
    /// Neutral.
    White,
    /// Any function but emergency stop. Not for lamps.
    Grey,
    /// Stop, preferred. Not for lamps.
    Black,
}

/// A lamp of the light tower, from the top down.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Lamp {
    /// An alarm waits to be acknowledged.
    Alarm,
    /// The unit is held up by a cause in or outside the machine.
    Abnormal,
    /// A person must act before anything goes on.
    MustAct,
    /// The unit is at work.
    AtWork,
}

impl Lamp {
    /// All lamps from the top down.
    pub const ALL: [Lamp; 4] = [Lamp::Alarm, Lamp::Abnormal, Lamp::MustAct, Lamp::AtWork];

    /// Its colour.
    pub const fn colour(self) -> Colour {
        match self {
            Lamp::Alarm => Colour::Red,
            Lamp::Abnormal => Colour::Yellow,
            Lamp::MustAct => Colour::Blue,
            Lamp::AtWork => Colour::Green,
        }
    }
}

/// Something to press, as the standard sorts it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Control {
    /// The emergency stop.
    EmergencyStop,
    /// Start.
    Start,
    /// Stop.
    Stop,
    /// Reset, or Clear.
    Reset,
    /// Held as long as it shall act.
    HoldToRun,
    /// Anything else.
    Other,
}

impl Control {
    /// What sort of control a button of the panel is.
    pub fn of(button: Button) -> Control {
        match button {
            Button::Start | Button::Order(Command::Start) => Control::Start,
            Button::Stop | Button::Order(Command::Stop) => Control::Stop,
            Button::Reset | Button::Order(Command::Reset | Command::Clear) => Control::Reset,
            Button::HoldDeclare => Control::HoldToRun,
            _ => Control::Other,
        }
    }

    /// Its colour while it has an effect: the preferred one of the standard. Without an effect a
    /// button on a screen is grey.
    pub fn colour(self) -> Colour {
        match self {
            Control::EmergencyStop => Colour::Red,
            Control::Start => Colour::White,
            Control::Stop => Colour::Black,
            Control::Reset => Colour::Blue,
            Control::HoldToRun | Control::Other => Colour::Grey,
        }
    }
}

impl State {
    /// Which lamps of the tower are lit, in the order of [`Lamp::ALL`]. Dark without power.
    pub fn lamps(&self) -> [bool; 4] {
        if !self.powered {
            return [false; 4];
        }
        let unit = self.unit;
        let abnormal = matches!(
            unit,
            UnitState::Aborting
                | UnitState::Aborted
                | UnitState::Clearing
                | UnitState::Holding
                | UnitState::Held
                | UnitState::Suspending
                | UnitState::Suspended
        );
        let at_work = matches!(
            unit,
            UnitState::Starting
                | UnitState::Execute
                | UnitState::Unholding
                | UnitState::Unsuspending
                | UnitState::Completing
        );
        let must_act = self.question().is_some() || unit == UnitState::Aborted;
        [self.alarms.waiting() != 0, abnormal, must_act, at_work]
    }
}

impl Machine {
    /// The colour of a button in this state: its own where it has an effect on the unit, grey where
    /// it has none.
    pub fn button_colour(&self, s: &State, button: Button) -> Colour {
        let takes = |command| {
            let edition = self.parts.service.unit_states;
            s.powered && edition.after(s.unit, command).is_some()
        };
        let acts = match Control::of(button) {
            Control::Start => self.start_acts(s),
            Control::Stop => takes(Command::Stop),
            Control::Reset => takes(Command::Reset) || takes(Command::Clear),
            _ => true,
        };
        if acts {
            Control::of(button).colour()
        } else {
            Colour::Grey
        }
    }

    fn start_acts(&self, s: &State) -> bool {
        use crate::{Question, Task};
        match s.question() {
            Some(Question::Rails | Question::Take(_) | Question::Confirmation) => true,
            Some(Question::Seen(_)) => s.task == Task::ClearOut,
            Some(_) => false,
            None => s.unit == UnitState::Held || s.unit.after(Command::Start).is_some(),
        }
    }
}

#[cfg(test)]
#[path = "lamp_tests.rs"]
mod tests;
