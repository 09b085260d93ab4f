//! The timeline: unit, hands, boards true and believed, findings. A click or a drag shows a moment.

mod boards;
mod found;
mod units;

use egui::{Align2, Color32, Key, Pos2, Rect, Sense, Stroke, Ui, WidgetInfo, WidgetType, pos2};
use rackproof_words::Arg;

use super::{DebriefView, clock};
use crate::tokens::{self, Step, Weight};
use crate::widgets::focus_ring;
use crate::{Wish, fonts, marks};

/// Room for the names of the rows, and at the right end.
const NAMES: f32 = 128.0;
const END: f32 = 18.0;
/// Tops and feet of the rows, from the top of the timeline.
const UNITS: [f32; 2] = [4.0, 28.0];
const HANDS: f32 = 52.0;
const BOARDS: [f32; 2] = [86.0, 146.0];
const FINDINGS: f32 = 169.0;
const CLOCK: f32 = 193.0;
/// Size of a finding's mark.
const MARK: f32 = 22.0;

/// Where a moment stands.
#[derive(Clone, Copy)]
struct Chart {
    rect: Rect,
    end: u64,
    most: u32,
}

impl Chart {
    fn x(&self, at: u64) -> f32 {
        let part = at.min(self.end) as f64 / self.end.max(1) as f64;
        self.rect.left() + self.rect.width() * part as f32
    }

    fn moment(&self, x: f32) -> u64 {
        let part = ((x - self.rect.left()) / self.rect.width()).clamp(0.0, 1.0);
        (f64::from(part) * self.end as f64) as u64
    }

    fn y(&self, offset: f32) -> f32 {
        self.rect.top() + offset
    }

    /// The height at which so many boards stand.
    fn boards(&self, boards: u32) -> f32 {
        let [top, foot] = BOARDS;
        let part = boards.min(self.most) as f32 / self.most.max(1) as f32;
        self.y(foot - (foot - top) * part)
    }

    fn across(&self, from: u64, to: u64, top: f32, foot: f32) -> Rect {
        Rect::from_min_max(pos2(self.x(from), top), pos2(self.x(to), foot))
    }
}

pub(super) fn show(view: &DebriefView<'_>, ui: &mut Ui, room: Rect, wishes: &mut Vec<Wish>) {
    let rect = Rect::from_min_max(
        pos2(room.left() + NAMES, room.top()),
        pos2(room.right() - END, room.bottom()),
    );
    let boards = view.timeline.boards.iter();
    let most = boards
        .map(|span| span.what.truly.max(span.what.believed))
        .max()
        .unwrap_or(0);
    let chart = Chart {
        rect,
        end: view.timeline.end,
        most: most.next_multiple_of(2).max(2),
    };
    scrub(view, ui, &chart, wishes);
    grid(ui, &chart);
    names(view, ui, room, &chart);
    units::units(view, ui, &chart);
    units::hands(view, ui, &chart);
    boards::show(view, ui, &chart);
    marker(view, ui, &chart);
    found::show(view, ui, &chart, wishes);
}

/// The whole timeline under the pointer, and under the focus.
fn scrub(view: &DebriefView<'_>, ui: &Ui, chart: &Chart, wishes: &mut Vec<Wish>) {
    let id = ui.id().with("timeline");
    let response = ui.interact(chart.rect, id, Sense::click_and_drag());
    if (response.dragged() || response.clicked())
        && let Some(pointer) = response.interact_pointer_pos()
    {
        let moment = chart.moment(pointer.x);
        // A button that is held still asks for nothing.
        if moment != view.at {
            wishes.push(Wish::Scrub(moment));
        }
    }
    let name = view.say("debrief-timeline");
    let at = view.at.min(chart.end);
    let seconds = at as f64 / 1e6;
    response.widget_info(|| WidgetInfo::slider(ui.is_enabled(), seconds, &name));
    let told = [
        ("time", Arg::from(clock(at))),
        ("end", Arg::from(clock(chart.end))),
    ];
    let value = view.say_with("debrief-moment", &told);
    ui.ctx().accesskit_node_builder(response.id, |node| {
        node.set_value(value);
        node.set_min_numeric_value(0.0);
        node.set_max_numeric_value(chart.end as f64 / 1e6);
    });
    // Space plays here too: nothing else would come of it.
    if response.has_focus() && ui.input(|input| input.key_pressed(Key::Space)) {
        wishes.push(Wish::Play(!view.plays));
    }
    focus_ring(ui, &response, tokens::CORNER);
}

/// A line and a time for every whole piece of the attempt.
fn grid(ui: &Ui, chart: &Chart) {
    let piece = piece(chart.end);
    let font = fonts::mono(Step::Least, Weight::Regular);
    let hair = Stroke::new(1.0, tokens::HAIR);
    let mut at = 0;
    while at <= chart.end && piece > 0 {
        let x = chart.x(at);
        ui.painter()
            .vline(x, chart.y(0.0)..=chart.y(CLOCK - 8.0), hair);
        let place = pos2(x, chart.y(CLOCK));
        let said = clock(at);
        ui.painter().text(
            place,
            Align2::CENTER_CENTER,
            said,
            font.clone(),
            tokens::INK_2,
        );
        at += piece;
    }
}

/// A round piece of time, so that some seven of them make the whole, in µs.
fn piece(end: u64) -> u64 {
    let seconds = [5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600];
    let fits = |seconds: &&u64| end / (*seconds * 1_000_000) <= 8;
    seconds.iter().find(fits).copied().unwrap_or(7200) * 1_000_000
}

fn names(view: &DebriefView<'_>, ui: &mut Ui, room: Rect, chart: &Chart) {
    let middle = |top: f32, foot: f32| f32::midpoint(top, foot);
    let rows = [
        ("debrief-row-unit", middle(UNITS[0], UNITS[1]), true),
        ("debrief-row-hands", HANDS, true),
        ("debrief-row-boards", BOARDS[0], true),
        ("debrief-row-true", BOARDS[0] + 21.0, false),
        ("debrief-row-believed", BOARDS[0] + 41.0, false),
        ("debrief-row-findings", FINDINGS, true),
    ];
    for (id, y, bold) in rows {
        let indent = if bold { 0.0 } else { 28.0 };
        let (weight, colour) = if bold {
            (Weight::SemiBold, tokens::INK)
        } else {
            (Weight::Regular, tokens::INK_2)
        };
        let place = pos2(room.left() + 14.0 + indent, chart.y(y));
        label(ui, place, &view.say(id), Step::Note, weight, colour);
    }
    let line = |y: f32| {
        let left = room.left() + 14.0;
        [pos2(left, chart.y(y)), pos2(left + 22.0, chart.y(y))]
    };
    let painter = ui.painter();
    painter.line_segment(line(BOARDS[0] + 21.0), Stroke::new(2.5, tokens::INK));
    let pencil = Stroke::new(1.5, tokens::PENCIL);
    marks::dashed_line(painter, &line(BOARDS[0] + 41.0), pencil);
    let font = fonts::mono(Step::Least, Weight::Regular);
    for boards in [0, chart.most / 2, chart.most] {
        let place = pos2(chart.rect.left() - 7.0, chart.boards(boards));
        let said = boards.to_string();
        painter.text(
            place,
            Align2::RIGHT_CENTER,
            said,
            font.clone(),
            tokens::INK_2,
        );
    }
}

/// Text that stands at a place, with its accessible name.
fn label(ui: &mut Ui, left: Pos2, said: &str, step: Step, weight: Weight, colour: Color32) {
    let font = fonts::text(step, weight);
    let galley = ui.painter().layout_no_wrap(said.to_owned(), font, colour);
    let rect = Align2::LEFT_CENTER.anchor_size(left, galley.size());
    let response = ui.interact(rect, ui.id().with(("label", said)), Sense::hover());
    ui.painter().galley(rect.min, galley, colour);
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, said));
}

fn marker(view: &DebriefView<'_>, ui: &Ui, chart: &Chart) {
    let x = chart.x(view.at);
    let stroke = Stroke::new(2.5, tokens::PLUM);
    let painter = ui.painter();
    painter.vline(x, chart.y(0.0)..=chart.y(CLOCK - 9.0), stroke);
    let top = chart.y(-4.0);
    let flag = vec![
        pos2(x - 8.0, top),
        pos2(x + 8.0, top),
        pos2(x + 8.0, top + 8.0),
        pos2(x, top + 14.0),
        pos2(x - 8.0, top + 8.0),
    ];
    let shape = egui::Shape::convex_polygon(flag, tokens::PLUM, Stroke::NONE);
    painter.add(shape);
}
