//! A safe way on from here, by what can be known: the guide reads signs only, and it is run on from
//! every start of the drill that looks like this one so far.
//!
//! Told are the steps until something new would be seen or heard: what lies behind that depends on
//! it, and nothing that was not looked at is told.

use rackproof_buffer::Button;
use rackproof_drill::{
    Cause, Intent, Outcome, Stand,
    message::{Message, of_intent},
};
use rackproof_grade::{GuideRun, JudgedOutcome, Severity, Timed};
use rackproof_model::Micros;

use crate::{
    Attempt, Done, Exercise, Heard, History,
    ahead::{along, way_taken},
};

/// A step of a way on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StepOn {
    /// Time from now until it is done, in µs.
    pub after: u64,
    /// The step's name in the procedure.
    pub step: String,
    /// What is done. `None`: wait.
    pub intent: Option<Intent>,
    /// The same as it reads right before it is done, with the product that is chosen by then and
    /// the slot that is asked about. Starts that look alike agree on it, as on all the rest.
    pub message: Option<Message>,
    /// Where one stands for it.
    pub stand: Stand,
}

/// A safe way on, as far as it can be told.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WayOn {
    /// The way of the procedure, by number.
    pub way: usize,
    /// The steps until something new is seen or heard, walks left out. At least one.
    pub steps: Vec<StepOn>,
    /// Whether these are all: the last one reports the job done.
    pub ends: bool,
    /// The least and the most time from now to the end, in µs, over the starts of the drill that
    /// look like this one so far. The neighbours choose nothing by themselves.
    pub to_end: (u64, u64),
    /// How many starts of the drill look like this one so far, this one included.
    pub alike: usize,
    /// Whether the rules that were broken so far leave a pass. Harm is no sign, so nothing is said
    /// of it.
    pub may_pass: bool,
}

/// Why there is no safe way on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoWayOn {
    /// Nothing can be done any more.
    Over,
    /// The written procedure knows no step for a moment on the way. The step that it stood at, if
    /// it stood at one.
    NoStep(Option<String>),
    /// The written procedure has an end from here, but something of the job would still be open.
    Open,
    /// The written procedure has an end from here, but on the way a rule would be broken or harm
    /// done.
    Breaks,
}

/// A safe way on from this moment, or why there is none. What is answered depends on the drill and
/// on what was done and perceived so far, never on what was not.
///
/// # Errors
/// Why there is none.
pub fn way_on(attempt: &Attempt, exercise: &Exercise) -> Result<WayOn, NoWayOn> {
    if attempt.is_over() {
        return Err(NoWayOn::Over);
    }
    let alike = alike(attempt, exercise);
    let taken = way_taken(attempt, &exercise.procedure);
    let others = (0..exercise.procedure.ways.len()).filter(|way| *way != taken);
    let mut none = NoWayOn::NoStep(None);
    for (number, way) in [taken].into_iter().chain(others).enumerate() {
        let runs = alike.iter().map(|one| run_on(one, exercise, way));
        match runs.collect::<Result<Vec<_>, _>>() {
            Ok(runs) => return Ok(told(attempt, way, &runs)),
            Err(why) if number == 0 => none = why,
            Err(_) => {}
        }
    }
    Err(none)
}

/// This attempt and those at other starts of the drill that look like it: the same was done, and
/// the same was perceived.
fn alike(attempt: &Attempt, exercise: &Exercise) -> Vec<Attempt> {
    let own = attempt.world().variant();
    let others = exercise.drill.variants.iter().enumerate();
    let others = others.filter(|(_, variant)| variant.id != own.id);
    let others = others.filter_map(|(number, _)| {
        let mut other = Attempt::new(exercise.judged(number)?);
        for done in attempt.done() {
            other.wait(done.at - other.at());
            other.do_at_once(done.cause).ok()?;
        }
        other.wait(attempt.at() - other.at());
        looks_like(&other, attempt).then_some(other)
    });
    std::iter::once(attempt.clone()).chain(others).collect()
}

fn looks_like(one: &Attempt, other: &Attempt) -> bool {
    fn signs(attempt: &Attempt) -> impl Iterator<Item = (u64, JudgedOutcome)> {
        let heard = attempt.heard().iter().filter(|one| is_sign(one));
        heard.map(|heard| (heard.at, heard.outcome))
    }
    let shown = |attempt: &Attempt| {
        let (world, state) = (attempt.world(), &attempt.state().world);
        (world.panel(state), world.conditions(state, None))
    };
    signs(one).eq(signs(other)) && shown(one) == shown(other) && one.offers() == other.offers()
}

fn is_sign(heard: &Heard) -> bool {
    matches!(heard.outcome, JudgedOutcome::World(Outcome::Sign(_)))
}

/// What the guide would do from the end of an attempt on.
struct RunOn {
    steps: Vec<StepOn>,
    ends: bool,
    takes: u64,
}

fn run_on(attempt: &Attempt, exercise: &Exercise, way: usize) -> Result<RunOn, NoWayOn> {
    let (causes, since) = (attempt.causes(), u64::from(attempt.since().0));
    let procedure = &exercise.procedure;
    let name = |step: usize| procedure.steps.get(step).map(|step| step.name.clone());
    let run = GuideRun::go_on(attempt.judged(), procedure, way, (&causes, since));
    let run = run.map_err(|stuck| NoWayOn::NoStep(stuck.step.and_then(name)))?;
    let other = follow(attempt, &run.causes).ok_or(NoWayOn::Breaks)?;
    if breaks(&other, attempt.heard().len()) {
        return Err(NoWayOn::Breaks);
    }
    if !ends_well(&other) {
        return Err(NoWayOn::Open);
    }
    let takes = other.at() - attempt.at();
    if let (Some((step, None)), _) = along(attempt, exercise, way) {
        let wait = name(step).map(|step| StepOn {
            after: 0,
            step,
            intent: None,
            message: None,
            stand: attempt.state().world.person.stand,
        });
        let steps = wait.into_iter().collect();
        return Ok(RunOn {
            steps,
            ends: false,
            takes,
        });
    }
    let steps = until_news(
        attempt,
        &other,
        &mut run.steps.iter().map(|step| name(*step)),
    );
    let ends = steps.last().and_then(|step| step.intent) == Some(Intent::Report);
    Ok(RunOn { steps, ends, takes })
}

/// The doings of `other` after those of `attempt`, walks left out, until something new is seen,
/// heard or waited for. `names` are those of the steps that they do, in their order.
fn until_news(
    attempt: &Attempt,
    other: &Attempt,
    names: &mut dyn Iterator<Item = Option<String>>,
) -> Vec<StepOn> {
    let from = attempt.done().len();
    let (world, history) = (other.world(), History::of(other));
    let mut stand = attempt.state().world.person.stand;
    let mut steps = Vec::new();
    for (number, done) in other.done().iter().enumerate().skip(from) {
        if number > from && comes_late(other, number, stand) {
            break;
        }
        match done.cause {
            Cause::Did(Intent::Walk(to)) => stand = to,
            Cause::Chose(_) => {}
            Cause::Did(intent) => {
                let there = history.before_doing(number);
                steps.extend(names.next().flatten().map(|step| StepOn {
                    after: done.at - attempt.at(),
                    step,
                    intent: Some(intent),
                    message: there.map(|there| of_intent(world, &there.world, intent)),
                    stand,
                }));
                if brings_news(intent) {
                    break;
                }
            }
        }
    }
    steps
}

/// What can be told of runs from starts that look alike: the steps in which they agree.
fn told(attempt: &Attempt, way: usize, runs: &[RunOn]) -> WayOn {
    let first = &runs[0];
    let agree = |number: &usize| {
        let step = first.steps.get(*number);
        runs.iter().all(|run| run.steps.get(*number) == step)
    };
    let count = (0..first.steps.len()).take_while(agree).count();
    let times = || runs.iter().map(|run| run.takes);
    let to_end = (times().min(), times().max());
    WayOn {
        way,
        ends: first.ends && count == first.steps.len(),
        steps: first.steps[..count].to_vec(),
        to_end: (to_end.0.unwrap_or(0), to_end.1.unwrap_or(0)),
        alike: runs.len(),
        may_pass: may_pass(attempt),
    }
}

/// Whether the doing with this number was waited for, or something was heard between the one before
/// it and it: what comes next may follow from that. `stand` is where the person stood before it.
fn comes_late(attempt: &Attempt, number: usize, stand: Stand) -> bool {
    let done = attempt.done();
    let (before, now) = (&done[number - 1], &done[number]);
    let pace = match now.cause {
        Cause::Did(intent) => attempt.world().hall().pace.of(intent, stand),
        Cause::Chose(_) => Micros(0),
    };
    let heard = &attempt.heard()[before.heard..now.heard];
    now.since > pace || heard.iter().any(|one| one.at < now.at && is_sign(one))
}

/// Whether what comes after this depends on what nobody has seen yet: a look, a reach for a board,
/// and whatever moves the machine.
fn brings_news(intent: Intent) -> bool {
    match intent {
        Intent::Look(_)
        | Intent::Take(_)
        | Intent::PutIn(_)
        | Intent::TakeFromBelt
        | Intent::TakeFromMouth
        | Intent::ClearScrew
        | Intent::WipeLenses => true,
        Intent::Press(button) => matches!(
            button,
            Button::Start | Button::Reset | Button::Answer(_) | Button::Order(_) | Button::Set(_)
        ),
        _ => false,
    }
}

/// The attempt with these causes, of which it has done the first ones. `None` if one of them cannot
/// be done.
pub(crate) fn follow(attempt: &Attempt, causes: &[Timed]) -> Option<Attempt> {
    let mut other = Attempt::new(attempt.judged().clone());
    for &(span, cause) in causes {
        other.wait(u64::from(span.0));
        other.do_at_once(cause).ok()?;
    }
    Some(other)
}

/// Whether an attempt ends as it should, and nothing that it heard after the first `before`
/// outcomes is a breach that can fail it, or a harm.
pub fn is_safe(attempt: &Attempt, before: usize) -> bool {
    ends_well(attempt) && !breaks(attempt, before)
}

fn ends_well(attempt: &Attempt) -> bool {
    attempt.world().finished(&attempt.state().world)
}

fn breaks(attempt: &Attempt, before: usize) -> bool {
    let rules = &attempt.judged().rules().list;
    let fails = |heard: &Heard| match heard.outcome {
        JudgedOutcome::Broke(rule) => rules
            .get(usize::from(rule))
            .is_none_or(|rule| rule.severity != Severity::Minor),
        JudgedOutcome::World(outcome) => matches!(outcome, Outcome::Harm(_)),
    };
    let new = attempt.heard().get(before..).unwrap_or_default();
    new.iter().any(fails)
}

fn may_pass(attempt: &Attempt) -> bool {
    let rules = &attempt.judged().rules().list;
    let broken = |severity: Severity| {
        let broke = attempt.heard().iter().filter(|heard| match heard.outcome {
            JudgedOutcome::Broke(rule) => rules
                .get(usize::from(rule))
                .is_some_and(|rule| rule.severity == severity),
            JudgedOutcome::World(_) => false,
        });
        broke.count()
    };
    let majors = u32::try_from(broken(Severity::Major)).unwrap_or(u32::MAX);
    broken(Severity::Stop) == 0 && majors <= attempt.world().drill().limits.majors
}

/// What was done until a moment, what was done at it included.
pub(crate) fn done_until(done: &[Done], at: u64) -> usize {
    done.partition_point(|done| done.at <= at)
}

#[cfg(test)]
#[path = "way_on_tests.rs"]
mod tests;
