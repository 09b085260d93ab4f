//! The same lines as two other programs simulate them.
//!
//! Source: `tests/outside/lines-simulated.txt`, with the tools and their versions; made anew by
//! `tests/outside/scripts/lines`.
#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "a test that cannot read its data has failed"
)]

use crate::closed_forms;

const DATA: &str = include_str!("../../../../tests/outside/lines-simulated.txt");

/// How many standard errors a program's mean may be off. The table has 50 means of 40 runs each:
/// by chance alone one of them is more than 3 off in every fifth table, and more than 3.5 off in
/// one table of seventeen (Student's t with 39 degrees of freedom). As first drawn, the furthest
/// is 3.13 off. 300 more runs of that line put it at 2.17, then 700 more at 0.43; the limit was
/// set after that.
pub(crate) const ERRORS_MOST: f64 = 3.5;

/// One quantity of one line, as a program found it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Found<'d> {
    tool: &'d str,
    line: &'d str,
    figures: &'d str,
    quantity: &'d str,
    pub(crate) mean: f64,
    /// Standard error of the mean.
    pub(crate) error: f64,
}

fn all() -> Vec<Found<'static>> {
    let rows = DATA.lines().filter(|row| !row.starts_with('#'));
    rows.map(|row| {
        let [tool, line, figures, quantity, mean, error] = row.split(' ').collect::<Vec<_>>()[..]
        else {
            panic!("{row} has another form");
        };
        let number = |text: &str| -> f64 { text.parse().expect("it is a number") };
        Found {
            tool,
            line,
            figures,
            quantity,
            mean: number(mean),
            error: number(error),
        }
    })
    .collect()
}

/// What the programs found for one quantity of a line. `figures` as they stand in the data.
pub(crate) fn found(line: &str, figures: &str, quantity: &str) -> Vec<Found<'static>> {
    let same = |one: &Found<'_>| (one.line, one.figures, one.quantity) == (line, figures, quantity);
    all().into_iter().filter(same).collect()
}

/// What the closed forms say of a row.
fn closed(found: &Found<'_>) -> f64 {
    let figures: Vec<f64> = found
        .figures
        .split(',')
        .map(|text| text.parse().expect("it is a number"))
        .collect();
    let place = |names: &[&str]| names.iter().position(|name| *name == found.quantity);
    let missing = format!("{found:?} is no quantity of its line");
    match (found.line, &figures[..]) {
        ("poisson", &[rate, room]) => {
            let at = place(&["lost", "inside", "made"]).expect(&missing);
            closed_forms::poisson(rate, room as u8)[at]
        }
        ("bernoulli", &[first, second, room]) => {
            let at = place(&["made", "level", "blocked", "starved"]).expect(&missing);
            closed_forms::bernoulli([first, second], room as u8)[at]
        }
        ("failing", &[p1, p2, r1, r2, room]) => {
            let at = place(&["made", "level"]).expect(&missing);
            closed_forms::failing([p1, p2], [r1, r2], room as u8)[at]
        }
        _ => panic!("{found:?} is a line that nobody knows"),
    }
}

/// The errors are small enough to say something, and no mean is further off than [`ERRORS_MOST`].
#[test]
fn other_programs_find_what_the_closed_forms_say() {
    let all = all();
    // Four lines of three quantities by both programs, four of four and five of two by one.
    let by = |tool: &str| all.iter().filter(|one| one.tool == tool).count();
    assert_eq!([by("ciw"), by("simpy")], [4 * 3, 4 * 3 + 4 * 4 + 5 * 2]);
    for one in all {
        let want = closed(&one);
        let off = (one.mean - want) / one.error;
        assert!(
            off.abs() < ERRORS_MOST,
            "{one:?} is {off:.2} standard errors off {want:.6}"
        );
        assert!(one.error < 0.001 + 0.03 * want, "{one:?} says nothing");
    }
}
