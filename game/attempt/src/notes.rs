//! What notes of an attempt say: help that was asked for, and the claim that a way breaks.

use crate::Note;

/// How a note begins that names a hint, a way on, a claim.
const HINT: &str = "Hint(";
const WAY_ON: &str = "WayOn(";
const CLAIM: &str = "Claim(";

/// The step that the note of a way on names where none was known.
const NO_STEP: &str = "none";

/// How a hint at this step is noted.
pub fn hint_note(step: &str) -> String {
    format!("{HINT}{step})")
}

/// How it is noted that a way on was asked for. `step` is its first step; `None` if none was known.
pub fn way_on_note(step: Option<&str>) -> String {
    format!("{WAY_ON}{})", step.unwrap_or(NO_STEP))
}

/// How it is noted that an attempt breaks this claim of a proof at its end.
pub fn claim_note(claim: &str) -> String {
    format!("{CLAIM}{claim})")
}

/// The claim that a note names, and when it is broken: an attempt with such a note is a way that a
/// proof found.
pub fn claim_of(note: &Note) -> Option<(u64, &str)> {
    let claim = note.note.strip_prefix(CLAIM)?.strip_suffix(')')?;
    Some((note.noted, claim))
}

/// Help that was asked for in an attempt.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Helped {
    /// How often a hint was shown.
    pub hints: usize,
    /// How often a safe way on was asked for.
    pub ways: usize,
}

impl Helped {
    /// What these notes say.
    pub fn of(notes: &[Note]) -> Helped {
        let count = |begins: &str| {
            let notes = notes.iter().filter(|note| note.note.starts_with(begins));
            notes.count()
        };
        Helped {
            hints: count(HINT),
            ways: count(WAY_ON),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn notes_say_what_was_asked_for() {
        let texts = [
            hint_note("lock"),
            "Tick(5, Infeed)".to_owned(),
            way_on_note(Some("lock")),
            way_on_note(None),
            claim_note("fair"),
        ];
        let notes = texts.map(|note| Note { noted: 7, note });
        assert_eq!(Helped::of(&notes), Helped { hints: 1, ways: 2 });
        let claims: Vec<_> = notes.iter().filter_map(claim_of).collect();
        assert_eq!(claims, [(7, "fair")]);
    }
}
