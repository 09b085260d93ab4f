//! Help on request: the next step, and a safe way on. Both are listed in the report.

use std::io;

use rackproof_attempt::{hint_note, way_on, way_on_note};
use rackproof_panel::Way;
use rackproof_phrases::{WayOnTold, way_on_told};
use rackproof_words::Words;

use super::Play;

impl Play {
    /// Shows the next step until something is done. It is listed in the report.
    ///
    /// # Errors
    /// If the attempt cannot be written.
    pub fn hint(&mut self) -> io::Result<()> {
        if self.way == Way::Exam {
            return Ok(());
        }
        self.next_step.look(&self.attempt, &self.exercise);
        self.hinted = true;
        match self.next_step.ahead() {
            Some(ahead) => self.note(hint_note(&ahead.step)),
            None => Ok(()),
        }
    }

    /// Tells a safe way on from here, or that there is none. It is listed in the report.
    ///
    /// # Errors
    /// If the attempt cannot be written.
    pub fn ask_way_on(&mut self, words: &Words) -> io::Result<()> {
        if self.way == Way::Exam {
            return Ok(());
        }
        let answer = way_on(&self.attempt, &self.exercise);
        self.way_on = Some(way_on_told(words, &self.exercise, &answer));
        let first = answer.as_ref().ok().and_then(|on| on.steps.first());
        self.note(way_on_note(first.map(|step| step.step.as_str())))
    }

    /// The safe way on that was told last.
    pub fn way_on(&self) -> Option<&WayOnTold> {
        self.way_on.as_ref()
    }
}
