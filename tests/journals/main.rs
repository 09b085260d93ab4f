//! The whole program on journals: each is played to an attempt and graded, and comes out as listed.
#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "a test stops where it fails"
)]

mod commands;
mod departures;
mod dialog;
mod drawn;
mod outcomes;
mod play;
mod safe_ways;
mod sheet;
mod verdict;
mod window;
