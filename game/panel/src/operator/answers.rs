//! The three answers of a clear-out.

use egui::{Align2, PointerButton, Rect, Stroke, Ui, UiBuilder, Vec2, pos2};
use rackproof_buffer::{Answer, Button};
use rackproof_drill::{Intent, message::of_answer};

use super::Operator;
use super::write::{self, Hand};
use crate::Wish;
use crate::marks;
use crate::tokens::{self, Step, Weight};
use crate::widgets::{Pressable, press_area};

/// The answers of a clear-out, with their keys.
const ANSWERS: [(Answer, &str); 3] = [
    (Answer::Taken, "F5"),
    (Answer::SeenEmpty, "F6"),
    (Answer::NotSure, "F7"),
];

/// Three answers of equal weight. None is chosen before the other, and none comes by Enter or
/// Space: whoever answers points at it, or presses its key.
pub(super) fn show(operator: Operator<'_, '_>, ui: &mut Ui, place: Rect, wishes: &mut Vec<Wish>) {
    const LABEL: Hand = Hand::new(Step::Text, Weight::Bold, tokens::PANEL_INK);
    let words = ANSWERS.map(|(answer, _)| capital(&operator.message(&of_answer(answer))));
    let wide: Vec<f32> = words
        .iter()
        .map(|word| write::width(ui, word, LABEL))
        .collect();
    let gap = 6.0;
    let room = place.width() - 2.0 * gap;
    let spare = (room - wide.iter().sum::<f32>()) / 3.0;
    let mut left = place.left();
    for (((answer, key), word), own) in ANSWERS.into_iter().zip(&words).zip(wide) {
        // As wide as its words, with the same room beside them; where that is too narrow they wrap.
        let width = if spare >= tokens::SPACE {
            own + spare
        } else {
            room / 3.0
        };
        let at = Rect::from_min_size(pos2(left, place.top()), Vec2::new(width, place.height()));
        left += width + gap;
        let act = Intent::Press(Button::Answer(answer));
        let mut builder = UiBuilder::new().id(ui.id().with(key)).max_rect(at);
        if !operator.view.offers.contains(&act) {
            builder = builder.disabled();
        }
        let mut ui = ui.new_child(builder);
        let response = press_area(&ui, at, key, word, Pressable::Button);
        paint_answer(&mut ui, at, word, key, response.hovered());
        ui.ctx()
            .accesskit_node_builder(response.id, |node| node.set_keyboard_shortcut(key));
        if response.clicked_by(PointerButton::Primary) && operator.view.can(act) {
            wishes.push(Wish::Do(act));
        }
    }
}

fn paint_answer(ui: &mut Ui, at: Rect, word: &str, key: &str, hovered: bool) {
    let on = ui.is_enabled();
    let (weight, colour) = if on {
        (Weight::Bold, tokens::PANEL_INK)
    } else {
        (Weight::Regular, tokens::PANEL_INK_2)
    };
    let label = Hand::new(Step::Text, weight, colour);
    let small = Hand::new(Step::Least, Weight::Regular, colour).in_figures();
    let painter = ui.painter();
    if on {
        let edge = if hovered { 2.5 } else { tokens::EDGE_WIDTH };
        let foot = Vec2::new(edge, edge + 2.0);
        painter.rect_filled(at, tokens::PANEL_CORNER, tokens::PANEL_INK);
        let face = Rect::from_min_max(at.min + Vec2::splat(edge), at.max - foot);
        painter.rect_filled(face, tokens::PANEL_CORNER - 1, tokens::PANEL_WELL);
    } else {
        marks::dotted_rect(painter, at, Stroke::new(1.2, tokens::PANEL_INK));
    }
    let middle = at.center().x;
    if write::width(ui, word, label) <= at.width() - 4.0 {
        let y = at.top() + 14.5;
        write::paint_line(
            ui,
            pos2(middle, y),
            Align2::CENTER_CENTER,
            word,
            label,
            at.width(),
        );
    } else {
        let label = Hand::new(Step::Least, weight, colour);
        write::paint_wrapped(
            ui,
            pos2(middle, at.top() + 15.0),
            word,
            label,
            at.width() - 6.0,
        );
    }
    let foot = pos2(middle, at.bottom() - 14.0);
    write::paint_line(ui, foot, Align2::CENTER_CENTER, key, small, at.width());
}

/// The words of an answer as they stand on its button.
fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().collect::<String>() + letters.as_str()
    })
}
