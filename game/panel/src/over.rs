//! What lies over a page until it is closed: help, parts, settings, pause, and questions.
//!
//! What is behind cannot be reached. The focus goes in, and comes back when it is closed. Esc and
//! the close button close; no question has a default.

mod ask;
mod help;
mod parts;
pub(crate) mod settings;
mod slots;
pub(crate) mod way_on;

use egui::accesskit::Role;
use egui::{
    Event, Frame, Id, Key, Margin, Modal, ScrollArea, Sense, Stroke, Ui, WidgetInfo, WidgetType,
    vec2,
};
use rackproof_words::Words;

use crate::drill_page::focus;
use crate::tokens::{self, Step, Weight};
use crate::widgets::{ButtonLook, focus_ring, key_button};
use crate::{DrillView, Over, Wish, fonts};

/// Shows what lies over the drill page.
pub(crate) fn show(view: &DrillView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    let Some(over) = view.over else {
        return closed(ui);
    };
    let words = view.words;
    let title = words.say(title_id(view, over), &[]);
    let width = match over {
        Over::Help => 1080.0,
        Over::Parts | Over::WayOn => 680.0,
        Over::Slots(_) => 420.0,
        _ => 460.0,
    };
    dialog(ui, words, &title, width, wishes, |ui, wishes| match over {
        Over::Help => help::show(words, ui),
        Over::Parts => parts::show(view, ui, wishes),
        Over::Settings => settings::show(words, view.preferences, ui, wishes),
        Over::Pause => ask::pause(view, ui, wishes),
        Over::Slots(kind) => slots::show(view, kind, ui, wishes),
        Over::Trays => ask::trays(view, ui, wishes),
        Over::Report => ask::report(view, ui, wishes),
        Over::WayOn => way_on::show(view, ui),
        // Rules and ways belong to the debrief, attempts and task sheet to the course.
        Over::Rules | Over::WaysOn | Over::Attempts | Over::Sheet => {}
    });
}

fn title_id(view: &DrillView<'_>, over: Over) -> &'static str {
    use rackproof_drill::IntentKind;
    match over {
        Over::Help => "key-help",
        Over::Parts => "over-parts",
        Over::Settings => "key-settings",
        Over::Pause if view.way == crate::Way::Exam => "over-leave-exam",
        Over::Pause if view.way == crate::Way::Watch => "over-pause-watch",
        Over::Pause => "over-pause",
        Over::Slots(IntentKind::PutIn) => "over-slots-put",
        Over::Slots(_) => "over-slots-take",
        Over::Trays => "over-trays",
        Over::Report => "over-report",
        Over::Rules => "over-rules",
        Over::WayOn => "over-way-on",
        Over::WaysOn => "debrief-ways",
        Over::Attempts => "course-attempts",
        Over::Sheet => "course-sheet",
    }
}

/// How far Page Up and Page Down scroll.
const SCROLL: f32 = 240.0;
/// Between the edge of a dialog and what is in it.
const INSIDE: i8 = 16;
/// What of that the bar of long contents takes at the right, so that it stands beside them.
const BAR: i8 = (tokens::SPACE + tokens::SCROLL_BAR) as i8;

fn before() -> Id {
    Id::new("focus before the dialog")
}

/// What had the focus before the dialog opened, and the title of the dialog that is open.
#[derive(Clone, Default)]
struct Before {
    title: String,
    focused: Option<Id>,
}

/// Remembers what has the focus. To be called before anything of the page is shown: what lies
/// behind a dialog loses the focus.
pub(crate) fn remember(ui: &Ui, opens: bool) {
    let known = ui.data(|data| data.get_temp::<Before>(before())).is_some();
    if opens && !known {
        let title = String::new();
        let focused = ui.memory(|memory| memory.focused());
        ui.data_mut(|data| data.insert_temp(before(), Before { title, focused }));
        // What is struck in this very pass is not for what lies behind.
        if let Some(id) = focused {
            ui.memory_mut(|memory| memory.surrender_focus(id));
        }
    }
}

/// A key that is held on is one press: what it closed does not hand it on to what gets the focus
/// then. To be called before anything of the page is shown.
pub(crate) fn press_once(ui: &Ui) {
    let repeats = |event: &Event| {
        let Event::Key { key, repeat, .. } = event else {
            return false;
        };
        *repeat && matches!(key, Key::Enter | Key::Space)
    };
    ui.input_mut(|input| input.events.retain(|event| !repeats(event)));
}

fn opening() -> Id {
    Id::new("the dialog opens")
}

/// Whether the dialog that is being shown opens in this pass.
fn opens_now(ui: &Ui) -> bool {
    ui.data(|data| data.get_temp(opening())).unwrap_or(false)
}

/// Nothing lies over the page: the focus goes back to where it was.
pub(crate) fn closed(ui: &Ui) {
    let before = ui.data_mut(|data| data.remove_temp::<Before>(before()));
    if let Some(id) = before.and_then(|before| before.focused) {
        focus::give(ui, id);
    }
}

/// Shows a dialog: title, close button, contents. Nothing behind it can be reached.
pub(crate) fn dialog(
    ui: &mut Ui,
    words: &Words,
    title: &str,
    width: f32,
    wishes: &mut Vec<Wish>,
    contents: impl FnOnce(&mut Ui, &mut Vec<Wish>),
) {
    let id = Id::new("dialog");
    let known = ui.data(|data| data.get_temp::<Before>(before()));
    let known = known.unwrap_or_default();
    let opens = known.title != title;
    ui.data_mut(|data| data.insert_temp(opening(), opens));
    if opens {
        let title = title.to_owned();
        let focused = known.focused;
        ui.data_mut(|data| data.insert_temp(before(), Before { title, focused }));
    }
    let room = ui.ctx().content_rect().size();
    let width = width.min(room.x - 40.0);
    let height = (room.y - 170.0).max(120.0);
    let edge = Stroke::new(2.0, tokens::INK);
    let frame = Frame::NONE
        .fill(tokens::SHEET)
        .stroke(edge)
        .inner_margin(Margin {
            right: INSIDE - BAR,
            ..Margin::same(INSIDE)
        });
    let backdrop = tokens::INK.gamma_multiply(0.35);
    let modal = Modal::new(id).frame(frame).backdrop_color(backdrop);
    let shown = modal.show(ui.ctx(), |ui| {
        ui.set_width(width + f32::from(BAR));
        ui.spacing_mut().scroll.fade.strength = 0.0;
        ui.ctx().accesskit_node_builder(ui.unique_id(), |node| {
            node.set_role(Role::Dialog);
            node.set_label(title);
            node.set_modal();
        });
        heading(ui, title, opens);
        ui.add_space(tokens::GAP);
        ScrollArea::vertical()
            .id_salt(("dialog", title))
            .max_height(height)
            // As high from the first picture on: what was shown before it does not count.
            .min_scrolled_height(height)
            .auto_shrink([false, true])
            .show(ui, |ui| {
                ui.set_max_width(width);
                contents(ui, wishes);
                focus::reveal(ui);
                by_keys(ui);
            });
        ui.add_space(tokens::MARGIN);
        let close = words.say("over-close", &[]);
        let size = vec2(0.0, tokens::ACTION_HEIGHT);
        ui.push_id("close", |ui| {
            if key_button(ui, &close, Some("Esc"), ButtonLook::Plain, size, true).clicked() {
                wishes.push(Wish::CloseOver);
            }
        });
        focus::inside(ui, ui.layer_id());
    });
    if shown.backdrop_response.clicked() {
        wishes.push(Wish::CloseOver);
    }
}

/// What is longer than the dialog is scrolled by keys too.
fn by_keys(ui: &Ui) {
    for (key, by) in [(Key::PageDown, -SCROLL), (Key::PageUp, SCROLL)] {
        if ui.input(|input| input.key_pressed(key)) {
            ui.scroll_with_delta(vec2(0.0, by));
        }
    }
}

/// The title takes the focus first: Enter on it does nothing. Where a list is chosen from, its
/// first row takes the focus after it.
pub(crate) fn heading(ui: &mut Ui, title: &str, opens: bool) {
    let font = fonts::text(Step::Section, Weight::Bold);
    let width = ui.available_width();
    let galley = ui
        .painter()
        .layout(title.to_owned(), font, tokens::INK, width);
    let (rect, _) = ui.allocate_exact_size(galley.size(), Sense::hover());
    let id = ui.id().with(("title", title));
    let response = ui.interact(rect, id, Sense::focusable_noninteractive());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, title));
    ui.ctx().accesskit_node_builder(id, |node| {
        node.set_role(Role::Heading);
        node.set_label(title);
        node.clear_value();
    });
    ui.painter().galley(rect.min, galley, tokens::INK);
    if opens {
        focus::give(ui, response.id);
    }
    focus_ring(ui, &response, tokens::CORNER);
}

#[cfg(test)]
mod over_tests;
