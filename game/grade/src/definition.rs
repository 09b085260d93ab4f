//! The definition of the logic over dense time, worked out as it stands, slowly: for tests alone.
//! Source: past-time metric temporal logic as textbooks have it.

use rackproof_buffer::{Half, HalfSlot, Halves};
use rackproof_drill::{Condition, IntentKind, SignKind};
use rackproof_files::{Kind, Record, Value};

use crate::{Observation, formula::SetAtom, formula_tests::SLOTS};

/// A history, laid out: what is to be seen at each half-moment that counts.
pub(crate) struct LaidOut {
    pub(crate) seen: Vec<Observation>,
    /// Half-moments since the start: gaps are odd.
    pub(crate) at: Vec<u64>,
    /// Which of them each observation is.
    pub(crate) observed: Vec<usize>,
}

/// Of a stretch in which nothing comes only those half-moments count at which something can come
/// out otherwise, and their neighbours: so many tenths after an observation, and the ends.
pub(crate) fn laid_out(history: &[(u32, Observation)]) -> LaidOut {
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
pub(crate) const TENTH: u64 = 200_000;

/// What a formula gives at each half-moment, by the definition.
pub(crate) fn truth_of(formula: &Value, all: &LaidOut) -> Vec<bool> {
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
