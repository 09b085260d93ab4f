//! Monitors against the definition of the logic: every formula, on every history, gives what its
//! meaning over the whole history says. Source of the meaning: past-time temporal logic as
//! textbooks have it (Since: there is a moment at which b held, and a has held at every moment
//! after it).

use proptest::prelude::*;
use rackproof_buffer::{HalfSlot, Halves};
use rackproof_drill::{Condition, IntentKind, SignKind};
use rackproof_files::{Kind, Problems, Value, read};

use crate::{
    Definitions, Observation, Watch,
    compile::Compiler,
    plan::{Plan, Sort},
};

const SLOTS: u8 = 2;

/// Formulas over a few atoms, as a file has them.
fn truths() -> impl Strategy<Value = String> {
    let atom = prop::sample::select(vec![
        "Did(Start)",
        "Did(Stop)",
        "Sign(Crack)",
        "Sign(Took)",
        "Is(Moving)",
        "Is(Held)",
        "True",
        "False",
        "Every(SeenEmpty)",
        "Some(SeenEmpty)",
        "AtBelts(SeenEmpty)",
    ])
    .prop_map(str::to_owned);
    atom.prop_recursive(5, 24, 3, |inner| {
        let pair = (inner.clone(), inner.clone());
        let set = inner.clone().prop_map(|a| format!("Since({a}, SeenEmpty)"));
        prop_oneof![
            inner.clone().prop_map(|a| format!("Not({a})")),
            inner.clone().prop_map(|a| format!("Once({a})")),
            inner.clone().prop_map(|a| format!("Historically({a})")),
            inner.clone().prop_map(|a| format!("Previously({a})")),
            pair.clone().prop_map(|(a, b)| format!("Since({a}, {b})")),
            pair.clone().prop_map(|(a, b)| format!("Implies({a}, {b})")),
            pair.clone().prop_map(|(a, b)| format!("And([{a}, {b}])")),
            pair.prop_map(|(a, b)| format!("Or([{a}, {b}])")),
            set.prop_map(|set| format!("Every({set})")),
        ]
    })
}

/// A history: at each moment an intent without signs, or signs without an intent.
fn histories() -> impl Strategy<Value = Vec<Observation>> {
    let moment = (0_u8..3, 0_u64..4, 0_u64..4, 0_u64..4, 0_u64..4, 0_u8..3);
    let made = moment.prop_map(|(intent, signs, conditions, infeed, outfeed, slot)| {
        let intent = [None, Some(IntentKind::Start), Some(IntentKind::Stop)][intent as usize];
        let quiet = intent.is_some();
        let sign = (signs & 1) << SignKind::Crack as u8 | (signs >> 1) << SignKind::Took as u8;
        let conditions = (conditions & 1) << Condition::Moving as u8
            | (conditions >> 1) << Condition::Held as u8;
        let seen = if quiet {
            Halves::NONE
        } else {
            Halves { infeed, outfeed }
        };
        let belts = if slot < SLOTS {
            Halves::slot(slot)
        } else {
            Halves::NONE
        };
        Observation::sample(
            intent,
            if quiet { 0 } else { sign },
            conditions,
            seen,
            belts,
        )
    });
    prop::collection::vec(made, 1..12)
}

/// Whether a half-slot is in a set at a moment, by the definition.
fn is_in(set: &Value, history: &[Observation], now: usize, at: HalfSlot) -> bool {
    match &set.kind {
        Kind::Tagged(name, _) if name == "SeenEmpty" => history[now]
            .set(crate::formula::SetAtom::SeenEmpty)
            .contains(at),
        Kind::Tagged(name, parts) if name == "Since" => (0..=now).rev().any(|then| {
            is_in(&parts[1], history, then, at)
                && (then + 1..=now).all(|after| holds(&parts[0], history, after))
        }),
        other => panic!("no set: {other:?}"),
    }
}

/// Whether a formula holds at a moment, by the definition.
fn holds(formula: &Value, history: &[Observation], now: usize) -> bool {
    let Kind::Tagged(name, parts) = &formula.kind else {
        panic!("no formula: {formula:?}")
    };
    let of = |part: usize, then: usize| holds(&parts[part], history, then);
    let list = || match &parts[0].kind {
        Kind::List(list) => list.clone(),
        other => panic!("no list: {other:?}"),
    };
    let halves = || Halves::all(SLOTS).iter();
    let tag = || parts[0].tag().unwrap_or_default().to_owned();
    match name.as_str() {
        "True" => true,
        "False" => false,
        "Did" => history[now].did(match tag().as_str() {
            "Start" => IntentKind::Start,
            _ => IntentKind::Stop,
        }),
        "Sign" => history[now].sign(match tag().as_str() {
            "Crack" => SignKind::Crack,
            _ => SignKind::Took,
        }),
        "Is" => history[now].is(match tag().as_str() {
            "Moving" => Condition::Moving,
            _ => Condition::Held,
        }),
        "Not" => !of(0, now),
        "Implies" => !of(0, now) || of(1, now),
        "And" => list().iter().all(|part| holds(part, history, now)),
        "Or" => list().iter().any(|part| holds(part, history, now)),
        "Once" => (0..=now).any(|then| of(0, then)),
        "Historically" => (0..=now).all(|then| of(0, then)),
        "Previously" => now > 0 && of(0, now - 1),
        "Since" => (0..=now)
            .rev()
            .any(|then| of(1, then) && (then + 1..=now).all(|after| of(0, after))),
        "Every" => halves().all(|at| is_in(&parts[0], history, now, at)),
        "Some" => halves().any(|at| is_in(&parts[0], history, now, at)),
        "AtBelts" => {
            let slot = history[now].at_belts();
            !slot.is_empty() && slot.iter().all(|at| is_in(&parts[0], history, now, at))
        }
        other => panic!("not in this test: {other}"),
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]

    #[test]
    fn monitors_give_what_the_definition_says(text in truths(), history in histories()) {
        let problems = Problems::new();
        let report = problems.for_file("formula", &text);
        let value = match read(report) {
            // The file's words for yes and no alone read as such.
            Some(Value { place, kind: Kind::Bool(truth) }) => {
                let name = if truth { "True" } else { "False" };
                Value { place, kind: Kind::Tagged(name.to_owned(), Vec::new()) }
            }
            other => other.expect("it is a formula"),
        };
        let definitions = Definitions::default();
        let mut compiler = Compiler::new(SLOTS, &definitions);
        // Some are too large for the memory: that is a problem, not a wrong answer.
        let Some(root) = compiler.truth(&value, report) else { return Ok(()) };
        let program = compiler.finish();
        let (mut watch, mut planned) = (Watch::default(), Watch::default());
        for (now, seen) in history.iter().enumerate() {
            let expected = holds(&value, &history, now);
            let values = program.step(&mut watch, seen);
            prop_assert_eq!(values.truth(root), expected, "{} at {}", text, now);
            let sort = [IntentKind::Start, IntentKind::Stop]
                .into_iter()
                .find(|&kind| seen.did(kind))
                .map_or(Sort::After, Sort::Before);
            let plan = Plan::new(&program, &[root], sort);
            let mut broke = false;
            plan.step(&program, &mut planned, seen, &mut |_| broke = true);
            prop_assert_eq!(broke, !expected, "made ready: {} at {}", text, now);
            prop_assert_eq!(planned, watch, "memory: {} at {}", text, now);
        }
    }
}
