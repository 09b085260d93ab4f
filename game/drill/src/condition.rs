//! What a person knows of the moment: their own doings, and what panel and ears say.

use rackproof_buffer::{Mode, Question, Task, UnitState};

use crate::{Intent, State, World};

macro_rules! conditions {
    ($($(#[$doc:meta])* $name:ident,)*) => {
        /// One thing that a person knows of the moment. At most 64.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        #[repr(u8)]
        pub enum Condition {
            $($(#[$doc])* $name,)*
        }

        impl Condition {
            /// All conditions with the names that files use.
            pub const ALL: &[(&'static str, Condition)] =
                &[$((stringify!($name), Condition::$name),)*];
        }
    };
}

conditions! {
    /// My straps are tested.
    StrapsTested,
    /// My torch is lit.
    TorchOn,
    /// My cord is plugged in.
    CordPlugged,
    /// The hatch is open.
    HatchOpen,
    /// The isolator is off.
    IsolatorOff,
    /// My lock is on.
    LockOn,
    /// The prop is set.
    PropSet,
    /// My hand is in the rack.
    HandIn,
    /// I hold a board.
    BoardInHand,
    /// I see damage on the board that I hold.
    BoardInHandDamaged,
    /// Upstream said it holds, and was not let go.
    UpstreamHeld,
    /// Something moves.
    Moving,
    /// The setter's key is turned.
    KeyTurned,
    /// The emergency stop is latched.
    EmergencyLatched,
    /// The panel has power.
    PanelOn,
    /// The mode is Changeover.
    ModeChangeover,
    /// The mode is Production.
    ModeProduction,
    /// The task is a changeover.
    TaskChangeover,
    /// The task is a clear-out.
    TaskClearOut,
    /// The panel says: Start moves the rails.
    AskedRails,
    /// Start leads to the rails with nothing asked on the way: the panel says so; or the unit is
    /// Idle with a changeover as its task and every slot shown empty, and the machine is one that
    /// does not ask once its sweep saw nothing. Which one it is, its manual says.
    StartMovesRails,
    /// The panel says: the sweep saw a board.
    AskedSeen,
    /// The panel says: take the board at the outfeed end.
    AskedTake,
    /// The panel asks for an answer.
    AskedAnswer,
    /// The unit is Idle.
    Idle,
    /// The unit is Stopped.
    UnitStopped,
    /// The unit is Held.
    Held,
    /// The unit is in Execute.
    Execute,
    /// The unit is Complete.
    Complete,
    /// The unit is Aborted.
    Aborted,
    /// The lift's reference is lost.
    ReferenceLost,
    /// The product of the task is chosen.
    NextChosen,
    /// The product of the task is loaded.
    NextLoaded,
    /// The panel shows the width of the task's product, by step count.
    WidthShown,
    /// The slot map shows every slot empty.
    MapShownEmpty,
    /// The log is written.
    LogWritten,
    /// The declare button is held.
    DeclareHeld,
    /// The slot that this intent reaches for is reached from under the lift.
    ReachesUnder,
}

/// A set of conditions, bit n for the n-th.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Conditions(pub u64);

impl Conditions {
    /// Whether a condition holds.
    pub fn has(self, condition: Condition) -> bool {
        self.0 >> condition as u8 & 1 == 1
    }

    fn set(&mut self, condition: Condition, holds: bool) {
        self.0 |= u64::from(holds) << condition as u8;
    }
}

impl World {
    /// What the person knows now; with the intent that they are about to do, also whether it
    /// reaches under the lift.
    pub fn conditions(&self, s: &State, about_to: Option<Intent>) -> Conditions {
        let mut found = Conditions::default();
        self.own_conditions(s, &mut found);
        self.panel_conditions(s, &mut found);
        let under = match about_to {
            Some(Intent::Take(at) | Intent::PutIn(at)) => at.slot < self.hall().reached_from_under,
            _ => false,
        };
        found.set(Condition::ReachesUnder, under);
        found
    }

    fn own_conditions(&self, s: &State, found: &mut Conditions) {
        let (person, machine) = (&s.person, &s.machine);
        let held = person.board;
        let pairs = [
            (Condition::StrapsTested, person.straps_tested),
            (Condition::TorchOn, person.torch),
            (Condition::CordPlugged, person.cord),
            (Condition::HatchOpen, machine.hatch_open()),
            (Condition::IsolatorOff, !machine.powered()),
            (Condition::LockOn, person.lock_on),
            (Condition::PropSet, machine.propped()),
            (Condition::HandIn, person.hand_in),
            (Condition::BoardInHand, held.is_some()),
            (
                Condition::BoardInHandDamaged,
                held.is_some_and(|board| board.condition.shows()),
            ),
            (Condition::UpstreamHeld, s.upstream_held),
            (Condition::Moving, machine.moves()),
            (Condition::KeyTurned, machine.key_turned()),
            (Condition::EmergencyLatched, machine.emergency()),
            (Condition::LogWritten, person.log_written),
        ];
        for (condition, holds) in pairs {
            found.set(condition, holds);
        }
    }

    /// Whether Start leads to the rails with nothing asked on the way.
    fn start_moves_rails(&self, machine: &rackproof_buffer::State) -> bool {
        let unasked = !self.machine().parts().behaviours.rails_asked
            && machine.unit() == UnitState::Idle
            && machine.task() == Task::Changeover
            && machine.map.is_empty();
        unasked || machine.question() == Some(Question::Rails)
    }

    /// A dark panel shows nothing.
    fn panel_conditions(&self, s: &State, found: &mut Conditions) {
        let machine = &s.machine;
        if !machine.powered() {
            return;
        }
        let (unit, question, next) = (machine.unit(), machine.question(), self.drill().next);
        let pairs = [
            (Condition::PanelOn, true),
            (
                Condition::ModeChangeover,
                machine.mode() == Mode::Changeover,
            ),
            (
                Condition::ModeProduction,
                machine.mode() == Mode::Production,
            ),
            (
                Condition::TaskChangeover,
                machine.task() == Task::Changeover,
            ),
            (Condition::TaskClearOut, machine.task() == Task::ClearOut),
            (Condition::AskedRails, question == Some(Question::Rails)),
            (Condition::StartMovesRails, self.start_moves_rails(machine)),
            (
                Condition::AskedSeen,
                matches!(question, Some(Question::Seen(_))),
            ),
            (
                Condition::AskedTake,
                matches!(question, Some(Question::Take(_))),
            ),
            (
                Condition::AskedAnswer,
                matches!(
                    question,
                    Some(Question::Answer(_) | Question::AnswerHalf(_))
                ),
            ),
            (Condition::Idle, unit == UnitState::Idle),
            (Condition::UnitStopped, unit == UnitState::Stopped),
            (Condition::Held, unit == UnitState::Held),
            (Condition::Execute, unit == UnitState::Execute),
            (Condition::Complete, unit == UnitState::Complete),
            (Condition::Aborted, unit == UnitState::Aborted),
            (Condition::ReferenceLost, !machine.referenced()),
            (Condition::NextChosen, machine.chosen() == next),
            (Condition::NextLoaded, machine.loaded() == next),
            (
                Condition::WidthShown,
                machine.loaded() == next && self.machine().width_is_wanted(machine),
            ),
            (Condition::MapShownEmpty, machine.map.is_empty()),
            (Condition::DeclareHeld, machine.hold_left().0 > 0),
        ];
        for (condition, holds) in pairs {
            found.set(condition, holds);
        }
    }
}
