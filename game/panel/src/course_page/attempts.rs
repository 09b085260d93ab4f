//! My attempts at the chosen drill, over the course: each opens its debrief.

use egui::{Ui, vec2};
use rackproof_words::{Arg, Words};

use super::CourseView;
use crate::tokens::{self, Step, Weight};
use crate::widgets::{ButtonLook, key_button, say};
use crate::wish::{Way, Wish};

/// What became of an attempt.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ending {
    /// It passed.
    Passed,
    /// It failed.
    Failed,
    /// It has no end, or cannot be graded by this program.
    Open,
}

/// A kept attempt at the chosen drill.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AttemptRow {
    /// The name of its file.
    pub file: String,
    /// How it was played.
    pub way: Way,
    /// What became of it.
    pub ending: Ending,
}

impl AttemptRow {
    fn said(&self, words: &Words) -> String {
        let way = match self.way {
            Way::Watch => "way-watch",
            Way::Guided => "way-guided",
            Way::Practice => "way-practice",
            Way::Exam => "way-exam",
        };
        let ending = match self.ending {
            Ending::Passed => "course-attempt-passed",
            Ending::Failed => "course-attempt-failed",
            Ending::Open => "course-attempt-open",
        };
        let arguments = [
            ("file", Arg::from(self.file.as_str())),
            ("way", Arg::from(words.say(way, &[]))),
            ("ending", Arg::from(words.say(ending, &[]))),
        ];
        words.say("course-attempt", &arguments)
    }
}

pub(super) fn show(view: &CourseView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    let words = view.words;
    let (listed, kept) = (view.attempts.len(), view.attempts_kept);
    let told = match listed {
        0 => "course-attempts-none",
        _ if listed < kept => "course-attempts-newest",
        _ => "course-attempts-told",
    };
    let counts = [("listed", listed), ("kept", kept)];
    let told = words.say(
        told,
        &counts.map(|(name, count)| (name, Arg::from(count as i64))),
    );
    say(ui, &told, Step::Text, Weight::Regular, tokens::INK);
    ui.add_space(tokens::GAP);
    for (number, row) in view.attempts.iter().enumerate() {
        let size = vec2(ui.available_width(), tokens::ACTION_HEIGHT);
        ui.push_id(number, |ui| {
            let label = row.said(words);
            if key_button(ui, &label, None, ButtonLook::Plain, size, true).clicked() {
                wishes.push(Wish::OpenAttempt(number));
            }
        });
    }
}
