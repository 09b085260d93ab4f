//! Quantiles of the beta distribution.

use statrs::function::beta::checked_beta_reg;

/// Where the beta distribution has `tail` of its weight below: the x with I_x(a, b) = tail.
///
/// `a` and `b` are above 0, `tail` is between 0 and 1. I is the regularised incomplete beta
/// function of `statrs`. It rises with x, so x is found by halving. Floats from 0 to 1 have the
/// order of their bits; halving those ends after 62 steps at the nearest float, near 0 too.
/// Newton's method, which `statrs` has, takes fewer steps and needs guards at the ends.
pub(crate) fn quantile(a: f64, b: f64, tail: f64) -> f64 {
    let (mut low, mut high) = (0.0_f64.to_bits(), 1.0_f64.to_bits());
    while high - low > 1 {
        let middle = low + (high - low) / 2;
        if checked_beta_reg(a, b, f64::from_bits(middle)).is_ok_and(|below| below < tail) {
            low = middle;
        } else {
            high = middle;
        }
    }
    f64::from_bits(high)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Beta(1, b) and Beta(a, 1) have closed quantiles: 1 - (1 - q)^(1/b) and q^(1/a). By hand.
    #[test]
    fn closed_quantiles_are_met() {
        for n in [1.0, 2.0, 7.5, 30.0, 1_000.0, 10_000.0_f64] {
            for tail in [0.000_05, 0.025, 0.05, 0.25, 0.5, 0.9_f64] {
                let expected = -((-tail).ln_1p() / n).exp_m1();
                let found = quantile(1.0, n, tail);
                assert!(
                    (found / expected - 1.0).abs() < 1e-10,
                    "1, {n}, {tail}: {found} {expected}"
                );
                let expected = tail.powf(1.0 / n);
                let found = quantile(n, 1.0, tail);
                assert!(
                    (found / expected - 1.0).abs() < 1e-10,
                    "{n}, 1, {tail}: {found} {expected}"
                );
            }
        }
    }

    /// Beta(1/2, 1/2) is the arcsine distribution: q at sin(pi q / 2) squared. By hand.
    #[test]
    fn the_arcsine_law_is_met() {
        for tail in [0.000_05, 0.01, 0.3, 0.5, 0.975] {
            let expected = (std::f64::consts::FRAC_PI_2 * tail).sin().powi(2);
            let found = quantile(0.5, 0.5, tail);
            assert!(
                (found / expected - 1.0).abs() < 1e-10,
                "{tail}: {found} {expected}"
            );
        }
    }
}
