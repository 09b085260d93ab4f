//! What the next step asks of the operator panel: on which page its button stands, and how the
//! focus gets to it.

use egui::{Id, Response, Ui};
use rackproof_drill::{Intent, IntentKind as Kind};

use super::focus;
use crate::{DrillView, PanelPage, Way};

/// The page on which the button for this stands. `None`: it has its place on every page.
pub(crate) fn page_of(intent: Intent) -> Option<PanelPage> {
    match intent.kind() {
        Kind::ModeProduction
        | Kind::ModeChangeover
        | Kind::Choose
        | Kind::Load
        | Kind::ClearOut => Some(PanelPage::Product),
        Kind::HoldDeclare | Kind::LetGoDeclare => Some(PanelPage::Declare),
        _ => None,
    }
}

/// The name of such a page, as it stands on it.
pub(super) fn page_name(page: PanelPage) -> &'static str {
    match page {
        PanelPage::Declare => "operator-declare",
        _ => "operator-product-and-task",
    }
}

/// What the next step presses on the panel, if it is pressed there and the way shows it.
pub(super) fn next_press(view: &DrillView<'_>) -> Option<Intent> {
    let intent = view.ahead.filter(|_| view.way == Way::Guided)?.intent?;
    let is_press = matches!(intent, Intent::Press(_)) && view.offers.contains(&intent);
    (is_press && !is_answer(intent)).then_some(intent)
}

/// No answer is given by Enter: none is preselected.
fn is_answer(intent: Intent) -> bool {
    matches!(
        intent.kind(),
        Kind::AnswerTaken | Kind::AnswerSeenEmpty | Kind::AnswerNotSure
    )
}

fn slot() -> Id {
    Id::new("wanted on the panel")
}

/// The button for this gets the focus as soon as it is shown.
pub(super) fn want(ui: &Ui, intent: Intent) {
    let until = ui.ctx().cumulative_pass_nr() + 6;
    ui.data_mut(|data| data.insert_temp(slot(), (intent, until)));
    ui.ctx().request_repaint();
}

/// The button for `intent` is shown: it gets the focus if it is wanted.
pub(crate) fn give(ui: &Ui, intent: Intent, response: &Response) {
    let wanted = ui.data(|data| data.get_temp::<(Intent, u64)>(slot()));
    let now = ui.ctx().cumulative_pass_nr();
    if wanted.is_some_and(|(wanted, until)| wanted == intent && now <= until) {
        ui.data_mut(|data| data.remove::<(Intent, u64)>(slot()));
        focus::give(ui, response.id);
    }
}
