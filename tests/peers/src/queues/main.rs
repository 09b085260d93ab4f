//! The same queue by the real machine, by `nexosim`, and by `simpy` with a process a customer.
//!
//! M/M/1/K: boards come at random at 0.8 times the speed of work, room for five in all, one that
//! finds no room is lost. Each program draws its own exponential times. Rounds take turns, so that
//! a noisy machine disturbs all alike; what is printed is the best round of each.
//!
//! ```text
//! PYTHON=…/bin/python cargo run --release --bin queues
//! ```

#[path = "../../../../game/buffer/tests/queues/fast.rs"]
#[expect(dead_code, reason = "the tests use more of it")]
mod fast;
mod lean;
#[path = "../../../../game/buffer/tests/queues/poisson.rs"]
mod poisson;
mod ported;
#[path = "../../../../game/buffer/tests/queues/times.rs"]
mod times;

use std::{env, error::Error, path::Path, process::Command, time::Instant};

pub(crate) const RATE: f64 = 0.8;
pub(crate) const ROOM: u8 = 5;
/// Mean time of work, in seconds.
pub(crate) const WORK: f64 = 1_000.0;
const ROUNDS: u64 = 5;

/// What a program made of the queue.
pub(crate) struct Ran {
    pub(crate) came: u64,
    pub(crate) lost: u64,
    pub(crate) seconds: f64,
}

/// The real machine, and how many events it had.
fn ours(boards: u64, seed: u64) -> (Ran, f64) {
    let mut line = poisson::Poisson::new(RATE, ROOM, seed);
    let begun = Instant::now();
    let count = line.run(boards);
    let seconds = begun.elapsed().as_secs_f64();
    let (came, lost) = (count.came, count.lost);
    let ran = Ran {
        came,
        lost,
        seconds,
    };
    (ran, line.line.events as f64)
}

fn simpy(python: &str, boards: u64, seed: u64) -> Result<(Ran, String), Box<dyn Error>> {
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("../outside/scripts/queue_simpy.py");
    let arguments = [boards.to_string(), seed.to_string()];
    let output = Command::new(python).arg(script).args(arguments).output()?;
    let text = String::from_utf8(output.stdout)?;
    let words: Vec<&str> = text.split_whitespace().collect();
    let [came, lost, seconds, version] = words[..] else {
        let told = String::from_utf8_lossy(&output.stderr).into_owned();
        return Err(format!("simpy did not answer: {told}").into());
    };
    let ran = Ran {
        came: came.parse()?,
        lost: lost.parse()?,
        seconds: seconds.parse()?,
    };
    Ok((ran, version.to_owned()))
}

/// The best of the rounds, in boards a second, with all boards that were lost.
struct Best {
    name: String,
    boards_a_second: f64,
    came: u64,
    lost: u64,
}

impl Best {
    fn of(name: &str) -> Best {
        let name = name.to_owned();
        Best {
            name,
            boards_a_second: 0.0,
            came: 0,
            lost: 0,
        }
    }

    fn take(&mut self, ran: &Ran) {
        let speed = ran.came as f64 / ran.seconds;
        self.boards_a_second = self.boards_a_second.max(speed);
        self.came += ran.came;
        self.lost += ran.lost;
    }
}

fn main() -> Result<(), Box<dyn Error>> {
    let python = env::var("PYTHON").unwrap_or_else(|_| "python3".to_owned());
    let mut best = [
        Best::of("the real machine"),
        Best::of("nexosim 1.0.0, one model, no ports"),
        Best::of("nexosim 1.0.0, source, buffer and server"),
        Best::of("simpy, a process a customer"),
    ];
    let mut events_a_board = 0.0;
    for round in 0..ROUNDS {
        let (ran, events) = ours(400_000, round);
        events_a_board = events / ran.came as f64;
        best[0].take(&ran);
        best[1].take(&lean::run(200_000, round)?);
        best[2].take(&ported::run(100_000, round)?);
        let (ran, version) = simpy(&python, 40_000, round)?;
        best[3].take(&ran);
        best[3].name = format!("simpy {version}, a process a customer");
    }
    let first = best[0].boards_a_second;
    println!("M/M/1/{ROOM}, rate {RATE}: closed form loses 0.088819 of the boards");
    for one in &best {
        let lost = one.lost as f64 / one.came as f64;
        let speed = one.boards_a_second;
        let name = &one.name;
        println!(
            "{name:45} {speed:12.0} boards/s  lost {lost:.5}  1 : {:.1}",
            first / speed
        );
    }
    println!(
        "the real machine: {events_a_board:.2} events a board, {:.2} million events/s",
        events_a_board * first / 1e6
    );
    Ok(())
}
