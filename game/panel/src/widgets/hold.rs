//! A button that acts only after it was held.

use egui::{
    Color32, CornerRadius, Key, Rect, Response, Sense, Stroke, StrokeKind, Ui, Vec2, WidgetInfo,
    WidgetType,
};

use super::focus::focus_ring;
use crate::fonts;
use crate::tokens::{self, Step, Weight};

/// What came of a frame of holding.
#[derive(Clone, Debug)]
pub struct Hold {
    /// The widget.
    pub response: Response,
    /// Whether it is held now, by the pointer on it or by Space or Enter with the focus. The
    /// caller counts the time, and forgets it when this is false.
    pub down: bool,
}

/// A button that fills from the left. `held` is how much of the time it has been held, 0 to 1;
/// `text` says so in words, such as "1.3 of 2.0 s".
pub fn hold_button(ui: &mut Ui, label: &str, held: f32, text: &str, size: Vec2) -> Hold {
    // With clicks alone the pointer would be taken off it as soon as it is too long for a click.
    let (rect, response) = ui.allocate_exact_size(size, Sense::click_and_drag());
    let enabled = ui.is_enabled();
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Button, enabled, label));
    ui.ctx()
        .accesskit_node_builder(response.id, |node| node.set_value(text));
    let pointed = response.is_pointer_button_down_on() && response.contains_pointer();
    let keyed = response.has_focus()
        && ui.input(|input| input.key_down(Key::Space) || input.key_down(Key::Enter));
    let corner = CornerRadius::same(tokens::PANEL_CORNER);
    let painter = ui.painter();
    painter.rect_filled(rect, corner, tokens::PAPER);
    let edge = rect.left() + rect.width() * held.clamp(0.0, 1.0);
    let (full, rest) = rect.split_left_right_at_x(edge);
    let clipped = painter.with_clip_rect(full.intersect(ui.clip_rect()));
    clipped.rect_filled(rect, corner, tokens::PANEL_INK);
    let stroke = Stroke::new(tokens::EDGE_WIDTH, tokens::PANEL_INK);
    painter.rect_stroke(rect, corner, stroke, StrokeKind::Inside);
    words(ui, rect, full, [label, text], tokens::PAPER);
    words(ui, rect, rest, [label, text], tokens::PANEL_INK);
    focus_ring(ui, &response, tokens::PANEL_CORNER);
    Hold {
        down: enabled && (pointed || keyed),
        response,
    }
}

/// Draws the words of the whole button where `shown` is.
fn words(ui: &Ui, rect: Rect, shown: Rect, [label, text]: [&str; 2], colour: Color32) {
    let painter = ui.painter().with_clip_rect(shown.intersect(ui.clip_rect()));
    let fonts = [
        fonts::text(Step::Text, Weight::Bold),
        fonts::mono(Step::Small, Weight::Bold),
    ];
    let galleys = [label, text]
        .into_iter()
        .zip(fonts)
        .map(|(said, font)| painter.layout_no_wrap(said.to_owned(), font, colour));
    let galleys: Vec<_> = galleys.collect();
    let height: f32 = galleys.iter().map(|galley| galley.size().y).sum();
    let mut y = rect.center().y - height / 2.0;
    for galley in galleys {
        let tall = galley.size().y;
        painter.galley(egui::pos2(rect.left() + tokens::PADDING, y), galley, colour);
        y += tall;
    }
}
