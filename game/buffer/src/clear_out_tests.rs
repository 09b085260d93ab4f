//! Clear-out by slot and by place, by hand and by the machine downstream, left and taken over.

use std::collections::BTreeSet;

use super::*;
use crate::{Board, Button, HalfSlot, deeds::key, sample};

fn parts() -> crate::MachineParts {
    let mut parts = sample::parts();
    parts.slots = 3;
    parts
}

fn rest(machine: &Machine, s: &mut State, heard: &mut Vec<Outcome>) {
    while let Some(next) = machine.next_event(s) {
        machine.advance(s, next, &mut |outcome| heard.push(outcome));
    }
}

fn press(machine: &Machine, s: &mut State, buttons: &[Button]) -> Vec<Outcome> {
    let mut heard = Vec::new();
    for button in buttons {
        machine.press(s, *button, &mut |outcome| heard.push(outcome));
        rest(machine, s, &mut heard);
    }
    heard
}

const BEGIN: [Button; 4] = [
    Button::Mode(Mode::Changeover),
    Button::Reset,
    Button::ClearOut,
    Button::Start,
];

fn half_of(slot: u8, half: Half) -> Question {
    Question::AnswerHalf(HalfSlot { slot, half })
}

#[test]
fn by_place_each_half_is_answered_for_and_one_doubt_keeps_the_slot_unknown() {
    let mut parts = parts();
    parts.service.clear_out_asks = Asks::Place;
    let machine = Machine::new(parts);
    let mut s = machine.at_rest(0);
    press(&machine, &mut s, &BEGIN);
    let cases = [
        ([Answer::SeenEmpty, Answer::SeenEmpty], Answer::SeenEmpty),
        ([Answer::Taken, Answer::SeenEmpty], Answer::Taken),
        ([Answer::Taken, Answer::NotSure], Answer::NotSure),
    ];
    for ((infeed_outfeed, whole), slot) in cases.into_iter().zip(0..) {
        for (half, answer) in Half::BOTH.into_iter().zip(infeed_outfeed) {
            assert_eq!(s.question(), Some(half_of(slot, half)));
            let heard = press(&machine, &mut s, &[Button::Answer(answer)]);
            let slot_is_answered = heard.contains(&Outcome::Answered(slot, whole));
            assert_eq!(slot_is_answered, half == Half::Outfeed, "{heard:?}");
        }
    }
    // Slots 1 and 2 are said, slot 3 comes round again.
    assert_eq!(
        (s.map.unknown, s.map.said_taken, s.map.said_empty),
        (0b100, 0b010, 0b001)
    );
    assert_eq!(s.question(), Some(half_of(2, Half::Infeed)));
}

#[test]
fn the_machine_downstream_takes_boards_while_its_signal_is_closed() {
    for (takes, ready, asked) in [
        (true, true, Question::Answer(0)),
        (true, false, Question::Take(0)),
        (false, true, Question::Take(0)),
    ] {
        let mut parts = parts();
        parts.service.downstream_takes = takes;
        let machine = Machine::new(parts);
        let mut s = machine.at_rest(0);
        let at = HalfSlot {
            slot: 0,
            half: Half::Infeed,
        };
        let quiet = &mut |_| {};
        assert!(machine.put_in_rack(&mut s, at, Board::good(sample::WREN), quiet));
        machine.downstream_signal(&mut s, ready, quiet);
        let heard = press(&machine, &mut s, &BEGIN);
        let sent = heard.contains(&Outcome::BoardSent(0));
        assert_eq!((sent, s.question()), (takes && ready, Some(asked)));
        assert_eq!(
            s.rack.present().is_empty() && s.outfeed_belt == [None; 2],
            sent
        );
        assert!(!s.board_available());
    }
}

#[test]
fn two_boards_go_only_as_often_as_downstream_opens_and_closes() {
    let mut parts = parts();
    parts.service.downstream_takes = true;
    let machine = Machine::new(parts);
    let mut s = machine.at_rest(0);
    for half in Half::BOTH {
        let at = HalfSlot { slot: 0, half };
        machine.put_in_rack(&mut s, at, Board::good(sample::WREN), &mut |_| {});
    }
    machine.downstream_signal(&mut s, true, &mut |_| {});
    let heard = press(&machine, &mut s, &BEGIN);
    // One board for one closing (IPC-SMEMA-9851): the second waits for a hand.
    let sent = heard
        .iter()
        .filter(|o| **o == Outcome::BoardSent(0))
        .count();
    assert_eq!((sent, s.question()), (1, Some(Question::Take(0))));
}

#[test]
fn power_lost_in_the_middle_the_map_stays_and_the_task_is_forgotten() {
    let machine = Machine::new(parts());
    let mut s = machine.at_rest(0);
    press(&machine, &mut s, &BEGIN);
    press(&machine, &mut s, &[Button::Answer(Answer::SeenEmpty)]);
    let map = s.map;
    assert_eq!(map.unknown, 0b110);
    for on in [false, true] {
        machine.turn_isolator(&mut s, on, &mut |_| {});
        rest(&machine, &mut s, &mut Vec::new());
    }
    assert_eq!((s.map, s.task, s.mode), (map, Task::None, Mode::Production));
    assert_eq!(
        (s.unit, s.question(), s.referenced()),
        (UnitState::Stopped, None, false)
    );
    // Nothing starts on a map with unknown slots; a new clear-out asks for all of them again.
    let refused = press(&machine, &mut s, &[Button::Reset, Button::Start]);
    assert!(
        refused.contains(&Outcome::Refused(Refusal::MapUnknown)),
        "{refused:?}"
    );
    press(
        &machine,
        &mut s,
        &[Button::Mode(Mode::Changeover), Button::ClearOut],
    );
    assert_eq!(s.map.unknown, 0b111);
}

#[test]
fn the_next_shift_takes_over_where_it_was_left() {
    let machine = Machine::new(parts());
    let mut s = machine.at_rest(0);
    let said = [(0, Answer::SeenEmpty), (1, Answer::NotSure)];
    machine.leave_half_cleared(&mut s, &said, Some(1));
    assert_eq!(s.question(), Some(Question::Answer(1)));
    assert_eq!((s.map.unknown, s.service.said_before), (0b110, 0b001));
    press(&machine, &mut s, &[Button::Answer(Answer::SeenEmpty)]);
    let heard = press(&machine, &mut s, &[Button::Answer(Answer::SeenEmpty)]);
    // Three answers in all, one of them by somebody who is gone: the panel calls that cleared.
    assert!(heard.contains(&Outcome::ClearedOut));
    assert!(s.map.is_empty() && s.service.said_before == 0b001);
    let mut s = machine.at_rest(0);
    machine.leave_half_cleared(&mut s, &said, None);
    assert_eq!(
        (s.unit, s.task, s.map.unknown),
        (UnitState::Stopped, Task::None, 0b110)
    );
    press(&machine, &mut s, &[Button::Reset, Button::ClearOut]);
    assert_eq!((s.map.unknown, s.service.said_before), (0b111, 0));
}

/// Every set of unknown slots, whichever product is loaded, with all slots and with fewer counted:
/// the one that stands for it has the next clear-out ask about the same, and is empty no more than
/// it is. The numbers of classes are counted by hand: with every slot, every second and every third
/// used there are four, with every second and every third four as well.
#[test]
fn sets_of_unknown_slots_are_alike_if_the_next_clear_out_asks_about_the_same() {
    for (intervals, count, classes) in [
        ([1, 1, 1, 1], 7, 1),
        ([1, 2, 3, 1], 7, 4),
        ([1, 2, 3, 1], 5, 4),
        ([2, 3, 2, 3], 7, 4),
        ([1, 2, 4, 4], 7, 3),
    ] {
        let mut parts = parts();
        parts.slots = 7;
        for (product, interval) in parts.products.iter_mut().zip(intervals) {
            product.storing.interval = interval;
        }
        let machine = Machine::new(parts);
        let mut s = machine.at_rest(0);
        s.service.settings.slot_count = count;
        let mut found = BTreeSet::new();
        for unknown in 1..1 << count {
            let mut other = s;
            s.map.unknown = unknown;
            other.map.unknown = machine.unknown_alike(&s);
            assert_ne!(other.map.unknown, 0);
            assert_eq!(machine.unknown_alike(&other), other.map.unknown, "it stays");
            for product in 0..4 {
                (s.loaded, other.loaded) = (product, product);
                let asked = [&s, &other].map(|s| machine.slots_to_clear(s));
                assert_eq!(asked[0], asked[1], "{intervals:?} {unknown:b} {product}");
            }
            found.insert(other.map.unknown);
        }
        assert_eq!(found.len(), classes, "{intervals:?} {found:?}");
    }
}

#[test]
fn of_a_half_the_key_holds_only_whether_somebody_was_sure_of_it() {
    let mut parts = parts();
    parts.service.clear_out_asks = Asks::Place;
    let machine = Machine::new(parts);
    let answers = [Answer::Taken, Answer::SeenEmpty, Answer::NotSure];
    let [taken, empty, unsure] = answers.map(|answer| {
        let mut s = machine.at_rest(0);
        press(&machine, &mut s, &BEGIN);
        press(&machine, &mut s, &[Button::Answer(answer)]);
        assert_eq!(s.question(), Some(half_of(0, Half::Outfeed)));
        key(&machine, &s)
    });
    assert!(taken == empty && empty != unsure);
}
