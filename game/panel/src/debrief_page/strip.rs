//! Over the hall: what was true and what was believed, slot by slot.

use egui::{Rect, ScrollArea, Sense, Stroke, StrokeKind, Ui, UiBuilder, WidgetInfo, WidgetType};
use egui::{Vec2, pos2, vec2};
use rackproof_buffer::{Half, HalfSlot, SlotMap};
use rackproof_grade::JudgedState;
use rackproof_words::Arg;

use super::{DebriefView, length};
use crate::fonts;
use crate::marks::{self, Inks, Pencil, SeenHalf};
use crate::tokens::{self, Step, Weight};
use crate::widgets::{Face, RowLook, label_value_row, say};

/// Width of the strip.
const WIDTH: f32 = 190.0;
/// Height of a slot, and the least of it: where the hall is low, all slots are still seen.
const ROW: f32 = 17.0;
const LEAST_ROW: f32 = 12.0;
/// Above and below the slots.
const HEAD: f32 = 26.0;
const WIDTHS: f32 = 46.0;

pub(super) fn show(view: &DebriefView<'_>, ui: &mut Ui, hall: Rect) {
    let state = view.state();
    let slots = view.world().machine().slots();
    let room = hall.height() - 2.0 * tokens::MARGIN;
    let around = HEAD + 4.0 + WIDTHS + tokens::GAP;
    let pitch = ((room - around) / f32::from(slots)).floor();
    let pitch = pitch.clamp(LEAST_ROW, ROW);
    let wanted = around + f32::from(slots) * pitch;
    let corner = pos2(
        hall.right() - tokens::MARGIN - WIDTH,
        hall.top() + tokens::MARGIN,
    );
    let card = Rect::from_min_size(corner, vec2(WIDTH, wanted.min(room)));
    let edge = Stroke::new(tokens::RULE_WIDTH, tokens::INK);
    ui.painter()
        .rect(card, 0, tokens::SHEET, edge, StrokeKind::Inside);
    let inner = card.shrink2(vec2(10.0, 0.0));
    let columns = Columns::of(inner);
    heads(view, ui, inner, &columns);
    let list = Rect::from_min_max(
        pos2(card.left() + 1.0, card.top() + HEAD),
        pos2(card.right() - 1.0, card.bottom() - WIDTHS - tokens::GAP),
    );
    let mut rows = ui.new_child(UiBuilder::new().max_rect(list).id_salt("slots"));
    rows.set_clip_rect(list.intersect(ui.clip_rect()));
    ScrollArea::vertical()
        .id_salt("slots")
        .auto_shrink(false)
        .show(&mut rows, |ui| {
            ui.spacing_mut().item_spacing.y = 0.0;
            for slot in (0..slots).rev() {
                let size = vec2(ui.available_width(), pitch);
                let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
                let name = row(view, ui, rect, &columns, &state, slot);
                let enabled = ui.is_enabled();
                response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, enabled, &name));
            }
        });
    let foot = Rect::from_min_max(pos2(inner.left(), list.bottom()), inner.max);
    widths(view, ui, foot, &state);
}

/// Where the columns begin.
struct Columns {
    truly: f32,
    number: f32,
    believed: f32,
    differs: f32,
}

impl Columns {
    fn of(inner: Rect) -> Columns {
        let left = inner.left();
        Columns {
            truly: left,
            number: left + 71.0,
            believed: left + 88.0,
            differs: left + 147.0,
        }
    }
}

fn heads(view: &DebriefView<'_>, ui: &mut Ui, inner: Rect, columns: &Columns) {
    let heads = [
        (columns.truly, "debrief-true", tokens::INK),
        (columns.believed, "debrief-believed", tokens::INK_2),
    ];
    for (x, id, colour) in heads {
        let place = Rect::from_min_max(pos2(x, inner.top() + 6.0), inner.max);
        let mut head = ui.new_child(UiBuilder::new().max_rect(place).id_salt(id));
        say(
            &mut head,
            &view.say(id),
            Step::Note,
            Weight::SemiBold,
            colour,
        );
    }
}

/// Draws one slot and answers what it shows in words.
fn row(
    view: &DebriefView<'_>,
    ui: &Ui,
    rect: Rect,
    columns: &Columns,
    state: &JudgedState,
    slot: u8,
) -> String {
    let machine = &state.world.machine;
    let truly = Half::BOTH.map(|half| machine.rack.get(HalfSlot { slot, half }).is_some());
    let believed = pencil(&machine.map, slot);
    let full = believed == Pencil::Full;
    let differs = believed != Pencil::Unknown && full != (truly[0] || truly[1]);
    let painter = ui.painter();
    if differs {
        painter.rect_filled(rect.shrink2(vec2(4.0, 0.5)), 0, tokens::YELLOW_TINT);
    }
    let slot_at = |x: f32| {
        Rect::from_center_size(
            pos2(x + 27.0, rect.center().y),
            vec2(54.0, rect.height() - 4.0),
        )
    };
    let halves = truly.map(|board| {
        if board {
            SeenHalf::Board
        } else {
            SeenHalf::Empty
        }
    });
    marks::ink_slot(painter, slot_at(columns.truly), halves, Inks::WINDOW);
    marks::pencil_slot(painter, slot_at(columns.believed), believed, Inks::WINDOW);
    let number = (slot + 1).to_string();
    let step = if rect.height() < ROW {
        Step::Least
    } else {
        Step::Small
    };
    let font = fonts::mono(step, Weight::Regular);
    let middle = pos2(columns.number, rect.center().y);
    marks::centred_text(painter, middle, &number, font, tokens::INK);
    if differs {
        let sign = pos2(columns.differs + 11.0, rect.center().y);
        marks::differs(
            painter,
            Rect::from_center_size(sign, Vec2::splat(rect.height().min(16.0) + 4.0)),
        );
    }
    let word = |board: bool| Arg::from(if board { "board" } else { "empty" });
    view.say_with(
        "debrief-slot",
        &[
            ("slot", Arg::Number(i64::from(slot) + 1)),
            ("infeed", word(truly[0])),
            ("outfeed", word(truly[1])),
            ("believed", Arg::from(believed_word(believed))),
            ("differs", Arg::from(if differs { "yes" } else { "no" })),
        ],
    )
}

fn pencil(map: &SlotMap, slot: u8) -> Pencil {
    let is = |mask: u64| mask >> slot & 1 == 1;
    if is(map.unknown) {
        Pencil::Unknown
    } else if is(map.full) {
        Pencil::Full
    } else if is(map.said_empty | map.said_taken) {
        Pencil::Said
    } else {
        Pencil::Empty
    }
}

fn believed_word(believed: Pencil) -> &'static str {
    match believed {
        Pencil::Unknown => "unknown",
        Pencil::Full | Pencil::Tandem => "full",
        Pencil::Said => "said",
        Pencil::Empty | Pencil::NotUsed => "empty",
    }
}

/// Width true, and by step count.
fn widths(view: &DebriefView<'_>, ui: &mut Ui, rect: Rect, state: &JudgedState) {
    let machine = &state.world.machine;
    let width = machine.width(view.world().machine());
    let (truly, counted) = (length(width.0).to_string(), length(width.0).to_string());
    let mut foot = ui.new_child(UiBuilder::new().max_rect(rect).id_salt("widths"));
    foot.spacing_mut().item_spacing.y = 2.0;
    let hair = Stroke::new(1.0, tokens::HAIR);
    foot.painter().hline(rect.x_range(), rect.top() + 3.0, hair);
    foot.add_space(7.0);
    let look = RowLook {
        height: 19.0,
        ..RowLook::WINDOW
    };
    label_value_row(
        &mut foot,
        &view.say("debrief-width"),
        &truly,
        Face::Figures,
        look,
    );
    let label = view.say("debrief-width-counted");
    if machine.width_known() {
        label_value_row(&mut foot, &label, &counted, Face::Figures, look);
    } else {
        let unknown = view.say("debrief-width-unknown");
        label_value_row(&mut foot, &label, &unknown, Face::NotKnown, look);
    }
}
