//! What fits only together: what a machine cannot be, said with the figures that meet.

use rackproof_buffer::{BeamSort, INTERVAL_MOST, MachineParts};
use rackproof_files::{Fields, Place, Report};

/// Where the parts stand in the file that a problem is about.
#[derive(Clone, Copy)]
pub(super) struct Places {
    pub(super) file: Place,
    pub(super) beams: Place,
    pub(super) storing: Place,
    pub(super) products: Place,
}

impl Places {
    /// The places in a machine's fields.
    pub(super) fn of(fields: &Fields<'_>) -> Places {
        Places {
            file: fields.place(),
            beams: fields.place_of("beams"),
            storing: fields.place_of("storing"),
            products: fields.place_of("products"),
        }
    }
}

/// All that fits only together. `names` are those of the products.
pub(super) fn check_together(
    parts: &MachineParts,
    names: &[String],
    places: Places,
    report: Report<'_>,
) {
    check_lengths(parts, places.file, report);
    check_mouth_beams(parts, places.beams, report);
    check_middle_beam(parts, places.storing, report);
    check_products(parts, names, places.products, report);
}

/// A whole number of millimetres, or with its decimals.
fn millimetres(length: i32) -> String {
    let (whole, rest) = (length / 1_000, length % 1_000);
    if rest == 0 {
        return whole.to_string();
    }
    format!("{whole}.{:03}", rest.abs())
        .trim_end_matches('0')
        .to_owned()
}

/// Each beam at a mouth meets the boards inside the rack, within its range.
fn check_mouth_beams(parts: &MachineParts, place: Place, report: Report<'_>) {
    for (beam, side) in parts.mouth_beams.iter().zip(["infeed", "outfeed"]) {
        let Some((along, way)) = beam.meets_boards() else {
            continue;
        };
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

/// The middle beam stands in the rack, and a board that rests in the infeed half keeps clear of it.
fn check_middle_beam(parts: &MachineParts, place: Place, report: Report<'_>) {
    let Some(beam) = parts.storing.middle_beam else {
        return;
    };
    let [infeed_lead, outfeed_lead] = parts.rest_leads();
    let least = infeed_lead + beam.clearance;
    let most = outfeed_lead - beam.clearance;
    if beam.at < least || beam.at >= most {
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
}

/// Each product's boards fit into its slots, two in one or not, and among each other's parts.
fn check_products(parts: &MachineParts, names: &[String], place: Place, report: Report<'_>) {
    for (product, name) in parts.products.iter().zip(names) {
        let Some(kind) = parts.kinds.get(product.kind as usize) else {
            continue;
        };
        let longest = parts.longest_tandem_board();
        if product.storing.tandem && longest.is_none() {
            report
                .add(place, "problem-tandem-without-beam", &[("product", name)])
                .hint("hint-tandem-without-beam", &[]);
        }
        if let Some(longest) = longest.filter(|_| product.storing.tandem)
            && kind.length > longest
        {
            report
                .add(
                    place,
                    "problem-tandem-too-long",
                    &[("product", name), ("length", &millimetres(kind.length.0))],
                )
                .expected(
                    "expected-tandem-length",
                    &[("most", &millimetres(longest.0))],
                )
                .hint("hint-tandem-too-long", &[]);
        }
        let least = parts.least_interval(kind);
        if product.storing.interval < least {
            let height = kind.above.0 + kind.below.0 + kind.thickness.0;
            let room = i32::from(product.storing.interval) * parts.pitch.0;
            let problem = report.add(
                place,
                "problem-interval-too-small",
                &[
                    ("product", name),
                    ("height", &millimetres(height + parts.storing.part_margin.0)),
                    ("room", &millimetres(room)),
                ],
            );
            if least <= INTERVAL_MOST {
                problem.expected("expected-interval", &[("least", &least)]);
            } else {
                problem.expected("expected-pitch", &[("most", &INTERVAL_MOST)]);
            }
        }
    }
}

/// Lengths, widths, belts.
fn check_lengths(parts: &MachineParts, place: Place, report: Report<'_>) {
    let half = parts.rack_length.0 / 2 - parts.rest_clearance.0;
    for kind in &parts.kinds {
        let length = kind.length.0 / 1_000;
        if kind.length.0 > half {
            report
                .add(place, "problem-board-too-long", &[("length", &length)])
                .expected("expected-board-length", &[("most", &(half / 1_000))]);
        }
        if kind.length.0 > parts.infeed_length.0 - 2 * parts.rest_clearance.0
            || 3 * kind.length.0 <= parts.outfeed_length.0
        {
            report
                .add(place, "problem-board-and-belts", &[("length", &length)])
                .expected("expected-board-and-belts", &[])
                .hint("hint-board-and-belts", &[]);
        }
    }
    for product in &parts.products {
        let rails = product.width + parts.side_play;
        if rails < parts.width_least || rails > parts.width_most {
            report
                .add(
                    place,
                    "problem-width-beyond-travel",
                    &[("width", &(product.width.0 / 1_000))],
                )
                .expected(
                    "expected-width-travel",
                    &[
                        ("least", &(parts.width_least.0 / 1_000)),
                        ("most", &(parts.width_most.0 / 1_000)),
                    ],
                );
        }
    }
    if parts.mouth_sheared_after <= parts.mouth_bent_after {
        report.add(place, "problem-mouth-order", &[]);
    }
}
