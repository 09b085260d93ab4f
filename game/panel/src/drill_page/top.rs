//! The top bar: which drill, how it is gone through, how long, and the window's keys.

use egui::{Align, Layout, Rect, Sense, Stroke, Ui, WidgetInfo, WidgetType, pos2, vec2};
use rackproof_phrases::named;

use crate::marks::logo;
use crate::tokens::{self, Step, Weight};
use crate::widgets::{key_cap_size, key_hint, mode_tag, say};
use crate::{DrillView, Over, Way, Wish, fonts};

/// What the top bar has at its right end: key, words, what it lays over the page.
const HINTS: [(&str, &str, Over); 4] = [
    ("F1", "key-help", Over::Help),
    ("F3", "key-parts", Over::Parts),
    ("F4", "key-settings", Over::Settings),
    ("Esc", "top-pause", Over::Pause),
];

pub(super) fn show(view: &DrillView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    let rect = ui.max_rect();
    let painter = ui.painter().clone();
    let glyph = Rect::from_center_size(pos2(rect.left() + 24.0, rect.center().y), vec2(20.0, 22.0));
    logo(&painter, glyph, tokens::INK);
    let hints = HINTS.map(|(key, id, over)| {
        let leaves = over == Over::Pause && view.way == Way::Exam;
        let id = if leaves { "top-leave" } else { id };
        (key, view.words.say(id, &[]), over)
    });
    let widths = hints
        .iter()
        .map(|(key, does, _)| hint_size(ui, key, does).x);
    let wide: f32 = widths.sum::<f32>() + 14.0 * 3.0;
    let from = rect.right() - tokens::MARGIN - wide;
    let mut right = ui.new_child(
        egui::UiBuilder::new()
            .max_rect(rect.with_min_x(from))
            .layout(Layout::left_to_right(Align::Center)),
    );
    right.spacing_mut().item_spacing.x = 14.0;
    for (key, does, over) in hints {
        if key_hint(&mut right, key, &does).clicked() && view.over.is_none() {
            wishes.push(Wish::Over(over));
        }
    }
    let end = from - tokens::MARGIN;
    let left = rect.with_min_x(rect.left() + 50.0).with_max_x(end);
    let mut left = ui.new_child(
        egui::UiBuilder::new()
            .max_rect(left)
            .layout(Layout::left_to_right(Align::Center)),
    );
    left.spacing_mut().item_spacing.x = tokens::MARGIN;
    name_and_times(view, &mut left);
}

fn name_and_times(view: &DrillView<'_>, ui: &mut Ui) {
    let words = view.words;
    let id = view.world.drill().id.as_str();
    let name = fonts::figures(id, Step::Text, Weight::Bold, tokens::INK);
    ui.add(egui::Label::new(name).extend());
    // Where there is no room, the title goes first: the task says it too.
    if ui.available_width() > 520.0 {
        let title = named(words, &format!("drill-{id}"), id);
        say(ui, &title, Step::Small, Weight::Regular, tokens::INK);
        let (_, line) = ui.allocate_space(vec2(1.0, 22.0));
        let hair = Stroke::new(tokens::RULE_WIDTH, tokens::HAIR);
        ui.painter().vline(line.center().x, line.y_range(), hair);
    }
    let way = words.say(way_id(view.way), &[]);
    mode_tag(ui, &way, view.way == Way::Exam);
    for (id, micros) in [("top-time", view.at), ("top-down", view.down)] {
        time(ui, &words.say(id, &[]), &view.told(micros));
    }
}

/// The name of a way through a drill.
pub(crate) fn way_id(way: Way) -> &'static str {
    match way {
        Way::Watch => "through-watch",
        Way::Guided => "through-guided",
        Way::Practice => "through-practice",
        Way::Exam => "through-exam",
    }
}

fn time(ui: &mut Ui, label: &str, told: &str) {
    let font = fonts::text(Step::Small, Weight::Regular);
    let label_galley = ui
        .painter()
        .layout_no_wrap(label.to_owned(), font, tokens::INK_2);
    let font = fonts::mono(Step::Text, Weight::Bold);
    let figures = ui
        .painter()
        .layout_no_wrap(told.to_owned(), font, tokens::INK);
    let gap = tokens::GAP;
    let size = vec2(label_galley.size().x + gap + figures.size().x, 22.0);
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    let middle = rect.center().y;
    let from = pos2(rect.left(), middle - label_galley.size().y / 2.0);
    let to = pos2(
        rect.right() - figures.size().x,
        middle - figures.size().y / 2.0,
    );
    ui.painter().galley(from, label_galley, tokens::INK_2);
    ui.painter().galley(to, figures, tokens::INK);
    let said = format!("{label} {told}");
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, &said));
}

/// How large a key with what it does is.
fn hint_size(ui: &Ui, key: &str, does: &str) -> egui::Vec2 {
    let font = fonts::text(Step::Small, Weight::Regular);
    let painter = ui.painter();
    let galley = painter.layout_no_wrap(does.to_owned(), font, tokens::INK);
    let cap = key_cap_size(painter, key);
    vec2(cap.x + tokens::SPACE + galley.size().x.ceil(), 24.0)
}
