//! The person's share against what the guide of the first drill does, and by hand.

use rackproof_attempt::Exercise;
use rackproof_drill::{Cause, IntentKind};
use rackproof_files::Problems;
use rackproof_grade::GuideRun;
use rackproof_library::{built_in_drill, load};

use super::*;
use crate::reckon::figures::figures_tests::asked;

fn first_drill() -> Exercise {
    let loaded = load(built_in_drill(), &Problems::new());
    loaded.expect("it has no problem").exercise
}

fn kinds(doings: &[(At, Intent)]) -> Vec<IntentKind> {
    doings.iter().map(|(_, intent)| intent.kind()).collect()
}

/// What belongs to the drill's own job: the hall, the belts, the neighbours, the changeover.
const OTHER: [IntentKind; 12] = [
    IntentKind::Walk,
    IntentKind::Torch,
    IntentKind::TestStraps,
    IntentKind::LookMouth,
    IntentKind::TakeFromBelt,
    IntentKind::TakeFromMouth,
    IntentKind::AskUpstreamHold,
    IntentKind::LetUpstreamGo,
    IntentKind::AskDownstreamHold,
    IntentKind::LetDownstreamGo,
    IntentKind::CallLead,
    IntentKind::WriteLog,
];

/// The guide does what is reckoned, and in that order, in each start with boards in the rack.
#[test]
fn by_hand_is_what_the_guide_of_the_first_drill_does() {
    let exercise = first_drill();
    let way = exercise
        .procedure
        .ways
        .iter()
        .position(|way| way == "by-hand");
    let way = way.expect("it is a way");
    let mut compared = 0;
    for number in 0..exercise.drill.variants.len() {
        let judged = exercise.judged(number).expect("it is a variant");
        let run = GuideRun::play(&judged, &exercise.procedure, way).expect("the guide ends");
        let done: Vec<IntentKind> = run
            .causes
            .iter()
            .filter_map(|(_, cause)| match cause {
                Cause::Did(intent) => Some(intent.kind()),
                _ => None,
            })
            .filter(|kind| !OTHER.contains(kind))
            .collect();
        let hands = done.iter().filter(|kind| **kind == IntentKind::HandIn);
        let boards = hands.count();
        // Once a side showed a board the guide does not look from the other before it takes it.
        let looks = |side: IntentKind| done.iter().filter(|kind| **kind == side).count();
        let both = [IntentKind::LookInfeedSide, IntentKind::LookOutfeedSide].map(looks);
        if boards == 0 || both != [2, 2] {
            continue;
        }
        let key_out = done.iter().position(|kind| *kind == IntentKind::KeyOut);
        let done = &done[..=key_out.expect("the key is taken out")];
        // The drill begins stopped.
        let [(_, Intent::Press(Button::Stop)), before @ ..] = &BEFORE_HAND else {
            panic!("it is stopped first")
        };
        let mut reckoned = kinds(before);
        for _ in 0..boards {
            reckoned.extend(kinds(&EACH_BY_HAND));
        }
        reckoned.extend(kinds(&AFTER_HAND));
        assert_eq!(done, reckoned, "variant {number}");
        compared += 1;
    }
    assert!(compared > 0, "no start was compared");
}

/// By hand from the pace of the files. Places stand in a row: infeed, hatch, isolator, panel,
/// outfeed; a walk is from one to the next.
#[test]
fn the_shares_are_the_sums_by_hand() {
    // alder-16: the panel is reached from the outfeed. rowan-40: from its own place alone, with a
    // walk of 2.5 s each way. Press 1 s, look 3 s, handle 3 s; one more press for the other half.
    for (name, asks, before, board, slot) in [
        ("alder-16", Asks::Slot, 5_000_000, 7_000_000, 4_000_000),
        ("alder-16", Asks::Place, 5_000_000, 7_000_000, 5_000_000),
        ("rowan-40", Asks::Slot, 5_000_000, 12_000_000, 9_000_000),
        ("rowan-40", Asks::Place, 5_000_000, 12_000_000, 10_000_000),
    ] {
        let asked = asked(name, "wren", None);
        let mut parts = asked.machine.parts().clone();
        parts.service.clear_out_asks = asks;
        let expected = Share {
            before,
            board,
            slot,
            after: 0,
        };
        let share = by_belt(&Machine::new(parts), &asked.hall);
        assert_eq!(share, expected, "{name} {asks:?}");
    }
    // Before: stop 1, walk 2, off 1, lock 3, walk 2, try 1, two places 4, hatch 3, cord 3, two
    // looks of 20, prop 3. After: two looks of 20, prop, cord and hatch 9, walk 2, lock 3, on 1,
    // walk 2, key 3, button 1, key 3.
    let share = by_hand(&asked("alder-16", "wren", None).hall);
    let expected = Share {
        before: 63_000_000,
        board: 12_000_000,
        slot: 0,
        after: 64_000_000,
    };
    assert_eq!(share, expected);
    assert_eq!(share.time(3, 16), 163_000_000);
}
