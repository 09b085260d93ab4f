//! What an alignment costs: a loop of 12 steps with 60 events, and 20 slots in any order.
//!
//! `cargo bench -p rackproof-alignment --bench speed`. The program's own bench `aligners` puts the
//! same two questions to another aligner.
#![expect(clippy::expect_used, reason = "a benchmark stops where it fails")]

mod questions;

use divan::Bencher;
use rackproof_alignment::{Event, Tasks};

use questions::{rounds, slots};

fn main() {
    divan::main();
}

/// Bench one of the two questions.
fn aligned(bencher: Bencher<'_, '_>, (tasks, trace): (Tasks, Vec<Event>)) {
    bencher.bench_local(|| tasks.align(divan::black_box(&trace)).expect("it is short"));
}

#[divan::bench]
fn loop_of_12_steps_60_events(bencher: Bencher<'_, '_>) {
    aligned(bencher, rounds());
}

#[divan::bench]
fn twenty_slots_in_any_order(bencher: Bencher<'_, '_>) {
    aligned(bencher, slots());
}
