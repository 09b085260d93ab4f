//! The slot map as believed: slot 1 at the bottom, in pencil. Nothing of it is seen or true.

use egui::{Align2, Rect, Response, Stroke, StrokeKind, Ui, Vec2, pos2};
use rackproof_buffer::Question;

use super::write::{self, Hand};
use super::{Operator, history};
use crate::marks::{Inks, Pencil, arrowhead, dashed_rect, pencil_slot};
use crate::tokens::{self, Step, Weight};
use crate::widgets::{Pressable, press_area};

/// The least height of the whole map.
pub(super) const LEAST: f32 = 210.0;
/// Height of the head.
const HEAD: f32 = 25.0;
/// Rows that are shown of a rack with more slots.
const ROWS: u8 = 16;
/// Least and greatest height of a row.
const ROW: [f32; 2] = [11.0, 24.0];
/// Width of the strip that shows a whole rack of more slots.
const STRIP: f32 = 10.0;
/// Width of the map at which a slot is drawn 50 wide.
const NARROW: f32 = 198.0;
/// Height that is kept for what the last sweep saw.
const SWEEP: f32 = 44.0;

/// The rows that are shown of a long rack.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Window {
    first: u8,
    lift: Option<u8>,
}

impl Window {
    /// Round the lift, as soon as it stands at another slot than before.
    pub(super) fn follow(before: Option<Window>, lift: Option<u8>, slots: u8) -> Window {
        match (before, lift) {
            (Some(before), Some(lift)) if before.lift == Some(lift) => before,
            (Some(before), None) => before,
            (_, lift) => Window {
                first: Window::round(lift.unwrap_or(0), slots),
                lift,
            },
        }
    }

    fn round(middle: u8, slots: u8) -> u8 {
        middle
            .saturating_sub(ROWS / 2)
            .min(slots.saturating_sub(ROWS))
    }
}

pub(super) fn show(operator: Operator<'_, '_>, ui: &mut Ui, rect: Rect) {
    let slots = operator.view.world.machine().slots();
    let rows = slots.min(ROWS);
    let ink = Hand::new(Step::Small, Weight::Bold, tokens::PANEL_INK);
    let head = operator.say(if operator.shown.referenced {
        "operator-map"
    } else {
        "operator-old-map"
    });
    let at = pos2(rect.left() + 8.0, rect.top() + 15.0);
    let most = rect.width() - 2.0 * 8.0;
    write::runs(ui, at, Align2::LEFT_CENTER, &[(&head, ink)], most);
    let room = rect.height() - HEAD - 4.0;
    let height = (room / f32::from(rows)).floor().clamp(ROW[0], ROW[1]);
    let tall = height * f32::from(rows);
    let top = rect.top() + HEAD;
    let mut place = Rect::from_min_size(pos2(rect.left(), top), Vec2::new(rect.width(), tall));
    let mut first = 0;
    if slots > ROWS {
        let (left, strip) = place.split_left_right_at_x(place.right() - STRIP - 5.0);
        place = left;
        first = overview(operator, ui, strip.with_max_x(strip.left() + STRIP));
    }
    for row in 0..rows {
        let top = place.bottom() - height * f32::from(row + 1);
        let size = Vec2::new(place.width(), height);
        let at = Rect::from_min_size(pos2(place.left(), top), size);
        slot_row(operator, ui, at, first + row);
    }
    if rect.bottom() - place.bottom() >= SWEEP
        && let Some((text, _)) = history::sweep(operator)
    {
        let note = Hand::new(Step::Small, Weight::Regular, tokens::PANEL_INK);
        let at = place.left_bottom() + Vec2::new(8.0, 4.0);
        write::block(ui, at, most, &[(&operator.message(&text), note)]);
    }
}

/// What is believed of a slot: its mark, and the message that says it.
pub(super) fn believed(operator: Operator<'_, '_>, slot: u8) -> (Pencil, &'static str) {
    let map = &operator.shown.map;
    let has = |mask: u64| mask >> slot & 1 == 1;
    let known = operator.shown.referenced;
    let before = operator.shown.service.said_before;
    match () {
        () if has(map.unknown) => (Pencil::Unknown, "operator-unknown"),
        () if has(map.full) && known => (Pencil::Full, "operator-full"),
        () if has(map.full) => (Pencil::Full, "operator-was-full"),
        () if has(before) && has(map.said_empty) => (Pencil::Said, "operator-said-empty-before"),
        () if has(before) && has(map.said_taken) => (Pencil::Said, "operator-said-taken-before"),
        () if has(map.said_empty) => (Pencil::Said, "operator-said-empty"),
        () if has(map.said_taken) => (Pencil::Said, "operator-said-taken"),
        () if known => (Pencil::Empty, "operator-empty"),
        () => (Pencil::Empty, "operator-was-empty"),
    }
}

fn slot_row(operator: Operator<'_, '_>, ui: &mut Ui, row: Rect, slot: u8) {
    let shown = operator.shown;
    let at_belts = shown.lift_slot == Some(slot);
    let asked = match shown.question {
        Some(Question::Answer(asked)) => asked == slot,
        Some(Question::AnswerHalf(at)) => at.slot == slot,
        _ => false,
    };
    let (mark, belief) = believed(operator, slot);
    let inks = if at_belts || asked {
        ui.painter().rect_filled(row, 0, tokens::PANEL_INK);
        let middle = pos2(row.left() + 14.0, row.center().y);
        let pointer = Rect::from_center_size(middle, Vec2::new(10.0, 12.0));
        arrowhead(ui.painter(), pointer, tokens::PAPER);
        Inks::REVERSED
    } else {
        Inks::PANEL
    };
    let number = (u32::from(slot) + 1).to_string();
    let figures = Hand::new(Step::Small, Weight::SemiBold, inks.ink).in_figures();
    let words = Hand::new(Step::Small, Weight::Regular, inks.ink);
    let painter = ui.painter();
    let wide = 50.0 + (row.width() - NARROW).max(0.0) * 0.9;
    let left = row.left() + 47.0;
    let size = Vec2::new(wide, (row.height() * 0.74).round());
    let corner = pos2(left, (row.center().y - size.y / 2.0).round());
    let frame = Rect::from_min_size(corner, size);
    pencil_slot(painter, frame, mark, inks);
    let belief = operator.say(belief);
    let word = if asked {
        operator.say("operator-answer-now")
    } else {
        belief.clone()
    };
    let right = pos2(row.left() + 42.0, row.center().y);
    write::paint_line(
        ui,
        right,
        Align2::RIGHT_CENTER,
        &number,
        figures,
        f32::INFINITY,
    );
    let at = pos2(frame.right() + 4.0, row.center().y);
    let most = row.right() - at.x - 2.0;
    write::paint_line(ui, at, Align2::LEFT_CENTER, &word, words, most);
    let name = operator.say_with(
        if asked {
            "operator-slot-asked"
        } else if at_belts {
            "operator-slot-at-belts"
        } else {
            "operator-slot"
        },
        &[
            ("slot", (i64::from(slot) + 1).into()),
            ("belief", belief.into()),
        ],
    );
    write::name(ui, row, &name);
}

/// The whole rack in a strip, with a frame round the rows that are shown. Pressing it shows
/// others. Gives the lowest slot that is shown.
fn overview(operator: Operator<'_, '_>, ui: &Ui, strip: Rect) -> u8 {
    let slots = operator.view.world.machine().slots();
    let id = ui.id().with("rows");
    let before = ui.data(|data| data.get_temp::<Window>(id));
    let mut window = Window::follow(before, operator.shown.lift_slot, slots);
    let name = operator.say("operator-overview");
    let response = press_area(ui, strip, "overview", &name, Pressable::Button);
    if response.clicked() {
        window.first = pressed(&response, window.first, slots);
    }
    ui.data_mut(|data| data.insert_temp(id, window));
    let painter = ui.painter();
    let unit = strip.height() / f32::from(slots);
    let part = |from: u8, count: u8| {
        let bottom = strip.bottom() - unit * f32::from(from);
        strip
            .with_max_y(bottom)
            .with_min_y(bottom - unit * f32::from(count))
    };
    let pencil = Stroke::new(1.2, tokens::PANEL_PENCIL);
    dashed_rect(painter, strip, pencil);
    for slot in 0..slots {
        let place = part(slot, 1).shrink2(Vec2::new(2.0, 0.5));
        match believed(operator, slot).0 {
            Pencil::Full | Pencil::Tandem => {
                painter.rect_filled(place, 0, tokens::PANEL_PENCIL);
            }
            Pencil::Unknown => {
                painter.circle_filled(place.center(), 1.3, tokens::PANEL_INK);
            }
            Pencil::Empty | Pencil::Said | Pencil::NotUsed => {}
        }
        if operator.shown.lift_slot == Some(slot) {
            painter.hline(
                strip.x_range(),
                place.center().y,
                Stroke::new(2.5, tokens::PANEL_INK),
            );
        }
    }
    let frame = Stroke::new(2.0, tokens::PANEL_INK);
    let shown = part(window.first, ROWS).expand2(Vec2::new(2.0, 0.0));
    painter.rect_stroke(shown, 0, frame, StrokeKind::Inside);
    window.first
}

/// The lowest slot to show after the strip was pressed: round the pointer, or with the keyboard
/// the next rows up, round and round.
fn pressed(response: &Response, first: u8, slots: u8) -> u8 {
    let Some(at) = response.interact_pointer_pos() else {
        let top = slots - ROWS;
        return if first == top {
            0
        } else {
            (first + ROWS).min(top)
        };
    };
    let part = (response.rect.bottom() - at.y) / response.rect.height();
    let middle = (0..slots).find(|slot| f32::from(slot + 1) / f32::from(slots) >= part);
    Window::round(middle.unwrap_or(slots), slots)
}
