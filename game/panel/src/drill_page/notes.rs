//! Guided: what I have seen, kept by the program. Voided looks stay visible as voided.

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
/// The most height of a row: nothing here is pressed.
const MOST: f32 = 19.0;

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
    let rows = Rows::of(ui.max_rect(), slots, HEAD + FOOT, MOST);
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
    let height = pitch.min(18.0) - 4.0;
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
    let any = looks.empty.union(looks.boards).union(looks.lost);
    let said = match looks.voided {
        Some((at, cause)) if !any.is_empty() => {
            let cause = Arg::from(text(view.words, &of_void(cause)));
            view.words.say(
                "notes-voided",
                &[("time", Arg::Clock(at)), ("cause", cause)],
            )
        }
        _ if any.is_empty() => view.words.say("notes-nothing", &[]),
        _ => view.words.say("notes-hold", &[]),
    };
    let font = fonts::text(Step::Least, Weight::Regular);
    let galley = ui
        .painter()
        .layout(said.clone(), font, tokens::INK_2, rect.width() - 24.0);
    let at = pos2(rect.left() + 14.0, rect.bottom() - FOOT + 6.0);
    let place = Rect::from_min_size(at, galley.size());
    ui.painter().galley(at, galley, tokens::INK_2);
    let response = ui.interact(place, ui.id().with("foot"), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, &said));
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
