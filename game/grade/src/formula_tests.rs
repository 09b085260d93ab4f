//! Monitors against the definition of the logic over dense time: every formula, on every history,
//! gives what its meaning over the whole history says. Source of the meaning: past-time metric
//! temporal logic as textbooks have it (Since: there is a moment at which b held, and a has held at
//! every moment after it).

use proptest::prelude::*;
use rackproof_buffer::{Half, HalfSlot, Halves};
use rackproof_drill::{Condition, IntentKind, SignKind};
use rackproof_files::{Kind, Problems, Record, Value, read};
use rackproof_model::Micros;

use crate::{
    Definitions, Moment, Observation, Program, Watch, compile::Compiler, formula::SetAtom,
    known::Sort, margins::Margins, plan::Plan,
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
            set.clone().prop_map(|set| format!("Every({set})")),
            set.prop_map(|set| format!("Some(WholeSlots({set}))")),
            windowed(inner.clone()),
            // Two that hand over at one instant.
            windowed(inner).prop_map(|a| format!("Since(Not({a}), {a})")),
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
    moment.prop_map(|(intent, signs, conditions, infeed, outfeed, slot)| {
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
    })
}

/// A history, laid out: what is to be seen at each half-moment that counts.
struct LaidOut {
    seen: Vec<Observation>,
    /// Half-moments since the start: gaps are odd.
    at: Vec<u64>,
    /// Which of them each observation is.
    observed: Vec<usize>,
}

/// Observations at whole tenths of a second, and now and then a microsecond beside; several can
/// come at one moment.
fn histories() -> impl Strategy<Value = Vec<(u32, Observation)>> {
    let span = prop_oneof![
        2 => Just(0_u32),
        4 => (1_u32..14).prop_map(|tenths| tenths * 100_000),
        1 => Just(1_u32),
        1 => (1_u32..3).prop_map(|tenths| tenths * 100_000 - 1),
        1 => (1_u32..3).prop_map(|tenths| tenths * 100_000 + 1),
    ];
    prop::collection::vec((span, observations()), 1..9)
}

/// Of a stretch in which nothing comes only those half-moments count at which something can come out
/// otherwise, and their neighbours: so many tenths after an observation, and the ends.
fn laid_out(history: &[(u32, Observation)]) -> LaidOut {
    let mut all = LaidOut {
        seen: Vec::new(),
        at: Vec::new(),
        observed: Vec::new(),
    };
    let mut starts = vec![0];
    let mut quiet = Observation::default().as_quiet();
    for (span, observation) in history {
        let from = starts.last().copied().unwrap_or(0);
        let end = from + 2 * u64::from(*span);
        let changes = starts.iter().flat_map(|&start| {
            let first = (from - start) / TENTH;
            (first..first + 16).flat_map(move |tenths| {
                let change = start + tenths * TENTH;
                [change.saturating_sub(1), change, change + 1]
            })
        });
        let mut inside: Vec<u64> = changes
            .chain([end.saturating_sub(1)])
            .filter(|&at| at > from && at < end)
            .collect();
        inside.sort_unstable();
        inside.dedup();
        for at in inside {
            all.seen.push(quiet);
            all.at.push(at);
        }
        all.observed.push(all.seen.len());
        all.seen.push(*observation);
        all.at.push(end);
        starts.push(end);
        quiet = observation.as_quiet();
    }
    all
}

/// A tenth of a second, in half-moments.
const TENTH: u64 = 200_000;

/// What a formula gives at each half-moment, by the definition.
fn truth_of(formula: &Value, all: &LaidOut) -> Vec<bool> {
    let (name, parts) = match &formula.kind {
        Kind::Tagged(name, parts) => (name.as_str(), parts),
        Kind::Record(record) => return truth_in_window(record, all),
        other => panic!("no formula: {other:?}"),
    };
    let each = |holds: &dyn Fn(usize) -> bool| (0..all.seen.len()).map(holds).collect();
    let of = |part: usize| truth_of(&parts[part], all);
    let list = || match &parts[0].kind {
        Kind::List(list) => list.iter().map(|part| truth_of(part, all)).collect(),
        other => panic!("no list: {other:?}"),
    };
    match name {
        "True" | "False" => each(&|_| name == "True"),
        "Did" | "Sign" | "Is" => {
            let atom = atom(name, parts[0].tag().unwrap_or_default());
            each(&|now| atom(&all.seen[now]))
        }
        "Not" => of(0).iter().map(|truth| !truth).collect(),
        "Implies" => {
            let (a, b) = (of(0), of(1));
            each(&|now| !a[now] || b[now])
        }
        "And" | "Or" => {
            let list: Vec<Vec<bool>> = list();
            each(&|now| match name {
                "And" => list.iter().all(|part| part[now]),
                _ => list.iter().any(|part| part[now]),
            })
        }
        "Once" => {
            let a = of(0);
            each(&|now| (0..=now).any(|then| a[then]))
        }
        "Historically" => {
            let a = of(0);
            each(&|now| (0..=now).all(|then| a[then]))
        }
        "Previously" => {
            let a = of(0);
            let seen = |then: &usize| !all.seen[*then].is_quiet();
            each(&|now| (0..now).rev().find(seen).is_some_and(|then| a[then]))
        }
        "Since" => since(&of(0), &of(1), all, &|_| true),
        "Every" | "Some" | "AtBelts" => truth_of_set(name, &parts[0], all),
        other => panic!("not in this test: {other}"),
    }
}

fn atom(name: &str, tag: &str) -> Box<dyn Fn(&Observation) -> bool> {
    match (name, tag) {
        ("Did", "Start") => Box::new(|seen| seen.did(IntentKind::Start)),
        ("Did", _) => Box::new(|seen| seen.did(IntentKind::Stop)),
        ("Sign", "Crack") => Box::new(|seen| seen.sign(SignKind::Crack)),
        ("Sign", _) => Box::new(|seen| seen.sign(SignKind::Took)),
        ("Is", "Moving") => Box::new(|seen| seen.is(Condition::Moving)),
        _ => Box::new(|seen| seen.is(Condition::Held)),
    }
}

fn truth_of_set(name: &str, set: &Value, all: &LaidOut) -> Vec<bool> {
    let halves = Halves::all(SLOTS).iter();
    let sets: Vec<(HalfSlot, Vec<bool>)> =
        halves.map(|half| (half, is_in(set, all, half))).collect();
    let holds = |now: usize| {
        let belts = all.seen[now].at_belts();
        let mut at_belts = sets.iter().filter(|(half, _)| belts.contains(*half));
        match name {
            "Every" => sets.iter().all(|(_, is_in)| is_in[now]),
            "Some" => sets.iter().any(|(_, is_in)| is_in[now]),
            _ => !belts.is_empty() && at_belts.all(|(_, is_in)| is_in[now]),
        }
    };
    (0..all.at.len()).map(holds).collect()
}

/// There is a moment in the window at which b held, and a has held at every moment after it. After
/// a moment within a gap come others of the same gap.
fn since(a: &[bool], b: &[bool], all: &LaidOut, in_window: &dyn Fn(u64) -> bool) -> Vec<bool> {
    let holds = |now: usize| {
        for then in (0..=now).rev() {
            let in_gap = all.at[then] % 2 == 1;
            let goes_on = then == now || !in_gap || a[then];
            if b[then] && goes_on && in_window(all.at[now] - all.at[then]) {
                return true;
            }
            if !a[then] {
                return false;
            }
        }
        false
    };
    (0..all.at.len()).map(holds).collect()
}

/// The same for an operator with a window.
fn truth_in_window(record: &Record, all: &LaidOut) -> Vec<bool> {
    let field = |name: &str| {
        let field = record.fields.iter().find(|field| field.name == name);
        field.map(|field| &field.value)
    };
    let tenths = |value: &Value| match &value.kind {
        Kind::Decimal(decimal) => decimal.mantissa as u64 * TENTH,
        other => panic!("no time: {other:?}"),
    };
    let in_window = |age: u64| match (field("within_s"), field("ago_s")) {
        (Some(within), _) => age <= tenths(within),
        (_, Some(ago)) => age >= tenths(ago),
        _ => panic!("no window"),
    };
    let of = |name: &str| truth_of(field(name).expect("it is there"), all);
    let ages = |now: usize, then: usize| all.at[now] - all.at[then];
    let nows = 0..all.at.len();
    match record.name.as_deref() {
        Some("Once") => {
            let a = of("of");
            nows.map(|now| (0..=now).any(|then| in_window(ages(now, then)) && a[then]))
                .collect()
        }
        Some("Historically") => {
            let a = of("of");
            nows.map(|now| (0..=now).all(|then| !in_window(ages(now, then)) || a[then]))
                .collect()
        }
        _ => since(&of("held"), &of("since"), all, &in_window),
    }
}

/// Whether a half-slot is in a set at each half-moment, by the definition.
fn is_in(set: &Value, all: &LaidOut, at: HalfSlot) -> Vec<bool> {
    let Kind::Tagged(name, parts) = &set.kind else {
        panic!("no set: {set:?}")
    };
    match name.as_str() {
        "SeenEmpty" => {
            let seen = all.seen.iter();
            seen.map(|seen| seen.set(SetAtom::SeenEmpty).contains(at))
                .collect()
        }
        "Since" => {
            let a = truth_of(&parts[0], all);
            since(&a, &is_in(&parts[1], all, at), all, &|_| true)
        }
        "WholeSlots" => {
            let both = Half::BOTH.map(|half| is_in(&parts[0], all, HalfSlot { half, ..at }));
            (0..all.at.len())
                .map(|now| both[0][now] && both[1][now])
                .collect()
        }
        other => panic!("no set: {other}"),
    }
}

/// A formula and its program, or `None` if it is too large for the memory: that is a problem, not a
/// wrong answer.
fn compiled(text: &str) -> Option<(Value, Program, u16)> {
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
        let (mut watch, mut planned) = (Watch::default(), Watch::default());
        let mut quiet = Observation::default().as_quiet();
        for ((span, seen), &now) in history.iter().zip(&all.observed) {
            let mut last = None;
            program.pass(&mut watch, Micros(*span), &mut |watch, now| {
                let values = program.at_half_moment(watch, &quiet, now);
                last = Some(values.truth(root));
                values
            });
            if !idle.is_idle() {
                program.pass(&mut planned, Micros(*span), &mut |watch, now| if now % 2 == 1 {
                    idle.step::<true>(&program, watch, &quiet)
                } else {
                    idle.step::<false>(&program, watch, &quiet)
                });
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
            let values = plan.step::<false>(&program, &mut planned, seen);
            let broke = plan.false_roots(&values) != 0;
            prop_assert_eq!(broke, !expected[now], "made ready: {} at {}", text, all.at[now]);
            prop_assert_eq!(planned, watch, "memory: {} at {}", text, all.at[now]);
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
        let Some((value, program, root)) = compiled(&text) else { return Ok(()) };
        let all = laid_out(&history);
        let expected = truth_of(&value, &all);
        let now = Moment { at: 0, cause: None };
        let mut margins = Margins::over(&program, vec![root]);
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
                let mut inside = all.at.iter().zip(&expected)
                    .filter(|&(&half, _)| half > at && half + 1 < end)
                    .map(|(_, truth)| truth);
                if let Some(first) = inside.next() {
                    prop_assert!(inside.all(|truth| truth == first), "{} in {}..{}", text, at, end);
                }
                program.pass_quietly(&mut pieces, Micros(part), &quiet);
                margins.pass(&quiet, Micros(part), now);
                left -= part;
                at = end;
                if left > 0 {
                    program.step(&mut pieces, &quiet);
                    margins.observe(&quiet, now);
                }
            }
            prop_assert_eq!(pieces, watch, "{} at {}", text, at);
            program.step(&mut watch, seen);
            program.step(&mut pieces, seen);
            margins.observe(seen, now);
            if !program.clocks.is_empty() {
                prop_assert_eq!(margins.is_true(root), expected[observed], "{} at {}", text, at);
            }
            quiet = seen.as_quiet();
        }
    }
}
