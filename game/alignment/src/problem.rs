//! How large tasks and traces may be, and what cannot be aligned.

use crate::Label;

/// Most levels of a task.
pub const DEPTH_MOST: usize = 32;
/// Most steps and blocks of one frame.
pub const PLACES_MOST: usize = 500;
/// Most labels of a task.
pub const LABELS_MOST: usize = 2_000;
/// Most blocks of a task: each keeps a table of all spans of its events.
pub const BLOCKS_MOST: usize = 16;
/// Most events of a trace.
pub const EVENTS_MOST: usize = 1_000;

/// Why a task or a trace cannot be aligned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Problem {
    /// Two parts that stand in any order have this label in common, or an instance is named twice.
    Shared(Label),
    /// Something for each instance inside something for each instance.
    EachInEach,
    /// A choice of nothing.
    EmptyChoice,
    /// More than [`DEPTH_MOST`] levels.
    TooDeep,
    /// More than [`PLACES_MOST`] steps where order counts.
    TooManySteps,
    /// More than [`LABELS_MOST`] labels.
    TooManyLabels,
    /// More than [`BLOCKS_MOST`] places where parts stand in any order.
    TooManyBlocks,
    /// More than [`EVENTS_MOST`] events.
    TooManyEvents,
    /// An event weighs more than [`crate::Event::WEIGHT_MOST`].
    TooHeavy,
}
