//! The verdict on an attempt: three questions, each answered with its evidence.

use rackproof_alignment::Fitness;
use rackproof_buffer::{Halves, Harm};
use rackproof_drill::{Cause, FinishItem, Intent};
use rackproof_model::Micros;

use crate::{
    Guess, Judged, JudgedState, Marks, Outturn, Procedure, References, Severity,
    margins::{Margin, Missed},
    replay::Replay,
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
    /// What had been looked at by then, by looks that were not void.
    pub looked: Looked,
    /// By how much the rule was missed, if it has a margin, or what could not be read.
    pub missed: Option<Missed>,
}

/// What was seen in the rack by looks that still count.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Looked {
    /// Half-slots seen empty.
    pub empty: Halves,
    /// Half-slots in which a board was seen.
    pub boards: Halves,
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
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Grade {
    /// The verdict.
    pub verdict: Verdict,
    /// Rules broken, in the order of time.
    pub breaches: Vec<Breach>,
    /// Harms, in the order of time.
    pub harms: Vec<(Moment, Harm)>,
    /// Signs that something was guessed, in the order of time. They explain; the verdict does not
    /// rest on them.
    pub guesses: Vec<Guess>,
    /// What of the finish does not hold.
    pub unfinished: Vec<FinishItem>,
    /// Whether the job was reported done: the finish is not reached before.
    pub reported: bool,
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
    /// The least margin of each rule with a window, or with a width, that was put to the test.
    pub margins: Vec<Margin>,
    /// What the attempt left behind: boards, and a line that stood.
    pub outturn: Outturn,
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
    pub marks: &'g Marks,
    /// The causes.
    pub causes: &'g [(Micros, Cause)],
    /// Time after the last cause, in µs.
    pub after: u64,
    /// The guide's times, if they are known already: whoever grades many attempts at one variant
    /// works them out once. Without, the guide plays the way that the attempt came nearest to.
    pub references: Option<&'g References>,
}

impl Grade {
    /// Grades an attempt. The causes must have been on offer; `attempt` sees to it.
    pub fn of(input: GradeInput<'_>) -> Grade {
        let mut replay = Replay::new(input);
        for &(before, cause) in input.causes {
            replay.wait(u64::from(before.0));
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
