//! The drills that can be begun, and which of them is chosen.

use std::path::Path;

use rackproof_attempt::{Exercise, Material, ProofState};
use rackproof_library::Loaded;
use rackproof_phrases::site_words;
use rackproof_words::Words;

use super::{KeptAttempt, Session, play, shelf::Shelf};

/// A drill with what became of it so far.
pub struct OpenDrill {
    /// What its files say, ready to run.
    pub exercise: Exercise,
    /// Its texts: without them nothing is begun.
    pub material: Option<Material>,
    /// How it stands to its proof.
    pub proof: ProofState,
    /// What was played before, newest first.
    pub attempts: Vec<KeptAttempt>,
}

impl OpenDrill {
    pub(super) fn new(loaded: Loaded, folder: &Path, shelf: &mut Shelf) -> OpenDrill {
        let Loaded {
            material,
            exercise,
            proof,
        } = loaded;
        OpenDrill {
            attempts: shelf.attempts_of(folder, &exercise.drill.id, Some(&material)),
            material: Some(material),
            exercise,
            proof,
        }
    }

    /// One of which only a picture is wanted.
    pub(super) fn of_picture(exercise: Exercise) -> OpenDrill {
        OpenDrill {
            exercise,
            material: None,
            proof: ProofState::Missing,
            attempts: Vec::new(),
        }
    }
}

impl Session {
    /// The drills, in the order of the course.
    pub fn drills(&self) -> &[OpenDrill] {
        &self.drills
    }

    /// The number of the chosen drill.
    pub fn chosen(&self) -> usize {
        self.drill
    }

    /// The chosen drill.
    pub(super) fn drill(&self) -> &OpenDrill {
        &self.drills[self.drill]
    }

    /// Changes the texts of the chosen drill.
    #[cfg(test)]
    pub(super) fn change_material(&mut self, change: impl FnOnce(&mut Material)) {
        change(
            self.drills[self.drill]
                .material
                .as_mut()
                .expect("it has texts"),
        );
    }

    /// The chosen drill, to be changed.
    #[cfg(test)]
    pub(super) fn change_exercise(&mut self) -> &mut Exercise {
        &mut self.drills[self.drill].exercise
    }

    /// Chooses another drill, from any of its starts. While one is played nothing is chosen.
    pub(super) fn choose_drill(&mut self, number: usize) {
        let on_course = matches!(self.screen, super::Screen::Course);
        if !on_course || number >= self.drills.len() || number == self.drill {
            return;
        }
        self.drill = number;
        self.trouble = None;
        self.choose(None);
        self.speak();
    }

    /// Chooses a start; `None` is any.
    pub(super) fn choose(&mut self, variant: Option<usize>) {
        self.variant = variant;
        let exercise = &self.drill().exercise;
        let judged = variant.and_then(|variant| exercise.judged(variant));
        self.reference = judged.and_then(|judged| play::reference_time(exercise, &judged));
    }

    /// Takes up the words of the machine's site, or our own.
    pub(super) fn speak(&mut self) {
        let site = site_words(&self.drill().exercise.hall, self.preferences.plain_words);
        self.words = site.unwrap_or_else(Words::english);
    }
}
