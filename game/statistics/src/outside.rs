//! Reads what other programs made of the same data: `tests/outside`.

use std::{fmt::Debug, str::FromStr};

/// The fields of each line that is no comment.
pub(crate) fn fields(text: &str) -> impl Iterator<Item = Vec<&str>> {
    text.lines()
        .filter(|line| !line.starts_with('#'))
        .map(|line| line.split(' ').collect())
}

/// A number of such a line.
pub(crate) fn figure<T: FromStr<Err: Debug>>(field: &str) -> T {
    field.parse().expect("a figure")
}

/// A table: rows parted by `/`, cells by `,`.
pub(crate) fn table<T>(field: &str, cell: impl Fn(&str) -> T) -> Vec<Vec<T>> {
    field
        .split('/')
        .map(|row| row.split(',').map(&cell).collect())
        .collect()
}

/// Asserts that a figure is the printed one, to its last printed digit. Both may be rounded there,
/// so that they may lie one unit of it apart. `0` alone is exact.
pub(crate) fn assert_printed(printed: &str, found: f64, of: &str) {
    let expected: f64 = figure(printed);
    let (digits, exponent) = printed.split_once('e').unwrap_or((printed, "0"));
    let places = digits.split_once('.').map(|(_, places)| places.len());
    let unit = match places {
        Some(places) => 10_f64.powi(figure::<i32>(exponent) - places as i32),
        None => 0.0,
    };
    assert!(
        (found - expected).abs() <= unit,
        "{of}: {found:e} is not {printed}"
    );
}

#[test]
fn a_figure_that_is_off_by_more_than_its_last_digit_is_found() {
    let met = [
        ("0.071354", 0.071_353_6),
        ("1.25e-07", 1.254e-7),
        ("0", 0.0),
        ("1.0e+00", 1.0),
    ];
    for (printed, found) in met {
        assert_printed(printed, found, printed);
    }
    let missed = [
        ("0.071354", 0.071_355_1),
        ("1.25e-07", 1.27e-7),
        ("0", 1e-300),
        ("0.5", f64::NAN),
    ];
    for (printed, found) in missed {
        let caught = std::panic::catch_unwind(|| assert_printed(printed, found, printed));
        assert!(caught.is_err(), "{printed} {found}");
    }
}
