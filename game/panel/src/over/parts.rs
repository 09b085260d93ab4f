//! The parts of the hall as a list, with what can be done at each: the hall for the keyboard.

use egui::{Ui, vec2};

use crate::drill_page::acts::Entry;
use crate::keys::wish_for;
use crate::tokens::{self, Step, Weight};
use crate::widgets::{ButtonLook, key_button, note, say};
use crate::{DrillView, Wish};

pub(super) fn show(view: &DrillView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    let words = view.words;
    note(ui, &words.say("over-parts-note", &[]));
    if view.parts.is_empty() {
        say(
            ui,
            &words.say("over-parts-none", &[]),
            Step::Text,
            Weight::Regular,
            tokens::INK,
        );
    }
    for (number, part) in view.parts.iter().enumerate() {
        ui.push_id(number, |ui| {
            ui.add_space(tokens::SPACE);
            say(ui, &part.name, Step::Text, Weight::SemiBold, tokens::INK);
            if part.offers.is_empty() {
                note(ui, &words.say("over-parts-nothing", &[]));
                return;
            }
            let mut asked = Vec::new();
            ui.vertical(|ui| {
                for intent in &part.offers {
                    let wish = wish_for(*intent);
                    if asked.contains(&wish) {
                        continue;
                    }
                    asked.push(wish.clone());
                    let entry = Entry::Act(*intent);
                    let label = match wish {
                        Wish::Do(intent) => crate::drill_page::acts::sentence(view, intent),
                        _ => entry.label(view),
                    };
                    let size = vec2(0.0, 32.0);
                    let enabled = view.doing.is_none() && view.offers.contains(intent);
                    ui.push_id(format!("{intent:?}"), |ui| {
                        let look = ButtonLook::Plain;
                        if key_button(ui, &label, entry.cap(), look, size, enabled).clicked() {
                            act(wish, wishes);
                        }
                    });
                }
            });
        });
    }
}

/// The list goes away first: nothing is done behind it.
fn act(wish: Wish, wishes: &mut Vec<Wish>) {
    if !matches!(wish, Wish::Over(_)) {
        wishes.push(Wish::CloseOver);
    }
    wishes.push(wish);
}
