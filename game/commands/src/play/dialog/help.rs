//! Help on request: the next step, and a safe way on.

use std::io;

use rackproof_attempt::{PlayedAs, ahead, hint_note, way_on, way_on_note};
use rackproof_phrases::way_on_told;

use super::{Dialog, Turn};
use crate::{
    lines::wrapped,
    play::{
        Ways,
        next::{rows_of, way_on_rows},
        screen::INDENT,
    },
};

impl Dialog<'_> {
    pub(super) fn hint(&mut self, ways: &mut Ways<'_>) -> io::Result<Turn> {
        if self.mode == PlayedAs::Exam {
            ways.tell("play-no-hint-in-exam", &[])?;
            return Ok(Turn::Stay);
        }
        if let Some(step) = self.next_step(ways)? {
            self.note(hint_note(&step))?;
        }
        Ok(Turn::Stay)
    }

    /// Shows a safe way on from here.
    pub(super) fn way_on(&mut self, ways: &mut Ways<'_>) -> io::Result<Turn> {
        if self.mode == PlayedAs::Exam {
            ways.tell("way-on-not-in-exam", &[])?;
            return Ok(Turn::Stay);
        }
        let answer = way_on(&self.attempt, self.exercise);
        let told = way_on_told(ways.words, self.exercise, &answer);
        ways.tell("over-way-on", &[])?;
        write!(ways.out, "{}", way_on_rows(&told))?;
        let first = answer.as_ref().ok().and_then(|on| on.steps.first());
        self.note(way_on_note(first.map(|step| step.step.as_str())))?;
        Ok(Turn::Stay)
    }

    /// Shows the next step, and why. Its name, if there is one.
    pub(super) fn next_step(&self, ways: &mut Ways<'_>) -> io::Result<Option<String>> {
        let words = ways.words;
        let Some(ahead) = ahead(&self.attempt, self.exercise) else {
            ways.tell("play-no-step", &[])?;
            return Ok(None);
        };
        for (id, row) in rows_of(&ahead, &self.attempt, words) {
            write!(ways.out, "{}", wrapped(&words.say(id, &[]), INDENT, &row))?;
        }
        Ok(Some(ahead.step))
    }
}
