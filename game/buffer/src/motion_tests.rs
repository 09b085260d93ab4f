//! Axis times against another planner, and the last moments at which a stop ends short of a mark.

use proptest::prelude::*;
use rackproof_model::{
    Micrometres, Micros,
    quantity::{MicrometresPerSecond, MillimetresPerSecondSquared},
};

use crate::{Axis, Motion, time::last_stop_before};

/// Times of another planner: rsruckig 3.0.1 with infinite jerk, see tests/peers/src/profiles.rs.
const PROFILES: &str = include_str!("../../../tests/outside/profiles-rsruckig.txt");

fn axis(speed: u32, acceleration: u32, braking: u32) -> Axis {
    Axis {
        speed: MicrometresPerSecond(speed),
        acceleration: MillimetresPerSecondSquared(acceleration),
        braking: MillimetresPerSecondSquared(braking),
    }
}

/// A figure with six decimals, in millionths.
fn millionths(figure: &str) -> u64 {
    let digits: String = figure.chars().filter(|&c| c != '.').collect();
    assert_eq!(figure.split('.').nth(1).map(str::len), Some(6), "{figure}");
    digits.parse().expect("a figure")
}

#[test]
fn whole_times_are_those_of_another_planner_rounded_up() {
    let rows: Vec<_> = PROFILES
        .lines()
        .filter(|row| !row.starts_with('#'))
        .collect();
    assert!(rows.len() >= 200, "{} rows", rows.len());
    for row in rows {
        let fields: Vec<&str> = row.split(' ').collect();
        let [way, speed, acceleration] =
            [0, 1, 2].map(|at| fields[at].parse::<u32>().expect("a whole number"));
        let theirs = millionths(fields[3]);
        let axis = axis(speed, acceleration, acceleration);
        let ours = u64::from(Motion::begin(&axis, Micrometres(way as i32)).left().0);
        // Their figure is rounded to a millionth of a microsecond, so that a whole one may lie
        // that much beside it.
        assert!(ours * 1_000_000 + 1 >= theirs, "{row}: ours is {ours}");
        assert!(
            ours * 1_000_000 < theirs + 1_000_001,
            "{row}: ours is {ours}"
        );
    }
}

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
        way in 1_i32..2_000_000, back: bool, speed in 1_000_u32..1_000_000,
        acceleration in 50_u32..20_000, harder in 0_u32..20_000,
        begun in 0_u32..1_000, share in 1_u32..=1_000, later in 1_u32..=1_000,
    ) {
        let sign = if back { -1 } else { 1 };
        let axis = axis(speed, acceleration, acceleration + harder);
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
        way in 1_i32..2_000_000, speed in 1_000_u32..1_000_000,
        acceleration in 50_u32..20_000, harder in 0_u32..20_000, share in 0_u32..1_000,
        first in 0_u32..1_000,
    ) {
        let axis = axis(speed, acceleration, acceleration + harder);
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

#[test]
fn an_axis_at_once_is_where_it_is_sent_to() {
    for way in [-4_000_000, 0, 1, 4_000_000] {
        let motion = Motion::begin(&Axis::AT_ONCE, Micrometres(way));
        assert_eq!(motion.left(), Micros(0));
        assert_eq!(motion.covered(&Axis::AT_ONCE), Micrometres(way));
        assert_eq!(motion.time_to(&Axis::AT_ONCE, Micrometres(way)), None);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2_000, failure_persistence: None,
        ..ProptestConfig::default() })]

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

    /// By the definition of the moment, from anywhere on a move or a stop, either way.
    #[test]
    fn from_anywhere_a_crossing_is_the_first_microsecond_that_reaches_the_place(
        way in 1_i32..2_000_000, back: bool, stops: bool, speed in 1_000_u32..1_000_000,
        acceleration in 50_u32..20_000, harder in 0_u32..20_000,
        stopped in 0_u32..1_000, begun in 0_u32..=1_000, share in 0_u32..=1_000,
    ) {
        let sign = if back { -1 } else { 1 };
        let axis = axis(speed, acceleration, acceleration + harder);
        let part = |whole: u32, share: u32| (u64::from(whole) * u64::from(share) / 1_000) as u32;
        let mut motion = Motion::begin(&axis, Micrometres(sign * way));
        if stops {
            motion.pass(Micros(part(motion.left().0, stopped)));
            motion = motion.brake(&axis);
        }
        motion.pass(Micros(part(motion.left().0, begun)));
        let place = sign * part(motion.way().0.unsigned_abs(), share) as i32;
        let reaches = |after: u32| {
            let at = motion.elapsed() + Micros(after);
            motion.covered_at(&axis, at).0.abs() >= place.abs()
        };
        match motion.time_to(&axis, Micrometres(place)) {
            None => prop_assert!(reaches(0)),
            Some(after) => {
                prop_assert!(reaches(after.0), "{place} is not reached after {after}");
                prop_assert!(!reaches(after.0 - 1), "{place} was reached before {after}");
            }
        }
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
