//! What I can do here: buttons of equal weight, in as many pages as they need. While something is
//! being done, how much of it is done.

use egui::{Rect, Sense, Stroke, StrokeKind, Ui, WidgetInfo, WidgetType, pos2, vec2};
use rackproof_words::Arg;

use super::acts::{Entry, entries, sentence};
use super::person::section;
use crate::keys::Group;
use crate::tokens::{self, Step, Weight};
use crate::view::Doing;
use crate::widgets::{ButtonLook, KeyButton, key_cap_size, paint_key_cap};
use crate::{DrillView, Way, Wish, fonts};

/// Between two buttons.
const GAP: f32 = 7.0;

/// Shows it. The answer is where the focus goes.
pub(super) fn show(view: &DrillView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) -> Option<Group> {
    let words = view.words;
    begin_anew(view, ui);
    if let Some(doing) = view.doing {
        let title = words.say("person-doing", &[]);
        let rect = section(ui, ui.max_rect(), &title, "");
        progress(view, doing, ui, rect, wishes);
        return None;
    }
    let title = words.say("person-can", &[]);
    let aside = words.say("person-emergency", &[]);
    let whole = ui.max_rect();
    let (title, aside) = if view.way == Way::Watch {
        (words.say("person-watching", &[]), String::new())
    } else {
        (title, aside)
    };
    let rect = section(ui, whole, &title, &aside);
    if !aside.is_empty() {
        key_before(ui, whole, &aside);
    }
    let entries = entries(view);
    let pages = pages(view, ui, &entries, rect.size());
    let next = pages
        .iter()
        .position(|page| page.iter().any(|number| flagged(view, entries[*number])));
    let page = chosen_page(ui, pages.len(), next, view);
    let next_word = words.say("act-next", &[]);
    let mut into = None;
    let shown = pages.get(page)?;
    let mut at = rect.min;
    for number in shown {
        let entry = entries[*number];
        let label = entry.label(view);
        let button = button(view, entry, &label, &next_word);
        let width = width(ui, &button);
        if at.x > rect.left() && at.x + width > rect.right() + 0.5 {
            at = pos2(rect.left(), at.y + tokens::ACTION_HEIGHT + GAP);
        }
        if put(ui, &format!("{entry:?}"), at, width, button) && view.over.is_none() {
            match entry.wish() {
                Some(wish) => wishes.push(wish),
                None => into = Some(Group::Panel),
            }
        }
        at.x += width + GAP;
    }
    if pages.len() > 1 {
        more(view, ui, (at, rect), [page, pages.len()], next);
    }
    into
}

fn flagged(view: &DrillView<'_>, entry: Entry) -> bool {
    view.way == Way::Guided && entry.is_next(view)
}

fn button<'a>(view: &DrillView<'_>, entry: Entry, label: &'a str, next: &'a str) -> KeyButton<'a> {
    KeyButton {
        label,
        key: entry.cap(),
        look: ButtonLook::Plain,
        size: vec2(0.0, tokens::ACTION_HEIGHT),
        enabled: true,
        flag: flagged(view, entry).then_some(next),
    }
}

/// How wide a button is, before it stands anywhere.
fn width(ui: &Ui, button: &KeyButton<'_>) -> f32 {
    let painter = ui.painter();
    let measure = |said: &str, font| {
        let galley = painter.layout_no_wrap(said.to_owned(), font, tokens::INK);
        galley.size().x
    };
    let label = measure(button.label, fonts::text(Step::Text, Weight::SemiBold));
    let key = button.key.map_or(20.0, |key| {
        key_cap_size(painter, key).x + 3.0 * tokens::GAP + 1.0
    });
    let flag = button.flag.map_or(0.0, |flag| flag_width(ui, flag));
    (label + key + flag).ceil()
}

fn flag_width(ui: &Ui, flag: &str) -> f32 {
    let font = fonts::text(Step::Note, Weight::Bold);
    let galley = ui
        .painter()
        .layout_no_wrap(flag.to_owned(), font, tokens::INK);
    galley.size().x + 2.0 * tokens::SPACE + 4.0
}

fn put(ui: &mut Ui, salt: &str, at: egui::Pos2, width: f32, button: KeyButton<'_>) -> bool {
    let place = Rect::from_min_size(at, vec2(width, tokens::ACTION_HEIGHT));
    let id = ui.id().with(salt);
    let mut inner = ui.new_child(egui::UiBuilder::new().id(id).max_rect(place));
    button.show(&mut inner).clicked()
}

/// Which buttons stand on which page: one row or two, with room for the button that turns them.
fn pages(view: &DrillView<'_>, ui: &Ui, entries: &[Entry], room: egui::Vec2) -> Vec<Vec<usize>> {
    let next = view.words.say("act-next", &[]);
    let widths: Vec<f32> = entries
        .iter()
        .map(|entry| width(ui, &button(view, *entry, &entry.label(view), &next)))
        .collect();
    let more = more_width(view, ui);
    let rows = if room.y > 2.0 * tokens::ACTION_HEIGHT {
        2
    } else {
        1
    };
    let whole = fill(&widths, room.x, rows, 0.0);
    if whole.len() <= 1 {
        return whole;
    }
    fill(&widths, room.x, rows, more + GAP)
}

/// Fills pages of so many rows; the last row keeps so much room free.
fn fill(widths: &[f32], room: f32, rows: i32, free: f32) -> Vec<Vec<usize>> {
    let mut pages = vec![Vec::new()];
    let (mut row, mut x) = (0, 0.0);
    for (number, width) in widths.iter().enumerate() {
        let last = |row: i32| row == rows - 1;
        let most = |row: i32| if last(row) { room - free } else { room };
        if x > 0.0 && x + width > most(row) {
            (row, x) = (row + 1, 0.0);
        }
        if row >= rows {
            pages.push(Vec::new());
            row = 0;
        }
        x += width + GAP;
        if let Some(page) = pages.last_mut() {
            page.push(number);
        }
    }
    pages
}

/// A new attempt begins at the first page: its time is before that of the one before, or another
/// page of the window was shown since.
fn begin_anew(view: &DrillView<'_>, ui: &Ui) {
    let id = ui.id().with("shown last");
    let pass = ui.ctx().cumulative_pass_nr();
    let last = ui.data(|data| data.get_temp::<(u64, u64)>(id));
    let goes_on = last.is_some_and(|(then, at)| pass <= then + 1 && at <= view.at);
    ui.data_mut(|data| {
        data.insert_temp(id, (pass, view.at));
        if !goes_on {
            data.remove::<(egui::Id, usize)>(ui.id().with("page"));
        }
    });
}

/// The page that is shown: the one that the person turned to, but what comes next is never hidden
/// when it changes.
fn chosen_page(ui: &Ui, count: usize, next: Option<usize>, view: &DrillView<'_>) -> usize {
    let id = ui.id().with("page");
    // A new place or a new step begins at its own page.
    let step = view.ahead.filter(|_| view.way == Way::Guided);
    let now = (
        view.person.stand,
        view.person.hand_in,
        step.map(|step| step.step.clone()),
    );
    let now = egui::Id::new(format!("{now:?} {next:?}"));
    let known = ui.data(|data| data.get_temp::<(egui::Id, usize)>(id));
    let page = match known {
        Some((then, page)) if then == now => page,
        _ => next.unwrap_or(0),
    };
    let page = page.min(count.saturating_sub(1));
    ui.data_mut(|data| data.insert_temp(id, (now, page)));
    page
}

fn more_width(view: &DrillView<'_>, ui: &Ui) -> f32 {
    let widest = [("page", Arg::Number(8)), ("pages", Arg::Number(8))];
    let label = view.words.say("person-more", &widest);
    let painter = ui.painter();
    let font = fonts::text(Step::Text, Weight::SemiBold);
    let galley = painter.layout_no_wrap(label, font, tokens::INK);
    // In guided mode it carries the flag of what stands on another page.
    let flag = if view.way == Way::Guided {
        flag_width(ui, &view.words.say("act-next", &[]))
    } else {
        0.0
    };
    (galley.size().x + 20.0 + flag).ceil()
}

fn more(
    view: &DrillView<'_>,
    ui: &mut Ui,
    (at, room): (egui::Pos2, Rect),
    [page, pages]: [usize; 2],
    next: Option<usize>,
) {
    let number = |number: usize| Arg::Number(i64::try_from(number).unwrap_or(i64::MAX));
    let arguments = [("page", number(page + 1)), ("pages", number(pages))];
    let label = view.words.say("person-more", &arguments);
    let word = view.words.say("act-next", &[]);
    let hidden = next.is_some_and(|next| next != page);
    let flag = hidden.then_some(word.as_str());
    let button = KeyButton {
        label: &label,
        key: None,
        look: ButtonLook::Plain,
        size: vec2(0.0, tokens::ACTION_HEIGHT),
        enabled: true,
        flag,
    };
    let width = width(ui, &button);
    // Only the last row keeps room for it: behind a full one before that it begins the next.
    let at = if at.x + width > room.right() + 0.5 {
        pos2(room.left(), at.y + tokens::ACTION_HEIGHT + GAP)
    } else {
        at
    };
    if put(ui, "more", at, width, button) {
        let id = ui.id().with("page");
        ui.data_mut(|data| {
            if let Some((then, page)) = data.get_temp::<(egui::Id, usize)>(id) {
                data.insert_temp(id, (then, (page + 1) % pages));
            }
        });
    }
}

/// The key of the emergency stop, before its words.
fn key_before(ui: &Ui, whole: Rect, aside: &str) {
    let painter = ui.painter();
    let font = fonts::text(Step::Note, Weight::Regular);
    let galley = painter.layout_no_wrap(aside.to_owned(), font, tokens::INK);
    let cap = key_cap_size(painter, "F8");
    let right = whole.right() - tokens::MARGIN - galley.size().x - tokens::SPACE;
    let corner = pos2(right - cap.x, whole.top() + 18.0 - cap.y / 2.0);
    paint_key_cap(painter, corner, "F8", tokens::INK, tokens::PAPER);
}

/// What is being done, how much of it is done, and the way out.
fn progress(view: &DrillView<'_>, doing: Doing, ui: &mut Ui, rect: Rect, wishes: &mut Vec<Wish>) {
    let said = sentence(view, doing.intent);
    let font = fonts::text(Step::Text, Weight::SemiBold);
    let painter = ui.painter();
    let at = rect.min;
    painter.text(at, egui::Align2::LEFT_TOP, &said, font, tokens::INK);
    let bar = Rect::from_min_size(at + vec2(0.0, 24.0), vec2(rect.width(), 12.0));
    let part = doing.part.clamp(0.0, 1.0);
    let edge = Stroke::new(tokens::EDGE_WIDTH, tokens::INK);
    painter.rect(bar, 0, tokens::PAPER, edge, StrokeKind::Inside);
    let done = bar.with_max_x(bar.left() + bar.width() * part);
    painter.rect_filled(done, 0, tokens::INK);
    let response = ui.interact(bar, ui.id().with("progress"), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::ProgressIndicator, true, &said));
    ui.ctx().accesskit_node_builder(response.id, |node| {
        node.set_numeric_value(f64::from(part));
        node.set_min_numeric_value(0.0);
        node.set_max_numeric_value(1.0);
    });
    let label = view.words.say("person-break-off", &[]);
    let button = KeyButton {
        label: &label,
        key: Some("Esc"),
        look: ButtonLook::Plain,
        size: vec2(0.0, tokens::ACTION_HEIGHT),
        enabled: true,
        flag: None,
    };
    let width = width(ui, &button);
    let at = pos2(at.x, bar.bottom() + 8.0);
    if put(ui, "break off", at, width, button) && view.over.is_none() {
        wishes.push(Wish::BreakOff);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pages_have_their_rows_and_leave_room_to_turn_them() {
        let widths = [100.0; 5];
        assert_eq!(fill(&widths, 330.0, 2, 0.0), [vec![0, 1, 2, 3, 4]]);
        assert_eq!(fill(&widths, 330.0, 2, 110.0), [vec![0, 1, 2, 3, 4]]);
        assert_eq!(fill(&widths, 220.0, 2, 110.0), [vec![0, 1, 2], vec![3, 4]]);
        assert_eq!(
            fill(&widths, 330.0, 1, 110.0),
            [vec![0, 1], vec![2, 3], vec![4]]
        );
        // One that is wider than a row still stands somewhere.
        assert_eq!(fill(&[500.0, 10.0], 220.0, 2, 110.0), [vec![0, 1]]);
    }
}
