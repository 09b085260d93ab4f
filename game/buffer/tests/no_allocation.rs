//! After the start the machine takes no memory from the heap, whatever it does.
//!
//! An allocator that counts stands in front of the system's. It needs `unsafe`: the trait says so.
#![expect(unsafe_code, reason = "a global allocator cannot be written without")]

use std::{
    alloc::{GlobalAlloc, Layout, System},
    cell::Cell,
};

use rackproof_buffer::{
    Axes, Axis, Beam, BeamSort, Behaviours, Board, BoardKind, Button, Cutout, FirstZero, Handling,
    Hear, Machine, MachineParts, Mistrust, Mode, Order, Outcome, Product, ProductStoring,
    ReadyRule, ServiceParts, Side, State, Storing,
};
use rackproof_model::{Instants, Micros, key::KeyWriter};

#[path = "../src/sample.rs"]
#[expect(dead_code, reason = "the tests of the crate use more of it")]
mod sample;

struct Counting;

thread_local! {
    // Of this thread alone: others of the test harness take memory as they like.
    static TAKEN: Cell<u64> = const { Cell::new(0) };
}

fn note() {
    // A thread that ends has no count any more.
    let _ = TAKEN.try_with(|taken| taken.set(taken.get() + 1));
}

// SAFETY: each call goes to the system's allocator unchanged; counting touches no memory of it.
unsafe impl GlobalAlloc for Counting {
    unsafe fn alloc(&self, layout: Layout) -> *mut u8 {
        note();
        // SAFETY: the caller keeps the contract of `alloc`.
        unsafe { System.alloc(layout) }
    }

    unsafe fn dealloc(&self, pointer: *mut u8, layout: Layout) {
        // SAFETY: the caller keeps the contract of `dealloc`; the block came from `System`.
        unsafe { System.dealloc(pointer, layout) }
    }

    unsafe fn realloc(&self, pointer: *mut u8, layout: Layout, size: usize) -> *mut u8 {
        note();
        // SAFETY: the caller keeps the contract of `realloc`; the block came from `System`.
        unsafe { System.realloc(pointer, layout, size) }
    }
}

#[global_allocator]
static COUNTING: Counting = Counting;

fn taken() -> u64 {
    TAKEN.with(Cell::get)
}

#[test]
fn the_count_counts() {
    let before = taken();
    let list = vec![1_u8, 2, 3];
    assert_eq!(taken() - before, 1, "{list:?}");
}

/// Numbers from a seed. Source: the generator splitmix64, in the public domain.
struct Chance(u64);

impl Chance {
    fn below(&mut self, bound: u64) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        (mixed ^ (mixed >> 31)) % bound
    }
}

/// Presses, or lets go of, something that gets in the way of production.
fn disturb(machine: &Machine, s: &mut State, chance: &mut Chance, hear: &mut Hear) {
    let buttons = [
        Button::Stop,
        Button::Reset,
        Button::Start,
        Button::Load,
        Button::ClearOut,
        Button::Mode(Mode::Changeover),
        Button::Mode(Mode::Production),
        Button::HoldDeclare,
    ];
    match chance.below(12) {
        0 => machine.press_emergency(s, hear),
        1 | 2 => machine.release_emergency(s),
        3 => machine.turn_key(s, true),
        other => machine.press(s, buttons[other as usize - 4], hear),
    }
}

/// An hour: for 45 minutes boards come and are called for at random, then anything is pressed as
/// well. How many events, how many boards left.
fn hour(
    machine: &Machine,
    chance: &mut Chance,
    instants: &mut Instants,
    key: &mut KeyWriter,
) -> [u32; 2] {
    let mut s = machine.at_rest(sample::WREN);
    let (mut events, mut left) = (0, 0);
    let mut hear = |outcome| {
        left += u32::from(matches!(
            outcome,
            Outcome::BoardSent(_) | Outcome::BoardPassed(_)
        ));
    };
    for button in [Button::Reset, Button::Start] {
        machine.press(&mut s, button, &mut hear);
    }
    let (mut clock, mut next) = (0_u64, 0_u64);
    while clock < 3_600_000_000 {
        let own = machine.next_event(&s);
        let span = own.map_or(next - clock, |own| u64::from(own.0).min(next - clock));
        instants.clear();
        machine.critical_instants(&s, instants);
        machine.advance(&mut s, Micros(span as u32), &mut hear);
        key.clear();
        machine.code(&mut s, key);
        clock += span;
        events += 1;
        if clock < next {
            continue;
        }
        next = clock + 100_000 + chance.below(8_000_000);
        let calm = clock < 45 * 60_000_000;
        match chance.below(if calm { 4 } else { 6 }) {
            0 | 1 => {
                let board = (chance.below(3) > 0).then(|| Board::good(sample::WREN));
                machine.upstream_signal(&mut s, board, &mut hear);
            }
            // In the middle of a hand-over the machine downstream keeps its signal closed.
            2 | 3 if machine.hands_over(&s, Side::Outfeed) => {}
            2 | 3 => {
                let ready = chance.below(2) == 0;
                machine.downstream_signal(&mut s, ready, &mut hear);
            }
            _ => disturb(machine, &mut s, chance, &mut hear),
        }
    }
    [events, left]
}

/// Eight such hours.
fn day(
    machine: &Machine,
    chance: &mut Chance,
    instants: &mut Instants,
    key: &mut KeyWriter,
) -> [u32; 2] {
    let mut sum = [0; 2];
    for _ in 0..8 {
        let [events, left] = hour(machine, chance, instants, key);
        sum = [sum[0] + events, sum[1] + left];
    }
    sum
}

#[test]
fn a_day_takes_no_memory() {
    let orders = [
        Order::FirstInFirstOut,
        Order::LastInFirstOut,
        Order::StraightThrough,
    ];
    for (seed, order) in orders.into_iter().enumerate() {
        let mut parts = sample::parts();
        parts.storing.order = order;
        let machine = Machine::new(parts);
        let (mut instants, mut key) = (Instants::new(), KeyWriter::new());
        let mut chance = Chance(seed as u64);
        // The key's own room is found once.
        day(&machine, &mut chance, &mut instants, &mut key);
        let before = taken();
        let [events, left] = day(&machine, &mut chance, &mut instants, &mut key);
        assert_eq!(taken() - before, 0, "in {events} events");
        println!("{order:?}: {events} events, {left} boards left");
        assert!(
            events > 5_000 && left > 300,
            "{events} events, {left} boards"
        );
    }
}
