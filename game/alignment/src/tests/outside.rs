//! Costs of another aligner: pm4py 2.7.23.11, by `tests/outside/scripts/alignments.py`.

use super::{
    events,
    notation::{Notation, numbers},
    prepared,
};
use crate::Alignment;

pub(super) const COSTS: &str = include_str!("../../../../tests/outside/alignments-pm4py.txt");

/// A row: the task, the trace, the cost, and how many cases of the textbook's log it stands for.
pub(super) fn row(line: &str) -> (&str, Vec<&str>, u32, Option<u32>) {
    let parts: Vec<&str> = line.split('|').map(str::trim).collect();
    let number = |at: usize| parts.get(at).map(|part| part.parse().expect("a number"));
    let trace = parts[1].split_whitespace().collect();
    (parts[0], trace, number(2).expect("a cost"), number(3))
}

fn aligned(task: &str, trace: &[&str]) -> Alignment {
    let (task, words) = Notation::read(task);
    let trace = events(&numbers(&words, trace));
    prepared(&task).align(&trace).expect("it is short")
}

#[test]
fn costs_equal_those_of_another_aligner() {
    let (mut random, mut unlike) = (0, Vec::new());
    for line in COSTS.lines().filter(|line| !line.starts_with('#')) {
        let (task, trace, cost, cases) = row(line);
        random += u32::from(cases.is_none());
        let found = aligned(task, &trace).cost;
        if found != cost {
            unlike.push(format!("{line}: found {found}"));
        }
    }
    assert!(unlike.is_empty(), "{unlike:#?}");
    assert!(random >= 500, "only {random} random pairs");
}

/// The log of 1,391 cases and 7,539 events of van der Aalst's book on process mining, on its three
/// models. The book prints fitness by replay of tokens, which no alignment gives (1, 0.9504 and
/// 0.8797); so the sums here are of alignments, as pm4py gave them for the same log.
#[test]
fn a_textbooks_log_costs_what_another_aligner_says() {
    let mut models: Vec<(&str, [u32; 3])> = Vec::new();
    for line in COSTS.lines().filter(|line| !line.starts_with('#')) {
        let (task, trace, _, Some(cases)) = row(line) else {
            continue;
        };
        if models.last().is_none_or(|(known, _)| *known != task) {
            models.push((task, [0; 3]));
        }
        let (_, [all, steps, costs]) = models.last_mut().expect("one was added");
        *all += cases;
        *steps += cases * trace.len() as u32;
        *costs += cases * aligned(task, &trace).cost;
    }
    let sums: Vec<[u32; 3]> = models.into_iter().map(|(_, sums)| sums).collect();
    let expected = [0, 914, 2366].map(|cost| [1391, 7539, cost]);
    assert_eq!(sums, expected);
}

/// Fitness of single variants on the second model: .8, .857143, .727273.
#[test]
fn fitness_of_single_variants() {
    let model = "->( 'a', *( ->( X( 'b', 'c' ), 'd', 'e' ), 'f' ), X( 'g', 'h' ) )";
    let cases = [
        ("adceh", 2, 8, 10),
        ("acdefdbeh", 2, 12, 14),
        ("adcefdbefcdefdbeg", 6, 16, 22),
    ];
    for (variant, cost, kept, most) in cases {
        let trace: Vec<&str> = variant.split_terminator("").skip(1).collect();
        let found = aligned(model, &trace);
        assert_eq!(found.cost, cost, "{variant}");
        assert_eq!(
            (found.fitness.kept, found.fitness.most),
            (kept, most),
            "{variant}"
        );
    }
}
