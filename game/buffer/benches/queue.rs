//! The machine as a queue: boards come at random and are worked on for random times, both
//! handshakes by the real controller, its moves next to nought or nought.
//!
//! `tests/peers` runs the same beside other people's programs: `nexosim` and `simpy`. Where it is
//! built, this bench asks it for the ratios.

use std::{env, process::Command};

use divan::{Bencher, counter::ItemsCount};

#[path = "../tests/queues/fast.rs"]
#[expect(dead_code, reason = "the tests use more of it")]
mod fast;
#[path = "../tests/queues/poisson.rs"]
mod poisson;
#[path = "../tests/queues/times.rs"]
#[expect(dead_code, reason = "the other line uses more of it")]
mod times;

use fast::Moves;
use poisson::Poisson;

const BOARDS: u64 = 2_000;

fn main() {
    divan::main();
    peers();
}

/// The real machine beside other people's programs, all in one run: another workspace has them, so
/// that this one does without. It lies beside what this one builds.
fn peers() {
    let own = env::current_exe().unwrap_or_default();
    let Some(target) = own.ancestors().nth(3) else {
        return;
    };
    let folder = target.join("peers");
    let ran = Command::new(folder.join("release/queues")).status();
    if !ran.is_ok_and(|status| status.success()) {
        println!("The peers did not answer. To build them (they need the network once):");
        let manifest = "--manifest-path tests/peers/Cargo.toml";
        println!("    cargo build --release --bin queues {manifest} \\");
        println!("        --target-dir {}", folder.display());
        println!("    tests/outside/scripts/lines   # for simpy");
    }
}

fn line<const COUNTED: bool>(moves: Moves) -> Poisson<COUNTED> {
    Poisson::new(0.8, 5, moves, 1)
}

/// Items are boards that came.
#[divan::bench(args = [Moves::NextToNought, Moves::Nought])]
fn boards(bencher: Bencher<'_, '_>, moves: Moves) {
    let mut line = line::<false>(moves);
    bencher
        .counter(ItemsCount::new(BOARDS))
        .bench_local(|| line.run(BOARDS));
}

/// The same; items are events, see `Fast::events`.
#[divan::bench(args = [Moves::NextToNought, Moves::Nought])]
fn events(bencher: Bencher<'_, '_>, moves: Moves) {
    let mut first = line::<true>(moves);
    first.run(BOARDS);
    let events = first.line.events();
    bencher
        .counter(ItemsCount::new(events))
        .with_inputs(|| line::<false>(moves))
        .bench_local_refs(|line| line.run(BOARDS));
}
