//! Monitors against the definition of the logic over dense time: every formula, on every history,
//! gives what its meaning over the whole history says. Source of the meaning: past-time metric
//! temporal logic as textbooks have it (Since: there is a moment at which b held, and a has held at
//! every moment after it).

use proptest::prelude::*;
use rackproof_buffer::Halves;
use rackproof_drill::{Condition, IntentKind, SignKind, Width, Widths};
use rackproof_files::{Kind, Problems, Value, read};
use rackproof_model::{Micrometres, Micros};

use crate::{
    Definitions, Moment, Observation, Program, Watch,
    compile::Compiler,
    definition::{laid_out, truth_of},
    known::Sort,
    margins::{Margins, Measured},
    plan::Plan,
    prepared::Prepared,
};

pub(crate) const SLOTS: u8 = 2;

/// Formulas over a few atoms, as a file has them.
pub(crate) fn truths() -> impl Strategy<Value = String> {
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
        "AtLeast(width: Counted, mm: 0.101)",
        "AtMost(width: Counted, over: NextStored, mm: -0.001)",
    ])
    .prop_map(str::to_owned);
    atom.prop_recursive(5, 24, 3, |inner| {
        let pair = (inner.clone(), inner.clone());
        let set = sets(inner.clone());
        prop_oneof![
            inner.clone().prop_map(|a| format!("Not({a})")),
            inner.clone().prop_map(|a| format!("Once({a})")),
            inner.clone().prop_map(|a| format!("Historically({a})")),
            inner.clone().prop_map(|a| format!("Previously({a})")),
            pair.clone().prop_map(|(a, b)| format!("Since({a}, {b})")),
            pair.clone().prop_map(|(a, b)| format!("Implies({a}, {b})")),
            pair.clone().prop_map(|(a, b)| format!("And([{a}, {b}])")),
            pair.prop_map(|(a, b)| format!("Or([{a}, {b}])")),
            set.clone().prop_map(|set| format!("Every({set})")),
            set.clone().prop_map(|set| format!("Some({set})")),
            set.prop_map(|set| format!("AtBelts({set})")),
            windowed(inner.clone()),
            // Two that hand over at one instant.
            windowed(inner).prop_map(|a| format!("Since(Not({a}), {a})")),
        ]
    })
}

/// Sets of half-slots, each with its own witness where there is a window.
fn sets(inner: BoxedStrategy<String>) -> impl Strategy<Value = String> + Clone {
    let atom = prop::sample::select(vec!["SeenEmpty", "Infeed", "PartSlots(SeenEmpty)"]);
    let atom = atom.prop_map(str::to_owned);
    atom.prop_recursive(3, 8, 2, move |set| {
        let either = prop_oneof![2 => set.clone(), 1 => inner.clone()].boxed();
        let wider = vec!["WholeSlots", "PartSlots", "WholeSides", "PartSides"];
        prop_oneof![
            set.clone().prop_map(|set| format!("Not({set})")),
            set.clone().prop_map(|set| format!("Once({set})")),
            set.clone().prop_map(|set| format!("Historically({set})")),
            (prop::sample::select(wider), set.clone())
                .prop_map(|(wider, set)| format!("{wider}({set})")),
            (set.clone(), either.clone()).prop_map(|(a, b)| format!("And([{a}, {b}])")),
            (either.clone(), set.clone()).prop_map(|(a, b)| format!("Or([{a}, {b}])")),
            (either.clone(), set.clone()).prop_map(|(a, b)| format!("Since({a}, {b})")),
            windowed(set.clone()),
            windowed(set.clone()),
            (windowed(either.boxed()), set).prop_map(|(a, b)| format!("And([{a}, {b}])")),
        ]
    })
}

/// An operator with a window, of some tenths of a second.
fn windowed(inner: BoxedStrategy<String>) -> impl Strategy<Value = String> {
    let field = prop::sample::select(vec!["within_s", "ago_s"]);
    let window = (field, 1_u8..6).prop_map(|(field, tenths)| format!("{field}: 0.{tenths}"));
    prop_oneof![
        (window.clone(), inner.clone()).prop_map(|(window, a)| format!("Once({window}, of: {a})")),
        (window.clone(), inner.clone())
            .prop_map(|(window, a)| format!("Historically({window}, of: {a})")),
        (window, inner.clone(), inner)
            .prop_map(|(window, a, b)| format!("Since({window}, held: {a}, since: {b})")),
    ]
}

/// An observation: an intent without signs, or signs without an intent.
fn observations() -> impl Strategy<Value = Observation> {
    let moment = (0_u8..3, 0_u64..4, 0_u64..4, 0_u64..4, 0_u64..4, 0_u8..3);
    let read = prop::option::weighted(0.8, (99_i32..104).prop_map(Micrometres));
    let widths = (read.clone(), read).prop_map(|(counted, next)| {
        let widths = Widths::default().with(Width::Counted, counted);
        widths.with(Width::NextStored, next)
    });
    (moment, widths).prop_map(
        |((intent, signs, conditions, infeed, outfeed, slot), widths)| {
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
            .reading(widths)
        },
    )
}

/// Observations at whole tenths of a second, and now and then a microsecond beside; several can
/// come at one moment.
pub(crate) fn histories() -> impl Strategy<Value = Vec<(u32, Observation)>> {
    let span = prop_oneof![
        2 => Just(0_u32),
        4 => (1_u32..14).prop_map(|tenths| tenths * 100_000),
        1 => Just(1_u32),
        1 => (1_u32..3).prop_map(|tenths| tenths * 100_000 - 1),
        1 => (1_u32..3).prop_map(|tenths| tenths * 100_000 + 1),
    ];
    prop::collection::vec((span, observations()), 1..9)
}

/// A formula and its program, or `None` if it is too large for the memory: that is a problem, not a
/// wrong answer.
pub(crate) fn compiled(text: &str) -> Option<(Value, Program, u16)> {
    let problems = Problems::new();
    let report = problems.for_file("formula", text);
    let value = match read(report).expect("it is a formula") {
        // The file's words for yes and no alone read as such.
        Value {
            place,
            kind: Kind::Bool(truth),
        } => {
            let name = if truth { "True" } else { "False" };
            Value {
                place,
                kind: Kind::Tagged(name.to_owned(), Vec::new()),
            }
        }
        other => other,
    };
    let definitions = Definitions::default();
    let mut compiler = Compiler::new(SLOTS, &definitions);
    let root = compiler.truth(&value, report)?;
    Some((value, compiler.finish(), root))
}

/// A formula compiled for a rack of so many slots.
pub(crate) fn compiled_for(text: &str, slots: u8) -> Option<(Program, u16)> {
    let problems = Problems::new();
    let report = problems.for_file("formula", text);
    let value = read(report)?;
    let definitions = Definitions::default();
    let mut compiler = Compiler::new(slots, &definitions);
    let root = compiler.truth(&value, report)?;
    Some((compiler.finish(), root))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(6_000))]

    /// At each observation, and at the end of each gap before it; whole and made ready.
    #[test]
    fn monitors_give_what_the_definition_says(text in truths(), history in histories()) {
        let Some((value, program, root)) = compiled(&text) else { return Ok(()) };
        let all = laid_out(&history);
        let expected = truth_of(&value, &all);
        let plan = |sort| Plan::new(&program, &[root], sort);
        let idle = plan(Sort::Quiet);
        let prepared = Prepared::new(program.clone(), &[root]);
        let (mut watch, mut planned) = (Watch::default(), Watch::default());
        let mut ready = Watch::default();
        let mut quiet = Observation::default().as_quiet();
        for ((span, seen), &now) in history.iter().zip(&all.observed) {
            let mut last = None;
            program.pass(&mut watch, Micros(*span), &mut |watch, now| {
                let values = program.at_half_moment(watch, &quiet, now);
                last = Some(values.truth(root));
                values
            });
            let mut gap = ready;
            program.age(&mut gap, 1);
            let gap = program.at_moment::<true>(&mut gap, &quiet).truth(root);
            let first = prepared.pass_quietly(&mut ready, Micros(*span), &quiet);
            let first = first.map(|values| values.truth(root));
            prop_assert_eq!(first, (*span > 0).then_some(gap), "prepared: {} before {}", text, now);
            if !idle.is_idle() {
                let (mut told, mut by_circuit) = (Vec::new(), Vec::new());
                let mut laid_out = planned;
                program.pass(&mut planned, Micros(*span), &mut |watch, now| {
                    let values = if now % 2 == 1 {
                        idle.step::<true>(&program, watch, &quiet)
                    } else {
                        idle.step::<false>(&program, watch, &quiet)
                    };
                    told.push((now, idle.false_roots(&values)));
                    values
                });
                if let Some(circuits) = idle.quiet_circuits() {
                    program.pass(&mut laid_out, Micros(*span), &mut |watch, now| {
                        let turn = circuits[now as usize % 2].step(&program, watch, &quiet);
                        by_circuit.push((now, turn.fails));
                        turn
                    });
                    // The half-moments too: what is told at them, and how long nothing turns.
                    prop_assert_eq!(by_circuit, told, "time, laid out: {} before {}", text, now);
                    prop_assert_eq!(laid_out, planned, "time, laid out: {} before {}", text, now);
                }
            }
            if let Some(last) = last {
                prop_assert_eq!(last, expected[now - 1], "{} before {}", text, all.at[now]);
            }
            let values = program.step(&mut watch, seen);
            prop_assert_eq!(values.truth(root), expected[now], "{} at {}", text, all.at[now]);
            let sort = [IntentKind::Start, IntentKind::Stop]
                .into_iter()
                .find(|&kind| seen.did(kind))
                .map_or(Sort::After, Sort::Before);
            let plan = plan(sort);
            let mut laid_out = planned;
            let fails = plan.failures(&program, &mut laid_out, seen);
            prop_assert_eq!(fails == 1, !expected[now], "laid out: {} at {}", text, all.at[now]);
            let values = plan.step::<false>(&program, &mut planned, seen);
            prop_assert_eq!(laid_out, planned, "memory, laid out: {} at {}", text, all.at[now]);
            let broke = plan.false_roots(&values) != 0;
            prop_assert_eq!(broke, !expected[now], "made ready: {} at {}", text, all.at[now]);
            prop_assert_eq!(planned, watch, "memory: {} at {}", text, all.at[now]);
            let truth = prepared.step(&mut ready, seen).truth(root);
            prop_assert_eq!(truth, expected[now], "prepared: {} at {}", text, all.at[now]);
            prop_assert_eq!(ready, watch, "prepared memory: {} at {}", text, all.at[now]);
            quiet = seen.as_quiet();
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    /// Cut where windows run out, and anywhere, time gives the same; nothing comes out otherwise
    /// within a piece; and a margin has the sign of its formula.
    #[test]
    fn pieces_change_nothing_and_no_change_is_passed(
        text in truths(),
        history in histories(),
        piece in 1_u32..900_000,
    ) {
        same_in_pieces(&text, &history, piece)?;
    }
}

/// Cut where windows run out, and into pieces of this span.
fn same_in_pieces(
    text: &str,
    history: &[(u32, Observation)],
    piece: u32,
) -> Result<(), TestCaseError> {
    let Some((value, program, root)) = compiled(text) else {
        return Ok(());
    };
    let all = laid_out(history);
    let expected = truth_of(&value, &all);
    let now = Moment { at: 0, cause: None };
    let measured = Measured::of(&program, &[root]);
    let mut margins = measured.as_ref().map(Margins::new);
    let (mut watch, mut pieces) = (Watch::default(), Watch::default());
    let mut quiet = Observation::default().as_quiet();
    let mut at = 0;
    for ((span, seen), &observed) in history.iter().zip(&all.observed) {
        program.pass_quietly(&mut watch, Micros(*span), &quiet);
        let mut left = *span;
        while left > 0 {
            let change = program.next_quiet_change(pieces, &quiet);
            let part = change.map_or(left, |change| change.0.min(left)).min(piece);
            let end = at + 2 * u64::from(part);
            let mut inside = all
                .at
                .iter()
                .zip(&expected)
                .filter(|&(&half, _)| half > at && half + 1 < end)
                .map(|(_, truth)| truth);
            if let Some(first) = inside.next() {
                prop_assert!(
                    inside.all(|truth| truth == first),
                    "{} in {}..{}",
                    text,
                    at,
                    end
                );
            }
            let turns = program.pass_quietly(&mut pieces, Micros(part), &quiet);
            if let Some(margins) = &mut margins {
                margins.pass(&quiet, Micros(part), now);
            }
            left -= part;
            at = end;
            if left > 0 {
                if turns {
                    program.step(&mut pieces, &quiet);
                }
                if let Some(margins) = &mut margins {
                    margins.observe(&quiet, now);
                }
            }
        }
        prop_assert_eq!(pieces, watch, "{} at {}", text, at);
        program.step(&mut watch, seen);
        program.step(&mut pieces, seen);
        if let Some(margins) = &mut margins {
            margins.observe(seen, now);
            for truth in margins.truths(seen) {
                prop_assert_eq!(truth, expected[observed], "{} at {}", text, at);
            }
        }
        quiet = seen.as_quiet();
    }
    Ok(())
}

/// Until right before 0.1 s the inner formula did not hold, so that its window is over at 0.5 s and
/// not right after it: the outer window is full at 0.6 s.
#[test]
fn a_window_whose_witness_was_in_a_gap_is_over_at_a_moment() {
    let text =
        "Once(ago_s: 0.1, of: Historically(within_s: 0.4, of: Since(Is(Held), Sign(Crack))))";
    let held = 1 << Condition::Held as u64;
    let seen = |signs| Observation::sample(None, signs, held, Halves::NONE, Halves::NONE);
    let history = [
        (100_000, seen(1 << SignKind::Crack as u64)),
        (500_000, seen(0)),
    ];
    for piece in [1, 7, 1_000, 900_000] {
        same_in_pieces(text, &history, piece).expect("pieces change nothing");
    }
}
