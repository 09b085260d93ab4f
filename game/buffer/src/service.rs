//! What setters and earlier shifts leave behind in the controller: machine settings, who saved a
//! product, what was answered before. Belief and figures alone; no truth.
//!
//! A setting is behind the setter's key, changes only in Stopped, Idle or Aborted, and keeps its
//! bounds. What it does is computed: a slot count too low makes sweep and clear-out pass over the
//! slots above; an offset of the width makes every width wrong by so much while every figure on
//! the panel looks right; a signal switched off is a jumper in software.

use rackproof_model::{Micrometres, Micros};

use crate::{Alarm, Edition, Half, KINDS_MOST, Machine, Priority, Scope};

/// Least and greatest side play, in µm. The same as in a machine file.
pub const SIDE_PLAY: [i32; 2] = [200, 1_500];
/// Greatest offset of the width, either way, in µm. Common practice: a setter shims no more.
pub const WIDTH_OFFSET_MOST: i32 = 5_000;
/// Longest time to wait for a confirmation, in µs; nought waits for ever.
pub const CONFIRM_MOST: Micros = Micros(120_000_000);

/// What becomes of a setting for a fitting that is not there.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Unfitted {
    /// It is refused in words.
    #[default]
    Refused,
    /// It is taken, and the sequence waits for a sensor that is not there.
    Waits,
}

/// What a clear-out asks about.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Asks {
    /// Each slot.
    #[default]
    Slot,
    /// Each place: either half of a slot.
    Place,
}

/// Choices of a machine file about settings, alarms, clear-out and unit. The default is what
/// machines did before there were any.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ServiceParts {
    /// To what the side play belongs.
    pub side_play_scope: Scope,
    /// A setting for a fitting that is not there.
    pub unfitted: Unfitted,
    /// Whether a sensor measures the width of the rails.
    pub width_sensor: bool,
    /// What a clear-out asks about.
    pub clear_out_asks: Asks,
    /// Whether the machine downstream takes the board in a clear-out while its signal is closed.
    pub downstream_takes: bool,
    /// Whether saving a product needs the setter's key.
    pub save_needs_key: bool,
    /// Which alarms latch, bit n for the n-th of [`Alarm::ALL`].
    pub latching: u8,
    /// The edition of the standard for unit states.
    pub unit_states: Edition,
    /// Whether there is a mode Manual.
    pub manual_mode: bool,
}

impl ServiceParts {
    /// What a machine does whose file says nothing of this.
    pub const PLAIN: ServiceParts = ServiceParts {
        side_play_scope: Scope::Machine,
        unfitted: Unfitted::Refused,
        width_sensor: false,
        clear_out_asks: Asks::Slot,
        downstream_takes: false,
        save_needs_key: false,
        latching: 0,
        unit_states: Edition::Shared46,
        manual_mode: false,
    };

    /// The mask of alarms.
    pub fn mask(alarms: &[Alarm]) -> u8 {
        alarms
            .iter()
            .fold(0, |mask, alarm| mask | 1 << *alarm as u8)
    }
}

/// One machine setting with its new value.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Setting {
    /// How many slots the controller counts, 2 to those that are there.
    SlotCount(u8),
    /// Added to every width that the rails are sent to, in µm. The figures do not show it.
    WidthOffset(Micrometres),
    /// Side play of the chosen product, or of all: see [`Scope`]. In µm.
    SidePlay(Micrometres),
    /// Whether downstream's Machine Ready is read. If not, it counts as closed.
    Signals(bool),
    /// What goes first when both neighbours wait.
    Priority(Priority),
    /// Whether a changeover waits until the width sensor confirms the width.
    WidthCheck(bool),
    /// How long it waits at most; nought: for ever.
    ConfirmWithin(Micros),
}

/// The machine settings as they stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Settings {
    /// How many slots the controller counts.
    pub slot_count: u8,
    /// Added to every width, in µm.
    pub width_offset: Micrometres,
    /// Side play of each product, in µm.
    pub side_play: [u16; KINDS_MOST],
    /// Whether downstream's Machine Ready is read.
    pub signals: bool,
    /// What goes first when both neighbours wait.
    pub priority: Priority,
    /// Whether a changeover waits for the width sensor.
    pub width_check: bool,
    /// How long at most; nought: for ever.
    pub confirm_within: Micros,
}

/// At which level somebody works at the panel.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// Without the key.
    Operator,
    /// With the setter's key turned.
    Setter,
}

/// Who saved a product, and when: the order of saving. The time of day stands in the attempt.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Saved {
    /// At which level.
    pub by: Level,
    /// The how-manieth saving on this machine, from 1. It stays at its greatest.
    pub order: u8,
}

/// All of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Service {
    /// The settings.
    pub settings: Settings,
    /// Who saved each product last, if anybody did since the machine left the works.
    pub saved: [Option<Saved>; KINDS_MOST],
    /// Side play as it was loaded with the product, in µm; where it belongs to the machine, that
    /// of the file.
    pub(crate) loaded_play: u16,
    /// Slots that the shift before answered for.
    pub said_before: u64,
    /// Which half a clear-out asks about, where it asks about places.
    pub(crate) asked: Half,
    /// Whether the half before was said to be not sure, and whether a board was taken from it.
    pub(crate) halves: [bool; 2],
    /// Time left to wait for a confirmation; nought while none is waited for.
    pub(crate) confirm_left: Micros,
}

impl Service {
    pub(crate) fn new(machine: &Machine) -> Service {
        Service {
            settings: machine.plain_settings(),
            saved: [None; KINDS_MOST],
            loaded_play: machine.plain_play(),
            said_before: 0,
            asked: Half::Infeed,
            halves: [false; 2],
            confirm_left: Micros(0),
        }
    }
}

impl Settings {
    /// The value of the same setting as it stands; the side play is that of a product.
    pub fn now(&self, setting: Setting, product: u8) -> Setting {
        match setting {
            Setting::SlotCount(_) => Setting::SlotCount(self.slot_count),
            Setting::WidthOffset(_) => Setting::WidthOffset(self.width_offset),
            Setting::SidePlay(_) => {
                Setting::SidePlay(Micrometres(i32::from(self.side_play[product as usize])))
            }
            Setting::Signals(_) => Setting::Signals(self.signals),
            Setting::Priority(_) => Setting::Priority(self.priority),
            Setting::WidthCheck(_) => Setting::WidthCheck(self.width_check),
            Setting::ConfirmWithin(_) => Setting::ConfirmWithin(self.confirm_within),
        }
    }
}
