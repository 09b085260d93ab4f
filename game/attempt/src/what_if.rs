//! What if: a moment of an attempt, run on with the right action.

use rackproof_grade::{Breach, Grade, GuideRun, Moment};

use crate::{
    Attempt, Done, Exercise,
    way_on::{done_until, follow},
};

/// How it would have ended.
#[derive(Clone, Debug)]
pub struct WhatIf {
    /// The moment from which it is another attempt.
    pub from: Moment,
    /// How many causes both have in common.
    pub same: usize,
    /// The other attempt, to its end: the same until then, and after it what the written procedure
    /// asks for. The neighbours choose nothing more by themselves.
    pub attempt: Attempt,
    /// Its grade.
    pub grade: Grade,
    /// The way that was followed, by number.
    pub way: usize,
}

/// The moment right before what was found, in µs since the start, and how many doings there are
/// until then. What was being done is left out. If nothing was, time alone brought it: then the
/// waiting is left out, from the last thing done on.
pub fn right_before(attempt: &Attempt, moment: Moment) -> (u64, usize) {
    let came_with = |cause: usize| {
        let done = attempt.done().get(cause);
        done.is_some_and(|done| done.at == moment.at)
    };
    start(attempt, moment, moment.cause.is_some_and(came_with))
}

fn start(attempt: &Attempt, moment: Moment, by_doing: bool) -> (u64, usize) {
    let done = attempt.done();
    let last = match moment.cause {
        Some(cause) if by_doing => cause,
        Some(cause) => (cause + 1).min(done.len()),
        None => 0,
    };
    let at = match done.get(last).filter(|_| by_doing) {
        Some(done) => done.at,
        None => done[..last].last().map_or(0, |done| done.at),
    };
    (at, last)
}

impl WhatIf {
    /// Runs on from right before what broke the rule, on the way that the attempt came nearest to,
    /// else on any other. If the procedure knows no way on from there, it is the last moment before
    /// from which it does: then something earlier was wrong already. `None` if there is none.
    /// `breach` must be one of `grade`, and that the grade of `attempt`.
    pub fn of(
        attempt: &Attempt,
        exercise: &Exercise,
        grade: &Grade,
        breach: &Breach,
    ) -> Option<WhatIf> {
        let start = start(attempt, breach.moment, breach.intent.is_some());
        WhatIf::near(attempt, exercise, grade, start)
    }

    /// The same for any other finding of that grade: for a harm or a trap.
    pub fn before(
        attempt: &Attempt,
        exercise: &Exercise,
        grade: &Grade,
        moment: Moment,
    ) -> Option<WhatIf> {
        WhatIf::near(attempt, exercise, grade, right_before(attempt, moment))
    }

    fn near(
        attempt: &Attempt,
        exercise: &Exercise,
        grade: &Grade,
        (start, last): (u64, usize),
    ) -> Option<WhatIf> {
        (0..=last).rev().find_map(|same| {
            let at = if same == last {
                start
            } else {
                attempt.done().get(same)?.at
            };
            WhatIf::from(attempt, exercise, grade, same, at)
        })
    }

    /// Runs on from a moment, in µs since the start, after all that was done at it: on the way that
    /// the attempt came nearest to, else on any other. `None` if the procedure knows no way on from
    /// there, or if the attempt was over. `grade` must be the grade of `attempt`.
    pub fn at(attempt: &Attempt, exercise: &Exercise, grade: &Grade, at: u64) -> Option<WhatIf> {
        let at = at.min(attempt.at());
        let same = done_until(attempt.done(), at);
        WhatIf::from(attempt, exercise, grade, same, at)
    }

    /// Another way from a moment on, whoever found it: `other` has its first `same` doings in
    /// common with the attempt whose grade is `grade`.
    pub fn of_other(
        (from, same): (u64, usize),
        other: Attempt,
        exercise: &Exercise,
        grade: &Grade,
    ) -> WhatIf {
        let cause = same.checked_sub(1);
        WhatIf {
            from: Moment { at: from, cause },
            same,
            grade: other.grade(exercise),
            attempt: other,
            way: grade.way,
        }
    }

    /// Does the first `same` causes again, waits until `at`, and goes on by the procedure.
    fn from(
        attempt: &Attempt,
        exercise: &Exercise,
        grade: &Grade,
        same: usize,
        at: u64,
    ) -> Option<WhatIf> {
        let done = attempt.done().get(..same)?;
        let since = at - done.last().map_or(0, |done| done.at);
        let causes: Vec<_> = done.iter().map(|done| (done.since, done.cause)).collect();
        let others = (0..exercise.procedure.ways.len()).filter(|way| *way != grade.way);
        let judged = attempt.judged();
        let (way, run) = [grade.way].into_iter().chain(others).find_map(|way| {
            let run = GuideRun::go_on(judged, &exercise.procedure, way, (&causes, since));
            Some((way, run.ok()?))
        })?;
        let other = follow(attempt, &run.causes)?;
        // Whatever was over already needs no way on.
        (other.done().len() > same).then_some(())?;
        let other = WhatIf::of_other((at, same), other, exercise, grade);
        Some(WhatIf { way, ..other })
    }

    /// Whether something in its grade came while both attempts were the same.
    pub fn is_common(&self, moment: Moment) -> bool {
        let done = moment.cause.map_or(0, |cause| cause + 1);
        done <= self.same && moment.at <= self.from.at
    }

    /// What would have been done in place of what was.
    pub fn instead(&self) -> &[Done] {
        &self.attempt.done()[self.same..]
    }
}
