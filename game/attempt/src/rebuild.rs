//! An attempt rebuilt from what was kept: its causes are done again, and what is heard is compared
//! with what was recorded.

use rackproof_files::Problems;

use crate::{
    Attempt, Exercise, Pieces,
    attempt::GAP_MOST,
    kept::{CauseLine, EndLine, Kept},
    notation::parse_cause,
    recorder::heard_texts,
};

/// Where this program computes something else than what was recorded. The recorded outcomes stand.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Difference {
    /// The line of the file, from 1.
    pub line: usize,
    /// What was recorded.
    pub recorded: String,
    /// What this program computes.
    pub computed: String,
}

/// An attempt, done again.
#[derive(Clone, Debug)]
pub struct Rebuilt {
    /// What its texts say.
    pub exercise: Exercise,
    /// The attempt, up to its end or to the first difference.
    pub attempt: Attempt,
    /// The first difference.
    pub difference: Option<Difference>,
}

impl Kept {
    /// Does the attempt again. `None` if its texts cannot be read by this program, for which the
    /// problems say why, or do not have its variant.
    pub fn rebuild(&self, problems: &Problems) -> Option<Rebuilt> {
        self.rebuild_in(problems, Pieces::default())
    }

    /// The same with time passing in these pieces.
    pub fn rebuild_in(&self, problems: &Problems, pieces: Pieces) -> Option<Rebuilt> {
        let exercise = self.header.material.read(problems)?;
        let named = exercise.variant(&self.header.variant);
        let number = named.filter(|number| *number == self.header.number)?;
        let judged = exercise.judged(number)?;
        let mut attempt = Attempt::new(judged).in_pieces(pieces);
        let difference = self.replay(&mut attempt);
        Some(Rebuilt {
            exercise,
            attempt,
            difference,
        })
    }

    /// Does every kept cause again, up to the first difference.
    fn replay(&self, attempt: &mut Attempt) -> Option<Difference> {
        for (line, kept) in &self.causes {
            let difference = redo(attempt, kept);
            if let Some((recorded, computed)) = difference {
                return Some(Difference {
                    line: *line,
                    recorded,
                    computed,
                });
            }
        }
        let (line, end) = self.end.as_ref()?;
        let (recorded, computed) = compare_end(attempt, end)?;
        Some(Difference {
            line: *line,
            recorded,
            computed,
        })
    }
}

/// Recorded and computed, where they differ.
type Pair = (String, String);

fn wait_until(attempt: &mut Attempt, at: u64) -> Option<Pair> {
    let last = attempt.at() - u64::from(attempt.since().0);
    if !(attempt.at()..=last + GAP_MOST).contains(&at) {
        return Some((format!("{at}"), format!("{}", attempt.at())));
    }
    attempt.wait(at - attempt.at());
    None
}

fn redo(attempt: &mut Attempt, kept: &CauseLine) -> Option<Pair> {
    if let Some(pair) = wait_until(attempt, kept.at) {
        return Some(pair);
    }
    let from = attempt.done().last().map_or(0, |done| done.heard);
    let cause = parse_cause(attempt.world(), &kept.cause);
    let done = cause.is_some_and(|cause| attempt.do_at_once(cause).is_ok());
    if !done {
        return Some((kept.cause.clone(), String::new()));
    }
    compare(
        &kept.heard,
        &heard_texts(attempt, from, attempt.heard().len()),
    )
}

fn compare_end(attempt: &mut Attempt, end: &EndLine) -> Option<Pair> {
    if let Some(pair) = wait_until(attempt, end.end) {
        return Some(pair);
    }
    let from = attempt.done().last().map_or(0, |done| done.heard);
    let heard = heard_texts(attempt, from, attempt.heard().len());
    compare(&end.heard, &heard).or_else(|| {
        let key = attempt.key_hash();
        (end.key != key).then(|| (end.key.clone(), key))
    })
}

fn compare(recorded: &[String], computed: &[String]) -> Option<Pair> {
    let length = recorded.len().max(computed.len());
    let at = |list: &[String], place: usize| list.get(place).cloned().unwrap_or_default();
    (0..length)
        .map(|place| (at(recorded, place), at(computed, place)))
        .find(|(one, other)| one != other)
}
