//! Text in our steps.

use egui::accesskit::Role;
use egui::text::LayoutJob;
use egui::{Color32, Label, Response, Ui, Vec2};

use crate::fonts;
use crate::tokens::{self, Step, Weight};

/// Text in any step, weight and colour. Wraps where the room ends.
pub fn say(ui: &mut Ui, said: &str, step: Step, weight: Weight, colour: Color32) -> Response {
    ui.add(Label::new(fonts::rich(said, step, weight, colour)))
}

/// Title of a page, or a verdict.
pub fn title(ui: &mut Ui, said: &str) -> Response {
    heading(ui, said, Step::Page, Weight::ExtraBold)
}

/// Head of a card: a task, a step.
pub fn head(ui: &mut Ui, said: &str) -> Response {
    heading(ui, said, Step::Task, Weight::Bold)
}

/// Body.
pub fn body(ui: &mut Ui, said: &str) -> Response {
    say(ui, said, Step::Text, Weight::Regular, tokens::INK)
}

/// A label, or what is said on the side.
pub fn note(ui: &mut Ui, said: &str) -> Response {
    say(ui, said, Step::Note, Weight::Regular, tokens::INK_2)
}

/// Text of several weights that wraps as one.
pub fn paragraph(ui: &mut Ui, runs: &[(&str, Weight)], step: Step, colour: Color32) -> Response {
    let mut job = LayoutJob::default();
    for (said, weight) in runs {
        job.append(said, 0.0, fonts::format(step, *weight, colour));
    }
    ui.add(Label::new(job))
}

/// A piece of a text that flows with keys in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Piece<'a> {
    /// Words, with their own spaces.
    Words(&'a str, Weight),
    /// Figures that change.
    Figures(&'a str),
    /// A key to press.
    Key(&'a str),
}

/// Text with keys and figures in it, such as "Press C. Wait until ...", that wraps as one.
pub fn flow(ui: &mut Ui, pieces: &[Piece<'_>], step: Step, colour: Color32) {
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = Vec2::ZERO;
        for piece in pieces {
            match *piece {
                Piece::Words(said, weight) => {
                    say(ui, said, step, weight, colour);
                }
                Piece::Figures(said) => {
                    ui.label(fonts::figures(said, step, Weight::Bold, colour));
                }
                Piece::Key(key) => {
                    super::key_cap(ui, key);
                }
            }
        }
    });
}

fn heading(ui: &mut Ui, said: &str, step: Step, weight: Weight) -> Response {
    let response = say(ui, said, step, weight, tokens::INK);
    ui.ctx().accesskit_node_builder(response.id, |node| {
        node.set_role(Role::Heading);
        // A label has its text as a value; a heading is known by its name.
        node.clear_value();
        node.set_label(said);
    });
    response
}
