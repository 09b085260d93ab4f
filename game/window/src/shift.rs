//! Shift as it was when Tab was struck. Where both are struck between two pictures, the keys of
//! that picture are told with Shift as it is at its end: let go already.

use bevy::input::keyboard::{Key, KeyboardInput};

/// Whether Shift is down, from picture to picture.
#[derive(Default)]
pub(crate) struct Shift {
    down: bool,
}

impl Shift {
    /// Mends the events of this picture from the keys as they came.
    pub(crate) fn mend<'k>(
        &mut self,
        keys: impl Iterator<Item = &'k KeyboardInput>,
        events: &mut [egui::Event],
    ) {
        let mut struck = Vec::new();
        for key in keys {
            match key.logical_key {
                Key::Shift => self.down = key.state.is_pressed(),
                Key::Tab if key.state.is_pressed() => struck.push(self.down),
                _ => {}
            }
        }
        let mut struck = struck.into_iter();
        for event in events {
            if let egui::Event::Key {
                key: egui::Key::Tab,
                pressed: true,
                modifiers,
                ..
            } = event
            {
                modifiers.shift = struck.next().unwrap_or(modifiers.shift);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use bevy::{
        ecs::entity::Entity,
        input::{ButtonState, keyboard::KeyCode},
    };

    use super::*;

    fn key(logical_key: Key, state: ButtonState) -> KeyboardInput {
        KeyboardInput {
            key_code: KeyCode::Tab,
            logical_key,
            state,
            text: None,
            repeat: false,
            window: Entity::PLACEHOLDER,
        }
    }

    fn tab() -> egui::Event {
        egui::Event::Key {
            key: egui::Key::Tab,
            physical_key: None,
            pressed: true,
            repeat: false,
            modifiers: egui::Modifiers::NONE,
        }
    }

    #[test]
    fn tab_has_the_shift_that_was_down_when_it_was_struck() {
        use ButtonState::{Pressed, Released};
        let mut shift = Shift::default();
        let pictures = [
            // All between two pictures, and a Tab alone after it.
            (
                vec![
                    key(Key::Shift, Pressed),
                    key(Key::Tab, Pressed),
                    key(Key::Tab, Released),
                    key(Key::Shift, Released),
                    key(Key::Tab, Pressed),
                ],
                vec![true, false],
            ),
            // Shift is held over to the next picture.
            (vec![key(Key::Shift, Pressed)], vec![]),
            (
                vec![key(Key::Tab, Pressed), key(Key::Shift, Released)],
                vec![true],
            ),
            (vec![key(Key::Tab, Pressed)], vec![false]),
        ];
        for (keys, expected) in pictures {
            let mut events: Vec<egui::Event> = expected.iter().map(|_| tab()).collect();
            shift.mend(keys.iter(), &mut events);
            let told: Vec<bool> = events
                .iter()
                .map(|event| matches!(event, egui::Event::Key { modifiers, .. } if modifiers.shift))
                .collect();
            assert_eq!(told, expected);
        }
    }
}
