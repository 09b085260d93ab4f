//! The beams of a machine file, and points in the frame of the rack.

use rackproof_buffer::{Beam, BeamSort};
use rackproof_files::{Fields, Report, Value};
use rackproof_model::{Micrometres, quantity::Percent};

use super::bounds;

/// The beams at the two mouths, and the reflectance that the end beam needs.
pub(super) fn read_beams(fields: Fields<'_>) -> Option<([Beam; 2], Percent)> {
    let beam = |side| {
        let value = fields.value(side)?;
        if value.tag() == Some("Pair") {
            fields.record(side, "Pair").and_then(read_pair)
        } else {
            fields.record(side, "Beam").and_then(read_beam)
        }
    };
    let (infeed, outfeed) = (beam("infeed"), beam("outfeed"));
    let end = fields.integer("end_reflectance", &bounds::REFLECTANCE);
    fields.finish();
    Some(([infeed?, outfeed?], Percent(end? as u8)))
}

/// Sender and receiver of a beam that a board interrupts.
fn read_pair(fields: Fields<'_>) -> Option<Beam> {
    let origin = read_point(&fields, "from_mm");
    let aim = read_point(&fields, "to_mm");
    let (report, place) = (fields.report(), fields.place());
    fields.finish();
    let (origin, aim) = (origin?, aim?);
    if origin[2].0 <= 0 || aim[2].0 > 0 {
        report
            .add(place, "problem-pair-misses-boards", &[])
            .expected("expected-pair-crosses-boards", &[]);
    }
    Some(Beam {
        sort: BeamSort::Through,
        origin,
        aim,
        range: Micrometres(bounds::BEAM_RANGE.most as i32),
        reflectance: Percent(0),
    })
}

fn read_beam(fields: Fields<'_>) -> Option<Beam> {
    let origin = read_point(&fields, "from_mm");
    let aim = read_point(&fields, "at_mm");
    let range = fields.micrometres("range_mm", &bounds::BEAM_RANGE);
    let reflectance = fields.integer("reflectance", &bounds::REFLECTANCE);
    let (report, place) = (fields.report(), fields.place());
    fields.finish();
    let (origin, aim) = (origin?, aim?);
    if origin[2] <= aim[2] {
        report
            .add(place, "problem-beam-up", &[])
            .expected("expected-beam-down", &[]);
    }
    let (range, reflectance) = (Micrometres(range?), Percent(reflectance? as u8));
    Some(Beam {
        sort: BeamSort::Reflex,
        origin,
        aim,
        range,
        reflectance,
    })
}

fn read_point(fields: &Fields<'_>, field: &'static str) -> Option<[Micrometres; 3]> {
    places::<3>(fields.value(field)?, fields.report().about(field))
}

/// So many places in millimetres; another count is a problem.
pub(super) fn places<const COUNT: usize>(
    value: &Value,
    report: Report<'_>,
) -> Option<[Micrometres; COUNT]> {
    let places = report.each(value, |value, report| {
        report.micrometres(value, &bounds::BEAM_PLACE)
    })?;
    let count = places.len();
    let points = places
        .into_iter()
        .map(Micrometres)
        .collect::<Vec<_>>()
        .try_into()
        .ok();
    if points.is_none() {
        report
            .add(value.place, "problem-places", &[("count", &count)])
            .expected("expected-places", &[("count", &COUNT)]);
    }
    points
}
