//! One go at one drill in real time: its material, its pace, its journal on disk.
//!
//! - [`Material`] is the texts that an attempt rests on, with their hashes; [`Exercise`] is what
//!   they say, ready to run.
//! - [`Attempt`] runs one variant at a person's pace. It reads no clock: time passes when its
//!   caller says so.
//! - [`Journal`] is a list of doings written by hand.
//! - [`Proof`] is the kept proof of a drill, for these texts and this core.
//! - [`Recorder`] writes an attempt while it goes on, [`Kept`] is what was read back.
//!
//! The same journal gives the same bytes, always: no clock and no chance is in here.

mod ahead;
mod attempt;
mod chain;
#[cfg(test)]
mod core_text;
mod history;
mod journal;
mod kept;
mod line;
mod looks;
mod material;
mod neighbour;
mod notation;
mod notes;
mod outcome_text;
mod proof;
mod rebuild;
mod recorded;
mod recorder;
mod setting_text;
mod sheet;
mod shortest;
mod way_on;
mod what_if;

#[cfg(test)]
mod grade_tests;
#[cfg(test)]
mod kept_tests;
#[cfg(test)]
mod sample;

pub use ahead::{Ahead, Outlook, ahead, outlook};
pub use attempt::{Attempt, Done, GAP_MOST, Heard, Pieces, Refused};
pub use history::{History, Span};
pub use journal::{Journal, journal_drill, journal_entry};
pub use kept::{Foreign, Hashes, Header, Kept, Note, PlayedAs, Reading, read_attempt};
pub use line::line_down;
pub use looks::Looks;
pub use material::{Exercise, Material, Text, hash_of};
pub use neighbour::{NEIGHBOUR_WORKS_AFTER, UPSTREAM_LAYS_AFTER};
pub use notation::{
    cause_text, chance_text, fault_comes_text, intent_text, kind_name, parse_cause, read_cause,
};
pub use notes::{Helped, claim_note, claim_of, hint_note, way_on_note};
pub use outcome_text::{outcome_text, place_text};
pub use proof::{
    Broken, Choice, Decisive, Deed, Ground, ORDERED, Proof, ProofState, Race, RuleNeed, Search,
    Time, TrapSprung, UNORDERED, core_hash, end_of, replay,
};
pub use rebuild::{Difference, Rebuilt, Rerun};
pub use recorded::{Recorded, RecordedBy};
pub use recorder::{Durable, Recorder};
pub use sheet::Sheet;
pub use shortest::{SearchShortest, Shortest};
pub use way_on::{NoWayOn, StepOn, WayOn, is_safe, way_on};
pub use what_if::{WhatIf, right_before};
