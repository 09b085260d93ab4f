//! The cards at the left: the task, the guide or help, what was perceived.

use egui::accesskit::{Live, Role};
use egui::{ScrollArea, Sense, Ui, UiBuilder};
use rackproof_drill::message::of_void;
use rackproof_phrases::{named, text};
use rackproof_words::Arg;

use super::acts::{Entry, sentence};
use super::fit::{self, Fit};
use super::signs::{self, Sense as By};
use super::{focus, tasks, wanted, watch};
use crate::keys::{self, Does, Group};
use crate::tokens::{self, Step, Weight};
use crate::widgets::{
    ACTION, ButtonLook, KeyButton, exam_card, head, key_cap, note, paragraph, say, teaching_card,
};
use crate::{DrillView, PanelPage, Way, Wish};

pub(super) fn show(view: &DrillView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    let place = ui.max_rect();
    let width = place.width();
    let fit = Fit::kept(ui);
    let height = fit.shown(place.height());
    // The bar of cards that are more than their place stands beside them.
    let with_bar = place.with_max_x(place.right() + tokens::SPACE + tokens::SCROLL_BAR);
    let with_bar = with_bar.with_max_y(place.top() + height);
    let mut inner = ui.new_child(UiBuilder::new().max_rect(with_bar));
    let mut cards = Vec::new();
    let shown = ScrollArea::vertical()
        .id_salt("cards")
        .auto_shrink([false, true])
        .show(&mut inner, |ui| {
            ui.set_width(width);
            ui.spacing_mut().item_spacing.y = tokens::SPACE;
            all(view, ui, wishes, &mut cards);
            focus::reveal(ui);
        });
    let now = Fit::of(shown.state.offset.y, shown.content_size.y, &cards);
    if now.is_more(height) {
        fit::more_below(view, ui, place);
    }
    let is_cut_anew = (now.shown(place.height()) - height).abs() > 0.5;
    now.keep(ui, is_cut_anew);
}

/// All cards from the top: what a person acts by first. Each tells its place in the list.
fn all(view: &DrillView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>, cards: &mut Vec<[f32; 2]>) {
    if let Some(watching) = view.watching {
        over_the_hall(ui, "watch", cards, |ui| {
            watch::show(view, watching, ui, wishes)
        });
    }
    over_the_hall(ui, "task", cards, |ui| tasks::task(view, ui));
    if view.way == Way::Guided {
        // What is void the notes say there.
        over_the_hall(ui, "guide", cards, |ui| {
            teaching_card(ui, &view.words.say("card-guide", &[]), |ui| {
                next_step(view, ui);
            });
        });
    }
    // What was perceived last is never pushed out of sight by what is told beside it.
    if view.way == Way::Practice {
        void(view, ui, cards);
    }
    perceived(view, ui, cards);
    if view.way == Way::Practice {
        over_the_hall(ui, "help", cards, |ui| help(view, ui, wishes));
    }
}

/// A card: what lies under it is not pressed through it.
fn over_the_hall(
    ui: &mut Ui,
    salt: &str,
    cards: &mut Vec<[f32; 2]>,
    contents: impl FnOnce(&mut Ui),
) {
    let sense = Sense::CLICK | Sense::DRAG;
    let builder = UiBuilder::new().id_salt(salt).sense(sense);
    let top = ui.min_rect().top();
    let card = ui.scope_builder(builder, contents).response.rect;
    cards.push([card.top() - top, card.bottom() - top]);
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
    let how = match ahead.intent {
        Some(intent) => sentence(view, intent),
        None => words.say("card-wait", &[]),
    };
    // Watched, a walk and the act that it is for are two stops of one step.
    let label = if view.way == Way::Watch {
        "card-now"
    } else {
        "card-how"
    };
    let label = format!("{} ", words.say(label, &[]));
    let how = format!("{how}.");
    let runs = [
        (label.as_str(), Weight::Bold),
        (how.as_str(), Weight::Regular),
    ];
    paragraph(ui, &runs, Step::Text, tokens::INK);
    if view.way == Way::Watch {
        return;
    }
    on_its_page(view, ui);
    if let Some(cap) = key_of_next(view) {
        ui.horizontal(|ui| {
            note(ui, &words.say("card-key", &[]));
            key_cap(ui, cap);
        });
    }
}

/// On which page of the operator panel the button of the next step stands.
fn on_its_page(view: &DrillView<'_>, ui: &mut Ui) {
    let intent = view.ahead.and_then(|ahead| ahead.intent);
    let Some(page) = intent.and_then(wanted::page_of) else {
        return;
    };
    let words = view.words;
    let id = match page {
        PanelPage::Declare if !view.preferences.press_twice => "card-page-hold",
        _ => "card-page-press",
    };
    let named = Arg::from(words.say(wanted::page_name(page), &[]));
    let said = words.say(id, &[("page", named)]);
    say(ui, &said, Step::Text, Weight::Regular, tokens::INK);
}

/// The key of the next step.
fn key_of_next(view: &DrillView<'_>) -> Option<&'static str> {
    use rackproof_drill::Intent;
    match view.ahead?.intent {
        Some(Intent::Walk(stand)) => keys::cap_for(Does::Walk(stand)),
        Some(intent) if wanted::page_of(intent).is_some() => {
            keys::cap_for(Does::Into(Group::Panel))
        }
        Some(intent) => keys::cap_of(intent.kind()),
        None => Entry::Wait.cap(),
    }
}

/// All looks are void: said in practice, until the next look. In guided mode the notes say it.
fn void(view: &DrillView<'_>, ui: &mut Ui, cards: &mut Vec<[f32; 2]>) {
    let Some((at, cause)) = signs::voided(view) else {
        return;
    };
    let words = view.words;
    over_the_hall(ui, "void", cards, |ui| {
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

/// Practice: a hint on demand, and a safe way on.
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
        ui.add_space(tokens::SPACE);
        let button = KeyButton {
            label: &words.say("card-way-on", &[]),
            key: keys::cap_for(Does::WayOn),
            look: ButtonLook::TeachingQuiet,
            size: egui::vec2(ui.available_width(), ACTION.y),
            enabled: true,
            flag: None,
        };
        if button.show(ui).clicked() && view.over.is_none() {
            wishes.push(Wish::WayOn);
        }
    });
}

/// What was seen, heard and told last, in words: in every way, for the hall alone does not say it.
fn perceived(view: &DrillView<'_>, ui: &mut Ui, cards: &mut Vec<[f32; 2]>) {
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
    over_the_hall(ui, "perceived", cards, |ui| {
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
