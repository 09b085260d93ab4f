//! The card of an attempt that plays: the step that is shown, and the controls. At the end, what
//! became of it, and what can be done then.

use egui::{Ui, vec2};
use rackproof_grade::Verdict;
use rackproof_words::Arg;

use super::cards::next_step;
use crate::tokens::{self, Step, Weight};
use crate::view::Watching;
use crate::widgets::{
    ButtonLook, Face, RowLook, head, key_button, label_value_row, note, say, teaching_card,
};
use crate::{DrillView, Wish};

/// How fast an attempt can play.
const SPEEDS: [(f32, &str); 4] = [(1.0, "1"), (2.0, "2"), (4.0, "4"), (8.0, "8")];

pub(super) fn show(view: &DrillView<'_>, watching: Watching, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    let words = view.words;
    let before = wishes.len();
    teaching_card(ui, &words.say("card-watch", &[]), |ui| {
        if let Some(verdict) = watching.ended {
            end(view, verdict, ui);
            ui.add_space(tokens::SPACE);
        }
        // The controls stay where they are, however much is said of a step.
        let clock = |micros| Arg::Clock(micros).to_string();
        let at = format!("{} / {}", clock(view.at), clock(watching.whole));
        let label = words.say("card-at", &[]);
        label_value_row(ui, &label, &at, Face::Figures, RowLook::WINDOW);
        // The ring of the focus is as wide as this.
        ui.add_space(tokens::SPACE);
        play(view, watching, ui, wishes);
        ui.add_space(tokens::SPACE);
        note(ui, &words.say("card-speed", &[]));
        ui.horizontal(|ui| speeds(view, watching, ui, wishes));
        if watching.ended.is_none() && view.ahead.is_some() {
            ui.add_space(tokens::SPACE);
            next_step(view, ui);
        }
    });
    if view.over.is_some() {
        wishes.truncate(before);
    }
}

/// What became of it.
fn end(view: &DrillView<'_>, verdict: Verdict, ui: &mut Ui) {
    let words = view.words;
    let (verdict, why) = match verdict {
        Verdict::Passed => ("debrief-passed", Some("debrief-passed-why")),
        Verdict::Failed => ("debrief-not-passed", None),
        Verdict::NotEnded => ("debrief-not-ended", Some("debrief-not-ended-why")),
    };
    let verdict = [("verdict", Arg::from(words.say(verdict, &[])))];
    head(ui, &words.say("card-watched", &verdict));
    if let Some(why) = why {
        let why = words.say(why, &[]);
        say(ui, &why, Step::Text, Weight::Regular, tokens::INK);
    }
}

/// Play and stand still. At the end it plays again, or one goes back.
fn play(view: &DrillView<'_>, watching: Watching, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    let plays = watching.plays;
    let label = match (watching.ended, plays) {
        (Some(_), _) => "card-play-again",
        (None, true) => "card-stand-still",
        (None, false) => "card-play",
    };
    let size = vec2(ui.available_width(), tokens::ACTION_HEIGHT);
    let look = ButtonLook::TeachingQuiet;
    let mut button = |salt: &str, id: &str, key, wish: Wish| {
        ui.push_id(salt, |ui| {
            let label = view.words.say(id, &[]);
            if key_button(ui, &label, key, look, size, true).clicked() {
                wishes.push(wish);
            }
        });
    };
    button("play", label, Some("Space"), Wish::Play(!plays));
    if watching.ended.is_some() {
        button("leave", "over-leave", None, Wish::Leave);
    }
}

fn speeds(view: &DrillView<'_>, watching: Watching, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    for (speed, times) in SPEEDS {
        let chosen = (watching.speed - speed).abs() < 0.01;
        let look = if chosen {
            ButtonLook::Selected
        } else {
            ButtonLook::TeachingQuiet
        };
        let size = vec2(44.0, tokens::LEAST_HEIGHT + tokens::SPACE);
        let response = key_button(ui, times, None, look, size, true);
        let said = [("times", Arg::from(times))];
        let said = view.words.say("card-speed-times", &said);
        ui.ctx()
            .accesskit_node_builder(response.id, |node| node.set_label(said));
        if response.clicked() {
            wishes.push(Wish::Speed(speed));
        }
    }
}
