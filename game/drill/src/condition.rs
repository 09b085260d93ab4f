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

    // One mask, written out: this is asked for at each act, twice.
    #[inline]
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
        match about_to {
            Some(intent) => self.about_to(found, intent),
            None => found,
        }
    }

    /// What is known by somebody who is about to do this, if so much was known right before that.
    pub fn about_to(&self, known: Conditions, intent: Intent) -> Conditions {
        let under = match intent {
            Intent::Take(at) | Intent::PutIn(at) => at.slot < self.hall().reached_from_under,
            _ => false,
        };
        let mut found = known;
        found.set(Condition::ReachesUnder, under);
        found
    }

    fn own_conditions(&self, s: &State, found: &mut Conditions) {
        let (person, machine) = (&s.person, &s.machine);
        let held = person.board;
        found.set(Condition::StrapsTested, person.straps_tested);
        found.set(Condition::TorchOn, person.torch);
        found.set(Condition::CordPlugged, person.cord);
        found.set(Condition::HatchOpen, machine.hatch_open());
        found.set(Condition::IsolatorOff, !machine.powered());
        found.set(Condition::LockOn, person.lock_on);
        found.set(Condition::PropSet, machine.propped());
        found.set(Condition::HandIn, person.hand_in);
        found.set(Condition::BoardInHand, held.is_some());
        found.set(
            Condition::BoardInHandDamaged,
            held.is_some_and(|board| board.condition.shows()),
        );
        found.set(Condition::UpstreamHeld, s.upstream_held);
        found.set(Condition::Moving, machine.moves());
        found.set(Condition::KeyTurned, machine.key_turned());
        found.set(Condition::EmergencyLatched, machine.emergency());
        found.set(Condition::LogWritten, person.log_written);
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
        let next = self.drill().next;
        found.0 |= shows_unit(machine.unit()) | shows_mode(machine.mode());
        found.0 |= shows_task(machine.task()) | machine.question().map_or(0, shows_question);
        found.set(Condition::PanelOn, true);
        found.set(Condition::StartMovesRails, self.start_moves_rails(machine));
        found.set(Condition::ReferenceLost, !machine.referenced());
        found.set(Condition::NextChosen, machine.chosen() == next);
        found.set(Condition::NextLoaded, machine.loaded() == next);
        found.set(
            Condition::WidthShown,
            machine.loaded() == next && self.machine().width_is_wanted(machine),
        );
        found.set(Condition::MapShownEmpty, machine.map.is_empty());
        found.set(Condition::DeclareHeld, machine.hold_left().0 > 0);
    }
}

fn one(condition: Condition) -> u64 {
    1 << condition as u8
}

fn shows_unit(unit: UnitState) -> u64 {
    match unit {
        UnitState::Idle => one(Condition::Idle),
        UnitState::Stopped => one(Condition::UnitStopped),
        UnitState::Held => one(Condition::Held),
        UnitState::Execute => one(Condition::Execute),
        UnitState::Complete => one(Condition::Complete),
        UnitState::Aborted => one(Condition::Aborted),
        _ => 0,
    }
}

fn shows_mode(mode: Mode) -> u64 {
    match mode {
        Mode::Production => one(Condition::ModeProduction),
        Mode::Changeover => one(Condition::ModeChangeover),
        Mode::Manual => 0,
    }
}

fn shows_task(task: Task) -> u64 {
    match task {
        Task::None => 0,
        Task::Changeover => one(Condition::TaskChangeover),
        Task::ClearOut => one(Condition::TaskClearOut),
    }
}

fn shows_question(question: Question) -> u64 {
    match question {
        Question::Rails => one(Condition::AskedRails),
        Question::Seen(_) => one(Condition::AskedSeen),
        Question::Take(_) => one(Condition::AskedTake),
        Question::Answer(_) | Question::AnswerHalf(_) => one(Condition::AskedAnswer),
        Question::Arrival(_) | Question::Confirmation => 0,
    }
}
