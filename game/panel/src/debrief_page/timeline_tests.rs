//! The timeline against the states that were.

use rackproof_buffer::{Half, HalfSlot};

use super::*;
use crate::debrief_page::sample::{
    BELT_FORGOTTEN, BOARD_PUT_IN, BY_CLEAR_OUT, BY_HAND, DECLARED_UNSEEN, Debriefed,
};

const SECOND: u64 = 1_000_000;

#[test]
fn at_every_moment_the_numbers_are_those_of_the_state() {
    let (mut wrong, mut right, mut inside) = (0, 0, 0);
    for journal in [
        BY_HAND,
        BY_CLEAR_OUT,
        DECLARED_UNSEEN,
        BELT_FORGOTTEN,
        BOARD_PUT_IN,
    ] {
        let one = Debriefed::of(journal);
        let timeline = &one.timeline;
        assert_eq!(timeline.end, one.history.end());
        for part in 0..300 {
            // Between two events as well as at them.
            let at = timeline.end * part / 300 + part * 7;
            if at >= timeline.end {
                continue;
            }
            let state = one.history.state_at(at).world;
            let machine = &state.machine;
            let boards = timeline.boards_at(at).expect("it is within");
            assert_eq!(boards.truly as usize, machine.rack.iter().count(), "{at}");
            let slots = one.exercise.machine.slots();
            let known = |slot: &u8| machine.map.unknown >> slot & 1 == 0;
            let full = |slot: &u8| machine.map.full >> slot & 1 == 1;
            let believed = (0..slots).filter(|slot| known(slot) && full(slot));
            assert_eq!(boards.believed as usize, believed.count(), "{at}");
            let holds = |slot: u8| {
                let board = |half| machine.rack.get(HalfSlot { slot, half });
                Half::BOTH.into_iter().any(|half| board(half).is_some())
            };
            let differs = (0..slots).any(|slot| known(&slot) && full(&slot) != holds(slot));
            assert_eq!(timeline.gap_at(at).is_some(), differs, "{at}");
            let unit = timeline.unit_at(at).expect("it is within");
            assert_eq!(unit.unit, machine.unit());
            assert_eq!(unit.powered, machine.powered());
            let mut hands = timeline.hands_in.iter();
            let is_in = hands.any(|span| span.from <= at && at < span.to);
            assert_eq!(is_in, state.person.hand_in, "{at}");
            wrong += u32::from(differs);
            right += u32::from(!differs);
            inside += u32::from(is_in);
        }
    }
    // Each answer was met.
    assert!(
        wrong > 100 && right > 100 && inside > 10,
        "{wrong} {right} {inside}"
    );
}

#[test]
fn a_gap_says_from_when_to_when_and_who_could_have_seen_it() {
    let at = |slot: u8, half| {
        Halves::one(HalfSlot {
            slot: slot - 1,
            half,
        })
    };
    let cases = [
        // Seen on the first lean, gone when it was taken out.
        (
            BY_HAND,
            at(9, Half::Infeed),
            60 * SECOND,
            Some(51 * SECOND),
            [true, false],
        ),
        // Unknown from the choice of the clear-out on.
        (
            BY_CLEAR_OUT,
            at(9, Half::Infeed),
            15 * SECOND,
            None,
            [true, false],
        ),
        // To the very end; the other lean would have shown it.
        (
            DECLARED_UNSEEN,
            at(12, Half::Outfeed),
            u64::MAX,
            None,
            [false, true],
        ),
    ];
    for (journal, missing, to, seen, shown_by) in cases {
        let one = Debriefed::of(journal);
        let expected = Gap {
            from: 0,
            to: to.min(one.timeline.end),
            missing,
            ghosts: 0,
            seen,
            shown_by,
        };
        assert_eq!(one.timeline.gaps, [expected], "{journal}");
    }
}

#[test]
fn doings_and_declarations_stand_at_their_moments() {
    let one = Debriefed::of(BY_HAND);
    let done = one.history.done_until(one.history.end());
    assert_eq!(one.timeline.doings.len(), done.len());
    assert!(one.timeline.doings.len() > 40);
    let [declared] = one.timeline.declared[..] else {
        panic!("{:?}", one.timeline.declared);
    };
    // The slot map is as empty as it ever was; the button is not held any more.
    let holds = |at| one.history.state_at(at).world.machine.hold_left().0;
    assert!(holds(declared - 1) > 0);
    assert_eq!(holds(declared), 0);
}
