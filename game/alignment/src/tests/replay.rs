//! The textbook's own measure on its own log: replay of tokens, printed as fitness 1, 0.9504 and
//! 0.8797. This crate aligns and does not replay; that the figures come out says that the log, on
//! which the costs of alignments are compared, is the one of the book.
//!
//! Source: van der Aalst, Process Mining, the log of 1,391 cases and its models N1, N2 and N3, from
//! memory; counts of tokens as another replay had them.

use super::outside::{COSTS, row};

/// A step of a net: its label, the places that it takes a token from, those that it gives one to.
type Transition = (&'static str, &'static str, &'static str);

/// Places are letters: `s` where a case begins, `x` where it ends. The silent steps that a net may
/// have are not needed here.
const N1: &[Transition] = &[
    ("a", "s", "pq"),
    ("b", "p", "r"),
    ("c", "p", "r"),
    ("d", "q", "t"),
    ("e", "rt", "u"),
    ("f", "u", "pq"),
    ("g", "u", "x"),
    ("h", "u", "x"),
];
/// As N1, but d comes after b or c.
const N2: &[Transition] = &[
    ("a", "s", "p"),
    ("b", "p", "q"),
    ("c", "p", "q"),
    ("d", "q", "r"),
    ("e", "r", "u"),
    ("f", "u", "p"),
    ("g", "u", "x"),
    ("h", "u", "x"),
];
/// No b, no f, no g.
const N3: &[Transition] = &[
    ("a", "s", "pq"),
    ("c", "p", "r"),
    ("d", "q", "t"),
    ("e", "rt", "u"),
    ("h", "u", "x"),
];

/// Tokens of a replay: produced, consumed, missing, remaining.
fn replayed(net: &[Transition], trace: &[&str]) -> [u32; 4] {
    let mut marking = vec!['s'];
    let [mut produced, mut consumed, mut missing] = [1, 0, 0];
    let mut consume = |marking: &mut Vec<char>, place| {
        consumed += 1;
        match marking.iter().position(|token| *token == place) {
            Some(at) => {
                marking.swap_remove(at);
            }
            None => missing += 1,
        }
    };
    // What the net does not have is passed over.
    for step in trace {
        let Some((_, takes, gives)) = net.iter().find(|(label, ..)| label == step) else {
            continue;
        };
        takes.chars().for_each(|place| consume(&mut marking, place));
        produced += gives.len() as u32;
        marking.extend(gives.chars());
    }
    consume(&mut marking, 'x');
    [produced, consumed, missing, marking.len() as u32]
}

#[test]
fn the_textbooks_fitness_comes_out_of_its_log() {
    let rows = || COSTS.lines().filter(|line| !line.starts_with('#')).map(row);
    let (model, ..) = rows().next().expect("there are rows");
    let log: Vec<(Vec<&str>, u32)> = rows()
        .filter(|(task, ..)| *task == model)
        .filter_map(|(_, trace, _, cases)| Some((trace, cases?)))
        .collect();
    assert_eq!(log.iter().map(|(_, cases)| cases).sum::<u32>(), 1391);
    // Tokens, and fitness as the book prints it, in ten-thousandths.
    let expected = [
        (N1, [10467, 10467, 0, 0], 10_000),
        (N2, [8930, 8930, 443, 443], 9_504),
        (N3, [9148, 9294, 1183, 1037], 8_797),
    ];
    for (net, tokens, printed) in expected {
        let mut sums = [0; 4];
        for (trace, cases) in &log {
            for (sum, tokens) in sums.iter_mut().zip(replayed(net, trace)) {
                *sum += cases * tokens;
            }
        }
        assert_eq!(sums, tokens);
        // Half of 1 - missing / consumed, and half of 1 - remaining / produced.
        let [produced, consumed, missing, remaining] = sums.map(u64::from);
        let whole = 2 * consumed * produced;
        let fits = whole - missing * produced - remaining * consumed;
        assert_eq!((fits * 20_000 + whole) / (2 * whole), printed);
    }
}
