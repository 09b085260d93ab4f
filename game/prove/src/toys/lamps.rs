//! Two lamps, switched by the person, and a door, moved by the environment. No time.
//!
//! Counted by hand: 2³ states, three steps from each, 24 steps; all three turned are 3 steps away.
//! The environment alone has the door's 2 states and 2 steps.

use rackproof_model::{
    Instants, Micros, Model,
    key::{Coder, Key, KeyReader, KeyWriter},
};

/// The world, with `lamps` lamps, from 0 to 63; the door is the bit behind them.
pub(crate) struct Lamps {
    pub(crate) lamps: u32,
}

/// Turns one bit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Turn(pub(crate) u32);

impl Model for Lamps {
    type State = u64;
    type Cause = Turn;
    type Outcome = Turn;

    fn offers(&self, _: &u64, out: &mut Vec<Turn>) {
        out.extend((0..self.lamps).map(Turn));
    }

    fn chances(&self, _: &u64, out: &mut Vec<Turn>) {
        out.push(Turn(self.lamps));
    }

    fn act(&self, state: &mut u64, cause: Turn, hear: &mut impl FnMut(Turn)) {
        *state ^= 1 << cause.0;
        hear(cause);
    }

    fn next_event(&self, _: &u64) -> Option<Micros> {
        None
    }

    fn critical_instants(&self, _: &u64, _: &mut Instants) {}

    fn advance(&self, _: &mut u64, _: Micros, _: &mut impl FnMut(Turn)) {}

    fn write_key(&self, state: &u64, out: &mut KeyWriter) {
        out.mask(&mut { *state }, self.lamps + 1);
    }

    fn read_key(&self, key: &Key) -> u64 {
        KeyReader::new(key).bits(0, self.lamps + 1)
    }
}

#[cfg(test)]
mod tests {
    use std::ops::ControlFlow;

    use super::*;
    use crate::{
        Congruence, End, OneHand, Progress, Settings, Step, explore, explore_by, replay,
        toys::{all, counts},
    };

    const WORLD: Lamps = Lamps { lamps: 2 };

    fn with(change: impl FnOnce(&mut Settings)) -> Settings {
        let mut settings = Settings::default();
        change(&mut settings);
        settings
    }

    #[test]
    fn the_counts_are_those_counted_by_hand() {
        let found = all(&WORLD, 0, |&state| state);
        assert_eq!(counts(&found), (8, 24, 3, 0));
        assert_eq!(
            [0, 1, 2, 3, 64].map(|bit| found.count(bit)),
            [4, 4, 4, 0, 0]
        );
        assert_eq!((found.seen(), found.witness(3)), (0b111, None));
    }

    #[test]
    fn a_witness_names_who_did_what_and_where_it_began() {
        // From 0b010 it takes the other lamp and the door, from the others more.
        let starts = [0b000, 0b010, 0b000];
        let found = explore(&WORLD, &starts, &Settings::default(), |&state| {
            u64::from(state == 0b111)
        });
        let witness = found.witness(0).expect("all can be turned");
        assert_eq!(
            (witness.start, witness.moves, witness.strayed),
            (1, 2, None)
        );
        assert_eq!(witness.steps, [Step::Did(Turn(0)), Step::Chose(Turn(2))]);
        let mut heard = Vec::new();
        let end = replay(&WORLD, &starts[1], &witness.steps, &mut |turn| {
            heard.push(turn)
        });
        assert_eq!((end, heard), (Ok(0b111), vec![Turn(0), Turn(2)]));
        let depths: Vec<usize> = found
            .nodes()
            .map(|node| found.witness_to(node).moves)
            .collect();
        assert_eq!(depths, [0, 0, 1, 1, 1, 1, 2, 2]);
    }

    #[test]
    fn settings_bound_the_search() {
        let cases = [
            // Settings, end, (states, steps, depth, dead ends).
            (with(|s| s.persons = false), End::Complete, (2, 2, 1, 0)),
            (with(|s| s.prune = 1), End::Complete, (8, 12, 3, 0)),
            (with(|s| s.prune = u64::MAX), End::Complete, (4, 3, 1, 0)),
            (with(|s| s.states_most = 8), End::Complete, (8, 24, 3, 0)),
            (
                with(|s| s.states_most = 7),
                End::BoundReached,
                (7, 15, 2, 0),
            ),
            (with(|s| s.states_most = 0), End::BoundReached, (0, 0, 0, 0)),
            (with(|s| s.until = 0b100), End::AllSeen, (4, 3, 1, 0)),
            (with(|s| s.until = 0b011), End::AllSeen, (3, 2, 1, 0)),
            (with(|s| s.until = 0b1000), End::Complete, (8, 24, 3, 0)),
        ];
        for (settings, end, expected) in cases {
            let found = explore(&WORLD, &[0], &settings, |&state| state);
            assert_eq!((found.end, counts(&found)), (end, expected), "{settings:?}");
        }
    }

    #[test]
    fn a_watch_sees_how_far_it_is_and_can_end_it() {
        let settings = with(|s| s.watch_every = 3);
        let mut seen = Vec::new();
        let found = explore_by(
            &OneHand,
            (&WORLD, &[0]),
            &settings,
            |_| 0,
            |progress| {
                seen.push(progress);
                if progress.expanded < 6 {
                    ControlFlow::Continue(())
                } else {
                    ControlFlow::Break(())
                }
            },
        );
        let progress = |states, expanded, steps, depth| Progress {
            states,
            expanded,
            steps,
            depth,
        };
        assert_eq!(
            seen,
            [
                progress(1, 0, 0, 0),
                progress(7, 3, 9, 1),
                progress(8, 6, 18, 2)
            ]
        );
        assert_eq!(
            (found.end, found.states, found.expanded),
            (End::Interrupted, 8, 6)
        );
        assert_eq!(found.depth, 3);
    }

    #[test]
    fn the_check_is_done_as_often_as_asked() {
        // By hand, for the sample: the start, the first step of state 0, the third of state 4
        // (17 · 4 + 2 = 70), the second of state 7 (17 · 7 + 1 = 120).
        let cases = [
            (Congruence::Off, 0),
            (Congruence::Every(10), 4),
            (Congruence::Always, 25),
        ];
        for (congruence, checked) in cases {
            let settings = with(|s| s.congruence = congruence);
            assert_eq!(
                explore(&WORLD, &[0], &settings, |_| 0).checked,
                checked,
                "{congruence:?}"
            );
        }
    }

    #[test]
    fn each_search_finds_the_same_in_the_same_order() {
        let order = || -> Vec<u64> {
            let found = all(&Lamps { lamps: 9 }, 5, |_| 0);
            found.states().map(|(_, state)| state).collect()
        };
        assert_eq!(order(), order());
        assert_eq!(order().len(), 1 << 10);
    }
}
