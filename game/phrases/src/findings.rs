//! A grade as data with words: what the terminal prints and the debrief shows, so that both say the
//! same.

mod because;
mod evidence;
mod outturn;
mod steps;
mod teller;

use rackproof_attempt::Exercise;
use rackproof_buffer::Harm;
use rackproof_drill::{FinishItem, Intent};
use rackproof_grade::{Grade, Judged, Moment, Severity, Verdict};
use rackproof_words::Words;

use teller::Teller;

/// The verdict with every line of its evidence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Findings {
    /// The verdict.
    pub verdict: Verdict,
    /// The verdict in words.
    pub said: String,
    /// What it rests on, a sentence each. Empty if there is none yet.
    pub because: Vec<String>,
    /// The three questions, and the time.
    pub questions: Questions,
    /// Everything that is told, in the order of time. What has no moment stands last.
    pub list: Vec<Finding>,
    /// What went right: steps done in their place, each once, with its reason.
    pub right: Vec<RightTold>,
    /// What looks like a guess, in the order of time.
    pub guesses: Vec<GuessTold>,
    /// The result in boards and time, a sentence each: boards, order and traceability, the line.
    pub outturn: Vec<String>,
}

/// A step that was done in its place, in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RightTold {
    /// When, the first time.
    pub moment: Moment,
    /// What was done.
    pub said: String,
    /// Why that is right, or which finding says that it was not.
    pub why: String,
}

/// A sign that something was guessed, in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GuessTold {
    /// When.
    pub moment: Moment,
    /// What was done, and what is odd about it.
    pub said: String,
}

/// The three questions: counts, and each answered in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Questions {
    /// How many stop rules were broken, how often.
    pub stops: usize,
    /// The same of major rules.
    pub majors: usize,
    /// The same of minor rules.
    pub minors: usize,
    /// The way that the attempt came nearest to, in words.
    pub way: String,
    /// Steps of that way that were done in their place.
    pub done: usize,
    /// Steps of that way that were done, but out of their order.
    pub moved: usize,
    /// Steps of that way that are missing.
    pub missing: usize,
    /// Steps that were done and that this way does not ask for.
    pub unneeded: usize,
    /// Things that must hold at the end and do not.
    pub open: usize,
    /// Whether the job was reported done.
    pub reported: bool,
    /// Harms, without a strain on the way to breaking.
    pub harms: usize,
    /// How long the attempt took, in µs.
    pub time: u64,
    /// How long the guide takes on that way, in µs.
    pub reference: Option<u64>,
    /// Safety, answered.
    pub safety_said: String,
    /// Procedure, answered.
    pub procedure_said: String,
    /// Result, answered.
    pub result_said: String,
    /// Time, in words.
    pub time_said: String,
}

/// One line of the evidence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// When. `None` for what is missing or open at the end.
    pub moment: Option<Moment>,
    /// What.
    pub told: Told,
}

/// What a line of the evidence tells.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Told {
    /// A rule was broken.
    Breach(BreachTold),
    /// Something that cannot be taken back happened.
    Harm(HarmTold),
    /// A trap was sprung: what the debrief says of it.
    Trap(String),
    /// This must hold at the end and does not.
    Open(FinishItem, String),
    /// A step of the way that the attempt came nearest to.
    Step(StepTold, String),
}

/// A rule that was broken, in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BreachTold {
    /// How bad it is.
    pub severity: Severity,
    /// The same in a word.
    pub severity_said: String,
    /// The number of the rule.
    pub rule: usize,
    /// What was being done, if something was.
    pub intent: Option<Intent>,
    /// The same in words.
    pub done: String,
    /// By how much it was missed, if the rule has a time or a width. Empty if not.
    pub missed: String,
    /// What the rule asks.
    pub asks: String,
    /// What would have been right.
    pub right: String,
    /// Why.
    pub why: String,
    /// Where the rule comes from.
    pub source: String,
    /// What was true, believed, looked at, and to be seen.
    pub evidence: Box<EvidenceTold>,
}

/// What was so at a breach, in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EvidenceTold {
    /// Where boards truly lay.
    pub was_true: String,
    /// Where the person stood, and how the machine stood.
    pub around: String,
    /// What the slot map said.
    pub believed: String,
    /// What else the panel showed.
    pub panel: String,
    /// What had been looked at by then.
    pub looked: String,
    /// What could have been seen, and from where.
    pub visible: String,
}

/// A harm in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HarmTold {
    /// The harm, with the number that passed its limit.
    pub harm: Harm,
    /// Which board, if a board.
    pub board: Option<String>,
    /// Where, if a board.
    pub place: Option<String>,
    /// All of it: what, how far, the limit, what follows.
    pub said: String,
}

/// What became of a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum StepTold {
    /// Done in its place, first at its moment.
    Done,
    /// Done, but out of its order.
    Moved,
    /// Missing.
    Missing,
    /// Done, and not needed, or not once more.
    NotNeeded,
}

/// The id of a severity's name.
pub fn severity_id(severity: Severity) -> &'static str {
    match severity {
        Severity::Stop => "severity-stop",
        Severity::Major => "severity-major",
        Severity::Minor => "severity-minor",
    }
}

impl Findings {
    /// What a grade tells. `grade` must be one of an attempt at a variant of `exercise` that
    /// `judged` runs.
    pub fn of(judged: &Judged, exercise: &Exercise, grade: &Grade, words: &Words) -> Findings {
        let teller = Teller {
            judged,
            exercise,
            grade,
            words,
        };
        let mut list: Vec<Finding> = teller.breaches();
        list.extend(teller.harms());
        list.extend(teller.traps());
        list.extend(teller.open());
        list.extend(teller.steps());
        // Stable: what has the same moment keeps the order above.
        list.sort_by_key(|finding| match finding.moment {
            Some(moment) => (false, moment.at, moment.cause),
            None => (true, 0, None),
        });
        Findings {
            verdict: grade.verdict,
            said: words.say(verdict_id(grade.verdict), &[]),
            because: teller.because(),
            questions: teller.questions(&list),
            right: teller.right(),
            guesses: teller.guesses(),
            outturn: teller.outturn(),
            list,
        }
    }

    /// The harms that are told, in the order of time.
    pub fn harms(&self) -> impl Iterator<Item = (Moment, &HarmTold)> {
        self.list.iter().filter_map(|finding| match &finding.told {
            Told::Harm(harm) => finding.moment.map(|moment| (moment, harm)),
            _ => None,
        })
    }

    /// The broken rules, in the order of time.
    pub fn breaches(&self) -> impl Iterator<Item = (Moment, &BreachTold)> {
        self.list.iter().filter_map(|finding| match &finding.told {
            Told::Breach(breach) => finding.moment.map(|moment| (moment, breach)),
            _ => None,
        })
    }

    /// The sprung traps, in the order of time.
    pub fn traps(&self) -> impl Iterator<Item = (Moment, &str)> {
        self.list.iter().filter_map(|finding| match &finding.told {
            Told::Trap(said) => finding.moment.map(|moment| (moment, said.as_str())),
            _ => None,
        })
    }

    /// What is open at the end.
    pub fn open(&self) -> impl Iterator<Item = &str> {
        self.list.iter().filter_map(|finding| match &finding.told {
            Told::Open(_, said) => Some(said.as_str()),
            _ => None,
        })
    }

    /// The steps of which this became, with their moment if they were done. A step that is done for
    /// each slot is told once for all slots of which the same became.
    pub fn steps(&self, of: StepTold) -> impl Iterator<Item = (Option<Moment>, &str)> {
        self.list
            .iter()
            .filter_map(move |finding| match &finding.told {
                Told::Step(told, said) if *told == of => Some((finding.moment, said.as_str())),
                _ => None,
            })
    }
}

fn verdict_id(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Passed => "verdict-passed",
        Verdict::Failed => "verdict-failed",
        Verdict::NotEnded => "verdict-not-ended",
    }
}

#[cfg(test)]
#[path = "findings/findings_tests.rs"]
mod findings_tests;
