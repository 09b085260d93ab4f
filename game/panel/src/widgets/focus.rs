//! Where the focus is, and areas that can be pressed without looking like a button.

use egui::{
    CornerRadius, Id, LayerId, Order, Rect, Response, Sense, Stroke, StrokeKind, Ui, WidgetInfo,
    WidgetType,
};

use crate::tokens;

/// What an area is to somebody who cannot see it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pressable {
    /// Something that acts at once.
    Button,
    /// Something that is on or off, such as a box of the tick sheet.
    Box {
        /// Whether it is on.
        ticked: bool,
    },
    /// One of several, such as a row of a list.
    Row {
        /// Whether it is the chosen one.
        chosen: bool,
    },
}

/// Makes a rectangle that a page has drawn itself answer to click, Enter and Space, under an
/// accessible name, and draws the focus ring round it. The page draws all else.
pub fn press_area(
    ui: &Ui,
    rect: Rect,
    salt: impl std::hash::Hash + std::fmt::Debug,
    name: &str,
    what: Pressable,
) -> Response {
    let id: Id = ui.id().with(salt);
    let response = ui.interact(rect, id, Sense::click());
    let enabled = ui.is_enabled();
    response.widget_info(|| match what {
        Pressable::Button => WidgetInfo::labeled(WidgetType::Button, enabled, name),
        Pressable::Box { ticked } => {
            WidgetInfo::selected(WidgetType::Checkbox, enabled, ticked, name)
        }
        Pressable::Row { chosen } => {
            WidgetInfo::selected(WidgetType::SelectableLabel, enabled, chosen, name)
        }
    });
    focus_ring(ui, &response, tokens::CORNER);
    response
}

/// The ring round what has the focus: 3 wide, 2 away, never cut off or covered by a neighbour.
pub fn focus_ring(ui: &Ui, response: &Response, corner: u8) {
    if !response.has_focus() {
        return;
    }
    let seen = ui.clip_rect();
    if !seen.intersects(response.rect) {
        return;
    }
    // Its own layer: what is drawn later beside or over the thing does not cover the ring.
    let layer = LayerId::new(Order::Foreground, Id::new("focus ring"));
    let reach = tokens::RING_GAP + tokens::RING_WIDTH;
    let painter = ui
        .ctx()
        .layer_painter(layer)
        .with_clip_rect(seen.expand(reach));
    let rect = response.rect.expand(tokens::RING_GAP);
    let stroke = Stroke::new(tokens::RING_WIDTH, tokens::INK);
    let corner = CornerRadius::same(corner + 2);
    painter.rect_stroke(rect, corner, stroke, StrokeKind::Outside);
}
