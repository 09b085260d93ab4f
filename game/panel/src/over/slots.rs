//! Which slot, and which half: the rack as a picture, slot 1 at the bottom, infeed half left.

use egui::{Align2, Rect, Response, Stroke, StrokeKind, Ui, pos2, vec2};
use rackproof_buffer::{Half, HalfSlot};
use rackproof_drill::{Intent, IntentKind};
use rackproof_phrases::text;

use super::opens_now;
use crate::drill_page::sheet::name_of;
use crate::drill_page::{focus, notes};
use crate::marks::{Inks, ink_half, tick_box};
use crate::tokens::{self, Step, Weight};
use crate::widgets::{Pressable, note, press_area};
use crate::{DrillView, Way, Wish, fonts};

const PITCH: f32 = 26.0;
const HALF: f32 = 140.0;

pub(super) fn show(view: &DrillView<'_>, kind: IntentKind, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    note(ui, &view.words.say("over-slots-note", &[]));
    let slots = view.world.machine().slots();
    let width = ui.available_width();
    let (_, heads) = ui.allocate_space(vec2(width, 22.0));
    let left = heads.center().x - HALF;
    let font = fonts::text(Step::Small, Weight::SemiBold);
    for half in Half::BOTH {
        let words = text(view.words, &rackproof_drill::message::of_half(half));
        let x = left + HALF * (half as u8 as f32 + 0.5);
        let at = pos2(x, heads.center().y);
        ui.painter().text(
            at,
            Align2::CENTER_CENTER,
            words,
            font.clone(),
            tokens::INK_2,
        );
    }
    let (_, rack) = ui.allocate_space(vec2(width, f32::from(slots) * PITCH));
    for slot in (0..slots).rev() {
        let top = rack.top() + f32::from(slots - 1 - slot) * PITCH;
        let font = fonts::mono(Step::Small, Weight::Bold);
        let number = (u32::from(slot) + 1).to_string();
        let at = pos2(left - 10.0, top + PITCH / 2.0);
        ui.painter()
            .text(at, Align2::RIGHT_CENTER, number, font, tokens::INK);
        for half in Half::BOTH {
            let x = left + HALF * half as u8 as f32;
            let place = Rect::from_min_size(pos2(x, top), vec2(HALF, PITCH)).shrink(1.0);
            let row = one(view, kind, ui, HalfSlot { slot, half }, place, wishes);
            // The list opens at its first row in every way.
            if opens_now(ui) && slot + 1 == slots && half == Half::Infeed {
                focus::give(ui, row.id);
            }
        }
    }
}

fn one(
    view: &DrillView<'_>,
    kind: IntentKind,
    ui: &Ui,
    at: HalfSlot,
    place: Rect,
    wishes: &mut Vec<Wish>,
) -> Response {
    let intent = match kind {
        IntentKind::PutIn => Intent::PutIn(at),
        _ => Intent::Take(at),
    };
    let edge = Stroke::new(tokens::RULE_WIDTH, tokens::EDGE);
    ui.painter()
        .rect(place, 0, tokens::PAPER, edge, StrokeKind::Inside);
    let mark = Rect::from_center_size(place.center(), vec2(40.0, 15.0));
    let name = name_of(view, at);
    // Guided and watch have the program's notes; else there are only the trainee's own marks.
    let said = if matches!(view.way, Way::Guided | Way::Watch) {
        let seen = notes::seen(view, at);
        ink_half(ui.painter(), mark, seen, Inks::WINDOW);
        format!("{name}: {}", view.words.say(notes::seen_id(seen), &[]))
    } else {
        let ticked = view.sheet.marks().contains(at);
        if ticked {
            tick_box(ui.painter(), mark, ticked);
        }
        name
    };
    let pressed = press_area(
        ui,
        place,
        (at.slot, at.half as u8),
        &said,
        Pressable::Button,
    );
    if pressed.hovered() || pressed.has_focus() {
        let edge = Stroke::new(2.0, tokens::INK);
        ui.painter().rect_stroke(place, 0, edge, StrokeKind::Inside);
    }
    if pressed.clicked() && view.doing.is_none() && view.offers.contains(&intent) {
        wishes.extend([Wish::CloseOver, Wish::Do(intent)]);
    }
    pressed
}
