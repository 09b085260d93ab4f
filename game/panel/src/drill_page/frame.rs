//! Where the parts of the drill page stand. Larger windows only give the hall more room.

use egui::{Rect, Vec2, pos2, vec2};

use crate::tokens;

/// Height of the top bar.
const TOP: f32 = 40.0;
/// Height of the person bar.
const PERSON: f32 = 124.0;
/// In a narrow hall what can be done stands in a row of its own, so much higher.
pub(super) const OWN_ROW: f32 = 80.0;
/// Narrower than this the hall is narrow.
const NARROW: f32 = 760.0;
/// From this width on, cards and panel are wider.
const WIDE_FROM: f32 = 1500.0;
/// The smallest page. What has less room than that is scrolled.
pub(super) const LEAST: Vec2 = vec2(1000.0, 640.0);

/// The parts of the page, in points.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Frame {
    pub(super) top: Rect,
    pub(super) hall: Rect,
    pub(super) person: Rect,
    /// The column of the operator panel, with its margins.
    pub(super) column: Rect,
    /// The operator panel.
    pub(super) panel: Rect,
    /// The cards at the left.
    pub(super) cards: Rect,
    /// Where tick sheet or notes begin, with all the height there is.
    pub(super) sheet: Rect,
}

impl Frame {
    /// The parts of a page of this size.
    pub(super) fn of(page: Rect) -> Frame {
        let wide = page.width() >= WIDE_FROM;
        let (panel, cards) = if wide { (460.0, 288.0) } else { (432.0, 256.0) };
        let margin = tokens::MARGIN;
        let (top, rest) = page.split_top_bottom_at_y(page.top() + TOP);
        let (left, column) = rest.split_left_right_at_x(rest.right() - panel - 2.0 * margin);
        let narrow = left.width() < NARROW;
        let bar = if narrow { PERSON + OWN_ROW } else { PERSON };
        let (hall, person) = left.split_top_bottom_at_y(left.bottom() - bar);
        let from = pos2(hall.left() + margin, hall.top() + margin);
        let height = hall.height() - margin - tokens::GAP;
        Frame {
            top,
            hall,
            person,
            column,
            panel: column.shrink(margin),
            cards: Rect::from_min_size(from, vec2(cards, height)),
            sheet: Rect::from_min_size(
                pos2(hall.right() - tokens::GAP - SHEET, from.y),
                vec2(SHEET, height),
            ),
        }
    }
}

/// Width of the tick sheet.
const SHEET: f32 = 120.0;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_parts_stand_where_the_look_has_them_and_only_the_hall_grows() {
        let cases = [
            // Page, hall, width of the cards, width of the panel.
            ((1280.0, 720.0), (824.0, 556.0), 256.0, 432.0),
            ((1536.0, 864.0), (1052.0, 700.0), 288.0, 460.0),
            ((1100.0, 640.0), (644.0, 396.0), 256.0, 432.0),
            ((2560.0, 1440.0), (2076.0, 1276.0), 288.0, 460.0),
        ];
        for ((width, height), (hall_width, hall_height), cards, panel) in cases {
            let page = Rect::from_min_size(pos2(0.0, 0.0), vec2(width, height));
            let frame = Frame::of(page);
            assert_eq!(frame.hall.size(), vec2(hall_width, hall_height), "{width}");
            assert_eq!((frame.cards.width(), frame.panel.width()), (cards, panel));
            let bar = if width == 1100.0 { 204.0 } else { 124.0 };
            assert_eq!((frame.top.height(), frame.person.height()), (40.0, bar));
            assert!(frame.hall.contains_rect(frame.cards) && frame.hall.contains_rect(frame.sheet));
        }
    }
}
