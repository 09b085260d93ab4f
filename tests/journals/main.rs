//! The whole program on journals: each is played to an attempt and graded, and comes out as listed.
#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "a test stops where it fails"
)]

mod all_shown;
mod another_core;
mod asked;
mod behaviours;
mod commands;
mod departures;
mod dialog;
mod drawn;
mod exams;
mod faults;
mod harms;
mod hinted;
#[cfg(unix)]
mod interrupted;
mod listed;
mod machine;
mod mistyped;
mod neighbours;
mod opened;
mod outcomes;
mod pinned;
mod play;
mod pointless;
mod proofs;
mod reckon;
mod safe_ways;
mod sheet;
mod site_words;
mod supervisor;
mod verdict;
mod ways_on;
mod window;
