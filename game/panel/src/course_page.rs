//! The course: its drills as the slots of a rack, and the chosen one with its four ways.

mod attempts;
mod chosen;
mod frame;
mod keys;
mod rack;
mod task_sheet;

use egui::{Rect, ScrollArea, Ui, Vec2, vec2};
use rackproof_phrases::TaskSheet;
use rackproof_words::{Arg, Words};

use crate::{
    drill_page::focus,
    marks, over,
    tokens::{self, Step, Weight},
    view::Preferences,
    widgets::{key_hint, say},
    wish::{Over, Wish},
};

pub use attempts::{AttemptRow, Ending};
use frame::Frame;

/// What became of a drill so far. Ink is passed in an exam, pencil is practice.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tried {
    /// Practised so many times, guided ones among them.
    pub practised: usize,
    /// Exams passed.
    pub passed: usize,
    /// Exams failed.
    pub failed: usize,
}

/// A drill of the course.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CourseDrill<'v> {
    /// Its name, as its file has it.
    pub name: &'v str,
    /// What became of it so far.
    pub tried: Tried,
}

/// All that the course page shows.
#[derive(Clone, Debug)]
pub struct CourseView<'v> {
    /// What everything is called.
    pub words: &'v Words,
    /// The drills, from the lowest slot up. At least one.
    pub drills: &'v [CourseDrill<'v>],
    /// The chosen drill, by number; what follows is of this one.
    pub drill: usize,
    /// The names of its variants.
    pub variants: &'v [String],
    /// The chosen variant, by number. `None`: any.
    pub variant: Option<usize>,
    /// Time allowed, in µs.
    pub allowed: u64,
    /// The reference time of the chosen variant, in µs, where one is chosen.
    pub reference: Option<u64>,
    /// How the drill stands to its proof, in words; where it closes the exam, how it is renewed.
    pub proof: &'v str,
    /// Whether an exam can be begun: only on a drill that is proved.
    pub exam_open: bool,
    /// Its task sheet, while that lies over the page.
    pub sheet: Option<&'v TaskSheet>,
    /// What was played of it before, newest first: as many as are listed.
    pub attempts: &'v [AttemptRow],
    /// How many there are in all.
    pub attempts_kept: usize,
    /// What went wrong, in words.
    pub trouble: Option<&'v str>,
    /// What lies over the page.
    pub over: Option<Over>,
    /// What the person chose for themselves.
    pub preferences: Preferences,
}

impl CourseView<'_> {
    /// A text of the chosen drill: its name, or what the ending adds.
    fn of_drill(&self, ending: &str) -> String {
        let name = self.drills[self.drill].name;
        self.words.say(&format!("drill-{name}{ending}"), &[])
    }
}

/// The least room in which the page has its place. With less it is scrolled.
const LEAST: Vec2 = vec2(1000.0, 620.0);

/// Shows the course. The rectangle is where a picture of the hall goes.
pub fn course_page(view: &CourseView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) -> Rect {
    ui.spacing_mut().scroll.fade.strength = 0.0;
    over::press_once(ui);
    over::remember(ui, view.over.is_some());
    keys::hear(view, ui, wishes);
    let room = ui.available_rect_before_wrap();
    let size = room.size().max(LEAST);
    let mut picture = Rect::NOTHING;
    if size == room.size() {
        picture = parts(view, ui, room, wishes);
    } else {
        ScrollArea::both()
            .id_salt("course page")
            .auto_shrink(false)
            .show(ui, |ui| {
                let page = Rect::from_min_size(ui.next_widget_position(), size);
                ui.advance_cursor_after_rect(page);
                picture = parts(view, ui, page, wishes);
                focus::reveal(ui);
            });
    }
    if view.over.is_none() {
        focus::inside(ui, ui.layer_id());
    }
    overlay(view, ui, wishes);
    picture.intersect(room)
}

fn parts(view: &CourseView<'_>, ui: &mut Ui, page: Rect, wishes: &mut Vec<Wish>) -> Rect {
    let id = ui.id().with("height of the texts");
    let known = ui.data(|data| data.get_temp::<f32>(id)).unwrap_or(0.0);
    let frame = Frame::of(page, known);
    let painter = ui.painter();
    for around in frame.around_picture() {
        painter.rect_filled(around, 0, tokens::HALL);
    }
    painter.rect_filled(frame.top, 0, tokens::SHEET);
    painter.rect_filled(frame.list, 0, tokens::SHEET);
    let mut asked = Vec::new();
    top_bar(view, ui, frame.top, &mut asked);
    list(view, ui, frame.list);
    rack::rack(view, ui, frame.rack, &mut asked);
    let needed = chosen::chosen(view, ui, &frame, &mut asked);
    if (needed - known).abs() > 0.5 {
        ui.data_mut(|data| data.insert_temp(id, needed));
        ui.ctx().request_discard("the texts need another height");
    }
    // What lies behind a dialog asks for nothing.
    if view.over.is_none() {
        wishes.append(&mut asked);
    }
    frame.picture
}

/// Settings and keys, over the page.
fn overlay(view: &CourseView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    let words = view.words;
    match view.over {
        None => over::closed(ui),
        Some(Over::Settings) => {
            let title = words.say("course-settings", &[]);
            over::dialog(ui, words, &title, 460.0, wishes, |ui, wishes| {
                over::settings::show(words, view.preferences, ui, wishes);
            });
        }
        Some(Over::Sheet) => {
            let title = words.say("course-sheet", &[]);
            over::dialog(ui, words, &title, 860.0, wishes, |ui, _| {
                if let Some(sheet) = view.sheet {
                    task_sheet::show(words, sheet, ui);
                }
            });
        }
        Some(Over::Attempts) => {
            let title = words.say("course-attempts", &[]);
            over::dialog(ui, words, &title, 620.0, wishes, |ui, wishes| {
                attempts::show(view, ui, wishes);
            });
        }
        Some(_) => {
            let title = words.say("course-help", &[]);
            over::dialog(ui, words, &title, 460.0, wishes, |ui, _| {
                keys::help(words, ui)
            });
        }
    }
}

fn top_bar(view: &CourseView<'_>, ui: &mut Ui, rect: Rect, wishes: &mut Vec<Wish>) {
    let painter = ui.painter();
    let logo = Rect::from_center_size(rect.left_center() + vec2(24.0, 0.0), vec2(20.0, 20.0));
    marks::logo(painter, logo, tokens::INK);
    let line = egui::Stroke::new(tokens::RULE_WIDTH, tokens::INK);
    painter.hline(rect.x_range(), rect.bottom() - 0.5, line);
    let words = rect.with_min_x(logo.right() + 16.0);
    frame::row(ui, words, |ui| {
        say(
            ui,
            &view.words.say("window-title", &[]),
            Step::Text,
            Weight::Bold,
            tokens::INK,
        );
    });
    let hints = [
        ("F1", "course-help", Wish::Over(Over::Help)),
        ("F2", "course-attempts", Wish::Over(Over::Attempts)),
        ("F4", "course-settings", Wish::Over(Over::Settings)),
        ("Esc", "course-leave", Wish::Quit),
    ];
    let room = rect.shrink2(vec2(tokens::MARGIN, 0.0));
    frame::row_from_right(ui, room, |ui| {
        ui.spacing_mut().item_spacing.x = 14.0;
        for (key, id, wish) in hints.into_iter().rev() {
            if key_hint(ui, key, &view.words.say(id, &[])).clicked() {
                wishes.push(wish);
            }
        }
    });
}

/// The courses there are.
fn list(view: &CourseView<'_>, ui: &mut Ui, rect: Rect) {
    let line = egui::Stroke::new(tokens::RULE_WIDTH, tokens::INK);
    ui.painter().vline(rect.right() - 0.5, rect.y_range(), line);
    let row = Rect::from_min_size(rect.min + vec2(0.0, 44.0), vec2(rect.width() - 1.0, 60.0));
    ui.painter().rect_filled(row, 0, tokens::PAPER);
    let bar = row.with_max_x(row.left() + tokens::BAR_WIDTH);
    ui.painter().rect_filled(bar, 0, tokens::INK);
    frame::column(ui, rect.shrink2(vec2(14.0, 14.0)), |ui| {
        crate::widgets::head(ui, &view.words.say("course-courses", &[]));
    });
    frame::column(ui, row.shrink2(vec2(16.0, 9.0)), |ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        say(
            ui,
            &view.words.say("course-all", &[]),
            Step::Text,
            Weight::Bold,
            tokens::INK,
        );
        let count = |number: usize| Arg::Number(i64::try_from(number).unwrap_or(i64::MAX));
        let passed = view.drills.iter().filter(|drill| drill.tried.passed > 0);
        let arguments = [
            ("passed", count(passed.count())),
            ("count", count(view.drills.len())),
        ];
        let told = view.words.say("course-passed-of", &arguments);
        say(ui, &told, Step::Small, Weight::Regular, tokens::INK_2);
    });
}

#[cfg(test)]
mod attempts_tests;
#[cfg(test)]
mod course_tests;
#[cfg(test)]
mod room_tests;
