//! Explores all of a [`Model`](rackproof_model::Model): every state that its persons, its
//! environment and time can bring about, each found by a shortest way.
//!
//! - [`explore`] searches breadth first. What to look for is a set of flags that the caller
//!   computes for each state.
//! - [`Hands`] work side by side, if the caller has some: the search itself knows no thread.
//! - [`Exploration`] is what was found: counts, the first state of each flag, and how to get there.
//! - [`Witness`] is a way from a start to a state, cause by cause; [`replay`] runs it.
//! - [`Congruence`] asks for the check that states with one key really behave alike.
//!
//! Keys are compared in full, never by a fingerprint. This crate knows no machine, no person, no
//! file and no clock; all of its results depend on the model and the settings only.
#![deny(clippy::float_arithmetic)]

mod batch;
mod congruence;
mod exploration;
mod explore;
mod graph;
mod hands;
mod moves;
mod nodes;
mod settings;
mod share;
mod stretch;
mod table;
mod witness;

#[cfg(test)]
mod outside;
#[cfg(test)]
mod random;
#[cfg(test)]
mod toys;

pub use congruence::{By, Difference, Incongruence, Successor};
pub use exploration::{End, Exploration};
pub use explore::{Progress, explore, explore_by};
pub use graph::Corners;
pub use hands::{Hands, OneHand};
pub use nodes::Node;
pub use settings::{Congruence, Settings};
pub use witness::{Misstep, Step, Witness, replay};
