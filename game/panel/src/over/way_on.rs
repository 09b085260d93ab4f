//! A safe way on from here: its steps with their reasons, by what can be known.

use egui::{Ui, vec2};
use rackproof_phrases::DoneTold;
use rackproof_words::Arg;

use crate::tokens::{self, Step, Weight};
use crate::widgets::say;
use crate::{DrillView, Way, fonts};

/// Room for the time in front of a step.
const CLOCK: f32 = 56.0;

pub(super) fn show(view: &DrillView<'_>, ui: &mut Ui) {
    // Whatever the window gives, an exam shows nothing of the guide.
    let Some(told) = view.way_on.filter(|_| view.way == Way::Practice) else {
        return;
    };
    for said in &told.head {
        say(ui, said, Step::Text, Weight::Regular, tokens::INK);
    }
    ui.add_space(tokens::GAP);
    for (number, step) in told.steps.iter().enumerate() {
        ui.push_id(number, |ui| one(ui, step));
    }
    ui.add_space(tokens::GAP);
    for said in &told.tail {
        say(ui, said, Step::Text, Weight::Regular, tokens::INK);
    }
}

/// One doing with its time, how, and why.
pub(crate) fn one(ui: &mut Ui, step: &DoneTold) {
    ui.horizontal_top(|ui| {
        let time = Arg::Clock(step.at).to_string();
        let figures = fonts::figures(&time, Step::Small, Weight::Regular, tokens::INK_2);
        ui.add_sized(vec2(CLOCK, Step::Text.line()), egui::Label::new(figures));
        ui.vertical(|ui| {
            say(ui, &step.said, Step::Text, Weight::SemiBold, tokens::INK);
            for said in [&step.how, &step.why] {
                if !said.is_empty() {
                    say(ui, said, Step::Small, Weight::Regular, tokens::INK_2);
                }
            }
        });
    });
}
