//! The keys of the debrief.

use egui::{Event, EventFilter, Key, Modifiers, Ui};

use super::{DebriefView, steps};
use crate::{Over, Wish};

/// One second, in µs.
const SECOND: u64 = 1_000_000;

/// Asks for what the keys that were pressed in this pass stand for.
pub(super) fn hear(view: &DebriefView<'_>, ui: &Ui, can_take_over: bool, wishes: &mut Vec<Wish>) {
    let focused = ui.memory(|memory| memory.focused());
    if let Some(id) = focused {
        // Left and Right go through time: they do not move the focus.
        let filter = EventFilter {
            horizontal_arrows: true,
            escape: true,
            ..EventFilter::default()
        };
        ui.memory_mut(|memory| memory.set_focus_lock_filter(id, filter));
    }
    let pressed: Vec<(Key, Modifiers)> = ui.input(|input| {
        let keys = input.events.iter().filter_map(|event| match event {
            Event::Key {
                key,
                pressed: true,
                modifiers,
                ..
            } => Some((*key, *modifiers)),
            _ => None,
        });
        keys.collect()
    });
    for (key, modifiers) in pressed {
        // Space and Enter belong to what has the focus.
        let taken = focused.is_some() && matches!(key, Key::Space | Key::Enter);
        if modifiers.command || modifiers.alt || taken {
            continue;
        }
        wishes.extend(wished(view, key, modifiers.shift, can_take_over));
    }
}

/// What one key asks for.
fn wished(view: &DebriefView<'_>, key: Key, shift: bool, can_take_over: bool) -> Vec<Wish> {
    if view.over.is_some() {
        return match key {
            Key::Escape => vec![Wish::CloseOver],
            _ => Vec::new(),
        };
    }
    let (at, end) = (view.at.min(view.history.end()), view.history.end());
    let letters = !view.preferences.no_letters;
    match key {
        Key::Space => vec![Wish::Play(!view.plays)],
        Key::OpenBracket => steps::go(steps::before(view)).into_iter().collect(),
        Key::CloseBracket => steps::go(steps::after(view)).into_iter().collect(),
        Key::ArrowLeft if shift => vec![Wish::Scrub(view.history.before(at))],
        Key::ArrowRight if shift => vec![Wish::Scrub(view.history.after(at))],
        Key::ArrowLeft => vec![Wish::Scrub(at.saturating_sub(SECOND))],
        Key::ArrowRight => vec![Wish::Scrub((at + SECOND).min(end))],
        Key::Home => vec![Wish::Scrub(0)],
        Key::End => vec![Wish::Scrub(end)],
        Key::Enter if can_take_over => vec![Wish::TakeOver],
        Key::A if letters => vec![Wish::Again],
        Key::R if letters => vec![Wish::Over(Over::Rules)],
        Key::W if letters => vec![Wish::WaysOn],
        Key::F1 => vec![Wish::Over(Over::Help)],
        Key::Escape => vec![Wish::Leave],
        _ => Vec::new(),
    }
}
