//! How far two ratings are apart, on each level of measurement.

use crate::Level;

/// The ratings that can be compared, and how far any two are apart.
pub(crate) struct Distances {
    /// The values that occur, rising.
    values: Vec<f64>,
    /// How often each does.
    counts: Vec<f64>,
    /// Where each lies on the level's own line. Unused where there is no line.
    places: Vec<f64>,
    level: Level,
}

impl Distances {
    /// From all ratings, sorted. They are finite.
    pub(crate) fn new(sorted: &[f64], level: Level) -> Distances {
        let runs: Vec<&[f64]> = sorted.chunk_by(|one, next| one == next).collect();
        let values: Vec<f64> = runs.iter().filter_map(|run| run.first().copied()).collect();
        let counts: Vec<f64> = runs.iter().map(|run| run.len() as f64).collect();
        let places = match level {
            Level::Nominal | Level::Ratio => values.clone(),
            Level::Ordinal => middles(&counts),
            Level::Interval => parts_of_range(&values),
        };
        Distances {
            values,
            counts,
            places,
            level,
        }
    }

    /// Whether there is but one value.
    pub(crate) fn are_all_alike(&self) -> bool {
        self.values.len() < 2
    }

    /// The sum of squared distances over all ordered pairs of these ratings.
    pub(crate) fn among(&self, ratings: &[f64]) -> f64 {
        let places: Vec<usize> = ratings.iter().map(|&rating| self.find(rating)).collect();
        let mut sum = 0.0;
        for (at, &one) in places.iter().enumerate() {
            for &other in places.iter().skip(at + 1) {
                sum += 2.0 * self.squared(one, other);
            }
        }
        sum
    }

    /// The same over all ratings.
    pub(crate) fn among_all(&self) -> f64 {
        let mut sum = 0.0;
        for (one, count) in self.counts.iter().enumerate() {
            for (other, others) in self.counts.iter().enumerate().skip(one + 1) {
                sum += 2.0 * count * others * self.squared(one, other);
            }
        }
        sum
    }

    /// Which of the values a rating is.
    fn find(&self, rating: f64) -> usize {
        self.values.partition_point(|&value| value < rating)
    }

    /// The squared distance of two values, known by their index.
    fn squared(&self, one: usize, other: usize) -> f64 {
        if one == other {
            return 0.0;
        }
        let (one, other) = (self.places[one], self.places[other]);
        let distance = match self.level {
            Level::Nominal => 1.0,
            Level::Ordinal | Level::Interval => one - other,
            // (c - k) / (c + k), both divided by the larger one: no sum can be too large.
            Level::Ratio => {
                let part = one.min(other) / one.max(other);
                (1.0 - part) / (1.0 + part)
            }
        };
        distance * distance
    }
}

/// The middle of each run of ranks. Two of them differ by the ratings between, with half of those
/// at both ends.
fn middles(counts: &[f64]) -> Vec<f64> {
    let mut below = 0.0;
    let mut middles = Vec::with_capacity(counts.len());
    for count in counts {
        middles.push(below + count / 2.0);
        below += count;
    }
    middles
}

/// Each value as a part of the range. The unit of an interval scale changes no alpha, and in this
/// one no square can be too large, nor all of them too small.
fn parts_of_range(values: &[f64]) -> Vec<f64> {
    let (Some(&low), Some(&high)) = (values.first(), values.last()) else {
        return Vec::new();
    };
    let range = high - low;
    let part = |value: f64| match range.is_finite() {
        true => (value - low) / range,
        // Too wide for a float: by halves.
        false => (value / 2.0 - low / 2.0) / (high / 2.0 - low / 2.0),
    };
    values.iter().map(|&value| part(value)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand, for 1, 1, 2, 4 and 4, 4, 4.
    #[test]
    fn distances_are_those_of_the_level() {
        let sorted = [1.0, 1.0, 2.0, 4.0, 4.0, 4.0, 4.0];
        let cases = [
            (Level::Nominal, [1.0, 1.0, 1.0]),
            // Middles of ranks: 1, 2.5, 5.
            (Level::Ordinal, [2.25, 16.0, 6.25]),
            // Thirds: 0, 1/3, 1.
            (Level::Interval, [1.0 / 9.0, 1.0, 4.0 / 9.0]),
            (Level::Ratio, [1.0 / 9.0, 9.0 / 25.0, 1.0 / 9.0]),
        ];
        for (level, expected) in cases {
            let distances = Distances::new(&sorted, level);
            let pairs = [[1.0, 2.0], [1.0, 4.0], [2.0, 4.0]];
            for (pair, expected) in pairs.iter().zip(expected) {
                let found = distances.among(pair);
                assert!((found - 2.0 * expected).abs() < 1e-12, "{level:?} {pair:?}");
            }
            assert_eq!(distances.among(&[2.0, 2.0]), 0.0);
            let all = distances.among_all();
            assert!((all - distances.among(&sorted)).abs() < 1e-9, "{level:?}");
        }
    }
}
