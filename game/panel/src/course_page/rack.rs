//! The rack of the course: every slot is a drill. Ink is passed in an exam, pencil is practice.

use egui::{Color32, Rect, Stroke, StrokeKind, Ui, pos2, vec2};
use rackproof_grade::Severity;
use rackproof_words::{Arg, Words};

use super::{CourseView, Tried, frame::column};
use crate::{
    fonts, marks,
    tokens::{self, Step, Weight},
    widgets::{Pressable, press_area, say, title},
    wish::Wish,
};

/// Height of a slot.
const SLOT: f32 = 56.0;
/// From one slot to the next.
const PITCH: f32 = 72.0;
/// Least slots of the rack. One at least stands empty above the drills: the rack goes on.
const LEAST: usize = 3;

pub(super) fn rack(view: &CourseView<'_>, ui: &mut Ui, rect: Rect, wishes: &mut Vec<Wish>) {
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
    let slots = LEAST.max(view.drills.len() + 1);
    let bottom = top + PITCH * slots as f32 + 12.0;
    let rails = [rect.left() + 2.0, rect.right() - 20.0];
    let thick = Stroke::new(4.0, tokens::INK);
    for x in rails {
        ui.painter().vline(x, top..=bottom, thick);
    }
    let thin = Stroke::new(tokens::RULE_WIDTH, tokens::EDGE);
    for number in 0..slots {
        let y = bottom - 4.0 - PITCH * number as f32;
        ui.painter().hline(rails[0] + 4.0..=rails[1] - 4.0, y, thin);
    }
    let slot_of = |number: usize| {
        let floor = bottom - 12.0 - PITCH * number as f32;
        Rect::from_min_max(
            pos2(rails[0] + 10.0, floor - SLOT),
            pos2(rails[1] - 8.0, floor),
        )
    };
    // The page is read from above, and so is its rack.
    for number in (0..view.drills.len()).rev() {
        if drill(view, number, ui, slot_of(number)) {
            wishes.push(Wish::ChooseDrill(number));
        }
    }
    let slot = slot_of(view.drill);
    let arrow = Rect::from_center_size(pos2(rails[1] + 14.0, slot.center().y), vec2(12.0, 22.0));
    marks::arrowhead(ui.painter(), arrow, tokens::INK);
    let below = Rect::from_min_max(pos2(rect.left(), bottom + 16.0), rect.max);
    column(ui, below, |ui| {
        ui.spacing_mut().item_spacing.y = tokens::GAP;
        let cautions = format!("drill-{}-cautions", view.chosen().name);
        for id in ["course-certified", &cautions] {
            let told = words.say(id, &[]);
            say(ui, &told, Step::Small, Weight::Regular, tokens::INK_2);
        }
    });
}

/// One drill in its slot. Whether it was pressed.
fn drill(view: &CourseView<'_>, number: usize, ui: &mut Ui, slot: Rect) -> bool {
    let (words, one) = (view.words, view.drills[number]);
    let state = state_of(words, one.tried);
    let name = words.say(&format!("drill-{}", one.name), &[]);
    let said = format!("{name}, {state}");
    let chosen = number == view.drill;
    let response = press_area(
        ui,
        slot,
        ("drill", number),
        &said,
        Pressable::Row { chosen },
    );
    let passed = one.tried.passed > 0;
    let (ground, ink) = if passed {
        (tokens::INK, tokens::PAPER)
    } else {
        (tokens::PAPER, tokens::INK)
    };
    let painter = ui.painter();
    painter.rect_filled(slot, 0, ground);
    let edge = Stroke::new(tokens::EDGE_WIDTH, tokens::INK);
    if chosen {
        let around = Stroke::new(3.0, tokens::INK);
        painter.rect_stroke(slot.expand(5.0), 0, around, StrokeKind::Inside);
    }
    if one.tried.failed > 0 && !passed {
        painter.rect_stroke(slot, 0, edge, StrokeKind::Inside);
    } else if one.tried.practised > 0 && !passed {
        let pencil = Stroke::new(tokens::EDGE_WIDTH, tokens::PENCIL);
        marks::dashed_rect(painter, slot.shrink(1.0), pencil);
    }
    write_names(ui, slot, number, [&name, one.name], ink);
    let painter = ui.painter();
    let font = fonts::text(Step::Small, Weight::SemiBold);
    let told = painter.text(
        slot.right_center() - vec2(12.0, 0.0),
        egui::Align2::RIGHT_CENTER,
        state,
        font,
        ink,
    );
    let left = told.left() - 10.0;
    if one.tried.failed > 0 && !passed {
        let mark = Rect::from_center_size(pos2(left - 10.0, slot.center().y), vec2(20.0, 20.0));
        marks::finding(painter, mark, Severity::Stop);
    } else if !passed {
        for number in 0..one.tried.practised.min(4) {
            let x = left - 26.0 * (number + 1) as f32;
            let block = Rect::from_min_size(pos2(x, slot.center().y - 10.0), vec2(22.0, 20.0));
            marks::hatch(painter, block, tokens::PENCIL, 1.0, 5.0);
        }
    }
    crate::widgets::focus_ring(ui, &response, 0);
    response.clicked()
}

/// The number of a slot, what its drill is called, and the name of the file.
fn write_names(ui: &Ui, slot: Rect, number: usize, [called, name]: [&str; 2], ink: Color32) {
    let mono = |step, weight| fonts::mono(step, weight);
    let (left, middle) = (egui::Align2::LEFT_CENTER, egui::Align2::CENTER_CENTER);
    let number = (number + 1).to_string();
    for (at, align, text, font) in [
        (
            vec2(18.0, 0.0),
            middle,
            number.as_str(),
            mono(Step::Task, Weight::Bold),
        ),
        (
            vec2(42.0, -9.0),
            left,
            called,
            fonts::text(Step::Task, Weight::Bold),
        ),
        (
            vec2(42.0, 12.0),
            left,
            name,
            mono(Step::Note, Weight::Regular),
        ),
    ] {
        let at = slot.left_center() + at;
        ui.painter().text(at, align, text, font, ink);
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
