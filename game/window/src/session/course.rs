//! The drills of the course, which of them is chosen, and what was played before.

use std::path::PathBuf;

use rackproof_attempt::Exercise;
use rackproof_library::Loaded;
use rackproof_panel::Preferences;
use rackproof_phrases::site_words;
use rackproof_words::Words;

use super::{KeptAttempt, Session, attempts_in, play};

impl Session {
    /// A session that shows a course of several drills, in the words of the site of the first one's
    /// machine. `None` if there is no drill.
    pub fn of_course(
        drills: Vec<Loaded>,
        folder: PathBuf,
        preferences: Preferences,
    ) -> Option<Session> {
        let first = drills.first()?.clone();
        let words = words_of(&first.exercise, preferences);
        let mut session = Session::new(words, first, folder, preferences);
        session.drills = drills;
        session.read_attempts();
        Some(session)
    }

    /// The drills of the course.
    pub fn drills(&self) -> &[Loaded] {
        &self.drills
    }

    /// The number of the chosen drill.
    pub fn drill(&self) -> usize {
        self.drill
    }

    /// What was played before, of the drill of this number.
    pub fn attempts(&self, drill: usize) -> &[KeptAttempt] {
        self.attempts.get(drill).map_or(&[], Vec::as_slice)
    }

    pub(super) fn loaded(&self) -> Option<&Loaded> {
        self.drills.get(self.drill)
    }

    pub(super) fn read_attempts(&mut self) {
        let drills = self.drills.iter();
        let ids = drills.map(|one| one.exercise.drill.id.as_str());
        self.attempts = ids.map(|id| attempts_in(&self.folder, id)).collect();
    }

    /// The course turns to another of its drills, with the words of its machine's site.
    pub(super) fn choose_drill(&mut self, drill: usize) {
        let Some(loaded) = self.drills.get(drill).filter(|_| drill != self.drill) else {
            return;
        };
        self.exercise = loaded.exercise.clone();
        self.words = words_of(&self.exercise, self.preferences);
        self.drill = drill;
        self.trouble = None;
        self.choose(None);
    }

    pub(super) fn choose(&mut self, variant: Option<usize>) {
        self.variant = variant;
        let judged = variant.and_then(|variant| self.exercise.judged(variant));
        self.reference = judged.and_then(|judged| play::reference_time(&self.exercise, &judged));
    }
}

/// What everything is called: in the words of the machine's site, or plainly.
pub(super) fn words_of(exercise: &Exercise, preferences: Preferences) -> Words {
    let site = site_words(&exercise.hall, preferences.plain_words);
    site.unwrap_or_else(Words::english)
}
