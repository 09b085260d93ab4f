//! Which states are of one class, and which members go on from it, by hand.

use rackproof_model::Micros;

use super::*;
use crate::{Board, Task, UnitState, halves::slots_mask, sample};

/// Slots of the rack in these tests.
const SLOTS: u8 = 8;
/// Slots below it are kept apart: the lowest, and the one above it.
const APART: u8 = 2;

fn at(place: LiftPlace) -> (Machine, State) {
    let mut parts = sample::parts();
    parts.slots = SLOTS;
    let machine = Machine::new(parts);
    let mut s = machine.at_rest(sample::WREN);
    s.lift_place = place;
    s.lift_from = machine.height(place);
    (machine, s)
}

fn with_boards((machine, mut s): (Machine, State), slots: &[u8]) -> (Machine, State) {
    for &slot in slots {
        let half = Half::Outfeed;
        s.rack
            .set(HalfSlot { slot, half }, Board::good(sample::WREN));
    }
    (machine, s)
}

/// A clear-out that asks about a slot, with boards in some and some unknown.
fn asks(slot: u8, boards: &[u8], unknown: u64) -> (Machine, State) {
    let (machine, mut s) = with_boards(at(LiftPlace::At(slot)), boards);
    (s.unit, s.task, s.phase, s.slot) = (UnitState::Held, Task::ClearOut, Phase::AskAnswer, slot);
    s.map.unknown = unknown;
    (machine, s)
}

/// The member that stands for a state's class.
fn first((machine, state): &(Machine, State)) -> State {
    let mut s = *state;
    machine.put_in_order(&mut s, APART, &[]);
    let mut again = s;
    assert_eq!(machine.put_in_order(&mut again, APART, &[]), None);
    assert_eq!(again, s, "it stays");
    s
}

#[test]
fn where_boards_lie_does_not_count_but_for_the_lowest_slots() {
    let class = |boards: &[u8]| first(&with_boards(at(LiftPlace::Reference), boards));
    assert_eq!(class(&[2, 5]), class(&[7, 3]));
    assert_ne!(class(&[2, 5]), class(&[2, 5, 6]));
    for apart in [0, 1] {
        assert_ne!(class(&[apart, 5]), class(&[2, 5]));
    }
    assert_ne!(class(&[0]), class(&[1]));
}

#[test]
fn the_slot_of_lift_and_question_keeps_what_is_in_it() {
    let class = |slot: u8, boards: &[u8]| first(&asks(slot, boards, slots_mask(SLOTS)));
    assert_eq!(class(4, &[4, 6]), class(7, &[2, 7]));
    assert_ne!(class(4, &[4, 6]), class(4, &[5, 6]));
    let found = class(6, &[6]);
    assert_eq!((found.slot, found.lift_place), (2, LiftPlace::At(2)));
    let half = Half::Outfeed;
    assert!(found.rack.get(HalfSlot { slot: 2, half }).is_some());
}

#[test]
fn evidence_and_map_go_with_their_slots() {
    let (machine, mut s) = asks(5, &[3], 1 << 3 | 1 << 7);
    let seen = 1 << 5 | 1 << 6;
    let shuffle = machine.put_in_order(&mut s, APART, &[seen]).expect("moves");
    assert_eq!(shuffle.mask(seen).count_ones(), 2);
    assert_eq!(shuffle.mask(seen) >> s.slot & 1, 1, "seen where it asks");
    let half = Half::Outfeed;
    let board = (0..SLOTS).find(|&slot| s.rack.get(HalfSlot { slot, half }).is_some());
    let board = board.expect("it is there");
    assert_eq!(
        (s.map.unknown >> board & 1, s.map.unknown.count_ones()),
        (1, 2)
    );
    assert_eq!(shuffle.mask(seen) >> board & 1, 0);
}

#[test]
fn the_order_of_storing_and_the_ways_of_the_lift_are_forgotten() {
    let queue = |order: [u8; 3]| {
        let (machine, mut s) = with_boards(at(LiftPlace::Above(6)), &order);
        s.map.full = order.iter().fold(0, |mask, slot| mask | 1 << slot);
        s.order[..3].copy_from_slice(&order);
        s.order_len = 3;
        first(&(machine, s))
    };
    assert_eq!(queue([4, 2, 6]), queue([7, 5, 3]));
    let on_its_way = |from: u8, to: u8, passed: u32| {
        let (machine, mut s) = at(LiftPlace::At(from));
        (s.unit, s.phase, s.slot) = (UnitState::Execute, Phase::Indexing, to);
        machine.send_lift(&mut s, LiftPlace::At(to), &mut |_| {});
        s.lift.pass(Micros(passed));
        (machine, s)
    };
    let classes = [(2, 7, 20_000), (7, 3, 30_000), (0, 5, 90_000)];
    let classes = classes.map(|(from, to, passed)| first(&on_its_way(from, to, passed)));
    assert!(classes.iter().all(|class| *class == classes[0]));
    let (machine, one) = (on_its_way(0, 5, 1).0, classes[0]);
    let to = machine.place_at(one.lift_from + one.lift.way());
    assert_eq!(to, LiftPlace::At(one.slot), "it goes where its slot is now");
    assert_ne!(first(&on_its_way(5, 0, 20_000)), classes[0]);
    // A stop that comes at once leaves it where it is, and so does one before it has come a µm.
    for passed in [0, 1, 300] {
        let begun = |from: u8, to: u8| first(&on_its_way(from, to, passed));
        assert_eq!(begun(2, 7), begun(3, 4));
        assert!(begun(2, 7) != begun(7, 3) && begun(2, 7) != classes[0]);
        let stays = |from: u8, to: u8| {
            let (machine, mut s) = on_its_way(from, to, passed);
            machine.brake_lift(&mut s);
            (s.phase, s.slot) = (Phase::Rest, 0);
            first(&(machine, s)).lift_place
        };
        assert_eq!(
            [stays(0, 5), stays(6, 0)],
            [LiftPlace::At(0), LiftPlace::At(2)]
        );
    }
    let stopped = |from: u8, to: u8| {
        let (machine, mut s) = on_its_way(from, to, 100_000);
        machine.brake_lift(&mut s);
        (s.phase, s.slot) = (Phase::Rest, 0);
        first(&(machine, s))
    };
    assert_eq!(stopped(2, 7), stopped(6, 1));
}

/// The slots to which a clear-out goes from the members, told by what is in them: whether a board
/// lies there, and whether it is one of those that are kept apart.
fn next_slots(asked: &(Machine, State)) -> Vec<(bool, Option<u8>)> {
    let s = first(asked);
    let mut members = vec![s];
    let machine = &asked.0;
    machine.in_other_orders(&s, (APART, &[]), &mut |member, _| members.push(member));
    let next = |member: &State| {
        let mut s = *member;
        machine.press(
            &mut s,
            crate::Button::Answer(crate::Answer::NotSure),
            &mut |_| {},
        );
        let half = Half::Outfeed;
        let board = s.rack.get(HalfSlot { slot: s.slot, half }).is_some();
        (board, Some(s.slot).filter(|&slot| slot < APART))
    };
    let mut found: Vec<_> = members.iter().map(next).collect();
    found.sort_unstable();
    found.dedup();
    found
}

#[test]
fn after_an_answer_each_sort_of_unknown_slot_comes_next_in_some_member() {
    // Of slots 3 to 8 some hold a board and some do not; slot 1 is unknown as well.
    let found = next_slots(&asks(4, &[2, 6], slots_mask(SLOTS) & !0b10));
    assert_eq!(found, [(false, None), (false, Some(0)), (true, None)]);
    // From slot 1 on: slot 2 is the next, whatever lies above it.
    let found = next_slots(&asks(0, &[2, 6], slots_mask(SLOTS)));
    assert_eq!(found, [(false, Some(1))]);
    // Nothing else is unknown: it stays, and what lies there runs out at once.
    let found = next_slots(&asks(5, &[5, 6], 1 << 5));
    assert_eq!(found, [(false, None)]);
}

#[test]
fn a_lift_that_was_stopped_comes_to_rest_at_each_sort_of_slot() {
    let (machine, mut s) = with_boards(at(LiftPlace::At(6)), &[1, 3]);
    s.unit = UnitState::Stopping;
    machine.send_lift(&mut s, LiftPlace::At(0), &mut |_| {});
    s.lift.pass(Micros(100_000));
    machine.brake_lift(&mut s);
    let s = first(&(machine.clone(), s));
    let mut places = Vec::new();
    machine.in_other_orders(&s, (APART, &[]), &mut |member, _| {
        let mut s = member;
        let left = s.lift.left();
        machine.advance(&mut s, left, &mut |_| {});
        assert!(s.lift.is_rest());
        let half = Half::Outfeed;
        let board = s
            .slot_at_belts()
            .map(|slot| s.rack.get(HalfSlot { slot, half }).is_some());
        places.push((s.lift_place, board));
    });
    let slots: Vec<_> = places.iter().filter_map(|(_, board)| *board).collect();
    // Slot 1, slot 2 with a board, and of the others one of each sort.
    assert_eq!(slots, [false, true, true, false]);
    let others = places.len() - slots.len();
    assert_eq!(others, 2, "{places:?}");
}
