//! The debrief: verdict with its evidence at the left, what was true and the timeline at the right.
//!
//! The hall is left open: the window draws it there, fully lit, at the moment shown.

mod chart;
mod frame;
mod gaps;
mod keys;
mod left;
mod lower;
mod missing;
mod outcome;
mod overlay;
mod rows;
mod section;
mod steps;
mod strip;
mod timeline;
mod told;
mod top;
mod ways;

#[cfg(test)]
mod page_tests;
#[cfg(test)]
mod sample;
#[cfg(test)]
mod ways_tests;

use egui::{Rect, ScrollArea, Stroke, Ui, UiBuilder, Vec2};
use rackproof_attempt::{Exercise, Helped, History};
use rackproof_drill::World;
use rackproof_grade::JudgedState;
use rackproof_phrases::{Findings, WaysTold};
use rackproof_words::{Arg, Words};

use crate::tokens;
use crate::{Over, Preferences, Way, Wish};
use frame::{Frame, LEAST};

pub use timeline::{BoardsThen, Gap, Timeline, UnitThen};

/// All that the debrief shows.
#[derive(Clone, Copy)]
pub struct DebriefView<'v> {
    /// What everything is called.
    pub words: &'v Words,
    /// What was practised.
    pub exercise: &'v Exercise,
    /// All moments of the attempt.
    pub history: &'v History,
    /// The verdict with its evidence.
    pub findings: &'v Findings,
    /// What happened when.
    pub timeline: &'v Timeline,
    /// How the drill was gone through.
    pub way: Way,
    /// The badge of the person, if they gave one.
    pub badge: Option<&'v str>,
    /// The name of the attempt. Empty if it was not kept.
    pub attempt: &'v str,
    /// Help that was asked for in it.
    pub helped: Helped,
    /// Where a proof found this attempt: what the claim was and where it broke.
    pub claim: Option<&'v str>,
    /// The ways on, once they were asked for.
    pub ways: Option<&'v WaysTold>,
    /// The moment shown, in µs since the start.
    pub at: u64,
    /// Whether it plays.
    pub plays: bool,
    /// How many times as fast.
    pub speed: f32,
    /// The chosen finding, by its number in the list of all.
    pub chosen: Option<usize>,
    /// What lies over the page: help, rules, or ways on.
    pub over: Option<Over>,
    /// What the person chose for themselves.
    pub preferences: Preferences,
}

impl DebriefView<'_> {
    fn say(&self, id: &str) -> String {
        self.words.say(id, &[])
    }

    fn say_with(&self, id: &str, arguments: &[(&str, Arg<'_>)]) -> String {
        self.words.say(id, arguments)
    }

    fn world(&self) -> &World {
        self.history.judged().world()
    }

    /// The state at the moment shown.
    fn state(&self) -> JudgedState {
        self.history.state_at(self.at)
    }
}

/// Shows the debrief and answers where the hall is to be drawn.
pub fn debrief_page(view: &DebriefView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) -> Rect {
    let room = ui.max_rect();
    let size = room.size().max(LEAST);
    if size == room.size() {
        return shown(view, ui, room, wishes);
    }
    // Large text in a small window: the page keeps its size and is scrolled.
    ui.spacing_mut().scroll.fade.strength = 0.0;
    let output = ScrollArea::both()
        .id_salt("debrief")
        .auto_shrink(false)
        .show(ui, |ui| {
            let (page, _) = ui.allocate_exact_size(size, egui::Sense::hover());
            shown(view, ui, page, wishes)
        });
    output.inner.intersect(output.inner_rect)
}

fn shown(view: &DebriefView<'_>, ui: &mut Ui, page: Rect, wishes: &mut Vec<Wish>) -> Rect {
    let frame = Frame::of(page, lower::needs(view, ui));
    let mut offers = Vec::new();
    view.world().offered(&view.state().world, &mut offers);
    let can_take_over = !offers.is_empty();
    keys::hear(view, ui, can_take_over, wishes);
    let covered = view.over.is_some();
    let mut parts = child(ui, page, "debrief parts");
    if covered {
        parts.disable();
    }
    top::show(view, &mut part(&mut parts, frame.top, "top"), wishes);
    left::show(view, &mut part(&mut parts, frame.left, "left"), wishes);
    section::show(
        view,
        &mut child(&mut parts, frame.hall, "section"),
        frame.hall,
    );
    strip::show(
        view,
        &mut child(&mut parts, frame.hall, "strip"),
        frame.hall,
    );
    let mut lower = part(&mut parts, frame.lower, "lower");
    lower::show(view, &mut lower, (can_take_over, frame.two_rows), wishes);
    edges(&parts, &frame);
    if covered {
        overlay::show(view, &mut child(ui, page, "overlay"), page, wishes);
    }
    frame.hall
}

/// A part of the page on the ground of raised areas.
fn part(ui: &mut Ui, rect: Rect, salt: &str) -> Ui {
    ui.painter().rect_filled(rect, 0, tokens::SHEET);
    child(ui, rect, salt)
}

/// A part of the page with the hall behind it.
fn child(ui: &mut Ui, rect: Rect, salt: &str) -> Ui {
    let mut part = ui.new_child(UiBuilder::new().max_rect(rect).id_salt(salt));
    part.set_clip_rect(rect.intersect(ui.clip_rect()));
    part.spacing_mut().item_spacing = Vec2::new(tokens::GAP, tokens::SPACE);
    part.spacing_mut().scroll.fade.strength = 0.0;
    part
}

fn edges(ui: &Ui, frame: &Frame) {
    let edge = Stroke::new(tokens::RULE_WIDTH, tokens::INK);
    let painter = ui.painter();
    let half = tokens::RULE_WIDTH / 2.0;
    painter.hline(frame.top.x_range(), frame.top.bottom() - half, edge);
    painter.vline(frame.left.right() - half, frame.left.y_range(), edge);
    painter.hline(frame.lower.x_range(), frame.lower.top() + half, edge);
}

/// A moment as the page writes it: `mm:ss`.
fn clock(at: u64) -> String {
    Arg::Clock(at).to_string()
}

/// A length rounded to a tenth of a millimetre.
fn length(micrometres: i32) -> Arg<'static> {
    let tenths = (micrometres + micrometres.signum() * 50) / 100;
    Arg::Micrometres(tenths * 100)
}
