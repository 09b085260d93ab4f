//! Dashed and dotted lines, and the hatch: the hand of what is only believed.

use egui::{Color32, Painter, Pos2, Rect, Shape, Stroke};

use crate::tokens;

/// A line of dashes 4-3.
pub fn dashed_line(painter: &Painter, points: &[Pos2], stroke: Stroke) {
    painter.extend(Shape::dashed_line(
        points,
        stroke,
        tokens::DASH,
        tokens::DASH_GAP,
    ));
}

/// A line of dots, as far apart as they are wide twice over.
pub fn dotted_line(painter: &Painter, points: &[Pos2], stroke: Stroke) {
    painter.extend(Shape::dashed_line(
        points,
        stroke,
        stroke.width,
        stroke.width * 1.5,
    ));
}

/// A frame of dashes, just inside the rectangle. Corners are always drawn.
pub fn dashed_rect(painter: &Painter, rect: Rect, stroke: Stroke) {
    for side in sides(rect.shrink(stroke.width / 2.0)) {
        let [from, to] = side;
        let out = (to - from).normalized() * stroke.width / 2.0;
        let side @ [from, to] = [from - out, to + out];
        // Whole dashes from corner to corner, as near to 4-3 as the side allows.
        let length = (to - from).length();
        let gaps = ((length - tokens::DASH) / (tokens::DASH + tokens::DASH_GAP))
            .round()
            .max(1.0);
        let stretch = length / (gaps * (tokens::DASH + tokens::DASH_GAP) + tokens::DASH);
        let (dash, gap) = (tokens::DASH * stretch, tokens::DASH_GAP * stretch);
        painter.extend(Shape::dashed_line(&side, stroke, dash, gap));
    }
}

/// A frame of dots, just inside the rectangle.
pub fn dotted_rect(painter: &Painter, rect: Rect, stroke: Stroke) {
    for side in sides(rect.shrink(stroke.width / 2.0)) {
        dotted_line(painter, &side, stroke);
    }
}

/// Strokes at 45 degrees, rising to the right, `spacing` apart along the foot.
pub fn hatch(painter: &Painter, rect: Rect, colour: Color32, width: f32, spacing: f32) {
    let stroke = Stroke::new(width, colour);
    let mut foot = rect.left() - rect.height() + spacing;
    while foot < rect.right() && spacing > 0.0 {
        let from = foot.max(rect.left());
        let to = (foot + rect.height()).min(rect.right());
        let points = [
            Pos2::new(from, rect.bottom() - (from - foot)),
            Pos2::new(to, rect.bottom() - (to - foot)),
        ];
        if to > from {
            painter.line_segment(points, stroke);
        }
        foot += spacing;
    }
}

fn sides(rect: Rect) -> [[Pos2; 2]; 4] {
    let corners = [
        rect.left_top(),
        rect.right_top(),
        rect.right_bottom(),
        rect.left_bottom(),
    ];
    [
        [corners[0], corners[1]],
        [corners[1], corners[2]],
        [corners[2], corners[3]],
        [corners[3], corners[0]],
    ]
}

/// A rectangle without a smaller one in it. What is not painted twice is not paid for twice: a
/// processor that draws without graphics pays for each pixel.
pub(crate) fn around(outer: Rect, inner: Rect) -> [Rect; 4] {
    let beside = outer.with_min_y(inner.top()).with_max_y(inner.bottom());
    [
        outer.with_max_y(inner.top()),
        outer.with_min_y(inner.bottom()),
        beside.with_max_x(inner.left()),
        beside.with_min_x(inner.right()),
    ]
}
