//! On the timeline: what the unit did, and what the hands did.

use std::collections::BTreeMap;

use egui::{Align2, Color32, Rect, Sense, Stroke, StrokeKind, Ui, WidgetInfo, WidgetType};
use egui::{pos2, vec2};
use rackproof_buffer::UnitState;
use rackproof_drill::message::of_unit;
use rackproof_phrases::text;
use rackproof_words::Arg;

use super::{Chart, HANDS, UNITS, label};
use crate::debrief_page::{DebriefView, UnitThen, clock};
use crate::fonts;
use crate::marks::{self, Inks};
use crate::tokens::{self, Step, Weight};

pub(super) fn units(view: &DebriefView<'_>, ui: &mut Ui, chart: &Chart) {
    let [top, foot] = UNITS.map(|y| chart.y(y));
    for (number, span) in view.timeline.units.iter().enumerate() {
        let rect = chart.across(span.from, span.to, top, foot);
        let said = unit_said(view, span.what);
        let (fill, edge) = unit_colours(span.what);
        let stroke = Stroke::new(1.0, edge);
        ui.painter().rect(rect, 0, fill, stroke, StrokeKind::Middle);
        unit_inside(ui, rect, span.what, &said, edge);
        let arguments = [
            ("unit", Arg::from(said.as_str())),
            ("from", Arg::from(clock(span.from))),
            ("to", Arg::from(clock(span.to))),
        ];
        let name = view.say_with("debrief-unit-span", &arguments);
        let id = ui.id().with(("unit", number));
        let response = ui.interact(rect, id, Sense::hover());
        response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, &name));
        response.on_hover_text(name.as_str());
    }
}

/// The name of the state, or its shape where there is no room for the name.
fn unit_inside(ui: &Ui, rect: Rect, unit: UnitThen, said: &str, colour: Color32) {
    let painter = ui.painter();
    let font = fonts::text(Step::Note, Weight::SemiBold);
    let galley = painter.layout_no_wrap(said.to_owned(), font, colour);
    if galley.size().x + 10.0 <= rect.width() {
        let place = Align2::LEFT_CENTER
            .anchor_size(pos2(rect.left() + 6.0, rect.center().y), galley.size());
        painter.galley(place.min, galley, colour);
    } else if rect.width() >= 20.0 {
        let glyph = Rect::from_center_size(rect.center(), vec2(18.0, 18.0));
        marks::unit_state(painter, glyph, Some(unit.unit), Inks::WINDOW);
    }
}

fn unit_said(view: &DebriefView<'_>, unit: UnitThen) -> String {
    let state = text(view.words, &of_unit(unit.unit));
    if unit.powered {
        return state;
    }
    view.say_with("debrief-unit-off", &[("unit", Arg::from(state))])
}

fn unit_colours(unit: UnitThen) -> (Color32, Color32) {
    match unit {
        UnitThen { powered: false, .. } => (tokens::HAIR, tokens::INK),
        UnitThen {
            unit: UnitState::Aborted | UnitState::Aborting,
            ..
        } => (tokens::RED_TINT, tokens::RED),
        UnitThen {
            unit: UnitState::Held | UnitState::Stopped,
            ..
        } => (tokens::HALL, tokens::INK),
        _ => (tokens::PAPER, tokens::INK),
    }
}

/// A stroke for each doing, a box for a hand inside.
pub(super) fn hands(view: &DebriefView<'_>, ui: &mut Ui, chart: &Chart) {
    let y = chart.y(HANDS);
    let painter = ui.painter().clone();
    let edge = Stroke::new(1.0, tokens::EDGE);
    painter.hline(chart.rect.x_range(), y, edge);
    let stroke = Stroke::new(2.0, tokens::INK);
    for (at, _) in &view.timeline.doings {
        painter.vline(chart.x(*at), (y - 6.0)..=(y + 6.0), stroke);
    }
    let mut notes: BTreeMap<u64, String> = BTreeMap::new();
    for span in &view.timeline.hands_in {
        let rect = chart.across(span.from, span.to, y - 6.0, y + 6.0);
        let ink = Stroke::new(1.5, tokens::INK);
        painter.rect(rect, 0, tokens::PAPER, ink, StrokeKind::Middle);
        notes.insert(span.from, view.say("debrief-hands-in"));
    }
    for at in &view.timeline.declared {
        notes.insert(*at, view.say("debrief-declared"));
    }
    let mut free = f32::MIN;
    for (at, said) in notes {
        let font = fonts::text(Step::Least, Weight::Regular);
        let width = painter.layout_no_wrap(said.clone(), font, tokens::INK_2);
        let width = width.size().x;
        let left = (chart.x(at) - 2.0).min(chart.rect.right() - width);
        if left >= free {
            let place = pos2(left, y + 15.0);
            label(
                ui,
                place,
                &said,
                Step::Least,
                Weight::Regular,
                tokens::INK_2,
            );
            free = left + width + 6.0;
        }
    }
}
