//! The machine between two neighbours, for counting instructions:
//! `tests/outside/scripts/instructions` runs it.
//!
//! `queue LINE MOVES COUNT [events]`: LINE is `poisson` or `bernoulli`, MOVES `next-to-nought` or
//! `nought`, COUNT how many boards or cycles. With `events` it prints how many events there were,
//! and at how many moments (see `Fast::events`): what is counted costs instructions of its own.

#[path = "../tests/queues/cycles.rs"]
#[expect(dead_code, reason = "the tests use more of it")]
mod cycles;
#[path = "../tests/queues/fast.rs"]
mod fast;
#[path = "../tests/queues/poisson.rs"]
mod poisson;
#[path = "../tests/queues/times.rs"]
mod times;

use fast::{Fast, Moves};

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
    let (line, moves, count, counted) = match arguments[..] {
        [line, moves, count] => (line, moves, count, false),
        [line, moves, count, "events"] => (line, moves, count, true),
        _ => {
            eprintln!("queue poisson|bernoulli next-to-nought|nought COUNT [events]");
            std::process::exit(2);
        }
    };
    let moves = match moves {
        "nought" => Moves::Nought,
        _ => Moves::NextToNought,
    };
    let count = count.parse().unwrap_or(0);
    if counted {
        let ran = run::<true>(line, moves, count);
        println!("{} {}", ran.events(), ran.instants());
    } else {
        println!("{}", run::<false>(line, moves, count).clock);
    }
}

fn run<const COUNTED: bool>(line: &str, moves: Moves, count: u32) -> Fast<COUNTED> {
    if line == "poisson" {
        let mut line = poisson::Poisson::new(0.8, 5, moves, 1);
        line.run(u64::from(count));
        return line.line;
    }
    let (mut line, mut times) = (Fast::running(5, moves), times::Times::of(1));
    cycles::bernoulli(&mut line, &mut times, [0.95, 0.9], count);
    line
}
