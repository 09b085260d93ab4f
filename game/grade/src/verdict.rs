//! The verdict on an attempt: three questions, each answered with its evidence.

use rackproof_alignment::Fitness;
use rackproof_buffer::Harm;
use rackproof_drill::{Cause, FinishItem, Intent};
use rackproof_model::{Micros, Model};

use crate::{
    GuideRun, Judged, JudgedOutcome, JudgedState, Observation, Procedure, Program, Severity, Watch,
    analysis::Course,
    formula::Values,
    margins::{Margin, Margins},
};

/// When something happened in an attempt.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Moment {
    /// Time since the start, in µs.
    pub at: u64,
    /// The number of the cause in the journal that it came with, or that came last, from 0. `None`
    /// before the first.
    pub cause: Option<usize>,
}

/// A rule that was broken, with its evidence.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Breach {
    /// When.
    pub moment: Moment,
    /// The number of the rule.
    pub rule: usize,
    /// What was being done, if something was.
    pub intent: Option<Intent>,
    /// The state at that moment, before it was done: what was true, what was believed.
    pub state: JudgedState,
}

/// What became of a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StepDone {
    /// Done at this moment, in its place.
    Done(Moment),
    /// Done at this moment, but out of its order.
    Moved(Moment),
    /// Not done, though the nearest way asks for it.
    Missing,
    /// Done at this moment, and the nearest way does not ask for it, or not once more.
    NotNeeded(Moment),
}

/// A step of the task analysis, as an attempt did it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct StepFound {
    /// The number of the step in [`crate::Analysis::steps`].
    pub step: usize,
    /// For which slot, from 0, if it is done for each.
    pub slot: Option<u8>,
    /// What became of it.
    pub done: StepDone,
    /// Whether the same became of it in every nearest way. If not, it is possible only.
    pub certain: bool,
    /// Whether it did so at this very moment in every nearest way.
    pub placed: bool,
}

/// The verdict.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Passed.
    Passed,
    /// Failed.
    Failed,
    /// The attempt did not end: no verdict.
    NotEnded,
}

/// A grade: the verdict and every line of its evidence.
#[derive(Clone, Debug)]
pub struct Grade {
    /// The verdict.
    pub verdict: Verdict,
    /// Rules broken, in the order of time.
    pub breaches: Vec<Breach>,
    /// Harms, in the order of time.
    pub harms: Vec<(Moment, Harm)>,
    /// What of the finish does not hold.
    pub unfinished: Vec<FinishItem>,
    /// Traps that were sprung, first at this moment, by number.
    pub sprung: Vec<(Moment, usize)>,
    /// Milestones met, first at this moment, by number.
    pub milestones: Vec<(Moment, usize)>,
    /// The way that the attempt came nearest to.
    pub way: usize,
    /// The attempt beside that way: its steps, in their order.
    pub steps: Vec<StepFound>,
    /// How well the attempt fits that way. It explains; the verdict does not rest on it. `None` if
    /// more was done than can be laid beside a way (1,000 steps): then `steps` is empty.
    pub fitness: Option<Fitness>,
    /// The least margin of each rule with a window that was put to the test.
    pub margins: Vec<Margin>,
    /// Time of the attempt, in µs.
    pub time: u64,
    /// The guide's time on that way, in µs.
    pub reference: Option<u64>,
}

/// What a grade is made from: causes, each with the time since the one before, and the time that
/// passed after the last.
#[derive(Clone, Copy, Debug)]
pub struct GradeInput<'g> {
    /// The pair of world and rules.
    pub judged: &'g Judged,
    /// The procedure.
    pub procedure: &'g Procedure,
    /// Traps and milestones, as [`crate::Rules::marks`] gives them.
    pub marks: (&'g Program, &'g [u16]),
    /// The causes.
    pub causes: &'g [(Micros, Cause)],
    /// Time after the last cause, in µs.
    pub after: u64,
}

/// One replay.
struct Replay<'g> {
    input: GradeInput<'g>,
    state: JudgedState,
    marks: Watch,
    margins: Margins<'g>,
    course: Course<'g>,
    now: Moment,
    grade: Grade,
}

impl Grade {
    /// Grades an attempt. The causes must have been on offer; `attempt` sees to it.
    pub fn of(input: GradeInput<'_>) -> Grade {
        let mut replay = Replay::new(input);
        for (number, &(before, cause)) in input.causes.iter().enumerate() {
            replay.wait(u64::from(before.0));
            replay.now.cause = Some(number);
            replay.cause(cause);
        }
        replay.wait(input.after);
        replay.finish()
    }

    /// How many breaches of a severity there are.
    pub fn count(&self, judged: &Judged, severity: Severity) -> usize {
        let of = |breach: &&Breach| judged.rules().list[breach.rule].severity == severity;
        self.breaches.iter().filter(of).count()
    }
}

impl<'g> Replay<'g> {
    fn new(input: GradeInput<'g>) -> Replay<'g> {
        let state = input.judged.start();
        let world = input.judged.world();
        Replay {
            state,
            marks: Watch::default(),
            margins: Margins::new(input.judged.rules()),
            course: Course::new(&input.procedure.analysis, world, &state.world),
            now: Moment { at: 0, cause: None },
            grade: Grade {
                verdict: Verdict::NotEnded,
                breaches: Vec::new(),
                harms: Vec::new(),
                unfinished: Vec::new(),
                sprung: Vec::new(),
                milestones: Vec::new(),
                way: 0,
                steps: Vec::new(),
                fitness: None,
                margins: Vec::new(),
                time: 0,
                reference: None,
            },
            input,
        }
    }

    fn wait(&mut self, span: u64) {
        let mut left = span;
        while left > 0 {
            let next = self.next_event().map_or(left, |next| u64::from(next.0));
            let part = next.min(left).min(1_000_000_000);
            self.now.at += part;
            left -= part;
            let (judged, mut after, mut heard) =
                (self.input.judged, Observation::default(), Vec::new());
            let before = self.state;
            self.pass(Micros(part as u32));
            judged.advance(&mut self.state, Micros(part as u32), &mut |outcome| {
                heard.push(outcome)
            });
            self.take(&heard, &mut after, None, before);
            if after.has_signs() {
                after.settle(judged.world(), &self.state.world);
                self.observe(&after);
            } else {
                self.observe(&Observation::quiet(judged.world(), &self.state.world));
            }
        }
    }

    /// The next event of the pair, or the next at which a window of a trap or milestone runs out.
    fn next_event(&self) -> Option<Micros> {
        let (judged, (program, _)) = (self.input.judged, self.input.marks);
        let quiet = Observation::quiet(judged.world(), &self.state.world);
        let own = program.next_quiet_change(self.marks, &quiet);
        let events = [judged.next_event(&self.state), own];
        events.into_iter().flatten().min()
    }

    /// Lets a span pass for all that perceives, up to the moment at its end.
    fn pass(&mut self, span: Micros) {
        let (world, state) = (self.input.judged.world(), self.state.world);
        let quiet = Observation::quiet(world, &state);
        self.course.pass(&quiet, span);
        self.margins.pass(&quiet, span, self.now);
        let (program, _) = self.input.marks;
        if program.gaps_matter {
            // No window runs out before its end: what holds in its first gap holds in all.
            let mut first = self.marks;
            program.age(&mut first, 1);
            self.note_marks(&program.at_moment::<true>(&mut first, &quiet));
            program.pass_quietly(&mut self.marks, span, &quiet);
        }
    }

    fn cause(&mut self, cause: Cause) {
        let judged = self.input.judged;
        let (before, mut intent) = (self.state, None);
        if let Cause::Did(did) = cause {
            intent = Some(did);
            self.observe(&Observation::before(judged.world(), &self.state.world, did));
        }
        let (mut after, mut heard) = (Observation::default(), Vec::new());
        judged.act(&mut self.state, cause, &mut |outcome| heard.push(outcome));
        self.take(&heard, &mut after, intent, before);
        if intent.is_some() || after.has_signs() {
            after.settle(judged.world(), &self.state.world);
            self.observe(&after);
        }
    }

    fn take(
        &mut self,
        heard: &[JudgedOutcome],
        after: &mut Observation,
        intent: Option<Intent>,
        before: JudgedState,
    ) {
        for outcome in heard {
            match outcome {
                JudgedOutcome::Broke(rule) => self.grade.breaches.push(Breach {
                    moment: self.now,
                    rule: usize::from(*rule),
                    intent,
                    state: before,
                }),
                JudgedOutcome::World(outcome) => {
                    after.hear(outcome);
                    if let rackproof_drill::Outcome::Harm(harm) = outcome {
                        self.grade.harms.push((self.now, *harm));
                    }
                }
            }
        }
    }

    fn observe(&mut self, seen: &Observation) {
        self.course.perceive(seen, self.now);
        self.margins.observe(seen, self.now);
        let (program, _) = self.input.marks;
        if program.gaps_matter || !seen.is_quiet() {
            let values = program.step(&mut self.marks, seen);
            self.note_marks(&values);
        }
    }

    fn note_marks(&mut self, values: &Values<'_>) {
        let (_, roots) = self.input.marks;
        let traps = self.input.judged.world().drill().traps.len();
        let met = roots
            .iter()
            .enumerate()
            .filter(|(_, root)| values.truth(**root));
        for (number, _) in met {
            let (list, number) = if number < traps {
                (&mut self.grade.sprung, number)
            } else {
                (&mut self.grade.milestones, number - traps)
            };
            if list.iter().all(|(_, known)| *known != number) {
                list.push((self.now, number));
            }
        }
    }

    fn finish(mut self) -> Grade {
        let judged = self.input.judged;
        self.grade.time = self.now.at;
        self.grade.margins =
            std::mem::replace(&mut self.margins, Margins::new(self.input.judged.rules())).finish();
        self.grade.unfinished = judged.world().unfinished(&self.state.world).collect();
        self.grade.verdict = self.verdict();
        if let Some(aligned) = self.course.align() {
            self.grade.way = aligned.way;
            self.grade.steps = aligned.steps;
            self.grade.fitness = Some(aligned.fitness);
        }
        let reference = GuideRun::play(judged, self.input.procedure, self.grade.way);
        self.grade.reference = reference.ok().map(|run| run.time);
        self.grade
    }

    /// A stop breach or a harm decides whether or not the attempt ended.
    fn verdict(&self) -> Verdict {
        let (judged, state) = (self.input.judged, &self.state);
        let majors = self.grade.count(judged, Severity::Major) as u32;
        let stops = self.grade.count(judged, Severity::Stop);
        if judged.passes(state, majors) {
            Verdict::Passed
        } else if state.world.person.reported || stops > 0 || state.world.harms() != 0 {
            Verdict::Failed
        } else {
            Verdict::NotEnded
        }
    }
}
