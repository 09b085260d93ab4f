//! What had the focus last: a button whose words change, or that goes off, leaves its place to
//! another.

use egui::{Id, Rect, Ui};

use crate::keys::Group;

/// What had the focus last, and in which pass the page was shown last.
#[derive(Clone, Copy)]
pub(super) struct Kept {
    pub(super) group: Group,
    pub(super) rect: Rect,
    pass: u64,
}

/// What had the focus last. Where another page was shown since, a new one begins without a focus.
pub(super) fn last(ui: &Ui) -> Option<Kept> {
    let now = ui.ctx().cumulative_pass_nr();
    let kept = ui.data(|data| data.get_temp::<Kept>(slot()));
    kept.filter(|kept| now <= kept.pass + 1)
}

/// This has the focus in this pass.
pub(super) fn keep(ui: &Ui, group: Group, rect: Rect) {
    let pass = ui.ctx().cumulative_pass_nr();
    let kept = Kept { group, rect, pass };
    ui.data_mut(|data| data.insert_temp(slot(), kept));
}

fn slot() -> Id {
    Id::new("focus kept")
}
