//! Problems of statistics in words.

use rackproof_statistics::{MessageValue, Problem, Successes, Trials};
use rackproof_words::{Arg, Words};

/// A problem that is new does not compile until it is here, and so in [`problems`].
fn is_listed(problem: Problem) {
    match problem {
        Problem::NoTrials
        | Problem::TooManyTrials(_)
        | Problem::MoreSuccessesThanTrials(..)
        | Problem::ConfidenceOutOfBounds(_)
        | Problem::RateOutOfBounds(_)
        | Problem::RatesTooClose { .. }
        | Problem::RiskOutOfBounds(_)
        | Problem::Ragged { .. }
        | Problem::TooFewRaters(_)
        | Problem::UnequalRaters { .. }
        | Problem::NothingToCompare
        | Problem::AllAlike
        | Problem::NotFinite { .. }
        | Problem::BelowZero { .. } => {}
    }
}

/// Every problem, and what its text says.
fn problems() -> Vec<(Problem, &'static str)> {
    let (poor, good) = (0.8, 0.8);
    vec![
        (Problem::NoTrials, "No attempt is counted"),
        (
            Problem::TooManyTrials(Trials(20_000)),
            "20000 attempts are more than one rate can have. Up to 10000 its interval was checked.",
        ),
        (
            Problem::MoreSuccessesThanTrials(Successes(5), Trials(4)),
            "5 came out well of 4 attempts",
        ),
        (
            Problem::ConfidenceOutOfBounds(1.5),
            "A confidence of 1.5 gives no interval. Give one from 0.5 to 0.9999",
        ),
        (
            Problem::RateOutOfBounds(1.0),
            "A rate of 1 cannot be tested for. Give one from 0.001 to 0.999.",
        ),
        (
            Problem::RatesTooClose { poor, good },
            "The rate to certify, 0.8, is not at least 0.001 above the rate not to certify, 0.8.",
        ),
        (
            Problem::RiskOutOfBounds(0.5),
            "A risk of 0.5 cannot be kept. Give one from 0.0001 to 0.49",
        ),
        (
            Problem::Ragged {
                row: 0,
                expected: 3,
                found: 2,
            },
            "Row 1 has 2 cells, and the table needs 3 in each.",
        ),
        (Problem::TooFewRaters(1), "two raters, and here are 1."),
        (
            Problem::UnequalRaters {
                subject: 6,
                expected: 3,
                found: 4,
            },
            "Subject 7 was rated 4 times, and the first one 3 times.",
        ),
        (Problem::NothingToCompare, "Nothing was rated by two raters"),
        (Problem::AllAlike, "All ratings are the same."),
        (
            Problem::NotFinite { rater: 1, unit: 2 },
            "Rater 2 gave unit 3 something that is no number.",
        ),
        (
            Problem::BelowZero { rater: 0, unit: 0 },
            "Rater 1 gave unit 1 a figure below 0",
        ),
    ]
}

fn arg(value: MessageValue) -> Arg<'static> {
    match value {
        MessageValue::Count(count) => Arg::Number(i64::try_from(count).expect("it is small")),
        MessageValue::Figure(figure) => Arg::from(figure.to_string()),
    }
}

#[test]
fn every_problem_of_statistics_has_its_text_and_its_values() {
    let words = Words::english();
    for (problem, expected) in problems() {
        is_listed(problem);
        let values = problem.values();
        let mut given: Vec<&str> = values.iter().map(|(name, _)| *name).collect();
        given.sort_unstable();
        assert_eq!(words.arguments_of(problem.id()), given, "{problem:?}");
        let args: Vec<_> = values
            .iter()
            .map(|&(name, value)| (name, arg(value)))
            .collect();
        let said = words.say(problem.id(), &args);
        assert!(said.contains(expected), "{problem:?}: {said}");
    }
    let mut ids: Vec<&str> = problems().iter().map(|(problem, _)| problem.id()).collect();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), problems().len(), "each has a text of its own");
    assert_eq!(words.faults(), [""; 0]);
}
