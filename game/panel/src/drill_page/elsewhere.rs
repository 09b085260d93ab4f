//! What cannot be done here: it is named with the place to go, when it is asked for or when a
//! place is pointed at.

use egui::accesskit::{Live, Role};
use egui::{Id, Rect, Sense, Stroke, StrokeKind, Ui, WidgetInfo, WidgetType, pos2, vec2};
use rackproof_drill::message::of_stand;
use rackproof_drill::{IntentKind, Stand};
use rackproof_phrases::text;
use rackproof_words::Arg;

use super::acts::{done_at, number_of, short};
use super::frame::Frame;
use crate::keys::Asked;
use crate::tokens::{self, Step, Weight};
use crate::{DrillView, Way, fonts};

/// How long it stands, in s.
const STANDS: f64 = 6.0;

fn slot() -> Id {
    Id::new("what cannot be done here")
}

fn pointed() -> Id {
    Id::new("place pointed at")
}

/// A place is pointed at.
pub(super) fn point(ui: &Ui, stand: Stand) {
    ui.data_mut(|data| data.insert_temp(pointed(), stand));
}

/// Takes in what was asked for, and shows it over the person bar.
pub(super) fn show(view: &DrillView<'_>, ui: &Ui, frame: &Frame, asked: &[Asked]) {
    let now = view.seconds;
    for one in asked {
        if let Asked::NotHere(kinds) = one {
            let said = answer(view, kinds);
            ui.data_mut(|data| data.insert_temp(slot(), (said, now)));
        }
    }
    let pointed = ui.data_mut(|data| data.remove_temp::<Stand>(pointed()));
    let kept = ui.data(|data| data.get_temp::<(String, f64)>(slot()));
    let kept = kept.filter(|(_, since)| now - since < STANDS && view.doing.is_none());
    let said = match (kept, pointed) {
        (Some((said, _)), _) => said,
        (None, Some(stand)) if view.way != Way::Watch => there(view, stand),
        _ => return,
    };
    strip(ui, frame, &said);
}

/// Where acts of these kinds are done, or that they are not possible now.
fn answer(view: &DrillView<'_>, kinds: &[IntentKind]) -> String {
    let words = view.words;
    let here = view.person.stand;
    let act = meant(view, kinds);
    if act == IntentKind::Walk {
        let id = if view.person.hand_in {
            "play-hand-in"
        } else if view.person.cord {
            "play-cord-in"
        } else {
            "person-not-now-walk"
        };
        return words.say(id, &[]);
    }
    let places = done_at(view, act);
    let act = Arg::from(words.say(short(act), &[]));
    if places.is_empty() || places.contains(&here) {
        return words.say("person-not-now", &[("act", act)]);
    }
    let places: Vec<String> = places.iter().map(|stand| named(view, *stand)).collect();
    let places = Arg::from(places.join(", "));
    words.say("person-go-to", &[("act", act), ("places", places)])
}

/// Of two acts that undo each other, the one that could be meant as things stand.
fn meant(view: &DrillView<'_>, kinds: &[IntentKind]) -> IntentKind {
    let (person, around) = (&view.person, &view.around);
    let undo = [
        (IntentKind::ShutHatch, around.hatch_open),
        (IntentKind::IsolatorOn, !around.powered),
        (IntentKind::LockOff, person.lock_on),
        (IntentKind::RemoveProp, around.propped),
        (IntentKind::UnplugCord, person.cord),
        (IntentKind::KeyOut, around.key_turned),
        (IntentKind::LetUpstreamGo, around.upstream_holds),
        (IntentKind::HandIn, !person.hand_in),
    ];
    let undone = undo
        .iter()
        .find(|(kind, holds)| *holds && kinds.contains(kind));
    let first = kinds.first().copied().unwrap_or(IntentKind::Report);
    undone.map_or(first, |(kind, _)| *kind)
}

/// A place with its number.
fn named(view: &DrillView<'_>, stand: Stand) -> String {
    let number = Arg::Number(i64::from(number_of(stand)));
    let place = Arg::from(text(view.words, &of_stand(stand)));
    view.words
        .say("person-place", &[("place", place), ("number", number)])
}

/// What is done at a place.
fn there(view: &DrillView<'_>, stand: Stand) -> String {
    view.words.say(
        match stand {
            Stand::Infeed => "there-infeed",
            Stand::Hatch => "there-hatch",
            Stand::Isolator => "there-isolator",
            Stand::Panel => "there-panel",
            Stand::Outfeed => "there-outfeed",
        },
        &[],
    )
}

fn strip(ui: &Ui, frame: &Frame, said: &str) {
    let left = frame.cards.right() + tokens::MARGIN;
    let room = frame.sheet.left() - tokens::MARGIN - left;
    let font = fonts::text(Step::Small, Weight::SemiBold);
    let galley = ui
        .painter()
        .layout(said.to_owned(), font, tokens::INK, room - 20.0);
    let size = galley.size() + vec2(20.0, 12.0);
    let bottom = frame.hall.bottom() - tokens::GAP;
    let corner = pos2(left, bottom - size.y);
    let place = Rect::from_min_size(corner, size);
    let edge = Stroke::new(tokens::EDGE_WIDTH, tokens::INK);
    let painter = ui.painter();
    painter.rect(place, 0, tokens::PAPER, edge, StrokeKind::Inside);
    painter.galley(corner + vec2(10.0, 6.0), galley, tokens::INK);
    let response = ui.interact(place, ui.id().with("not here"), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, said));
    ui.ctx().accesskit_node_builder(response.id, |node| {
        node.set_role(Role::Status);
        node.set_label(said);
        node.clear_value();
        node.set_live(Live::Polite);
    });
}
