//! The guide beside a running attempt: what the written procedure would do next. It sees what the
//! person perceived, nothing else.

use rackproof_drill::{Cause, Intent};
use rackproof_grade::{
    Doing, Guide, Judged, JudgedOutcome, JudgedState, Observation, Procedure, Step,
};
use rackproof_model::{Micros, Model};

use crate::{Attempt, Done, Exercise};

/// The next step.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ahead {
    /// The step's name.
    pub step: String,
    /// What to do now. `None`: wait.
    pub intent: Option<Intent>,
}

/// What the guide says at a moment, and for how long.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Outlook {
    /// The next step. `None` if the procedure has no step for this moment.
    pub ahead: Option<Ahead>,
    /// The time after which it may be another, though nobody does anything. `None`: never.
    pub holds: Option<Micros>,
}

/// The next step on the way that the person has taken, else on any way. `None` if the procedure has
/// no step for this moment.
pub fn ahead(attempt: &Attempt, exercise: &Exercise) -> Option<Ahead> {
    outlook(attempt, exercise).ahead
}

/// The next step, and until when it is the next if nothing is done.
pub fn outlook(attempt: &Attempt, exercise: &Exercise) -> Outlook {
    let taken = way_taken(attempt, &exercise.procedure);
    let others = (0..exercise.procedure.ways.len()).filter(|way| *way != taken);
    let mut outlook = Outlook {
        ahead: None,
        holds: attempt.judged().next_event(attempt.state()),
    };
    for way in [taken].into_iter().chain(others) {
        let (next, holds) = along(attempt, exercise, way);
        outlook.holds = [outlook.holds, holds].into_iter().flatten().min();
        outlook.ahead = next.and_then(|(number, intent)| {
            let step = exercise.procedure.steps.get(number)?;
            Some(Ahead {
                step: step.name.clone(),
                intent,
            })
        });
        if outlook.ahead.is_some() {
            break;
        }
    }
    outlook
}

/// The way of the last thing done that belongs to one way alone, else the first way.
pub(crate) fn way_taken(attempt: &Attempt, procedure: &Procedure) -> usize {
    let of_one_way = |done: &Done| {
        let Cause::Did(intent) = done.cause else {
            return None;
        };
        let does =
            |step: &&Step| matches!(step.doing, Doing::Intent(_, kind) if kind == intent.kind());
        let mut ways = procedure
            .steps
            .iter()
            .filter(does)
            .map(|step| step.ways.as_slice());
        match ways.next() {
            Some([way]) if ways.all(|other| other == [*way]) => Some(*way),
            _ => None,
        }
    };
    attempt
        .done()
        .iter()
        .rev()
        .find_map(of_one_way)
        .unwrap_or(0)
}

/// The number of a step, and what to do for it now.
type Next = (usize, Option<Intent>);

/// Lets a guide perceive the whole attempt, and asks it what is next, and for how long.
pub(crate) fn along(
    attempt: &Attempt,
    exercise: &Exercise,
    way: usize,
) -> (Option<Next>, Option<Micros>) {
    let judged = attempt.judged();
    let mut follower = Follower {
        judged,
        state: judged.start(),
        guide: Guide::new(&exercise.procedure, way),
    };
    for done in attempt.done() {
        follower.wait(done.since);
        follower.cause(done.cause);
    }
    follower.wait(attempt.since());
    let (world, state) = (judged.world(), &follower.state.world);
    let next = follower.guide.next(world, state);
    (next, follower.guide.next_change(world, state))
}

struct Follower<'f> {
    judged: &'f Judged,
    state: JudgedState,
    guide: Guide<'f>,
}

impl Follower<'_> {
    fn wait(&mut self, span: Micros) {
        let mut left = span;
        while left > Micros(0) {
            let part = self
                .judged
                .next_event(&self.state)
                .map_or(left, |next| next.min(left));
            left -= part;
            let state = self.state.world;
            self.guide.pass(self.judged.world(), &state, part);
            let mut after = Observation::default();
            self.judged
                .advance(&mut self.state, part, &mut |heard| hear(&mut after, heard));
            self.perceive(after, false);
        }
    }

    fn cause(&mut self, cause: Cause) {
        if let Cause::Did(intent) = cause {
            let world = self.judged.world();
            self.guide
                .perceive(&Observation::before(world, &self.state.world, intent));
        }
        let mut after = Observation::default();
        self.judged
            .act(&mut self.state, cause, &mut |heard| hear(&mut after, heard));
        self.perceive(after, matches!(cause, Cause::Did(_)));
    }

    fn perceive(&mut self, mut after: Observation, always: bool) {
        if always || after.has_signs() {
            after.settle(self.judged.world(), &self.state.world);
            self.guide.perceive(&after);
        } else {
            let quiet = Observation::quiet(self.judged.world(), &self.state.world);
            self.guide.perceive(&quiet);
        }
    }
}

fn hear(observation: &mut Observation, heard: JudgedOutcome) {
    if let JudgedOutcome::World(outcome) = heard {
        observation.hear(&outcome);
    }
}
