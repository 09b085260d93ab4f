//! What a few attempts say about people, and how far raters agree.
//!
//! - [`Proportion`]: how often something came out well, with the interval of Clopper and Pearson
//!   and that of Jeffreys.
//! - [`equal_rates`]: whether two proportions differ, by Fisher's exact test.
//! - [`Plan`]: Wald's sequential test: may be certified, not yet, or go on.
//! - [`cohen`], [`fleiss`]: agreement beyond chance, with both parts of it.
//! - [`krippendorff`]: agreement when some ratings are missing, or are more than names.
//!
//! This crate knows nothing of the house. It has floats, so nothing that decides an attempt may
//! rest on it: it tells of classes. Wrong data gives a [`Problem`], never a panic or a NaN; it is
//! an id and values, and knows no sentence.

mod alpha;
mod beta;
mod counts;
mod fisher;
mod kappa;
mod level;
mod message;
#[cfg(test)]
mod outside;
mod problem;
mod proportion;
mod sequential;
#[cfg(test)]
mod sequential_tests;

pub use alpha::{Alpha, Level, krippendorff};
pub use counts::{Ratings, Successes, Trials};
pub use fisher::equal_rates;
pub use kappa::{Kappa, cohen, fleiss};
pub use message::MessageValue;
pub use problem::Problem;
pub use proportion::{Confidence, Interval, Jeffreys, Proportion};
pub use sequential::{Aims, Bounds, Course, Decision, Plan, Steps};
