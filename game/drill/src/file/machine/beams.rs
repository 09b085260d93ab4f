//! The beams of a machine file, and points in the frame of the rack.

use rackproof_buffer::{Beam, BeamSort, MachineParts};
use rackproof_files::{Fields, Place, Report, Value};
use rackproof_model::{Micrometres, quantity::Percent};

use super::{bounds, together::millimetres};

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

/// Each beam at a mouth meets the boards inside the rack, where one of them lies, within its range.
pub(super) fn check_mouth_beams(parts: &MachineParts, place: Place, report: Report<'_>) {
    for (beam, side) in parts.mouth_beams.iter().zip(["infeed", "outfeed"]) {
        let Some([along, across, way]) = beam.meets_boards() else {
            // Others were told of their own when they were read.
            if beam.sort == BeamSort::Reflex && beam.origin[2] > beam.aim[2] {
                report
                    .add(place, "problem-beam-below", &[("side", &side)])
                    .expected("expected-beam-above", &[]);
            }
            continue;
        };
        let widest = parts.kinds.iter().map(|kind| kind.width).max();
        let widest = widest.unwrap_or(parts.width_most);
        if along.0 < 0 || along > parts.rack_length {
            report
                .add(
                    place,
                    "problem-beam-outside-rack",
                    &[("side", &side), ("at", &millimetres(along.0))],
                )
                .expected(
                    "expected-beam-in-rack",
                    &[("most", &millimetres(parts.rack_length.0))],
                );
        } else if across.0 < 0 || across >= widest {
            report
                .add(
                    place,
                    "problem-beam-beside-boards",
                    &[("side", &side), ("at", &millimetres(across.0))],
                )
                .expected(
                    "expected-beam-over-boards",
                    &[("most", &millimetres(widest.0))],
                );
        } else if beam.sort == BeamSort::Reflex && way > beam.range {
            report
                .add(
                    place,
                    "problem-beam-short",
                    &[("side", &side), ("range", &millimetres(beam.range.0))],
                )
                .expected("expected-beam-range", &[("least", &millimetres(way.0))]);
        }
    }
}

/// The middle beam, if there is one, stands in the rack, and a board that rests in the infeed half
/// keeps clear of it.
pub(super) fn check_middle_beam(parts: &MachineParts, place: Place, report: Report<'_>) -> bool {
    let Some(beam) = parts.storing.middle_beam else {
        return true;
    };
    let [infeed_lead, outfeed_lead] = parts.rest_leads();
    let least = infeed_lead + beam.clearance;
    let most = outfeed_lead - beam.clearance;
    let stands = least <= beam.at && beam.at < most;
    if !stands {
        report
            .add(
                place,
                "problem-middle-beam-place",
                &[("at", &millimetres(beam.at.0))],
            )
            .expected(
                "expected-middle-beam-place",
                &[
                    ("least", &millimetres(least.0)),
                    ("most", &millimetres(most.0)),
                ],
            );
    }
    stands
}
