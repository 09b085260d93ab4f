//! Why there is no answer.

use crate::{Successes, Trials};

/// What is wrong with the data. Rows and columns are counted from 0.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Problem {
    /// Nothing was tried: 0 of 0 is no proportion.
    NoTrials,
    /// More attempts than [`Trials::MOST`].
    TooManyTrials(Trials),
    /// More came out well than were tried.
    MoreSuccessesThanTrials(Successes, Trials),
    /// A confidence that is not from [`Confidence::LEAST`](crate::Confidence::LEAST) to
    /// [`Confidence::MOST`](crate::Confidence::MOST).
    ConfidenceOutOfBounds(f64),
    /// A rate of a sequential test that is not from [`Aims::RATE_LEAST`](crate::Aims::RATE_LEAST)
    /// to [`Aims::RATE_MOST`](crate::Aims::RATE_MOST).
    RateOutOfBounds(f64),
    /// The rate to be certified is not at least [`Aims::GAP_LEAST`](crate::Aims::GAP_LEAST)
    /// above the one that must not be.
    RatesTooClose {
        /// The rate of somebody who must not be certified.
        poor: f64,
        /// The rate of somebody who should be.
        good: f64,
    },
    /// A risk of a sequential test that is not from [`Aims::RISK_LEAST`](crate::Aims::RISK_LEAST)
    /// to [`Aims::RISK_MOST`](crate::Aims::RISK_MOST).
    RiskOutOfBounds(f64),
    /// A row is longer or shorter than the table needs.
    Ragged {
        /// Which row.
        row: usize,
        /// The cells that it should have.
        expected: usize,
        /// The cells that it has.
        found: usize,
    },
    /// Agreement needs two raters.
    TooFewRaters(u64),
    /// A subject was not rated as often as the first one.
    UnequalRaters {
        /// Which subject.
        subject: usize,
        /// How often the first subject was rated.
        expected: u64,
        /// How often this one was.
        found: u64,
    },
    /// Nothing was rated, or nothing by two raters.
    NothingToCompare,
    /// All ratings are the same one. Chance alone would agree fully, so that agreement beyond
    /// chance has no meaning.
    AllAlike,
    /// A rating that is no finite number.
    NotFinite {
        /// Which rater.
        rater: usize,
        /// Which unit.
        unit: usize,
    },
    /// A rating below 0 on a scale of ratios, which begins at 0.
    BelowZero {
        /// Which rater.
        rater: usize,
        /// Which unit.
        unit: usize,
    },
}
