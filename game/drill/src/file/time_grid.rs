//! Times of a drill stand on a grid.
//!
//! A drill's own clocks run beside each other and beside the machine's, and a state holds what is
//! left of each. Clocks whose times have a large common part meet again and again, and there are
//! few such states; clocks that never meet the same way twice give new states for ever. The
//! machine's times are what they are: those of its file stand on no grid.

use rackproof_files::{Decimal, Place, Report};

use super::bounds::TIME_GRID;

/// A time of a drill file, in µs, if it stands on the grid. One that does not is reported with the
/// two nearest that do.
pub(super) fn on_grid(time: Option<u32>, place: Place, report: Report<'_>) -> Option<u32> {
    let time = time?;
    if time.is_multiple_of(TIME_GRID) {
        return Some(time);
    }
    let [below, above] = [time / TIME_GRID, time / TIME_GRID + 1];
    let written = |time: u32| {
        let decimal = Decimal {
            mantissa: i64::from(time),
            scale: 6,
        };
        decimal.written()
    };
    let [time, grid] = [time, TIME_GRID].map(written);
    let [below, above] = [below, above].map(|steps| written(steps * TIME_GRID));
    report
        .add(place, "problem-time-off-grid", &[("time", &time)])
        .expected(
            "expected-time-on-grid",
            &[("grid", &grid), ("below", &below), ("above", &above)],
        )
        .hint("hint-time-on-grid", &[]);
    None
}

#[cfg(test)]
mod tests {
    use rackproof_files::Problems;

    use super::*;
    use crate::file::bounds::{CYCLE, DROPS_AFTER, FAULT_AFTER, FIRST, OPENS_LATE};

    #[test]
    fn a_time_between_two_steps_is_told_with_both() {
        let cases = [
            (0, None),
            (100_000, None),
            (3_600_000_000, None),
            (1_370_123, Some(("1.370123", "1.3", "1.4"))),
            (50_000, Some(("0.05", "0", "0.1"))),
            (19_999_999, Some(("19.999999", "19.9", "20"))),
        ];
        for (time, expected) in cases {
            let problems = Problems::new();
            let read = on_grid(Some(time), Place::default(), problems.for_file("a", "b"));
            assert_eq!(read.is_some(), expected.is_none(), "{time}");
            let told = problems.sorted();
            let told = told.first().map(|one| {
                let nearest = one.expected.as_ref().expect("it says what is expected");
                assert!(one.hint.is_some());
                (one.found.clone(), nearest.clone())
            });
            let told = told.as_ref().map(|(found, nearest)| {
                let of = |name| nearest.argument(name).unwrap_or_default();
                let time = found.argument("time").unwrap_or_default();
                (time, of("below"), of("above"))
            });
            assert_eq!(told, expected, "{time}");
        }
    }

    /// So the nearest step below or above a time within its bound lies within it as well.
    #[test]
    fn the_bounds_of_such_times_stand_on_the_grid() {
        for bound in [CYCLE, FIRST, FAULT_AFTER, OPENS_LATE, DROPS_AFTER] {
            let ends = [bound.least, bound.most];
            assert!(
                ends.iter().all(|end| end % i64::from(TIME_GRID) == 0),
                "{}",
                bound.name
            );
        }
    }
}
