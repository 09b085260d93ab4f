//! What one step of world and monitors costs: act, advance to the next event, write the key.
//!
//! `cargo bench -p rackproof-grade --bench step`
#![expect(clippy::expect_used, reason = "a benchmark stops where it fails")]

use divan::{Bencher, counter::ItemsCount};
use rackproof_drill::{Cause, World, file};
use rackproof_files::Problems;
use rackproof_grade::{GuideRun, Judged, JudgedState, Procedure, Rules};
use rackproof_model::{Model, key::KeyWriter};

const MACHINE: &str = include_str!("../../../assets/machines/alder-16.ron");
const DRILL: &str = include_str!("../../../scenarios/changeover/left-inside.ron");
const RULES: &str = include_str!("../../../assets/rules/changeover.ron");
const PROCEDURE: &str = include_str!("../../../assets/procedures/changeover.ron");

fn main() {
    divan::main();
}

/// The pair of one variant, and every state of the guide's attempt with the cause done there.
fn attempt(variant: usize, way: usize) -> (Judged, Vec<(JudgedState, Cause)>) {
    let problems = Problems::new();
    let machine = file::read_machine(problems.for_file("", MACHINE)).expect("it has no problem");
    let slots = machine.0.slots();
    let drill = file::read_drill(problems.for_file("", DRILL), |_| Ok(&machine));
    let rules = Rules::read(problems.for_file("", RULES), slots).expect("it has no problem");
    let report = problems.for_file("", PROCEDURE);
    let procedure = Procedure::read(report, rules.definitions(), slots).expect("no problem");
    let world = World::new(
        machine.0,
        machine.1,
        drill.expect("it has no problem"),
        variant,
    );
    let judged = Judged::new(world, rules);
    let run = GuideRun::play(&judged, &procedure, way).expect("the guide finishes");
    let (mut state, mut states) = (judged.start(), Vec::new());
    for (before, cause) in run.causes {
        let mut left = before;
        while left.0 > 0 {
            let part = judged
                .next_event(&state)
                .map_or(left, |next| next.min(left));
            judged.advance(&mut state, part, &mut |_| {});
            left -= part;
        }
        states.push((state, cause));
        judged.act(&mut state, cause, &mut |_| {});
    }
    (judged, states)
}

/// Act, advance to the next event if there is one, key: over a whole attempt by clear-out.
#[divan::bench(args = [0, 1])]
fn act_advance_key(bencher: Bencher<'_, '_>, way: usize) {
    let (judged, states) = attempt(8, way);
    bencher.counter(ItemsCount::new(states.len())).bench(|| {
        let mut sum = 0_usize;
        for &(state, cause) in &states {
            let mut state = state;
            judged.act(&mut state, cause, &mut |_| {});
            if let Some(next) = judged.next_event(&state) {
                judged.advance(&mut state, next, &mut |_| {});
            }
            let mut key = KeyWriter::new();
            judged.write_key(&state, &mut key);
            sum += key.finish().len();
        }
        sum
    });
}
