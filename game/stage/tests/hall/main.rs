//! The hall of the shipped machine and the core beside it.
#![expect(
    clippy::expect_used,
    reason = "a test stops where it cannot go on, in what several tests share too"
)]

mod cues;
mod journals;
mod parts;
mod scenes;
mod seen;
mod seen_empty;
