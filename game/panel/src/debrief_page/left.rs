//! The left column: verdict, three questions, evidence, and what can be done from here.

use egui::{Rect, ScrollArea, Stroke, Ui, UiBuilder, pos2, vec2};
use rackproof_grade::{Severity, Verdict};
use rackproof_words::Arg;

use super::{DebriefView, rows};
use crate::marks::{self, Inks};
use crate::tokens::{self, Step, Weight};
use crate::widgets::{self, ACTION, ButtonLook, key_button, say};
use crate::{Over, Wish};

/// Height of the verdict.
const VERDICT: f32 = 89.0;
/// Height of the three questions.
const QUESTIONS: f32 = 52.0;
/// Height of the buttons at the foot.
const FOOT: f32 = 54.0;

pub(super) fn show(view: &DebriefView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    let all = ui.max_rect();
    let all = all.with_max_x(all.right() - tokens::RULE_WIDTH);
    let (head, rest) = all.split_top_bottom_at_y(all.top() + VERDICT);
    let (questions, rest) = rest.split_top_bottom_at_y(rest.top() + QUESTIONS);
    let (list, foot) = rest.split_top_bottom_at_y(rest.bottom() - FOOT);
    verdict(view, ui, head);
    three_questions(view, ui, questions);
    let mut inner = ui.new_child(UiBuilder::new().max_rect(list));
    inner.set_clip_rect(list.intersect(ui.clip_rect()));
    ScrollArea::vertical()
        .id_salt("findings")
        .auto_shrink(false)
        .show(&mut inner, |ui| rows::show(view, ui, wishes));
    show_foot(view, ui, foot, wishes);
    let edge = Stroke::new(tokens::RULE_WIDTH, tokens::INK);
    for y in [head.bottom(), questions.bottom(), foot.top()] {
        ui.painter().hline(all.x_range(), y, edge);
    }
}

/// The verdict: shape and words.
fn verdict(view: &DebriefView<'_>, ui: &mut Ui, rect: Rect) {
    let mark = Rect::from_center_size(pos2(rect.left() + 38.0, rect.center().y), vec2(42.0, 42.0));
    let painter = ui.painter();
    let questions = &view.findings.questions;
    let (head, why) = match view.findings.verdict {
        Verdict::Passed => {
            marks::in_order(painter, mark, Inks::WINDOW);
            ("debrief-passed", "debrief-passed-why")
        }
        Verdict::Failed if questions.stops > 0 || questions.harms == 0 => {
            marks::finding(painter, mark, Severity::Stop);
            ("debrief-not-passed", "debrief-not-passed-why")
        }
        Verdict::Failed => {
            marks::harm(painter, mark);
            ("debrief-not-passed", "debrief-not-passed-why")
        }
        Verdict::NotEnded => {
            marks::finding(painter, mark, Severity::Minor);
            ("debrief-not-ended", "debrief-not-ended-why")
        }
    };
    let words = rect.with_min_x(rect.left() + 72.0).shrink2(vec2(8.0, 10.0));
    let mut inner = ui.new_child(UiBuilder::new().max_rect(words));
    inner.spacing_mut().item_spacing.y = 0.0;
    widgets::title(&mut inner, &view.say(head));
    let why = view.say_with(
        why,
        &[
            ("stops", count(questions.stops)),
            ("majors", count(questions.majors)),
            ("harms", count(questions.harms)),
            ("open", count(questions.open)),
        ],
    );
    say(&mut inner, &why, Step::Small, Weight::Regular, tokens::INK);
}

fn count(number: usize) -> Arg<'static> {
    Arg::Number(i64::try_from(number).unwrap_or(i64::MAX))
}

/// What stands in front of an answer.
#[derive(Clone, Copy)]
enum Sign {
    InOrder,
    Rule(Severity),
    Harm,
}

fn three_questions(view: &DebriefView<'_>, ui: &mut Ui, rect: Rect) {
    let questions = &view.findings.questions;
    let safety = match (questions.stops, questions.majors, questions.minors) {
        (0, 0, 0) => Sign::InOrder,
        (0, 0, _) => Sign::Rule(Severity::Minor),
        (0, ..) => Sign::Rule(Severity::Major),
        _ => Sign::Rule(Severity::Stop),
    };
    let procedure = match questions.missing + questions.moved {
        0 => Sign::InOrder,
        _ => Sign::Rule(Severity::Minor),
    };
    let result = match (questions.harms, questions.open) {
        (0, 0) => Sign::InOrder,
        (0, _) => Sign::Rule(Severity::Major),
        _ => Sign::Harm,
    };
    let arguments = [
        ("stops", count(questions.stops)),
        ("majors", count(questions.majors)),
        ("minors", count(questions.minors)),
        ("done", count(questions.done)),
        (
            "asked",
            count(questions.done + questions.moved + questions.missing),
        ),
        ("harms", count(questions.harms)),
        ("open", count(questions.open)),
    ];
    let all = [
        (
            safety,
            "label-safety",
            "debrief-safety",
            &questions.safety_said,
        ),
        (
            procedure,
            "label-procedure",
            "debrief-procedure",
            &questions.procedure_said,
        ),
        (
            result,
            "label-result",
            "debrief-result",
            &questions.result_said,
        ),
    ];
    let width = rect.width() / 3.0;
    for (number, (sign, label, short, whole)) in all.into_iter().enumerate() {
        let from = rect.left() + width * number as f32;
        let cell = Rect::from_min_size(pos2(from, rect.top()), vec2(width, rect.height()));
        if number > 0 {
            let hair = Stroke::new(1.0, tokens::HAIR);
            ui.painter().vline(cell.left(), cell.y_range(), hair);
        }
        let said = view.say_with(short, &arguments);
        question(ui, cell, sign, &view.say(label), &said, whole);
    }
}

fn question(ui: &mut Ui, cell: Rect, sign: Sign, label: &str, said: &str, whole: &str) {
    let corner = cell.min + vec2(14.0, 8.0);
    let mark = Rect::from_min_size(corner + vec2(0.0, 1.0), vec2(16.0, 16.0));
    match sign {
        Sign::InOrder => marks::in_order(ui.painter(), mark, Inks::WINDOW),
        Sign::Rule(severity) => marks::finding(ui.painter(), mark, severity),
        Sign::Harm => marks::harm(ui.painter(), mark),
    }
    let builder = UiBuilder::new().id_salt(label);
    let words = Rect::from_min_max(corner, cell.max);
    let mut inner = ui.new_child(builder.max_rect(words));
    inner.spacing_mut().item_spacing.y = 0.0;
    let head = Rect::from_min_size(corner + vec2(22.0, 0.0), vec2(cell.width() - 36.0, 18.0));
    let mut beside = inner.new_child(UiBuilder::new().max_rect(head));
    say(
        &mut beside,
        label,
        Step::Small,
        Weight::SemiBold,
        tokens::INK,
    );
    inner.add_space(19.0);
    say(&mut inner, said, Step::Small, Weight::Regular, tokens::INK).on_hover_text(whole);
}

fn show_foot(view: &DebriefView<'_>, ui: &mut Ui, rect: Rect, wishes: &mut Vec<Wish>) {
    let row = rect.shrink2(vec2(14.0, (FOOT - tokens::ACTION_HEIGHT) / 2.0));
    let mut inner = ui.new_child(UiBuilder::new().max_rect(row));
    inner.horizontal(|ui| {
        let mut button = |key, id: &str, wish: Wish| {
            if key_button(
                ui,
                &view.say(id),
                Some(key),
                ButtonLook::Plain,
                ACTION,
                true,
            )
            .clicked()
            {
                wishes.push(wish);
            }
        };
        button("R", "debrief-rules", Wish::Over(Over::Rules));
        button("A", "debrief-again", Wish::Again);
        button("W", "debrief-ways-button", Wish::WaysOn);
    });
}
