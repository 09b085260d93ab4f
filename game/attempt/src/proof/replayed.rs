//! The attempts of the guide that a proof keeps, played again.

use std::collections::BTreeMap;

use rackproof_drill::Cause;

use super::{Deed, Proof, Time};
use crate::{Attempt, Exercise, notation::parse_cause};

/// Plays what was done on the machine as it is. `None` if a cause is no cause there, or cannot be
/// done at its time, or if there is no such variant.
pub fn replay(exercise: &Exercise, variant: usize, deeds: &[Deed]) -> Option<Attempt> {
    Start::of(exercise, variant)?.replay(deeds)
}

/// A variant at its start, with the causes that were read for it: in a proof the same come again
/// and again.
struct Start<'d> {
    variant: usize,
    attempt: Attempt,
    causes: BTreeMap<&'d str, Option<Cause>>,
}

impl<'d> Start<'d> {
    fn of(exercise: &Exercise, variant: usize) -> Option<Start<'d>> {
        Some(Start {
            variant,
            attempt: Attempt::new(exercise.judged(variant)?),
            causes: BTreeMap::new(),
        })
    }

    fn replay(&mut self, deeds: &'d [Deed]) -> Option<Attempt> {
        let mut attempt = self.attempt.clone();
        for deed in deeds {
            let text = deed.cause.as_str();
            let read = || parse_cause(attempt.world(), text);
            let cause = (*self.causes.entry(text).or_insert_with(read))?;
            let due = attempt.at().checked_add(deed.after)?;
            attempt.wait(deed.after);
            // More time than an attempt lets pass at once is no time of it.
            (attempt.at() == due).then_some(())?;
            attempt.do_at_once(cause).ok()?;
        }
        Some(attempt)
    }
}

/// So many figures of a hash tell one end from another.
const FIGURES: usize = 16;

/// The state of the world at the end of an attempt: how the hash of its key begins.
pub fn end_of(attempt: &Attempt) -> String {
    let mut hash = attempt.key_hash();
    hash.truncate(FIGURES);
    hash
}

impl Time {
    /// Whether the attempt that it keeps comes to the end that it says: reported at this time, in
    /// this state of the world, and passed where all runs are said to pass.
    pub fn comes_out(&self, exercise: &Exercise) -> bool {
        self.comes_out_from(exercise, &mut None)
    }

    /// The same. `last` is the start of the variant before, which is often the same.
    fn comes_out_from<'d>(&'d self, exercise: &Exercise, last: &mut Option<Start<'d>>) -> bool {
        let Some(time) = self.time else {
            return self.attempt.is_empty();
        };
        let Some(variant) = exercise.variant(&self.variant) else {
            return false;
        };
        if last.as_ref().is_none_or(|last| last.variant != variant) {
            *last = Start::of(exercise, variant);
        }
        let played = last.as_mut().and_then(|start| start.replay(&self.attempt));
        played.is_some_and(|attempt| {
            let (judged, state) = (attempt.judged(), attempt.state());
            let passes = judged.kept(state) && judged.passes(state, 0);
            let same = attempt.at() == time && end_of(&attempt) == self.end;
            same && state.world.person.reported && (passes || self.failed > 0)
        })
    }
}

impl Proof {
    /// The guide's runs whose kept attempt comes out otherwise than they say.
    pub fn strayed(&self, exercise: &Exercise) -> Vec<&Time> {
        let (mut last, mut strayed) = (None, Vec::new());
        for one in &self.times {
            if !one.comes_out_from(exercise, &mut last) {
                strayed.push(one);
            }
        }
        strayed
    }
}

#[cfg(test)]
mod tests {
    use rackproof_grade::GuideRun;

    use super::*;
    use crate::{
        Hashes, ProofState, cause_text, core_hash,
        sample::{exercise, material},
    };

    /// The guide's first way in the first variant, as a proof keeps it.
    fn kept(exercise: &Exercise) -> Time {
        let judged = exercise.judged(0).expect("it has a variant");
        let run = GuideRun::play(&judged, &exercise.procedure, 0).expect("the guide finishes");
        let deed = |(after, cause): &(rackproof_model::Micros, _)| Deed {
            after: u64::from(after.0),
            cause: cause_text(judged.world(), *cause),
        };
        let mut time = Time {
            variant: exercise.drill.variants[0].id.clone(),
            way: exercise.procedure.ways[0].clone(),
            time: Some(run.time),
            runs: 1,
            failed: 0,
            attempt: run.causes.iter().map(deed).collect(),
            end: String::new(),
        };
        let played = replay(exercise, 0, &time.attempt).expect("it can be played");
        time.end = end_of(&played);
        time
    }

    #[test]
    fn a_kept_attempt_that_was_changed_does_not_come_out() {
        let exercise = exercise();
        let good = kept(&exercise);
        assert!(good.comes_out(&exercise));
        assert!(good.attempt.len() > 40, "{}", good.attempt.len());
        type Change = fn(&mut Time);
        let changes: [Change; 13] = [
            |time| time.time = time.time.map(|time| time + 1),
            |time| time.time = None,
            |time| time.attempt.clear(),
            |time| time.attempt.truncate(20),
            |time| time.attempt[3].after += 1,
            |time| time.attempt[3].after = 4_000_000_000,
            |time| time.attempt[3].after = u64::MAX,
            |time| time.attempt[3].cause = "Fly".to_owned(),
            |time| time.attempt.swap(3, 4),
            |time| {
                time.attempt.remove(1);
            },
            |time| time.end = "0".repeat(16),
            |time| time.variant = "another".to_owned(),
            |time| time.variant = "green-top".to_owned(),
        ];
        for (number, change) in changes.into_iter().enumerate() {
            let mut time = good.clone();
            change(&mut time);
            assert!(!time.comes_out(&exercise), "{number}");
        }
    }

    #[test]
    fn a_proof_whose_kept_attempts_do_not_come_out_opens_no_exam() {
        let (exercise, material) = (exercise(), material());
        let mut proof = Proof {
            texts: Hashes::of(&material),
            core: core_hash().to_owned(),
            claims: vec![("guide".to_owned(), true)],
            times: vec![kept(&exercise)],
            ..Proof::default()
        };
        let state = |proof: &Proof| proof.state(&material, &exercise, &proof.text());
        assert!(state(&proof).hash().is_some());
        proof.times[0].attempt[5].after += 1;
        let strayed = vec![("green-low".to_owned(), "by-hand".to_owned())];
        assert_eq!(state(&proof), ProofState::Strayed(strayed));
        assert!(!state(&proof).shows_something());
    }

    /// One that did not finish keeps nothing, and one that does not pass says so.
    #[test]
    fn what_failed_comes_out_as_it_failed() {
        let exercise = exercise();
        let mut stuck = Time {
            failed: 1,
            ..Time::default()
        };
        assert!(stuck.comes_out(&exercise));
        stuck.attempt = kept(&exercise).attempt;
        assert!(!stuck.comes_out(&exercise));
        // Straps untested: a rule is broken, and the guide is said to have failed there.
        let mut careless = kept(&exercise);
        let straps = careless.attempt.remove(0);
        assert_eq!(straps.cause, "TestStraps");
        careless.attempt[0].after += straps.after;
        let played = replay(&exercise, 0, &careless.attempt).expect("it can be played");
        careless.end = end_of(&played);
        assert!(!careless.comes_out(&exercise));
        careless.failed = 1;
        assert!(careless.comes_out(&exercise));
    }
}
