//! Where I stand: the five places along the machine.

use egui::{Align2, Rect, Stroke, StrokeKind, Ui, pos2, vec2};
use rackproof_drill::message::of_stand;
use rackproof_drill::{Intent, Stand};
use rackproof_phrases::text;
use rackproof_words::Arg;

use super::acts::{PLACES, number_of, reaches_panel, sentence};
use super::person::section;
use crate::marks::{Inks, centred_text, standing_place};
use crate::tokens::{self, Step, Weight};
use crate::widgets::{Pressable, press_area};
use crate::{DrillView, Way, Wish, fonts};

pub(super) fn show(view: &DrillView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    let words = view.words;
    let here = text(words, &of_stand(view.person.stand));
    let title = words.say("person-stand", &[("place", Arg::from(here))]);
    let aside = aside(view);
    let rect = section(ui, ui.max_rect(), &title, &aside);
    machine(view, ui, rect);
    let pitch = rect.width() / 5.0;
    for stand in PLACES {
        let number = number_of(stand);
        let x = rect.left() + (f32::from(number) - 0.5) * pitch;
        let place = Rect::from_center_size(pos2(x, rect.bottom() - 25.0), vec2(pitch - 2.0, 50.0));
        spot(view, ui, stand, place, wishes);
    }
}

/// What is to be said of this place: why I cannot walk, or that the panel is in reach.
fn aside(view: &DrillView<'_>) -> String {
    let walks = view
        .offers
        .iter()
        .any(|offer| matches!(offer, Intent::Walk(_)));
    let id = if view.person.hand_in {
        "person-hand-in"
    } else if view.person.cord {
        "person-cord-in"
    } else if view.person.stand != Stand::Panel && reaches_panel(view) {
        "person-panel-in-reach"
    } else if !walks && view.doing.is_none() && view.way != Way::Watch {
        "person-stays"
    } else {
        return String::new();
    };
    view.words.say(id, &[])
}

/// Belts and rack from above.
fn machine(view: &DrillView<'_>, ui: &Ui, rect: Rect) {
    let painter = ui.painter();
    let line = Stroke::new(1.2, tokens::INK_2);
    let middle = rect.top() + 13.0;
    for y in [middle - 5.0, middle + 4.0] {
        painter.hline(rect.x_range(), y, line);
    }
    let rack = Rect::from_center_size(pos2(rect.center().x - 1.0, middle), vec2(134.0, 26.0));
    let edge = Stroke::new(tokens::EDGE_WIDTH, tokens::INK);
    painter.rect(rack, 0, tokens::HALL, edge, StrokeKind::Inside);
    let font = fonts::text(Step::Least, Weight::SemiBold);
    let said = view.words.say("person-rack", &[]);
    centred_text(painter, rack.center(), &said, font, tokens::INK);
}

fn spot(view: &DrillView<'_>, ui: &Ui, stand: Stand, place: Rect, wishes: &mut Vec<Wish>) {
    let words = view.words;
    let mine = view.person.stand == stand;
    let walk = Intent::Walk(stand);
    let is_next = view.ahead.is_some_and(|ahead| ahead.intent == Some(walk));
    let next = is_next && view.way == Way::Guided;
    let can = view.can(walk);
    let inks = if can || mine {
        Inks::WINDOW
    } else {
        Inks {
            ink: tokens::PENCIL,
            ..Inks::WINDOW
        }
    };
    let painter = ui.painter();
    let circle =
        Rect::from_center_size(pos2(place.center().x, place.top() + 14.0), vec2(28.0, 28.0));
    standing_place(painter, circle, number_of(stand), mine, inks);
    let name = text(words, &of_stand(stand));
    let (weight, colour) = if mine {
        (Weight::Bold, tokens::INK)
    } else if next {
        (Weight::Bold, tokens::PLUM)
    } else {
        (Weight::Regular, inks.ink)
    };
    let font = fonts::text(Step::Least, weight);
    let at = pos2(place.center().x, place.bottom() - 8.0);
    painter.text(at, Align2::CENTER_CENTER, capital(&name), font, colour);
    if next {
        flag(view, ui, circle);
    }
    let said = if mine {
        words.say("person-stand", &[("place", Arg::from(name))])
    } else {
        sentence(view, walk)
    };
    let place = place.shrink2(vec2(1.0, 0.0));
    let response = press_area(
        ui,
        place,
        stand as u8,
        &said,
        Pressable::Row { chosen: mine },
    );
    if response.hovered() || response.has_focus() {
        super::elsewhere::point(ui, stand);
    }
    if response.clicked() && can {
        wishes.push(Wish::Do(walk));
    }
}

/// The flag of the next step, at a place to go to.
fn flag(view: &DrillView<'_>, ui: &Ui, circle: Rect) {
    let painter = ui.painter();
    let ring = circle.expand(1.5);
    let stroke = Stroke::new(2.5, tokens::PLUM);
    painter.circle_stroke(ring.center(), ring.width() / 2.0, stroke);
    let font = fonts::text(Step::Least, Weight::Bold);
    let said = view.words.say("act-next", &[]);
    let galley = painter.layout_no_wrap(said, font, tokens::PAPER);
    let middle = circle.center_top() - vec2(0.0, 1.0);
    let ground = Rect::from_center_size(middle, galley.size() + vec2(8.0, 0.0));
    painter.rect_filled(ground, 0, tokens::PLUM);
    let corner = ground.center() - galley.size() / 2.0;
    painter.galley(corner, galley, tokens::PAPER);
}

pub(super) fn capital(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().collect::<String>() + letters.as_str()
    })
}
