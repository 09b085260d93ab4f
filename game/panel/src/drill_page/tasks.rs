//! The card of the task, and the one of an attempt that plays.

use egui::{Stroke, Ui, vec2};
use rackproof_phrases::named;
use rackproof_words::Arg;

use super::cards::next_step;
use crate::tokens::{self, Step, Weight};
use crate::view::Watching;
use crate::widgets::{
    ButtonLook, Face, RowLook, exam_card, head, key_button, label_value_row, note, say,
    teaching_card,
};
use crate::{DrillView, Way, Wish};

/// How fast an attempt can play.
const SPEEDS: [(f32, &str); 4] = [(1.0, "1"), (2.0, "2"), (4.0, "4"), (8.0, "8")];

/// The task: in ink in an exam, without a reference time.
pub(super) fn task(view: &DrillView<'_>, ui: &mut Ui) {
    let label = view.words.say("card-task", &[]);
    if view.way == Way::Exam {
        exam_card(ui, &label, |ui| contents(view, ui));
    } else {
        teaching_card(ui, &label, |ui| contents(view, ui));
    }
}

fn contents(view: &DrillView<'_>, ui: &mut Ui) {
    let words = view.words;
    let drill = view.world.drill();
    head(ui, &named(words, &format!("drill-{}", drill.id), &drill.id));
    let open = is_open(view, ui);
    if open {
        let id = format!("drill-{}-task", drill.id);
        let task = named(words, &id, "");
        for line in task.lines() {
            say(ui, line, Step::Small, Weight::Regular, tokens::INK);
        }
    }
    let fold = words.say(if open { "card-fold" } else { "card-unfold" }, &[]);
    let size = vec2(0.0, tokens::LEAST_HEIGHT + tokens::SPACE);
    if key_button(ui, &fold, None, quiet(view), size, true).clicked() {
        ui.data_mut(|data| data.insert_temp(egui::Id::new("task open"), !open));
    }
    ui.add_space(tokens::SPACE);
    let tint = if view.way == Way::Exam {
        tokens::HAIR
    } else {
        tokens::PLUM_TINT
    };
    let (_, line) = ui.allocate_space(vec2(ui.available_width(), 1.0));
    let stroke = Stroke::new(tokens::RULE_WIDTH, tint);
    ui.painter().hline(line.x_range(), line.center().y, stroke);
    let allowed = u64::from(drill.limits.minutes) * 60_000_000;
    let reference = view.reference.filter(|_| view.way != Way::Exam);
    for (label, micros) in [
        ("card-allowed", Some(allowed)),
        ("card-reference", reference),
    ] {
        if let Some(micros) = micros {
            let clock = Arg::Clock(micros).to_string();
            let label = words.say(label, &[]);
            label_value_row(ui, &label, &clock, Face::Figures, RowLook::WINDOW);
        }
    }
}

fn quiet(view: &DrillView<'_>) -> ButtonLook {
    if view.way == Way::Exam {
        ButtonLook::Plain
    } else {
        ButtonLook::TeachingQuiet
    }
}

/// The whole task stands there until something else needs the room, or as the person chose.
fn is_open(view: &DrillView<'_>, ui: &Ui) -> bool {
    let chosen = ui.data(|data| data.get_temp::<bool>(egui::Id::new("task open")));
    chosen.unwrap_or(view.way == Way::Exam || view.at == 0)
}

/// Watch: the step that is shown, and the controls.
pub(super) fn watch(view: &DrillView<'_>, watching: Watching, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    let words = view.words;
    teaching_card(ui, &words.say("card-watch", &[]), |ui| {
        if view.ahead.is_some() {
            next_step(view, ui);
        }
        ui.add_space(tokens::SPACE);
        let clock = |micros| Arg::Clock(micros).to_string();
        let at = format!("{} / {}", clock(view.at), clock(watching.whole));
        let label = words.say("card-at", &[]);
        label_value_row(ui, &label, &at, Face::Figures, RowLook::WINDOW);
        let plays = watching.plays;
        let label = words.say(
            if plays {
                "card-stand-still"
            } else {
                "card-play"
            },
            &[],
        );
        let size = vec2(ui.available_width(), tokens::ACTION_HEIGHT);
        let free = view.over.is_none();
        let look = ButtonLook::TeachingQuiet;
        ui.push_id("play", |ui| {
            if key_button(ui, &label, Some("Space"), look, size, true).clicked() && free {
                wishes.push(Wish::Play(!plays));
            }
        });
        ui.add_space(tokens::SPACE);
        note(ui, &words.say("card-speed", &[]));
        ui.horizontal(|ui| {
            for (speed, times) in SPEEDS {
                let chosen = (watching.speed - speed).abs() < 0.01;
                let look = if chosen {
                    ButtonLook::Selected
                } else {
                    ButtonLook::TeachingQuiet
                };
                let size = vec2(44.0, tokens::LEAST_HEIGHT + tokens::SPACE);
                let response = key_button(ui, times, None, look, size, true);
                let said = words.say("card-speed-times", &[("times", Arg::from(times))]);
                ui.ctx()
                    .accesskit_node_builder(response.id, |node| node.set_label(said));
                if response.clicked() && free {
                    wishes.push(Wish::Speed(speed));
                }
            }
        });
    });
}
