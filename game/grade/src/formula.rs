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
    /// For each operator that gives a set: which of the sets it is.
    pub(crate) places: Vec<u8>,
}

/// What a program asks of an observation: intents, signs and conditions as masks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Asks {
    pub(crate) intents: u64,
    pub(crate) signs: u64,
    pub(crate) conditions: u64,
    reaches: bool,
    counts: bool,
}

impl Asks {
    /// Whether an observation before an intent can tell the program anything. What is known then
    /// was known after the observation before.
    pub(crate) fn before(&self, kind: IntentKind) -> bool {
        let reach = matches!(kind, IntentKind::Take | IntentKind::PutIn);
        self.counts || self.intents >> kind as u8 & 1 == 1 || (self.reaches && reach)
    }

    /// Whether an observation after signs can tell the program anything, if `changed` are the
    /// conditions that changed.
    pub(crate) fn after(&self, seen: &Observation, changed: u64) -> bool {
        self.counts || seen.says(self.signs) || self.conditions & changed != 0
    }
}

/// The memory of a program. Plain data.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Watch {
    bits: u64,
    sets: [Halves; SETS_MOST],
}

/// Most operators over sets.
pub(crate) const SET_OPERATORS_MOST: usize = 16;

/// The values of all operators at one observation.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Values<'p> {
    truths: [bool; OPERATORS_MOST],
    sets: [Halves; SET_OPERATORS_MOST],
    /// Which of the sets an operator's is.
    places: &'p [u8],
}

impl<'p> Values<'p> {
    /// These truths, all sets empty.
    pub(crate) fn new(program: &'p Program, truths: &[bool; OPERATORS_MOST]) -> Values<'p> {
        Values {
            truths: *truths,
            sets: [Halves::NONE; SET_OPERATORS_MOST],
            places: &program.places,
        }
    }

    pub(crate) fn truth(&self, at: At) -> bool {
        self.truths[at as usize]
    }

    pub(crate) fn set(&self, at: At) -> Halves {
        self.sets[self.places[at as usize] as usize]
    }
}

impl Program {
    /// Numbers the operators that give sets. Once, when all operators are there.
    pub(crate) fn number_sets(&mut self) {
        let mut next = 0;
        let number = |operator: &Operator| {
            let place = next;
            next += u8::from(operator.is_set());
            place
        };
        self.places = self.operators.iter().map(number).collect();
    }

    /// Lets an observation pass: the values of all operators, and the memory after it.
    pub(crate) fn step(&self, watch: &mut Watch, seen: &Observation) -> Values<'_> {
        let mut values = Values::new(self, &[false; OPERATORS_MOST]);
        for (at, &operator) in self.operators.iter().enumerate() {
            self.evaluate(at as At, operator, &mut values, watch, seen);
        }
        values
    }

    /// Works out one operator.
    #[inline]
    pub(crate) fn evaluate(
        &self,
        at: At,
        operator: Operator,
        values: &mut Values<'_>,
        watch: &mut Watch,
        seen: &Observation,
    ) {
        if operator.is_set() {
            let set = self.set(operator, values, watch, seen);
            values.sets[self.places[at as usize] as usize] = set;
        } else {
            values.truths[at as usize] = self.truth(operator, values, watch, seen);
        }
    }

    /// Whether an observation without an intent and without signs, and with the same conditions as
    /// the one before, can change the memory. Only Previously counts observations.
    fn counts(&self) -> bool {
        let previously = |operator: &Operator| matches!(operator, Operator::Previously(..));
        self.operators.iter().any(previously)
    }

    /// What the program asks of an observation.
    pub(crate) fn asks(&self) -> Asks {
        let mut asks = Asks {
            counts: self.counts(),
            ..Asks::default()
        };
        for operator in &self.operators {
            match *operator {
                Operator::Did(kind) => asks.intents |= 1 << kind as u8,
                Operator::Sign(kind) => asks.signs |= 1 << kind as u8,
                Operator::Is(condition) => asks.conditions |= 1 << condition as u8,
                Operator::Set(SetAtom::ReachedFor) => asks.reaches = true,
                _ => {}
            }
        }
        asks
    }

    #[inline]
    fn truth(
        &self,
        operator: Operator,
        values: &Values<'_>,
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
        values: &Values<'_>,
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

    /// The sets that count only when they are whole, or at the slot at the belts: nothing but Every
    /// and AtBelts reads them. For each: its place in memory, and what fills it.
    pub(crate) fn whole_sets(&self) -> Vec<(u8, SetAtom)> {
        let find = |at: usize| match self.operators[at] {
            Operator::SetSince(_, fill, place) => match self.operators[fill as usize] {
                Operator::Set(atom) => Some((place, atom)),
                _ => None,
            },
            _ => None,
        };
        let others = |at: usize| {
            self.operators.iter().all(|operator| match *operator {
                Operator::Every(_) | Operator::AtBelts(_) => true,
                Operator::Some(a) | Operator::SetNot(a) => a as usize != at,
                Operator::SetAnd(a, b) | Operator::SetOr(a, b) | Operator::SetSince(a, b, _) => {
                    a as usize != at && b as usize != at
                }
                _ => true,
            })
        };
        let places = 0..self.operators.len();
        places.filter(|&at| others(at)).filter_map(find).collect()
    }

    /// Whether a set of the memory is whole.
    pub(crate) fn is_whole(&self, watch: &Watch, place: u8) -> bool {
        Halves::all(self.slots)
            .without(watch.sets[place as usize])
            .is_empty()
    }

    /// Whether a set of the memory is whole together with `more`.
    pub(crate) fn is_whole_with(&self, watch: &Watch, place: u8, more: Halves) -> bool {
        let set = watch.sets[place as usize].union(more);
        Halves::all(self.slots).without(set).is_empty()
    }

    /// Keeps of a set of the memory only what is in `only`.
    pub(crate) fn restrict(watch: &mut Watch, place: u8, only: Halves) {
        let set = &mut watch.sets[place as usize];
        *set = set.intersection(only);
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
