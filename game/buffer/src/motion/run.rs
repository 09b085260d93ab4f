//! A planned move from rest to rest, by the profile that its axis keeps to.
//!
//! Ways are lengths in µm, moments are µs since the move began, both without a sign. `total` is the
//! [`whole_time`] of the same way.

use super::{Axis, s_curve::SCurve, trapezoid};

/// Time from rest to rest, rounded up.
#[inline]
pub(super) fn whole_time(axis: &Axis, way: u32) -> u32 {
    match axis.jerk {
        None => trapezoid::whole_time(axis, way),
        Some(jerk) => SCurve::whole_time(axis, jerk, way),
    }
}

/// How far it has come `at` a moment. Never falls; the whole way at its end.
#[inline]
pub(super) fn covered(axis: &Axis, way: u32, total: u32, at: u32) -> u32 {
    match axis.jerk {
        None => trapezoid::covered(axis, way, total, at),
        Some(jerk) => SCurve::of(axis, jerk, way, total).covered(at),
    }
}

/// The first moment at which it has come `want`, at most `way`.
#[inline]
pub(super) fn reaches(axis: &Axis, way: u32, total: u32, want: u32) -> u32 {
    match axis.jerk {
        None => trapezoid::reaches(axis, way, total, want),
        Some(jerk) => SCurve::of(axis, jerk, way, total).reaches(want),
    }
}

/// Speed `at` a moment, in nm/s.
pub(super) fn speed(axis: &Axis, way: u32, total: u32, at: u32) -> u32 {
    match axis.jerk {
        None => trapezoid::speed(axis, way, total, at),
        Some(jerk) => SCurve::of(axis, jerk, way, total).speed(at),
    }
}

/// Where a stop that begins `at` a moment ends. It never falls as `at` grows, so that there is one
/// last moment at which a stop ends short of a place.
pub(super) fn stop_end(axis: &Axis, way: u32, total: u32, at: u32) -> u32 {
    match axis.jerk {
        None => trapezoid::stop_end(axis, way, total, at),
        Some(jerk) => SCurve::of(axis, jerk, way, total).stop_end(axis, at),
    }
}
