//! The top bar: which attempt this is.

use egui::{Align, Layout, Rect, Stroke, Ui, UiBuilder, vec2};
use rackproof_phrases::named;

use super::DebriefView;
use crate::marks;
use crate::tokens::{self, Step, Weight};
use crate::widgets::{key_cap, mode_tag, say};
use crate::{Over, Way, Wish, fonts};

/// Room for the keys at the right.
const KEYS: f32 = 210.0;

pub(super) fn show(view: &DebriefView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    let bar = ui.max_rect();
    let inner = bar.shrink2(vec2(tokens::MARGIN, 0.0));
    let (names, keys) = inner.split_left_right_at_x(inner.right() - KEYS);
    let layout = Layout::left_to_right(Align::Center);
    let mut left = ui.new_child(UiBuilder::new().max_rect(names).layout(layout));
    left.set_clip_rect(names.intersect(ui.clip_rect()));
    left.spacing_mut().item_spacing.x = tokens::MARGIN;
    let (logo, _) = left.allocate_exact_size(vec2(24.0, 24.0), egui::Sense::hover());
    marks::logo(left.painter(), logo, tokens::INK);
    let ink = tokens::INK;
    say(
        &mut left,
        &view.say("debrief-title"),
        Step::Text,
        Weight::Bold,
        ink,
    );
    let drill = &view.exercise.drill.id;
    left.label(fonts::figures(drill, Step::Text, Weight::Bold, ink));
    let name = named(view.words, &format!("drill-{drill}"), drill);
    say(&mut left, &name, Step::Text, Weight::Regular, ink);
    rule(&mut left);
    if let Some(badge) = view.badge {
        let said = view.say_with("debrief-badge", &[("badge", badge.into())]);
        say(&mut left, &said, Step::Small, Weight::SemiBold, ink);
    }
    mode_tag(
        &mut left,
        &view.say(way_id(view.way)),
        view.way == Way::Exam,
    );
    let (hints, ways) = (view.helped.hints, view.helped.ways);
    if hints + ways > 0 {
        let count = |number: usize| i64::try_from(number).unwrap_or(i64::MAX);
        let helped = [("hints", count(hints).into()), ("ways", count(ways).into())];
        let said = view.say_with("debrief-helped", &helped);
        say(&mut left, &said, Step::Small, Weight::SemiBold, ink);
    }
    if !view.attempt.is_empty() {
        let said = view.say_with("debrief-attempt", &[("attempt", view.attempt.into())]);
        say(
            &mut left,
            &said,
            Step::Small,
            Weight::Regular,
            tokens::INK_2,
        );
    }
    show_keys(view, ui, keys, wishes);
}

fn show_keys(view: &DebriefView<'_>, ui: &mut Ui, rect: Rect, wishes: &mut Vec<Wish>) {
    let layout = Layout::right_to_left(Align::Center);
    let mut right = ui.new_child(UiBuilder::new().max_rect(rect).layout(layout));
    let hints = [
        ("Esc", "debrief-close", Wish::Leave),
        ("F1", "debrief-help", Wish::Over(Over::Help)),
    ];
    for (key, id, wish) in hints {
        let word = view.say(id);
        let spacing = right.spacing().item_spacing;
        right.spacing_mut().item_spacing.x = tokens::SPACE;
        let said = say(&mut right, &word, Step::Small, Weight::Regular, tokens::INK);
        let cap = key_cap(&mut right, key);
        let area = said.rect.union(cap.rect).expand2(vec2(0.0, 2.0));
        let what = crate::widgets::Pressable::Button;
        if crate::widgets::press_area(&right, area, id, &word, what).clicked() {
            wishes.push(wish);
        }
        right.spacing_mut().item_spacing = spacing;
        right.add_space(tokens::SPACE);
    }
}

fn rule(ui: &mut Ui) {
    let (line, _) = ui.allocate_exact_size(vec2(1.0, 24.0), egui::Sense::hover());
    let stroke = Stroke::new(1.0, tokens::HAIR);
    ui.painter().vline(line.center().x, line.y_range(), stroke);
}

/// The words for the way in which a drill was gone through.
fn way_id(way: Way) -> &'static str {
    match way {
        Way::Watch => "debrief-way-watch",
        Way::Guided => "debrief-way-guided",
        Way::Practice => "debrief-way-practice",
        Way::Exam => "debrief-way-exam",
    }
}
