//! The column right of the slot map: values, or one of the pages.

use egui::{Rect, ScrollArea, Sense, Stroke, Ui, UiBuilder, Vec2};
use rackproof_drill::{Intent, message::slot_ranges};

use super::write::{self, Hand};
use super::{Operator, alarms, declare, product, settings, values};
use crate::drill_page::wanted;
use crate::tokens::{self, Step, Weight};
use crate::widgets::{ButtonLook, key_button};
use crate::{PanelPage, Wish};

/// Between the column's edge and what stands in it.
const SIDE: f32 = 9.0;

pub(super) fn show(operator: Operator<'_, '_>, ui: &mut Ui, rect: Rect, wishes: &mut Vec<Wish>) {
    let page = operator.view.page;
    let inner = rect.shrink2(Vec2::new(SIDE, 1.0));
    let salt = format!("{page:?}");
    // The bar of a page that scrolls stands in the margin.
    let builder = UiBuilder::new().max_rect(rect.with_min_x(inner.left()).shrink2(Vec2::Y));
    ui.scope_builder(builder, |ui| {
        let area = ScrollArea::vertical().id_salt(&salt).auto_shrink(false);
        let area = area.stick_to_bottom(page == PanelPage::Log);
        area.show(ui, |ui| {
            ui.set_max_width(inner.width());
            match page {
                PanelPage::Values => values::show(operator, ui, inner.height()),
                PanelPage::Product => product::page(operator, ui, wishes),
                PanelPage::Alarms => alarms::page(operator, ui, wishes),
                PanelPage::Declare => declare::page(operator, ui, wishes),
                PanelPage::Log => log(operator, ui),
                PanelPage::Settings => settings::page(operator, ui, wishes),
            }
        });
    });
}

/// The head of a page.
pub(super) fn head(ui: &mut Ui, said: &str) {
    let ink = Hand::new(Step::Task, Weight::Bold, tokens::PANEL_INK);
    ui.add_space(3.0);
    let at = ui.next_widget_position();
    let (rect, _) = write::block(ui, at, ui.available_width(), &[(said, ink)]);
    write::heading(ui, rect, said);
    ui.add_space(5.0);
}

/// A paragraph; what stands between two stars is heavier.
pub(super) fn paragraph(ui: &mut Ui, said: &str) {
    let hand = |heavy| {
        let weight = if heavy { Weight::Bold } else { Weight::Regular };
        Hand::new(Step::Small, weight, tokens::PANEL_INK)
    };
    let runs: Vec<(&str, Hand)> = said
        .split('*')
        .enumerate()
        .map(|(index, run)| (run, hand(index % 2 == 1)))
        .collect();
    let at = ui.next_widget_position();
    write::block(ui, at, ui.available_width(), &runs);
    ui.add_space(6.0);
}

pub(super) fn rule(ui: &mut Ui) {
    let size = Vec2::new(ui.available_width(), 9.0);
    let (rect, _) = ui.allocate_exact_size(size, Sense::hover());
    let line = Stroke::new(tokens::RULE_WIDTH, tokens::PANEL_LINE);
    ui.painter().hline(rect.x_range(), rect.top() + 2.0, line);
}

/// A button over the whole width of the column, for what is on offer.
pub(super) fn button(
    operator: Operator<'_, '_>,
    ui: &mut Ui,
    (label, key, look): (&str, Option<&str>, ButtonLook),
    act: Intent,
    wishes: &mut Vec<Wish>,
) {
    let view = operator.view;
    let enabled = view.over.is_none() && view.offers_this(act);
    let size = Vec2::new(ui.available_width(), tokens::OPERATOR_HEIGHT);
    let label = in_lines(ui, label, size.x - 20.0);
    let shown = key_button(ui, &label, key, look, size, enabled);
    wanted::give(ui, act, &shown);
    if shown.clicked() && view.can(act) {
        wishes.push(Wish::Do(act));
    }
    ui.add_space(5.0);
}

/// A label in two lines where it is wider than its button.
fn in_lines(ui: &Ui, label: &str, width: f32) -> String {
    let hand = Hand::new(Step::Text, Weight::Bold, tokens::PANEL_INK);
    if write::width(ui, label, hand) <= width {
        return label.to_owned();
    }
    let half = label.len() / 2;
    let spaces = label.match_indices(' ').map(|(at, _)| at);
    let Some(at) = spaces.min_by_key(|at| at.abs_diff(half)) else {
        return label.to_owned();
    };
    format!("{}\n{}", &label[..at], &label[at + 1..])
}

/// What the shift before said of the slots, as long as it counts.
fn left_before(operator: Operator<'_, '_>, ui: &mut Ui) {
    let said = operator.shown.service.said_before;
    let Some(left) = operator.view.world.drill().start.left.as_ref() else {
        return;
    };
    if said != 0 {
        let slots = slot_ranges(said);
        let arguments = [("badge", left.by.as_str().into()), ("slots", slots.into())];
        paragraph(ui, &operator.say_with("operator-left", &arguments));
    }
}

fn log(operator: Operator<'_, '_>, ui: &mut Ui) {
    head(ui, &operator.say("operator-log"));
    left_before(operator, ui);
    if operator.view.log.is_empty() {
        paragraph(ui, &operator.say("operator-log-empty"));
    }
    for line in operator.view.log {
        // A star in what somebody wrote is a star.
        let ink = Hand::new(Step::Small, Weight::Regular, tokens::PANEL_INK);
        let at = ui.next_widget_position();
        write::block(ui, at, ui.available_width(), &[(line, ink)]);
        ui.add_space(tokens::SPACE);
    }
}
