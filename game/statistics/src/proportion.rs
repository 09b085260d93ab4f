//! How often something came out well, and how sure one can be of it.

use crate::{Problem, Successes, Trials, beta::quantile};

/// So many successes in so many trials. There is at least one trial, and at most
/// [`Trials::MOST`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Proportion {
    successes: Successes,
    trials: Trials,
}

/// How often an interval made in this way is meant to hold the true rate: 0.95 for 95 %.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Confidence(f64);

/// The rates from `low` to `high`, both between 0 and 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interval {
    /// The lowest rate.
    pub low: f64,
    /// The highest rate.
    pub high: f64,
}

/// What Jeffreys' prior makes of the trials.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Jeffreys {
    /// The mean of what is then believed: (successes + 1/2) / (trials + 1).
    pub mean: f64,
    /// The same weight is left out at each end.
    pub interval: Interval,
}

impl Confidence {
    /// The least that is taken.
    pub const LEAST: f64 = 0.5;
    /// The most that is taken.
    pub const MOST: f64 = 0.9999;

    /// A confidence from [`Confidence::LEAST`] to [`Confidence::MOST`].
    pub fn new(confidence: f64) -> Result<Confidence, Problem> {
        if (Confidence::LEAST..=Confidence::MOST).contains(&confidence) {
            Ok(Confidence(confidence))
        } else {
            Err(Problem::ConfidenceOutOfBounds(confidence))
        }
    }

    /// What is left out at each end.
    fn tail(self) -> f64 {
        (1.0 - self.0) / 2.0
    }
}

impl Proportion {
    /// So many of so many, if that can be.
    pub fn new(successes: Successes, trials: Trials) -> Result<Proportion, Problem> {
        if trials.0 == 0 && successes.0 == 0 {
            return Err(Problem::NoTrials);
        }
        if successes.0 > trials.0 {
            return Err(Problem::MoreSuccessesThanTrials(successes, trials));
        }
        if trials > Trials::MOST {
            return Err(Problem::TooManyTrials(trials));
        }
        Ok(Proportion { successes, trials })
    }

    /// How many came out well.
    pub fn successes(self) -> Successes {
        self.successes
    }

    /// How many did not.
    pub fn failures(self) -> Trials {
        Trials(self.trials.0 - self.successes.0)
    }

    /// How many there were.
    pub fn trials(self) -> Trials {
        self.trials
    }

    /// The rate that was seen, from 0 to 1.
    pub fn observed(self) -> f64 {
        f64::from(self.successes.0) / f64::from(self.trials.0)
    }

    /// The interval of Clopper and Pearson, which holds the true rate at least as often as the
    /// confidence says.
    ///
    /// With s successes, f failures and q left out at each end: from the q-quantile of
    /// Beta(s, f + 1) to the (1 - q)-quantile of Beta(s + 1, f); 0 if s is 0, 1 if f is 0.
    /// Source: Clopper and Pearson 1934; NIST/SEMATECH e-Handbook of Statistical Methods,
    /// 7.2.4.2, has it as two equations in sums, which these quantiles solve.
    pub fn clopper_pearson(self, confidence: Confidence) -> Interval {
        let (s, f) = self.as_floats();
        let tail = confidence.tail();
        let low = match self.successes.0 {
            0 => 0.0,
            _ => quantile(s, f + 1.0, tail),
        };
        let high = match self.failures().0 {
            0 => 1.0,
            _ => 1.0 - quantile(f, s + 1.0, tail),
        };
        Interval { low, high }
    }

    /// The interval of equal tails after Jeffreys' prior, Beta(1/2, 1/2).
    ///
    /// With s successes, f failures and q left out at each end: from the q-quantile to the
    /// (1 - q)-quantile of Beta(s + 1/2, f + 1/2). The ends are not widened to 0 and 1 when s or
    /// f is 0. Source: Brown, Cai and DasGupta 2001, from memory; they do widen them.
    pub fn jeffreys(self, confidence: Confidence) -> Jeffreys {
        let (s, f) = self.as_floats();
        let tail = confidence.tail();
        Jeffreys {
            mean: (s + 0.5) / (s + f + 1.0),
            interval: Interval {
                low: quantile(s + 0.5, f + 0.5, tail),
                high: 1.0 - quantile(f + 0.5, s + 0.5, tail),
            },
        }
    }

    fn as_floats(self) -> (f64, f64) {
        (f64::from(self.successes.0), f64::from(self.failures().0))
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::outside::{assert_printed, fields, figure};

    const BY_SCIPY: &str = include_str!("../../../tests/outside/proportions-scipy.txt");

    fn proportion(successes: u32, trials: u32) -> Proportion {
        Proportion::new(Successes(successes), Trials(trials)).expect("a proportion")
    }

    fn confidence(confidence: f64) -> Confidence {
        Confidence::new(confidence).expect("a confidence")
    }

    /// The example of the NIST/SEMATECH e-Handbook, 7.2.4.2: 4 of 20 defective, 90 %. Limits to
    /// six places as SciPy 1.17.1 has them.
    #[test]
    fn the_example_of_the_handbook_is_met() {
        let found = proportion(4, 20).clopper_pearson(confidence(0.90));
        assert_printed("0.071354", found.low, "low");
        assert_printed("0.401028", found.high, "high");
    }

    /// Six places, as SciPy 1.17.1 has them.
    #[test]
    fn few_attempts_give_the_intervals_of_the_table() {
        let exact = [
            (0, 10, "0", "0.308497"),
            (1, 10, "0.002529", "0.445016"),
            (2, 20, "0.012349", "0.316983"),
            (0, 30, "0", "0.115703"),
            (29, 30, "0.827831", "0.999156"),
        ];
        for (successes, trials, low, high) in exact {
            let found = proportion(successes, trials).clopper_pearson(confidence(0.95));
            assert_printed(low, found.low, "low");
            assert_printed(high, found.high, "high");
        }
        let jeffreys = [
            (0, 10, "0.000048", "0.217196", "0.045455"),
            (1, 10, "0.011012", "0.381315", "0.136364"),
            (2, 20, "0.021372", "0.283853", "0.119048"),
        ];
        for (successes, trials, low, high, mean) in jeffreys {
            let found = proportion(successes, trials).jeffreys(confidence(0.95));
            assert_printed(low, found.interval.low, "low");
            assert_printed(high, found.interval.high, "high");
            assert_printed(mean, found.mean, "mean");
        }
    }

    #[test]
    fn another_program_has_the_same_intervals() {
        let mut compared = [0, 0];
        for row in fields(BY_SCIPY) {
            let [
                kind @ ("clopper-pearson" | "jeffreys"),
                s,
                n,
                level,
                low,
                high,
            ] = row[..]
            else {
                continue;
            };
            let proportion = proportion(figure(s), figure(n));
            let confidence = confidence(figure(level));
            let found = match kind {
                "jeffreys" => proportion.jeffreys(confidence).interval,
                _ => proportion.clopper_pearson(confidence),
            };
            assert_printed(low, found.low, &row.join(" "));
            assert_printed(high, found.high, &row.join(" "));
            compared[usize::from(kind == "jeffreys")] += 1;
        }
        assert!(compared.iter().all(|&rows| rows >= 200), "{compared:?}");
    }

    #[test]
    fn what_is_no_proportion_is_told() {
        let cases = [
            (0, 0, Problem::NoTrials),
            (
                1,
                0,
                Problem::MoreSuccessesThanTrials(Successes(1), Trials(0)),
            ),
            (
                21,
                20,
                Problem::MoreSuccessesThanTrials(Successes(21), Trials(20)),
            ),
            (0, 10_001, Problem::TooManyTrials(Trials(10_001))),
        ];
        for (successes, trials, expected) in cases {
            let found = Proportion::new(Successes(successes), Trials(trials));
            assert_eq!(found, Err(expected));
        }
        for value in [0.49, 0.999_91, 1.0, -1.0, f64::INFINITY, f64::NAN] {
            let found = Confidence::new(value);
            assert!(
                matches!(found, Err(Problem::ConfidenceOutOfBounds(_))),
                "{value}: {found:?}"
            );
        }
    }

    proptest! {
        #[test]
        fn any_numbers_give_an_interval_or_a_problem(
            successes in prop_oneof![0..=10_000_u32, any::<u32>()],
            trials in prop_oneof![0..=10_000_u32, any::<u32>()],
            level in prop_oneof![0.5..=0.9999, any::<f64>()],
        ) {
            let made = Proportion::new(Successes(successes), Trials(trials));
            let can_be = (1..=10_000).contains(&trials) && successes <= trials;
            prop_assert_eq!(made.is_ok(), can_be);
            let (Ok(made), Ok(confidence)) = (made, Confidence::new(level)) else {
                return Ok(());
            };
            let exact = made.clopper_pearson(confidence);
            let jeffreys = made.jeffreys(confidence).interval;
            prop_assert!((0.0..=made.observed()).contains(&exact.low));
            prop_assert!((made.observed()..=1.0).contains(&exact.high));
            // That of Jeffreys lies inside the other.
            prop_assert!(exact.low <= jeffreys.low);
            prop_assert!(jeffreys.low < jeffreys.high);
            prop_assert!(jeffreys.high <= exact.high);
        }
    }
}
