//! What the closed forms say of lines with a buffer.

/// M/M/1/K: boards come at `rate` times the speed of work, room for `room` in all. Share of boards
/// lost, mean number inside, boards made a mean time of work. Source: any textbook of queues.
pub(crate) fn poisson(rate: f64, room: u8) -> [f64; 3] {
    let weights: Vec<f64> = (0..=room).map(|n| rate.powi(i32::from(n))).collect();
    let sum: f64 = weights.iter().sum();
    let lost = weights[usize::from(room)] / sum;
    let inside: f64 = weights.iter().enumerate().map(|(n, w)| n as f64 * w).sum();
    [lost, inside / sum, rate * (1.0 - lost)]
}

/// M/M/1/K: mean wait of a board that is taken in, and mean of the square of its wait, first in
/// first out and last in first out, in mean times of work.
///
/// Who comes to n boards inside waits, first in first out, until n are worked on: n times of work.
/// Last in first out, it waits until the line has first fallen from n + 1 to n. Source: any
/// textbook of queues; without a bound 2ρ/(1 − ρ)² and the same over 1 − ρ.
pub(crate) fn waits(rate: f64, room: u16) -> ([f64; 2], [f64; 2]) {
    let top = usize::from(room);
    // Mean, and mean square, of the time in which the line first falls by one from each level.
    let mut falls = vec![[0.0, 0.0]; top + 1];
    falls[top] = [1.0, 2.0];
    let (next, grows) = (1.0 / (1.0 + rate), rate / (1.0 + rate));
    for level in (1..top).rev() {
        let [above, above_square] = falls[level + 1];
        let mean = (next + grows * above) / (1.0 - grows);
        let both = above_square + 2.0 * above * mean;
        let square = 2.0 * next * next + 2.0 * next * grows * (above + mean) + grows * both;
        falls[level] = [mean, square / (1.0 - grows)];
    }
    let (mut taken, mut first, mut last) = (0.0, [0.0; 2], [0.0; 2]);
    for (level, fall) in falls.iter().skip(1).enumerate() {
        let weight = rate.powi(level as i32);
        taken += weight;
        if level > 0 {
            let n = level as f64;
            first = [first[0] + weight * n, first[1] + weight * n * (n + 1.0)];
            last = [last[0] + weight * fall[0], last[1] + weight * fall[1]];
        }
    }
    (first.map(|sum| sum / taken), last.map(|sum| sum / taken))
}

/// Two machines, each up in a cycle with its own chance, and a buffer of `room`. Made, mean level,
/// blocked, starved. Source: Li and Meerkov, Production Systems Engineering, chapter 4, from
/// memory; proved against the chain of its states.
pub(crate) fn bernoulli([first, second]: [f64; 2], room: u8) -> [f64; 4] {
    let n = f64::from(room);
    let empty = |p1: f64, p2: f64| {
        if p1 == p2 {
            return (1.0 - p1) / (n + 1.0 - p1);
        }
        let alpha = p1 * (1.0 - p2) / (p2 * (1.0 - p1));
        (1.0 - p1) * (1.0 - alpha) / (1.0 - p1 / p2 * alpha.powf(n))
    };
    let alpha = first * (1.0 - second) / (second * (1.0 - first));
    let full = alpha.powf(n);
    let level = if first == second {
        n * (n + 1.0) / (2.0 * (n + 1.0 - first))
    } else {
        first / (second - first * full) * ((1.0 - full) / (1.0 - alpha) - n * full)
    };
    let starved = second * empty(first, second);
    let blocked = first * empty(second, first);
    [second - starved, level, blocked, starved]
}

/// Two machines that fail while they work, with these chances, and are repaired, and a buffer of
/// `room`. Made, mean level. Source: Buzacott 1967 and Gershwin's two-machine line, from memory;
/// proved against the chain of its states.
pub(crate) fn failing([p1, p2]: [f64; 2], [r1, r2]: [f64; 2], room: u8) -> [f64; 2] {
    let a = r1 + r2 - r1 * r2 - r1 * p2;
    let b = r1 + r2 - r1 * r2 - p1 * r2;
    let e = p1 + p2 - p1 * p2 - p1 * r2;
    let f = p1 + p2 - p1 * p2 - r1 * p2;
    let (y1, y2) = (a / e, b / f);
    let x = y2 / y1;
    let last = i32::from(room) - 1;
    let top = x.powi(last);
    // Level, whether the second machine is up, weight.
    let mut states = vec![
        (0, true, x * a / (r1 * p2)),
        (1, false, x),
        (1, true, x * y2),
        (1, true, x / p2 * a / f),
        (last, false, top),
        (last, false, top * y1),
        (last, true, top / p1 * b / e),
        (last + 1, false, top * b / (p1 * r2)),
    ];
    for n in 2..last {
        let w = x.powi(n);
        states.extend([(n, false, w), (n, true, w * y2)]);
        states.extend([(n, false, w * y1), (n, true, w * y1 * y2)]);
    }
    let sum: f64 = states.iter().map(|(.., w)| w).sum();
    let works = states.iter().filter(|(n, up, _)| *n > 0 && *up);
    let made: f64 = works.map(|(.., w)| w).sum();
    let level: f64 = states.iter().map(|(n, _, w)| f64::from(*n) * w).sum();
    [made / sum, level / sum]
}

/// The forms above against a table that was worked out from the chains of states.
#[test]
fn the_closed_forms_are_those_of_the_table() {
    let near = |is: &[f64], want: &[f64], digits: f64| {
        for (is, want) in is.iter().zip(want) {
            assert!((is - want).abs() < digits, "{is} is not {want}");
        }
    };
    for (rate, room, want) in [
        (0.8, 5, [0.088819, 1.868332, 0.728944]),
        (1.0, 5, [0.166667, 2.5, 0.833333]),
        (1.2, 10, [0.192586, 6.710709, 0.968896]),
        (0.9, 20, [0.013651, 6.419888, 0.887714]),
    ] {
        near(&poisson(rate, room), &want, 6e-7);
    }
    for (up, room, want) in [
        ([0.9, 0.9], 3, [0.870968, 1.935484, 0.029032, 0.029032]),
        ([0.95, 0.9], 5, [0.898844, 4.216729, 0.051156, 0.001156]),
        ([0.8, 0.9], 4, [0.796407, 1.449097, 0.003593, 0.103593]),
    ] {
        near(&bernoulli(up, room), &want, 6e-7);
    }
    for (fails, repaired, room, want) in [
        ([0.01, 0.01], [0.1, 0.1], 4, [0.840936, 2.0]),
        ([0.01, 0.009], [0.1, 0.08], 10, [0.846652, 4.98260]),
        ([0.02, 0.02], [0.2, 0.1], 10, [0.804255, 5.93748]),
    ] {
        near(&failing(fails, repaired, room), &want, 6e-6);
    }
}

/// One machine at four fifths of its speed, and room without a bound: a mean wait of 4 either way,
/// a mean square of 40 first in first out and of 200 last in first out. Source: a table that was
/// worked out from ρ = 0.8, and simulated by others as 39.2 and 193.6.
#[test]
fn the_order_of_leaving_spreads_waits_as_the_table_says() {
    let (first, last) = waits(0.8, 1_000);
    for (is, want) in [first, last]
        .into_iter()
        .flatten()
        .zip([4.0, 40.0, 4.0, 200.0])
    {
        assert!((is - want).abs() < 1e-6, "{is} is not {want}");
    }
}
