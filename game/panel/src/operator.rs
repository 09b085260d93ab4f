//! The operator panel: what the machine shows and takes. Grey, white and ink; never plum.
//!
//! Places never move: name, state, slot map beside a column of values or a page, message, alarms,
//! four commands. All of it is belief, from the panel itself and from signs. Keys are the page's;
//! here is what is pressed with the pointer or has the focus.

mod alarms;
mod answers;
mod commands;
mod declare;
mod history;
mod map;
mod message;
mod pages;
mod product;
mod settings;
mod state_row;
mod values;
mod write;

use egui::accesskit::Role;
use egui::{
    Align, Align2, Id, Layout, Rect, ScrollArea, Sense, Ui, UiBuilder, Vec2, WidgetInfo,
    WidgetType, pos2, vec2,
};
use rackproof_drill::{PanelView, message::of_stand};
use rackproof_phrases::text;
use rackproof_words::Arg;

use crate::drill_page::focus;
use crate::tokens::{self, Step, Weight};
use crate::{DrillView, Wish};
use write::Hand;

/// The least size at which everything has its place. In less height all but the commands scrolls.
const LEAST: Vec2 = vec2(432.0, 656.0);
/// In less height than this, or less width than the least, the whole panel scrolls.
const LOW: f32 = 420.0;
/// Between the edge of the bezel and the screen.
const BEZEL: f32 = 10.0;
/// Heights of the rows whose height is always the same.
const NAME: f32 = 28.0;
const STATE: f32 = 64.0;
const ALARMS: f32 = 46.0;
const COMMANDS: f32 = 60.0;
/// Width of the column right of the slot map.
const COLUMN: f32 = 214.0;
/// Between the edge of a row and what stands in it.
const SIDE: f32 = 10.0;

/// What all parts of the lit panel need.
#[derive(Clone, Copy)]
struct Operator<'a, 'v> {
    view: &'a DrillView<'v>,
    shown: &'a PanelView,
}

impl Operator<'_, '_> {
    fn say(&self, id: &str) -> String {
        self.view.words.say(id, &[])
    }

    fn say_with(&self, id: &str, arguments: &[(&str, Arg<'_>)]) -> String {
        self.view.words.say(id, arguments)
    }

    fn message(&self, message: &rackproof_drill::message::Message) -> String {
        text(self.view.words, message)
    }

    fn slot(&self, id: &str, slot: u8) -> String {
        self.say_with(id, &[("slot", Arg::Number(i64::from(slot) + 1))])
    }
}

/// Shows the panel over the whole room of `ui`, and asks for what is pressed on it.
pub fn operator_panel(view: &DrillView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    let room = ui.available_size();
    let size = room.max(vec2(LEAST.x, LOW));
    if size == room {
        let rect = Rect::from_min_size(ui.available_rect_before_wrap().min, size);
        return whole(view, ui, rect, wishes);
    }
    ScrollArea::both().id_salt("operator panel").show(ui, |ui| {
        let rect = Rect::from_min_size(ui.next_widget_position(), size);
        whole(view, ui, rect, wishes);
    });
}

fn whole(view: &DrillView<'_>, ui: &mut Ui, rect: Rect, wishes: &mut Vec<Wish>) {
    ui.advance_cursor_after_rect(rect);
    let painter = ui.painter();
    let screen = rect.shrink(BEZEL);
    painter.rect_filled(screen, 0, tokens::PANEL);
    let bezel = egui::Stroke::new(BEZEL, tokens::BEZEL);
    painter.rect_stroke(rect, tokens::PANEL_CORNER, bezel, egui::StrokeKind::Inside);
    let mut inner = child(ui, "operator panel", rect);
    let name = view.words.say("operator-panel", &[]);
    group(&inner, &name);
    inner.spacing_mut().item_spacing = Vec2::ZERO;
    inner.spacing_mut().scroll.fade.strength = 0.0;
    let (above, foot) = screen.split_top_bottom_at_y(screen.bottom() - COMMANDS);
    match &view.panel {
        Some(shown) if rect.height() >= LEAST.y => {
            lit(Operator { view, shown }, &mut inner, screen, wishes);
        }
        Some(shown) => low(Operator { view, shown }, &mut inner, above, wishes),
        None => dark(view, &mut inner, screen),
    }
    commands::show(view, &mut child(&mut inner, "commands", foot), foot, wishes);
}

/// Where it is low, all above the commands scrolls.
fn low(operator: Operator<'_, '_>, ui: &mut Ui, above: Rect, wishes: &mut Vec<Wish>) {
    let mut place = child(ui, "above", above);
    place.set_clip_rect(above.intersect(ui.clip_rect()));
    let area = ScrollArea::vertical().id_salt("above").auto_shrink(false);
    area.show(&mut place, |ui| {
        let size = vec2(above.width(), LEAST.y - 2.0 * BEZEL);
        let screen = Rect::from_min_size(ui.next_widget_position(), size);
        ui.advance_cursor_after_rect(screen.with_max_y(screen.bottom() - COMMANDS));
        lit(operator, ui, screen, wishes);
        focus::reveal(ui);
    });
}

fn lit(operator: Operator<'_, '_>, ui: &mut Ui, screen: Rect, wishes: &mut Vec<Wish>) {
    let (name, rest) = screen.split_top_bottom_at_y(screen.top() + NAME);
    let (state, rest) = rest.split_top_bottom_at_y(rest.top() + STATE);
    let (rest, _) = rest.split_top_bottom_at_y(rest.bottom() - COMMANDS);
    let (rest, alarms) = rest.split_top_bottom_at_y(rest.bottom() - ALARMS);
    let said = message::said(operator);
    let tall = message::height(ui, &said, screen.width()).min(rest.height() - map::LEAST);
    let (middle, asked) = rest.split_top_bottom_at_y(rest.bottom() - tall);
    let (slots, column) = middle.split_left_right_at_x(middle.right() - COLUMN);

    ui.painter().rect_filled(state, 0, tokens::PANEL_WELL);
    name_row(operator, &mut child(ui, "name", name), name);
    state_row::show(operator, &mut child(ui, "state", state), state);
    map::show(operator, &mut child(ui, "map", slots), slots);
    pages::show(operator, &mut child(ui, "column", column), column, wishes);
    message::show(
        operator,
        &said,
        &mut child(ui, "message", asked),
        asked,
        wishes,
    );
    alarms::row(operator, &mut child(ui, "alarms", alarms), alarms);

    let line = egui::Stroke::new(tokens::RULE_WIDTH, tokens::PANEL_LINE);
    let painter = ui.painter();
    for y in [name.bottom(), state.bottom(), alarms.top(), alarms.bottom()] {
        painter.hline(screen.x_range(), y, line);
    }
    painter.vline(column.left(), middle.y_range(), line);
    message::edge(ui, &said, asked);
}

fn name_row(operator: Operator<'_, '_>, ui: &mut Ui, rect: Rect) {
    let view = operator.view;
    let ink = Hand::new(Step::Small, Weight::Bold, tokens::PANEL_INK);
    let middle = rect.center().y;
    let left = pos2(rect.left() + SIDE, middle);
    let name = machine_name(&view.world.hall().name);
    write::line(ui, left, Align2::LEFT_CENTER, &name, ink);
    let clock = view.told(view.at);
    let right = pos2(rect.right() - SIDE, middle);
    let figures = Hand::new(Step::Small, Weight::Regular, tokens::PANEL_INK).in_figures();
    let clock = write::line(ui, right, Align2::RIGHT_CENTER, &clock, figures);
    let reach = &view.world.hall().panel_reach;
    if reach.contains(&view.person.stand) {
        return;
    }
    let places: Vec<String> = reach
        .iter()
        .map(|stand| operator.message(&of_stand(*stand)))
        .collect();
    let away = operator.say_with("operator-reach", &[("places", places.join(", ").into())]);
    let right = pos2(clock.left() - 2.0 * tokens::GAP, middle);
    let note = Hand::new(Step::Least, Weight::SemiBold, tokens::PANEL_INK);
    write::line(ui, right, Align2::RIGHT_CENTER, &away, note);
}

/// A machine's name as it stands on its panel: `alder-16` is `Alder 16`.
fn machine_name(name: &str) -> String {
    let name = name.replace('-', " ");
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().collect::<String>() + letters.as_str()
    })
}

/// Without power the screen is dark: it shows nothing, and says so to who cannot see that.
fn dark(view: &DrillView<'_>, ui: &mut Ui, screen: Rect) {
    let (glass, _) = screen.split_top_bottom_at_y(screen.bottom() - COMMANDS);
    ui.painter().rect_filled(glass, 0, tokens::PANEL_INK);
    let mut ui = child(ui, "dark", glass);
    let response = ui.allocate_rect(glass, Sense::hover());
    let said = view.words.say("play-panel-dark", &[]);
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, said.as_str()));
    write::live(&ui, response.id, &said);
}

/// A part of the panel. Its widgets keep their ids whatever the other parts show, so that the
/// focus stays where it is.
fn child(ui: &mut Ui, salt: &str, rect: Rect) -> Ui {
    let builder = UiBuilder::new()
        .id(Id::new("operator").with(salt))
        .max_rect(rect)
        .layout(Layout::top_down(Align::Min));
    ui.new_child(builder)
}

fn group(ui: &Ui, name: &str) {
    ui.ctx().accesskit_node_builder(ui.unique_id(), |node| {
        node.set_role(Role::Group);
        node.set_label(name);
    });
}

#[cfg(test)]
#[path = "operator/declare_tests.rs"]
mod declare_tests;
#[cfg(test)]
#[path = "operator/panel_tests.rs"]
mod panel_tests;

#[cfg(test)]
#[path = "operator/service_tests.rs"]
mod service_tests;
#[cfg(test)]
mod site_tests;
#[cfg(test)]
#[path = "operator/stage.rs"]
mod stage;
