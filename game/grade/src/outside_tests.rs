//! Monitors against another library: rtamt 0.4.10, over samples and over dense time. The data and
//! how it was made: `tests/outside/monitors-rtamt.txt`, `tests/outside/scripts/monitors.py`.

use rackproof_buffer::{HalfSlot, Halves};
use rackproof_drill::{Condition, SignKind};
use rackproof_files::{Problems, read};
use rackproof_model::Micros;

use crate::{Definitions, Observation, Program, Watch, compile::Compiler, formula::Operator};

const DATA: &str = include_str!("../../../tests/outside/monitors-rtamt.txt");

/// A step of the data.
const STEP: Micros = Micros::from_millis(100);

fn compiled(text: &str) -> (Program, u16) {
    let problems = Problems::new();
    let report = problems.for_file("formula", text);
    let value = read(report).expect("it can be read");
    let definitions = Definitions::default();
    let mut compiler = Compiler::new(2, &definitions);
    let root = compiler.truth(&value, report);
    let root = root.unwrap_or_else(|| panic!("{text}: {:?}", problems.sorted()));
    (compiler.finish(), root)
}

fn observation(conditions: &[(Condition, bool)], signs: &[(SignKind, bool)]) -> Observation {
    let mask = |bits: &mut dyn Iterator<Item = (u8, bool)>| {
        bits.fold(0, |mask, (bit, is)| mask | u64::from(is) << bit)
    };
    let conditions = mask(&mut conditions.iter().map(|&(one, is)| (one as u8, is)));
    let signs = mask(&mut signs.iter().map(|&(one, is)| (one as u8, is)));
    Observation::sample(None, signs, conditions, Halves::NONE, Halves::NONE)
}

/// What a formula is at each sample. Nothing lies between samples.
fn over_samples(text: &str, samples: &[Observation]) -> String {
    let (program, root) = compiled(text);
    let mut watch = Watch::default();
    let step = |sample: &Observation| {
        let values = program.step(&mut watch, sample);
        program.age(&mut watch, 2 * STEP.0);
        bit(values.truth(root))
    };
    samples.iter().map(step).collect()
}

/// What a formula is in each step of dense time, from its beginning to right before its end. It
/// must not change within one.
fn over_dense_time(text: &str, steps: &[Observation]) -> String {
    let (program, root) = compiled(text);
    let mut watch = Watch::default();
    let mut step = |step: &Observation| {
        let truth = program.step(&mut watch, step).truth(root);
        program.pass(&mut watch, STEP, &mut |watch, now| {
            let values = program.at_half_moment(watch, &step.as_quiet(), now);
            assert_eq!(values.truth(root), truth, "{text} within a step");
            values
        });
        bit(truth)
    };
    steps.iter().map(&mut step).collect()
}

fn bit(truth: bool) -> char {
    if truth { '1' } else { '0' }
}

#[test]
fn monitors_give_what_rtamt_gives() {
    let (mut rows, mut compared) = ([0, 0], 0);
    let rows_of = |row: &&str| !row.starts_with('#') && !row.starts_with("sets");
    for row in DATA.lines().filter(rows_of) {
        let fields: Vec<&str> = row.split('\t').collect();
        let [logic, formula, p, q, r, expected] = fields[..] else {
            panic!("{row}")
        };
        let is = |bits: &str, step: usize| bits.as_bytes()[step] == b'1';
        let dense = logic == "dense";
        let seen: Vec<Observation> = (0..expected.len())
            .map(|step| {
                let (p, q, r) = (is(p, step), is(q, step), is(r, step));
                let conditions = [
                    (Condition::Moving, p),
                    (Condition::Held, q),
                    (Condition::Idle, r && dense),
                ];
                observation(&conditions, &[(SignKind::Crack, r && !dense)])
            })
            .collect();
        let found = if dense {
            over_dense_time(formula, &seen)
        } else {
            over_samples(formula, &seen)
        };
        // Where rtamt gives nothing there is nothing to compare.
        let mut pairs = found.chars().zip(expected.chars());
        let same = pairs.all(|(found, expected)| found == expected || expected == '-');
        assert!(same, "{logic}: {formula}\n{found}\n{expected}");
        compared += expected.chars().filter(|&bit| bit != '-').count();
        rows[usize::from(dense)] += 1;
    }
    assert_eq!(rows, [400, 400], "samples, dense");
    assert!(compared > 23_000, "{compared} of 24,000 steps");
}

/// Four rows for a formula over sets: the four half-slots of a rack of two slots, each with its own
/// trace, and whether it is in the set at each sample.
#[test]
fn sets_give_for_each_half_slot_what_rtamt_gives() {
    let rows: Vec<Vec<&str>> = DATA
        .lines()
        .filter(|row| row.starts_with("sets"))
        .map(|row| row.split('\t').collect())
        .collect();
    let places: Vec<HalfSlot> = Halves::all(2).iter().collect();
    let (mut windows, mut compared) = (0, 0);
    for four in rows.chunks(places.len()) {
        let formula = four[0][1];
        windows += usize::from(formula.contains("_s: "));
        let (program, root) = compiled(&format!("Some({formula})"));
        let Operator::Some(set) = program.operators[root as usize] else {
            panic!("{formula}")
        };
        let mut watch = Watch::default();
        for step in 0..four[0][5].len() {
            let is = |row: usize, trace: usize| four[row][trace].as_bytes()[step] == b'1';
            let mut seen = Halves::NONE;
            for (row, &place) in places.iter().enumerate() {
                if is(row, 2) {
                    seen.insert(place);
                }
            }
            let mask = |condition: Condition, trace| u64::from(is(0, trace)) << condition as u8;
            let conditions = mask(Condition::Held, 3) | mask(Condition::Moving, 4);
            let sample = Observation::sample(None, 0, conditions, seen, Halves::NONE);
            let found = program.step(&mut watch, &sample).set(set);
            program.age(&mut watch, 2 * STEP.0);
            for (row, &place) in places.iter().enumerate() {
                let expected = is(row, 5);
                assert_eq!(
                    found.contains(place),
                    expected,
                    "{formula} {place:?} at {step}"
                );
                compared += 1;
            }
        }
    }
    assert_eq!(
        (rows.len(), windows),
        (600, 150),
        "rows, formulas with a window"
    );
    assert_eq!(compared, 600 * 30);
}

/// Samples 0 to 7: a look at 2, a move at 5, and where the hatch is open. Values: rtamt 0.4.10.
#[test]
fn a_look_and_a_move_come_out_as_in_the_table() {
    let samples = |hatch: Option<usize>| -> Vec<Observation> {
        let sample = |at| {
            observation(
                &[(Condition::HatchOpen, hatch == Some(at))],
                &[(SignKind::Took, at == 2), (SignKind::Crack, at == 5)],
            )
        };
        (0..8).map(sample).collect()
    };
    // The look is Took here, the move is Crack: any two signs do.
    let moved = |then: &str| format!("Implies(Sign(Crack), {then})");
    let cases = [
        (
            moved("Once(within_s: 0.3, of: Sign(Took))"),
            None,
            "11111111",
        ),
        (
            moved("Once(within_s: 0.2, of: Sign(Took))"),
            None,
            "11111011",
        ),
        (
            moved("Since(Not(Is(HatchOpen)), Sign(Took))"),
            Some(4),
            "11111011",
        ),
        (
            "Historically(within_s: 0.2, of: Not(Sign(Took)))".to_owned(),
            None,
            "11000111",
        ),
    ];
    for (formula, hatch, expected) in cases {
        assert_eq!(
            over_samples(&formula, &samples(hatch)),
            expected,
            "{formula}"
        );
    }
}

/// Where the two readings differ: hand-over at one instant, and what is true at a moment only.
#[test]
fn dense_time_and_samples_differ_where_the_docs_say() {
    let states = |bits: &[(bool, bool)]| -> Vec<Observation> {
        let made = |&(p, q): &(bool, bool)| {
            observation(&[(Condition::Moving, p), (Condition::Held, q)], &[])
        };
        bits.iter().map(made).collect()
    };
    let over = states(&[(false, true), (true, false), (true, false)]);
    let since = "Since(Is(Moving), Is(Held))";
    assert_eq!(over_samples(since, &over), "111");
    assert_eq!(over_dense_time(since, &over), "100");
    // Until 0.1 s after it ended: over samples the last of them still counts at the next.
    let ended = states(&[(true, false), (false, false), (false, false)]);
    let once = "Once(within_s: 0.1, of: Is(Moving))";
    assert_eq!(over_samples(once, &ended), "110");
    assert_eq!(over_dense_time(once, &ended), "110");
    let cracks = [observation(&[], &[(SignKind::Crack, true)]); 2];
    let always = "Historically(Sign(Crack))";
    assert_eq!(over_samples(always, &cracks), "11");
    let (program, root) = compiled(always);
    let mut watch = Watch::default();
    assert!(program.step(&mut watch, &cracks[0]).truth(root));
    program.pass_quietly(&mut watch, Micros(1), &cracks[0].as_quiet());
    assert!(!program.step(&mut watch, &cracks[1]).truth(root));
}
