//! How far raters agree beyond chance, each thing being put into one of several classes.

use crate::{Problem, Ratings};

/// Agreement beyond chance. Print all of it: where one class is rare, kappa is low though the
/// raters agree.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kappa {
    /// (observed - expected) / (1 - expected): 1 for full agreement, 0 for that of chance, below
    /// 0 for less.
    pub kappa: f64,
    /// The part of ratings, or of pairs of them, that agree, from 0 to 1.
    pub observed: f64,
    /// The part that would agree by chance, from 0 up to less than 1.
    pub expected: f64,
    /// How many things were rated.
    pub subjects: u64,
}

/// Cohen's kappa of two raters. Row i, column j has how many things the first rater put into
/// class i and the second into class j.
///
/// Observed is the sum of the diagonal over all; expected is the sum over classes of row total
/// times column total, over all squared. Source: Cohen 1960, from memory.
pub fn cohen<Row: AsRef<[Ratings]>>(table: &[Row]) -> Result<Kappa, Problem> {
    let columns = column_totals(table, table.len())?;
    let mut alike = 0_u64;
    let mut by_chance = 0_u128;
    for (class, (row, column)) in table.iter().zip(&columns).enumerate() {
        let row = row.as_ref();
        alike += row.get(class).map_or(0, |cell| u64::from(cell.0));
        by_chance += u128::from(total(row)) * u128::from(*column);
    }
    let all: u64 = columns.iter().sum();
    if all == 0 {
        return Err(Problem::NothingToCompare);
    }
    let pairs = u128::from(all) * u128::from(all);
    if by_chance == pairs {
        return Err(Problem::AllAlike);
    }
    let expected = by_chance as f64 / pairs as f64;
    let observed = alike as f64 / all as f64;
    Ok(Kappa {
        kappa: 1.0 - (1.0 - observed) / ((pairs - by_chance) as f64 / pairs as f64),
        observed,
        expected,
        subjects: all,
    })
}

/// Fleiss' kappa of two or more raters, who need not be the same for each subject. Row i, column j
/// has how many raters put subject i into class j; each subject has as many ratings.
///
/// Observed is the mean over subjects of the part of pairs of ratings that agree; expected is the
/// sum over classes of the squared part of all ratings in it. Source: Fleiss 1971, from memory.
pub fn fleiss<Row: AsRef<[Ratings]>>(subjects: &[Row]) -> Result<Kappa, Problem> {
    let first = subjects.first().ok_or(Problem::NothingToCompare)?.as_ref();
    let classes = column_totals(subjects, first.len())?;
    let raters = total(first);
    let mut alike = 0_u128;
    for (subject, row) in subjects.iter().enumerate() {
        let found = total(row.as_ref());
        if found != raters {
            return Err(Problem::UnequalRaters {
                subject,
                expected: raters,
                found,
            });
        }
        // A pair of ratings and its reverse.
        let pairs = row.as_ref().iter().map(|cell| u128::from(cell.0));
        alike += pairs
            .map(|count| count * count.saturating_sub(1))
            .sum::<u128>();
    }
    if raters < 2 {
        return Err(Problem::TooFewRaters(raters));
    }
    let all = u128::from(raters) * subjects.len() as u128;
    let by_chance: u128 = classes
        .iter()
        .map(|&count| u128::from(count) * u128::from(count))
        .sum();
    if by_chance == all * all {
        return Err(Problem::AllAlike);
    }
    let observed = alike as f64 / (all * u128::from(raters - 1)) as f64;
    Ok(Kappa {
        kappa: 1.0 - (1.0 - observed) / ((all * all - by_chance) as f64 / (all * all) as f64),
        observed,
        expected: by_chance as f64 / (all * all) as f64,
        subjects: subjects.len() as u64,
    })
}

/// All ratings of a row.
fn total(row: &[Ratings]) -> u64 {
    row.iter().map(|cell| u64::from(cell.0)).sum()
}

/// All ratings of each column, if each row has so many.
fn column_totals<Row: AsRef<[Ratings]>>(table: &[Row], width: usize) -> Result<Vec<u64>, Problem> {
    let mut totals = vec![0; width];
    for (row, cells) in table.iter().enumerate() {
        let cells = cells.as_ref();
        if cells.len() != width {
            return Err(Problem::Ragged {
                row,
                expected: width,
                found: cells.len(),
            });
        }
        for (total, cell) in totals.iter_mut().zip(cells) {
            *total += u64::from(cell.0);
        }
    }
    Ok(totals)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::outside::{assert_printed, fields, figure, table};

    const BY_OTHERS: &str = include_str!("../../../tests/outside/agreement-statsmodels.txt");

    fn ratings(field: &str) -> Vec<Vec<Ratings>> {
        table(field, |cell| Ratings(figure(cell)))
    }

    /// Examples of common practice, from memory; figures computed by hand.
    #[test]
    fn known_examples_of_two_raters_are_met() {
        let cases = [
            ("20,5/10,15", 50, "0.70", "0.50", "0.40"),
            ("45,15/25,15", 100, "0.60", "0.54", "0.130435"),
            ("25,35/5,35", 100, "0.60", "0.46", "0.259259"),
        ];
        for (counts, subjects, observed, expected, kappa) in cases {
            let found = cohen(&ratings(counts)).expect("a kappa");
            assert_printed(kappa, found.kappa, counts);
            for (printed, found) in [(observed, found.observed), (expected, found.expected)] {
                assert!(
                    (found - figure::<f64>(printed)).abs() < 1e-12,
                    "{counts}: {found}"
                );
            }
            assert_eq!(found.subjects, subjects);
        }
    }

    /// The example of ten subjects and fourteen raters, from memory; statsmodels has this kappa.
    #[test]
    fn the_known_example_of_fourteen_raters_is_met() {
        let rows = "0,0,0,0,14/0,2,6,4,2/0,0,3,5,6/0,3,9,2,0/2,2,8,1,1/7,7,0,0,0/3,2,6,3,0/\
                    2,5,3,2,2/6,5,2,1,0/0,2,2,3,7";
        let found = fleiss(&ratings(rows)).expect("a kappa");
        assert_printed("0.209931", found.kappa, "kappa");
        assert_eq!(found.subjects, 10);
        // The same example: mean agreement .378, by chance .213.
        assert_printed("0.378", found.observed, "observed");
        assert_printed("0.213", found.expected, "expected");
    }

    #[test]
    fn another_program_has_the_same_kappa() {
        let mut compared = [0, 0];
        for row in fields(BY_OTHERS) {
            let [kind @ ("cohen" | "fleiss"), counts, kappa] = row[..] else {
                continue;
            };
            let found = match kind {
                "cohen" => cohen(&ratings(counts)),
                _ => fleiss(&ratings(counts)),
            };
            assert_printed(kappa, found.expect("a kappa").kappa, &row.join(" "));
            compared[usize::from(kind == "fleiss")] += 1;
        }
        assert!(compared.iter().all(|&rows| rows >= 40), "{compared:?}");
    }

    #[test]
    fn tables_without_a_kappa_are_told() {
        let ragged = |row, expected, found| Problem::Ragged {
            row,
            expected,
            found,
        };
        let unequal = |expected, found| Problem::UnequalRaters {
            subject: 1,
            expected,
            found,
        };
        let cases = [
            (
                "0,0/0,0",
                Problem::NothingToCompare,
                Problem::TooFewRaters(0),
            ),
            ("7", Problem::AllAlike, Problem::AllAlike),
            ("1", Problem::AllAlike, Problem::TooFewRaters(1)),
            ("3,0/0,0", Problem::AllAlike, unequal(3, 0)),
            ("0,3,0/0,3,0", ragged(0, 2, 3), Problem::AllAlike),
            ("1,2/1,1,1", ragged(1, 2, 3), ragged(1, 2, 3)),
            ("1,2/3", ragged(1, 2, 1), ragged(1, 2, 1)),
            ("1,0,0/0,1,0", ragged(0, 2, 3), Problem::TooFewRaters(1)),
            ("1,2,0/1,1,0", ragged(0, 2, 3), unequal(3, 2)),
        ];
        for (counts, of_cohen, of_fleiss) in cases {
            assert_eq!(cohen(&ratings(counts)), Err(of_cohen), "{counts}");
            assert_eq!(fleiss(&ratings(counts)), Err(of_fleiss), "{counts}");
        }
        let none: [Vec<Ratings>; 0] = [];
        assert_eq!(cohen(&none), Err(Problem::NothingToCompare));
        assert_eq!(fleiss(&none), Err(Problem::NothingToCompare));
        assert_eq!(fleiss(&[vec![]]), Err(Problem::TooFewRaters(0)));
    }

    proptest! {
        #[test]
        fn any_table_gives_a_kappa_or_a_problem(
            counts in prop_oneof![square(0..4_u32), square(0..=u32::MAX), rows()],
        ) {
            let counts: Vec<Vec<Ratings>> = counts
                .into_iter()
                .map(|row| row.into_iter().map(Ratings).collect())
                .collect();
            for found in [cohen(&counts), fleiss(&counts)].into_iter().flatten() {
                prop_assert!((0.0..=1.0).contains(&found.observed));
                prop_assert!((0.0..=1.0).contains(&found.expected));
                prop_assert!(found.kappa.is_finite() && found.kappa <= 1.0);
            }
        }
    }

    fn square(cell: impl Strategy<Value = u32> + Clone + 'static) -> BoxedStrategy<Vec<Vec<u32>>> {
        (1..5_usize)
            .prop_flat_map(move |size| {
                prop::collection::vec(prop::collection::vec(cell.clone(), size), size)
            })
            .boxed()
    }

    fn rows() -> BoxedStrategy<Vec<Vec<u32>>> {
        prop::collection::vec(prop::collection::vec(any::<u32>(), 0..4), 0..4).boxed()
    }
}
