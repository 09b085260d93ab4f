//! What an alignment costs, beside what another aligner asks for the same question.
//!
//! `cargo bench -p rackproof --no-default-features --bench aligners`
//!
//! The other aligner is pm4py, by `tests/outside/scripts/alignment_times.py`, if the environment
//! that `PM4PY` names is there. It is under the AGPL, and runs as a program of its own.
#![expect(
    clippy::expect_used,
    clippy::print_stdout,
    reason = "a benchmark prints, and stops where it fails"
)]

use std::{env, hint::black_box, path::Path, process::Command, time::Instant};

use rackproof_alignment::{Event, Tasks};

#[path = "../../game/alignment/benches/speed/questions.rs"]
mod questions;

/// How often a measurement is made; the least counts.
const ROUNDS: usize = 50;
/// How long the other aligner may take for one question.
const LIMIT_S: u32 = 30;

/// The milliseconds of one alignment, and its cost.
fn ours((tasks, trace): &(Tasks, Vec<Event>)) -> (f64, u32) {
    let mut cost = 0;
    let rounds = (0..ROUNDS).map(|_| {
        let start = Instant::now();
        let found = tasks.align(black_box(trace)).expect("it is short");
        cost = found.cost;
        start.elapsed().as_secs_f64() * 1e3
    });
    let least = rounds.fold(f64::INFINITY, f64::min);
    (least, cost)
}

/// What the other aligner answers: for each question its milliseconds and the cost, or nothing.
fn theirs() -> Option<Vec<Option<(f64, u32)>>> {
    let folder = env::var("PM4PY").unwrap_or_else(|_| {
        let home = env::var("HOME").unwrap_or_default();
        format!("{home}/.cache/rackproof/venv-pm4py")
    });
    let python = Path::new(&folder).join("bin/python");
    if !python.exists() {
        println!("pm4py: not there. To compare, install it and name its folder in PM4PY:");
        println!("    python3 -m venv {folder} && {folder}/bin/pip install pm4py==2.7.23.11");
        return None;
    }
    let script = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/tests/outside/scripts/alignment_times.py"
    );
    let ran = Command::new(python)
        .args([script, &LIMIT_S.to_string()])
        .output()
        .expect("it starts");
    let failed = String::from_utf8_lossy(&ran.stderr);
    assert!(ran.status.success(), "{failed}");
    let said = String::from_utf8_lossy(&ran.stdout);
    let answer = |line: &str| {
        let (time, cost) = line.split_once(' ')?;
        Some((time.parse().ok()?, cost.parse().ok()?))
    };
    let answers = said.lines().filter_map(|line| line.strip_prefix("answer "));
    Some(answers.map(answer).collect())
}

fn main() {
    let questions = [
        ("loop of 12 steps, 60 events", questions::rounds()),
        ("20 slots in any order", questions::slots()),
    ];
    let ours: Vec<(f64, u32)> = questions.iter().map(|(_, asked)| ours(asked)).collect();
    for ((name, _), (time, cost)) in questions.iter().zip(&ours) {
        println!("{name}: {time:.3} ms, cost {cost}");
    }
    let Some(theirs) = theirs() else { return };
    assert_eq!(theirs.len(), ours.len(), "one answer for each question");
    for ((name, _), ((time, cost), theirs)) in questions.iter().zip(ours.iter().zip(theirs)) {
        if let Some((their_time, their_cost)) = theirs {
            assert_eq!(their_cost, *cost, "{name}");
            let times = their_time / time;
            println!("{name}: pm4py {their_time:.1} ms, {times:.0} times ours, the same cost");
        } else {
            let times = f64::from(LIMIT_S) * 1e3 / time;
            println!(
                "{name}: pm4py gave no answer in {LIMIT_S} s, more than {times:.0} times ours"
            );
        }
    }
}
