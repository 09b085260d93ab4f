//! Over the hall: which moment is shown, and a pressed board across the flow, to scale.

use egui::{Color32, pos2, vec2};
use egui::{Rect, Sense, Shape, Stroke, StrokeKind, Ui, UiBuilder, WidgetInfo, WidgetType};
use rackproof_buffer::{
    Board, Bow, Condition, HalfSlot, HarmKind, Place, Side, State, bow_at_shortening,
};
use rackproof_drill::message::{board_name, of_place};
use rackproof_model::Micrometres;
use rackproof_phrases::{Told, text};
use rackproof_words::Arg;

use super::{DebriefView, clock, length};
use crate::tokens::{self, Step, Weight};
use crate::widgets::say;
use crate::{fonts, marks};

/// Size of the card of the section.
const CARD: egui::Vec2 = vec2(300.0, 148.0);

/// A board pressed between the rails.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Pressed {
    /// Where.
    pub(super) place: Place,
    /// Its kind.
    pub(super) kind: u8,
    /// What has become of it.
    pub(super) condition: Condition,
    /// Width between the rails, in µm.
    pub(super) rails: Micrometres,
    /// The board's own width, in µm.
    pub(super) width: Micrometres,
    /// How it is bowed.
    pub(super) bow: Bow,
}

/// The pressed board to show: that of a chosen harm at its moment, else the first one that is
/// bowed at the moment shown.
pub(super) fn pressed(view: &DebriefView<'_>) -> Option<Pressed> {
    if let Some((at, place, kind)) = chosen_harm(view) {
        let state = view.history.state_at(at).world.machine;
        let condition = boards(&state)
            .into_iter()
            .find(|(lies, board)| *lies == place && board.kind == kind)
            .map_or(Condition::Good, |(_, board)| board.condition);
        return bowed(view, &state, place, Board { kind, condition });
    }
    let state = view.state().world.machine;
    boards(&state)
        .into_iter()
        .filter(|(_, board)| board.condition <= Condition::Overstrained)
        .find_map(|(place, board)| bowed(view, &state, place, board))
}

/// The moment, place and board of the chosen harm, if the rails did it.
fn chosen_harm(view: &DebriefView<'_>) -> Option<(u64, Place, u8)> {
    let finding = view.findings.list.get(view.chosen?)?;
    let Told::Harm(told) = &finding.told else {
        return None;
    };
    let by_rails = match told.harm.kind {
        HarmKind::Overstrained => !matches!(told.harm.place, Some(Place::Mouth(_))),
        HarmKind::SprungOut | HarmKind::Broken => true,
        _ => false,
    };
    if !by_rails {
        return None;
    }
    Some((finding.moment?.at, told.harm.place?, told.harm.board?))
}

fn boards(state: &State) -> Vec<(Place, Board)> {
    let slots = state.rack.iter();
    let mut all: Vec<(Place, Board)> = slots
        .map(|(at, board): (HalfSlot, Board)| (Place::Slot(at), board))
        .collect();
    for (mouth, side) in state.mouths.iter().zip([Side::Infeed, Side::Outfeed]) {
        all.extend(mouth.map(|board| (Place::Mouth(side), board)));
    }
    all.extend(
        state
            .infeed_belt
            .map(|board| (Place::Belt(Side::Infeed), board)),
    );
    let outfeed = state.outfeed_belt.iter().flatten();
    all.extend(outfeed.map(|board| (Place::Belt(Side::Outfeed), *board)));
    all
}

fn bowed(view: &DebriefView<'_>, state: &State, place: Place, board: Board) -> Option<Pressed> {
    let machine = view.world().machine();
    let kind = machine.kinds().get(usize::from(board.kind))?;
    let rails = state.width(machine);
    let shortening = kind.width - rails;
    if shortening.0 <= 0 {
        return None;
    }
    Some(Pressed {
        place,
        kind: board.kind,
        condition: board.condition,
        rails,
        width: kind.width,
        bow: bow_at_shortening(kind.width, kind.thickness, shortening)?,
    })
}

pub(super) fn show(view: &DebriefView<'_>, ui: &mut Ui, hall: Rect) {
    let corner = hall.min + vec2(tokens::MARGIN, tokens::MARGIN);
    tag(view, ui, corner);
    let Some(pressed) = pressed(view) else {
        return;
    };
    let below = hall.bottom() - tokens::MARGIN - CARD.y;
    if below < corner.y + 34.0 {
        return;
    }
    let card = Rect::from_min_size(pos2(corner.x, below), CARD);
    let edge = Stroke::new(tokens::RULE_WIDTH, tokens::INK);
    ui.painter()
        .rect(card, 0, tokens::SHEET, edge, StrokeKind::Inside);
    let mut inner = ui.new_child(UiBuilder::new().max_rect(card.shrink2(vec2(10.0, 6.0))));
    inner.spacing_mut().item_spacing.y = 2.0;
    let head = match pressed.place {
        Place::Slot(at) => {
            let slot = Arg::Number(i64::from(at.slot) + 1);
            view.say_with("debrief-section-slot", &[("slot", slot)])
        }
        place => {
            let place = text(view.words, &of_place(place));
            view.say_with("debrief-section", &[("place", Arg::from(place))])
        }
    };
    say(&mut inner, &head, Step::Note, Weight::SemiBold, tokens::INK);
    let name = board_name(view.world(), pressed.kind);
    drawing(&mut inner, &pressed, &name);
    let words = [
        ("board", Arg::from(name)),
        ("rise", length(pressed.bow.rise.0)),
        ("rails", length(pressed.rails.0)),
        ("width", length(pressed.width.0)),
        ("strain", Arg::Number(i64::from(pressed.bow.strain.0))),
        ("limit", Arg::Number(limit(view, pressed.kind))),
    ];
    let id = match pressed.condition {
        Condition::Broken => "debrief-section-broken",
        Condition::SprungOut => "debrief-section-sprung-out",
        _ => "debrief-section-bows",
    };
    let rise = view.say_with(id, &words);
    say(&mut inner, &rise, Step::Note, Weight::Bold, tokens::INK);
    let widths = view.say_with("debrief-section-widths", &words);
    say(
        &mut inner,
        &widths,
        Step::Note,
        Weight::Regular,
        tokens::INK_2,
    );
}

fn limit(view: &DebriefView<'_>, kind: u8) -> i64 {
    let kinds = view.world().machine().kinds();
    let kind = kinds.get(usize::from(kind));
    kind.map_or(0, |kind| i64::from(kind.strain_limit.0))
}

/// "What was true at …".
fn tag(view: &DebriefView<'_>, ui: &mut Ui, corner: egui::Pos2) {
    let time = clock(view.at.min(view.history.end()));
    let said = view.say_with("debrief-what-was-true", &[("time", Arg::from(time))]);
    let font = fonts::text(Step::Note, Weight::SemiBold);
    let galley = ui.painter().layout_no_wrap(said.clone(), font, tokens::INK);
    let size = vec2(galley.size().x + 46.0, 28.0);
    let builder = UiBuilder::new().max_rect(Rect::from_min_size(corner, size));
    let mut tag = ui.new_child(builder.id_salt("tag"));
    let (rect, response) = tag.allocate_exact_size(size, Sense::hover());
    let edge = Stroke::new(tokens::RULE_WIDTH, tokens::INK);
    ui.painter()
        .rect(rect, 0, tokens::PAPER, edge, StrokeKind::Inside);
    let mark = Rect::from_center_size(pos2(rect.left() + 18.0, rect.center().y), vec2(15.0, 11.0));
    marks::ink_half(
        ui.painter(),
        mark,
        marks::SeenHalf::Board,
        marks::Inks::WINDOW,
    );
    let place = pos2(rect.left() + 34.0, rect.center().y - galley.size().y / 2.0);
    ui.painter().galley(place, galley, tokens::INK);
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, said.clone()));
}

/// The board between the rails, seen along the flow. One scale for width and rise.
fn drawing(ui: &mut Ui, pressed: &Pressed, name: &str) {
    let size = vec2(ui.available_width(), 62.0);
    let (rect, _) = ui.allocate_exact_size(size, Sense::hover());
    let painter = ui.painter();
    let scale = (rect.width() - 100.0) / pressed.width.0 as f32;
    let half = pressed.rails.0 as f32 * scale / 2.0;
    let (middle, foot) = (rect.center().x, rect.bottom() - 10.0);
    let ink = Stroke::new(3.0, tokens::INK);
    for side in [-1.0, 1.0] {
        let rail = middle + side * (half + 1.5);
        painter.vline(rail, (rect.top() + 12.0)..=(foot + 4.0), ink);
        let ledge = [pos2(rail, foot + 3.0), pos2(rail - side * 12.0, foot + 3.0)];
        painter.line_segment(ledge, ink);
        // An arrow from outside: this side presses.
        let tip = rail + side * 5.0;
        let tail = pos2(tip + side * 14.0, foot - 14.0);
        let thin = Stroke::new(1.5, tokens::INK);
        painter.line_segment([tail, pos2(tip, foot - 14.0)], thin);
        for up in [-4.0, 4.0] {
            let barb = pos2(tip + side * 5.0, foot - 14.0 + up);
            painter.line_segment([barb, pos2(tip, foot - 14.0)], thin);
        }
    }
    let flat = [pos2(middle - half, foot), pos2(middle + half, foot)];
    marks::dashed_line(painter, &flat, Stroke::new(1.0, tokens::PENCIL));
    let rise = pressed.bow.rise.0 as f32 * scale;
    let bow = |from: f32, to: f32| -> Vec<egui::Pos2> {
        let pieces = 24_u16;
        (0..=pieces)
            .map(|piece| {
                let part = from + (to - from) * f32::from(piece) / f32::from(pieces);
                let height = rise * (std::f32::consts::PI * part).sin();
                pos2(middle - half + 2.0 * half * part, foot - height)
            })
            .collect()
    };
    let stroke = Stroke::new(4.0, board_colour(name));
    if pressed.condition == Condition::Broken {
        painter.add(Shape::line(bow(0.0, 0.485), stroke));
        painter.add(Shape::line(bow(0.515, 1.0), stroke));
    } else {
        painter.add(Shape::line(bow(0.0, 1.0), stroke));
    }
    let font = fonts::mono(Step::Note, Weight::Bold);
    let at = pos2(middle, (foot - rise - 12.0).max(rect.top() + 6.0));
    let said = length(pressed.bow.rise.0).to_string();
    marks::centred_text(painter, at, &said, font, tokens::INK);
}

/// The colour of a board by its name. The name always stands beside it.
fn board_colour(name: &str) -> Color32 {
    match name {
        "Wren" => tokens::BOARD_WREN,
        "Heron" => tokens::BOARD_HERON,
        "Kestrel" => tokens::BOARD_KESTREL,
        "Plover" => tokens::BOARD_PLOVER,
        "Raven" => tokens::BOARD_RAVEN,
        _ => tokens::INK_2,
    }
}
