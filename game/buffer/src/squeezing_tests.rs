//! Which states are of one class, by hand.

use super::*;
use crate::{Board, Half, HalfSlot, UnitState, halves::slots_mask, sample};

/// Stopped, the lift at rest in a place of a rack of 16 empty slots.
fn at(place: LiftPlace) -> (Machine, State) {
    let mut parts = sample::parts();
    parts.slots = 16;
    let machine = Machine::new(parts);
    let mut s = machine.at_rest(sample::WREN);
    s.lift_place = place;
    s.lift_from = machine.height(place);
    (machine, s)
}

/// A clear-out that asks about a slot, with everything below it answered but `unsure`.
fn asks(slot: u8, unsure: u64) -> (Machine, State) {
    let (machine, mut s) = at(LiftPlace::At(slot));
    (s.unit, s.task, s.phase, s.slot) = (UnitState::Held, Task::ClearOut, Phase::AskAnswer, slot);
    s.map.unknown = slots_mask(16) & !slots_mask(slot) | unsure;
    (machine, s)
}

/// The member that stands for a state's class.
fn first((machine, state): &(Machine, State), frames: u64) -> State {
    let mut s = *state;
    if let Some(squeeze) = machine.squeeze(&s, frames, &[], Member::First) {
        machine.change_places(&mut s, &squeeze);
    }
    assert_eq!(
        machine.squeeze(&s, frames, &[], Member::First),
        None,
        "it stays"
    );
    s
}

#[test]
fn at_rest_it_counts_whether_slots_lie_above_and_below() {
    let place = |place, frames| first(&at(place), frames).lift_place;
    let inner: Vec<LiftPlace> = (1..15).map(|slot| place(LiftPlace::At(slot), 0)).collect();
    assert!(inner.iter().all(|one| *one == inner[0]), "{inner:?}");
    for edge in [
        LiftPlace::At(0),
        LiftPlace::At(15),
        LiftPlace::Reference,
        LiftPlace::BelowFirst,
    ] {
        assert_eq!(place(edge, 0), edge);
    }
    let between = place(LiftPlace::Above(3), 0);
    assert_eq!(place(LiftPlace::Above(9), 0), between);
    assert!(matches!(between, LiftPlace::Above(_)));
    // The lowest two are reached from under the lift: they are a run of their own.
    assert_eq!(place(LiftPlace::At(1), 0b11), LiftPlace::At(1));
    assert_eq!(place(LiftPlace::Above(1), 0b11), LiftPlace::Above(1));
    assert_ne!(place(LiftPlace::At(2), 0b11), place(LiftPlace::At(5), 0b11));
}

#[test]
fn a_board_parts_the_slots_and_its_own_is_not_moved() {
    let boards = |place| {
        let (machine, mut s) = at(place);
        let at = HalfSlot {
            slot: 6,
            half: Half::Infeed,
        };
        s.rack.set(at, Board::good(sample::WREN));
        let own = (machine, s);
        let found = first(&own, 0);
        assert_eq!(found.rack, s.rack);
        found.lift_place
    };
    assert_eq!(boards(LiftPlace::At(6)), LiftPlace::At(6));
    assert_eq!(boards(LiftPlace::At(2)), boards(LiftPlace::At(4)));
    assert_eq!(boards(LiftPlace::At(8)), boards(LiftPlace::At(13)));
    assert_ne!(boards(LiftPlace::At(2)), boards(LiftPlace::At(8)));
}

#[test]
fn of_a_clear_out_one_slot_ahead_is_not_many() {
    let slots: Vec<(u8, u64)> = (0..16)
        .map(|slot| first(&asks(slot, 0), 0))
        .map(|s| (s.slot, s.map.unknown))
        .collect();
    // The first, then all with two or more ahead, then one ahead, then none.
    assert!(
        slots[1..=13].iter().all(|one| *one == slots[1]),
        "{slots:?}"
    );
    assert_eq!(slots[1], (1, slots_mask(16) & !1));
    let ends = [slots[0], slots[14], slots[15]];
    assert_eq!(ends.map(|(slot, _)| slot), [0, 14, 15]);
}

#[test]
fn what_was_left_as_not_sure_is_counted_one_by_one() {
    let kept = |slot: u8, unsure: u64| {
        let s = first(&asks(slot, unsure), 0);
        (s.slot, s.map.unknown)
    };
    assert_eq!(kept(9, 1 << 4), kept(12, 1 << 5));
    assert_ne!(kept(9, 1 << 4), kept(9, 0b11 << 4));
    assert_ne!(kept(9, 1 << 8), kept(9, 1 << 4));
    assert_ne!(kept(9, 1), kept(9, 1 << 4));
    let below = |(slot, unknown): (u8, u64)| (unknown & slots_mask(slot)).count_ones();
    assert_eq!(below(kept(11, 0b11 << 4)), 2);
}

#[test]
fn the_member_near_the_end_has_two_ahead() {
    let (machine, mut s) = asks(7, 0);
    let squeeze = machine.squeeze(&s, 0, &[], Member::NearTheEnd);
    machine.change_places(&mut s, &squeeze.expect("there is another"));
    assert_eq!(
        (s.slot, s.map.unknown),
        (13, slots_mask(16) & !slots_mask(13))
    );
    assert_eq!(s.lift_place, LiftPlace::At(13));
    assert_eq!(s.lift_from, machine.height(s.lift_place));
    assert_eq!(machine.squeeze(&s, 0, &[], Member::NearTheEnd), None);
    let (machine, s) = asks(14, 0);
    assert_eq!(machine.squeeze(&s, 0, &[], Member::NearTheEnd), None);
}

#[test]
fn evidence_goes_with_its_slots() {
    let (machine, s) = asks(9, 0);
    let answered = slots_mask(9);
    let squeeze = machine
        .squeeze(&s, 0, &[answered], Member::First)
        .expect("it moves");
    assert_eq!(squeeze.mask(answered), 1);
    assert_eq!(squeeze.mask(1 << 9), 1 << 1);
    // Known of one slot alone, it stays known of one alone.
    let one = answered & !(1 << 3);
    let squeeze = machine
        .squeeze(&s, 0, &[one], Member::First)
        .expect("it moves");
    assert_eq!(squeeze.mask(one), 0b101);
}

#[test]
fn a_sweep_goes_on_to_the_last_slot_that_it_passes_at_full_speed() {
    let (machine, mut s) = at(LiftPlace::At(0));
    (s.unit, s.task) = (UnitState::Execute, Task::Changeover);
    s.referenced = true;
    machine.begin_sweep(&mut s, &mut |_| {});
    machine.settle(&mut s, &mut |_| {});
    let mut ends = Vec::new();
    while s.phase == Phase::Sweeping {
        let mut copy = s;
        if machine.sweep_on(&mut copy, 0, &[]) {
            assert!(copy.slot > s.slot);
            let next = |s: &State| machine.next_event(s);
            assert_eq!(next(&copy), next(&s));
            ends.push((copy.slot, copy.lift.elapsed()));
        }
        let next = machine.next_event(&s).expect("it goes on");
        machine.advance(&mut s, next, &mut |_| {});
    }
    assert!(
        ends.len() > 3 && ends.iter().all(|end| *end == ends[0]),
        "{ends:?}"
    );
}

/// Where a sweep that is stopped after so long comes to stand, as the member of its class.
fn stopped(machine: &Machine, sweep: &State, after: Micros) -> State {
    let mut s = *sweep;
    if after.0 > 0 {
        machine.advance(&mut s, after, &mut |_| {});
    }
    (s.phase, s.unit, s.task) = (Phase::Rest, UnitState::Aborted, Task::None);
    machine.brake_lift(&mut s);
    let left = machine.next_event(&s).expect("it runs on");
    machine.advance(&mut s, left, &mut |_| {});
    assert!(s.lift.is_rest());
    first(&(machine.clone(), s), 0)
}

#[test]
fn a_sweep_that_stops_ends_in_the_class_in_which_its_member_does() {
    let mut compared = 0;
    // The board ends the run from above.
    for board in [10, 12, 15] {
        let (machine, mut s) = at(LiftPlace::At(0));
        let half = Half::Infeed;
        let lies = HalfSlot { slot: board, half };
        s.rack.set(lies, Board::good(sample::WREN));
        (s.unit, s.task) = (UnitState::Execute, Task::Changeover);
        s.referenced = true;
        machine.begin_sweep(&mut s, &mut |_| {});
        machine.settle(&mut s, &mut |_| {});
        while s.phase == Phase::Sweeping {
            let next = machine.next_event(&s).expect("it goes on");
            let mut member = s;
            if machine.sweep_on(&mut member, 0, &[]) {
                for after in [0, 1, next.0 / 2, next.0 - 1].map(Micros) {
                    let [one, other] = [s, member].map(|s| stopped(&machine, &s, after));
                    let places = [one, other].map(|s| (s.lift_place, s.lift_from));
                    assert_eq!(places[0], places[1], "{} {} {after:?}", s.slot, member.slot);
                    compared += 1;
                }
            }
            machine.advance(&mut s, next, &mut |_| {});
        }
    }
    assert!(compared > 30, "{compared}");
}
