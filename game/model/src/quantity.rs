//! Whole numbers with their unit in the type.

use std::{
    fmt,
    ops::{Add, AddAssign, Neg, Sub, SubAssign},
};

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident($raw:ty), $unit:literal) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(pub $raw);

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, concat!("{} ", $unit), self.0)
            }
        }

        impl Add for $name {
            type Output = $name;
            fn add(self, other: $name) -> $name {
                $name(self.0 + other.0)
            }
        }

        impl Sub for $name {
            type Output = $name;
            fn sub(self, other: $name) -> $name {
                $name(self.0 - other.0)
            }
        }

        impl AddAssign for $name {
            fn add_assign(&mut self, other: $name) {
                self.0 += other.0;
            }
        }

        impl SubAssign for $name {
            fn sub_assign(&mut self, other: $name) {
                self.0 -= other.0;
            }
        }
    };
}

quantity! {
    /// A place or a length. Signed: places are measured from an origin that their owner names.
    Micrometres(i32), "µm"
}
quantity! {
    /// A span of time, or a moment counted from the start of an attempt. Up to 71 minutes in one
    /// span; a moment of an attempt is a `u64` sum of spans, see `attempt`.
    Micros(u32), "µs"
}
quantity! {
    /// A speed.
    MicrometresPerSecond(u32), "µm/s"
}
quantity! {
    /// An acceleration.
    MillimetresPerSecondSquared(u32), "mm/s²"
}
quantity! {
    /// A jerk: how fast an acceleration changes.
    MillimetresPerSecondCubed(u32), "mm/s³"
}
quantity! {
    /// How bent a surface is: the strain of its outer fibre.
    Microstrain(u32), "µε"
}
quantity! {
    /// Part of the light that comes back, in hundredths.
    Percent(u8), "%"
}

impl Micrometres {
    /// A whole number of millimetres.
    pub const fn from_millimetres(millimetres: i32) -> Micrometres {
        Micrometres(millimetres * 1_000)
    }
}

impl Neg for Micrometres {
    type Output = Micrometres;
    fn neg(self) -> Micrometres {
        Micrometres(-self.0)
    }
}

impl Micros {
    /// A whole number of milliseconds.
    pub const fn from_millis(millis: u32) -> Micros {
        Micros(millis * 1_000)
    }

    /// A whole number of seconds.
    pub const fn from_seconds(seconds: u32) -> Micros {
        Micros(seconds * 1_000_000)
    }
}
