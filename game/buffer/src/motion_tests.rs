//! Axis times and places against another planner, and that moves never run back.

mod stops;

use proptest::prelude::*;
use rackproof_model::{
    Micrometres, Micros,
    quantity::{MicrometresPerSecond, MillimetresPerSecondCubed, MillimetresPerSecondSquared},
};

use crate::{Axis, Motion};

/// Times and places of another planner: rsruckig 3.0.1, see tests/peers/src/profiles.rs.
const PROFILES: &str = include_str!("../../../tests/outside/profiles-rsruckig.txt");

fn axis(speed: u32, acceleration: u32, braking: u32) -> Axis {
    Axis {
        speed: MicrometresPerSecond(speed),
        acceleration: MillimetresPerSecondSquared(acceleration),
        braking: MillimetresPerSecondSquared(braking),
        jerk: None,
    }
}

/// Axes that a machine file may describe: none has a ramp of more than 4 s, and with a jerk none
/// takes longer than 4 s to grow.
fn axes() -> impl Strategy<Value = Axis> {
    let limits = (1_000_u32..1_000_000, 50_u32..20_000, 0_u32..20_000);
    let jerk = prop_oneof![Just(None), (100_u32..1_000_000).prop_map(Some)];
    (limits, jerk).prop_map(|((speed, acceleration, harder), jerk)| {
        let mut axis = axis(speed, acceleration, acceleration + harder);
        axis.jerk = jerk.map(MillimetresPerSecondCubed);
        axis
    })
}

/// A figure with decimals, without its point.
fn pointless(figure: &str, decimals: usize) -> u64 {
    let (_, after) = figure.split_once('.').expect("a point");
    assert_eq!(after.len(), decimals, "{figure}");
    figure.replace('.', "").parse().expect("a figure")
}

#[test]
fn whole_times_and_places_are_those_of_another_planner() {
    let rows = PROFILES.lines().filter(|row| !row.starts_with('#'));
    let mut with_jerk = 0;
    let mut rows_seen = 0;
    for row in rows {
        let fields: Vec<&str> = row.split(' ').collect();
        let number = |at: usize| fields[at].parse::<u32>().expect("a whole number");
        let (way, mut axis) = (number(0), axis(number(1), number(2), number(2)));
        axis.jerk = (fields[3] != "-").then(|| MillimetresPerSecondCubed(number(3)));
        let motion = Motion::begin(&axis, Micrometres(way as i32));
        let (total, theirs) = (motion.left().0, pointless(fields[4], 6));
        let ours = u64::from(total) * 1_000_000;
        // Their figure is rounded to a millionth of a microsecond, so that a whole one may lie
        // that much beside it.
        assert!(ours + 1 >= theirs, "{row}: ours is {total} µs");
        assert!(ours < theirs + 1_000_001, "{row}: ours is {total} µs");
        for (eighths, field) in [1, 2, 3, 6].into_iter().zip(&fields[5..]) {
            let at = (u64::from(total) * eighths / 8) as u32;
            let (ours, theirs) = (
                1_000 * i64::from(motion.covered_at(&axis, Micros(at)).0),
                pointless(field, 3) as i64,
            );
            // Ours is rounded down to a micrometre, its moment to a microsecond, and so are its
            // phases: the way of two microseconds at its speed, at most 500 mm/s.
            assert!(
                (theirs - ours - 500).abs() <= 1_600,
                "{row}: ours is {ours} nm after {eighths} eighths"
            );
        }
        rows_seen += 1;
        with_jerk += usize::from(axis.jerk.is_some());
    }
    assert_eq!((rows_seen, with_jerk), (900, 675));
}

/// Rest to rest: way in mm, speed in mm/s, acceleration in mm/s², jerk in mm/s³ (nought is none),
/// time in µs rounded up.
/// Source: handbook kinematics; `rsruckig` 3.0.1 and `ruckig` 0.19.4 agree (tests/outside). The
/// last but one reaches the speed but not the acceleration: 100/40 + 2·√(40/5000), by hand.
const TIMES: [(i32, u32, u32, u32, u32); 10] = [
    (300, 250, 500, 0, 1_700_000),
    (10, 250, 500, 0, 282_843),
    (125, 250, 500, 0, 1_000_000),
    (400, 200, 400, 0, 2_500_000),
    (0, 200, 400, 0, 0),
    (300, 250, 500, 5_000, 1_800_000),
    (20, 250, 500, 5_000, 512_311),
    (5, 200, 400, 4_000, 341_996),
    (100, 40, 500, 5_000, 2_678_886),
    (0, 200, 400, 4_000, 0),
];

#[test]
fn whole_times_are_those_of_the_handbook() {
    for (way, speed, acceleration, jerk, time) in TIMES {
        let mut axis = axis(speed * 1_000, acceleration, acceleration);
        axis.jerk = (jerk > 0).then_some(MillimetresPerSecondCubed(jerk));
        let motion = Motion::begin(&axis, Micrometres::from_millimetres(way));
        assert_eq!(
            motion.left(),
            Micros(time),
            "way {way} mm, jerk {jerk} mm/s³"
        );
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
        way in -2_000_000_i32..2_000_000, axis in axes(), parts in 2_u32..200,
    ) {
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
        way in 1_i32..2_000_000, axis in axes(), share in 1_u32..=1_000,
    ) {
        let motion = Motion::begin(&axis, Micrometres(way));
        let place = Micrometres(((i64::from(way) * i64::from(share)) / 1_000).max(1) as i32);
        let time = motion.time_to(&axis, place).expect("it is on the way");
        prop_assert!(motion.covered_at(&axis, time) >= place);
        prop_assert!(motion.covered_at(&axis, Micros(time.0 - 1)) < place);
    }

    /// By the definition of the moment, from anywhere on a move or a stop, either way.
    #[test]
    fn from_anywhere_a_crossing_is_the_first_microsecond_that_reaches_the_place(
        way in 1_i32..2_000_000, back: bool, stops: bool, axis in axes(),
        stopped in 0_u32..1_000, begun in 0_u32..=1_000, share in 0_u32..=1_000,
    ) {
        let sign = if back { -1 } else { 1 };
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

    /// Against the way of a millisecond. Places are rounded down to a micrometre; within the
    /// millisecond the speed changes by what the acceleration makes of it.
    #[test]
    fn the_speed_is_the_way_of_a_moment_and_never_more_than_the_axis_has(
        way in 1_i32..2_000_000, axis in axes(), share in 0_u32..1_000,
    ) {
        let mut motion = Motion::begin(&axis, Micrometres(way));
        let at = (u64::from(motion.left().0) * u64::from(share) / 1_000) as u32;
        motion.pass(Micros(at));
        // Nanometres in a second are picometres in a millisecond.
        let speed = i64::from(motion.speed(&axis));
        prop_assert!(speed <= i64::from(axis.speed.0) * 1_001, "{speed} nm/s");
        let span = motion.left().0.min(1_000);
        let there = motion.covered_at(&axis, Micros(at + span)).0;
        let came = i64::from(there - motion.covered(&axis).0) * 1_000_000;
        let expected = speed * i64::from(span) / 1_000;
        let changed = i64::from(axis.acceleration.0) * 1_000 + 1_100_000;
        prop_assert!((came - expected).abs() <= changed, "{came} pm, not {expected}");
    }
}
