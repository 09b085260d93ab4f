//! Rules over time, the procedure and its guide, and the verdict with its evidence.
//!
//! - [`Rules`] are past-time formulas over intents and signs; [`Judged`] is the world together with
//!   their monitors, and what `attempt` and `prove` both run.
//! - [`Procedure`] is a list of steps with its ways; [`Guide`] interprets it from signs only.
//! - [`Analysis`] says in which orders its steps may be completed; an attempt is laid beside it.
//! - [`Grade`] is the verdict: finish, breaches, harms, each line with its evidence.
//!
//! No rule reads truth: an [`Observation`] holds intents and signs alone, and formulas see nothing
//! else.
#![deny(clippy::float_arithmetic)]

mod analysis;
mod asks;
mod changes;
mod circuit;
mod compile;
mod decided;
mod diagram;
mod evidence;
mod forms;
mod formula;
mod guesses;
mod guide;
mod judged;
mod known;
mod limits;
mod listener;
mod margins;
mod observation;
mod outturn;
mod plan;
mod pointless;
mod prepared;
mod procedure;
mod reads;
mod references;
mod replay;
mod rules;
mod set_clocks;
mod time;
mod turn;
mod verdict;
mod watch;
mod widths;

#[cfg(test)]
mod changes_tests;
#[cfg(test)]
mod decided_tests;
#[cfg(test)]
mod definition;
#[cfg(test)]
mod formula_tests;
#[cfg(test)]
mod judged_tests;
#[cfg(test)]
mod limit_tests;
#[cfg(test)]
mod outside_tests;
#[cfg(test)]
mod set_window_tests;
#[cfg(test)]
mod width_tests;
#[cfg(test)]
mod window_tests;

pub use analysis::{Analysis, Backing, Completion};
pub use compile::Definitions;
pub use evidence::{Evidence, Sighted};
pub use forms::OutsideForms;
pub use formula::Program;
pub use guesses::{AT_ONCE, Guess, GuessKind};
pub use guide::{Guide, GuideRun, Stuck, Timed};
pub use judged::{Judged, JudgedOutcome, JudgedState};
pub use limits::RULES_MOST;
pub use margins::{Margin, Missed, Spare};
pub use observation::Observation;
pub use outturn::Outturn;
pub use prepared::Marks;
pub use procedure::{Doing, Procedure, Step};
pub use rackproof_alignment::Fitness;
pub use reads::Reads;
pub use references::References;
pub use rules::{Rule, Rules, Severity};
pub use verdict::{Breach, Grade, GradeInput, Looked, Moment, StepDone, StepFound, Verdict};
pub use watch::Watch;
pub use widths::WidthRead;
