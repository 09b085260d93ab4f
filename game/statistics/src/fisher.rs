//! Whether two proportions differ.

use crate::Proportion;

/// How likely it is that two groups differ as much as these or more, if both have one and the
/// same rate: the p of Fisher's exact test, two-sided, from 0 to 1.
///
/// Among all tables with the same margins, x successes of the first group have the
/// hypergeometric weight C(n1, x) C(n2, s - x) / C(n1 + n2, s). The p is the sum of the weights
/// that are not above that of the table at hand. This is how `fisher_exact` of SciPy defines it;
/// with no success at all, or no failure, it is 1. Source: Fisher 1935, as SciPy cites it.
///
/// Weights within a part of 1e-11 of each other count as the same; SciPy 1.17.1 has 1e-14.
pub fn equal_rates(first: Proportion, second: Proportion) -> f64 {
    let margins = Margins::of(first, second);
    let seen = u64::from(first.successes().0);
    let mode = margins.mode();
    // Weights from the mode outwards, that of the mode being 1: what is far off gets too small
    // to count, and nothing gets too large.
    let mut weights = vec![1.0];
    let mut weight = 1.0;
    for x in (margins.least()..mode).rev() {
        weight /= margins.growth(x);
        weights.push(weight);
    }
    weights.reverse();
    weight = 1.0;
    for x in mode..margins.most() {
        weight *= margins.growth(x);
        weights.push(weight);
    }
    let here = weights[(seen - margins.least()) as usize];
    let unlikely: f64 = weights
        .iter()
        .filter(|&&weight| weight <= here * (1.0 + ROUNDING))
        .sum();
    let all: f64 = weights.iter().sum();
    unlikely / all
}

/// Up to 10 000 steps of two roundings each, on both sides, stay below this.
const ROUNDING: f64 = 1e-11;

/// Sizes of the groups, and successes in both together.
struct Margins {
    first: u64,
    second: u64,
    successes: u64,
}

impl Margins {
    fn of(first: Proportion, second: Proportion) -> Margins {
        Margins {
            first: u64::from(first.trials().0),
            second: u64::from(second.trials().0),
            successes: u64::from(first.successes().0) + u64::from(second.successes().0),
        }
    }

    /// The fewest successes that the first group can have.
    fn least(&self) -> u64 {
        self.successes.saturating_sub(self.second)
    }

    /// The most successes that the first group can have.
    fn most(&self) -> u64 {
        self.successes.min(self.first)
    }

    /// The likeliest number of successes of the first group.
    fn mode(&self) -> u64 {
        (self.successes + 1) * (self.first + 1) / (self.first + self.second + 2)
    }

    /// The weight of x + 1 over that of x. Both products are whole and exact. `x` is below the
    /// most.
    fn growth(&self, x: u64) -> f64 {
        let up = (self.first - x) * (self.successes - x);
        let down = (x + 1) * (self.second + x + 1 - self.successes);
        up as f64 / down as f64
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::{
        Successes, Trials,
        outside::{assert_printed, fields, figure},
    };

    const BY_SCIPY: &str = include_str!("../../../tests/outside/proportions-scipy.txt");

    fn proportion(successes: u32, trials: u32) -> Proportion {
        Proportion::new(Successes(successes), Trials(trials)).expect("a proportion")
    }

    /// The example of the manual of SciPy 1.17.1, `fisher_exact`: table 8 2 / 1 5.
    #[test]
    fn the_example_of_a_manual_is_met() {
        let found = equal_rates(proportion(8, 10), proportion(1, 6));
        assert_printed("0.034965034965", found, "8 of 10, 1 of 6");
    }

    /// By hand: 3 of 4 against 1 of 4 has weights 1, 16, 36, 16, 1 of 70.
    #[test]
    fn tables_as_unlikely_on_the_other_side_count() {
        let found = equal_rates(proportion(3, 4), proportion(1, 4));
        assert_printed("0.485714", found, "34 of 70");
        let found = equal_rates(proportion(4, 4), proportion(0, 4));
        assert_printed("0.028571", found, "2 of 70");
    }

    #[test]
    fn another_program_has_the_same_p() {
        let mut compared = 0;
        for row in fields(BY_SCIPY) {
            let ["fisher", s1, n1, s2, n2, p] = row[..] else {
                continue;
            };
            let first = proportion(figure(s1), figure(n1));
            let second = proportion(figure(s2), figure(n2));
            assert_printed(p, equal_rates(first, second), &row.join(" "));
            compared += 1;
        }
        assert!(compared >= 200, "{compared}");
    }

    proptest! {
        #[test]
        fn any_two_proportions_have_a_p(
            [n1, n2] in prop_oneof![[1..40_u32, 1..40_u32], [1..=10_000_u32, 1..=10_000_u32]],
            [part1, part2] in [0.0..=1.0, 0.0..=1.0],
        ) {
            let part = |n: u32, part: f64| proportion((f64::from(n) * part) as u32, n);
            let (first, second) = (part(n1, part1), part(n2, part2));
            let p = equal_rates(first, second);
            prop_assert!((0.0..=1.0).contains(&p));
            // Neither which group is first nor what is called success matters.
            let turned = |of: Proportion| proportion(of.failures().0, of.trials().0);
            for other in [equal_rates(second, first), equal_rates(turned(first), turned(second))] {
                prop_assert!((other - p).abs() <= 1e-9 * p, "{} {}", p, other);
            }
        }
    }
}
