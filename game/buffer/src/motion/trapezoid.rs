//! A move without a limit of jerk: a trapezoid, or a triangle if the way is too short to reach the
//! speed.
//!
//! Source of the formulas: handbook kinematics (time = way/speed + speed/acceleration, or
//! 2·√(way/acceleration)).
//!
//! Ways are lengths in µm, moments are µs since the move began, both without a sign.

use super::Axis;

fn reaches_speed(axis: &Axis, way: u32) -> bool {
    let speed = u64::from(axis.speed.0);
    u64::from(way) * 1_000 * u64::from(axis.acceleration.0) >= speed * speed
}

fn ceil_root(square: u64) -> u64 {
    let root = square.isqrt();
    if root * root < square { root + 1 } else { root }
}

/// Time from rest to rest, rounded up.
pub(super) fn whole_time(axis: &Axis, way: u32) -> u32 {
    let (way_long, speed) = (u64::from(way), u64::from(axis.speed.0));
    let acceleration = u64::from(axis.acceleration.0);
    let time = if way == 0 || axis.acceleration == Axis::AT_ONCE.acceleration {
        0
    } else if reaches_speed(axis, way) {
        let over = way_long * 1_000_000 * acceleration + 1_000 * speed * speed;
        over.div_ceil(speed * acceleration)
    } else {
        ceil_root((4_000_000_000 * way_long).div_ceil(acceleration))
    };
    time as u32
}

/// ½·a·t² in whole µm, with t in µs.
fn ramp(acceleration: u32, time: u32) -> u64 {
    u64::from(acceleration) * u64::from(time) * u64::from(time) / 2_000_000_000
}

/// How long a run speeds up, and when it begins to slow down.
fn ramps(axis: &Axis, way: u32, total: u32) -> (u32, u32) {
    if reaches_speed(axis, way) {
        let ramp_time = axis.speed.0 * 1_000 / axis.acceleration.0;
        (ramp_time, total - ramp_time)
    } else {
        (total / 2, total / 2)
    }
}

/// How far it has come `at` a moment.
pub(super) fn covered(axis: &Axis, way: u32, total: u32, at: u32) -> u32 {
    if at >= total {
        return way;
    }
    let (ramp_time, before_ramp_down) = ramps(axis, way, total);
    let (acceleration, way) = (axis.acceleration.0, u64::from(way));
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

/// The first microsecond of a run at which it has come `want`, at most `way`: [`covered`]
/// solved for the time, rounded to the side on which `want` is reached.
pub(super) fn reaches(axis: &Axis, way: u32, total: u32, want: u32) -> u32 {
    let (ramp_time, before_ramp_down) = ramps(axis, way, total);
    let (speed, long) = (u64::from(axis.speed.0), u64::from(axis.acceleration.0));
    let (want, way) = (u64::from(want), u64::from(way));
    if want <= ramp(axis.acceleration.0, ramp_time) {
        // ½·a·t² ≥ want
        return ceil_root((2_000_000_000 * want).div_ceil(long)) as u32;
    }
    if before_ramp_down > ramp_time {
        // v·t − v²/2a ≥ want
        let cruising = (1_000_000 * long * want + 500 * speed * speed).div_ceil(speed * long);
        if cruising <= u64::from(before_ramp_down) {
            return cruising as u32;
        }
    }
    // way − ½·a·r² ≥ want, with r left to run: the greatest such r.
    let left = ((2_000_000_000 * (way - want + 1) - 1) / long).isqrt();
    let at = u64::from(total).saturating_sub(left);
    at.max(u64::from(before_ramp_down) + 1) as u32
}

/// Speed `at` a moment, in nm/s.
pub(super) fn speed(axis: &Axis, way: u32, total: u32, at: u32) -> u32 {
    let most = if reaches_speed(axis, way) {
        axis.speed.0 * 1_000
    } else {
        axis.acceleration.0 * (total / 2)
    };
    let ramp = |time: u32| most.min(axis.acceleration.0.saturating_mul(time));
    if at > ramps(axis, way, total).1 {
        ramp(total - at)
    } else {
        ramp(at)
    }
}

/// Where a stop that begins `at` ends, in µm from where the run began. It never falls as `at`
/// grows, so that there is one last moment at which a stop ends short of a place.
pub(super) fn stop_end(axis: &Axis, way: u32, total: u32, at: u32) -> u32 {
    let end_from =
        |at: u32| covered(axis, way, total, at) + stopping_way(axis, speed(axis, way, total, at));
    let (_, before_ramp_down) = ramps(axis, way, total);
    if at <= before_ramp_down {
        return end_from(at).min(way);
    }
    // The ramp down would need ½·a·t² more, the stop a/b of that. Rounded once: two roundings, one
    // of a way that grows and one of a way that shrinks, would let the sum fall.
    let (acceleration, braking) = (u128::from(axis.acceleration.0), u128::from(axis.braking.0));
    let left = u128::from(total - at);
    let spared = acceleration * left * left * (braking - acceleration) / (2_000_000_000 * braking);
    let end = way
        .saturating_sub(spared as u32)
        .max(end_from(before_ramp_down));
    end.max(covered(axis, way, total, at)).min(way)
}

fn stopping_way(axis: &Axis, speed: u32) -> u32 {
    (u64::from(speed) * u64::from(speed) / (2_000_000_000 * u64::from(axis.braking.0))) as u32
}
