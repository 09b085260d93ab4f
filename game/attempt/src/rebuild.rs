//! An attempt rebuilt from what was kept: its causes are done again, and what is heard is compared
//! with what was recorded.

use rackproof_files::Problems;
use rackproof_grade::Judged;

use crate::{
    Attempt, Exercise, Pieces,
    attempt::GAP_MOST,
    kept::{CauseLine, EndLine, FinishLine, Kept},
    notation::parse_cause,
    recorder::{finish_line, heard_texts},
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

/// An attempt, done by this program whatever was recorded of it.
#[derive(Clone, Debug)]
pub struct Rerun {
    /// The attempt, up to its end or to what cannot be done.
    pub attempt: Attempt,
    /// The line of the file, from 1, of the first that cannot be done.
    pub stuck: Option<usize>,
}

impl Kept {
    /// Does the attempt again. `None` if its texts cannot be read by this program, for which the
    /// problems say why, or are not those of its drill and variant.
    pub fn rebuild(&self, problems: &Problems) -> Option<Rebuilt> {
        self.rebuild_in(problems, Pieces::default())
    }

    /// The same with time passing in these pieces.
    pub fn rebuild_in(&self, problems: &Problems, pieces: Pieces) -> Option<Rebuilt> {
        self.redo(self.header.material.read(problems)?, pieces)
    }

    /// The same with its own texts already read: whoever rebuilds many attempts reads them once.
    /// `None` if they are not those of its drill and variant.
    pub fn rebuild_of(&self, exercise: &Exercise) -> Option<Rebuilt> {
        self.redo(exercise.clone(), Pieces::default())
    }

    fn redo(&self, exercise: Exercise, pieces: Pieces) -> Option<Rebuilt> {
        let mut attempt = Attempt::new(self.judged(&exercise)?).in_pieces(pieces);
        let difference = self.replay(&mut attempt);
        Some(Rebuilt {
            exercise,
            attempt,
            difference,
        })
    }

    /// The world of its variant, if the exercise is of its drill and has it.
    fn judged(&self, exercise: &Exercise) -> Option<Judged> {
        if exercise.drill.id != self.header.drill {
            return None;
        }
        let named = exercise.variant(&self.header.variant);
        exercise.judged(named.filter(|number| *number == self.header.number)?)
    }

    /// Does the attempt by this program, whatever was recorded of it: every cause at its time, up
    /// to the first that cannot be done. `None` if the exercise is not of its drill and variant.
    pub fn rerun(&self, exercise: &Exercise) -> Option<Rerun> {
        let mut attempt = Attempt::new(self.judged(exercise)?);
        let mut stuck = None;
        for (line, kept) in &self.causes {
            let late = wait_until(&mut attempt, kept.at).is_some();
            let cause = parse_cause(attempt.world(), &kept.cause);
            let done = !late && cause.is_some_and(|cause| attempt.do_at_once(cause).is_ok());
            if !done {
                stuck = Some(*line);
                break;
            }
        }
        if let Some((line, end)) = self.end.as_ref().filter(|_| stuck.is_none()) {
            stuck = wait_until(&mut attempt, end.end).map(|_| *line);
        }
        Some(Rerun { attempt, stuck })
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
    let most = last + GAP_MOST;
    if !(attempt.at()..=most).contains(&at) {
        return Some((format!("{at} µs"), format!("{}-{most} µs", attempt.at())));
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
    compare(&end.heard, &heard)
        .or_else(|| {
            let key = attempt.key_hash();
            (end.key != key).then(|| (end.key.clone(), key))
        })
        .or_else(|| {
            let (recorded, computed) = (end.finish.as_ref()?, finish_line(attempt));
            let text =
                |line: &FinishLine| format!("reached {}, open {:?}", line.reached, line.open);
            (*recorded != computed).then(|| (text(recorded), text(&computed)))
        })
}

fn compare(recorded: &[String], computed: &[String]) -> Option<Pair> {
    let length = recorded.len().max(computed.len());
    let at = |list: &[String], place: usize| list.get(place).cloned().unwrap_or_default();
    (0..length)
        .map(|place| (at(recorded, place), at(computed, place)))
        .find(|(one, other)| one != other)
}
