//! How far raters agree when some ratings are missing, or are more than names.

use crate::{Problem, level::Distances};

/// What ratings are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Level {
    /// Names: any two that differ differ alike.
    Nominal,
    /// Ranks: two differ by the ratings between them.
    Ordinal,
    /// A scale without a zero of its own: differences count.
    Interval,
    /// A scale that begins at 0: differences count by their size.
    Ratio,
}

/// Agreement beyond chance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Alpha {
    /// 1 - observed disagreement / that of chance: 1 for full agreement, 0 for that of chance,
    /// below 0 for less.
    pub alpha: f64,
    /// How many units have two ratings or more. Others cannot be compared and do not count.
    pub units: usize,
    /// How many ratings those units have.
    pub ratings: usize,
}

/// Krippendorff's alpha. One row for each rater, one column for each unit, None where that rater
/// did not rate that unit.
///
/// Only units with two ratings or more count: n ratings, m(u) of unit u.
/// Observed disagreement is 1/n times the sum over units of 1/(m(u) - 1) times the sum of the
/// squared distances of its ordered pairs; that of chance is 1/(n (n - 1)) times the same sum
/// over all pairs of the n. Distances are those of [`Level`]: nominal 1; ordinal the ratings from
/// one to the other, with half of those at both ends; interval c - k; ratio (c - k) / (c + k).
/// Source: Krippendorff 2011, "Computing Krippendorff's Alpha-Reliability", from memory.
pub fn krippendorff<Row: AsRef<[Option<f64>]>>(
    raters: &[Row],
    level: Level,
) -> Result<Alpha, Problem> {
    let units = units(raters, level)?;
    let mut all: Vec<f64> = units.iter().flatten().copied().collect();
    all.sort_by(f64::total_cmp);
    if all.is_empty() {
        return Err(Problem::NothingToCompare);
    }
    let distances = Distances::new(&all, level);
    if distances.are_all_alike() {
        return Err(Problem::AllAlike);
    }
    let observed: f64 = units
        .iter()
        .map(|unit| distances.among(unit) / (unit.len() - 1) as f64)
        .sum();
    let by_chance = distances.among_all() / (all.len() - 1) as f64;
    Ok(Alpha {
        alpha: 1.0 - observed / by_chance,
        units: units.len(),
        ratings: all.len(),
    })
}

/// The ratings of each unit that has two or more.
fn units<Row: AsRef<[Option<f64>]>>(
    raters: &[Row],
    level: Level,
) -> Result<Vec<Vec<f64>>, Problem> {
    let [first, _, ..] = raters else {
        return Err(Problem::TooFewRaters(raters.len() as u64));
    };
    let expected = first.as_ref().len();
    let mut units = vec![Vec::new(); expected];
    for (rater, row) in raters.iter().enumerate() {
        let row = row.as_ref();
        if row.len() != expected {
            return Err(Problem::Ragged {
                row: rater,
                expected,
                found: row.len(),
            });
        }
        for (unit, (ratings, rating)) in units.iter_mut().zip(row).enumerate() {
            let Some(rating) = *rating else {
                continue;
            };
            if !rating.is_finite() {
                return Err(Problem::NotFinite { rater, unit });
            }
            if level == Level::Ratio && rating < 0.0 {
                return Err(Problem::BelowZero { rater, unit });
            }
            ratings.push(rating);
        }
    }
    units.retain(|ratings| ratings.len() >= 2);
    Ok(units)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::outside::{assert_printed, fields, figure, table};

    const BY_OTHERS: &str = include_str!("../../../tests/outside/agreement-krippendorff.txt");

    const LEVELS: [(&str, Level); 4] = [
        ("nominal", Level::Nominal),
        ("ordinal", Level::Ordinal),
        ("interval", Level::Interval),
        ("ratio", Level::Ratio),
    ];

    fn ratings(field: &str) -> Vec<Vec<Option<f64>>> {
        table(field, |cell| (cell != "*").then(|| figure(cell)))
    }

    /// The example of three raters and fifteen units, from memory; krippendorff 0.9.0 has these.
    #[test]
    fn the_known_example_is_met() {
        let known = "*,*,*,*,*,3,4,1,2,1,1,3,3,*,3/1,*,2,1,3,3,4,3,*,*,*,*,*,*,*/\
                     *,*,2,1,3,4,4,*,2,1,1,3,3,*,4";
        let printed = ["0.691358", "0.806721", "0.810845", "0.808944"];
        for ((name, level), printed) in LEVELS.into_iter().zip(printed) {
            let found = krippendorff(&ratings(known), level).expect("an alpha");
            assert_printed(printed, found.alpha, name);
            assert_eq!((found.units, found.ratings), (12, 26));
        }
    }

    #[test]
    fn another_program_has_the_same_alpha() {
        let mut compared = [0; 4];
        for row in fields(BY_OTHERS) {
            let [name, counts, alpha] = row[..] else {
                panic!("{row:?}");
            };
            let at = LEVELS.iter().position(|(level, _)| *level == name);
            let at = at.expect("a level");
            let found = krippendorff(&ratings(counts), LEVELS[at].1).expect("an alpha");
            assert_printed(alpha, found.alpha, &row.join(" "));
            compared[at] += 1;
        }
        assert!(compared.iter().all(|&rows| rows >= 40), "{compared:?}");
    }

    #[test]
    fn ratings_without_an_alpha_are_told() {
        let at = |rater, unit| (rater, unit);
        let not_finite = |(rater, unit)| Problem::NotFinite { rater, unit };
        let ragged = |row, expected, found| Problem::Ragged {
            row,
            expected,
            found,
        };
        let cases = [
            ("1,2,3", Problem::TooFewRaters(1)),
            ("1,2/1,2,3", ragged(1, 2, 3)),
            ("1,2/1", ragged(1, 2, 1)),
            ("*,1/1,*", Problem::NothingToCompare),
            ("*/*", Problem::NothingToCompare),
            ("2,2,*/2,2,1", Problem::AllAlike),
            ("0/-0", Problem::AllAlike),
            ("1,NaN/1,2", not_finite(at(0, 1))),
            ("1,2/inf,2", not_finite(at(1, 0))),
            ("1,2/1,-inf", not_finite(at(1, 1))),
        ];
        for (counts, expected) in cases {
            for (name, level) in LEVELS {
                let found = krippendorff(&ratings(counts), level);
                assert_eq!(found, Err(expected), "{counts} {name}");
            }
        }
        let below = krippendorff(&ratings("1,2/1,-2"), Level::Ratio);
        assert_eq!(below, Err(Problem::BelowZero { rater: 1, unit: 1 }));
        let none: [Vec<Option<f64>>; 0] = [];
        let found = krippendorff(&none, Level::Nominal);
        assert_eq!(found, Err(Problem::TooFewRaters(0)));
    }

    /// Full agreement is 1 and nothing else, at the ends of what a float can hold too.
    #[test]
    fn huge_and_tiny_ratings_are_weighed() {
        for (one, two) in [("0", "5e-324"), ("-1e308", "1.7e308"), ("1e-300", "1e300")] {
            for (name, level) in LEVELS {
                let agreed = krippendorff(&ratings(&format!("{one},{two}/{one},{two}")), level);
                let crossed = krippendorff(&ratings(&format!("{one},{two}/{two},{one}")), level);
                if level == Level::Ratio && one.starts_with('-') {
                    assert!(agreed.is_err());
                    continue;
                }
                // By hand: two units that are crossed give 1 - 4 / (8 / 3).
                assert_eq!(
                    agreed.map(|found| found.alpha),
                    Ok(1.0),
                    "{one} {two} {name}"
                );
                assert_eq!(
                    crossed.map(|found| found.alpha),
                    Ok(-0.5),
                    "{one} {two} {name}"
                );
            }
        }
    }

    fn cells() -> impl Strategy<Value = Option<f64>> {
        prop_oneof![
            2 => Just(None),
            8 => (0..5_u8).prop_map(|value| Some(f64::from(value))),
            1 => any::<f64>().prop_map(Some),
        ]
    }

    proptest! {
        #[test]
        fn any_ratings_give_an_alpha_or_a_problem(
            table in prop_oneof![
                (1..8_usize).prop_flat_map(|units| {
                    prop::collection::vec(prop::collection::vec(cells(), units), 2..5)
                }),
                prop::collection::vec(prop::collection::vec(cells(), 0..4), 0..4),
            ],
        ) {
            for (_, level) in LEVELS {
                if let Ok(found) = krippendorff(&table, level) {
                    prop_assert!(found.alpha.is_finite() && found.alpha <= 1.0, "{:?}", found);
                    prop_assert!(found.ratings >= 2 * found.units);
                }
            }
        }
    }
}
