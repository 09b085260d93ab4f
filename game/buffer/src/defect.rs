//! Machines made wrong on purpose, in one point each. A proof that holds on such a machine says
//! nothing about that point.

use crate::{Machine, State};

/// One point in which a machine is made wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Defect {
    /// Opening the hatch takes no power from the axes.
    InterlockOff,
    /// The sweep sees no board.
    SweepBlind,
    /// Motion voids no look: the trainee is not told.
    LooksOutliveMotion,
    /// Loss of power empties the slot map.
    MapLostWithPower,
    /// The emergency stop does not latch.
    StopUnlatched,
    /// Declare empty asks for no key.
    DeclareKeyless,
    /// Machine Ready closes while the rails move.
    ReadyWhileRailsMove,
    /// The isolator, off and locked, cuts no power.
    LockCutsNothing,
    /// The reference outlives a stop.
    ReferenceKept,
    /// In a clear-out the belts run out slot after slot, and nobody is asked.
    RunsOutUnasked,
}

impl Defect {
    /// All of them.
    pub const ALL: [Defect; 10] = [
        Defect::InterlockOff,
        Defect::SweepBlind,
        Defect::LooksOutliveMotion,
        Defect::MapLostWithPower,
        Defect::StopUnlatched,
        Defect::DeclareKeyless,
        Defect::ReadyWhileRailsMove,
        Defect::LockCutsNothing,
        Defect::ReferenceKept,
        Defect::RunsOutUnasked,
    ];
}

/// What must hold in every state of a machine, whatever is done to it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Invariant {
    /// No axis is driven with the hatch open, the emergency stop latched, or the isolator off
    /// (ISO 13850, ISO 14119).
    NothingDrivenWhenStopped,
    /// Machine Ready is open while lift or rails move (IPC-SMEMA-9851: ready to take a board).
    ReadyOnlyAtRest,
    /// The declare button counts only with the setter's key turned.
    DeclareOnlyWithKey,
}

impl Machine {
    /// The same machine with a defect.
    #[must_use]
    pub fn with_defect(mut self, defect: Defect) -> Machine {
        self.defect = Some(defect);
        self.smooth = false;
        self
    }

    /// In which point it is made wrong, if in any.
    pub fn defect(&self) -> Option<Defect> {
        self.defect
    }

    /// Whether the machine has this defect.
    pub fn has(&self, defect: Defect) -> bool {
        self.defect == Some(defect)
    }

    /// The first of what must hold in every state, and does not hold in this one.
    pub fn broken_invariant(&self, s: &State) -> Option<Invariant> {
        let stopped = s.hatch_open || s.emergency || !s.powered;
        let driven = s.motions().iter().any(crate::Motion::is_run);
        if stopped && driven {
            Some(Invariant::NothingDrivenWhenStopped)
        } else if s.machine_ready && !(s.lift.is_rest() && s.rails.is_rest()) {
            Some(Invariant::ReadyOnlyAtRest)
        } else if s.hold_left.0 > 0 && !s.key_turned {
            Some(Invariant::DeclareOnlyWithKey)
        } else {
            None
        }
    }
}
