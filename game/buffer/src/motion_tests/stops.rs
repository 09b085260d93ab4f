//! Where stops end, and the last moments at which they end short of a mark.

use proptest::prelude::*;
use rackproof_model::{Micrometres, Micros, quantity::MillimetresPerSecondCubed};

use super::{axes, axis};
use crate::{Axis, Motion, time::last_stop_before};

/// Where a stop after `at` ends, by running it out.
fn stop_ends(motion: &Motion, axis: &Axis, at: u32) -> i32 {
    let mut motion = *motion;
    motion.pass(Micros(at));
    let reached = motion.covered(axis);
    let mut stop = motion.brake(axis);
    stop.pass(stop.left());
    (reached + stop.covered(axis)).0
}

fn last_stop(motion: &Motion, axis: &Axis, mark: i32) -> Option<u32> {
    let mut last = None;
    last_stop_before(motion, axis, Micrometres(mark), &mut |found| {
        last = Some(found.0)
    });
    last
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2_000, failure_persistence: None,
        ..ProptestConfig::default() })]

    /// By the definition of the moment: at it a stop ends short of the mark, and never after it.
    #[test]
    fn the_last_stop_before_a_mark_is_the_last(
        way in 1_i32..2_000_000, back: bool, axis in axes(),
        begun in 0_u32..1_000, share in 1_u32..=1_000, later in 1_u32..=1_000,
    ) {
        let sign = if back { -1 } else { 1 };
        let mut motion = Motion::begin(&axis, Micrometres(sign * way));
        motion.pass(Micros((u64::from(motion.left().0) * u64::from(begun) / 1_000) as u32));
        let mark = (i64::from(way) * i64::from(share) / 1_000).max(1) as i32;
        let reaches = |at: u32| stop_ends(&motion, &axis, at).abs() >= mark;
        match last_stop(&motion, &axis, sign * mark) {
            None => prop_assert!(reaches(0) && reaches(motion.left().0 / 2)),
            Some(last) => {
                prop_assert!(!reaches(last), "a stop at {last} reaches {mark}");
                let left = motion.left().0 - last;
                let probe = (u64::from(left) * u64::from(later) / 1_000) as u32;
                for after in [1, 2, 3, later, probe.max(1), left] {
                    let at = last + after.min(left);
                    prop_assert!(reaches(at), "{mark}: last {last}, but short again at {at}");
                }
            }
        }
    }

    /// A stop is a motion like any other: it never runs back.
    #[test]
    fn a_stop_never_runs_back(
        way in 1_i32..2_000_000, axis in axes(), share in 0_u32..1_000,
        first in 0_u32..1_000,
    ) {
        let mut motion = Motion::begin(&axis, Micrometres(way));
        motion.pass(Micros((u64::from(motion.left().0) * u64::from(share) / 1_000) as u32));
        let stop = motion.brake(&axis);
        let total = stop.left().0;
        let first = (u64::from(total) * u64::from(first) / 1_000) as u32;
        let covered = |at| stop.covered_at(&axis, Micros(at)).0;
        for at in first..(first + 200).min(total) {
            prop_assert!(covered(at) <= covered(at + 1), "{} to {}", covered(at), covered(at + 1));
        }
    }

    /// Also where a stop brakes no harder than the ramp, so that all of the ramp down is needed.
    #[test]
    fn a_later_stop_never_ends_sooner(
        way in 1_i32..2_000_000, axis in axes(), no_harder: bool, share in 0_u32..1_000,
    ) {
        let mut axis = axis;
        if no_harder {
            axis.braking = axis.acceleration;
        }
        let motion = Motion::begin(&axis, Micrometres(way));
        let first = (u64::from(motion.left().0) * u64::from(share) / 1_000) as u32;
        let last = (first + 100).min(motion.left().0);
        for at in first..last {
            let [sooner, later] = [at, at + 1].map(|at| stop_ends(&motion, &axis, at));
            prop_assert!(sooner <= later, "{sooner} from {at}, then {later}");
            prop_assert!(later <= way);
        }
    }

    #[test]
    fn a_stop_ends_at_rest_and_short_of_the_target(
        way in 1_i32..2_000_000, axis in axes(), share in 0_u32..1_000,
    ) {
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

/// The lift is also sent to where it stands: then a stop may begin a move of no length.
#[test]
fn a_stop_of_a_move_of_no_length_and_one_at_the_end_stay_where_they_are() {
    for jerk in [None, Some(MillimetresPerSecondCubed(5_000))] {
        let mut axis = axis(250_000, 500, 1_000);
        axis.jerk = jerk;
        for way in [0, 1, -9, 42_000] {
            let mut motion = Motion::begin(&axis, Micrometres(way));
            motion.pass(motion.left());
            assert_eq!(motion.speed(&axis), 0, "{way}, {jerk:?}");
            let stop = motion.brake(&axis);
            assert_eq!(
                (stop.left(), stop.way().0),
                (Micros(0), 0),
                "{way}, {jerk:?}"
            );
        }
    }
}

/// Speed in µm/s, acceleration and braking in mm/s², jerk in mm/s³, way in µm. In whole
/// microseconds the ramps of these are a little steeper than their acceleration, and so than their
/// stop. All were found by trying: where no more than the braking is counted, a stop of each ends a
/// micrometre sooner than the one before.
const STEEP: [(u32, u32, u32, i32); 5] = [
    (585_769, 9_374, 962_099, 167_276),
    (103_493, 5_169, 511_324, 259_591),
    (653_504, 9_147, 741_360, 74_910),
    (328_090, 2_862, 565_480, 297_873),
    (635_600, 4_303, 184_979, 212_044),
];

#[test]
fn no_stop_of_a_steep_ramp_ends_sooner_than_the_one_before() {
    for (speed, acceleration, jerk, way) in STEEP {
        let mut axis = axis(speed, acceleration, acceleration);
        axis.jerk = Some(MillimetresPerSecondCubed(jerk));
        let motion = Motion::begin(&axis, Micrometres(way));
        let total = motion.left().0;
        let mut last = 0;
        for at in total - 120_000..=total {
            let end = stop_ends(&motion, &axis, at);
            assert!(
                last <= end,
                "{axis:?}: {last}, then {end} at {at} of {total}"
            );
            last = end;
        }
    }
}
