//! The page of machine settings: each as it stands, and what it can be set to. Without the key of a
//! setter, or while the unit does not rest, all can be read, nothing changed, and the page says
//! why.

use egui::Ui;
use rackproof_buffer::{Button, Level, Setting};
use rackproof_drill::{
    Intent, Page,
    message::{of_level, of_setting},
};
use rackproof_model::{Micrometres, Micros};

use super::{Operator, pages};
use crate::Wish;
use crate::widgets::ButtonLook;

/// One of each setting, whatever its value.
const ALL: [Setting; 7] = [
    Setting::SlotCount(0),
    Setting::WidthOffset(Micrometres(0)),
    Setting::SidePlay(Micrometres(0)),
    Setting::Signals(true),
    Setting::Priority(rackproof_buffer::Priority::Filling),
    Setting::WidthCheck(false),
    Setting::ConfirmWithin(Micros(0)),
];

pub(super) fn page(operator: Operator<'_, '_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    let (view, shown) = (operator.view, operator.shown);
    pages::head(ui, &operator.say("operator-settings"));
    let level = operator.message(&of_level(shown.level));
    let text = operator.say_with("operator-level", &[("level", level.into())]);
    pages::paragraph(ui, &text);
    let reason = reason(operator);
    if let Some(id) = reason {
        pages::paragraph(ui, &operator.say(id));
    }
    for setting in ALL {
        pages::rule(ui);
        let now = shown.service.settings.now(setting, shown.chosen);
        pages::paragraph(ui, &capital(&operator.message(&of_setting(now))));
        for act in view.offers.iter().copied() {
            let Intent::Press(Button::Set(other)) = act else {
                continue;
            };
            if std::mem::discriminant(&other) != std::mem::discriminant(&setting) {
                continue;
            }
            let label = capital(&operator.message(&of_setting(other)));
            ui.add_enabled_ui(reason.is_none(), |ui| {
                pages::button(operator, ui, (&label, None, ButtonLook::Panel), act, wishes);
            });
        }
    }
}

/// Why nothing can be changed, if so.
fn reason(operator: Operator<'_, '_>) -> Option<&'static str> {
    let shown = operator.shown;
    match () {
        () if !operator.view.world.opens(Page::Settings) => Some("operator-settings-shut"),
        () if shown.level != Level::Setter => Some("operator-settings-key"),
        () if !shown.unit.lets_mode_change() => Some("operator-settings-rest"),
        () => None,
    }
}

fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().collect::<String>() + letters.as_str()
    })
}
