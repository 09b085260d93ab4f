//! What a person sets for themselves.

use egui::{Checkbox, RichText, Ui, vec2};
use rackproof_words::{Arg, Words};

use crate::tokens::{self, Step, Weight};
use crate::widgets::{ButtonLook, head, key_button, note};
use crate::{Preferences, STRETCHES, Setting, Wish, fonts};

/// The sizes that can be chosen, in hundredths, with their figures.
pub(crate) const SCALES: [(f32, &str); 7] = [
    (0.9, "0.9"),
    (1.0, "1.0"),
    (1.25, "1.25"),
    (1.5, "1.5"),
    (1.75, "1.75"),
    (1.9, "1.9"),
    (2.0, "2.0"),
];

pub(crate) fn show(words: &Words, preferences: Preferences, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    choice(
        ui,
        words,
        ["settings-size", "settings-size-note"],
        SCALES.map(|(scale, figures)| {
            let label = words.say("settings-times", &[("times", Arg::from(figures))]);
            let chosen = (preferences.scale - scale).abs() < 0.01;
            (label, chosen, Setting::Scale(scale))
        }),
        wishes,
    );
    ui.add_space(tokens::GAP);
    choice(
        ui,
        words,
        ["settings-time", "settings-time-note"],
        STRETCHES.map(|stretch| {
            let times = Arg::Number(i64::from(stretch));
            let label = words.say("settings-stretch", &[("times", times)]);
            (
                label,
                preferences.stretch == stretch,
                Setting::Stretch(stretch),
            )
        }),
        wishes,
    );
    ui.add_space(tokens::GAP);
    let boxes = [
        (
            "settings-less-motion",
            preferences.less_motion,
            Setting::LessMotion(!preferences.less_motion),
        ),
        (
            "settings-no-letters",
            preferences.no_letters,
            Setting::NoLetters(!preferences.no_letters),
        ),
        (
            "settings-press-twice",
            preferences.press_twice,
            Setting::PressTwice(!preferences.press_twice),
        ),
        (
            "settings-plain-words",
            preferences.plain_words,
            Setting::PlainWords(!preferences.plain_words),
        ),
    ];
    for (id, on, setting) in boxes {
        let mut on = on;
        let font = fonts::text(Step::Text, Weight::Regular);
        let text = RichText::new(words.say(id, &[]))
            .font(font)
            .color(tokens::INK);
        let response = ui.add(Checkbox::new(&mut on, text));
        crate::widgets::focus_ring(ui, &response, tokens::CORNER);
        if response.changed() {
            wishes.push(Wish::Set(setting));
        }
    }
}

/// One of several, as a row of buttons under its head and note.
fn choice<const COUNT: usize>(
    ui: &mut Ui,
    words: &Words,
    [id, its_note]: [&str; 2],
    choices: [(String, bool, Setting); COUNT],
    wishes: &mut Vec<Wish>,
) {
    head(ui, &words.say(id, &[]));
    note(ui, &words.say(its_note, &[]));
    ui.horizontal_wrapped(|ui| {
        for (label, chosen, setting) in choices {
            let look = if chosen {
                ButtonLook::Selected
            } else {
                ButtonLook::Plain
            };
            ui.push_id(&label, |ui| {
                let size = vec2(50.0, tokens::ACTION_HEIGHT);
                if key_button(ui, &label, None, look, size, true).clicked() {
                    wishes.push(Wish::Set(setting));
                }
            });
        }
    });
}
