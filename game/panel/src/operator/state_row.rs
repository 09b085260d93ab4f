//! The unit state with its glyph and its reason; mode, last command, what was confirmed.

use egui::{Align2, Rect, Ui, Vec2, pos2};
use rackproof_buffer::{Mode, Task, UnitState};
use rackproof_drill::message::{of_mode, of_task, of_unit};

use super::write::{self, Hand};
use super::{Operator, SIDE, history};
use crate::marks::{Inks, unit_state};
use crate::tokens::{self, Step, Weight};

/// Size of the glyph.
const GLYPH: f32 = 36.0;

pub(super) fn show(operator: Operator<'_, '_>, ui: &mut Ui, rect: Rect) {
    let unit = operator.shown.unit;
    let middle = pos2(rect.left() + 15.0 + GLYPH / 2.0, rect.center().y);
    let glyph = Rect::from_center_size(middle, Vec2::splat(GLYPH));
    unit_state(ui.painter(), glyph, Some(unit), Inks::PANEL);
    let state = Hand::new(Step::State, Weight::Bold, tokens::PANEL_INK);
    let left = glyph.right() + 15.0;
    let name = operator.message(&of_unit(unit));
    let at = pos2(left, rect.top() + 20.5);
    let name = write::line(ui, at, Align2::LEFT_CENTER, &name, state);
    let quiet = Hand::new(Step::Small, Weight::Regular, tokens::PANEL_INK_2);
    let at = pos2(left, rect.top() + 43.0);
    let reason = write::line(ui, at, Align2::LEFT_CENTER, &reason(operator), quiet);

    let none = || operator.say("operator-none");
    let command = history::last_command(operator.view.heard);
    let rows = [
        (
            "operator-mode",
            operator.message(&of_mode(operator.shown.mode)),
            name,
        ),
        (
            "operator-last-command",
            command.map_or_else(none, |id| operator.say(id)),
            name.union(reason),
        ),
        (
            "operator-confirmed",
            history::confirmed(operator).unwrap_or_else(none),
            reason,
        ),
    ];
    let value = Hand::new(Step::Small, Weight::SemiBold, tokens::PANEL_INK);
    let right = rect.right() - SIDE;
    for (row, (label, said, beside)) in (0_u8..).zip(rows) {
        let at = pos2(right, rect.top() + 14.0 + 17.5 * f32::from(row));
        let label = format!("{} ", operator.say(label));
        let most = right - beside.right() - tokens::GAP;
        let wide = write::width(ui, &label, quiet) + write::width(ui, &said, value);
        let smaller = |hand: Hand| {
            if wide > most {
                hand.at(Step::Least)
            } else {
                hand
            }
        };
        let said = [
            (label.as_str(), smaller(quiet)),
            (said.as_str(), smaller(value)),
        ];
        write::runs(ui, at, Align2::RIGHT_CENTER, &said, most);
    }
}

/// Why the unit is in this state, or what it is about.
fn reason(operator: Operator<'_, '_>) -> String {
    let shown = operator.shown;
    let at_rest = matches!(
        shown.unit,
        UnitState::Aborting
            | UnitState::Aborted
            | UnitState::Clearing
            | UnitState::Stopping
            | UnitState::Stopped
    );
    operator.say(match shown.unit {
        _ if at_rest && shown.emergency => "operator-emergency-stop",
        _ if at_rest && shown.hatch_open => "operator-hatch-open",
        _ if at_rest && !shown.referenced => "operator-reference-lost",
        _ if at_rest => "operator-at-rest",
        UnitState::Complete => "operator-task-done",
        UnitState::Suspended => "operator-waits-outside",
        _ if shown.task != Task::None => {
            let task = operator.message(&of_task(shown.task));
            return operator.say_with("operator-task", &[("task", task.into())]);
        }
        UnitState::Idle => "operator-ready",
        _ if shown.question.is_some() => "operator-waits-for-a-person",
        _ if shown.mode == Mode::Production => "operator-boards-run",
        _ => "operator-no-task",
    })
}
