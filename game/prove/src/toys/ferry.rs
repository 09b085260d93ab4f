//! The wolf, the goat and the cabbage, who are to cross a river with a man whose boat takes one of
//! them at a time.
//!
//! From Alcuin, "Propositiones ad acuendos juvenes", from memory. What is known of it: 16 states,
//! 6 of them with something eaten, 10 safe; the shortest way takes 7 crossings, and there are two
//! such ways.
//!
//! Counted by hand: the man alone makes 16 steps, and each of the three goes with him in 8 of the
//! 16 states, so 16 + 24 = 40 steps with nothing forbidden. With the man on the left, the safe
//! states have on the right nothing, one of the three, or wolf and cabbage: 4, 3, 3, 3 and 2 steps,
//! 15; the same again with the man on the right: 30 steps, and each eaten state is one step away
//! from a safe one, so that all 16 are found. The man alone
//! on the left is one step away from all across only: depth 8.

use rackproof_model::{
    Instants, Micros, Model,
    key::{Coder, Key, KeyReader, KeyWriter},
};

const MAN: u8 = 1;
const WOLF: u8 = 2;
const GOAT: u8 = 4;
const CABBAGE: u8 = 8;

/// The world. A state has a bit for each that is on the right.
pub(crate) struct Ferry;

/// The man crosses with these.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Cross(u8);

impl Ferry {
    /// The flag of states in which something was eaten.
    pub(crate) const EATEN: u64 = 0b10;

    /// Flag 0: all are across. Flag 1: something was eaten. Flag 2: nothing was.
    pub(crate) fn flags(state: &u8) -> u64 {
        let with_man = |who| (state & MAN != 0) == (state & who != 0);
        let eaten = !with_man(GOAT) && (!with_man(WOLF) || !with_man(CABBAGE));
        u64::from(*state == 15) | u64::from(eaten) << 1 | u64::from(!eaten) << 2
    }
}

impl Model for Ferry {
    type State = u8;
    type Cause = Cross;
    type Outcome = ();

    fn offers(&self, &state: &u8, out: &mut Vec<Cross>) {
        let here = |who: u8| (state & who != 0) == (state & MAN != 0);
        out.push(Cross(MAN));
        out.extend(
            [WOLF, GOAT, CABBAGE]
                .into_iter()
                .filter(|&w| here(w))
                .map(|w| Cross(MAN | w)),
        );
    }

    fn chances(&self, _: &u8, _: &mut Vec<Cross>) {}

    fn act(&self, state: &mut u8, cause: Cross, _: &mut impl FnMut(())) {
        *state ^= cause.0;
    }

    fn next_event(&self, _: &u8) -> Option<Micros> {
        None
    }

    fn critical_instants(&self, _: &u8, _: &mut Instants) {}

    fn advance(&self, _: &mut u8, _: Micros, _: &mut impl FnMut(())) {}

    fn write_key(&self, state: &u8, out: &mut KeyWriter) {
        out.byte(&mut { *state }, 4);
    }

    fn read_key(&self, key: &Key) -> u8 {
        KeyReader::new(key).bits(0, 4) as u8
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        End, Settings, explore,
        toys::{all, counts, deeds, end_of},
    };

    #[test]
    fn with_nothing_forbidden_every_state_is_reached() {
        let found = all(&Ferry, 0, Ferry::flags);
        assert_eq!((found.states, found.steps, found.dead_ends), (16, 40, 0));
        assert_eq!([0, 1, 2].map(|bit| found.count(bit)), [1, 6, 10]);
    }

    #[test]
    fn the_shortest_way_that_eats_nothing_takes_seven_crossings() {
        let settings = Settings {
            prune: Ferry::EATEN,
            ..Settings::default()
        };
        let found = explore(&Ferry, &[0], &settings, Ferry::flags);
        assert_eq!(found.end, End::Complete);
        assert_eq!(counts(&found), (16, 30, 8, 0));
        assert_eq!([0, 1, 2].map(|bit| found.count(bit)), [1, 6, 10]);
        let witness = found.witness(0).expect("there is a way");
        assert_eq!(end_of(&Ferry, &0, &witness), 15);
        assert_eq!(witness.moves, 7);
        let (alone, wolf, goat, cabbage) = (MAN, MAN | WOLF, MAN | GOAT, MAN | CABBAGE);
        let ways = [
            [goat, alone, wolf, goat, cabbage, alone, goat].map(Cross),
            [goat, alone, cabbage, goat, wolf, alone, goat].map(Cross),
        ];
        assert!(
            ways.iter().any(|way| *way == *deeds(&witness)),
            "{witness:?}"
        );
    }
}
