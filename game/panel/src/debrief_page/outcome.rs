//! What the attempt left behind, and what looks like a guess.

use egui::{Frame, Margin, Ui};

use super::DebriefView;
use super::rows::{section_head, step};
use crate::Wish;
use crate::tokens::{self, Step, Weight};
use crate::widgets::paragraph;

/// The labels of the time and of the sentences of the outturn.
const LABELS: [&str; 4] = ["label-time", "label-boards", "label-order", "label-line"];

/// Around a sentence.
const AROUND: Margin = Margin {
    left: 20,
    right: 14,
    top: 1,
    bottom: 1,
};

pub(super) fn show(view: &DebriefView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    if !view.findings.guesses.is_empty() {
        section_head(ui, &view.say("head-guesses"));
        for (number, guess) in view.findings.guesses.iter().enumerate() {
            let moment = Some(guess.moment);
            let at = step(ui, ("guess", number), moment, &guess.said, "");
            wishes.extend(at.map(Wish::Scrub));
        }
    }
    if !view.findings.because.is_empty() {
        section_head(ui, &view.say("debrief-because"));
        for said in &view.findings.because {
            Frame::NONE.inner_margin(AROUND).show(ui, |ui| {
                let runs = [(said.as_str(), Weight::Regular)];
                paragraph(ui, &runs, Step::Small, tokens::INK);
            });
        }
    }
    section_head(ui, &view.say("debrief-outturn"));
    let time = std::iter::once(&view.findings.questions.time_said);
    let told = time.chain(&view.findings.outturn);
    for (id, said) in LABELS.into_iter().zip(told) {
        Frame::NONE.inner_margin(AROUND).show(ui, |ui| {
            let label = format!("{} ", view.say(id));
            let runs = [
                (label.as_str(), Weight::SemiBold),
                (said.as_str(), Weight::Regular),
            ];
            paragraph(ui, &runs, Step::Small, tokens::INK);
        });
    }
}
