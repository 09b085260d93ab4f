//! How a machine file and its products say that boards are stored and sent.

use rackproof_buffer::{DrawBack, MiddleBeam, Order, Priority, ProductStoring, Scope, Storing};
use rackproof_files::{Fields, Report, Value};
use rackproof_model::{Micrometres, Micros, quantity::Percent};

use super::bounds;

const ORDERS: [(&str, Order); 3] = [
    ("FirstInFirstOut", Order::FirstInFirstOut),
    ("LastInFirstOut", Order::LastInFirstOut),
    ("StraightThrough", Order::StraightThrough),
];

/// The parts of this file as they are first written; their figures are asked next.
pub(super) const STORING: &str = "Storing(order: FirstInFirstOut, order_scope: Machine, \
     priority: Filling, release_interval_s: 0.0, arrival_time_out_s: 0.0, part_margin_mm: 2.0)";
const MIDDLE_BEAM: &str = "MiddleBeam(at_mm: 250.0, clearance_mm: 5.0, reflectance: 1)";
const DRAW_BACK: &str = "DrawBack(past_mm: 10.0, reflectance: 1)";

/// How boards are stored and sent. A file that says nothing of it means [`Storing::PLAIN`].
pub(super) fn read_storing(value: &Value, report: Report<'_>) -> Option<Storing> {
    let fields = Fields::of(value, "Storing", report)?;
    let order = fields.choice("order", &ORDERS);
    let scopes = [("Product", Scope::Product), ("Machine", Scope::Machine)];
    let order_scope = fields.choice("order_scope", &scopes);
    let priorities = [
        ("Filling", Priority::Filling),
        ("Emptying", Priority::Emptying),
    ];
    let priority = fields.choice("priority", &priorities);
    let release = fields.micros("release_interval_s", &bounds::RELEASE_INTERVAL);
    let time_out = fields.micros("arrival_time_out_s", &bounds::ARRIVAL_TIME_OUT);
    let margin = fields.micrometres("part_margin_mm", &bounds::PART_MARGIN);
    let middle_beam = fields.optional_part("middle_beam", None, MIDDLE_BEAM, |value, report| {
        read_middle_beam(Fields::of(value, "MiddleBeam", report)?).map(Some)
    });
    let draw_back = fields.optional_part("draw_back", None, DRAW_BACK, |value, report| {
        read_draw_back(Fields::of(value, "DrawBack", report)?).map(Some)
    });
    fields.finish();
    Some(Storing {
        order: order?,
        order_scope: order_scope?,
        priority: priority?,
        middle_beam: middle_beam?,
        draw_back: draw_back?,
        release_interval: Micros(release?),
        arrival_time_out: Micros(time_out?),
        part_margin: Micrometres(margin?),
    })
}

fn read_middle_beam(fields: Fields<'_>) -> Option<MiddleBeam> {
    let at = fields.micrometres("at_mm", &bounds::BEAM_PLACE);
    let clearance = fields.micrometres("clearance_mm", &bounds::BEAM_CLEARANCE);
    let reflectance = fields.integer("reflectance", &bounds::REFLECTANCE);
    fields.finish();
    Some(MiddleBeam {
        at: Micrometres(at?),
        clearance: Micrometres(clearance?),
        reflectance: Percent(reflectance? as u8),
    })
}

fn read_draw_back(fields: Fields<'_>) -> Option<DrawBack> {
    let past = fields.micrometres("past_mm", &bounds::PAST_MOUTH);
    let reflectance = fields.integer("reflectance", &bounds::REFLECTANCE);
    fields.finish();
    Some(DrawBack {
        past: Micrometres(past?),
        reflectance: Percent(reflectance? as u8),
    })
}

/// What a product says of it. What it leaves out means [`ProductStoring::PLAIN`].
pub(super) fn read_product_storing(fields: &Fields<'_>) -> Option<ProductStoring> {
    let plain = ProductStoring::PLAIN;
    let order = fields.optional_choice("order", plain.order, &ORDERS);
    let interval = i64::from(plain.interval);
    let interval = fields.optional_integer("interval", interval, &bounds::INTERVAL);
    let tandem = fields.optional_flag("tandem", plain.tandem);
    Some(ProductStoring {
        order: order?,
        interval: interval? as u8,
        tandem: tandem?,
    })
}
