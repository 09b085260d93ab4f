//! The whole program on journals: each is played to an attempt and graded, and comes out as listed.
#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "a test stops where it fails"
)]

mod another_core;
mod commands;
mod departures;
mod dialog;
mod drawn;
mod faults;
#[cfg(unix)]
mod interrupted;
mod machine;
mod neighbours;
mod outcomes;
mod pinned;
mod play;
mod proofs;
mod reckon;
mod safe_ways;
mod sheet;
mod site_words;
mod supervisor;
mod verdict;
mod ways_on;
mod window;
