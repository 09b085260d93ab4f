//! The four commands: always in the same places, with the same keys.

use egui::{Rect, Ui, Vec2, pos2};
use rackproof_buffer::{Button, Colour, UnitState};
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
        ("operator-start", "F9", look(view, 0), Some(start)),
        (
            "operator-stop",
            "F10",
            look(view, 1),
            Some(Intent::Press(Button::Stop)),
        ),
        (
            third,
            "F11",
            look(view, 2),
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

/// How a button looks: its colour is the core's, by IEC 60204-1. On a dark panel Start is white.
fn look(view: &DrillView<'_>, number: usize) -> ButtonLook {
    let colours = view.panel.as_ref().map(|panel| panel.colours);
    let dark = [Colour::White, Colour::Grey, Colour::Grey];
    match colours.unwrap_or(dark)[number] {
        Colour::White => ButtonLook::PanelStart,
        Colour::Black => ButtonLook::PanelStop,
        Colour::Blue => ButtonLook::PanelBlue,
        // The screen has no button of another colour.
        Colour::Grey | Colour::Red | Colour::Yellow | Colour::Green => ButtonLook::Panel,
    }
}
