//! The drawing of a key, and keys in a line of words.

use egui::{
    Color32, Label, Painter, Pos2, Rect, Response, Sense, Stroke, StrokeKind, Ui, Vec2, WidgetInfo,
    WidgetType,
};

use super::focus::focus_ring;
use crate::fonts;
use crate::marks::{capital_middle, centred_text};
use crate::tokens::{self, Step, Weight};

const HEIGHT: f32 = 20.0;
const LEAST_WIDTH: f32 = 20.0;
const PADDING: f32 = 5.0;
const FOOT: f32 = 3.0;

/// A key as a widget. Its name is the key's own.
pub fn key_cap(ui: &mut Ui, key: &str) -> Response {
    let size = key_cap_size(ui.painter(), key);
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    paint_key_cap(ui.painter(), rect.min, key, tokens::INK, tokens::PAPER);
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, ui.is_enabled(), key));
    response
}

/// A row of a help: a key, and what it does beside a column of this width. Words that are longer
/// than the room break.
pub fn key_row(ui: &mut Ui, column: f32, key: &str, does: &str, step: Step) {
    ui.horizontal(|ui| {
        ui.allocate_ui(Vec2::new(column, tokens::LEAST_HEIGHT), |ui| {
            ui.set_width(column);
            key_cap(ui, key);
        });
        let does = fonts::rich(does, step, Weight::Regular, tokens::INK);
        ui.add(Label::new(does).wrap());
    });
}

/// A key and what it does, without a frame, such as in the top bar. It can be pressed too: its
/// name is what it does.
pub fn key_hint(ui: &mut Ui, key: &str, does: &str) -> Response {
    let words = fonts::text(Step::Small, Weight::Regular);
    let painter = ui.painter();
    let galley = painter.layout_no_wrap(does.to_owned(), words, tokens::INK);
    let cap = key_cap_size(painter, key);
    let width = cap.x + tokens::SPACE + galley.size().x;
    let size = Vec2::new(width.ceil(), tokens::LEAST_HEIGHT);
    let (rect, response) = ui.allocate_exact_size(size, Sense::click());
    let enabled = ui.is_enabled();
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Button, enabled, does));
    ui.ctx()
        .accesskit_node_builder(response.id, |node| node.set_keyboard_shortcut(key));
    let middle = rect.center().y;
    let corner = Pos2::new(rect.left(), (middle - cap.y / 2.0).round());
    paint_key_cap(ui.painter(), corner, key, tokens::INK, tokens::PAPER);
    let left = rect.left() + cap.x + tokens::SPACE;
    let top = middle - capital_middle(&galley);
    ui.painter()
        .galley(Pos2::new(left, top), galley, tokens::INK);
    focus_ring(ui, &response, tokens::CORNER);
    response
}

/// How large the drawing of a key is.
#[must_use]
pub fn key_cap_size(painter: &Painter, key: &str) -> Vec2 {
    let galley = painter.layout_no_wrap(key.to_owned(), font(), tokens::INK);
    let width = (galley.size().x + 2.0 * PADDING).ceil().max(LEAST_WIDTH);
    Vec2::new(width, HEIGHT)
}

/// Draws a key from its left top corner: a frame with a heavy foot.
pub fn paint_key_cap(painter: &Painter, corner: Pos2, key: &str, ink: Color32, ground: Color32) {
    let rect = Rect::from_min_size(corner, key_cap_size(painter, key));
    painter.rect_filled(rect, 3, ink);
    let face = Rect::from_min_max(rect.min + Vec2::splat(1.3), rect.max - Vec2::new(1.3, FOOT));
    painter.rect(face, 2, ground, Stroke::NONE, StrokeKind::Inside);
    centred_text(painter, face.center(), key, font(), ink);
}

fn font() -> egui::FontId {
    fonts::mono(Step::Least, Weight::Bold)
}

#[cfg(test)]
mod tests {
    use egui::vec2;
    use egui_kittest::Harness;
    use egui_kittest::kittest::Queryable;

    use super::*;

    #[test]
    fn words_of_a_help_stay_in_their_room() {
        const LONG: &str = "Shows how it could go on from here, for whoever looks for a way on";
        let (wide, narrow) = (900.0, 300.0);
        let heights = [wide, narrow].map(|room| {
            let mut harness =
                Harness::builder()
                    .with_size(vec2(1000.0, 200.0))
                    .build_ui(move |ui| {
                        if fonts::ready(ui.ctx()) {
                            ui.set_max_width(room);
                            key_row(ui, 100.0, "W", LONG, Step::Text);
                        }
                    });
            harness.run();
            let words = harness.get_by_label(LONG).rect();
            assert!(words.right() <= room + 8.0, "{words:?} in {room}");
            words.height()
        });
        assert!(heights[1] > 1.5 * heights[0], "{heights:?}");
    }
}
