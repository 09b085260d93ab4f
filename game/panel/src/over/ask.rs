//! Questions: whether to go on, where the board goes, whether the job is done. None has a default.

use egui::{Ui, vec2};
use rackproof_drill::{Intent, Tray};

use crate::tokens::{self, Step, Weight};
use crate::widgets::{ButtonLook, key_button, say};
use crate::{DrillView, Over, Way, Wish};

/// A button over the whole width.
fn wide(ui: &mut Ui, label: &str, enabled: bool) -> bool {
    let size = vec2(ui.available_width(), tokens::ACTION_HEIGHT);
    let look = ButtonLook::Plain;
    ui.push_id(label, |ui| {
        key_button(ui, label, None, look, size, enabled).clicked()
    })
    .inner
}

fn told(view: &DrillView<'_>, ui: &mut Ui, id: &str) {
    let said = view.words.say(id, &[]);
    say(ui, &said, Step::Text, Weight::Regular, tokens::INK);
    ui.add_space(tokens::GAP);
}

/// The clock stands. In an exam it is asked whether to leave.
pub(super) fn pause(view: &DrillView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    let words = view.words;
    let (text, rows): (&str, &[(&str, Wish)]) = match view.way {
        Way::Exam => (
            "over-leave-exam-text",
            &[("over-stay", Wish::CloseOver), ("over-leave", Wish::Leave)],
        ),
        Way::Watch => (
            "over-pause-text",
            &[
                ("over-go-on", Wish::CloseOver),
                ("key-settings", Wish::Over(Over::Settings)),
                ("over-leave", Wish::Leave),
            ],
        ),
        Way::Guided | Way::Practice => (
            "over-pause-text",
            &[
                ("over-go-on", Wish::CloseOver),
                ("over-again", Wish::Again),
                ("key-settings", Wish::Over(Over::Settings)),
                ("over-leave", Wish::Leave),
            ],
        ),
    };
    told(view, ui, text);
    for (id, wish) in rows {
        if wide(ui, &words.say(id, &[]), true) {
            wishes.push(wish.clone());
        }
    }
}

/// Where the board in hand goes: three equal answers.
pub(super) fn trays(view: &DrillView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    let trays = [
        ("intent-put-down-good", Tray::Good),
        ("intent-put-down-quarantine", Tray::Quarantine),
        ("intent-put-down-scrap", Tray::Scrap),
    ];
    for (id, tray) in trays {
        let intent = Intent::PutDown(tray);
        if wide(ui, &view.words.say(id, &[]), view.offers.contains(&intent)) {
            wishes.extend([Wish::CloseOver, Wish::Do(intent)]);
        }
    }
}

/// A report ends the attempt.
pub(super) fn report(view: &DrillView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    told(view, ui, "over-report-text");
    let offered = view.offers.contains(&Intent::Report);
    if wide(ui, &view.words.say("over-report-no", &[]), true) {
        wishes.push(Wish::CloseOver);
    }
    if wide(ui, &view.words.say("intent-report", &[]), offered) {
        wishes.extend([Wish::CloseOver, Wish::Do(Intent::Report)]);
    }
}
