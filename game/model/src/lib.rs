//! What a thing must be so that it can be run in real time and explored completely.
//!
//! - [`Model`]: the one trait. `attempt` runs it against a clock, `prove` explores all of it.
//! - [`quantity`]: whole numbers with their unit in the type.
//! - [`key`]: exact keys of a state, written and read by one and the same description.
//!
//! This crate knows no machine, no person, no file and no clock. It depends on nothing.
#![deny(clippy::float_arithmetic)]

mod instants;
pub mod key;
mod model;
pub mod quantity;

pub use instants::Instants;
pub use model::{Model, Stride};
pub use quantity::{Micrometres, Micros};
