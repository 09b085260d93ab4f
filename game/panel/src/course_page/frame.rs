//! Where the parts of the course page stand.

use egui::{Align, Layout, Rect, Ui, UiBuilder, pos2, vec2};

use crate::{marks::around, tokens};

/// Height of the top bar.
const TOP: f32 = 40.0;
/// Width of the list of courses.
const LIST: f32 = 230.0;
/// Width of the rack.
const RACK: f32 = 450.0;
/// The picture is so many times as wide as high.
const PICTURE: f32 = 2.13;

/// Height of the picture where the texts need all the rest.
const LEAST_PICTURE: f32 = 96.0;

/// The parts, in points.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Frame {
    pub(super) page: Rect,
    pub(super) top: Rect,
    pub(super) list: Rect,
    pub(super) rack: Rect,
    /// Picture and texts of the chosen drill.
    pub(super) chosen: Rect,
    pub(super) picture: Rect,
}

impl Frame {
    /// The parts of a page.
    ///
    /// The picture leaves the texts the height that they need, as far as there is any.
    pub(super) fn of(page: Rect, texts: f32) -> Frame {
        let (top, rest) = page.split_top_bottom_at_y(page.top() + TOP);
        let (list, rest) = rest.split_left_right_at_x(rest.left() + LIST);
        let rest = rest.shrink2(vec2(tokens::PAGE_MARGIN, 22.0));
        let rack_width = RACK.min(rest.width() * 0.46);
        let left = rest.left() + 8.0;
        let rack = Rect::from_min_max(rest.min, pos2(left + rack_width, rest.bottom()));
        let chosen = Rect::from_min_max(pos2(rack.right() + 40.0, rest.top()), rest.max);
        let height = (chosen.width() / PICTURE)
            .min(chosen.height() * 0.31)
            .min(chosen.height() - texts)
            .max(LEAST_PICTURE)
            .round();
        let picture = Rect::from_min_size(chosen.min, vec2(chosen.width(), height));
        Frame {
            page,
            top,
            list,
            rack: rack.with_min_x(left),
            chosen,
            picture: picture.shrink(1.0),
        }
    }

    /// The page without its picture: what is painted must not hide the hall.
    pub(super) fn around_picture(&self) -> [Rect; 4] {
        around(self.page, self.picture)
    }
}

/// A column in a rectangle.
pub(super) fn column<R>(ui: &mut Ui, rect: Rect, add: impl FnOnce(&mut Ui) -> R) -> R {
    let builder = UiBuilder::new()
        .max_rect(rect)
        .layout(Layout::top_down(Align::Min));
    ui.scope_builder(builder, add).inner
}

/// A row in a rectangle, centred from top to bottom.
pub(super) fn row<R>(ui: &mut Ui, rect: Rect, add: impl FnOnce(&mut Ui) -> R) -> R {
    let layout = Layout::left_to_right(Align::Center);
    ui.scope_builder(UiBuilder::new().max_rect(rect).layout(layout), add)
        .inner
}

/// The same, beginning at the right.
pub(super) fn row_from_right<R>(ui: &mut Ui, rect: Rect, add: impl FnOnce(&mut Ui) -> R) -> R {
    let layout = Layout::right_to_left(Align::Center);
    ui.scope_builder(UiBuilder::new().max_rect(rect).layout(layout), add)
        .inner
}
