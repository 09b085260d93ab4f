//! The four commands: always in the same places, with the same keys.

use egui::{Rect, Ui, Vec2, pos2};
use rackproof_buffer::{Button, Command, Question, Task, UnitState};
use rackproof_drill::Intent;

use super::{SIDE, child};
use crate::drill_page::wanted;
use crate::keys;
use crate::tokens;
use crate::widgets::{ButtonLook, key_button};
use crate::{DrillView, Wish};

const GAP: f32 = 6.0;

/// Shows them. Without power, Start can still be pressed: that is how one tries whether the
/// isolator holds.
pub(super) fn show(view: &DrillView<'_>, ui: &mut Ui, rect: Rect, wishes: &mut Vec<Wish>) {
    let unit = view.panel.as_ref().map(|panel| panel.unit);
    let start = if view.panel.is_some() {
        Intent::Press(Button::Start)
    } else {
        Intent::TryStart
    };
    let third = if unit == Some(UnitState::Aborted) {
        "operator-clear"
    } else {
        "operator-reset"
    };
    let row = [
        ("operator-start", "F9", start_look(view), Some(start)),
        (
            "operator-stop",
            "F10",
            stop_look(unit),
            Some(Intent::Press(Button::Stop)),
        ),
        (
            third,
            "F11",
            reset_look(unit),
            Some(Intent::Press(Button::Reset)),
        ),
        ("operator-pages", "F12", ButtonLook::Panel, None),
    ];
    let wide = (rect.width() - 2.0 * SIDE - 3.0 * GAP) / 4.0;
    let size = Vec2::new(wide.floor(), tokens::OPERATOR_HEIGHT + 2.0);
    let mut left = rect.left() + SIDE;
    for (id, key, look, act) in row {
        let at = Rect::from_min_size(pos2(left, rect.top() + 7.0), size);
        left += wide + GAP;
        let enabled = match act {
            Some(act) => view.over.is_none() && view.offers.contains(&act),
            None => keys::pages_turn(view),
        };
        let label = view.words.say(id, &[]);
        let pressed = key_button(
            &mut child(ui, key, at),
            &label,
            Some(key),
            look,
            size,
            enabled,
        );
        if let Some(act) = act.filter(|_| enabled) {
            wanted::give(ui, act, &pressed);
        }
        if !pressed.clicked() {
            continue;
        }
        match act {
            Some(act) if view.can(act) => wishes.push(Wish::Do(act)),
            None if view.doing.is_none() => wishes.push(Wish::Page(keys::next_page(view.page))),
            _ => {}
        }
    }
}

/// White where it has an effect in this unit state.
fn start_look(view: &DrillView<'_>) -> ButtonLook {
    let starts = view
        .panel
        .as_ref()
        .is_none_or(|panel| match panel.question {
            Some(Question::Rails | Question::Take(_)) => true,
            Some(Question::Seen(_)) => panel.task == Task::ClearOut,
            Some(Question::Answer(_) | Question::Arrival(_)) => false,
            None => panel.unit.after(Command::Start).is_some(),
        });
    if starts {
        ButtonLook::PanelStart
    } else {
        ButtonLook::Panel
    }
}

fn stop_look(unit: Option<UnitState>) -> ButtonLook {
    if unit.is_some_and(|unit| unit.after(Command::Stop).is_some()) {
        ButtonLook::PanelStop
    } else {
        ButtonLook::Panel
    }
}

/// Blue where a person can bring the unit on with it.
fn reset_look(unit: Option<UnitState>) -> ButtonLook {
    let brings_on = |command| unit.is_some_and(|unit| unit.after(command).is_some());
    if brings_on(Command::Reset) || brings_on(Command::Clear) {
        ButtonLook::PanelBlue
    } else {
        ButtonLook::Panel
    }
}
