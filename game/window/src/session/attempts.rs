//! What was played before, shown again.

use std::{fs, path::Path};

use rackproof_attempt::{Hashes, Material, Reading, read_attempt};
use rackproof_files::Problems;
use rackproof_words::{Arg, Words};

use super::{KeptAttempt, Review, Screen, Session, way_of};

/// The name of an attempt's file.
pub fn name_of(path: &Path) -> String {
    path.file_name()
        .unwrap_or_default()
        .to_string_lossy()
        .into_owned()
}

impl Session {
    /// What was played of the chosen drill before, newest first.
    pub fn attempts(&self) -> &[KeptAttempt] {
        &self.drill().attempts
    }

    /// Shows the debrief of a kept attempt of the chosen drill. One that this program cannot play
    /// again, or that was played with other files, is not shown: hall and words would be those of
    /// today.
    pub(super) fn open_attempt(&mut self, number: usize) {
        let on_course = matches!(self.screen, Screen::Course);
        let Some(kept) = self.attempts().get(number).filter(|_| on_course) else {
            return;
        };
        let path = kept.path.clone();
        self.debrief(&path);
    }

    /// Shows the debrief of an attempt at the chosen drill, or says why there is none.
    pub fn debrief(&mut self, path: &Path) {
        match review_of(path, self.drill().material.as_ref(), &self.words) {
            Ok(review) => self.show(Screen::Review(Box::new(review))),
            Err(why) => {
                let arguments = [("file", Arg::from(name_of(path)))];
                self.trouble = Some(self.words.say(why, &arguments));
                self.over = None;
            }
        }
    }
}

/// The debrief of an attempt, or the id of why there is none.
fn review_of(path: &Path, now: Option<&Material>, words: &Words) -> Result<Review, &'static str> {
    let unread = "course-attempt-unread";
    let kept = match fs::read(path).map(|bytes| read_attempt(&bytes)) {
        Ok(Reading::Whole(kept) | Reading::CutOff(Some(kept))) => kept,
        _ => return Err(unread),
    };
    if now.map(Hashes::of) != Some(Hashes::of(&kept.header.material)) {
        return Err("course-attempt-other");
    }
    let rebuilt = kept.rebuild(&Problems::new());
    let rebuilt = rebuilt.filter(|rebuilt| rebuilt.difference.is_none());
    let rebuilt = rebuilt.ok_or(unread)?;
    let how = (way_of(kept.header.mode), kept.header.number);
    let (exercise, attempt) = (rebuilt.exercise, rebuilt.attempt);
    let file = (path.to_owned(), kept.notes.as_slice());
    Ok(Review::new(exercise, &attempt, file, how, words))
}
