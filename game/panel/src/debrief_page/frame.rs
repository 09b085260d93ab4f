//! Where the parts of the debrief stand. Larger windows only give the hall more room.

use egui::{Rect, Vec2, pos2, vec2};

/// Height of the top bar.
const TOP: f32 = 40.0;
/// Height of buttons and timeline.
const LOWER: f32 = 256.0;
/// Height of one more row of buttons.
pub(super) const ROW: f32 = 42.0;
/// The smallest page. What has less room than that is scrolled.
pub(super) const LEAST: Vec2 = vec2(1000.0, 520.0);

/// The parts of the page, in points.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Frame {
    pub(super) top: Rect,
    pub(super) left: Rect,
    pub(super) hall: Rect,
    pub(super) lower: Rect,
    /// Whether the buttons below the hall stand in two rows.
    pub(super) two_rows: bool,
}

impl Frame {
    /// The parts of a page of this size. `buttons` is the width that the buttons under it need
    /// to stand in one row; where there is less, they stand in two.
    pub(super) fn of(page: Rect, buttons: f32) -> Frame {
        let left = match page.width() {
            width if width >= 1500.0 => 440.0,
            width if width >= 1200.0 => 400.0,
            _ => 360.0,
        };
        let (top, rest) = page.split_top_bottom_at_y(page.top() + TOP);
        let (left, right) = rest.split_left_right_at_x(rest.left() + left);
        // The edges between the parts, one wide, belong to left and lower.
        let right = Rect::from_min_max(right.min + vec2(1.0, 0.0), right.max);
        let two_rows = buttons > right.width();
        let height = if two_rows { LOWER + ROW } else { LOWER };
        let (hall, lower) = right.split_top_bottom_at_y(right.bottom() - height);
        Frame {
            top,
            left: Rect::from_min_max(left.min, pos2(left.right() + 1.0, left.bottom())),
            hall,
            lower,
            two_rows,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_hall_has_its_size_and_only_the_hall_grows() {
        let cases = [
            // Page, hall, width at the left, height below.
            ((1280.0, 720.0), (879.0, 424.0), 401.0, 256.0),
            ((1536.0, 864.0), (1095.0, 568.0), 441.0, 256.0),
            ((2560.0, 1440.0), (2119.0, 1144.0), 441.0, 256.0),
            // Too narrow for all buttons in one row.
            ((1100.0, 640.0), (739.0, 302.0), 361.0, 298.0),
        ];
        for ((width, height), hall, left, lower) in cases {
            let page = Rect::from_min_size(pos2(0.0, 0.0), vec2(width, height));
            let frame = Frame::of(page, 860.0);
            assert_eq!(frame.hall.size(), hall.into(), "{width}");
            assert_eq!(frame.left.width(), left);
            assert_eq!(frame.two_rows, lower > LOWER);
            assert_eq!(frame.lower.height(), lower);
        }
    }
}
