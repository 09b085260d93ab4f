//! The column of values: product, width, lift, signals, beams. What is not known stands in a
//! dotted box.

use egui::{Align2, Rect, Sense, Stroke, Ui, Vec2, pos2};
use rackproof_drill::message::product_name;
use rackproof_words::Arg;

use super::write::{self, Hand};
use super::{Operator, history};
use crate::marks::{Inks, contact, dotted_rect};
use crate::tokens::{self, Step, Weight};

const HEAD: f32 = 20.0;
const ROW: f32 = 17.0;
const SIGNAL_ROW: f32 = 18.0;
/// Height from which on there is room for the beams, and more between groups.
const ROOMY: f32 = 420.0;
const CONTACT: Vec2 = Vec2::new(34.0, 13.0);
const LABEL: Hand = Hand::new(Step::Small, Weight::Regular, tokens::PANEL_INK);
const VALUE: Hand = Hand::new(Step::Small, Weight::SemiBold, tokens::PANEL_INK);
const FIGURES: Hand = VALUE.in_figures();

/// A value, and how it is known.
enum Value {
    /// Words.
    Words(String),
    /// Figures.
    Figures(String),
    /// Nobody knows.
    NotKnown,
}

pub(super) fn show(operator: Operator<'_, '_>, ui: &mut Ui, height: f32) {
    let roomy = height >= ROOMY;
    let gap = if roomy { 8.0 } else { 2.5 };
    ui.add_space(3.0);
    head(operator, ui, "play-product");
    product(operator, ui);
    ui.add_space(gap);
    head(operator, ui, "play-width");
    width(operator, ui);
    ui.add_space(gap);
    head(operator, ui, "play-lift");
    lift(operator, ui);
    let [ready, available] = operator.shown.signals;
    let [from_upstream, from_downstream] = operator.shown.neighbours;
    for (id, available, ready) in [
        ("play-infeed", from_upstream, ready),
        ("play-outfeed", available, from_downstream),
    ] {
        ui.add_space(gap);
        head(operator, ui, id);
        signal(operator, ui, "operator-board-available", available);
        signal(operator, ui, "operator-machine-ready", ready);
    }
    if roomy {
        ui.add_space(gap);
        head(operator, ui, "operator-beams");
        beams(operator, ui);
    }
}

fn product(operator: Operator<'_, '_>, ui: &mut Ui) {
    let shown = operator.shown;
    let named = |number| Value::Words(product_name(operator.view.world, number));
    row(operator, ui, "operator-loaded", named(shown.loaded));
    if shown.stored_otherwise {
        let width = Arg::Micrometres(shown.loaded_width.0).to_string();
        row(operator, ui, "operator-loaded-with", Value::Figures(width));
        let since = Value::Words(operator.say("operator-saved-otherwise"));
        row(operator, ui, "operator-stored-now", since);
    }
    row(operator, ui, "operator-chosen", named(shown.chosen));
}

fn width(operator: Operator<'_, '_>, ui: &mut Ui) {
    let figures =
        |width: rackproof_model::Micrometres| Value::Figures(Arg::Micrometres(width.0).to_string());
    let counted = operator.shown.width_by_count;
    row(
        operator,
        ui,
        "operator-commanded",
        figures(operator.shown.width_commanded),
    );
    row(
        operator,
        ui,
        "operator-by-step-count",
        counted.map_or(Value::NotKnown, figures),
    );
    let measured = if operator.view.world.machine().parts().service.width_sensor {
        operator.shown.measured.map_or(Value::NotKnown, figures)
    } else {
        Value::Words(operator.say("operator-no-sensor"))
    };
    row(operator, ui, "operator-measured", measured);
}

fn lift(operator: Operator<'_, '_>, ui: &mut Ui) {
    let shown = operator.shown;
    let at = |slot| Value::Figures(operator.slot("operator-lift-slot", slot));
    let words = |id| Value::Words(operator.say(id));
    let [commanded, confirmed] = match shown.lift_slot {
        Some(slot) => [at(slot), at(slot)],
        None if !shown.referenced => [words("operator-none"), Value::NotKnown],
        None if shown.moves => [words("operator-on-its-way"), words("operator-moving")],
        None => [words("operator-none"), words("operator-not-at-a-slot")],
    };
    row(operator, ui, "operator-commanded", commanded);
    row(operator, ui, "operator-confirmed", confirmed);
    let axes = if shown.emergency || shown.hatch_open {
        "operator-no-power"
    } else if shown.moves {
        "operator-moving"
    } else {
        "operator-powered"
    };
    row(operator, ui, "operator-axes", words(axes));
}

fn beams(operator: Operator<'_, '_>, ui: &mut Ui) {
    let none = || Value::Words(operator.say("operator-none-yet"));
    let at = |slot| Value::Figures(operator.slot("operator-lift-slot", slot));
    let swept = match history::sweep(operator) {
        Some((_, Some(slot))) => at(slot),
        Some((_, None)) => Value::Words(operator.say("operator-no-board")),
        None => none(),
    };
    row(operator, ui, "operator-last-sweep", swept);
    let end = history::reached_end(operator.view.heard).map_or_else(none, at);
    row(operator, ui, "operator-last-at-end", end);
}

fn head(operator: Operator<'_, '_>, ui: &mut Ui, id: &str) {
    let ink = Hand::new(Step::Small, Weight::Bold, tokens::PANEL_INK);
    let said = operator.say(id);
    let (rect, _) = ui.allocate_exact_size(Vec2::new(ui.available_width(), HEAD), Sense::hover());
    write::paint_line(
        ui,
        rect.left_center(),
        Align2::LEFT_CENTER,
        &said,
        ink,
        rect.width(),
    );
    write::heading(ui, rect, &said);
}

/// A label with its value at the right, or below it where both do not fit.
fn row(operator: Operator<'_, '_>, ui: &mut Ui, label: &str, value: Value) {
    let label = operator.say(label);
    let (said, hand, inset) = match value {
        Value::Words(said) => (said, VALUE, 0.0),
        Value::Figures(said) => (said, FIGURES, 0.0),
        Value::NotKnown => (operator.say("operator-unknown"), VALUE, 6.0),
    };
    let wide = write::width(ui, &said, hand) + 2.0 * inset;
    let rect = place(ui, &label, wide, ROW);
    let at = pos2(rect.right() - inset, rect.bottom() - ROW / 2.0);
    let written = write::paint_line(ui, at, Align2::RIGHT_CENTER, &said, hand, rect.width());
    if inset > 0.0 {
        let size = Vec2::new(written.width() + 2.0 * inset, ROW - 2.0);
        let frame = Rect::from_center_size(written.center(), size);
        dotted_rect(ui.painter(), frame, Stroke::new(1.2, tokens::PANEL_INK));
    }
    write::name(ui, rect, &format!("{label}: {said}"));
}

/// A signal: its contact, and the word.
fn signal(operator: Operator<'_, '_>, ui: &mut Ui, label: &str, closed: bool) {
    let label = operator.say(label);
    let words = ["signal-open", "signal-closed"].map(|id| operator.say(id));
    let wide = words
        .iter()
        .map(|word| write::width(ui, word, VALUE))
        .fold(0.0, f32::max);
    let said = &words[usize::from(closed)];
    let rect = place(ui, &label, wide + CONTACT.x + 5.0, SIGNAL_ROW);
    let left = rect.right() - wide;
    let y = rect.bottom() - SIGNAL_ROW / 2.0;
    let middle = pos2(left - 5.0 - CONTACT.x / 2.0, y);
    contact(
        ui.painter(),
        Rect::from_center_size(middle, CONTACT),
        closed,
        Inks::PANEL,
    );
    write::paint_line(ui, pos2(left, y), Align2::LEFT_CENTER, said, VALUE, wide);
    write::name(ui, rect, &format!("{label}: {said}"));
}

/// Writes the label and gives the place of the row: of two lines where label and value do not
/// fit side by side. The value stands in the last line.
fn place(ui: &mut Ui, label: &str, value: f32, line: f32) -> Rect {
    let room = ui.available_width();
    let fits = write::width(ui, label, LABEL) + tokens::SPACE + value <= room;
    let height = if fits { line } else { 2.0 * line };
    let (rect, _) = ui.allocate_exact_size(Vec2::new(room, height), Sense::hover());
    let at = pos2(rect.left(), rect.top() + line / 2.0);
    write::paint_line(ui, at, Align2::LEFT_CENTER, label, LABEL, room);
    rect
}
