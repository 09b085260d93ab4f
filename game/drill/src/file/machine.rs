//! The machine file.

mod beams;
mod boards;
mod hall;
mod rack;
mod service;

use rackproof_buffer::{Behaviours, FirstZero, Machine, MachineParts, Mistrust, ReadyRule};
use rackproof_files::{Fields, Report, Value, read};
use rackproof_model::Micros;

use self::{
    beams::read_beams,
    boards::{names, read_board, read_product},
    hall::read_hall,
    rack::{Rack, read_axes, read_belts, read_mouth, read_rails},
    service::service_of,
};
use super::bounds;
use crate::Hall;

pub(super) use self::boards::one_of;

/// The machine and its hall, or `None` if the file has a problem. All problems are reported.
pub fn read_machine(report: Report<'_>) -> Option<(Machine, Hall)> {
    let before = report.problems().len();
    let value = read(report)?;
    let fields = Fields::of(&value, "Machine", report)?;
    let name = fields.name("name");
    let rack = fields.record("rack", "Rack").and_then(Rack::of);
    let rails = fields.record("rails", "Rails").and_then(read_rails);
    let belts = fields.record("belts", "Belts").and_then(read_belts);
    let mouth = fields.record("mouth", "Mouth").and_then(read_mouth);
    let axes = fields.record("axes", "Axes").and_then(read_axes);
    let beams = fields.record("beams", "Beams").and_then(read_beams);
    let times = fields.record("times", "Times").and_then(read_times);
    let behaviours = fields
        .record("behaviours", "Behaviours")
        .and_then(read_behaviours);
    let service = service_of(&fields);
    let boards = fields.each("boards", read_board);
    let kind_names = names(boards.as_deref(), &fields, "boards", &bounds::BOARDS);
    let products = fields.each("products", |value, report| {
        read_product(value, report, &kind_names, boards.as_deref())
    });
    let product_names = names(products.as_deref(), &fields, "products", &bounds::PRODUCTS);
    let hall = fields.record("hall", "Hall").and_then(read_hall);
    fields.finish();
    let (rack, (width_least, width_most, side_play)) = (rack?, rails?);
    let (gap, infeed_length, outfeed_length, end_beam_before) = belts?;
    let ((mouth_bent_after, mouth_sheared_after), (mouth_beams, end)) = (mouth?, beams?);
    let (signal_open, declare_hold) = times?;
    let parts = MachineParts {
        slots: rack.slots,
        pitch: rack.pitch,
        rack_length: rack.length,
        gap,
        infeed_length,
        outfeed_length,
        rest_clearance: rack.rest_clearance,
        ledge: rack.ledge,
        width_least,
        width_most,
        side_play,
        reference_below: rack.reference_below,
        end_beam_before,
        mouth_bent_after,
        mouth_sheared_after,
        axes: axes?,
        mouth_beams,
        end_beam_reflectance: end,
        signal_open,
        declare_hold,
        behaviours: behaviours?,
        service: service?,
        kinds: boards?.into_iter().map(|(_, kind)| kind).collect(),
        products: products?.into_iter().map(|(_, product)| product).collect(),
    };
    check_together(&parts, &value, report);
    let (sight, panel_reach, emergency_stops, pace) = hall?;
    let hall = Hall {
        name: name?,
        kind_names,
        product_names,
        panel_reach,
        emergency_stops,
        reached_from_under: rack.reached_from_under,
        sight,
        pace,
    };
    (report.problems().len() == before).then(|| (Machine::new(parts), hall))
}

/// How long a signal stays open before the next closing, and how long the button is held to
/// declare empty.
fn read_times(fields: Fields<'_>) -> Option<(Micros, Micros)> {
    let open = fields.micros("signal_open_s", &bounds::SIGNAL_OPEN);
    let hold = fields.micros("declare_hold_s", &bounds::DECLARE_HOLD);
    fields.finish();
    Some((Micros(open?), Micros(hold?)))
}

fn read_behaviours(fields: Fields<'_>) -> Option<Behaviours> {
    let ready = fields.choice(
        "machine_ready",
        &[("OnOffer", ReadyRule::OnOffer), ("Room", ReadyRule::Room)],
    );
    let zero = fields.choice(
        "rails_zero",
        &[
            ("Closing", FirstZero::Closing),
            ("Opening", FirstZero::Opening),
        ],
    );
    let seen = fields.choice(
        "sweep_seen",
        &[
            ("FromThereUp", Mistrust::FromThereUp),
            ("All", Mistrust::All),
        ],
    );
    let asked = fields.flag("rails_asked");
    let runs = fields.flag("runs_after_changeover");
    let whole = fields.flag("whole_cycle_if_same");
    fields.finish();
    Some(Behaviours {
        machine_ready: ready?,
        rails_zero: zero?,
        sweep_seen: seen?,
        rails_asked: asked?,
        runs_after_changeover: runs?,
        whole_cycle_if_same: whole?,
    })
}

/// What fits only together: lengths, widths, belts.
fn check_together(parts: &MachineParts, value: &Value, report: Report<'_>) {
    let half = parts.rack_length.0 / 2 - parts.rest_clearance.0;
    for kind in &parts.kinds {
        let length = kind.length.0 / 1_000;
        if kind.length.0 > half {
            report
                .add(
                    value.place,
                    "problem-board-too-long",
                    &[("length", &length)],
                )
                .expected("expected-board-length", &[("most", &(half / 1_000))]);
        }
        if kind.length.0 > parts.infeed_length.0 - 2 * parts.rest_clearance.0
            || 3 * kind.length.0 <= parts.outfeed_length.0
        {
            report
                .add(
                    value.place,
                    "problem-board-and-belts",
                    &[("length", &length)],
                )
                .expected("expected-board-and-belts", &[])
                .hint("hint-board-and-belts", &[]);
        }
    }
    for product in &parts.products {
        let rails = product.width + parts.side_play;
        if rails < parts.width_least || rails > parts.width_most {
            report
                .add(
                    value.place,
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
        report.add(value.place, "problem-mouth-order", &[]);
    }
}
