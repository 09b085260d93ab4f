//! The product page: choosing, editing, saving and loading stand apart, for they are different
//! things. Below them task and mode.

use egui::{Id, TextEdit, Ui, Vec2};
use rackproof_buffer::{Button, Command, Mode};
use rackproof_drill::{
    Intent, Page,
    message::{of_command, of_mode, of_saved, product_name},
};
use rackproof_model::Micrometres;
use rackproof_words::Arg;

use super::{Operator, pages};
use crate::Wish;
use crate::tokens;
use crate::widgets::ButtonLook;

type Press<'p> = dyn FnMut(&mut Ui, &str, Button) + 'p;

pub(super) fn page(operator: Operator<'_, '_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    let (view, shown) = (operator.view, operator.shown);
    let mut press = |ui: &mut Ui, label: &str, button| {
        let act = Intent::Press(button);
        pages::button(operator, ui, (label, None, ButtonLook::Panel), act, wishes);
    };
    pages::head(ui, &operator.say("operator-product-and-task"));
    let chosen = product_name(view.world, shown.chosen);
    let named = |product: String| [("product", Arg::from(product))];
    let text = operator.say_with("operator-chosen-now", &named(chosen.clone()));
    pages::paragraph(ui, &text);
    for number in others(operator) {
        let name = named(product_name(view.world, number));
        let label = operator.say_with("operator-choose-product", &name);
        press(ui, &label, Button::Choose(number));
    }
    if view.world.opens(Page::Edit) {
        edit(operator, ui, &mut press);
    }
    let label = operator.say_with("operator-load-product", &named(chosen));
    press(ui, &label, Button::Load);
    pages::rule(ui);
    modes(operator, ui, &mut press);
    press(ui, &operator.say("operator-clear-out"), Button::ClearOut);
    if view.world.opens(Page::Orders) {
        orders(operator, ui, &mut press);
    }
}

/// The products that are not chosen.
fn others(operator: Operator<'_, '_>) -> impl Iterator<Item = u8> {
    let chosen = operator.shown.chosen;
    let products = (0_u8..).zip(&operator.view.world.hall().product_names);
    let numbers: Vec<u8> = products.map(|(number, _)| number).collect();
    numbers.into_iter().filter(move |number| *number != chosen)
}

/// Typing a width, and saving it: under the product's own number, or over another's.
fn edit(operator: Operator<'_, '_>, ui: &mut Ui, press: &mut Press<'_>) {
    let shown = operator.shown;
    pages::rule(ui);
    let length = |width: Micrometres| Arg::Micrometres(width.0);
    let stored = shown.widths[usize::from(shown.chosen)];
    let saved = operator.message(&of_saved(shown.service.saved[usize::from(shown.chosen)]));
    let arguments = [("width", length(stored)), ("saved", saved.into())];
    pages::paragraph(ui, &operator.say_with("operator-stored", &arguments));
    let loaded = product_name(operator.view.world, shown.loaded);
    let arguments = [
        ("product", loaded.into()),
        ("width", length(shown.loaded_width)),
    ];
    let loaded = if shown.stored_otherwise {
        "operator-loaded-otherwise"
    } else {
        "operator-loaded-width"
    };
    pages::paragraph(ui, &operator.say_with(loaded, &arguments));
    let edited = shown.edited.map_or_else(
        || operator.say("operator-nothing-edited"),
        |width| operator.say_with("operator-edited", &[("width", length(width))]),
    );
    pages::paragraph(ui, &edited);
    let typed = typed(operator, ui);
    let label = operator.say("operator-type-width");
    let button = Button::EditWidth(typed.unwrap_or_default());
    ui.add_enabled_ui(typed.is_some(), |ui| press(ui, &label, button));
    press(ui, &operator.say("operator-save"), Button::Save);
    for number in others(operator) {
        let name = product_name(operator.view.world, number);
        let label = operator.say_with("operator-save-over", &[("product", name.into())]);
        press(ui, &label, Button::SaveOver(number));
    }
    pages::rule(ui);
}

/// The field for a width in millimetres. `None` while no number stands in it.
fn typed(operator: Operator<'_, '_>, ui: &mut Ui) -> Option<Micrometres> {
    let key = Id::new("operator").with("typed width");
    let mut text: String = ui.data_mut(|data| data.get_temp(key).unwrap_or_default());
    let name = operator.say("operator-width-field");
    let size = Vec2::new(ui.available_width(), tokens::OPERATOR_HEIGHT);
    let field = TextEdit::singleline(&mut text)
        .hint_text(&name)
        .char_limit(9);
    let response = ui.add_sized(size, field);
    ui.ctx()
        .accesskit_node_builder(response.id, |node| node.set_label(name.as_str()));
    let width = millimetres(text.trim());
    if width.is_none() && !text.is_empty() {
        pages::paragraph(ui, &operator.say("operator-width-unread"));
    }
    ui.data_mut(|data| data.insert_temp(key, text));
    ui.add_space(tokens::SPACE);
    width
}

/// Millimetres with at most three decimals behind a point. Far more than any machine takes can be
/// typed: its refusal teaches more than a field that does not let a figure in.
fn millimetres(text: &str) -> Option<Micrometres> {
    let (whole, part) = text.split_once('.').unwrap_or((text, "0"));
    let digits = |text: &str, most: usize| {
        (1..=most).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit())
    };
    if !digits(whole, 4) || !digits(part, 3) {
        return None;
    }
    format!("{whole}{part:0<3}").parse().ok().map(Micrometres)
}

/// The modes that it is not in.
fn modes(operator: Operator<'_, '_>, ui: &mut Ui, press: &mut Press<'_>) {
    let world = operator.view.world;
    let manual = world.machine().parts().service.manual_mode && world.opens(Page::Orders);
    for mode in [Mode::Production, Mode::Changeover, Mode::Manual] {
        if mode == operator.shown.mode || (mode == Mode::Manual && !manual) {
            continue;
        }
        let words = operator.message(&of_mode(mode));
        let label = operator.say_with("operator-to-mode", &[("mode", words.into())]);
        press(ui, &label, Button::Mode(mode));
    }
}

/// Commands of the standard that have no button of their own.
fn orders(operator: Operator<'_, '_>, ui: &mut Ui, press: &mut Press<'_>) {
    pages::rule(ui);
    for command in [
        Command::Hold,
        Command::Suspend,
        Command::Unsuspend,
        Command::Complete,
        Command::Abort,
    ] {
        let label = operator.message(&of_command(command));
        press(ui, &label, Button::Order(command));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_width_is_read_as_millimetres_with_a_point() {
        let cases = [
            ("160", Some(160_000)),
            ("160.5", Some(160_500)),
            ("0.001", Some(1)),
            ("1600", Some(1_600_000)),
            ("160,5", None),
            ("160.", None),
            ("", None),
            ("-5", None),
            ("16000", None),
            ("1.2345", None),
        ];
        for (text, width) in cases {
            assert_eq!(millimetres(text).map(|width| width.0), width, "{text}");
        }
    }
}
