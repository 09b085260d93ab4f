//! Counts of toy worlds that another explorer made, from the worlds written anew for it.
//!
//! The file says which tool made it, and how.

use rackproof_model::Micros;

use crate::{
    Settings, explore,
    toys::{all, counter::Counter, counts, ferry::Ferry, lamps::Lamps},
};

const COUNTED: &str = include_str!("../../../tests/outside/explored-stateright.txt");

/// The counts of a world that the file names.
fn counted_here(world: &str) -> Option<(usize, u64, usize, usize)> {
    let counter = |numbers, span| {
        let world = Counter {
            numbers,
            span: Micros(span),
        };
        counts(&all(&world, world.start(), |_| 0))
    };
    Some(match world {
        "counter-5" => counter(5, 1_000),
        "counter-200" => counter(200, 2),
        "lamps" => counts(&all(&Lamps { lamps: 2 }, 0, |_| 0)),
        "ferry" => counts(&all(&Ferry, 0, Ferry::flags)),
        "ferry-safe" => {
            let settings = Settings {
                prune: Ferry::EATEN,
                ..Settings::default()
            };
            counts(&explore(&Ferry, &[0], &settings, Ferry::flags))
        }
        _ => return None,
    })
}

#[test]
fn another_explorer_counts_the_same() {
    let lines = COUNTED.lines().filter(|line| !line.starts_with('#'));
    let mut compared = 0;
    for line in lines {
        let fields: Vec<&str> = line.split(' ').collect();
        let [world, numbers @ ..] = fields.as_slice() else {
            panic!("{line}: no world")
        };
        let numbers: Vec<usize> = numbers
            .iter()
            .map(|n| n.parse().expect("a count is a number"))
            .collect();
        let (states, steps, depth, _) = counted_here(world).expect("the world is known here");
        assert_eq!([states, steps as usize, depth], *numbers, "{world}");
        compared += 1;
    }
    assert_eq!(compared, 5);
}
