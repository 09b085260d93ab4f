//! What is reckoned against the machine itself, and against figures worked out by hand.

use rackproof_model::Micros;

use crate::{
    Answer, Board, Button, Half, HalfSlot, MachineParts, Mode, Order, Outcome, Phase, Question,
    Side,
    plant::{Plant, draws_back, tandem},
    sample,
};

/// Machines that differ in what counts for time.
const MACHINES: [fn(&mut MachineParts); 6] = [
    |_| {},
    tandem,
    |parts| parts.products[0].storing.interval = 3,
    |parts| {
        tandem(parts);
        draws_back(parts);
        parts.products[0].storing.interval = 2;
    },
    |parts| parts.storing.order = Order::LastInFirstOut,
    |parts| {
        tandem(parts);
        parts.slots = 40;
        parts.storing.order = Order::LastInFirstOut;
        parts.storing.release_interval = Micros::from_seconds(9);
    },
];

/// A machine with its rack full, in truth and in the map.
fn full(change: fn(&mut MachineParts)) -> Plant {
    let mut plant = Plant::of(change);
    let capacity = plant.machine.capacity(0);
    for slot in 0..capacity.slots {
        if plant.machine.used_slots(&plant.state) >> slot & 1 == 0 {
            continue;
        }
        for half in [Half::Outfeed, Half::Infeed]
            .into_iter()
            .take(capacity.boards_in_slot as usize)
        {
            let board = Board::good(sample::WREN);
            plant.state.rack.set(HalfSlot { slot, half }, board);
            plant.machine.note_stored(&mut plant.state, slot);
        }
    }
    plant
}

/// ⌈16 / 3⌉ = 6, ⌈40 / 1⌉ = 40, two in each: 80.
#[test]
fn capacity_follows_from_slots_interval_and_tandem() {
    let expected = [(16, 16), (16, 32), (6, 6), (8, 16), (16, 16), (40, 80)];
    for (change, (used, boards)) in MACHINES.into_iter().zip(expected) {
        let capacity = Plant::of(change).machine.capacity(0);
        assert_eq!((capacity.used, capacity.boards), (used, boards));
    }
}

/// From 490 mm until 180 mm of board have left at 1 009: 699 mm in 699/150 + 150/600 = 4.91 s. One
/// slot up is 20 mm in 2·√(20/400) = 0.447 214 s (handbook kinematics).
#[test]
fn the_parts_of_a_sending_are_those_of_the_handbook() {
    let drain = Plant::of(|_| {}).machine.drain(0, 16, 0, Micros(0));
    let [first, second, ..] = drain.sendings[..] else {
        panic!("two boards at least")
    };
    assert_eq!((first.index.0, first.transfer.0), (0, 4_910_000));
    assert_eq!((first.back.0, first.signal.0), (0, 50_000));
    assert_eq!(
        (second.index.0, second.back.0, second.signal.0),
        (447_214, 447_214, 0)
    );
}

/// When the last board has left a full rack behind a machine that asks each `takt`.
fn drained(change: fn(&mut MachineParts), takt: u64) -> u64 {
    let mut plant = full(change);
    let boards = plant.machine.capacity(0).boards as usize;
    plant.press(Button::Reset);
    plant.press(Button::Start);
    plant.call(true);
    let (mut begun, mut sent) = (plant.clock, 0);
    loop {
        let (phase, heard) = (plant.state.phase(), plant.heard.len());
        // The machine downstream asks again when its takt is over.
        let due = begun + takt;
        let asks = !plant.state.neighbour_signal(Side::Outfeed);
        let next = plant
            .machine
            .next_event(&plant.state)
            .map(|next| u64::from(next.0));
        if asks && next.is_none_or(|next| plant.clock + next > due) {
            let heard = &mut plant.heard;
            let span = Micros((due - plant.clock.min(due)) as u32);
            plant
                .machine
                .advance(&mut plant.state, span, &mut |one| heard.push(one));
            plant.clock = plant.clock.max(due);
            plant.call(true);
        } else {
            assert!(plant.step(), "stuck in {phase:?}");
        }
        let begins = plant.heard[heard..].contains(&Outcome::BoardAvailable(true))
            || phase == Phase::Waiting && plant.state.phase() != Phase::Waiting;
        if begins && plant.state.neighbour_signal(Side::Outfeed) {
            begun = plant.clock;
        }
        if plant.heard[heard..]
            .iter()
            .any(|one| matches!(one, Outcome::BoardSent(_)))
        {
            sent += 1;
            if sent == boards {
                return plant.clock;
            }
            plant.call(false);
        }
    }
}

#[test]
fn a_drain_takes_as_long_as_is_reckoned() {
    for (number, change) in MACHINES.into_iter().enumerate() {
        for takt in [0, 8_000_000, 30_000_000] {
            let machine = Plant::of(change).machine;
            let from = 0;
            let boards = machine.capacity(0).boards;
            let drain = machine.drain(0, boards, from, Micros(takt));
            assert_eq!(drain.sendings.len(), boards as usize);
            let case = format!("machine {number}, takt {takt}");
            assert_eq!(drained(change, u64::from(takt)), drain.time(), "{case}");
        }
    }
}

#[test]
fn a_clear_out_by_belt_takes_as_long_as_is_reckoned() {
    for (number, change) in MACHINES.into_iter().enumerate() {
        let mut plant = full(change);
        for button in [
            Button::Mode(Mode::Changeover),
            Button::Reset,
            Button::ClearOut,
            Button::Start,
        ] {
            plant.press(button);
        }
        let mut taken = 0;
        loop {
            plant.settle();
            match plant.state.question() {
                Some(Question::Take(_)) => {
                    let board = plant
                        .machine
                        .take_from_belt(&mut plant.state, Side::Outfeed);
                    taken += u8::from(board.is_some());
                    plant.press(Button::Start);
                }
                Some(Question::Answer(_)) => plant.press(Button::Answer(Answer::SeenEmpty)),
                _ => break,
            }
        }
        let reckoned = plant.machine.clear_out_by_belt(0, 0);
        assert_eq!(taken, reckoned.boards, "machine {number}");
        assert_eq!(plant.clock, reckoned.time(), "machine {number}");
    }
}

#[test]
fn a_clear_out_by_hand_takes_as_long_as_is_reckoned() {
    for change in MACHINES {
        let mut plant = Plant::of(change);
        plant.machine.press_emergency(&mut plant.state, &mut |_| {});
        plant.machine.release_emergency(&mut plant.state);
        plant.machine.turn_key(&mut plant.state, true);
        plant.press(Button::HoldDeclare);
        plant.settle();
        for button in [
            Button::Reset,
            Button::Reset,
            Button::Mode(Mode::Changeover),
            Button::Choose(sample::KESTREL),
            Button::Load,
            Button::Start,
        ] {
            plant.press(button);
            plant.settle();
        }
        assert_eq!(plant.state.question(), Some(Question::Rails));
        plant.press(Button::Start);
        plant.settle();
        assert!(plant.heard.contains(&Outcome::WidthReached));
        let reckoned = plant.machine.clear_out_by_hand(0, sample::KESTREL, 0);
        assert_eq!(plant.clock, reckoned.time());
    }
}
