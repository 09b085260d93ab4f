//! The hall of a machine file: what is reached and seen from where, and how long work takes.

use rackproof_files::{Fields, Report, Value};
use rackproof_model::{Micrometres, Micros};

use super::{
    beams::places,
    bounds,
    eyes::{check_across, check_hatch_eyes, check_mouth_eyes, check_posts},
    plugs::{PLUGS, read_plugs},
    together::millimetres,
};
use crate::{Pace, Plugs, Stand, sight::Sight};

/// Sight, where the panel is reached, where the emergency stops are, pace, and plugs.
pub(super) type HallParts = (Sight, Vec<Stand>, Vec<Stand>, Pace, Plugs);

/// The hall around a rack so long and at most so wide, where that is known.
pub(super) fn read_hall(fields: Fields<'_>, rack: Option<[Micrometres; 2]>) -> Option<HallParts> {
    let stands = |field| fields.several(field, &Stand::ALL);
    let (reach, stops) = (stands("panel_reach"), stands("emergency_stops"));
    if reach.as_ref().is_some_and(Vec::is_empty) {
        let place = fields.place_of("panel_reach");
        let problem = fields.report().add(place, "problem-no-panel", &[]);
        problem.expected("expected-panel", &[]);
    }
    // 2006/42/EC, Annex I, 1.2.4.3, from memory: a machine has at least one.
    if stops.as_ref().is_some_and(Vec::is_empty) {
        let place = fields.place_of("emergency_stops");
        let problem = fields.report().add(place, "problem-no-emergency-stop", &[]);
        problem.expected("expected-panel", &[]);
    }
    let sight = fields
        .record("sight", "Sight")
        .and_then(|sight| read_sight(sight, rack));
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
    let plugs = fields.optional_record("plugs", Plugs::default(), PLUGS, read_plugs);
    fields.finish();
    Some((sight?, reach?, stops?, pace?, plugs?))
}

fn read_sight(fields: Fields<'_>, rack: Option<[Micrometres; 2]>) -> Option<Sight> {
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
        .and_then(|value| from_to(value, fields.report().about("across_mm")));
    let spread = fields.micrometres("torch_spread_mm_per_m", &bounds::SPREAD);
    let posts = fields.each("posts_mm", from_to);
    let post_at = fields
        .micrometres("post_at_mm", &bounds::BEAM_PLACE)
        .map(Micrometres);
    let rail_height = fields.micrometres("rail_height_mm", &bounds::RAIL_HEIGHT);
    let clear_glass = fields.optional_form("hatch", None, TINTED, &[TINTED, CLEAR], read_glass);
    check_hatch_eyes(hatch_eyes.as_ref(), &fields);
    check_mouth_eyes(mouth_eyes.as_ref(), rack, &fields);
    check_across(across, rack, &fields);
    check_posts(post_at, &fields);
    fields.finish();
    Some(Sight {
        hatch_eyes: hatch_eyes?,
        mouth_eyes: mouth_eyes?,
        across: across?,
        torch_spread: Micrometres(spread?),
        posts: posts?.into_iter().map(|[from, to]| (from, to)).collect(),
        post_at: post_at?,
        rail_height: Micrometres(rail_height?),
        clear_glass: clear_glass?,
    })
}

/// Where something begins and where it ends, behind that.
fn from_to(value: &Value, report: Report<'_>) -> Option<[Micrometres; 2]> {
    let [from, to] = places::<2>(value, report)?;
    if from >= to {
        report
            .add(
                value.place,
                "problem-ends-first",
                &[("from", &millimetres(from.0)), ("to", &millimetres(to.0))],
            )
            .expected("expected-ends-behind", &[]);
    }
    Some([from, to])
}

/// A hatch through which nothing is seen.
const TINTED: &str = "Tinted";

/// A clear hatch as it is first written: with the least reach of its bound, which is asked next.
const CLEAR: &str = "Clear(light_reach_mm: 10.0)";

/// The hatch: tinted, or clear with how far the light of the hall reaches behind it.
fn read_glass(value: &Value, report: Report<'_>) -> Option<Option<Micrometres>> {
    let choices = [("Tinted", false), ("Clear", true)];
    if !report.form(value, &choices, &[TINTED, CLEAR])? {
        return report.choice(value, &choices).map(|_| None);
    }
    let fields = Fields::of(value, "Clear", report)?;
    let reach = fields.micrometres("light_reach_mm", &bounds::LIGHT_REACH);
    fields.finish();
    Some(Some(Micrometres(reach?)))
}
