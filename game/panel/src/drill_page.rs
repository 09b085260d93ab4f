//! The drill: top bar, cards, tick sheet or notes, person bar, operator panel, round the hall.
//!
//! The hall itself is left open: the window draws it there. In an exam nothing here is plum.

mod actions;
pub(crate) mod acts;
mod cards;
mod elsewhere;
mod fit;
pub(crate) mod focus;
mod frame;
mod label;
pub(crate) mod notes;
mod on_me;
mod person;
mod plan;
pub(crate) mod sheet;
mod signs;
mod tasks;
pub(crate) mod top;
pub(crate) mod wanted;
mod watch;

use egui::{Rect, ScrollArea, Sense, Stroke, Ui, UiBuilder, WidgetInfo, WidgetType};

use crate::keys::{self, Asked, Group};
use crate::operator::operator_panel;
use crate::{DrillView, Wish, over, tokens};
use focus::Groups;
use frame::{Frame, LEAST};

/// The parts of the page in the order of Tab.
const TAB_ORDER: [Group; 6] = [
    Group::Top,
    Group::Cards,
    Group::Sheet,
    Group::Hall,
    Group::Panel,
    Group::Person,
];

/// Shows the drill over the whole room of `ui` and asks for what is wished. The answer is the place
/// of the hall, in points: only cards are painted in it.
pub fn drill_page(view: &DrillView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) -> Rect {
    // No gradients: what is cut off is cut off.
    ui.spacing_mut().scroll.fade.strength = 0.0;
    let room = ui.available_rect_before_wrap();
    let size = room.size().max(LEAST);
    over::press_once(ui);
    over::remember(ui, view.over.is_some());
    let asked = keys::read(view, ui, wishes);
    let mut hall = Rect::NOTHING;
    if size == room.size() {
        hall = parts(view, ui, room, asked, wishes);
    } else {
        // Less room than the page needs, as at a large scale: it is scrolled.
        ScrollArea::both()
            .id_salt("drill page")
            .auto_shrink(false)
            .show(ui, |ui| {
                let page = Rect::from_min_size(ui.next_widget_position(), size);
                ui.advance_cursor_after_rect(page);
                hall = parts(view, ui, page, asked, wishes);
            });
    }
    over::show(view, ui, wishes);
    hall.intersect(room)
}

fn parts(
    view: &DrillView<'_>,
    ui: &mut Ui,
    page: Rect,
    asked: Vec<Asked>,
    wishes: &mut Vec<Wish>,
) -> Rect {
    let frame = Frame::of(page);
    grounds(ui, &frame);
    let mut groups = Groups::new(TAB_ORDER, frame.hall);
    groups.show(ui, Group::Top, |ui| {
        top::show(view, &mut part(ui, "top", frame.top), wishes);
    });
    groups.show(ui, Group::Hall, |ui| hall_itself(view, ui, frame.hall));
    let free = frame.hall.with_min_x(frame.cards.right());
    let free = free.with_max_x(frame.sheet.left());
    label::pointed(view, ui, frame.hall, free);
    groups.show(ui, Group::Cards, |ui| {
        cards::show(view, &mut part(ui, "cards", frame.cards), wishes);
    });
    groups.show(ui, Group::Sheet, |ui| {
        let mut place = part(ui, "sheet", frame.sheet);
        if keys::has_sheet(view.way) {
            sheet::show(view, &mut place, wishes);
        } else {
            notes::show(view, &mut place);
        }
    });
    groups.show(ui, Group::Panel, |ui| {
        operator_panel(view, &mut part(ui, "panel", frame.panel), wishes);
    });
    let into = groups.show(ui, Group::Person, |ui| {
        person::show(view, &mut part(ui, "person", frame.person), wishes)
    });
    elsewhere::show(view, ui, &frame, &asked);
    if view.over.is_none() {
        let to = asked.iter().find_map(|asked| match asked {
            Asked::Into(group) => Some(*group),
            _ => None,
        });
        let to = to.or(into);
        // The button of the next step, not whatever comes first: Enter would press that.
        let press = to.filter(|to| *to == Group::Panel);
        let press = press.and_then(|_| wanted::next_press(view));
        if let Some(press) = press {
            let page = wanted::page_of(press).filter(|page| *page != view.page);
            wishes.extend(page.map(Wish::Page));
            wanted::want(ui, press);
        }
        let to = to.filter(|_| press.is_none());
        // While something is done its button is away: it is soon back.
        if view.doing.is_none() {
            groups.mend(ui);
        }
        groups.go(ui, to, wishes);
        focus::reveal(ui);
    } else {
        Groups::stay(ui);
    }
    frame.hall
}

/// A part of the page. Its widgets keep their ids whatever the other parts show.
fn part(ui: &mut Ui, salt: &str, rect: Rect) -> Ui {
    let builder = UiBuilder::new().id(ui.id().with(salt)).max_rect(rect);
    let mut part = ui.new_child(builder);
    part.set_clip_rect(ui.clip_rect());
    part
}

/// All that is not the hall has a ground.
fn grounds(ui: &Ui, frame: &Frame) {
    let painter = ui.painter();
    for part in crate::marks::around(frame.column, frame.panel) {
        painter.rect_filled(part, 0, tokens::HALL);
    }
    painter.rect_filled(frame.top, 0, tokens::SHEET);
    painter.rect_filled(frame.person, 0, tokens::SHEET);
    let line = Stroke::new(tokens::EDGE_WIDTH, tokens::INK);
    painter.hline(frame.top.x_range(), frame.top.bottom(), line);
    painter.hline(frame.person.x_range(), frame.person.top(), line);
    let line = Stroke::new(tokens::RULE_WIDTH, tokens::INK);
    painter.vline(frame.person.right(), frame.person.y_range(), line);
}

/// The hall takes the focus: there the arrows turn the view.
fn hall_itself(view: &DrillView<'_>, ui: &Ui, rect: Rect) {
    let id = ui.id().with("hall");
    let response = ui.interact(rect, id, Sense::focusable_noninteractive());
    let name = view.words.say("window-hall", &[]);
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Image, true, &name));
    if response.has_focus() {
        let stroke = Stroke::new(tokens::RING_WIDTH, tokens::INK);
        let inside = egui::StrokeKind::Inside;
        ui.painter()
            .rect_stroke(rect.shrink(2.0), 2, stroke, inside);
    }
}

#[cfg(test)]
mod actions_tests;
#[cfg(test)]
mod around_tests;
#[cfg(test)]
mod focus_tests;
#[cfg(test)]
pub(crate) mod harness;
#[cfg(test)]
mod page_tests;
#[cfg(test)]
pub(crate) mod sample;
