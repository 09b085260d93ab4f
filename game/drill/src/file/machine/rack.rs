//! The rack of a machine file, and what moves it or leads into it.

use rackproof_buffer::{Axes, Axis};
use rackproof_files::Fields;
use rackproof_model::{
    Micrometres,
    quantity::{MicrometresPerSecond, MillimetresPerSecondSquared},
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

fn read_axis(fields: Fields<'_>) -> Option<Axis> {
    let speed = fields.integer("speed_mm_s", &bounds::SPEED);
    let acceleration = fields.integer("acceleration_mm_s2", &bounds::ACCELERATION);
    let braking = fields.integer("braking_mm_s2", &bounds::ACCELERATION);
    let report = fields.report();
    let (speed_place, braking_place) = (
        fields.place_of("speed_mm_s"),
        fields.place_of("braking_mm_s2"),
    );
    fields.finish();
    let (speed, acceleration, braking) = (speed?, acceleration?, braking?);
    if braking < acceleration {
        report
            .add(braking_place, "problem-braking", &[("braking", &braking)])
            .expected("expected-braking", &[("acceleration", &acceleration)]);
    }
    if speed > 4 * acceleration {
        report
            .add(speed_place, "problem-ramp", &[("speed", &speed)])
            .expected("expected-ramp", &[("most", &(4 * acceleration))]);
    }
    Some(Axis {
        speed: MicrometresPerSecond(speed as u32 * 1_000),
        acceleration: MillimetresPerSecondSquared(acceleration as u32),
        braking: MillimetresPerSecondSquared(braking as u32),
    })
}
