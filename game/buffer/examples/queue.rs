//! The machine as a queue, for counting instructions: `tests/outside/scripts/instructions` runs it.
//!
//! Prints how many events it had. `queue BOARDS`.

#[path = "../tests/queues/fast.rs"]
#[expect(dead_code, reason = "the tests use more of it")]
mod fast;
#[path = "../tests/queues/poisson.rs"]
mod poisson;
#[path = "../tests/queues/times.rs"]
mod times;

fn main() {
    let boards = std::env::args().nth(1);
    let boards = boards.and_then(|text| text.parse().ok()).unwrap_or(20_000);
    let mut line = poisson::Poisson::new(0.8, 5, 1);
    line.run(boards);
    println!("{}", line.line.events);
}
