//! The evidence, line by line in the order of time, then what the slot map did not know, then the
//! steps.

use egui::{Align, Frame, Id, Layout, Margin, Rect, Response, Shape, Stroke, Ui, vec2};
use rackproof_grade::{Moment, Severity};
use rackproof_phrases::StepTold;

use super::told::row_of;
use super::{DebriefView, clock, gaps, outcome, steps};
use crate::marks;
use crate::tokens::{self, Step, Weight};
use crate::widgets::{Pressable, paragraph, press_area, say};
use crate::{Wish, fonts};

/// Where the words of a row begin.
const INDENT: i8 = 53;
/// Room for the moment at the right.
const CLOCK: f32 = 58.0;

/// What stands in front of a row.
#[derive(Clone, Copy)]
pub(super) enum Sign {
    Rule(Severity),
    Harm,
    Differs,
    Trap,
    None,
}

/// One row: head, moment, paragraphs of bold and plain text.
pub(super) struct Row {
    pub(super) sign: Sign,
    pub(super) head: String,
    pub(super) moment: Option<u64>,
    pub(super) paragraphs: Vec<Vec<(String, Weight)>>,
}

pub(super) fn show(view: &DebriefView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    ui.spacing_mut().item_spacing.y = 0.0;
    let mut any = false;
    let moved = newly_chosen(view, ui);
    if let Some(claim) = view.claim {
        Row::plain(claim.to_owned(), Sign::Differs).show(ui, "claim", None);
    }
    for (number, finding) in view.findings.list.iter().enumerate() {
        let chosen = view.chosen == Some(number);
        let Some(row) = row_of(view, finding, chosen) else {
            continue;
        };
        any = true;
        let response = row.show(ui, ("finding", number), Some(chosen));
        if chosen && moved {
            // One that is taller than its room begins at the top.
            let fits = response.rect.height() <= ui.clip_rect().height();
            let align = if fits { Align::Center } else { Align::TOP };
            response.scroll_to_me(Some(align));
        }
        if response.clicked() {
            wishes.extend(steps::go(Some(number)));
        }
    }
    if !any {
        let row = Row::plain(view.say("debrief-no-finding"), Sign::None);
        row.show(ui, "no finding", None);
    }
    show_gaps(view, ui, wishes);
    outcome::show(view, ui, wishes);
    show_steps(view, ui, wishes);
}

/// Whether another finding was chosen since the last pass.
fn newly_chosen(view: &DebriefView<'_>, ui: &Ui) -> bool {
    let id = Id::new("debrief chosen finding");
    let before = ui.data(|data| data.get_temp::<Option<usize>>(id));
    ui.data_mut(|data| data.insert_temp(id, view.chosen));
    before != Some(view.chosen)
}

fn show_gaps(view: &DebriefView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    if view.timeline.gaps.is_empty() {
        return;
    }
    section_head(ui, &view.say("debrief-gaps"));
    for (number, gap) in view.timeline.gaps.iter().enumerate() {
        let row = Row {
            sign: Sign::Differs,
            head: gaps::times(view, gap),
            moment: None,
            paragraphs: vec![vec![(gaps::said(view, gap), Weight::Regular)]],
        };
        let here = gap.from <= view.at && view.at < gap.to && view.chosen.is_none();
        if row.show(ui, ("gap", number), Some(here)).clicked() {
            wishes.push(Wish::Scrub(gap.from));
        }
    }
}

fn show_steps(view: &DebriefView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    let groups = [
        (StepTold::Missing, "head-steps-missing"),
        (StepTold::Moved, "head-steps-moved"),
        (StepTold::Done, "head-steps-done"),
        (StepTold::NotNeeded, "head-steps-not-needed"),
    ];
    for (became, head) in groups {
        if view.findings.steps(became).next().is_none() {
            continue;
        }
        section_head(ui, &view.say(head));
        if became == StepTold::Done {
            // What went right has its reason.
            let right = view.findings.right.iter().enumerate();
            for (number, one) in right {
                let salt = ("right", number);
                let moment = Some(one.moment);
                wishes.extend(step(ui, salt, moment, &one.said, &one.why).map(Wish::Scrub));
            }
            continue;
        }
        for (number, (moment, said)) in view.findings.steps(became).enumerate() {
            let salt = ("step", head, number);
            wishes.extend(step(ui, salt, moment, said, "").map(Wish::Scrub));
        }
    }
    ui.add_space(tokens::MARGIN);
}

pub(super) fn section_head(ui: &mut Ui, said: &str) {
    let margin = Margin {
        left: 20,
        right: 14,
        top: 14,
        bottom: 4,
    };
    Frame::NONE.inner_margin(margin).show(ui, |ui| {
        say(ui, said, Step::Small, Weight::Bold, tokens::INK);
    });
}

/// What was done or is missing, with why below it where there is a reason. The moment to show if it
/// was pressed.
pub(super) fn step(
    ui: &mut Ui,
    salt: impl std::hash::Hash + std::fmt::Debug,
    moment: Option<Moment>,
    said: &str,
    why: &str,
) -> Option<u64> {
    let margin = Margin {
        left: 20,
        right: 14,
        top: 3,
        bottom: 3,
    };
    let frame = Frame::NONE.inner_margin(margin).show(ui, |ui| {
        ui.horizontal_top(|ui| {
            let column = vec2(44.0, Step::Small.line());
            match moment {
                Some(moment) => {
                    let time = clock(moment.at);
                    let ink = tokens::INK_2;
                    let figures = fonts::figures(&time, Step::Small, Weight::Regular, ink);
                    ui.add_sized(column, egui::Label::new(figures));
                }
                None => {
                    ui.allocate_exact_size(column, egui::Sense::hover());
                }
            }
            ui.vertical(|ui| {
                say(ui, said, Step::Small, Weight::Regular, tokens::INK);
                if !why.is_empty() {
                    say(ui, why, Step::Small, Weight::Regular, tokens::INK_2);
                }
            });
        });
    });
    let moment = moment?;
    let name = format!("{} {said}", clock(moment.at));
    let response = press_area(ui, frame.response.rect, salt, &name, Pressable::Button);
    keep_in_view(&response);
    response.clicked().then_some(moment.at)
}

/// What got the focus by the keys is scrolled to.
fn keep_in_view(response: &Response) {
    if response.gained_focus() {
        response.scroll_to_me(None);
    }
}

impl Row {
    pub(super) fn plain(head: String, sign: Sign) -> Row {
        Row {
            sign,
            head,
            moment: None,
            paragraphs: Vec::new(),
        }
    }

    /// Draws the row. `chosen` is `None` if it cannot be chosen.
    fn show(
        &self,
        ui: &mut Ui,
        salt: impl std::hash::Hash + std::fmt::Debug,
        chosen: Option<bool>,
    ) -> Response {
        let ground = ui.painter().add(Shape::Noop);
        let margin = Margin {
            left: INDENT,
            right: 14,
            top: 9,
            bottom: 10,
        };
        let frame = Frame::NONE.inner_margin(margin).show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.spacing_mut().item_spacing = vec2(0.0, 2.0);
            self.head(ui);
            for runs in &self.paragraphs {
                let runs: Vec<(&str, Weight)> = runs
                    .iter()
                    .map(|(said, weight)| (said.as_str(), *weight))
                    .collect();
                paragraph(ui, &runs, Step::Small, tokens::INK_2);
            }
        });
        let rect = frame.response.rect;
        let mark = Rect::from_min_size(rect.min + vec2(20.0, 9.0), vec2(22.0, 22.0));
        self.sign.paint(ui, mark);
        let hair = Stroke::new(1.0, tokens::HAIR);
        ui.painter()
            .hline(rect.x_range(), rect.bottom() - 0.5, hair);
        let Some(chosen) = chosen else {
            return frame.response;
        };
        if chosen {
            let bar = rect.with_max_x(rect.left() + tokens::BAR_WIDTH);
            let shapes = vec![
                Shape::rect_filled(rect, 0, tokens::PAPER),
                Shape::rect_filled(bar, 0, tokens::PLUM),
            ];
            ui.painter().set(ground, Shape::Vec(shapes));
        }
        let name = match self.moment {
            Some(at) => format!("{}, {}", self.head, clock(at)),
            None => self.head.clone(),
        };
        let response = press_area(ui, rect.shrink(1.0), salt, &name, Pressable::Row { chosen });
        keep_in_view(&response);
        response
    }

    fn head(&self, ui: &mut Ui) {
        let width = ui.available_width();
        ui.horizontal_top(|ui| {
            let room = if self.moment.is_some() {
                width - CLOCK
            } else {
                width
            };
            let down = Layout::top_down(Align::Min);
            ui.allocate_ui_with_layout(vec2(room, 0.0), down, |ui| {
                ui.set_width(room);
                say(ui, &self.head, Step::Text, Weight::Bold, tokens::INK);
            });
            if let Some(at) = self.moment {
                ui.with_layout(Layout::right_to_left(Align::Min), |ui| {
                    let time = clock(at);
                    ui.label(fonts::figures(&time, Step::Text, Weight::Bold, tokens::INK));
                });
            }
        });
    }
}

impl Sign {
    fn paint(self, ui: &Ui, rect: Rect) {
        match self {
            Sign::Rule(severity) => marks::finding(ui.painter(), rect, severity),
            Sign::Harm => marks::harm(ui.painter(), rect),
            Sign::Differs => marks::differs(ui.painter(), rect),
            Sign::Trap => trap_sign(ui.painter(), rect),
            Sign::None => marks::in_order(ui.painter(), rect, marks::Inks::WINDOW),
        }
    }
}

/// A trap of the drill: a small card of the teaching layer.
pub(super) fn trap_sign(painter: &egui::Painter, rect: Rect) {
    let card = rect.shrink(3.0);
    let plum = Stroke::new(2.0, tokens::PLUM);
    let inside = egui::StrokeKind::Inside;
    painter.rect(card, 0, tokens::PAPER, plum, inside);
    let fold = card.width() * 0.45;
    let points = vec![
        card.right_top() - vec2(fold, 0.0),
        card.right_top() + vec2(0.0, fold),
        card.right_top(),
    ];
    painter.add(Shape::convex_polygon(points, tokens::PLUM, Stroke::NONE));
}
