//! The world of one exercise: the machine, its neighbours, and the person in front of it.
//!
//! - [`World`] holds the constants of one drill and one variant, [`State`] all that changes.
//! - [`Intent`] is what a person does, [`Chance`] what the environment chooses; [`Cause`] is
//!   either. `offers` is the only door: nothing can be done that is not listed there.
//! - [`Outcome`] is a [`Sign`] (somebody standing there can perceive it), a [`Fact`] (true, and
//!   nobody is told) or a harm. No code turns a fact into a sign but [`sight`] and the panel.
//! - [`message`] gives ids and arguments for all that can be said, in no language.
//! - [`mod@file`] reads machine and drill files from raw to checked.
#![deny(clippy::float_arithmetic)]

mod act;
mod coding;
mod condition;
mod cues;
mod drill;
mod faults;
pub mod file;
mod finish;
mod intent;
pub mod message;
mod model;
mod neighbours;
mod offers;
mod pace;
mod person;
mod plugs;
mod relay;
pub mod sight;
mod sign;
mod strides;
mod timers;
mod typed;
mod vantage;
mod view;
mod widths;
mod world;

#[cfg(test)]
mod fault_cases;
#[cfg(test)]
mod fault_tests;
#[cfg(test)]
mod fault_walk_tests;
#[cfg(test)]
mod fuzz_files;
#[cfg(test)]
mod fuzz_rules;
#[cfg(test)]
mod fuzz_tests;
#[cfg(test)]
mod neighbour_line;
#[cfg(test)]
mod neighbour_tests;
#[cfg(test)]
mod offers_tests;
#[cfg(test)]
mod plug_tests;
#[cfg(test)]
mod quirk_tests;
#[cfg(test)]
mod world_tests;

pub use coding::Ending;
pub use condition::{Condition, Conditions};
pub use cues::Cue;
pub use drill::{Arming, Drill, Left, Limits, Neighbours, Page, Start, Trap, Variant};
pub use faults::{Comes, DrillFault};
pub use finish::FinishItem;
pub use intent::{Aim, Cause, Chance, Intent, IntentKind, Tray};
pub use neighbours::{
    Available, Downstream, FailedLine, Lapse, RailsWidth, Ready, SignalLamps, Upstream, Works,
};
pub use pace::Pace;
pub use person::{Person, Stand};
pub use plugs::{Plugs, ShieldPin};
pub use sign::{Fact, MachineSign, Outcome, Sign, SignKind, Told, VoidCause};
pub use strides::{Mergers, Reaches};
pub use typed::WidthSlip;
pub use vantage::{InView, Vantage};
pub use view::PanelView;
pub use widths::{Unread, Width, Widths};
pub use world::{Hall, State, World};
