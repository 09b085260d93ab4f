//! Widths that a person can read: on the panel, never on the machine itself.

use rackproof_model::Micrometres;

use crate::{State, World};

macro_rules! widths {
    ($($(#[$doc:meta])* $name:ident,)*) => {
        /// A width that can be read, in µm.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        #[repr(u8)]
        pub enum Width {
            $($(#[$doc])* $name,)*
        }

        impl Width {
            /// All of them with the names that files use.
            pub const ALL: &[(&'static str, Width)] = &[$((stringify!($name), Width::$name),)*];
        }
    };
}

widths! {
    /// Between the rails by step count, as the panel shows it. Read while the rails rest, and only
    /// if the count is known.
    Counted,
    /// Between the rails by the width sensor, where there is one. Read while the rails rest.
    Measured,
    /// What the rails are sent to: the board of the loaded product with its side play.
    Wanted,
    /// The stored board width of the loaded product, without side play.
    LoadedStored,
    /// The stored board width of the product of the task, without side play.
    NextStored,
    /// What was typed on the page of widths and is not saved.
    Typed,
}

/// The widths that can be read at a moment.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Widths {
    /// Nought where nothing can be read.
    read: [Micrometres; Width::ALL.len()],
    /// Bit n: the n-th can be read.
    known: u8,
}

impl Widths {
    /// What can be read of a width, in µm. `None`: nothing.
    pub fn of(&self, width: Width) -> Option<Micrometres> {
        let known = self.known >> width as u8 & 1 == 1;
        known.then(|| self.read[width as usize])
    }

    /// The same with one more to be read.
    #[must_use]
    pub fn with(mut self, width: Width, read: Option<Micrometres>) -> Widths {
        self.read[width as usize] = read.unwrap_or_default();
        self.known &= !(1 << width as u8);
        self.known |= u8::from(read.is_some()) << width as u8;
        self
    }
}

/// Why a width cannot be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unread {
    /// The panel is dark.
    PanelDark,
    /// The rails move.
    RailsMove,
    /// The step count is not known.
    CountUnknown,
    /// This machine has no width sensor.
    NoSensor,
    /// Nothing was typed that is not saved.
    NothingTyped,
}

impl World {
    /// Why a width cannot be read now. `None`: it can.
    pub fn unread(&self, s: &State, width: Width) -> Option<Unread> {
        if self.widths(s).of(width).is_some() {
            return None;
        }
        let [_, rails, _] = s.machine.motions();
        Some(match width {
            _ if !s.machine.powered() => Unread::PanelDark,
            Width::Typed => Unread::NothingTyped,
            Width::Measured if !self.machine().parts().service.width_sensor => Unread::NoSensor,
            _ if !rails.is_rest() => Unread::RailsMove,
            _ => Unread::CountUnknown,
        })
    }

    /// The widths that can be read now. A dark panel shows none. While the rails move the panel
    /// counts along; that is read once they rest, so that no reading changes between two events.
    pub fn widths(&self, s: &State) -> Widths {
        let machine = &s.machine;
        if !machine.powered() {
            return Widths::default();
        }
        let [_, rails, _] = machine.motions();
        let rests = rails.is_rest();
        let sensor = self.machine().parts().service.width_sensor;
        let stored = |product| Some(machine.stored_width(product));
        let counted = machine.width_by_count(self.machine());
        Widths::default()
            .with(Width::Counted, counted.filter(|_| rests))
            .with(
                Width::Measured,
                (sensor && rests).then(|| machine.width(self.machine())),
            )
            .with(Width::Wanted, Some(self.machine().wanted_width(machine)))
            .with(Width::LoadedStored, stored(machine.loaded()))
            .with(Width::NextStored, stored(self.drill().next))
            .with(Width::Typed, machine.edited())
    }
}
