//! The real machine between two neighbours, against the closed forms of lines with a buffer.
//!
//! Each quantity must lie within three standard errors, by the means of batches that follow each
//! other. The seeds are fixed: a run gives the same figures each time. Each is laid beside what two
//! other programs found for the same line, too.

mod closed_forms;
mod cycles;
#[expect(
    dead_code,
    reason = "who counts instructions and times uses more of it"
)]
mod fast;
mod outside;
mod poisson;
mod times;
mod waits;

use rackproof_buffer::Order;

use crate::{
    cycles::{Failing, Shares},
    fast::{Fast, Moves},
    poisson::{Poisson, WORK},
    times::Times,
    waits::Waits,
};

const MOVES: [Moves; 2] = [Moves::NextToNought, Moves::Nought];

/// Batches of a run, after one that only fills the line.
const BATCHES: usize = 40;

/// Each mean over the batches lies within three standard errors of what it should be, and the
/// errors are small, or it would say nothing. Gives the means with their errors.
fn near<const N: usize>(
    what: &str,
    names: [&str; N],
    batches: &[[f64; N]],
    want: &[f64],
) -> [(f64, f64); N] {
    let count = batches.len() as f64;
    std::array::from_fn(|at| {
        let name = names[at];
        let mean = batches.iter().map(|batch| batch[at]).sum::<f64>() / count;
        let squares = batches.iter().map(|batch| (batch[at] - mean).powi(2));
        let error = (squares.sum::<f64>() / (count - 1.0) / count).sqrt();
        let off = (mean - want[at]) / error;
        println!(
            "{what}: {name} {mean:.6} ± {error:.6}, should be {:.6}: {off:+.2}",
            want[at]
        );
        assert!(
            off.abs() < 3.0,
            "{what}: {name} is {off:.2} standard errors off"
        );
        assert!(
            error < 0.001 + 0.03 * want[at],
            "{what}: {name} ± {error} says nothing"
        );
        (mean, error)
    })
}

/// The same, and the other programs' means lie as near. `line` is its sort and its figures, as they
/// stand in the data of others.
fn check<const N: usize>(line: (&str, &str), names: [&str; N], batches: &[[f64; N]], want: &[f64]) {
    let what = format!("{} {}", line.0, line.1);
    let means = near(&what, names, batches, want);
    for (name, (mean, error)) in names.into_iter().zip(means) {
        let found = outside::found(line.0, line.1, name);
        assert!(!found.is_empty(), "{what}: no program found {name}");
        for one in found {
            let off = (mean - one.mean) / error.hypot(one.error);
            assert!(
                off.abs() < outside::ERRORS_MOST,
                "{what}: {name} {mean:.6} is {off:.2} standard errors off {one:?}"
            );
        }
    }
}

/// Each row with its number, with moves that take next to no time, then with moves that take none.
fn in_both_ways<R: Copy, const N: usize>(
    rows: [R; N],
) -> impl Iterator<Item = (Moves, (usize, R))> {
    MOVES
        .into_iter()
        .flat_map(move |moves| rows.into_iter().enumerate().map(move |row| (moves, row)))
}

/// Room for six in all, five slots: moves take 50 µs to 60 ms, or none, against 1,000 s of work.
#[test]
fn boards_that_come_at_random_find_room_as_often_as_the_closed_form_says() {
    let rows = [(0.8, 5), (1.0, 5), (1.2, 10), (0.9, 20)];
    for (moves, (number, (rate, room))) in in_both_ways(rows) {
        let mut line = Poisson::<false>::new(rate, room, moves, 1 + number as u64);
        line.run(2_000);
        let batches: Vec<[f64; 3]> = (0..BATCHES)
            .map(|_| {
                let count = line.run(8_000);
                let span = count.span as f64;
                [
                    count.lost as f64 / count.came as f64,
                    count.filled as f64 / span,
                    count.made as f64 / (span / WORK),
                ]
            })
            .collect();
        let figures = format!("{rate:?},{room}");
        let want = closed_forms::poisson(rate, room);
        let names = ["lost", "inside", "made"];
        check(("poisson", &figures), names, &batches, &want);
    }
}

#[test]
fn two_machines_that_are_up_at_random_make_as_much_as_the_closed_form_says() {
    let rows = [
        ([0.9, 0.9], 3),
        ([0.9, 0.9], 10),
        ([0.95, 0.9], 5),
        ([0.8, 0.9], 4),
    ];
    for (moves, (number, (up, room))) in in_both_ways(rows) {
        let (mut line, mut times) = (
            Fast::<false>::running(room, moves),
            Times::of(11 + number as u64),
        );
        cycles::bernoulli(&mut line, &mut times, up, 1_000);
        let run = |_| cycles::bernoulli(&mut line, &mut times, up, 4_000);
        let batches: Vec<[f64; 4]> = (0..BATCHES).map(run).map(all_of).collect();
        let figures = format!("{:?},{:?},{room}", up[0], up[1]);
        let want = closed_forms::bernoulli(up, room);
        let names = ["made", "level", "blocked", "starved"];
        check(("bernoulli", &figures), names, &batches, &want);
    }
}

fn all_of(shares: Shares) -> [f64; 4] {
    [shares.made, shares.level, shares.blocked, shares.starved]
}

#[test]
fn two_machines_that_fail_make_as_much_as_the_closed_form_says() {
    let rows = [
        ([0.01, 0.01], [0.1, 0.1], 4),
        ([0.01, 0.01], [0.1, 0.1], 10),
        ([0.01, 0.01], [0.1, 0.1], 20),
        ([0.01, 0.009], [0.1, 0.08], 10),
        ([0.02, 0.02], [0.2, 0.1], 10),
    ];
    for (moves, (number, (fails, repaired, room))) in in_both_ways(rows) {
        let (mut line, mut times) = (
            Fast::<false>::running(room, moves),
            Times::of(21 + number as u64),
        );
        let (machines, mut up) = (Failing { fails, repaired }, [true; 2]);
        cycles::failing(&mut line, &mut times, machines, &mut up, 2_000);
        let run = |_| cycles::failing(&mut line, &mut times, machines, &mut up, 10_000);
        let batches: Vec<[f64; 2]> = (0..BATCHES)
            .map(run)
            .map(|shares| [shares.made, shares.level])
            .collect();
        let ([p1, p2], [r1, r2]) = (fails, repaired);
        let figures = format!("{p1:?},{p2:?},{r1:?},{r2:?},{room}");
        let want = closed_forms::failing(fails, repaired, room);
        check(("failing", &figures), ["made", "level"], &batches, &want);
    }
}

/// Forty slots, so that next to no board is lost: the figures are those of a line without a bound
/// but for the long waits, of which some are cut short. Both orders have the same mean wait.
#[test]
fn boards_wait_as_long_as_their_order_says() {
    let (rate, room) = (0.8, 41);
    let (first, last) = closed_forms::waits(rate, room);
    for (order, want) in [
        (Order::FirstInFirstOut, first),
        (Order::LastInFirstOut, last),
    ] {
        let mut line = Waits::new(rate, room as u8, order, 31);
        line.run(2_000);
        let batches: Vec<[f64; 2]> = (0..BATCHES).map(|_| line.run(100_000)).collect();
        near(&format!("{order:?}"), ["wait", "square"], &batches, &want);
    }
}
