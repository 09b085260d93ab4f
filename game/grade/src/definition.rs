//! The definition of the logic over dense time, worked out as it stands, slowly: for tests alone.
//! Source: past-time metric temporal logic as textbooks have it.

use rackproof_buffer::{Half, HalfSlot, Halves};
use rackproof_drill::{Condition, IntentKind, SignKind, Width};
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
        Kind::Record(record) => return truth_of_record(record, all),
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

/// The same for an operator with a window, or a comparison of widths.
fn truth_of_record(record: &Record, all: &LaidOut) -> Vec<bool> {
    let name = record.name.as_deref();
    if let Some("AtLeast" | "AtMost") = name {
        return compared(record, all, name == Some("AtLeast"));
    }
    in_window(record, all, &|formula| truth_of(formula, all))
}

fn field<'r>(record: &'r Record, name: &str) -> Option<&'r Value> {
    let field = record.fields.iter().find(|field| field.name == name);
    field.map(|field| &field.value)
}

fn compared(record: &Record, all: &LaidOut, least: bool) -> Vec<bool> {
    let width = |name: &str| {
        let tag = field(record, name)?.tag()?;
        let known = Width::ALL.iter().find(|(known, _)| *known == tag);
        Some(known.expect("it is a width").1)
    };
    let plus = match &field(record, "mm").expect("it is there").kind {
        Kind::Decimal(decimal) if decimal.scale == 3 => decimal.mantissa,
        other => panic!("no length: {other:?}"),
    };
    let holds = |seen: &Observation| {
        let read = |width| seen.width(width).map(|read| i64::from(read.0));
        let over = width("over").map_or(Some(0), read);
        let (Some(found), Some(over)) = (read(width("width").expect("it is there")), over) else {
            return false;
        };
        if least {
            found >= over + plus
        } else {
            found <= over + plus
        }
    };
    all.seen.iter().map(holds).collect()
}

/// An operator with a window over formulas that give what `of` says.
fn in_window(record: &Record, all: &LaidOut, of: &dyn Fn(&Value) -> Vec<bool>) -> Vec<bool> {
    let tenths = |value: &Value| match &value.kind {
        Kind::Decimal(decimal) => decimal.mantissa as u64 * TENTH,
        other => panic!("no time: {other:?}"),
    };
    let inside = |age: u64| match (field(record, "within_s"), field(record, "ago_s")) {
        (Some(within), _) => age <= tenths(within),
        (_, Some(ago)) => age >= tenths(ago),
        _ => panic!("no window"),
    };
    let of = |name: &str| of(field(record, name).expect("it is there"));
    let ages = |now: usize, then: usize| all.at[now] - all.at[then];
    let nows = 0..all.at.len();
    match record.name.as_deref() {
        Some("Once") => {
            let a = of("of");
            nows.map(|now| (0..=now).any(|then| inside(ages(now, then)) && a[then]))
                .collect()
        }
        Some("Historically") => {
            let a = of("of");
            nows.map(|now| (0..=now).all(|then| !inside(ages(now, then)) || a[then]))
                .collect()
        }
        _ => since(&of("held"), &of("since"), all, &inside),
    }
}

/// Whether a formula gives a set.
fn is_set(formula: &Value) -> bool {
    match &formula.kind {
        Kind::Tagged(name, parts) => match name.as_str() {
            "SeenEmpty" | "Infeed" => true,
            "WholeSlots" | "PartSlots" | "WholeSides" | "PartSides" => true,
            "Every" | "Some" | "AtBelts" => false,
            _ => parts.iter().any(is_set),
        },
        Kind::List(list) => list.iter().any(is_set),
        Kind::Record(record) => record.fields.iter().any(|field| is_set(&field.value)),
        _ => false,
    }
}

/// Whether a half-slot is in a set at each half-moment, by the definition. A yes or no is all
/// half-slots or none.
pub(crate) fn is_in(set: &Value, all: &LaidOut, at: HalfSlot) -> Vec<bool> {
    if !is_set(set) {
        return truth_of(set, all);
    }
    let (name, parts) = match &set.kind {
        Kind::Tagged(name, parts) => (name.as_str(), parts),
        Kind::Record(record) => return in_window(record, all, &|part| is_in(part, all, at)),
        other => panic!("no set: {other:?}"),
    };
    let nows = 0..all.at.len();
    let of = |part: usize| is_in(&parts[part], all, at);
    let over = |halves: Halves| -> Vec<Vec<bool>> {
        halves
            .iter()
            .map(|half| is_in(&parts[0], all, half))
            .collect()
    };
    let every = |sets: Vec<Vec<bool>>| {
        nows.clone()
            .map(|now| sets.iter().all(|set| set[now]))
            .collect()
    };
    let some = |sets: Vec<Vec<bool>>| {
        nows.clone()
            .map(|now| sets.iter().any(|set| set[now]))
            .collect()
    };
    let list = || match &parts[0].kind {
        Kind::List(list) => list.iter().map(|part| is_in(part, all, at)).collect(),
        other => panic!("no list: {other:?}"),
    };
    let mut side = Halves::NONE;
    *side.of_mut(at.half) = Halves::all(SLOTS).of(at.half);
    match name {
        "SeenEmpty" => {
            let seen = all.seen.iter();
            seen.map(|seen| seen.set(SetAtom::SeenEmpty).contains(at))
                .collect()
        }
        "Infeed" => nows.map(|_| at.half == Half::Infeed).collect(),
        "Not" => of(0).iter().map(|is_in| !is_in).collect(),
        "And" => every(list()),
        "Or" => some(list()),
        "Since" => since(&of(0), &of(1), all, &|_| true),
        "Once" => {
            let a = of(0);
            nows.map(|now| (0..=now).any(|then| a[then])).collect()
        }
        "Historically" => {
            let a = of(0);
            nows.map(|now| (0..=now).all(|then| a[then])).collect()
        }
        "WholeSlots" => every(over(Halves::slot(at.slot))),
        "PartSlots" => some(over(Halves::slot(at.slot))),
        "WholeSides" => every(over(side)),
        "PartSides" => some(over(side)),
        other => panic!("no set: {other}"),
    }
}
