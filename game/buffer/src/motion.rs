//! Axis moves as closed-form profiles in whole micrometres and microseconds.
//!
//! A move from rest to rest is a trapezoid, or a triangle if the way is too short to reach the
//! speed. [`Motion::covered`] *is* the motion: whole numbers, never falling, and a place is crossed
//! at the first microsecond at which `covered` reaches it. Whole times are rounded up once.
//!
//! Source of the formulas: handbook kinematics (time = way/speed + speed/acceleration, or
//! 2·√(way/acceleration)).

use rackproof_model::{
    Micrometres, Micros,
    quantity::{MicrometresPerSecond, MillimetresPerSecondSquared},
};

/// What an axis can do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Axis {
    /// Speed of a move. 1 to 1,000,000 µm/s.
    pub speed: MicrometresPerSecond,
    /// Acceleration, and deceleration at the end of a move. 1 to 20,000 mm/s².
    pub acceleration: MillimetresPerSecondSquared,
    /// Deceleration of a stop. At least the acceleration, so that a stop never passes the target.
    pub braking: MillimetresPerSecondSquared,
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
    /// Begins a move of `way`, which may be negative. A move of no length ends at once.
    pub fn begin(axis: &Axis, way: Micrometres) -> Motion {
        let total = Micros(whole_time(axis, way.0.unsigned_abs()));
        Motion {
            drive: Drive::Run,
            way,
            elapsed: Micros(0),
            total,
        }
    }

    /// Whether the axis is at rest.
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
    pub fn pass(&mut self, span: Micros) {
        if !self.is_rest() {
            debug_assert!(span <= self.left(), "a motion was run past its end");
            self.elapsed += span;
        }
    }

    /// How far it has come since it began, with its sign, in µm.
    pub fn covered(&self, axis: &Axis) -> Micrometres {
        self.covered_at(axis, self.elapsed)
    }

    /// How far it will have come `at` after its beginning, in µm.
    pub fn covered_at(&self, axis: &Axis, at: Micros) -> Micrometres {
        let reached = match self.drive {
            Drive::Rest => 0,
            Drive::Run => run_covered(axis, self.way.0.unsigned_abs(), self.total.0, at.0),
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
        let want = way.0.unsigned_abs();
        let forward = (way.0 < 0) == (self.way.0 < 0);
        if self.is_rest() || !forward || want > self.way.0.unsigned_abs() {
            return None;
        }
        if self.covered(axis).0.unsigned_abs() >= want {
            return None;
        }
        let (mut early, mut late) = (self.elapsed.0, self.total.0);
        // Bisection over a function that never falls: `early` is short of it, `late` is there.
        while late - early > 1 {
            let middle = early + (late - early) / 2;
            if self.covered_at(axis, Micros(middle)).0.unsigned_abs() >= want {
                late = middle;
            } else {
                early = middle;
            }
        }
        Some(Micros(late) - self.elapsed)
    }

    /// Speed now, in nm/s.
    pub fn speed(&self, axis: &Axis) -> u32 {
        match self.drive {
            Drive::Rest => 0,
            Drive::Run => run_speed(
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
        let way = stopping_way(axis, speed);
        let left = self.way.0.unsigned_abs() - self.covered(axis).0.unsigned_abs();
        let way = way.min(left) as i32;
        Motion {
            drive: Drive::Brake(speed),
            way: Micrometres(if self.way.0 < 0 { -way } else { way }),
            elapsed: Micros(0),
            total: Micros(speed.div_ceil(axis.braking.0)),
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

fn reaches_speed(axis: &Axis, way: u32) -> bool {
    let speed = u64::from(axis.speed.0);
    u64::from(way) * 1_000 * u64::from(axis.acceleration.0) >= speed * speed
}

fn whole_time(axis: &Axis, way: u32) -> u32 {
    let (way_long, speed) = (u64::from(way), u64::from(axis.speed.0));
    let acceleration = u64::from(axis.acceleration.0);
    let time = if way == 0 {
        0
    } else if reaches_speed(axis, way) {
        let over = way_long * 1_000_000 * acceleration + 1_000 * speed * speed;
        over.div_ceil(speed * acceleration)
    } else {
        ceil_root((4_000_000_000 * way_long).div_ceil(acceleration))
    };
    time as u32
}

fn ceil_root(square: u64) -> u64 {
    let root = square.isqrt();
    if root * root < square { root + 1 } else { root }
}

/// ½·a·t² in whole µm, with t in µs.
fn ramp(acceleration: u32, time: u32) -> u64 {
    u64::from(acceleration) * u64::from(time) * u64::from(time) / 2_000_000_000
}

fn run_covered(axis: &Axis, way: u32, total: u32, at: u32) -> u32 {
    if at >= total {
        return way;
    }
    let (acceleration, way) = (axis.acceleration.0, u64::from(way));
    let (ramp_time, before_ramp_down) = if reaches_speed(axis, way as u32) {
        let ramp_time = axis.speed.0 * 1_000 / acceleration;
        (ramp_time, total - ramp_time)
    } else {
        (total / 2, total / 2)
    };
    let rising = |time: u32| {
        if time <= ramp_time {
            return ramp(acceleration, time);
        }
        // v·t − v²/2a over one denominator.
        let (speed, long) = (u64::from(axis.speed.0), u64::from(acceleration));
        (speed * u64::from(time) * long - 500 * speed * speed) / (1_000_000 * long)
    };
    let reached = if at <= before_ramp_down {
        rising(at)
    } else {
        // The ramp down mirrors the ramp up. Rounding must not let it fall below where it began.
        rising(before_ramp_down).max(way.saturating_sub(ramp(acceleration, total - at)))
    };
    reached.min(way) as u32
}

fn run_speed(axis: &Axis, way: u32, total: u32, at: u32) -> u32 {
    let most = if reaches_speed(axis, way) {
        axis.speed.0 * 1_000
    } else {
        axis.acceleration.0 * (total / 2)
    };
    let rising = axis.acceleration.0.saturating_mul(at);
    let falling = axis.acceleration.0.saturating_mul(total - at);
    most.min(rising).min(falling)
}

fn stopping_way(axis: &Axis, speed: u32) -> u32 {
    (u64::from(speed) * u64::from(speed) / (2_000_000_000 * u64::from(axis.braking.0))) as u32
}

fn brake_covered(axis: &Axis, speed: u32, way: u32, at: u32) -> u32 {
    let total = speed.div_ceil(axis.braking.0);
    if at >= total {
        return way;
    }
    let driven = u64::from(speed) * u64::from(at) / 1_000_000_000;
    let lost = (u64::from(axis.braking.0) * u64::from(at) * u64::from(at)).div_ceil(2_000_000_000);
    driven.saturating_sub(lost).min(u64::from(way)) as u32
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn axis(speed: u32, acceleration: u32, braking: u32) -> Axis {
        Axis {
            speed: MicrometresPerSecond(speed),
            acceleration: MillimetresPerSecondSquared(acceleration),
            braking: MillimetresPerSecondSquared(braking),
        }
    }

    /// Rest to rest: way in mm, speed in mm/s, acceleration in mm/s², time in µs rounded up.
    /// Source: handbook kinematics; `rsruckig` 3.0.1 and `ruckig` 0.19.4 agree (tests/outside).
    const TIMES: [(i32, u32, u32, u32); 5] = [
        (300, 250, 500, 1_700_000),
        (10, 250, 500, 282_843),
        (125, 250, 500, 1_000_000),
        (400, 200, 400, 2_500_000),
        (0, 200, 400, 0),
    ];

    #[test]
    fn whole_times_are_those_of_the_handbook() {
        for (way, speed, acceleration, time) in TIMES {
            let axis = axis(speed * 1_000, acceleration, acceleration);
            let motion = Motion::begin(&axis, Micrometres::from_millimetres(way));
            assert_eq!(motion.left(), Micros(time), "way {way} mm");
        }
    }

    proptest! {
        #[test]
        fn a_move_never_runs_back_and_ends_at_its_target(
            way in -2_000_000_i32..2_000_000, speed in 1_000_u32..1_000_000,
            acceleration in 250_u32..20_000, parts in 2_u32..200,
        ) {
            let axis = axis(speed, acceleration, acceleration);
            let motion = Motion::begin(&axis, Micrometres(way));
            let total = motion.left().0;
            let mut last = 0;
            for part in 0..=parts {
                let at = (u64::from(total) * u64::from(part) / u64::from(parts)) as u32;
                let here = motion.covered_at(&axis, Micros(at)).0;
                prop_assert!(here.abs() >= last, "{here} after {last}");
                last = here.abs();
            }
            prop_assert_eq!(motion.covered_at(&axis, Micros(total)).0, way);
        }

        #[test]
        fn a_crossing_is_the_first_microsecond_that_reaches_the_place(
            way in 1_i32..2_000_000, speed in 1_000_u32..1_000_000,
            acceleration in 250_u32..20_000, share in 1_u32..=1_000,
        ) {
            let axis = axis(speed, acceleration, acceleration);
            let motion = Motion::begin(&axis, Micrometres(way));
            let place = Micrometres(((i64::from(way) * i64::from(share)) / 1_000).max(1) as i32);
            let time = motion.time_to(&axis, place).expect("it is on the way");
            prop_assert!(motion.covered_at(&axis, time) >= place);
            prop_assert!(motion.covered_at(&axis, Micros(time.0 - 1)) < place);
        }

        #[test]
        fn a_stop_ends_at_rest_and_short_of_the_target(
            way in 1_i32..2_000_000, speed in 1_000_u32..1_000_000,
            acceleration in 250_u32..10_000, harder in 0_u32..10_000, share in 0_u32..1_000,
        ) {
            let axis = axis(speed, acceleration, acceleration + harder);
            let mut motion = Motion::begin(&axis, Micrometres(way));
            let at = (u64::from(motion.left().0) * u64::from(share) / 1_000) as u32;
            motion.pass(Micros(at));
            let before = motion.covered(&axis);
            let mut stop = motion.brake(&axis);
            stop.pass(stop.left());
            prop_assert!((before + stop.covered(&axis)).0 <= way);
            prop_assert_eq!(stop.left(), Micros(0));
        }
    }
}
