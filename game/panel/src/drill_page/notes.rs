//! Guided: what I have seen, kept by the program. Voided looks stay visible as voided.

use egui::accesskit::{Live, Role};
use egui::{Rect, Sense, Shape, Stroke, Ui, WidgetInfo, WidgetType, pos2, vec2};
use rackproof_buffer::{Half, HalfSlot};
use rackproof_drill::message::of_void;
use rackproof_phrases::text;
use rackproof_words::Arg;

use super::sheet::{Rows, heads, number};
use crate::marks::{Inks, SeenHalf, ink_slot};
use crate::tokens::{self, Step, Weight};
use crate::{DrillView, fonts};

const HEAD: f32 = 66.0;
const FOOT: f32 = 84.0;
/// The least and the most height of a row: nothing here is pressed.
const ROW: [f32; 2] = [9.0, 19.0];

/// What was seen of a half.
pub(crate) fn seen(view: &DrillView<'_>, at: HalfSlot) -> SeenHalf {
    let looks = view.looks;
    if looks.boards.contains(at) {
        SeenHalf::Board
    } else if looks.empty.contains(at) {
        SeenHalf::Empty
    } else if looks.lost.contains(at) {
        SeenHalf::Voided
    } else {
        SeenHalf::NotLookedAt
    }
}

pub(crate) fn seen_id(seen: SeenHalf) -> &'static str {
    match seen {
        SeenHalf::NotLookedAt => "seen-not-looked-at",
        SeenHalf::Empty => "seen-empty",
        SeenHalf::Board => "seen-board",
        SeenHalf::Voided => "seen-voided",
    }
}

pub(super) fn show(view: &DrillView<'_>, ui: &mut Ui) {
    let slots = view.world.machine().slots();
    let rows = Rows::of(ui.max_rect(), slots, HEAD + FOOT, ROW);
    let rect = rows.all;
    ui.interact(rect, ui.id().with("ground"), Sense::CLICK | Sense::DRAG);
    card(ui, rect);
    let font = fonts::text(Step::Note, Weight::Bold);
    let painter = ui.painter();
    let title = view.words.say("notes-title", &[]);
    let galley = painter.layout(title, font, tokens::PLUM, rect.width() - 36.0);
    painter.galley(rect.min + vec2(14.0, 8.0), galley, tokens::PLUM);
    heads(view, ui, rect.left() + 6.0, rect.top() + HEAD - 10.0);
    for slot in (0..slots).rev() {
        let y = rect.top() + HEAD + f32::from(slots - 1 - slot) * rows.pitch;
        row(view, ui, slot, pos2(rect.left() + 6.0, y), rows.pitch);
    }
    foot(view, ui, rect);
}

fn row(view: &DrillView<'_>, ui: &Ui, slot: u8, corner: egui::Pos2, pitch: f32) {
    number(ui, slot, corner, pitch);
    let halves = Half::BOTH.map(|half| seen(view, HalfSlot { slot, half }));
    let gap = if pitch < 14.0 { 2.0 } else { 4.0 };
    let height = pitch.min(18.0) - gap;
    let place = Rect::from_min_size(
        corner + vec2(33.0, (pitch - height) / 2.0),
        vec2(54.0, height),
    );
    ink_slot(ui.painter(), place, halves, Inks::WINDOW);
    let words = halves.map(|half| Arg::from(view.words.say(seen_id(half), &[])));
    let [infeed, outfeed] = words;
    let slot_number = ("slot", Arg::Number(i64::from(slot) + 1));
    let said = view.words.say(
        "notes-row",
        &[slot_number, ("infeed", infeed), ("outfeed", outfeed)],
    );
    let response = ui.interact(place, ui.id().with(slot), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, &said));
}

/// What made looks void, or that nothing was looked at yet.
fn foot(view: &DrillView<'_>, ui: &Ui, rect: Rect) {
    let looks = view.looks;
    let counts = looks.empty.union(looks.boards);
    let (said, is_void) = match looks.voided {
        Some((at, cause)) if counts.is_empty() && !looks.lost.is_empty() => {
            let cause = Arg::from(text(view.words, &of_void(cause)));
            let arguments = [("time", Arg::Clock(at)), ("cause", cause)];
            (view.words.say("notes-voided", &arguments), true)
        }
        Some((at, _)) if !looks.lost.is_empty() => {
            let time = [("time", Arg::Clock(at))];
            (view.words.say("notes-partly", &time), false)
        }
        _ if counts.is_empty() => (view.words.say("notes-nothing", &[]), false),
        _ => (view.words.say("notes-hold", &[]), false),
    };
    let (weight, ink) = if is_void {
        (Weight::Bold, tokens::INK)
    } else {
        (Weight::Regular, tokens::INK_2)
    };
    let font = fonts::text(Step::Least, weight);
    let galley = ui
        .painter()
        .layout(said.clone(), font, ink, rect.width() - 24.0);
    let at = pos2(rect.left() + 14.0, rect.bottom() - FOOT + 6.0);
    let place = Rect::from_min_size(at, galley.size());
    ui.painter().galley(at, galley, ink);
    let response = ui.interact(place, ui.id().with("foot"), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, &said));
    if is_void {
        ui.ctx().accesskit_node_builder(response.id, |node| {
            node.set_role(Role::Alert);
            node.set_label(said.as_str());
            node.clear_value();
            node.set_live(Live::Polite);
        });
    }
}

fn card(ui: &Ui, rect: Rect) {
    let fold = tokens::FOLD;
    let cut = pos2(rect.right() - fold, rect.top());
    let below = pos2(rect.right(), rect.top() + fold);
    let corners = [rect.right_bottom(), rect.left_bottom()];
    let outline = [&[rect.left_top(), cut, below][..], &corners].concat();
    let edge = Stroke::new(tokens::EDGE_WIDTH, tokens::PLUM);
    let painter = ui.painter();
    painter.add(Shape::convex_polygon(outline, tokens::SHEET, edge));
    let bar = rect.with_max_x(rect.left() + tokens::BAR_WIDTH);
    painter.rect_filled(bar, 0, tokens::PLUM);
    let folded = vec![cut, below, pos2(cut.x, below.y)];
    painter.add(Shape::convex_polygon(folded, tokens::PLUM, Stroke::NONE));
}
