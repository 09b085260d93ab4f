//! The drawing of a key, and keys in a line of words.

use egui::{
    Color32, Painter, Pos2, Rect, Response, Sense, Stroke, StrokeKind, Ui, Vec2, WidgetInfo,
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
