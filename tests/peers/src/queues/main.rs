//! Two lines by the real machine, by `nexosim`, and by `simpy`.
//!
//! - M/M/1/K: boards come at random at 0.8 times the speed of work, room for five in all, one that
//!   finds no room is lost. For `simpy` each board is a process.
//! - Bernoulli: two machines with a buffer of five, up in a cycle with chances 0.95 and 0.9; the
//!   second acts first. Each acts at its own moment. For `simpy` each board is a process, and once
//!   more, leaner, each machine.
//!
//! All draw from the same generator, but for `simpy`, which has Python's own: each as many times
//! for a board or a cycle. The others model the queue alone. The real machine runs its whole
//! controller with both handshakes, once with moves of nought and once with the fastest that a
//! machine file may say.
//!
//! Rounds take turns, so that a noisy machine disturbs all alike; what is printed is the best round
//! of each, for one board or cycle. Ratios are of these times: the programs count different events.
//! Ours are signals of the neighbours, timers that run out, moves that end, boards that are wholly
//! in; those of `nexosim` are calls of a model, those of `simpy` its steps.
//!
//! ```text
//! cargo run --release --bin queues
//! ```

#[path = "../../../../game/buffer/tests/queues/cycles.rs"]
#[expect(dead_code, reason = "the tests use more of it")]
mod cycles;
mod cycles_lean;
mod cycles_ported;
#[path = "../../../../game/buffer/tests/queues/fast.rs"]
#[expect(dead_code, reason = "who counts instructions uses more of it")]
mod fast;
mod lean;
#[path = "../../../../game/buffer/tests/queues/poisson.rs"]
mod poisson;
mod ported;
mod programs;
#[path = "../../../../game/buffer/tests/queues/times.rs"]
mod times;

use std::{error::Error, time::Duration};

use fast::Moves;
use programs::{Rounds, our_cycles, our_queue, simpy};

/// Boards that come, in mean times of work.
pub(crate) const RATE: f64 = 0.8;
/// Room for so many boards, the one in work among them.
pub(crate) const ROOM: u8 = 5;
/// Mean time of work, in seconds.
pub(crate) const WORK: f64 = 1_000.0;
/// Chances of the two machines to be up in a cycle.
pub(crate) const UP: [f64; 2] = [0.95, 0.9];
/// Room between the two machines.
pub(crate) const BUFFER: u8 = 5;
/// One cycle.
pub(crate) const CYCLE: Duration = Duration::from_secs(4);
/// Many and short ones: on a busy machine some of them are left alone.
const ROUNDS: u64 = 60;

/// What a program made of a line.
pub(crate) struct Ran {
    /// Boards that came, or cycles.
    pub(crate) units: u64,
    /// Boards that were lost, or made.
    pub(crate) counted: u64,
    pub(crate) events: u64,
    pub(crate) seconds: f64,
}

type Program = fn(u64, u64) -> Result<Ran, Box<dyn Error>>;

/// The programs, how many boards or cycles each runs, and how.
type Programs = &'static [(&'static str, u64, Program)];

const QUEUE: Programs = &[
    ("the real machine, moves nought", 20_000, |boards, seed| {
        Ok(our_queue(boards, Moves::Nought, seed))
    }),
    (
        "the real machine, moves next to nought",
        20_000,
        |boards, seed| Ok(our_queue(boards, Moves::NextToNought, seed)),
    ),
    ("nexosim 1.0.0, one model, no ports", 10_000, lean::run),
    (
        "nexosim 1.0.0, source, buffer and server",
        5_000,
        ported::run,
    ),
    ("simpy, a process a board", 1_000, |boards, seed| {
        simpy("poisson", boards, seed)
    }),
];

const CYCLES: Programs = &[
    ("the real machine, moves nought", 20_000, |cycles, seed| {
        Ok(our_cycles(cycles, Moves::Nought, seed))
    }),
    (
        "the real machine, moves next to nought",
        20_000,
        |cycles, seed| Ok(our_cycles(cycles, Moves::NextToNought, seed)),
    ),
    (
        "nexosim 1.0.0, one model, no ports",
        10_000,
        cycles_lean::run,
    ),
    (
        "nexosim 1.0.0, two machines and a buffer",
        5_000,
        cycles_ported::run,
    ),
    ("simpy, a process a board", 1_000, |cycles, seed| {
        simpy("boards", cycles, seed)
    }),
    ("simpy, a process a machine", 1_000, |cycles, seed| {
        simpy("bernoulli", cycles, seed)
    }),
];

fn compare(title: &str, programs: Programs) -> Result<(), Box<dyn Error>> {
    let mut rounds: Vec<Rounds> = programs.iter().map(|(name, ..)| Rounds::of(name)).collect();
    for seed in 0..ROUNDS {
        for (rounds, (_, units, run)) in rounds.iter_mut().zip(programs) {
            rounds.take(&run(*units, seed)?);
        }
    }
    println!("{title}");
    for program in &rounds {
        println!("  {}", program.row(&rounds[0]));
    }
    Ok(())
}

fn main() -> Result<(), Box<dyn Error>> {
    let queue = format!("M/M/1/{ROOM}, for a board; the closed form loses 0.08882 of them");
    compare(&queue, QUEUE)?;
    let line =
        format!("Bernoulli {UP:?}, room {BUFFER}, for a cycle; the closed form makes 0.89884");
    compare(&line, CYCLES)
}
