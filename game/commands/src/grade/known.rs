//! What many attempts of one run of the command share: what their texts say, and the guide's times.

use rackproof_attempt::{Exercise, Material};
use rackproof_files::Problems;
use rackproof_grade::{Judged, References};

/// Texts that were read, each once.
#[derive(Default)]
pub(super) struct Known {
    read: Vec<Read>,
}

struct Read {
    material: Material,
    exercise: Exercise,
    /// By the number of the variant.
    references: Vec<(usize, References)>,
}

/// Which of the texts that were read.
#[derive(Clone, Copy)]
pub(super) struct Number(usize);

impl Known {
    /// Reads texts, unless they are known. `None` if one has a problem, see `problems`.
    pub(super) fn read(&mut self, material: &Material, problems: &Problems) -> Option<Number> {
        let known = self.read.iter().position(|read| read.material == *material);
        if let Some(known) = known {
            return Some(Number(known));
        }
        self.read.push(Read {
            material: material.clone(),
            exercise: material.read(problems)?,
            references: Vec::new(),
        });
        Some(Number(self.read.len() - 1))
    }

    /// What texts say.
    pub(super) fn exercise(&self, number: Number) -> &Exercise {
        &self.read[number.0].exercise
    }

    /// What they say, and the guide's times in a variant, which `judged` runs.
    pub(super) fn references(
        &mut self,
        number: Number,
        variant: usize,
        judged: &Judged,
    ) -> (&Exercise, &References) {
        let read = &mut self.read[number.0];
        let known = read
            .references
            .iter()
            .position(|(known, _)| *known == variant);
        let at = known.unwrap_or_else(|| {
            let references = References::of(judged, &read.exercise.procedure);
            read.references.push((variant, references));
            read.references.len() - 1
        });
        (&read.exercise, &read.references[at].1)
    }
}
