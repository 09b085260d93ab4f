//! The machine file.

mod beams;
mod boards;
mod eyes;
mod hall;
mod handling;
mod plugs;
mod rack;
mod service;
mod site;
mod storing;
mod together;

use rackproof_buffer::{
    Behaviours, BoardKind, FirstZero, Handling, Machine, MachineParts, Mistrust, Product,
    ReadyRule, ServiceParts, Storing,
};
use rackproof_files::{Fields, Place, Report, read};
use rackproof_model::{Micrometres, Micros};

use self::{
    beams::read_beams,
    boards::{names, read_board, read_product},
    eyes::check_looks,
    hall::read_hall,
    handling::{HANDLING, read_handling},
    rack::{Rack, Rails, read_axes, read_belts, read_mouth, read_rails},
    service::service_of,
    site::read_site_words,
    storing::{STORING, read_storing},
    together::{Names, Places, check_together, check_under_lift},
};
use super::bounds;
use crate::Hall;

pub(super) use self::{boards::one_of, together::millimetres};

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
    let (behaviours, storing, handling, service) = read_choices(&fields);
    let made = read_made(&fields);
    let size = size_of(rack.as_ref(), rails);
    let hall = fields.record("hall", "Hall");
    let hall = hall.and_then(|hall| read_hall(hall, size));
    let places = Places::of(&fields, made.board_places, made.product_places);
    let site_words = fields.optional("words", Vec::new(), read_site_words);
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
        storing: storing?,
        handling: handling?,
        service: service?,
        kinds: made.boards?,
        products: made.products?,
    };
    let names = Names::of(&made.kind_names, &made.product_names);
    check_together(&parts, names, &places, report);
    check_under_lift(rack.reached_from_under, rack.slots, places.rack, report);
    let (sight, panel_reach, emergency_stops, pace, plugs) = hall?;
    let hall = Hall {
        name: name?,
        kind_names: made.kind_names,
        product_names: made.product_names,
        panel_reach,
        emergency_stops,
        reached_from_under: rack.reached_from_under,
        sight,
        pace,
        plugs,
        site_words: site_words?,
    };
    (report.problems().len() == before).then(|| looked_at(parts, hall, &places.boards, report))?
}

/// The rack's length and greatest width, where both are known.
fn size_of(rack: Option<&Rack>, rails: Option<Rails>) -> Option<[Micrometres; 2]> {
    rack.zip(rails).map(|(rack, rails)| [rack.length, rails.1])
}

/// The machine, whose parts go together, with its hall, if each of its boards is seen there: what
/// cannot be is told before what nobody could see.
fn looked_at(
    parts: MachineParts,
    hall: Hall,
    boards: &[Place],
    report: Report<'_>,
) -> Option<(Machine, Hall)> {
    let before = report.problems().len();
    let machine = Machine::new(parts);
    check_looks(&machine, &hall.sight, &hall.kind_names, boards, report);
    (report.problems().len() == before).then_some((machine, hall))
}

/// What is made on the machine: boards and products with their names and places in the file.
struct Made {
    boards: Option<Vec<BoardKind>>,
    kind_names: Vec<String>,
    board_places: Vec<Place>,
    products: Option<Vec<Product>>,
    product_names: Vec<String>,
    product_places: Vec<Place>,
}

fn read_made(fields: &Fields<'_>) -> Made {
    let (mut board_places, mut product_places) = (Vec::new(), Vec::new());
    let boards = fields.items("boards", &bounds::BOARDS, |value, report| {
        board_places.push(value.place);
        read_board(value, report)
    });
    let kind_names = names(boards.as_deref(), fields, "boards");
    let products = fields.items("products", &bounds::PRODUCTS, |value, report| {
        product_places.push(value.place);
        read_product(value, report, &kind_names, boards.as_deref())
    });
    let product_names = names(products.as_deref(), fields, "products");
    Made {
        boards: boards.map(without_names),
        kind_names,
        board_places,
        products: products.map(without_names),
        product_names,
        product_places,
    }
}

fn without_names<T>(named: Vec<(String, T)>) -> Vec<T> {
    named.into_iter().map(|(_, item)| item).collect()
}

/// Where makers and sites differ.
type Choices = (
    Option<Behaviours>,
    Option<Storing>,
    Option<Handling>,
    Option<ServiceParts>,
);

fn read_choices(fields: &Fields<'_>) -> Choices {
    let behaviours = fields.record("behaviours", "Behaviours");
    (
        behaviours.and_then(read_behaviours),
        fields.optional_record("storing", Storing::PLAIN, STORING, read_storing),
        fields.optional_record("handling", Handling::default(), HANDLING, read_handling),
        service_of(fields),
    )
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
