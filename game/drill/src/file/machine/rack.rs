//! The rack of a machine file, and what moves it or leads into it.

use rackproof_buffer::{Axes, Axis};
use rackproof_files::{Fields, Place, Report};
use rackproof_model::{
    Micrometres,
    quantity::{MicrometresPerSecond, MillimetresPerSecondCubed, MillimetresPerSecondSquared},
};

use super::bounds;

/// The rack itself.
pub(super) struct Rack {
    pub(super) slots: u8,
    pub(super) pitch: Micrometres,
    pub(super) length: Micrometres,
    pub(super) rest_clearance: Micrometres,
    pub(super) ledge: Micrometres,
    pub(super) reference_below: Micrometres,
    pub(super) reached_from_under: u8,
}

impl Rack {
    pub(super) fn of(fields: Fields<'_>) -> Option<Rack> {
        let slots = fields.integer("slots", &bounds::SLOTS);
        let pitch = fields.micrometres("pitch_mm", &bounds::PITCH);
        let length = fields.micrometres("length_mm", &bounds::RACK_LENGTH);
        let clearance = fields.micrometres("rest_clearance_mm", &bounds::REST_CLEARANCE);
        let ledge = fields.micrometres("ledge_mm", &bounds::LEDGE);
        let reference = fields.micrometres("reference_below_mm", &bounds::REFERENCE_BELOW);
        let under = fields.integer("reached_from_under", &bounds::REACHED_FROM_UNDER);
        fields.finish();
        Some(Rack {
            slots: slots? as u8,
            pitch: Micrometres(pitch?),
            length: Micrometres(length?),
            rest_clearance: Micrometres(clearance?),
            ledge: Micrometres(ledge?),
            reference_below: Micrometres(reference?),
            reached_from_under: under? as u8,
        })
    }
}

/// The least and the greatest width of the rails, and the width added to the board's own.
pub(super) type Rails = (Micrometres, Micrometres, Micrometres);

/// The rails.
pub(super) fn read_rails(fields: Fields<'_>) -> Option<Rails> {
    let least = fields.micrometres("least_mm", &bounds::WIDTH);
    let most = fields.micrometres("most_mm", &bounds::WIDTH);
    let play = fields.micrometres("side_play_mm", &bounds::SIDE_PLAY);
    fields.finish();
    Some((Micrometres(least?), Micrometres(most?), Micrometres(play?)))
}

/// The gap, the lengths of both belts, and how far the end beam stands before the end of the
/// outfeed.
pub(super) fn read_belts(
    fields: Fields<'_>,
) -> Option<(Micrometres, Micrometres, Micrometres, Micrometres)> {
    let gap = fields.micrometres("gap_mm", &bounds::GAP);
    let infeed = fields.micrometres("infeed_mm", &bounds::BELT);
    let outfeed = fields.micrometres("outfeed_mm", &bounds::BELT);
    let beam = fields.micrometres("end_beam_before_mm", &bounds::END_BEAM_BEFORE);
    fields.finish();
    Some((
        Micrometres(gap?),
        Micrometres(infeed?),
        Micrometres(outfeed?),
        Micrometres(beam?),
    ))
}

/// Lift travel after which a board across a mouth is bent, and after which it is cut.
pub(super) fn read_mouth(fields: Fields<'_>) -> Option<(Micrometres, Micrometres)> {
    let bent = fields.micrometres("bent_after_mm", &bounds::MOUTH_TRAVEL);
    let sheared = fields.micrometres("sheared_after_mm", &bounds::MOUTH_TRAVEL);
    fields.finish();
    Some((Micrometres(bent?), Micrometres(sheared?)))
}

/// The three axes.
pub(super) fn read_axes(fields: Fields<'_>) -> Option<Axes> {
    let [lift, rails, belts] =
        ["lift", "rails", "belts"].map(|axis| fields.record(axis, "Axis").and_then(read_axis));
    fields.finish();
    Some(Axes {
        lift: lift?,
        rails: rails?,
        belts: belts?,
    })
}

/// A jerk as it is first written: with it ramps of our axes are short enough. It is asked next.
const JERK: &str = "20000";

fn read_axis(fields: Fields<'_>) -> Option<Axis> {
    let speed = fields.integer("speed_mm_s", &bounds::SPEED);
    let acceleration = fields.integer("acceleration_mm_s2", &bounds::ACCELERATION);
    let braking = fields.integer("braking_mm_s2", &bounds::ACCELERATION);
    let jerk = fields.optional_part("jerk_mm_s3", None, JERK, |value, report| {
        report.integer(value, &bounds::JERK).map(Some)
    });
    let report = fields.report();
    let [speed_place, braking_place, jerk_place] =
        ["speed_mm_s", "braking_mm_s2", "jerk_mm_s3"].map(|field| fields.place_of(field));
    fields.finish();
    let (speed, acceleration, braking, jerk) = (speed?, acceleration?, braking?, jerk?);
    if braking < acceleration {
        report
            .add(braking_place, "problem-braking", &[("braking", &braking)])
            .expected("expected-braking", &[("acceleration", &acceleration)]);
    }
    if speed > 4 * acceleration {
        report
            .add(speed_place, "problem-ramp", &[("speed", &speed)])
            .expected("expected-ramp", &[("most", &(4 * acceleration))]);
    } else if let Some(jerk) = jerk {
        check_jerk(report, jerk_place, speed, acceleration, jerk);
    }
    Some(Axis {
        speed: MicrometresPerSecond(speed as u32 * 1_000),
        acceleration: MillimetresPerSecondSquared(acceleration as u32),
        braking: MillimetresPerSecondSquared(braking as u32),
        jerk: jerk.map(|jerk| MillimetresPerSecondCubed(jerk as u32)),
    })
}

/// Whether the ramp up takes at most 4 s with this jerk, too.
fn check_jerk(report: Report<'_>, place: Place, speed: i64, acceleration: i64, jerk: i64) {
    let least = least_jerk(speed, acceleration);
    if least.is_some_and(|least| jerk >= least) {
        return;
    }
    let problem = report.add(place, "problem-jerk", &[("jerk", &jerk), ("speed", &speed)]);
    match least {
        Some(least) => problem.expected("expected-jerk", &[("least", &least)]),
        None => problem.expected("expected-jerk-none", &[("speed", &speed)]),
    };
}

/// The least jerk in whole mm/s³ with which the ramp up to a speed of at most four times the
/// acceleration takes no more than 4 s; `None` if no jerk is enough. Such a ramp takes v/a + a/j,
/// or 2·√(v/j) where it does not reach the acceleration: then v is less than 2·a.
fn least_jerk(speed: i64, acceleration: i64) -> Option<i64> {
    let spare = 4 * acceleration - speed;
    if speed < 2 * acceleration {
        return Some((speed + 3) / 4);
    }
    (spare > 0).then(|| (acceleration.pow(2) + spare - 1) / spare)
}

#[cfg(test)]
mod tests {
    use super::least_jerk;

    /// By the formulas themselves, in floating point.
    #[test]
    fn with_the_least_jerk_the_ramp_takes_four_seconds() {
        let ramp = |speed: f64, acceleration: f64, jerk: f64| {
            if speed * jerk >= acceleration * acceleration {
                speed / acceleration + acceleration / jerk
            } else {
                2.0 * (speed / jerk).sqrt()
            }
        };
        for (speed, acceleration) in [(1_000, 20_000), (200, 101), (200, 99), (999, 250), (7, 20)] {
            let least = least_jerk(speed, acceleration).expect("some jerk is enough");
            let takes = |jerk: i64| ramp(speed as f64, acceleration as f64, jerk as f64);
            assert!(
                takes(least) <= 4.000_001,
                "{speed}, {acceleration}: {least}"
            );
            assert!(takes(least - 1) > 4.0, "{speed}, {acceleration}: {least}");
        }
        assert_eq!(least_jerk(1_000, 250), None);
    }
}
