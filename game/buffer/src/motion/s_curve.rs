//! A move with a limit of jerk: an S-curve. The acceleration grows evenly to its height, stays
//! there, falls evenly to nought; then the speed stays, and the ramp down mirrors the ramp up.
//!
//! Source of the whole times: handbook kinematics, for way D, speed v, acceleration a, jerk j:
//!
//! | what is reached | time |
//! | --- | --- |
//! | v and a | D/v + v/a + a/j |
//! | v, not a | D/v + 2·√(v/j) |
//! | a, not v | a/j + √((a/j)² + 4·D/a) |
//! | neither | 4·∛(D/2j) |
//!
//! The curve itself has phases of whole microseconds and covers the way exactly: its height
//! follows from them. So speed, acceleration and jerk are their limits to within what a microsecond
//! makes of a phase, and every place is one fraction, rounded down once.

use ethnum::U256;
use rackproof_model::quantity::MillimetresPerSecondCubed;

use super::{Axis, first_moment};

/// One S-curve. Moments and lengths of phases are in µs, the way is in µm.
#[derive(Clone, Copy, Debug)]
pub(super) struct SCurve {
    way: u32,
    total: u32,
    /// How long the acceleration grows, and again how long it falls. At least 1.
    growth: u32,
    /// How long it takes to the top speed: at least twice the growth, at most half the total.
    ramp: u32,
}

/// What an axis keeps to: µm/s, mm/s², mm/s³.
#[derive(Clone, Copy)]
struct Limits {
    speed: u128,
    acceleration: u128,
    jerk: u128,
}

impl Limits {
    fn of(axis: &Axis, jerk: MillimetresPerSecondCubed) -> Limits {
        let [speed, acceleration, jerk] =
            [axis.speed.0, axis.acceleration.0, jerk.0].map(u128::from);
        Limits {
            speed,
            acceleration,
            jerk,
        }
    }

    /// How long the acceleration grows to its limit, in µs, rounded down. Not nought within the
    /// bounds of [`Axis`].
    fn growth(&self) -> u32 {
        (1_000_000 * self.acceleration / self.jerk) as u32
    }

    /// Whether a ramp up to the speed reaches the acceleration: v ≥ a²/j.
    fn reach_acceleration(&self) -> bool {
        self.speed * self.jerk >= 1_000 * self.acceleration.pow(2)
    }

    /// How long a ramp up to the speed takes, in µs, rounded down: v/a + a/j, or 2·√(v/j).
    fn ramp_to_speed(&self) -> u32 {
        let Limits {
            speed,
            acceleration,
            jerk,
        } = *self;
        let time = if self.reach_acceleration() {
            (1_000 * speed * jerk + 1_000_000 * acceleration.pow(2)) / (acceleration * jerk)
        } else {
            (4_000_000_000 * speed / jerk).isqrt()
        };
        time as u32
    }

    /// Whether a move of `way` reaches the speed: its way is at least v times such a ramp.
    fn reach_speed(&self, way: u32) -> bool {
        let (
            way,
            Limits {
                speed,
                acceleration,
                jerk,
            },
        ) = (u128::from(way), *self);
        if self.reach_acceleration() {
            let ramp = speed * jerk + 1_000 * acceleration.pow(2);
            1_000 * way * acceleration * jerk >= speed * ramp
        } else {
            1_000 * way.pow(2) * jerk >= 4 * speed.pow(3)
        }
    }

    /// Whether a move of `way` can take no longer than `total` µs. The four formulas, without their
    /// roots and fractions.
    fn allow(&self, way: u32, total: u32) -> bool {
        let (way, total) = (u128::from(way), u128::from(total));
        let Limits {
            speed,
            acceleration,
            jerk,
        } = *self;
        if self.reach_speed(way as u32) {
            if self.reach_acceleration() {
                let whole = 1_000_000 * way * acceleration * jerk
                    + 1_000 * speed.pow(2) * jerk
                    + 1_000_000 * speed * acceleration.pow(2);
                return total * speed * acceleration * jerk >= whole;
            }
            let ramps = (total * speed).saturating_sub(1_000_000 * way);
            return ramps.pow(2) >= (4_000_000_000 * speed.pow(3)).div_ceil(jerk);
        }
        if way * jerk.pow(2) >= 2_000 * acceleration.pow(3) {
            let growths = 2_000_000 * acceleration.pow(2) * total;
            return total.pow(2) * jerk * acceleration >= growths + 4_000_000_000 * way * jerk;
        }
        total.pow(3) * jerk >= 32_000_000_000_000_000 * way
    }
}

/// How far a curve has come and how fast it is, in the units that [`SCurve::whole`] explains.
struct Share {
    covered: u128,
    speed: u128,
}

impl SCurve {
    /// The curve of a move of `way` that takes `total`, its [`SCurve::whole_time`].
    pub(super) fn of(axis: &Axis, jerk: MillimetresPerSecondCubed, way: u32, total: u32) -> SCurve {
        let limits = Limits::of(axis, jerk);
        let ramp = if limits.reach_speed(way) {
            limits.ramp_to_speed()
        } else {
            total / 2
        };
        SCurve {
            way,
            total,
            growth: limits.growth().min(ramp / 2),
            ramp,
        }
    }

    /// Time from rest to rest, rounded up, in µs.
    pub(super) fn whole_time(axis: &Axis, jerk: MillimetresPerSecondCubed, way: u32) -> u32 {
        let limits = Limits::of(axis, jerk);
        match way {
            0 => 0,
            _ => first_moment(u32::MAX, |total| limits.allow(way, total)),
        }
    }

    /// How far it has come `at` a moment, in µm.
    pub(super) fn covered(&self, at: u32) -> u32 {
        if at >= self.total {
            return self.way;
        }
        (u128::from(self.way) * self.share(at).covered / self.whole()) as u32
    }

    /// The first moment at which it has come `want`.
    pub(super) fn reaches(&self, want: u32) -> u32 {
        first_moment(self.total, |at| self.covered(at) >= want)
    }

    /// Speed `at` a moment, in nm/s.
    pub(super) fn speed(&self, at: u32) -> u32 {
        if at >= self.total {
            return 0;
        }
        let micrometres = u128::from(self.way) * self.share(at).speed * 3;
        (micrometres * 1_000_000_000 / self.whole()) as u32
    }

    /// Where a stop that begins `at` a moment ends, in µm from where the move began: place plus
    /// v²/2b as one fraction. So it never falls, for no ramp is steeper than the stop; where whole
    /// microseconds have made it so, the stop is as steep.
    pub(super) fn stop_end(&self, axis: &Axis, at: u32) -> u32 {
        if at >= self.total {
            return self.way;
        }
        let Share { covered, speed } = self.share(at);
        let [way, whole, covered, speed] =
            [u128::from(self.way), self.whole(), covered, speed].map(U256::from);
        // v = 3·way·speed/whole in µm/µs. The braking in µm/µs² is `below` over `above`.
        let steepest = u128::from(self.ramp - self.growth) * u128::from(self.cruise_equal());
        let (above, below) =
            if u128::from(axis.braking.0) * steepest >= 1_000_000_000 * way.as_u128() {
                (1_000_000_000, u128::from(axis.braking.0))
            } else {
                (steepest, way.as_u128())
            };
        let (above, below) = (U256::from(above), U256::from(below));
        let three_speeds = U256::from(3_u32) * way * speed;
        let two = U256::from(2_u32);
        let end = (two * way * covered * whole * below + three_speeds * three_speeds * above)
            / (two * whole * whole * below);
        end.as_u32().min(self.way)
    }

    /// The time in which the way would be covered at top speed.
    fn cruise_equal(&self) -> u32 {
        self.total - self.ramp
    }

    /// The share that is the whole way. In these units the way grows as t³ at first, so that the
    /// jerk is 6; a speed is a third of the slope, at most 2·growth·(ramp − growth).
    fn whole(&self) -> u128 {
        6 * u128::from(self.growth)
            * u128::from(self.ramp - self.growth)
            * u128::from(self.cruise_equal())
    }

    fn share(&self, at: u32) -> Share {
        let left = self.total - at;
        if left < at {
            let Share { covered, speed } = self.rising(left);
            let covered = self.whole() - covered;
            return Share { covered, speed };
        }
        self.rising(at)
    }

    /// The share up to the middle.
    fn rising(&self, at: u32) -> Share {
        let [at, growth, ramp] = [at, self.growth, self.ramp].map(u128::from);
        let even = ramp - growth;
        if at <= growth {
            return Share {
                covered: at * at * at,
                speed: at * at,
            };
        }
        if at <= even {
            let since = at - growth;
            return Share {
                covered: growth * (growth * growth + 3 * since * at),
                speed: growth * (growth + 2 * since),
            };
        }
        let before = ramp.saturating_sub(at);
        let level = 6 * growth * even;
        Share {
            covered: 3 * growth * even * ramp
                + level * at.saturating_sub(ramp)
                + before * before * before
                - level * before,
            speed: 2 * growth * even - before * before,
        }
    }
}
