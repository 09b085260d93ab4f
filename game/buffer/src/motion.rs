//! Axis moves as closed-form profiles in whole micrometres and microseconds.
//!
//! A move from rest to rest is a trapezoid, or a triangle if the way is too short to reach the
//! speed; where the axis has a limit of jerk it is an S-curve. A stop is neither: it brakes at
//! once.
//! [`Motion::covered`] *is* the motion: whole numbers, never falling, and a place is crossed at the
//! first microsecond at which `covered` reaches it. Whole times are rounded up once.
//!
//! Source of the formulas: handbook kinematics; each profile says its own.

mod run;
mod s_curve;
mod trapezoid;

use rackproof_model::{
    Micrometres, Micros,
    quantity::{MicrometresPerSecond, MillimetresPerSecondCubed, MillimetresPerSecondSquared},
};

/// What an axis can do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Axis {
    /// Speed of a move. 1,000 to 1,000,000 µm/s, so that 4 m take less than 71 minutes.
    pub speed: MicrometresPerSecond,
    /// Acceleration, and deceleration at the end of a move. 1 to 20,000 mm/s².
    pub acceleration: MillimetresPerSecondSquared,
    /// Deceleration of a stop. At least the acceleration, so that a stop never passes the target.
    pub braking: MillimetresPerSecondSquared,
    /// How fast the acceleration of a move may change: 100 to 1,000,000 mm/s³, so that the ramp
    /// takes at most 4 s. `None` if it changes at once. A stop does not keep to it.
    pub jerk: Option<MillimetresPerSecondCubed>,
}

impl Axis {
    /// An axis that is at once where it is sent to. No machine file can say so; it is for questions
    /// in which moves take no time, such as the closed forms of queues.
    pub const AT_ONCE: Axis = Axis {
        speed: MicrometresPerSecond(u32::MAX),
        acceleration: MillimetresPerSecondSquared(u32::MAX),
        braking: MillimetresPerSecondSquared(u32::MAX),
        jerk: None,
    };
}

/// What moves an axis just now.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Drive {
    /// Nothing: it is at rest.
    #[default]
    Rest,
    /// A planned move from rest to rest.
    Run,
    /// A stop from a speed, in nm/s.
    Brake(u32),
}

/// One axis in motion, or at rest. Ways are counted from where this motion began.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Motion {
    drive: Drive,
    way: Micrometres,
    elapsed: Micros,
    total: Micros,
}

impl Motion {
    /// A stop of which no more is asked than that it ends, and that there is a moment before that.
    pub(crate) const RUNS_OUT: Motion = Motion {
        drive: Drive::Brake(1),
        way: Micrometres(1),
        elapsed: Micros(0),
        total: Micros(2),
    };

    /// Begins a move of `way`, which may be negative. A move of no length ends at once, and so does
    /// any move of [`Axis::AT_ONCE`].
    #[inline]
    pub fn begin(axis: &Axis, way: Micrometres) -> Motion {
        let total = run::whole_time(axis, way.0.unsigned_abs());
        Motion::begin_known(way, Micros(total))
    }

    /// The same, the time that it takes worked out before.
    #[inline]
    pub(crate) fn begin_known(way: Micrometres, total: Micros) -> Motion {
        Motion {
            drive: Drive::Run,
            way,
            elapsed: Micros(0),
            total,
        }
    }

    /// Whether the axis is at rest.
    #[inline]
    pub fn is_rest(&self) -> bool {
        self.drive == Drive::Rest
    }

    /// Whether this is a planned move, not a stop.
    pub fn is_run(&self) -> bool {
        self.drive == Drive::Run
    }

    /// Time since the motion began, in µs.
    pub fn elapsed(&self) -> Micros {
        self.elapsed
    }

    /// Time until it ends by itself, in µs.
    pub fn left(&self) -> Micros {
        self.total - self.elapsed
    }

    /// Lets time pass. Never more than [`Motion::left`].
    #[inline]
    pub fn pass(&mut self, span: Micros) {
        if !self.is_rest() {
            debug_assert!(span <= self.left(), "a motion was run past its end");
            self.elapsed += span;
        }
    }

    /// How far it has come since it began, with its sign, in µm.
    #[inline]
    pub fn covered(&self, axis: &Axis) -> Micrometres {
        self.covered_at(axis, self.elapsed)
    }

    /// How far it will have come `at` after its beginning, in µm.
    #[inline]
    pub fn covered_at(&self, axis: &Axis, at: Micros) -> Micrometres {
        // Mostly this is asked at the end of a motion, or of an axis at rest.
        if at >= self.total {
            return self.way;
        }
        self.covered_before_end(axis, at)
    }

    fn covered_before_end(&self, axis: &Axis, at: Micros) -> Micrometres {
        let reached = match self.drive {
            Drive::Rest => 0,
            Drive::Run => run::covered(axis, self.way.0.unsigned_abs(), self.total.0, at.0),
            Drive::Brake(speed) => brake_covered(axis, speed, self.way.0.unsigned_abs(), at.0),
        };
        Micrometres(if self.way.0 < 0 {
            -(reached as i32)
        } else {
            reached as i32
        })
    }

    /// Time from now to the first microsecond at which `way` (with its sign) is reached, or `None`
    /// if this motion never gets there or is there already.
    pub fn time_to(&self, axis: &Axis, way: Micrometres) -> Option<Micros> {
        let (want, whole) = (way.0.unsigned_abs(), self.way.0.unsigned_abs());
        let forward = (way.0 < 0) == (self.way.0 < 0);
        if self.elapsed == self.total || !forward || want > whole {
            return None;
        }
        let first = match self.drive {
            Drive::Rest => return None,
            Drive::Run => run::reaches(axis, whole, self.total.0, want),
            Drive::Brake(speed) => brake_reaches(axis, speed, whole, self.total.0, want),
        };
        (first > self.elapsed.0).then(|| Micros(first) - self.elapsed)
    }

    /// Speed now, in nm/s.
    pub fn speed(&self, axis: &Axis) -> u32 {
        match self.drive {
            Drive::Rest => 0,
            Drive::Run => run::speed(
                axis,
                self.way.0.unsigned_abs(),
                self.total.0,
                self.elapsed.0,
            ),
            Drive::Brake(speed) => {
                speed.saturating_sub(axis.braking.0.saturating_mul(self.elapsed.0))
            }
        }
    }

    /// The stop that begins now. Its ways are counted from here.
    pub fn brake(&self, axis: &Axis) -> Motion {
        if !self.is_run() {
            return *self;
        }
        let speed = self.speed(axis);
        let way = self.way.0.unsigned_abs();
        let end = run::stop_end(axis, way, self.total.0, self.elapsed.0);
        let way = (end - self.covered(axis).0.unsigned_abs()) as i32;
        Motion {
            drive: Drive::Brake(speed),
            way: Micrometres(if self.way.0 < 0 { -way } else { way }),
            elapsed: Micros(0),
            total: Micros(speed.div_ceil(axis.braking.0)),
        }
    }

    /// The same motion, the other way if it goes down.
    pub(crate) fn upwards(self) -> Motion {
        Motion {
            way: Micrometres(self.way.0.abs()),
            ..self
        }
    }

    /// How far a stop that begins now runs on, without its sign, in µm.
    pub fn stopping_way(&self, axis: &Axis) -> Micrometres {
        self.brake(axis).way_left(axis)
    }

    fn way_left(&self, axis: &Axis) -> Micrometres {
        Micrometres((self.way - self.covered(axis)).0.abs())
    }

    /// The whole way of this motion, with its sign, in µm.
    pub fn way(&self) -> Micrometres {
        self.way
    }
}

/// The motion's fields in a key.
pub(crate) fn code(motion: &mut Motion, coder: &mut impl rackproof_model::key::Coder) {
    let mut kind = match motion.drive {
        Drive::Rest => 0,
        Drive::Run => 1,
        Drive::Brake(_) => 2,
    };
    coder.byte(&mut kind, 2);
    if kind == 0 {
        *motion = Motion::default();
        return;
    }
    coder.signed(&mut motion.way.0);
    coder.word(&mut motion.elapsed.0, 32);
    coder.word(&mut motion.total.0, 32);
    let mut speed = if let Drive::Brake(speed) = motion.drive {
        speed
    } else {
        0
    };
    if kind == 2 {
        coder.word(&mut speed, 32);
        motion.drive = Drive::Brake(speed);
    } else {
        motion.drive = Drive::Run;
    }
}

/// The first moment of a motion at which `there` is true: never before one at which it is false,
/// and true at `total`. By bisection.
fn first_moment(total: u32, there: impl Fn(u32) -> bool) -> u32 {
    if there(0) {
        return 0;
    }
    // `early` is short of it, `late` is there.
    let (mut early, mut late) = (0, total);
    while late - early > 1 {
        let middle = early + (late - early) / 2;
        if there(middle) {
            late = middle;
        } else {
            early = middle;
        }
    }
    late
}

/// The first microsecond of a stop at which it has come `want`, at most `way`.
fn brake_reaches(axis: &Axis, speed: u32, way: u32, total: u32, want: u32) -> u32 {
    first_moment(total, |at| brake_covered(axis, speed, way, at) >= want)
}

fn brake_covered(axis: &Axis, speed: u32, way: u32, at: u32) -> u32 {
    let total = speed.div_ceil(axis.braking.0);
    if at >= total {
        return way;
    }
    // v·t − ½·b·t², rounded once, so that it never falls.
    let (speed, braking, at) = (u64::from(speed), u64::from(axis.braking.0), u64::from(at));
    let reached = (2 * speed * at - braking * at * at) / 2_000_000_000;
    reached.min(u64::from(way)) as u32
}
