//! Compiled formulas and their memory. Each temporal operator keeps one bit, or one set of
//! half-slots: constant memory, exact at event times.

use rackproof_buffer::Halves;
use rackproof_drill::{Condition, IntentKind, SignKind};
use rackproof_model::key::Coder;

use crate::Observation;

/// Most operators of a program.
pub(crate) const OPERATORS_MOST: usize = 256;
/// Most temporal operators over yes or no.
pub(crate) const BITS_MOST: usize = 64;
/// Most temporal operators over sets.
pub(crate) const SETS_MOST: usize = 4;

/// A set of half-slots that an observation brings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum SetAtom {
    /// Seen empty at this moment.
    SeenEmpty,
    /// Seen with a board at this moment.
    SeenBoard,
    /// Answered for at this moment.
    Answered,
    /// Reached for by this intent.
    ReachedFor,
}

/// The place of an operator's value.
pub(crate) type At = u16;

/// One operator. Its arguments are operators before it; `usize` fields are places of memory.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Operator {
    Did(IntentKind),
    Sign(SignKind),
    Is(Condition),
    Constant(bool),
    Not(At),
    And(At, At),
    Or(At, At),
    Previously(At, u8),
    Once(At, u8),
    Historically(At, u8),
    Since(At, At, u8),
    // Sets.
    Set(SetAtom),
    /// All half-slots or none, as the yes or no says.
    Spread(At),
    SetNot(At),
    SetAnd(At, At),
    SetOr(At, At),
    SetSince(At, At, u8),
    // From sets to yes or no.
    Every(At),
    Some(At),
    AtBelts(At),
}

impl Operator {
    /// Whether its value is a set.
    pub(crate) fn is_set(self) -> bool {
        matches!(
            self,
            Operator::Set(_)
                | Operator::Spread(_)
                | Operator::SetNot(_)
                | Operator::SetAnd(..)
                | Operator::SetOr(..)
                | Operator::SetSince(..)
        )
    }
}

/// Formulas compiled into one list of operators, each written once however often it is used.
#[derive(Clone, Debug, Default)]
pub struct Program {
    pub(crate) operators: Vec<Operator>,
    pub(crate) bits: u8,
    pub(crate) sets: u8,
    pub(crate) slots: u8,
}

/// The memory of a program. Plain data.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Watch {
    bits: u64,
    sets: [Halves; SETS_MOST],
}

/// The values of all operators at one observation.
pub(crate) struct Values {
    truths: [u64; OPERATORS_MOST / 64],
    sets: [Halves; OPERATORS_MOST / 8],
    places: [u8; OPERATORS_MOST],
}

impl Values {
    pub(crate) fn truth(&self, at: At) -> bool {
        self.truths[at as usize / 64] >> (at % 64) & 1 == 1
    }

    pub(crate) fn set(&self, at: At) -> Halves {
        self.sets[self.places[at as usize] as usize]
    }
}

impl Program {
    /// Lets an observation pass: the values of all operators, and the memory after it.
    pub(crate) fn step(&self, watch: &mut Watch, seen: &Observation) -> Values {
        let mut values = Values {
            truths: [0; OPERATORS_MOST / 64],
            sets: [Halves::NONE; OPERATORS_MOST / 8],
            places: [0; OPERATORS_MOST],
        };
        let mut sets = 0;
        for (at, &operator) in self.operators.iter().enumerate() {
            if operator.is_set() {
                let set = self.set(operator, &values, watch, seen);
                values.places[at] = sets;
                values.sets[sets as usize] = set;
                sets += 1;
            } else {
                let truth = self.truth(operator, &values, watch, seen);
                values.truths[at / 64] |= u64::from(truth) << (at % 64);
            }
        }
        values
    }

    fn truth(
        &self,
        operator: Operator,
        values: &Values,
        watch: &mut Watch,
        seen: &Observation,
    ) -> bool {
        let old = |place: u8| watch.bits >> place & 1 == 1;
        match operator {
            Operator::Did(kind) => seen.did(kind),
            Operator::Sign(kind) => seen.sign(kind),
            Operator::Is(condition) => seen.is(condition),
            Operator::Constant(truth) => truth,
            Operator::Not(a) => !values.truth(a),
            Operator::And(a, b) => values.truth(a) && values.truth(b),
            Operator::Or(a, b) => values.truth(a) || values.truth(b),
            Operator::Previously(a, place) => {
                let before = old(place);
                watch.keep(place, values.truth(a));
                before
            }
            Operator::Once(a, place) => {
                let now = old(place) || values.truth(a);
                watch.keep(place, now);
                now
            }
            // The memory says whether it was ever false, so that it begins as true.
            Operator::Historically(a, place) => {
                let failed = old(place) || !values.truth(a);
                watch.keep(place, failed);
                !failed
            }
            Operator::Since(a, b, place) => {
                let now = values.truth(b) || (old(place) && values.truth(a));
                watch.keep(place, now);
                now
            }
            Operator::Every(a) => Halves::all(self.slots).without(values.set(a)).is_empty(),
            Operator::Some(a) => !values.set(a).is_empty(),
            Operator::AtBelts(a) => {
                let slot = seen.at_belts();
                !slot.is_empty() && slot.without(values.set(a)).is_empty()
            }
            _ => false,
        }
    }

    fn set(
        &self,
        operator: Operator,
        values: &Values,
        watch: &mut Watch,
        seen: &Observation,
    ) -> Halves {
        let all = Halves::all(self.slots);
        match operator {
            Operator::Set(atom) => seen.set(atom),
            Operator::Spread(a) => {
                if values.truth(a) {
                    all
                } else {
                    Halves::NONE
                }
            }
            Operator::SetNot(a) => all.without(values.set(a)),
            Operator::SetAnd(a, b) => values.set(a).intersection(values.set(b)),
            Operator::SetOr(a, b) => values.set(a).union(values.set(b)),
            Operator::SetSince(a, b, place) => {
                let old = watch.sets[place as usize];
                let now = values.set(b).union(old.intersection(values.set(a)));
                watch.sets[place as usize] = now;
                now
            }
            _ => Halves::NONE,
        }
    }

    /// The memory's fields in a key.
    pub fn code(&self, watch: &mut Watch, coder: &mut impl Coder) {
        coder.mask(&mut watch.bits, u32::from(self.bits));
        for set in watch.sets.iter_mut().take(self.sets as usize) {
            coder.mask(&mut set.infeed, u32::from(self.slots));
            coder.mask(&mut set.outfeed, u32::from(self.slots));
        }
    }
}

impl Watch {
    fn keep(&mut self, place: u8, truth: bool) {
        self.bits = self.bits & !(1 << place) | u64::from(truth) << place;
    }
}
