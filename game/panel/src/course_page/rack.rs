//! The rack of the course: every slot is a drill. Ink is passed in an exam, pencil is practice.

use egui::{Rect, Stroke, StrokeKind, Ui, pos2, vec2};
use rackproof_grade::Severity;
use rackproof_words::Arg;

use super::{CourseView, frame::column};
use crate::{
    fonts, marks,
    tokens::{self, Step, Weight},
    widgets::{Pressable, press_area, say, title},
};

/// Height of a slot.
const SLOT: f32 = 56.0;
/// From one slot to the next.
const PITCH: f32 = 72.0;
/// Empty slots above the drill: the rack goes on.
const EMPTY: usize = 2;

pub(super) fn rack(view: &CourseView<'_>, ui: &mut Ui, rect: Rect) {
    let words = view.words;
    let used = column(ui, rect, |ui| {
        title(ui, &words.say("course-changeover", &[]));
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
    let bottom = top + PITCH * (EMPTY + 1) as f32 + 12.0;
    let rails = [rect.left() + 2.0, rect.right() - 20.0];
    let thick = Stroke::new(4.0, tokens::INK);
    for x in rails {
        ui.painter().vline(x, top..=bottom, thick);
    }
    let thin = Stroke::new(tokens::RULE_WIDTH, tokens::EDGE);
    for number in 0..=EMPTY {
        let y = bottom - 4.0 - PITCH * number as f32;
        ui.painter().hline(rails[0] + 4.0..=rails[1] - 4.0, y, thin);
    }
    let slot = Rect::from_min_max(
        pos2(rails[0] + 10.0, bottom - 12.0 - SLOT),
        pos2(rails[1] - 8.0, bottom - 12.0),
    );
    drill(view, ui, slot);
    let arrow = Rect::from_center_size(pos2(rails[1] + 14.0, slot.center().y), vec2(12.0, 22.0));
    marks::arrowhead(ui.painter(), arrow, tokens::INK);
    let below = Rect::from_min_max(pos2(rect.left(), bottom + 16.0), rect.max);
    column(ui, below, |ui| {
        ui.spacing_mut().item_spacing.y = tokens::GAP;
        for id in ["course-certified", "drill-left-inside-cautions"] {
            let told = words.say(id, &[]);
            say(ui, &told, Step::Small, Weight::Regular, tokens::INK_2);
        }
    });
}

fn drill(view: &CourseView<'_>, ui: &mut Ui, slot: Rect) {
    let words = view.words;
    let state = state_of(view);
    let name = words.say("drill-left-inside", &[]);
    let said = format!("{name}, {state}");
    let response = press_area(ui, slot, "drill", &said, Pressable::Row { chosen: true });
    let passed = view.tried.passed > 0;
    let (ground, ink) = if passed {
        (tokens::INK, tokens::PAPER)
    } else {
        (tokens::PAPER, tokens::INK)
    };
    let painter = ui.painter();
    painter.rect_filled(slot, 0, ground);
    let edge = Stroke::new(tokens::EDGE_WIDTH, tokens::INK);
    painter.rect_stroke(
        slot.expand(5.0),
        0,
        Stroke::new(3.0, tokens::INK),
        StrokeKind::Inside,
    );
    if view.tried.failed > 0 && !passed {
        painter.rect_stroke(slot, 0, edge, StrokeKind::Inside);
    } else if view.tried.practised > 0 && !passed {
        let pencil = Stroke::new(tokens::EDGE_WIDTH, tokens::PENCIL);
        marks::dashed_rect(painter, slot.shrink(1.0), pencil);
    }
    let number = fonts::mono(Step::Task, Weight::Bold);
    painter.text(
        slot.left_center() + vec2(18.0, 0.0),
        egui::Align2::CENTER_CENTER,
        "1",
        number,
        ink,
    );
    let font = fonts::text(Step::Task, Weight::Bold);
    painter.text(
        slot.left_center() + vec2(42.0, -9.0),
        egui::Align2::LEFT_CENTER,
        &name,
        font,
        ink,
    );
    let font = fonts::mono(Step::Note, Weight::Regular);
    painter.text(
        slot.left_center() + vec2(42.0, 12.0),
        egui::Align2::LEFT_CENTER,
        view.drill,
        font,
        ink,
    );
    let font = fonts::text(Step::Small, Weight::SemiBold);
    let told = painter.text(
        slot.right_center() - vec2(12.0, 0.0),
        egui::Align2::RIGHT_CENTER,
        state,
        font,
        ink,
    );
    let left = told.left() - 10.0;
    if view.tried.failed > 0 && !passed {
        let mark = Rect::from_center_size(pos2(left - 10.0, slot.center().y), vec2(20.0, 20.0));
        marks::finding(painter, mark, Severity::Stop);
    } else if !passed {
        for number in 0..view.tried.practised.min(4) {
            let x = left - 26.0 * (number + 1) as f32;
            let block = Rect::from_min_size(pos2(x, slot.center().y - 10.0), vec2(22.0, 20.0));
            marks::hatch(painter, block, tokens::PENCIL, 1.0, 5.0);
        }
    }
    crate::widgets::focus_ring(ui, &response, 0);
}

fn state_of(view: &CourseView<'_>) -> String {
    let count = |number: usize| Arg::Number(i64::try_from(number).unwrap_or(i64::MAX));
    let (id, times) = match view.tried {
        tried if tried.passed > 0 => ("course-state-passed", tried.passed),
        tried if tried.failed > 0 => ("course-state-failed", tried.failed),
        tried if tried.practised > 0 => ("course-state-practised", tried.practised),
        _ => ("course-state-new", 0),
    };
    if times == 0 {
        return view.words.say(id, &[]);
    }
    view.words.say(id, &[("times", count(times))])
}
