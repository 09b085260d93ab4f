//! The board buffer itself: geometry, motion, beams, controller, and what breaks.
//!
//! ```text
//!  upstream ──► infeed belt │ rack on its lift, slots 1..n │ outfeed belt ──► downstream
//!                          mouth                          mouth
//! ```
//!
//! - [`Machine`] holds the constants, [`State`] all that changes, [`Outcome`] what it publishes.
//! - The controller is the `impl Machine` blocks of `panel`, `changeover`, `clear_out`,
//!   `production` and `switches`; time passes in `time`.
//! - Truth (where boards and rails are) and belief (the slot map, the step count) are apart in
//!   [`State`]; only beams carry the one to the other.
//!
//! This crate knows no person, no file, no clock and no word of any language.
#![deny(clippy::float_arithmetic)]

mod beams;
mod board;
mod changeover;
mod clear_out;
mod coding;
mod elastica;
mod faults;
mod halves;
mod handling;
mod lift;
mod lying;
mod machine;
mod motion;
mod outcome;
mod panel;
mod phase;
mod places;
mod production;
mod rack;
mod rails;
mod state;
mod switches;
mod time;
mod transport;
mod unit;

#[cfg(test)]
mod deeds;
#[cfg(test)]
mod handshake_tests;
#[cfg(test)]
mod motion_tests;
#[cfg(test)]
mod run_tests;
#[cfg(test)]
mod sample;
#[cfg(test)]
mod trial;
#[cfg(test)]
mod trial_belief;
#[cfg(test)]
mod trial_rules;
#[cfg(test)]
mod trial_tests;

pub use beams::Beam;
pub use board::{Board, BoardKind, Condition, Cutout};
pub use elastica::{Bow, bow_at_curvature, bow_at_shortening};
pub use faults::{
    BeamFault, BeamName, BoardFault, BoardPlace, Contact, FAULTS_MOST, Fault, Faults, impact_speed,
};
pub use halves::{Half, HalfSlot, Halves};
pub use handling::{Hand, Handling};
pub use lying::{Lying, LyingOn};
pub use machine::{
    Axes, Behaviours, FirstZero, KINDS_MOST, Machine, MachineParts, Mistrust, Press, Product,
    ReadyRule, SLOTS_MOST,
};
pub use motion::{Axis, Motion};
pub use outcome::{Alarm, AxisName, Harm, HarmKind, Hear, Outcome, Place, Question, Refusal, Side};
pub use panel::{Answer, Button};
pub use phase::{Mode, Phase, Task};
pub use rack::Rack;
pub use state::{LiftPlace, SlotMap, State};
pub use unit::{Command, UnitState};
