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
mod beyond;
mod board;
mod changeover;
mod clear_out;
mod coding;
mod defect;
mod drawing_back;
mod elastica;
mod facts;
mod faults;
mod flow;
mod forgetting;
mod halves;
mod handling;
mod heights;
mod incoming;
mod lamps;
mod leads;
mod leaving;
mod lift;
mod lying;
mod machine;
mod motion;
mod orders;
mod outcome;
mod panel;
mod passing;
mod phase;
mod places;
mod production;
mod products;
mod rack;
mod rails;
mod reckoning;
mod runners;
mod service;
mod settings;
mod smooth;
mod squeezing;
mod state;
mod storing;
mod switches;
mod time;
mod timers;
mod transport;
mod unit;
mod unordered;

#[cfg(test)]
mod changeover_tests;
#[cfg(test)]
mod deeds;
#[cfg(test)]
mod handshake_tests;
#[cfg(test)]
mod interval_tests;
#[cfg(test)]
mod line;
#[cfg(test)]
mod motion_tests;
#[cfg(test)]
mod order_tests;
#[cfg(test)]
mod plant;
#[cfg(test)]
mod reckoning_tests;
#[cfg(test)]
mod run_tests;
#[cfg(test)]
mod sample;
#[cfg(test)]
mod sending_tests;
#[cfg(test)]
mod tandem_tests;
#[cfg(test)]
mod trial;
#[cfg(test)]
mod trial_belief;
#[cfg(test)]
mod trial_rules;
#[cfg(test)]
mod trial_tests;
#[cfg(test)]
mod variants;

pub use alarms::{AlarmEvent, AlarmState, Alarms};
pub use beams::{Beam, BeamSort};
pub use beyond::Neighbouring;
pub use board::{Board, BoardKind, Condition, Cutout};
pub use defect::{Defect, Invariant};
pub use elastica::{Bow, bow_at_curvature, bow_at_shortening};
pub use facts::StateFact;
pub use faults::{
    BeamFault, BeamName, BoardFault, BoardPlace, Contact, FAULTS_MOST, Fault, Faults, impact_speed,
};
pub use halves::{Half, HalfSlot, Halves};
pub use handling::{Hand, Handling};
pub use lamps::{Colour, Control, Lamp};
pub use lying::{Lying, LyingOn};
pub use machine::{
    Axes, Behaviours, FirstZero, KINDS_MOST, Machine, MachineParts, Mistrust, Press, Product,
    ReadyRule, SLOTS_MOST,
};
pub use motion::{Axis, Motion};
pub use outcome::{
    Alarm, AxisName, Harm, HarmKind, Hear, Listener, Outcome, Place, Question, Refusal, Side,
};
pub use panel::{Answer, Button};
pub use phase::{Mode, Phase, Task};
pub use rack::Rack;
pub use reckoning::{Capacity, ClearOutByBelt, ClearOutByHand, Drain, Sending};
pub use service::{
    Asks, CONFIRM_MOST, Level, SIDE_PLAY, Saved, Service, ServiceParts, Setting, Settings,
    Unfitted, WIDTH_OFFSET_MOST,
};
pub use squeezing::{Member, Squeeze};
pub use state::{LiftPlace, SlotMap, State};
pub use storing::{
    DrawBack, INTERVAL_MOST, MiddleBeam, Order, Priority, ProductStoring, Scope, Storing,
};
pub use timers::Timer;
pub use unit::{Command, Edition, UnitState};
pub use unordered::Shuffle;
