//! The keys of the course page.

use egui::{Key, Ui};
use rackproof_words::Words;

use super::CourseView;
use crate::tokens::Step;
use crate::widgets::key_row;
use crate::wish::{Over, Way, Wish};

/// The keys as the help shows them.
const KEYS: [(&str, &str); 11] = [
    ("Up, Down", "course-key-drill"),
    ("Left, Right", "course-key-variant"),
    ("W", "way-watch"),
    ("G", "way-guided"),
    ("P", "way-practice"),
    ("X", "way-exam"),
    ("T", "course-sheet"),
    ("F2", "course-attempts"),
    ("F4", "course-settings"),
    ("Tab", "course-key-focus"),
    ("Esc", "course-key-back"),
];

/// Asks for what the keys of this pass stand for.
pub(super) fn hear(view: &CourseView<'_>, ui: &Ui, wishes: &mut Vec<Wish>) {
    let focused = ui.memory(|memory| memory.focused().is_some());
    let pressed = ui.input(|input| {
        let keys = input.events.iter().filter_map(|event| match event {
            egui::Event::Key {
                key,
                pressed: true,
                repeat: false,
                modifiers,
                ..
            } if modifiers.is_none() => Some(*key),
            _ => None,
        });
        keys.collect::<Vec<Key>>()
    });
    for key in pressed {
        // With a focus the arrows move it.
        let arrow = matches!(
            key,
            Key::ArrowLeft | Key::ArrowRight | Key::ArrowUp | Key::ArrowDown
        );
        if !(arrow && focused) {
            wishes.extend(wished(view, key));
        }
    }
}

/// What one key asks for.
pub(super) fn wished(view: &CourseView<'_>, key: Key) -> Option<Wish> {
    let letters = !view.preferences.no_letters;
    if view.over.is_some() {
        return (key == Key::Escape).then_some(Wish::CloseOver);
    }
    let wish = match key {
        Key::W if letters => Wish::Begin(Way::Watch),
        Key::G if letters => Wish::Begin(Way::Guided),
        Key::P if letters => Wish::Begin(Way::Practice),
        Key::X if letters && view.exam_open => Wish::Begin(Way::Exam),
        Key::T if letters => Wish::Over(Over::Sheet),
        Key::F1 => Wish::Over(Over::Help),
        Key::F2 => Wish::Over(Over::Attempts),
        Key::F4 => Wish::Over(Over::Settings),
        Key::Escape => Wish::Quit,
        Key::ArrowLeft => Wish::ChooseVariant(turned(view, false)),
        Key::ArrowRight => Wish::ChooseVariant(turned(view, true)),
        // As the slots stand: the first drill is the lowest.
        Key::ArrowUp if view.drill + 1 < view.drills.len() => Wish::ChooseDrill(view.drill + 1),
        Key::ArrowDown => Wish::ChooseDrill(view.drill.checked_sub(1)?),
        _ => return None,
    };
    Some(wish)
}

/// The next variant, or the one before; `any` stands between the last and the first.
fn turned(view: &CourseView<'_>, forward: bool) -> Option<usize> {
    let places = view.variants.len() + 1;
    let now = view.variant.map_or(0, |variant| variant + 1);
    let next = if forward { now + 1 } else { now + places - 1 } % places;
    next.checked_sub(1)
}

/// The keys in words.
pub(super) fn help(words: &Words, ui: &mut Ui) {
    for (cap, id) in KEYS {
        key_row(ui, 110.0, cap, &words.say(id, &[]), Step::Small);
    }
}
