//! What if: from a broken rule, the same moment run on with the right action.

use rackproof_grade::{Breach, Grade, GuideRun, Moment};

use crate::{Attempt, Done, Exercise};

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
        // What was being done is left out. If nothing was, time alone broke the rule: then the
        // waiting is left out, from the last thing done on.
        let last = match (breach.moment.cause, breach.intent) {
            (Some(cause), None) => cause + 1,
            (Some(cause), Some(_)) => cause,
            (None, _) => 0,
        };
        let waits = breach.intent.is_none();
        (0..=last).rev().find_map(|same| {
            let at = if waits && same == last {
                attempt.done()[..same].last().map_or(0, |done| done.at)
            } else {
                attempt.done().get(same)?.at
            };
            WhatIf::from(attempt, exercise, grade, same, at)
        })
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
        let mut other = Attempt::new(judged.clone());
        for (span, cause) in run.causes {
            other.wait(u64::from(span.0));
            other.do_at_once(cause).ok()?;
        }
        let grade = other.grade(exercise);
        let cause = same.checked_sub(1);
        Some(WhatIf {
            from: Moment { at, cause },
            same,
            attempt: other,
            grade,
            way,
        })
    }

    /// What would have been done in place of what was.
    pub fn instead(&self) -> &[Done] {
        &self.attempt.done()[self.same..]
    }
}
