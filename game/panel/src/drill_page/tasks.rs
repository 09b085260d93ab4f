//! The card of the task.

use egui::{Stroke, Ui, vec2};
use rackproof_phrases::named;
use rackproof_words::Arg;

use crate::tokens::{self, Step, Weight};
use crate::widgets::{
    ButtonLook, Face, RowLook, exam_card, head, key_button, label_value_row, note, say,
    teaching_card,
};
use crate::{DrillView, Way};

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
    let allowed = u64::from(drill.limits.minutes) * 60_000_000;
    let fold = words.say(if open { "card-fold" } else { "card-unfold" }, &[]);
    let size = vec2(0.0, tokens::LEAST_HEIGHT + tokens::SPACE);
    ui.horizontal(|ui| {
        if key_button(ui, &fold, None, quiet(view), size, true).clicked() {
            ui.data_mut(|data| data.insert_temp(egui::Id::new("task open"), !open));
        }
        if !open {
            let allowed = [("time", Arg::Clock(allowed))];
            note(ui, &words.say("card-allowed-short", &allowed));
        }
    });
    if open {
        times(view, ui, allowed);
    }
}

/// The time that is allowed, and the reference time where it is told.
fn times(view: &DrillView<'_>, ui: &mut Ui, allowed: u64) {
    let words = view.words;
    ui.add_space(tokens::SPACE);
    let tint = if view.way == Way::Exam {
        tokens::HAIR
    } else {
        tokens::PLUM_TINT
    };
    let (_, line) = ui.allocate_space(vec2(ui.available_width(), 1.0));
    let stroke = Stroke::new(tokens::RULE_WIDTH, tint);
    ui.painter().hline(line.x_range(), line.center().y, stroke);
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
