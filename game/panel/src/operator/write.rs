//! Text at a place of the panel, with its accessible name.

use std::sync::Arc;

use egui::accesskit::{Live, Node, Role};
use egui::text::{LayoutJob, TextWrapping};
use egui::{
    Align, Align2, Color32, FontId, Galley, Id, Pos2, Rect, Sense, TextFormat, Ui, WidgetInfo,
    WidgetType,
};

use crate::fonts;
use crate::tokens::{self, Step, Weight};

/// How a text is written.
#[derive(Clone, Copy, Debug)]
pub(super) struct Hand {
    step: Step,
    weight: Weight,
    colour: Color32,
    figures: bool,
}

impl Hand {
    /// In the text face.
    pub(super) const fn new(step: Step, weight: Weight, colour: Color32) -> Hand {
        Hand {
            step,
            weight,
            colour,
            figures: false,
        }
    }

    /// In the face of figures.
    pub(super) const fn in_figures(mut self) -> Hand {
        self.figures = true;
        self
    }

    /// In another step.
    pub(super) const fn at(mut self, step: Step) -> Hand {
        self.step = step;
        self
    }

    fn font(self) -> FontId {
        if self.figures {
            fonts::mono(self.step, self.weight)
        } else {
            fonts::text(self.step, self.weight)
        }
    }

    fn format(self) -> TextFormat {
        TextFormat {
            line_height: Some(self.step.line()),
            ..TextFormat::simple(self.font(), self.colour)
        }
    }
}

/// One line, anchored at a place.
pub(super) fn line(ui: &mut Ui, at: Pos2, anchor: Align2, said: &str, hand: Hand) -> Rect {
    runs(ui, at, anchor, &[(said, hand)], f32::INFINITY)
}

/// One line of several hands, anchored at a place, and at most so wide: what does not fit is cut
/// off, and stays in the accessible name.
pub(super) fn runs(
    ui: &mut Ui,
    at: Pos2,
    anchor: Align2,
    runs: &[(&str, Hand)],
    most: f32,
) -> Rect {
    let mut job = job_of(runs);
    job.wrap = TextWrapping::truncate_at_width(most);
    let said = job.text.clone();
    let galley = ui.painter().layout_job(job);
    let rect = anchor.anchor_size(at, galley.size());
    paint(ui, rect.min, &galley);
    name(ui, rect, &said);
    rect
}

/// Text that wraps, from the left top corner of a room. Gives the place that it takes, and its id.
pub(super) fn block(ui: &mut Ui, at: Pos2, width: f32, said: &[(&str, Hand)]) -> (Rect, Id) {
    let mut job = job_of(said);
    job.wrap.max_width = width;
    let name_of = job.text.clone();
    let galley = ui.painter().layout_job(job);
    let rect = Rect::from_min_size(at, galley.size());
    paint(ui, at, &galley);
    (rect, name(ui, rect, &name_of))
}

/// How high a text is that wraps.
pub(super) fn height(ui: &Ui, width: f32, said: &str, hand: Hand) -> f32 {
    if said.is_empty() {
        return 0.0;
    }
    let mut job = job_of(&[(said, hand)]);
    job.wrap.max_width = width;
    ui.painter().layout_job(job).size().y
}

/// How wide a text is on one line.
pub(super) fn width(ui: &Ui, said: &str, hand: Hand) -> f32 {
    let painter = ui.painter();
    let galley = painter.layout_no_wrap(said.to_owned(), hand.font(), hand.colour);
    galley.size().x
}

/// Gives what is drawn at a place its accessible name.
pub(super) fn name(ui: &mut Ui, rect: Rect, said: &str) -> Id {
    let response = ui.allocate_rect(rect, Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, said));
    response.id
}

/// What changes here is told at once to who cannot see it.
pub(super) fn live(ui: &Ui, id: Id, said: &str) {
    ui.ctx().accesskit_node_builder(id, |node| {
        named(node, Role::Status, said);
        node.set_live(Live::Assertive);
    });
}

fn job_of(runs: &[(&str, Hand)]) -> LayoutJob {
    let mut job = LayoutJob::default();
    for (said, hand) in runs {
        job.append(said, 0.0, hand.format());
    }
    job
}

fn paint(ui: &Ui, at: Pos2, galley: &Arc<Galley>) {
    ui.painter()
        .galley(at, Arc::clone(galley), tokens::PANEL_INK);
}

/// One line that is drawn only: what holds it has the accessible name.
pub(super) fn paint_line(
    ui: &Ui,
    at: Pos2,
    anchor: Align2,
    said: &str,
    hand: Hand,
    most: f32,
) -> Rect {
    let mut job = job_of(&[(said, hand)]);
    job.wrap = TextWrapping::truncate_at_width(most);
    let galley = ui.painter().layout_job(job);
    let rect = anchor.anchor_size(at, galley.size());
    paint(ui, rect.min, &galley);
    rect
}

/// Makes what is drawn at a place a heading.
pub(super) fn heading(ui: &mut Ui, rect: Rect, said: &str) {
    let id = name(ui, rect, said);
    ui.ctx()
        .accesskit_node_builder(id, |node| named(node, Role::Heading, said));
}

/// A label has its text as its value; what has another role has it as its name.
fn named(node: &mut Node, role: Role, said: &str) {
    node.set_role(role);
    node.clear_value();
    node.set_label(said);
}

/// Text of at most two lines round a middle, drawn only.
pub(super) fn paint_wrapped(ui: &Ui, middle: Pos2, said: &str, hand: Hand, width: f32) {
    let mut job = job_of(&[(said, hand)]);
    job.wrap = TextWrapping::wrap_at_width(width);
    job.wrap.max_rows = 2;
    job.halign = Align::Center;
    let galley = ui.painter().layout_job(job);
    let top = middle.y - galley.size().y / 2.0;
    paint(ui, Pos2::new(middle.x, top), &galley);
}
