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

mod alarms;
mod beams;
mod board;
mod changeover;
mod clear_out;
mod coding;
mod elastica;
mod halves;
mod lamps;
mod lift;
mod lying;
mod machine;
mod motion;
mod orders;
mod outcome;
mod panel;
mod phase;
mod places;
mod production;
mod products;
mod rack;
mod rails;
mod service;
mod settings;
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
mod trial_rules;
#[cfg(test)]
mod trial_tests;

pub use alarms::{AlarmEvent, AlarmState, Alarms};
pub use beams::Beam;
pub use board::{Board, BoardKind, Condition, Cutout};
pub use elastica::{Bow, bow_at_curvature, bow_at_shortening};
pub use halves::{Half, HalfSlot, Halves};
pub use lamps::{Colour, Control, Lamp};
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
pub use service::{
    Asks, CONFIRM_MOST, Level, Priority, SIDE_PLAY, Saved, Scope, Service, ServiceParts, Setting,
    Settings, Unfitted, WIDTH_OFFSET_MOST,
};
pub use state::{LiftPlace, SlotMap, State};
pub use unit::{Command, Edition, UnitState};
