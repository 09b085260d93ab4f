//! The rack of the course: every slot is a drill. Ink is passed in an exam, pencil is practice.

use egui::{Color32, Painter, Rect, ScrollArea, Stroke, StrokeKind, Ui, pos2, vec2};
use rackproof_grade::Severity;
use rackproof_words::{Arg, Words};

use super::{CourseDrill, CourseView, Tried, frame::column};
use crate::{
    drill_page::focus,
    fonts, marks,
    tokens::{self, Step, Weight},
    widgets::{Pressable, press_area, say, title},
    wish::Wish,
};

/// Height of a slot.
const SLOT: f32 = 56.0;
/// From one slot to the next.
const PITCH: f32 = 72.0;
/// Empty slots above the drills: the rack goes on.
const EMPTY: usize = 2;
/// So many slots are seen without scrolling.
const SLOTS: usize = 5;

pub(super) fn rack(view: &CourseView<'_>, ui: &mut Ui, rect: Rect, wishes: &mut Vec<Wish>) {
    let words = view.words;
    let used = column(ui, rect, |ui| {
        title(ui, &words.say("course-all", &[]));
        say(
            ui,
            &words.say("course-rack", &[]),
            Step::Text,
            Weight::Regular,
            tokens::INK_2,
        );
        ui.min_rect()
    });
    let top = used.bottom() + 14.0;
    let slots = view.drills.len() + EMPTY;
    let seen = slots.min(SLOTS.max(EMPTY + 1));
    let bottom = top + PITCH * seen as f32 + 12.0;
    let place = Rect::from_min_max(pos2(rect.left(), top), pos2(rect.right(), bottom));
    column(ui, place, |ui| {
        ScrollArea::vertical()
            .id_salt("rack of drills")
            .auto_shrink(false)
            .show(ui, |ui| {
                let size = vec2(place.width(), PITCH * slots as f32 + 12.0);
                let (all, _) = ui.allocate_exact_size(size, egui::Sense::hover());
                stack(view, ui, all, wishes);
                focus::reveal(ui);
            });
    });
    let below = Rect::from_min_max(pos2(rect.left(), bottom + 16.0), rect.max);
    column(ui, below, |ui| {
        ui.spacing_mut().item_spacing.y = tokens::GAP;
        for told in [
            words.say("course-certified", &[]),
            view.of_drill("-cautions"),
        ] {
            say(ui, &told, Step::Small, Weight::Regular, tokens::INK_2);
        }
    });
}

/// The slots between their rails, the first drill at the bottom.
fn stack(view: &CourseView<'_>, ui: &mut Ui, rect: Rect, wishes: &mut Vec<Wish>) {
    let rails = [rect.left() + 2.0, rect.right() - 20.0];
    let thick = Stroke::new(4.0, tokens::INK);
    for x in rails {
        ui.painter().vline(x, rect.y_range(), thick);
    }
    let thin = Stroke::new(tokens::RULE_WIDTH, tokens::EDGE);
    for number in 0..view.drills.len() + EMPTY {
        let y = rect.bottom() - 4.0 - PITCH * number as f32;
        ui.painter().hline(rails[0] + 4.0..=rails[1] - 4.0, y, thin);
    }
    // From the top down, as it is read.
    for number in (0..view.drills.len()).rev() {
        let low = rect.bottom() - 12.0 - PITCH * number as f32;
        let slot = Rect::from_min_max(pos2(rails[0] + 10.0, low - SLOT), pos2(rails[1] - 8.0, low));
        drill(view, number, ui, slot, wishes);
        if number == view.drill {
            let middle = pos2(rails[1] + 14.0, slot.center().y);
            let arrow = Rect::from_center_size(middle, vec2(12.0, 22.0));
            marks::arrowhead(ui.painter(), arrow, tokens::INK);
        }
    }
}

fn drill(view: &CourseView<'_>, number: usize, ui: &mut Ui, slot: Rect, wishes: &mut Vec<Wish>) {
    let CourseDrill { name: id, tried } = view.drills[number];
    let state = state_of(view.words, tried);
    let name = view.words.say(&format!("drill-{id}"), &[]);
    let said = format!("{name}, {state}");
    let chosen = number == view.drill;
    let response = press_area(
        ui,
        slot,
        ("drill", number),
        &said,
        Pressable::Row { chosen },
    );
    if response.clicked() {
        wishes.push(Wish::ChooseDrill(number));
    }
    let passed = tried.passed > 0;
    let (ground, ink) = if passed {
        (tokens::INK, tokens::PAPER)
    } else {
        (tokens::PAPER, tokens::INK)
    };
    let painter = ui.painter();
    painter.rect_filled(slot, 0, ground);
    let edge = Stroke::new(tokens::EDGE_WIDTH, tokens::INK);
    if chosen {
        let thick = Stroke::new(3.0, tokens::INK);
        painter.rect_stroke(slot.expand(5.0), 0, thick, StrokeKind::Inside);
    } else {
        let thin = Stroke::new(tokens::RULE_WIDTH, tokens::EDGE);
        painter.rect_stroke(slot, 0, thin, StrokeKind::Inside);
    }
    if tried.failed > 0 && !passed {
        painter.rect_stroke(slot, 0, edge, StrokeKind::Inside);
    } else if tried.practised > 0 && !passed {
        let pencil = Stroke::new(tokens::EDGE_WIDTH, tokens::PENCIL);
        marks::dashed_rect(painter, slot.shrink(1.0), pencil);
    }
    lettering(painter, slot, number, (&name, id), ink);
    became(painter, slot, (&state, tried), ink);
    crate::widgets::focus_ring(ui, &response, 0);
}

/// Place, name and id of a drill, at the left of its slot.
fn lettering(painter: &Painter, slot: Rect, number: usize, (name, id): (&str, &str), ink: Color32) {
    let place = fonts::mono(Step::Task, Weight::Bold);
    painter.text(
        slot.left_center() + vec2(18.0, 0.0),
        egui::Align2::CENTER_CENTER,
        number + 1,
        place,
        ink,
    );
    let font = fonts::text(Step::Task, Weight::Bold);
    painter.text(
        slot.left_center() + vec2(42.0, -9.0),
        egui::Align2::LEFT_CENTER,
        name,
        font,
        ink,
    );
    let font = fonts::mono(Step::Note, Weight::Regular);
    painter.text(
        slot.left_center() + vec2(42.0, 12.0),
        egui::Align2::LEFT_CENTER,
        id,
        font,
        ink,
    );
}

/// What became of it, in words and marks, below its name, which may be long.
fn became(painter: &Painter, slot: Rect, (state, tried): (&str, Tried), ink: Color32) {
    let passed = tried.passed > 0;
    let font = fonts::text(Step::Small, Weight::SemiBold);
    let low = slot.center().y + 12.0;
    let told = painter.text(
        pos2(slot.right() - 12.0, low),
        egui::Align2::RIGHT_CENTER,
        state,
        font,
        ink,
    );
    let left = told.left() - 10.0;
    if tried.failed > 0 && !passed {
        let mark = Rect::from_center_size(pos2(left - 10.0, low), vec2(20.0, 20.0));
        marks::finding(painter, mark, Severity::Stop);
    } else if !passed {
        for number in 0..tried.practised.min(4) {
            let x = left - 15.0 * (number + 1) as f32;
            let block = Rect::from_min_size(pos2(x, low - 8.0), vec2(12.0, 16.0));
            marks::hatch(painter, block, tokens::PENCIL, 1.0, 5.0);
        }
    }
}

fn state_of(words: &Words, tried: Tried) -> String {
    let count = |number: usize| Arg::Number(i64::try_from(number).unwrap_or(i64::MAX));
    let (id, times) = match tried {
        tried if tried.passed > 0 => ("course-state-passed", tried.passed),
        tried if tried.failed > 0 => ("course-state-failed", tried.failed),
        tried if tried.practised > 0 => ("course-state-practised", tried.practised),
        _ => ("course-state-new", 0),
    };
    if times == 0 {
        return words.say(id, &[]);
    }
    words.say(id, &[("times", count(times))])
}
