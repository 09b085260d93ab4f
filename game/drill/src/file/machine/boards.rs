//! The boards and products of a machine file, and their names.

use rackproof_buffer::{BoardKind, Cutout, Product};
use rackproof_files::{Fields, Place, Report, Value, nearest};
use rackproof_model::{
    Micrometres,
    quantity::{Microstrain, Percent},
};

use super::{beams::places, bounds, storing::read_product_storing, together::millimetres};

/// A window as it is first written: in the middle of the smallest board. Its four sides are asked
/// next.
const WINDOW: &str = "Window(along_mm: [10, 40], across_mm: [10, 30])";

/// A kind of board with its name.
pub(super) fn read_board(value: &Value, report: Report<'_>) -> Option<(String, BoardKind)> {
    let fields = Fields::of(value, "Board", report)?;
    let name = fields.own_name("name");
    let length = fields.micrometres("length_mm", &bounds::BOARD_LENGTH);
    let width = fields.micrometres("width_mm", &bounds::WIDTH);
    let thickness = fields.micrometres("thickness_mm", &bounds::THICKNESS);
    let height = |field| fields.optional_micrometres(field, 0, &bounds::PART_HEIGHT);
    let (above, below) = (height("above_mm"), height("below_mm"));
    let reflectance = fields.integer("reflectance", &bounds::REFLECTANCE);
    let limit = fields.integer("strain_limit", &bounds::STRAIN);
    let strain_break = fields.integer("strain_break", &bounds::STRAIN);
    let window = fields.optional_part("window", None, WINDOW, |value, report| {
        let window = Fields::of(value, "Window", report)?;
        let along = window
            .value("along_mm")
            .and_then(|value| places::<2>(value, report));
        let across = window
            .value("across_mm")
            .and_then(|value| places::<2>(value, report));
        window.finish();
        let ([along_from, along_to], [across_from, across_to]) = (along?, across?);
        let cutout = Cutout {
            along_from,
            along_to,
            across_from,
            across_to,
        };
        Some(Some((cutout, value.place)))
    });
    let (report, place) = (fields.report(), fields.place_of("strain_break"));
    fields.finish();
    if let (Some(limit), Some(strain_break)) = (limit, strain_break)
        && strain_break <= limit
    {
        report
            .add(place, "problem-strain-order", &[("break", &strain_break)])
            .expected("expected-strain-order", &[("least", &(limit + 1))]);
    }
    let window = window?;
    let (length, width) = (Micrometres(length?), Micrometres(width?));
    if let Some((window, place)) = window {
        check_window(window, [length, width], place, report);
    }
    let kind = BoardKind {
        length,
        width,
        thickness: Micrometres(thickness?),
        above: Micrometres(above?),
        below: Micrometres(below?),
        reflectance: Percent(reflectance? as u8),
        cutout: window.map(|(window, _)| window),
        strain_limit: Microstrain(limit? as u32),
        strain_break: Microstrain(strain_break? as u32),
    };
    Some((name?, kind))
}

/// A window lies inside its board, each of its sides begins before it ends, and it leaves the board
/// in one piece.
fn check_window(window: Cutout, [length, width]: [Micrometres; 2], at: Place, report: Report<'_>) {
    let inside = |from: Micrometres, to, most| Micrometres(0) <= from && from < to && to <= most;
    let along = inside(window.along_from, window.along_to, length);
    let across = inside(window.across_from, window.across_to, width);
    if !(along && across) {
        report
            .add(at, "problem-window-outside-board", &[])
            .expected(
                "expected-window",
                &[
                    ("length", &millimetres(length.0)),
                    ("width", &millimetres(width.0)),
                ],
            );
    } else if window.along_to.0 - window.along_from.0 == length.0
        || window.across_to.0 - window.across_from.0 == width.0
    {
        report.add(at, "problem-window-through", &[]).expected(
            "expected-window-inside",
            &[
                ("length", &millimetres(length.0)),
                ("width", &millimetres(width.0)),
            ],
        );
    }
}

/// A product with its name. `kinds` are the names of the boards, `boards` the boards: a product
/// that says no length has its board's. Where the boards could not be read, what is wrong with them
/// is told there, and no name is unknown here.
pub(super) fn read_product(
    value: &Value,
    report: Report<'_>,
    kinds: &[String],
    boards: Option<&[(String, BoardKind)]>,
) -> Option<(String, Product)> {
    let fields = Fields::of(value, "Product", report)?;
    let name = fields.own_name("name");
    let kind = if boards.is_some() {
        one_of(&fields, "board", kinds)
    } else {
        fields.name("board").and(None)
    };
    let width = fields.micrometres("width_mm", &bounds::WIDTH);
    let storing = read_product_storing(&fields);
    let board = kind.and_then(|kind| boards?.get(kind as usize));
    let own = board.map_or(Micrometres(0), |(_, board)| board.length);
    let length = fields.optional_micrometres("length_mm", own.0, &bounds::BOARD_LENGTH);
    fields.finish();
    Some((
        name?,
        Product {
            kind: kind?,
            width: Micrometres(width?),
            storing: storing?,
            length: Micrometres(length?),
        },
    ))
}

/// The number of a name in a list of names.
pub(in crate::file) fn one_of(
    fields: &Fields<'_>,
    field: &'static str,
    names: &[String],
) -> Option<u8> {
    let name = fields.name_of(field, names)?;
    let found = names.iter().position(|known| *known == name);
    if found.is_none() {
        fields
            .report()
            .add(
                fields.place_of(field),
                "problem-unknown-name",
                &[("name", &name)],
            )
            .expected("expected-one-of", &[("names", &names.join(", "))])
            .did_you_mean(nearest(&name, names.iter().map(String::as_str)));
    }
    found.map(|number| number as u8)
}

/// The names of a list; a name twice is a problem.
pub(super) fn names<T>(
    items: Option<&[(String, T)]>,
    fields: &Fields<'_>,
    field: &'static str,
) -> Vec<String> {
    let Some(items) = items else {
        return Vec::new();
    };
    let (report, place) = (fields.report().about(field), fields.place_of(field));
    let names: Vec<String> = items.iter().map(|(name, _)| name.clone()).collect();
    for (at, name) in names.iter().enumerate() {
        if names[..at].contains(name) {
            report.add(place, "problem-name-twice", &[("name", name)]);
        }
    }
    names
}
