//! The cards at the left: the task, the guide or help, what was perceived.

use egui::accesskit::{Live, Role};
use egui::{ScrollArea, Sense, Ui, UiBuilder};
use rackproof_drill::message::of_void;
use rackproof_phrases::{named, text};
use rackproof_words::Arg;

use super::acts::{Entry, sentence};
use super::signs::{self, Sense as By};
use super::{focus, tasks};
use crate::keys::{self, Does};
use crate::tokens::{self, Step, Weight};
use crate::widgets::{
    ACTION, ButtonLook, KeyButton, exam_card, head, key_cap, note, paragraph, say, teaching_card,
};
use crate::{DrillView, Way, Wish};

pub(super) fn show(view: &DrillView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    let place = ui.max_rect();
    let width = place.width();
    // The bar of cards that are more than their place stands beside them.
    let with_bar = place.with_max_x(place.right() + tokens::SPACE + tokens::SCROLL_BAR);
    let mut ui = ui.new_child(UiBuilder::new().max_rect(with_bar));
    ScrollArea::vertical()
        .id_salt("cards")
        .auto_shrink([false, true])
        .show(&mut ui, |ui| {
            ui.set_width(width);
            ui.spacing_mut().item_spacing.y = tokens::SPACE;
            over_the_hall(ui, "task", |ui| tasks::task(view, ui));
            if let Some(watching) = view.watching {
                over_the_hall(ui, "watch", |ui| tasks::watch(view, watching, ui, wishes));
            }
            if view.way == Way::Guided {
                over_the_hall(ui, "guide", |ui| {
                    teaching_card(ui, &view.words.say("card-guide", &[]), |ui| {
                        next_step(view, ui);
                    });
                });
            }
            // What was perceived last is never pushed out of sight by what is told beside it.
            if view.way == Way::Practice {
                void(view, ui);
            }
            perceived(view, ui);
            if view.way == Way::Guided {
                void(view, ui);
            }
            if view.way == Way::Practice {
                over_the_hall(ui, "help", |ui| help(view, ui, wishes));
            }
            focus::reveal(ui);
        });
}

/// A card: what lies under it is not pressed through it.
fn over_the_hall(ui: &mut Ui, salt: &str, contents: impl FnOnce(&mut Ui)) {
    let sense = Sense::CLICK | Sense::DRAG;
    let builder = UiBuilder::new().id_salt(salt).sense(sense);
    ui.scope_builder(builder, contents);
    ui.add_space(tokens::SPACE);
}

/// The next step, why, and how.
pub(super) fn next_step(view: &DrillView<'_>, ui: &mut Ui) {
    let words = view.words;
    let Some(ahead) = view.ahead else {
        say(
            ui,
            &words.say("play-no-step", &[]),
            Step::Text,
            Weight::Regular,
            tokens::INK,
        );
        return;
    };
    let id = format!("step-{}", ahead.step);
    head(ui, &named(words, &id, &ahead.step));
    let why = format!("{id}-why");
    if words.has(&why) {
        let label = format!("{} ", words.say("play-why", &[]));
        let why = words.say(&why, &[]);
        let runs = [
            (label.as_str(), Weight::Bold),
            (why.as_str(), Weight::Regular),
        ];
        paragraph(ui, &runs, Step::Text, tokens::INK);
    }
    if view.way == Way::Watch {
        return;
    }
    let how = match ahead.intent {
        Some(intent) => sentence(view, intent),
        None => words.say("card-wait", &[]),
    };
    let label = format!("{} ", words.say("card-how", &[]));
    let how = format!("{how}.");
    let runs = [
        (label.as_str(), Weight::Bold),
        (how.as_str(), Weight::Regular),
    ];
    paragraph(ui, &runs, Step::Text, tokens::INK);
    if let Some(cap) = key_of_next(view) {
        ui.horizontal(|ui| {
            note(ui, &words.say("card-key", &[]));
            key_cap(ui, cap);
        });
    }
}

/// The key of the next step.
fn key_of_next(view: &DrillView<'_>) -> Option<&'static str> {
    use rackproof_drill::Intent;
    match view.ahead?.intent {
        Some(Intent::Walk(stand)) => keys::cap_for(Does::Walk(stand)),
        Some(intent) => keys::cap_of(intent.kind()),
        None => Entry::Wait.cap(),
    }
}

/// All looks are void: said in practice and in guided mode, until the next look.
fn void(view: &DrillView<'_>, ui: &mut Ui) {
    let Some((at, cause)) = signs::voided(view) else {
        return;
    };
    let words = view.words;
    over_the_hall(ui, "void", |ui| {
        teaching_card(ui, &words.say("card-told", &[]), |ui| {
            let response = head(ui, &text(words, &of_void(cause)));
            ui.ctx().accesskit_node_builder(response.id, |node| {
                node.set_role(Role::Alert);
                node.set_live(Live::Polite);
            });
            let told = words.say("card-void", &[("time", Arg::Clock(at))]);
            say(ui, &told, Step::Text, Weight::Regular, tokens::INK);
        });
    });
}

/// Practice: a hint on demand.
fn help(view: &DrillView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    let words = view.words;
    teaching_card(ui, &words.say("card-help", &[]), |ui| {
        if view.ahead.is_some() {
            next_step(view, ui);
        } else {
            say(
                ui,
                &words.say("card-help-text", &[]),
                Step::Text,
                Weight::Regular,
                tokens::INK,
            );
        }
        ui.add_space(tokens::SPACE);
        let button = KeyButton {
            label: &words.say("card-hint", &[]),
            key: keys::cap_for(Does::Hint),
            look: ButtonLook::TeachingQuiet,
            size: egui::vec2(ui.available_width(), ACTION.y),
            enabled: true,
            flag: None,
        };
        if button.show(ui).clicked() && view.over.is_none() {
            wishes.push(Wish::Hint);
        }
    });
}

/// What was seen, heard and told last, in words: in every way, for the hall alone does not say it.
fn perceived(view: &DrillView<'_>, ui: &mut Ui) {
    let words = view.words;
    let rows = [
        (By::See, "card-seen"),
        (By::Hear, "card-heard"),
        (By::Told, "card-told-by"),
    ];
    let found: Vec<_> = rows
        .into_iter()
        .filter_map(|(by, label)| signs::last(view, by).map(|(at, said)| (label, at, said)))
        .collect();
    if found.is_empty() && view.gone.is_none() {
        return;
    }
    over_the_hall(ui, "perceived", |ui| {
        exam_card(ui, &words.say("card-perceived", &[]), |ui| {
            ui.ctx()
                .accesskit_node_builder(ui.unique_id(), |node| node.set_live(Live::Polite));
            if let Some(intent) = view.gone {
                let done = ("done", Arg::from(sentence(view, intent)));
                let gone = words.say("play-gone", &[done]);
                say(ui, &gone, Step::Small, Weight::SemiBold, tokens::INK);
            }
            for (label, at, said) in found {
                let label = words.say(label, &[("time", Arg::Clock(at))]);
                note(ui, &label);
                for one in said {
                    say(ui, &one, Step::Small, Weight::SemiBold, tokens::INK);
                }
            }
        });
    });
}
