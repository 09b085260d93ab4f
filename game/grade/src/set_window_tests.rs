//! Rules with windows over sets: each half-slot has its own witness.

use rackproof_buffer::{HalfSlot, Halves};
use rackproof_drill::{Cause, IntentKind, Outcome, Sign, SignKind};
use rackproof_model::{Micros, Model};

use crate::{
    GuideRun, Judged, JudgedOutcome, Observation, Watch,
    formula_tests::compiled_for,
    judged_tests::loaded,
    window_tests::{judged, key},
};

/// What a formula that gives a set holds for after each span, of what is seen empty then.
fn sets(formula: &str, slots: u8, history: &[(u32, Halves)]) -> Vec<Halves> {
    let text = format!("Some({formula})");
    let (program, root) = compiled_for(&text, slots).expect("it compiles");
    let mut watch = Watch::default();
    let mut quiet = Observation::default().as_quiet();
    let argument = root - 1;
    let found = history.iter().map(|&(span, seen)| {
        program.pass_quietly(&mut watch, Micros(span), &quiet);
        let seen = Observation::sample(None, 1 << SignKind::Took as u8, 0, seen, Halves::NONE);
        quiet = seen.as_quiet();
        program.step(&mut watch, &seen).set(argument)
    });
    found.collect()
}

/// Half-slots by slot, from 0: `i` the infeed half, `o` the outfeed half.
fn halves(text: &str) -> Halves {
    let mut set = Halves::NONE;
    for one in text.split_whitespace() {
        let (side, slot) = one.split_at(1);
        let slot = Halves::slot(slot.parse().expect("a slot"));
        set = set.union(match side {
            "i" => Halves { outfeed: 0, ..slot },
            _ => Halves { infeed: 0, ..slot },
        });
    }
    set
}

#[test]
fn each_half_slot_has_its_own_witness() {
    let history = [
        (0, halves("i0 o0")),
        (1_000_000, halves("i1")),
        (1_000_000, Halves::NONE),
        (1, Halves::NONE),
        (999_999, halves("i0")),
        (1, Halves::NONE),
    ];
    let cases = [
        (
            "Once(within_s: 2.0, of: SeenEmpty)",
            ["i0 o0", "i0 o0 i1", "i0 o0 i1", "i1", "i0 i1", "i0"],
        ),
        (
            "Once(ago_s: 2.0, of: SeenEmpty)",
            ["", "", "i0 o0", "i0 o0", "i0 o0 i1", "i0 o0 i1"],
        ),
        (
            "Historically(within_s: 1.0, of: Not(SeenEmpty))",
            [
                "i1 o1",
                "o1",
                "i0 o0 o1",
                "i0 o0 i1 o1",
                "o0 i1 o1",
                "o0 i1 o1",
            ],
        ),
        (
            "Once(within_s: 2.0, of: PartSlots(SeenEmpty))",
            [
                "i0 o0",
                "i0 o0 i1 o1",
                "i0 o0 i1 o1",
                "i1 o1",
                "i0 o0 i1 o1",
                "i0 o0",
            ],
        ),
        (
            "Once(within_s: 2.0, of: WholeSides(Once(SeenEmpty)))",
            ["", "i0 i1", "i0 i1", "i0 i1", "i0 i1", "i0 i1"],
        ),
    ];
    for (formula, expected) in cases {
        assert_eq!(
            sets(formula, 2, &history),
            expected.map(halves),
            "{formula}"
        );
    }
}

#[test]
fn the_largest_rack_has_room_for_each_half_slot() {
    // One half-slot a second, all 80 of them: the last 31 are in the window.
    let all: Vec<HalfSlot> = Halves::all(40).iter().collect();
    let history: Vec<(u32, Halves)> = all.iter().map(|&at| (1_000_000, Halves::one(at))).collect();
    let found = sets("Once(within_s: 30.0, of: SeenEmpty)", 40, &history);
    for (number, found) in found.iter().enumerate() {
        let newest = &all[number.saturating_sub(30)..=number];
        assert_eq!(found.iter().collect::<Vec<_>>(), newest, "{number}");
    }
}

/// The guide's attempt by hand: when the rule was broken, and the looks of the attempt, in µs.
fn along(judged: &Judged) -> (Vec<u64>, Vec<(u64, Halves)>, u64) {
    let (variants, procedure) = loaded();
    let run = GuideRun::play(&variants[0], &procedure, 0).expect("the guide finishes");
    let (mut state, mut now) = (judged.start(), 0_u64);
    let (mut broke, mut looks, mut declared) = (Vec::new(), Vec::new(), 0);
    for (before, cause) in run.causes {
        let mut left = before;
        while left.0 > 0 {
            let next = judged.next_event(&state);
            let part = next.map_or(left, |next| next.min(left));
            now += u64::from(part.0);
            judged.advance(&mut state, part, &mut |outcome| {
                if matches!(outcome, JudgedOutcome::Broke(_)) {
                    broke.push(now);
                }
            });
            left -= part;
        }
        if matches!(cause, Cause::Did(intent) if intent.kind() == IntentKind::HoldDeclare) {
            declared = now;
        }
        judged.act(&mut state, cause, &mut |outcome| match outcome {
            JudgedOutcome::Broke(_) => broke.push(now),
            JudgedOutcome::World(Outcome::Sign(Sign::Looked { empty, .. })) => {
                looks.push((now, empty));
            }
            JudgedOutcome::World(_) => {}
        });
        let back = judged.read_key(&key(judged, &state));
        assert_eq!(back.watch, state.watch, "a key keeps the clocks");
    }
    (broke, looks, declared)
}

#[test]
fn in_an_attempt_it_breaks_when_the_oldest_look_is_too_old() {
    let rule = |window: &str, each: &str| {
        judged(&format!(
            "Implies(Did(HoldDeclare), Every(Once(within_s: {window}, of: {each})))"
        ))
    };
    let (_, looks, declared) = along(&judged("True"));
    let newest = |at: HalfSlot| {
        let looks = looks.iter().filter(|(when, _)| *when <= declared);
        let seen = looks.filter(|(_, empty)| empty.contains(at));
        seen.map(|(when, _)| *when).max()
    };
    let ages = Halves::all(16)
        .iter()
        .map(|at| declared - newest(at).expect("it was seen"));
    let oldest = ages.max().expect("there are slots");
    // Windows are whole tenths: the first that holds the oldest look, and the one below.
    let tenths = oldest.div_ceil(100_000);
    let written = |tenths: u64| format!("{}.{}", tenths / 10, tenths % 10);
    assert_eq!(along(&rule(&written(tenths), "SeenEmpty")).0, [0; 0]);
    assert_eq!(
        along(&rule(&written(tenths - 1), "SeenEmpty")).0,
        [declared]
    );
}

#[test]
fn a_half_slot_that_stays_unlooked_breaks_its_rule_by_time_alone() {
    // From the first look on, some half-slot has been seen empty for 7 s with nothing taken.
    let judged = judged("Not(Some(Since(ago_s: 7.0, held: Not(Sign(Took)), since: SeenEmpty)))");
    let (broke, looks, _) = along(&judged);
    let first = looks
        .iter()
        .find(|(_, empty)| !empty.is_empty())
        .expect("there is a look")
        .0;
    assert_eq!(broke[0], first + 7_000_000);
}

#[test]
fn a_large_rack_with_a_window_over_half_slots_fits_no_key() {
    let fits = |formula: &str, slots| {
        let (program, _) = compiled_for(formula, slots).expect("it compiles");
        program.fits_key()
    };
    let halves = "Every(Once(within_s: 60.0, of: SeenEmpty))";
    let slots = "Every(Once(within_s: 60.0, of: PartSlots(SeenEmpty)))";
    assert!(!fits(halves, 40) && !fits(slots, 40));
    assert!(!fits(halves, 16) && fits(slots, 16));
    assert!(fits(halves, 4));
}
