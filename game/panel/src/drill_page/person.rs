//! The person bar: where I stand, what I wear and hold, what I can do here.

use egui::{Align2, Rect, Stroke, Ui, pos2, vec2};

use super::frame::OWN_ROW;
use super::{actions, on_me, part, plan};
use crate::keys::Group;
use crate::tokens::{self, Step, Weight};
use crate::{DrillView, Wish, fonts};

/// Widths of the first two sections.
const PLAN: f32 = 280.0;
const ON_ME: f32 = 168.0;
/// Height of the head of a section.
const HEAD: f32 = 32.0;

/// Shows it. The answer is where the focus goes.
pub(super) fn show(view: &DrillView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) -> Option<Group> {
    let rect = ui.max_rect();
    // In a narrow hall what can be done stands in a row of its own.
    let own_row = rect.height() > 2.0 * OWN_ROW;
    let (upper, lower) = if own_row {
        rect.split_top_bottom_at_y(rect.bottom() - OWN_ROW)
    } else {
        (rect, rect)
    };
    let (plan, rest) = upper.split_left_right_at_x(rect.left() + PLAN);
    let (on_me, right) = rest.split_left_right_at_x(rest.left() + ON_ME);
    let actions = if own_row { lower } else { right };
    let hair = Stroke::new(tokens::RULE_WIDTH, tokens::HAIR);
    ui.painter().vline(plan.right(), upper.y_range(), hair);
    if own_row {
        ui.painter().hline(rect.x_range(), upper.bottom(), hair);
    } else {
        ui.painter().vline(on_me.right(), upper.y_range(), hair);
    }
    plan::show(view, &mut part(ui, "plan", plan), wishes);
    on_me::show(view, &mut part(ui, "on me", on_me));
    actions::show(view, &mut part(ui, "actions", actions), wishes)
}

/// The head of a section, and the rest of it.
pub(super) fn section(ui: &Ui, rect: Rect, said: &str, aside: &str) -> Rect {
    let (head, rest) = rect.split_top_bottom_at_y(rect.top() + HEAD);
    let middle = head.center().y + 2.0;
    let font = fonts::text(Step::Note, Weight::Bold);
    let painter = ui.painter();
    let at = pos2(head.left() + tokens::MARGIN, middle);
    painter.text(at, Align2::LEFT_CENTER, said, font, tokens::INK);
    let font = fonts::text(Step::Note, Weight::Regular);
    let at = pos2(head.right() - tokens::MARGIN, middle);
    painter.text(at, Align2::RIGHT_CENTER, aside, font, tokens::INK_2);
    Rect::from_min_max(
        rest.min + vec2(tokens::MARGIN, 0.0),
        rest.max - vec2(tokens::MARGIN, 4.0),
    )
}
