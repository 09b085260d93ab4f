//! A problem as an id and values. The sentences stand in `assets/locales`, `statistics.ftl`.

use crate::{Aims, Confidence, Problem, Trials};

/// A value of a message.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum MessageValue {
    /// A count, or a place counted from 1.
    Count(u64),
    /// A figure: a rate, a risk or a confidence, from 0 to 1; or what was given in its place.
    Figure(f64),
}

use MessageValue::{Count, Figure};

/// Values by the names that the text has for them.
type Values = Vec<(&'static str, MessageValue)>;

/// A place that is counted from 0, as people count.
fn place(at: usize) -> MessageValue {
    Count(at as u64 + 1)
}

fn bounded(found: f64, least: f64, most: f64) -> Values {
    vec![
        ("found", Figure(found)),
        ("least", Figure(least)),
        ("most", Figure(most)),
    ]
}

impl Problem {
    /// The id of its text.
    pub fn id(&self) -> &'static str {
        match self {
            Problem::NoTrials => "problem-statistics-no-trials",
            Problem::TooManyTrials(_) => "problem-statistics-too-many-trials",
            Problem::MoreSuccessesThanTrials(..) => "problem-statistics-more-successes",
            Problem::ConfidenceOutOfBounds(_) => "problem-statistics-confidence",
            Problem::RateOutOfBounds(_) => "problem-statistics-rate",
            Problem::RatesTooClose { .. } => "problem-statistics-rates-close",
            Problem::RiskOutOfBounds(_) => "problem-statistics-risk",
            Problem::Ragged { .. } => "problem-statistics-ragged",
            Problem::TooFewRaters(_) => "problem-statistics-few-raters",
            Problem::UnequalRaters { .. } => "problem-statistics-unequal-raters",
            Problem::NothingToCompare => "problem-statistics-nothing-to-compare",
            Problem::AllAlike => "problem-statistics-all-alike",
            Problem::NotFinite { .. } => "problem-statistics-not-finite",
            Problem::BelowZero { .. } => "problem-statistics-below-zero",
        }
    }

    /// The values that its text names. Rows, raters, subjects and units are counted from 1.
    pub fn values(&self) -> Vec<(&'static str, MessageValue)> {
        match *self {
            Problem::NoTrials | Problem::NothingToCompare | Problem::AllAlike => Vec::new(),
            Problem::TooManyTrials(trials) => vec![
                ("found", Count(u64::from(trials.0))),
                ("most", Count(u64::from(Trials::MOST.0))),
            ],
            Problem::MoreSuccessesThanTrials(successes, trials) => vec![
                ("successes", Count(u64::from(successes.0))),
                ("trials", Count(u64::from(trials.0))),
            ],
            Problem::ConfidenceOutOfBounds(found) => {
                bounded(found, Confidence::LEAST, Confidence::MOST)
            }
            Problem::RateOutOfBounds(found) => bounded(found, Aims::RATE_LEAST, Aims::RATE_MOST),
            Problem::RiskOutOfBounds(found) => bounded(found, Aims::RISK_LEAST, Aims::RISK_MOST),
            Problem::RatesTooClose { poor, good } => vec![
                ("poor", Figure(poor)),
                ("good", Figure(good)),
                ("gap", Figure(Aims::GAP_LEAST)),
            ],
            Problem::Ragged {
                row,
                expected,
                found,
            } => vec![
                ("row", place(row)),
                ("expected", Count(expected as u64)),
                ("found", Count(found as u64)),
            ],
            Problem::TooFewRaters(found) => vec![("found", Count(found))],
            Problem::UnequalRaters {
                subject,
                expected,
                found,
            } => vec![
                ("subject", place(subject)),
                ("expected", Count(expected)),
                ("found", Count(found)),
            ],
            Problem::NotFinite { rater, unit } | Problem::BelowZero { rater, unit } => {
                vec![("rater", place(rater)), ("unit", place(unit))]
            }
        }
    }
}
