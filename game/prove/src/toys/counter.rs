//! A counter with a button and a timer.
//!
//! The person presses; after `span` the number goes up by one, and from the last back to 0. The
//! button is dead meanwhile.
//!
//! Counted by hand, with n numbers and a span of at least 2 µs: each number at rest, at the start
//! of the span, and once inside it, 3n states. A step from each at rest (press), two from the start
//! of a span (its middle, its end), one from its middle (its end), 4n steps. A round is 2n steps
//! long; the last state that is new is the middle of the last span: depth 2n, or 2n - 1 if a span
//! has no middle.

use rackproof_model::{
    Instants, Micros, Model,
    key::{Coder, Key, KeyReader, KeyWriter},
};

use crate::toys::code_timer;

/// The world.
pub(crate) struct Counter {
    pub(crate) numbers: u8,
    pub(crate) span: Micros,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Press;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Count {
    pub(crate) count: u8,
    pub(crate) left: Option<Micros>,
}

impl Counter {
    pub(crate) fn start(&self) -> Count {
        Count {
            count: 0,
            left: None,
        }
    }

    fn code(coder: &mut impl Coder, state: &mut Count) {
        coder.byte(&mut state.count, 8);
        code_timer(coder, &mut state.left, 32);
    }
}

impl Model for Counter {
    type State = Count;
    type Cause = Press;
    type Outcome = ();

    fn offers(&self, state: &Count, out: &mut Vec<Press>) {
        out.extend(state.left.is_none().then_some(Press));
    }

    fn chances(&self, _: &Count, _: &mut Vec<Press>) {}

    fn act(&self, state: &mut Count, Press: Press, _: &mut impl FnMut(())) {
        state.left = Some(self.span);
    }

    fn next_event(&self, state: &Count) -> Option<Micros> {
        state.left
    }

    fn critical_instants(&self, _: &Count, _: &mut Instants) {}

    fn advance(&self, state: &mut Count, span: Micros, _: &mut impl FnMut(())) {
        state.left = state
            .left
            .map(|left| left - span)
            .filter(|&left| left > Micros(0));
        if state.left.is_none() {
            state.count = (state.count + 1) % self.numbers;
        }
    }

    fn write_key(&self, state: &Count, out: &mut KeyWriter) {
        Counter::code(out, &mut { *state });
    }

    fn read_key(&self, key: &Key) -> Count {
        let mut state = self.start();
        Counter::code(&mut KeyReader::new(key), &mut state);
        state
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        Step,
        toys::{all, counts},
    };

    #[test]
    fn the_counts_are_those_counted_by_hand() {
        let cases = [
            // Numbers, span, (states, steps, depth, dead ends).
            (1, 1_000, (3, 4, 2, 0)),
            (5, 1_000, (15, 20, 10, 0)),
            (200, 2, (600, 800, 400, 0)),
            // A span of 1 µs has no inside.
            (5, 1, (10, 10, 9, 0)),
        ];
        for (numbers, span, expected) in cases {
            let world = Counter {
                numbers,
                span: Micros(span),
            };
            assert_eq!(
                counts(&all(&world, world.start(), |_| 0)),
                expected,
                "{numbers}, {span}"
            );
        }
    }

    #[test]
    fn a_witness_waits_for_events_rather_than_for_middles() {
        let world = Counter {
            numbers: 3,
            span: Micros(1_000),
        };
        let found = all(&world, world.start(), |state| u64::from(state.count == 2));
        let witness = found.witness(0).expect("the counter gets to 2");
        let round = [Step::Did(Press), Step::Waited(Micros(1_000))];
        assert_eq!(witness.steps, [round, round].concat());
        assert_eq!((found.count(0), found.count(1), witness.moves), (3, 0, 4));
    }
}
