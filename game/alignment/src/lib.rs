//! Lays what was done beside the nearest way that a task allows.
//!
//! - A [`Task`] is a tree: steps, one after another, in any order, one of several, optional,
//!   repeated, for each instance. [`Tasks`] is the tree, checked and prepared.
//! - [`Tasks::align`] takes a trace of [`Event`]s and gives an [`Alignment`] of least cost: each
//!   missing step costs 1, each event that is not needed costs its weight.
//! - Each [`Finding`] says whether it is *certain*: whether every alignment of least cost has it.
//!
//! Labels are numbers: what they mean is the business of the caller. What stands in any order is
//! never unfolded: its parts have labels of their own, so that each part is aligned by itself with
//! the events that bear its labels. The rest is a shortest way through a small automaton.
//!
//! The cost is that of optimal alignments (Adriansyah 2014, from memory) with unit costs; the tests
//! compare it with a plain search and with the figures of another aligner.
#![deny(clippy::float_arithmetic)]

mod alignment;
mod explain;
mod facts;
mod frame;
mod problem;
mod run;
mod sweep;
mod task;

#[cfg(test)]
mod tests;

pub use alignment::{Alignment, Became, Finding, Fitness, Other};
pub use explain::Move;
pub use frame::Tasks;
pub use problem::{BLOCKS_MOST, DEPTH_MOST, EVENTS_MOST, LABELS_MOST, PLACES_MOST, Problem};
pub use task::{Event, Label, Task};
