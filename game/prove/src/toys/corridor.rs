//! A corridor with four lamps, each with a switch below it. The person walks and presses.
//!
//! Walking alone changes nothing that anybody asks. So a walk and the press behind it are one
//! stride, and the key forgets where the person stands.
//!
//! Counted by hand: four places and 2⁴ lamps, 64 states, three walks and a press from each, 256
//! steps; in strides, 16 states and 4 strides from each, 64 steps. All lamps on takes 7 steps, four
//! presses and three walks, and one more walk leads back to where the person began: depth 8.
//! In strides it takes 4, each of which counts once: the first way of four has a walk in each,
//! 8 steps.

use rackproof_model::{
    Instants, Micros, Model, Stride,
    key::{Coder, Key, KeyReader, KeyWriter},
};

const PLACES: u8 = 4;

/// The world, with walk and press joined or not.
pub(crate) struct Corridor {
    pub(crate) strides: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Deed {
    WalkTo(u8),
    Press,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub(crate) struct Hall {
    at: u8,
    lit: u8,
}

impl Model for Corridor {
    type State = Hall;
    type Cause = Deed;
    type Outcome = ();

    fn offers(&self, hall: &Hall, out: &mut Vec<Deed>) {
        out.extend(
            (0..PLACES)
                .filter(|&place| place != hall.at)
                .map(Deed::WalkTo),
        );
        out.push(Deed::Press);
    }

    fn chances(&self, _: &Hall, _: &mut Vec<Deed>) {}

    fn strides(&self, hall: &Hall, out: &mut Vec<Stride<Deed>>) {
        if !self.strides {
            let mut offers = Vec::new();
            self.offers(hall, &mut offers);
            out.extend(offers.into_iter().map(Stride::one));
            return;
        }
        // The far end first, so that a way ends where the key puts the person.
        out.extend((0..PLACES).rev().map(|place| {
            let walk = if place == hall.at {
                Stride::none()
            } else {
                Stride::one(Deed::WalkTo(place))
            };
            walk.then(Deed::Press)
        }));
    }

    fn act(&self, hall: &mut Hall, cause: Deed, _: &mut impl FnMut(())) {
        match cause {
            Deed::WalkTo(place) => hall.at = place,
            Deed::Press => hall.lit ^= 1 << hall.at,
        }
    }

    fn next_event(&self, _: &Hall) -> Option<Micros> {
        None
    }

    fn critical_instants(&self, _: &Hall, _: &mut Instants) {}

    fn advance(&self, _: &mut Hall, _: Micros, _: &mut impl FnMut(())) {}

    fn write_key(&self, hall: &Hall, out: &mut KeyWriter) {
        out.byte(&mut { hall.lit }, 4);
        if !self.strides {
            out.byte(&mut { hall.at }, 2);
        }
    }

    fn read_key(&self, key: &Key) -> Hall {
        let mut hall = Hall::default();
        let mut reader = KeyReader::new(key);
        reader.byte(&mut hall.lit, 4);
        if !self.strides {
            reader.byte(&mut hall.at, 2);
        }
        hall
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::toys::{all, counts, end_of};

    #[test]
    fn strides_find_the_same_with_fewer_states() {
        let cases = [
            // Joined, (states, steps, depth, dead ends), moves and steps of the way found.
            (false, (64, 256, 8, 0), (7, 7)),
            (true, (16, 64, 4, 0), (4, 8)),
        ];
        for (strides, expected, lengths) in cases {
            let world = Corridor { strides };
            let start = Hall { at: 2, lit: 0 };
            let found = all(&world, start, |hall| u64::from(hall.lit == 15));
            let witness = found.witness(0).expect("all can be lit");
            assert_eq!((witness.moves, witness.steps.len()), lengths, "{witness:?}");
            assert_eq!(end_of(&world, &start, &witness).lit, 15);
            assert_eq!(counts(&found), expected, "{strides}");
        }
    }
}
