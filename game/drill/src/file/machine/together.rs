//! What fits only together: what a machine cannot be, said with the figures that meet.

use std::fmt::Display;

use rackproof_buffer::{BoardKind, INTERVAL_MOST, MachineParts};
use rackproof_files::{Fields, Place, Report};
use rackproof_model::Micrometres;

use super::beams::{check_middle_beam, check_mouth_beams};

/// Where the parts stand in the file that a problem is about.
pub(super) struct Places {
    pub(super) rack: Place,
    rails: Place,
    mouth: Place,
    beams: Place,
    storing: Place,
    pub(super) boards: Vec<Place>,
    products: Vec<Place>,
}

impl Places {
    /// The places in a machine's fields, those of its boards and of its products.
    pub(super) fn of(fields: &Fields<'_>, boards: Vec<Place>, products: Vec<Place>) -> Places {
        Places {
            rack: fields.place_of("rack"),
            rails: fields.place_of("rails"),
            mouth: fields.place_of("mouth"),
            beams: fields.place_of("beams"),
            storing: fields.place_of("storing"),
            boards,
            products,
        }
    }
}

/// The names of the boards and of the products.
#[derive(Clone, Copy)]
pub(super) struct Names<'n> {
    pub(super) kinds: &'n [String],
    pub(super) products: &'n [String],
}

impl<'n> Names<'n> {
    pub(super) fn of(kinds: &'n [String], products: &'n [String]) -> Names<'n> {
        Names { kinds, products }
    }
}

/// All that fits only together.
pub(super) fn check_together(
    parts: &MachineParts,
    names: Names<'_>,
    places: &Places,
    report: Report<'_>,
) {
    check_rails(parts, places.rails, report);
    check_boards(parts, names.kinds, &places.boards, report);
    check_widths(parts, names.products, &places.products, report);
    if parts.mouth_sheared_after <= parts.mouth_bent_after {
        report.add(places.mouth, "problem-mouth-order", &[]);
    }
    check_mouth_beams(parts, places.beams, report);
    let beam_fits = check_middle_beam(parts, places.storing, report);
    for (at, name) in names.products.iter().enumerate() {
        let place = places.products[at];
        if beam_fits {
            check_tandem(parts, at, name, place, report);
        }
        check_interval(parts, at, name, place, report);
    }
}

/// No more slots are reached from under the lift than there are.
pub(super) fn check_under_lift(reached: u8, slots: u8, place: Place, report: Report<'_>) {
    if reached > slots {
        report
            .add(
                place,
                "problem-reached-beyond-rack",
                &[("reached", &reached)],
            )
            .expected("expected-slots-reached", &[("most", &slots)]);
    }
}

/// A whole number of millimetres, or with its decimals.
pub(in crate::file) fn millimetres(length: i32) -> String {
    let (whole, rest) = (length / 1_000, length % 1_000);
    if rest == 0 {
        return whole.to_string();
    }
    // The sign of less than a millimetre is not in its whole part.
    let sign = if length < 0 { "-" } else { "" };
    format!("{sign}{}.{:03}", whole.abs(), rest.abs())
        .trim_end_matches('0')
        .to_owned()
}

/// Two boards of a product fit into one slot, if they are to.
fn check_tandem(parts: &MachineParts, at: usize, name: &str, place: Place, report: Report<'_>) {
    let product = &parts.products[at];
    if !product.storing.tandem {
        return;
    }
    let Some(longest) = parts.longest_tandem_board() else {
        report
            .add(place, "problem-tandem-without-beam", &[("product", &name)])
            .hint("hint-tandem-without-beam", &[]);
        return;
    };
    let length = parts.kinds[product.kind as usize].length;
    if length > longest {
        report
            .add(
                place,
                "problem-tandem-too-long",
                &[("product", &name), ("length", &millimetres(length.0))],
            )
            .expected(
                "expected-tandem-length",
                &[("most", &millimetres(longest.0))],
            )
            .hint("hint-tandem-too-long", &[]);
    }
}

/// The boards of a product lie among each other's parts.
fn check_interval(parts: &MachineParts, at: usize, name: &str, place: Place, report: Report<'_>) {
    let product = &parts.products[at];
    let kind = &parts.kinds[product.kind as usize];
    let least = parts.least_interval(kind);
    // Of a board that is thicker than the pitch, this is told already.
    if product.storing.interval >= least || kind.thickness >= parts.pitch {
        return;
    }
    let height = kind.above.0 + kind.below.0 + kind.thickness.0 + parts.storing.part_margin.0;
    let room = i32::from(product.storing.interval) * parts.pitch.0;
    let problem = report.add(
        place,
        "problem-interval-too-small",
        &[
            ("product", &name),
            ("height", &millimetres(height)),
            ("room", &millimetres(room)),
        ],
    );
    if least <= INTERVAL_MOST {
        problem.expected("expected-interval", &[("least", &least)]);
    } else {
        problem.expected("expected-pitch", &[("most", &INTERVAL_MOST)]);
    }
}

/// The rails have a travel, and hold a board that lies at one of them.
fn check_rails(parts: &MachineParts, place: Place, report: Report<'_>) {
    let (least, most) = (parts.width_least.0, parts.width_most.0);
    if least >= most {
        report
            .add(
                place,
                "problem-rails-order",
                &[("least", &millimetres(least)), ("most", &millimetres(most))],
            )
            .expected("expected-rails-order", &[]);
    }
    let (play, ledge) = (parts.side_play.0, parts.ledge.0);
    if play > ledge {
        report
            .add(
                place,
                "problem-play-over-ledge",
                &[("play", &millimetres(play)), ("ledge", &millimetres(ledge))],
            )
            .expected("expected-play", &[("most", &millimetres(ledge))])
            .hint("hint-play-over-ledge", &[]);
    }
}

/// Each board goes with the rack, with the rails and with the belts.
fn check_boards(parts: &MachineParts, names: &[String], places: &[Place], report: Report<'_>) {
    let half = parts.rack_length.0 / 2 - parts.rest_clearance.0;
    let belt = parts.infeed_length.0 - 2 * parts.rest_clearance.0;
    for (number, ((kind, name), place)) in parts.kinds.iter().zip(names).zip(places).enumerate() {
        let length = millimetres(kind.length.0);
        let told: [(&'static str, &dyn Display); 2] = [("board", name), ("length", &length)];
        if kind.length.0 > half {
            report
                .add(*place, "problem-board-too-long", &told)
                .expected("expected-board-length", &[("most", &millimetres(half))]);
        }
        if kind.length.0 > belt || 3 * kind.length.0 <= parts.outfeed_length.0 {
            report
                .add(*place, "problem-board-and-belts", &told)
                .expected("expected-board-and-belts", &[])
                .hint("hint-board-and-belts", &[]);
        }
        let (thickness, pitch) = (millimetres(kind.thickness.0), millimetres(parts.pitch.0));
        if kind.thickness >= parts.pitch {
            let told: [(&'static str, &dyn Display); 3] = [
                ("board", name),
                ("thickness", &thickness),
                ("pitch", &pitch),
            ];
            report
                .add(*place, "problem-board-thicker-than-pitch", &told)
                .expected("expected-pitch-over-board", &[("thickness", &thickness)]);
        }
        let told_of_product = parts
            .products
            .iter()
            .any(|product| product.kind as usize == number && !is_in_travel(parts, product.width));
        if !told_of_product {
            check_board_between_rails(parts, kind, name, *place, report);
        }
    }
}

/// There is a width at which a board lies between the rails, if they have a travel at all.
fn check_board_between_rails(
    parts: &MachineParts,
    kind: &BoardKind,
    name: &str,
    place: Place,
    report: Report<'_>,
) {
    let (least, most) = (parts.width_least.0 - parts.ledge.0, parts.width_most.0);
    if parts.width_least >= parts.width_most || (least..=most).contains(&kind.width.0) {
        return;
    }
    report
        .add(
            place,
            "problem-board-and-rails",
            &[("board", &name), ("width", &millimetres(kind.width.0))],
        )
        .expected(
            "expected-board-and-rails",
            &[("least", &millimetres(least)), ("most", &millimetres(most))],
        );
}

/// Whether the rails reach a width with its side play, if they have a travel at all.
fn is_in_travel(parts: &MachineParts, width: Micrometres) -> bool {
    let travel = parts.width_least..=parts.width_most;
    travel.is_empty() || travel.contains(&(width + parts.side_play))
}

/// The rails reach the width of each product.
fn check_widths(parts: &MachineParts, names: &[String], places: &[Place], report: Report<'_>) {
    for ((product, name), place) in parts.products.iter().zip(names).zip(places) {
        if is_in_travel(parts, product.width) {
            continue;
        }
        report
            .add(
                *place,
                "problem-width-beyond-travel",
                &[("product", name), ("width", &millimetres(product.width.0))],
            )
            .expected(
                "expected-width-travel",
                &[
                    ("least", &millimetres(parts.width_least.0)),
                    ("most", &millimetres(parts.width_most.0)),
                ],
            );
    }
}
