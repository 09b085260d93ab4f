//! The machine file.

use rackproof_buffer::{
    Axes, Axis, Beam, Behaviours, BoardKind, Cutout, FirstZero, Machine, MachineParts, Mistrust,
    Product, ReadyRule,
};
use rackproof_files::{Bound, Fields, Report, Value, nearest, read};
use rackproof_model::{
    Micrometres, Micros,
    quantity::{MicrometresPerSecond, Microstrain, MillimetresPerSecondSquared, Percent},
};

use super::bounds;
use crate::{Hall, Pace, Stand, sight::Sight};

/// The machine and its hall, or `None` if the file has a problem. All problems are reported.
pub fn read_machine(report: Report<'_>) -> Option<(Machine, Hall)> {
    let before = report.problems().len();
    let value = read(report)?;
    let fields = Fields::of(&value, "Machine", report)?;
    let name = fields.name("name");
    let rack = fields.record("rack", "Rack").and_then(Rack::of);
    let rails = fields.record("rails", "Rails").and_then(read_rails);
    let belts = fields.record("belts", "Belts").and_then(read_belts);
    let mouth = fields.record("mouth", "Mouth").and_then(|mouth| {
        let bent = mouth.micrometres("bent_after_mm", &bounds::MOUTH_TRAVEL);
        let sheared = mouth.micrometres("sheared_after_mm", &bounds::MOUTH_TRAVEL);
        mouth.finish();
        Some((Micrometres(bent?), Micrometres(sheared?)))
    });
    let axes = fields.record("axes", "Axes").and_then(read_axes);
    let beams = fields.record("beams", "Beams").and_then(read_beams);
    let times = fields.record("times", "Times").and_then(|times| {
        let open = times.micros("signal_open_s", &bounds::SIGNAL_OPEN);
        let hold = times.micros("declare_hold_s", &bounds::DECLARE_HOLD);
        times.finish();
        Some((Micros(open?), Micros(hold?)))
    });
    let behaviours = fields
        .record("behaviours", "Behaviours")
        .and_then(read_behaviours);
    let boards = fields.each("boards", read_board);
    let kind_names = names(boards.as_deref(), &fields, "boards", &bounds::BOARDS);
    let products = fields.each("products", |value, report| {
        read_product(value, report, &kind_names)
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

struct Rack {
    slots: u8,
    pitch: Micrometres,
    length: Micrometres,
    rest_clearance: Micrometres,
    ledge: Micrometres,
    reference_below: Micrometres,
    reached_from_under: u8,
}

impl Rack {
    fn of(fields: Fields<'_>) -> Option<Rack> {
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

fn read_rails(fields: Fields<'_>) -> Option<(Micrometres, Micrometres, Micrometres)> {
    let least = fields.micrometres("least_mm", &bounds::WIDTH);
    let most = fields.micrometres("most_mm", &bounds::WIDTH);
    let play = fields.micrometres("side_play_mm", &bounds::SIDE_PLAY);
    fields.finish();
    Some((Micrometres(least?), Micrometres(most?), Micrometres(play?)))
}

fn read_belts(fields: Fields<'_>) -> Option<(Micrometres, Micrometres, Micrometres, Micrometres)> {
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

fn read_axes(fields: Fields<'_>) -> Option<Axes> {
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

fn read_beams(fields: Fields<'_>) -> Option<([Beam; 2], Percent)> {
    let beam = |side| fields.record(side, "Beam").and_then(read_beam);
    let (infeed, outfeed) = (beam("infeed"), beam("outfeed"));
    let end = fields.integer("end_reflectance", &bounds::REFLECTANCE);
    fields.finish();
    Some(([infeed?, outfeed?], Percent(end? as u8)))
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
        origin,
        aim,
        range,
        reflectance,
    })
}

fn read_point(fields: &Fields<'_>, field: &'static str) -> Option<[Micrometres; 3]> {
    places::<3>(fields.value(field)?, fields.report().about(field))
}

fn places<const COUNT: usize>(value: &Value, report: Report<'_>) -> Option<[Micrometres; COUNT]> {
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

fn read_board(value: &Value, report: Report<'_>) -> Option<(String, BoardKind)> {
    let fields = Fields::of(value, "Board", report)?;
    let name = fields.name("name");
    let length = fields.micrometres("length_mm", &bounds::BOARD_LENGTH);
    let width = fields.micrometres("width_mm", &bounds::WIDTH);
    let thickness = fields.micrometres("thickness_mm", &bounds::THICKNESS);
    let reflectance = fields.integer("reflectance", &bounds::REFLECTANCE);
    let limit = fields.integer("strain_limit", &bounds::STRAIN);
    let strain_break = fields.integer("strain_break", &bounds::STRAIN);
    let window = fields.optional("window", None, |value, report| {
        let window = Fields::of(value, "Window", report)?;
        let along = window
            .value("along_mm")
            .and_then(|value| places::<2>(value, report));
        let across = window
            .value("across_mm")
            .and_then(|value| places::<2>(value, report));
        window.finish();
        let ([along_from, along_to], [across_from, across_to]) = (along?, across?);
        Some(Some(Cutout {
            along_from,
            along_to,
            across_from,
            across_to,
        }))
    });
    fields.finish();
    let kind = BoardKind {
        length: Micrometres(length?),
        width: Micrometres(width?),
        thickness: Micrometres(thickness?),
        reflectance: Percent(reflectance? as u8),
        cutout: window?,
        strain_limit: Microstrain(limit? as u32),
        strain_break: Microstrain(strain_break? as u32),
    };
    Some((name?, kind))
}

fn read_product(value: &Value, report: Report<'_>, kinds: &[String]) -> Option<(String, Product)> {
    let fields = Fields::of(value, "Product", report)?;
    let name = fields.name("name");
    let kind = one_of(&fields, "board", kinds);
    let width = fields.micrometres("width_mm", &bounds::WIDTH);
    fields.finish();
    Some((
        name?,
        Product {
            kind: kind?,
            width: Micrometres(width?),
        },
    ))
}

/// The number of a name in a list of names.
pub(super) fn one_of(fields: &Fields<'_>, field: &'static str, names: &[String]) -> Option<u8> {
    let name = fields.name(field)?;
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

/// The names of a list; too many, too few, or a name twice is a problem.
fn names<T>(
    items: Option<&[(String, T)]>,
    fields: &Fields<'_>,
    field: &'static str,
    bound: &Bound,
) -> Vec<String> {
    let Some(items) = items else {
        return Vec::new();
    };
    let (report, place) = (fields.report().about(field), fields.place_of(field));
    report.within(place, items.len() as i64, bound);
    let names: Vec<String> = items.iter().map(|(name, _)| name.clone()).collect();
    for (at, name) in names.iter().enumerate() {
        if names[..at].contains(name) {
            report.add(place, "problem-name-twice", &[("name", name)]);
        }
    }
    names
}

type HallParts = (Sight, Vec<Stand>, Vec<Stand>, Pace);

fn read_hall(fields: Fields<'_>) -> Option<HallParts> {
    let stands = |field| fields.each(field, |value, report| report.choice(value, &Stand::ALL));
    let (reach, stops) = (stands("panel_reach"), stands("emergency_stops"));
    let sight = fields.record("sight", "Sight").and_then(read_sight);
    let pace = fields.record("pace", "Pace").and_then(|pace| {
        let time = |field| pace.micros(field, &bounds::PACE).map(Micros);
        let [walk, look_mouth, look_hatch, press, handle, talk, write] = [
            "walk_s",
            "look_mouth_s",
            "look_hatch_s",
            "press_s",
            "handle_s",
            "talk_s",
            "write_s",
        ]
        .map(time);
        pace.finish();
        Some(Pace {
            walk: walk?,
            look_mouth: look_mouth?,
            look_hatch: look_hatch?,
            press: press?,
            handle: handle?,
            talk: talk?,
            write: write?,
        })
    });
    fields.finish();
    Some((sight?, reach?, stops?, pace?))
}

fn read_sight(fields: Fields<'_>) -> Option<Sight> {
    let points = |field: &'static str| -> Option<[[Micrometres; 3]; 2]> {
        let report = fields.report().about(field);
        let value = fields.value(field)?;
        let eyes = report.each(value, places::<3>)?;
        let count = eyes.len();
        let both = eyes.try_into().ok();
        if both.is_none() {
            report
                .add(value.place, "problem-places", &[("count", &count)])
                .expected("expected-places", &[("count", &2)]);
        }
        both
    };
    let (hatch_eyes, mouth_eyes) = (points("hatch_eyes_mm"), points("mouth_eyes_mm"));
    let across = fields
        .value("across_mm")
        .and_then(|value| places::<2>(value, fields.report().about("across_mm")));
    let spread = fields.micrometres("torch_spread_mm_per_m", &bounds::SPREAD);
    let posts = fields.each("posts_mm", places::<2>);
    let post_at = fields.micrometres("post_at_mm", &bounds::BEAM_PLACE);
    let rail_height = fields.micrometres("rail_height_mm", &bounds::RAIL_HEIGHT);
    fields.finish();
    Some(Sight {
        hatch_eyes: hatch_eyes?,
        mouth_eyes: mouth_eyes?,
        across: across?,
        torch_spread: Micrometres(spread?),
        posts: posts?.into_iter().map(|[from, to]| (from, to)).collect(),
        post_at: Micrometres(post_at?),
        rail_height: Micrometres(rail_height?),
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
