//! On the timeline: boards in the rack, true and believed, and what lies between.

use egui::{Align2, Pos2, Rect, Sense, Stroke, Ui, WidgetInfo, WidgetType, pos2, vec2};
use rackproof_drill::message::slot_ranges;
use rackproof_words::Arg;

use super::{BOARDS, Chart};
use crate::debrief_page::{BoardsThen, DebriefView, Gap, gaps};
use crate::tokens::{self, Step, Weight};
use crate::{fonts, marks};

pub(super) fn show(view: &DebriefView<'_>, ui: &mut Ui, chart: &Chart) {
    let painter = ui.painter().clone();
    let [top, foot] = BOARDS.map(|y| chart.y(y));
    let floor = Stroke::new(1.0, tokens::HAIR);
    painter.hline(chart.rect.x_range(), foot, floor);
    for gap in &view.timeline.gaps {
        paint_gap(view, ui, chart, gap);
    }
    let pencil = Stroke::new(2.0, tokens::PENCIL);
    let spans = &view.timeline.boards;
    for span in spans {
        let [from, to] = [span.from, span.to].map(|at| chart.x(at));
        if span.what.unknown == 0 {
            // A little below, so that belief and truth that agree can both be seen.
            let y = chart.boards(span.what.believed) + 3.0;
            marks::dashed_line(&painter, &[pos2(from, y), pos2(to, y)], pencil);
        }
    }
    for (from, to, slots) in unknown(view) {
        let rect = chart.across(from, to, top, foot);
        marks::dotted_rect(&painter, rect, Stroke::new(1.5, tokens::PENCIL));
        let slots = [("slots", Arg::from(slot_ranges(slots)))];
        let said = view.say_with("debrief-unknown", &slots);
        within(ui, rect.with_max_y(top + 18.0), &said);
    }
    let ink = Stroke::new(2.5, tokens::INK);
    let steps: Vec<Pos2> = spans
        .iter()
        .flat_map(|span| {
            let y = chart.boards(span.what.truly);
            [pos2(chart.x(span.from), y), pos2(chart.x(span.to), y)]
        })
        .collect();
    painter.line(steps, ink);
    for (number, gap) in view.timeline.gaps.iter().enumerate() {
        say_gap(view, ui, chart, gap, number);
    }
    now(view, ui, chart);
}

/// Times in which slots were unknown, joined where only their number changed.
fn unknown(view: &DebriefView<'_>) -> Vec<(u64, u64, u64)> {
    let mut found: Vec<(u64, u64, u64)> = Vec::new();
    for span in view.timeline.boards.iter() {
        let BoardsThen { unknown, .. } = span.what;
        match found.last_mut() {
            _ if unknown == 0 => {}
            Some(last) if last.1 == span.from => {
                last.1 = span.to;
                last.2 |= unknown;
            }
            _ => found.push((span.from, span.to, unknown)),
        }
    }
    found
}

fn paint_gap(view: &DebriefView<'_>, ui: &Ui, chart: &Chart, gap: &Gap) {
    for span in &view.timeline.boards {
        let (from, to) = (span.from.max(gap.from), span.to.min(gap.to));
        let counts = [span.what.truly, span.what.believed].map(|count| chart.boards(count));
        if from >= to {
            continue;
        }
        let (high, low) = (counts[0].min(counts[1]), counts[0].max(counts[1]));
        // Equal numbers in wrong slots are a gap as well.
        let rect = chart.across(from, to, high.min(low - 6.0), low);
        ui.painter().rect_filled(rect, 0, tokens::YELLOW_TINT);
        marks::hatch(ui.painter(), rect, tokens::YELLOW, 1.6, 8.0);
    }
}

/// What a gap is, beside it where there is room, and in full under the pointer.
fn say_gap(view: &DebriefView<'_>, ui: &mut Ui, chart: &Chart, gap: &Gap, number: usize) {
    let [top, foot] = BOARDS.map(|y| chart.y(y));
    let rect = chart.across(gap.from, gap.to, top, foot);
    let said = gaps::short(view, gap);
    let font = fonts::text(Step::Least, Weight::SemiBold);
    let galley = ui.painter().layout_no_wrap(said, font, tokens::INK);
    if galley.size().x + 8.0 <= rect.width() {
        let truly = view
            .timeline
            .boards_at(gap.from)
            .map_or(0, |then| then.truly);
        let y = (chart.boards(truly) - galley.size().y - 2.0).max(top - 18.0);
        let place = pos2(rect.left() + 4.0, y);
        let ground = Rect::from_min_size(place, galley.size()).expand2(vec2(2.0, 0.0));
        ui.painter().rect_filled(ground, 0, tokens::SHEET);
        ui.painter().galley(place, galley, tokens::INK);
    }
    let whole = format!("{}: {}", gaps::times(view, gap), gaps::said(view, gap));
    let response = ui.interact(rect, ui.id().with(("gap", number)), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, &whole));
    response.on_hover_text(whole.as_str());
}

/// The numbers at the moment shown, for who cannot see the lines.
fn now(view: &DebriefView<'_>, ui: &Ui, chart: &Chart) {
    let Some(then) = view.timeline.boards_at(view.at) else {
        return;
    };
    let arguments = [
        ("truly", Arg::Number(i64::from(then.truly))),
        ("believed", Arg::Number(i64::from(then.believed))),
        ("unknown", Arg::Number(i64::from(then.unknown.count_ones()))),
    ];
    let name = view.say_with("debrief-boards-now", &arguments);
    let [top, foot] = BOARDS.map(|y| chart.y(y));
    let x = chart.x(view.at);
    let rect = Rect::from_min_max(pos2(x - 1.0, top), pos2(x + 1.0, foot));
    let response = ui.interact(rect, ui.id().with("boards now"), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, &name));
}

/// Small text in the middle of a box, if it fits.
fn within(ui: &Ui, rect: Rect, said: &str) {
    let font = fonts::text(Step::Least, Weight::Regular);
    let galley = ui
        .painter()
        .layout_no_wrap(said.to_owned(), font, tokens::INK_2);
    if galley.size().x + 8.0 <= rect.width() {
        let place = Align2::CENTER_CENTER.anchor_size(rect.center(), galley.size());
        ui.painter().galley(place.min, galley, tokens::INK_2);
    }
}
