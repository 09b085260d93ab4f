//! Random spans of time in whole microseconds, from a seed.

use rand::{Rng, SeedableRng, rngs::Xoshiro256PlusPlus};
use rand_distr::{Distribution, Exp1};

/// A stream of chances. Source of the numbers: xoshiro256++, made for simulations.
pub(crate) struct Times {
    stream: Xoshiro256PlusPlus,
    /// The next exponential span, in its mean. It is drawn one ahead, so that nobody waits for it.
    next: f64,
}

impl Times {
    /// The stream of a seed.
    pub(crate) fn of(seed: u64) -> Times {
        let mut stream = Xoshiro256PlusPlus::seed_from_u64(seed);
        let next = Exp1.sample(&mut stream);
        Times { stream, next }
    }

    /// Even over (0, 1].
    #[inline]
    pub(crate) fn share(&mut self) -> f64 {
        ((self.stream.next_u64() >> 11) + 1) as f64 / (1_u64 << 53) as f64
    }

    /// Exponential with this mean in µs, by a ziggurat.
    pub(crate) fn exponential(&mut self, mean: f64) -> u64 {
        let times_mean = self.next;
        self.next = Exp1.sample(&mut self.stream);
        // To the nearest whole one.
        (times_mean * mean + 0.5) as i64 as u64
    }
}
