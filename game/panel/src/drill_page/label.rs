//! The name of the part under the pointer, with a line to it. Never its condition.

use egui::{Rect, Stroke, StrokeKind, Ui, pos2, vec2};

use crate::tokens::{self, Step, Weight};
use crate::{DrillView, fonts};

/// Between the pointer and the label.
const AWAY: egui::Vec2 = vec2(24.0, 40.0);

/// `free` is what cards and sheet leave of the hall: the label stands in it, wherever it points.
pub(super) fn pointed(view: &DrillView<'_>, ui: &Ui, hall: Rect, free: Rect) {
    let Some(name) = view.pointed else { return };
    let pointer = ui.input(|input| input.pointer.hover_pos());
    let tip = pointer.filter(|at| hall.contains(*at));
    let font = fonts::text(Step::Text, Weight::SemiBold);
    let painter = ui.painter().with_clip_rect(hall.intersect(ui.clip_rect()));
    let galley = painter.layout_no_wrap(name.to_owned(), font, tokens::INK);
    let size = galley.size() + vec2(20.0, 12.0);
    // Without a pointer, as from the list of parts, it stands at the foot of the hall.
    let corner = match tip {
        Some(tip) => {
            let left = (tip.x + AWAY.x).min(free.right() - size.x - tokens::GAP);
            let below = tip.y + AWAY.y + size.y < hall.bottom();
            let top = if below {
                tip.y + AWAY.y
            } else {
                tip.y - AWAY.y - size.y
            };
            pos2(left.max(free.left()), top)
        }
        None => pos2(
            free.center().x - size.x / 2.0,
            hall.bottom() - size.y - tokens::MARGIN,
        ),
    };
    let place = Rect::from_min_size(corner, size);
    let edge = Stroke::new(tokens::EDGE_WIDTH, tokens::INK);
    if let Some(tip) = tip {
        painter.line_segment([tip, place.clamp(tip)], edge);
        painter.circle(tip, 3.0, tokens::PAPER, edge);
    }
    painter.rect(place, 0, tokens::PAPER, edge, StrokeKind::Inside);
    painter.galley(corner + vec2(10.0, 6.0), galley, tokens::INK);
}
