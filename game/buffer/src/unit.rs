//! Unit states and commands of ISA-TR88.00.02, and the transitions that all its editions share.

/// A state of the unit. Names and numbers: ISA-TR88.00.02 as listed in OPC 30050 v1.01.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[repr(u8)]
pub enum UnitState {
    /// Clearing what led to Aborted.
    Clearing = 1,
    /// At rest, powered.
    #[default]
    Stopped = 2,
    /// Getting ready to run: the lift finds its reference here.
    Starting = 3,
    /// Ready to start.
    Idle = 4,
    /// Waiting for a cause outside the machine.
    Suspended = 5,
    /// At work.
    Execute = 6,
    /// On the way to Stopped.
    Stopping = 7,
    /// On the way to Aborted.
    Aborting = 8,
    /// At rest after a fault or an emergency stop.
    Aborted = 9,
    /// On the way to Held.
    Holding = 10,
    /// Waiting for a cause inside the machine.
    Held = 11,
    /// On the way back to work from Held.
    Unholding = 12,
    /// On the way to Suspended.
    Suspending = 13,
    /// On the way back to work from Suspended.
    Unsuspending = 14,
    /// On the way to Idle. Nothing moves.
    Resetting = 15,
    /// On the way to Complete.
    Completing = 16,
    /// The task is done.
    Complete = 17,
}

/// A command to the unit. Numbers as in the standard.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[repr(u8)]
pub enum Command {
    /// To Idle.
    Reset = 1,
    /// To Execute.
    Start = 2,
    /// To Stopped.
    Stop = 3,
    /// To Held.
    Hold = 4,
    /// Back from Held.
    Unhold = 5,
    /// To Suspended.
    Suspend = 6,
    /// Back from Suspended.
    Unsuspend = 7,
    /// To Aborted.
    Abort = 8,
    /// From Aborted to Stopped.
    Clear = 9,
    /// To Complete before the work is done. Numbered since the edition of 2022.
    Complete = 10,
}

impl Command {
    /// All commands, each at the place of its number less one.
    pub const ALL: [Command; 10] = [
        Command::Reset,
        Command::Start,
        Command::Stop,
        Command::Hold,
        Command::Unhold,
        Command::Suspend,
        Command::Unsuspend,
        Command::Abort,
        Command::Clear,
        Command::Complete,
    ];
}

/// Which edition of the standard a machine keeps. The published sources agree on 46 transitions,
/// and differ on where Hold and Complete are taken.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Edition {
    /// The 46 transitions that all sources share.
    #[default]
    Shared46,
    /// OPC 30050 v1.01 (2020): 52 transitions.
    Opc52,
    /// The edition of 2022, as the defaults of an open library have it: 50 transitions.
    Edition2022,
}

impl Edition {
    /// All editions with the names that files use.
    pub const ALL: [(&'static str, Edition); 3] = [
        ("Shared46", Edition::Shared46),
        ("Opc52", Edition::Opc52),
        ("Edition2022", Edition::Edition2022),
    ];

    /// Where `command` leads in `state`, or `None` if it has no effect there.
    pub fn after(self, state: UnitState, command: Command) -> Option<UnitState> {
        let more = match (self, command, state) {
            (
                Edition::Opc52,
                Command::Hold,
                Starting | Suspending | Suspended | Unsuspending | Unholding,
            )
            | (Edition::Edition2022, Command::Hold, Suspended) => Some(Holding),
            (Edition::Opc52, Command::Complete, Execute)
            | (Edition::Edition2022, Command::Complete, Execute | Suspended | Held) => {
                Some(Completing)
            }
            _ => None,
        };
        more.or_else(|| state.after(command))
    }
}

use UnitState::{
    Aborted, Aborting, Clearing, Complete, Completing, Execute, Held, Holding, Idle, Resetting,
    Starting, Stopped, Stopping, Suspended, Suspending, Unholding, Unsuspending,
};

impl UnitState {
    /// All states, each at the place of its number less one.
    pub const ALL: [UnitState; 17] = [
        Clearing,
        Stopped,
        Starting,
        Idle,
        Suspended,
        Execute,
        Stopping,
        Aborting,
        Aborted,
        Holding,
        Held,
        Unholding,
        Suspending,
        Unsuspending,
        Resetting,
        Completing,
        Complete,
    ];

    /// Where `command` leads in every edition, or `None` if it has no effect in this state.
    pub fn after(self, command: Command) -> Option<UnitState> {
        match (command, self) {
            (Command::Start, Idle) => Some(Starting),
            (Command::Reset, Stopped | Complete) => Some(Resetting),
            (Command::Hold, Execute) => Some(Holding),
            (Command::Unhold, Held) => Some(Unholding),
            (Command::Suspend, Execute) => Some(Suspending),
            (Command::Unsuspend, Suspended) => Some(Unsuspending),
            (Command::Clear, Aborted) => Some(Clearing),
            (Command::Abort, Aborting | Aborted) => None,
            (Command::Abort, _) => Some(Aborting),
            (Command::Stop, Stopping | Stopped | Clearing | Aborting | Aborted) => None,
            (Command::Stop, _) => Some(Stopping),
            _ => None,
        }
    }

    /// Where an acting state leads when its own work is done, or `None` for a waiting state.
    pub fn when_done(self) -> Option<UnitState> {
        match self {
            Starting | Unholding | Unsuspending => Some(Execute),
            Execute => Some(Completing),
            Holding => Some(Held),
            Suspending => Some(Suspended),
            Completing => Some(Complete),
            Resetting => Some(Idle),
            Stopping | Clearing => Some(Stopped),
            Aborting => Some(Aborted),
            Stopped | Idle | Suspended | Aborted | Held | Complete => None,
        }
    }

    /// Whether the mode may be changed in this state.
    pub fn lets_mode_change(self) -> bool {
        matches!(self, Stopped | Idle | Aborted)
    }

    /// The state with this number, 1 to 17; another number gives Stopped.
    pub(crate) fn from_number(number: u8) -> UnitState {
        UnitState::ALL
            .get((number as usize).wrapping_sub(1))
            .copied()
            .unwrap_or(Stopped)
    }
}

#[cfg(test)]
#[path = "unit_tests.rs"]
mod tests;
