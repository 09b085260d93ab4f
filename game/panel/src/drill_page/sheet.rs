//! The tick sheet: two boxes a slot, marks made by hand. The program neither fills nor reads it.

use egui::accesskit::Role;
use egui::{Align2, Rect, Sense, Stroke, StrokeKind, Ui, Vec2, pos2, vec2};
use rackproof_buffer::{Half, HalfSlot};
use rackproof_drill::message::of_place;
use rackproof_phrases::text;

use crate::keys::{self, Does, Group};
use crate::marks::tick_box;
use crate::tokens::{self, Step, Weight};
use crate::widgets::{Pressable, key_cap_size, paint_key_cap, press_area};
use crate::{DrillView, Wish, fonts};

/// Heights of what stands over and under the rows.
const HEAD: f32 = 50.0;
const FOOT: f32 = 44.0;
/// The least height of a row: a rack of 40 slots has its place then.
const LEAST: f32 = 10.0;
/// The most: a box is then high enough to be hit by anybody.
const MOST: f32 = 24.0;

/// Where the rows of a sheet stand.
pub(super) struct Rows {
    pub(super) all: Rect,
    pub(super) pitch: f32,
}

impl Rows {
    /// A sheet of so many slots at the top of the room, its rows as high as there is room.
    pub(super) fn of(room: Rect, slots: u8, around: f32, [least, most]: [f32; 2]) -> Rows {
        let slots = f32::from(slots);
        let pitch = ((room.height() - around) / slots)
            .floor()
            .clamp(least, most);
        let size = vec2(room.width(), slots * pitch + around);
        Rows {
            all: Rect::from_min_size(room.min, size),
            pitch,
        }
    }
}

/// The halves of a slot in words: `slot 7, infeed half`.
pub(crate) fn name_of(view: &DrillView<'_>, at: HalfSlot) -> String {
    let name = text(view.words, &of_place(rackproof_buffer::Place::Slot(at)));
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().collect::<String>() + letters.as_str()
    })
}

pub(super) fn show(view: &DrillView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    let slots = view.world.machine().slots();
    let rows = Rows::of(ui.max_rect(), slots, HEAD + FOOT, [LEAST, MOST]);
    let rect = rows.all;
    // What lies under the sheet is not pressed through it.
    ui.interact(rect, ui.id().with("ground"), Sense::CLICK | Sense::DRAG);
    let painter = ui.painter().clone();
    let edge = Stroke::new(tokens::EDGE_WIDTH, tokens::INK);
    painter.rect(rect, 0, tokens::PAPER, edge, StrokeKind::Inside);
    let name = view.words.say("sheet-title", &[]);
    ui.ctx().accesskit_node_builder(ui.unique_id(), |node| {
        node.set_role(Role::Group);
        node.set_label(name.as_str());
    });
    let at = rect.min + vec2(10.0, 10.0);
    let font = fonts::text(Step::Small, Weight::Bold);
    painter.text(at, Align2::LEFT_TOP, &name, font, tokens::INK);
    if let Some(cap) = keys::cap_for(Does::Into(Group::Sheet)) {
        let size = key_cap_size(&painter, cap);
        let corner = pos2(rect.right() - 10.0 - size.x, at.y - 2.0);
        paint_key_cap(&painter, corner, cap, tokens::INK, tokens::PAPER);
    }
    heads(view, ui, rect.left(), rect.top() + 41.0);
    for slot in (0..slots).rev() {
        let y = rect.top() + HEAD + f32::from(slots - 1 - slot) * rows.pitch;
        row(view, ui, slot, pos2(rect.left(), y), rows.pitch, wishes);
    }
    foot(view, ui, rect);
}

/// The words over the two columns.
pub(super) fn heads(view: &DrillView<'_>, ui: &Ui, left: f32, middle: f32) {
    for (id, x) in [("sheet-in", 45.0), ("sheet-out", 73.0)] {
        let at = pos2(left + x, middle);
        let font = fonts::text(Step::Least, Weight::SemiBold);
        let said = view.words.say(id, &[]);
        ui.painter()
            .text(at, Align2::CENTER_CENTER, said, font, tokens::INK_2);
    }
}

/// Rows lower than this have not each a number.
const NUMBERED: f32 = 13.0;

/// The number of a slot, at the left of its row: of every fifth where rows are low.
pub(super) fn number(ui: &Ui, slot: u8, corner: egui::Pos2, pitch: f32) {
    if pitch < NUMBERED && slot > 0 && !(slot + 1).is_multiple_of(5) {
        return;
    }
    let at = corner + vec2(27.0, pitch / 2.0);
    let font = fonts::mono(Step::Least, Weight::Bold);
    let number = (u32::from(slot) + 1).to_string();
    ui.painter()
        .text(at, Align2::RIGHT_CENTER, number, font, tokens::INK);
}

fn row(
    view: &DrillView<'_>,
    ui: &Ui,
    slot: u8,
    corner: egui::Pos2,
    pitch: f32,
    wishes: &mut Vec<Wish>,
) {
    number(ui, slot, corner, pitch);
    let marks = view.sheet.marks();
    for (half, x) in [(Half::Infeed, 32.0), (Half::Outfeed, 60.0)] {
        let at = HalfSlot { slot, half };
        let ticked = marks.contains(at);
        let size = Vec2::new(28.0, pitch);
        let place = Rect::from_min_size(corner + vec2(x, 0.0), size);
        tick_box(ui.painter(), place.shrink(1.0), ticked);
        let what = Pressable::Box { ticked };
        let name = name_of(view, at);
        if press_area(ui, place.shrink(1.0), (slot, half as u8), &name, what).clicked()
            && view.over.is_none()
        {
            wishes.push(Wish::Tick(at));
        }
    }
}

fn foot(view: &DrillView<'_>, ui: &Ui, rect: Rect) {
    let said = view.words.say("sheet-foot", &[]);
    let font = fonts::text(Step::Least, Weight::Regular);
    let galley = ui
        .painter()
        .layout(said, font, tokens::INK_2, rect.width() - 20.0);
    let at = pos2(rect.left() + 10.0, rect.bottom() - FOOT + 6.0);
    ui.painter().galley(at, galley, tokens::INK_2);
}
