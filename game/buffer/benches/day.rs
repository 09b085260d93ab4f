//! How long the machine takes for a working day, and for one step of it as the explorer takes it.
//!
//! A day must stay under 10 ms: an attempt is judged by running it again.

use divan::{Bencher, black_box};
use rackproof_buffer::{
    Axes, Axis, Beam, BeamSort, Behaviours, Board, BoardKind, Button, Cutout, DrawBack, FirstZero,
    Handling, Machine, MachineParts, MiddleBeam, Mistrust, Outcome, Product, ProductStoring,
    ReadyRule, ServiceParts, State, Storing,
};
use rackproof_model::{Micrometres, Micros, key::KeyWriter, quantity::Percent};

// The machine of the tests. It takes the names that it needs from the crate's root: from above.
#[path = "../src/sample.rs"]
#[expect(dead_code, reason = "the tests use more of it")]
mod sample;

fn main() {
    divan::main();
}

fn running(machine: &Machine) -> State {
    let mut s = machine.at_rest(sample::WREN);
    for button in [Button::Reset, Button::Start] {
        machine.press(&mut s, button, &mut |_| {});
    }
    s
}

/// Eight hours of production, a board each 30 s in and out. How many boards left.
fn day(machine: &Machine) -> u32 {
    const DAY: u64 = 8 * 3_600_000_000;
    const TAKT: u64 = 30_000_000;
    let mut s = running(machine);
    let (mut clock, mut offer_at, mut call_at) = (0, 0, 10 * TAKT);
    let mut sent = 0;
    while clock < DAY {
        let own = machine
            .next_event(&s)
            .map_or(u64::MAX, |next| clock + u64::from(next.0));
        let to = own.min(offer_at).min(call_at).min(DAY);
        let mut left = false;
        let mut hear = |outcome| left |= matches!(outcome, Outcome::BoardSent(_));
        machine.advance(&mut s, Micros((to - clock) as u32), &mut hear);
        clock = to;
        if clock == offer_at {
            offer_at += TAKT;
            machine.upstream_signal(&mut s, Some(Board::good(sample::WREN)), &mut hear);
        }
        if clock == call_at {
            call_at += TAKT;
            machine.downstream_signal(&mut s, true, &mut hear);
        }
        if left {
            sent += 1;
            machine.downstream_signal(&mut s, false, &mut |_| {});
        }
    }
    assert!(sent > 900, "{sent} boards left");
    sent
}

#[divan::bench]
fn a_working_day(bencher: Bencher) {
    let machine = sample::machine();
    bencher.bench_local(|| day(black_box(&machine)));
}

/// The same with some of what a machine may have besides.
fn day_with(bencher: Bencher, change: fn(&mut MachineParts)) {
    let mut parts = sample::parts();
    change(&mut parts);
    let machine = Machine::new(parts);
    bencher.bench_local(|| day(black_box(&machine)));
}

/// Two boards in each slot.
#[divan::bench]
fn a_working_day_in_tandem(bencher: Bencher) {
    day_with(bencher, tandem);
}

fn tandem(parts: &mut MachineParts) {
    parts.storing.middle_beam = Some(MiddleBeam {
        at: Micrometres::from_millimetres(250),
        clearance: Micrometres::from_millimetres(5),
        reflectance: Percent(18),
    });
    for product in &mut parts.products {
        product.storing.tandem = true;
    }
}

/// Boards so tall that every second slot is used.
#[divan::bench]
fn a_working_day_with_tall_parts(bencher: Bencher) {
    day_with(bencher, tall);
}

fn tall(parts: &mut MachineParts) {
    for kind in &mut parts.kinds {
        kind.above = Micrometres::from_millimetres(25);
    }
    for product in &mut parts.products {
        product.storing.interval = 2;
    }
}

/// Tall boards, two in a slot, each run past the mouth and drawn back, on 40 slots.
#[divan::bench]
fn a_working_day_with_all(bencher: Bencher) {
    day_with(bencher, |parts| {
        tandem(parts);
        tall(parts);
        parts.slots = 40;
        parts.storing.draw_back = Some(DrawBack {
            past: Micrometres::from_millimetres(15),
            reflectance: Percent(18),
        });
    });
}

/// An act, the way to the next event, and the key of what comes of it.
#[divan::bench]
fn one_step(bencher: Bencher) {
    let machine = sample::machine();
    let start = running(&machine);
    let mut writer = KeyWriter::new();
    bencher.bench_local(|| {
        let mut s = *black_box(&start);
        machine.upstream_signal(&mut s, Some(Board::good(sample::WREN)), &mut |_| {});
        if let Some(next) = machine.next_event(&s) {
            machine.advance(&mut s, next, &mut |_| {});
        }
        writer.clear();
        machine.code(&mut s, &mut writer);
        black_box(writer.finish().len())
    });
}
