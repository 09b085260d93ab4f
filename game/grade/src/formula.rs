//! Compiled formulas. Each temporal operator keeps one bit, one set of half-slots or one clock:
//! constant memory, exact at event times. What time means to them stands in `time`.

use rackproof_buffer::{Half, Halves};
use rackproof_drill::{Condition, IntentKind, SignKind};

use crate::{
    Observation, Watch,
    limits::{OPERATORS_MOST, SET_OPERATORS_MOST},
    set_clocks::SetClock,
    watch::Clock,
    widths::Comparison,
};

pub(crate) use crate::asks::Asks;

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
    /// A comparison of widths, by its number.
    Compares(u8),
    Constant(bool),
    Not(At),
    And(At, At),
    Or(At, At),
    Previously(At, u8),
    Once(At, u8),
    Historically(At, u8),
    Since(At, At, u8),
    /// Since with the window `[0, b]`, and its clock.
    Within(At, At, u8),
    /// Since with the window `[a, ∞)`, and its clock.
    Ago(At, At, u8),
    // Sets.
    Set(SetAtom),
    /// All half-slots of one side.
    Side(Half),
    /// All half-slots or none, as the yes or no says.
    Spread(At),
    SetNot(At),
    SetAnd(At, At),
    SetOr(At, At),
    SetSince(At, At, u8),
    /// Since with a window over sets, by the number of its clocks.
    InSetWindow(u8),
    /// The half-slots whose whole slot, or whole side, is in the set; or part of it.
    Wider(Wider, At),
    // From sets to yes or no.
    Every(At),
    Some(At),
    AtBelts(At),
}

/// How a set is widened or narrowed to whole slots or sides.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Wider {
    /// Both halves of each slot of which both are in.
    WholeSlots,
    /// Both halves of each slot of which one is in.
    PartSlots,
    /// Each side of which every half-slot is in.
    WholeSides,
    /// Each side of which one half-slot is in.
    PartSides,
}

impl Wider {
    pub(crate) fn of(self, set: Halves, all: Halves) -> Halves {
        let slots = |mask: u64| Halves {
            infeed: mask,
            outfeed: mask,
        };
        let side = |mask: u64, all: u64| match self {
            Wider::WholeSides if mask == all => all,
            Wider::PartSides if mask != 0 => all,
            _ => 0,
        };
        let set = set.intersection(all);
        match self {
            Wider::WholeSlots => slots(set.infeed & set.outfeed),
            Wider::PartSlots => slots(set.infeed | set.outfeed),
            Wider::WholeSides | Wider::PartSides => Halves {
                infeed: side(set.infeed, all.infeed),
                outfeed: side(set.outfeed, all.outfeed),
            },
        }
    }
}

impl Operator {
    /// Whether its value is a set.
    pub(crate) fn is_set(self) -> bool {
        matches!(
            self,
            Operator::Set(_)
                | Operator::Side(_)
                | Operator::Wider(..)
                | Operator::Spread(_)
                | Operator::SetNot(_)
                | Operator::SetAnd(..)
                | Operator::SetOr(..)
                | Operator::SetSince(..)
                | Operator::InSetWindow(_)
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
    /// Whether a gap can change the memory: see `time`.
    pub(crate) gaps_matter: bool,
    /// Whether a gap does nothing to the memory that a moment would not do at which nothing is done
    /// and nothing comes: it can move only what has no end, Once and Historically.
    pub(crate) gaps_are_moments: bool,
    /// The clocks of operators with a window.
    pub(crate) clocks: Vec<Clock>,
    /// The clocks of windows over sets.
    pub(crate) set_clocks: Vec<SetClock>,
    /// The comparisons of widths.
    pub(crate) comparisons: Vec<Comparison>,
    /// For each operator that gives a set: which of the sets it is.
    pub(crate) places: Vec<u8>,
}

/// A yes or a no for each operator, in as few words as hold them.
pub(crate) type Truths = [u64; OPERATORS_MOST / 64];

/// The values of all operators at one observation.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Values<'p> {
    truths: Truths,
    sets: [Halves; SET_OPERATORS_MOST],
    /// Which of the sets an operator's is.
    places: &'p [u8],
}

impl<'p> Values<'p> {
    /// These truths, all sets empty.
    pub(crate) fn new(program: &'p Program, truths: &Truths) -> Values<'p> {
        Values {
            truths: *truths,
            sets: [Halves::NONE; SET_OPERATORS_MOST],
            places: &program.places,
        }
    }

    #[inline]
    pub(crate) fn truth(&self, at: At) -> bool {
        self.truths[at as usize / 64] >> (at % 64) & 1 == 1
    }

    /// Takes back the truth of an operator, so that it can be worked out anew.
    #[inline]
    pub(crate) fn forget(&mut self, at: At) {
        self.truths[at as usize / 64] &= !(1 << (at % 64));
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
        self.at_moment::<false>(watch, seen)
    }

    /// The same at a moment or in a gap.
    pub(crate) fn at_moment<const GAP: bool>(
        &self,
        watch: &mut Watch,
        seen: &Observation,
    ) -> Values<'_> {
        let mut values = Values::new(self, &Truths::default());
        for (at, &operator) in self.operators.iter().enumerate() {
            let place = (at as At, operator.is_set());
            self.evaluate::<GAP>(place, operator, &mut values, watch, seen);
        }
        values
    }

    /// Works out one operator. In a `GAP` (the open span between two moments, see `time`) nothing
    /// is done and nothing comes. The operator's place, and whether it gives a set.
    #[inline]
    pub(crate) fn evaluate<const GAP: bool>(
        &self,
        (at, is_set): (At, bool),
        operator: Operator,
        values: &mut Values<'_>,
        watch: &mut Watch,
        seen: &Observation,
    ) {
        if is_set {
            let set = self.set::<GAP>(operator, values, watch, seen);
            values.sets[self.places[at as usize] as usize] = set;
        } else {
            let truth = self.truth::<GAP>(operator, values, watch, seen);
            // What is not worked out yet is nought.
            values.truths[at as usize / 64] |= u64::from(truth) << (at % 64);
        }
    }

    /// Whether time alone can turn a formula.
    pub(crate) fn has_windows(&self) -> bool {
        !self.clocks.is_empty() || !self.set_clocks.is_empty()
    }

    #[inline]
    fn truth<const GAP: bool>(
        &self,
        operator: Operator,
        values: &Values<'_>,
        watch: &mut Watch,
        seen: &Observation,
    ) -> bool {
        match operator {
            Operator::Did(kind) => seen.did(kind),
            Operator::Sign(kind) => seen.sign(kind),
            Operator::Is(condition) => seen.is(condition),
            Operator::Compares(place) => self.comparisons[place as usize].holds(seen),
            Operator::Constant(truth) => truth,
            Operator::Not(a) => !values.truth(a),
            Operator::And(a, b) => values.truth(a) && values.truth(b),
            Operator::Or(a, b) => values.truth(a) || values.truth(b),
            // Previously speaks of observations: time that passes is none.
            Operator::Previously(_, place) if seen.is_quiet() => watch.bit(place),
            Operator::Previously(a, place) => {
                let before = watch.bit(place);
                watch.keep(place, values.truth(a));
                before
            }
            Operator::Once(a, place) => {
                let now = watch.bit(place) || values.truth(a);
                watch.keep(place, now);
                now
            }
            // The memory says whether it was ever false, so that it begins as true.
            Operator::Historically(a, place) => {
                let failed = watch.bit(place) || !values.truth(a);
                watch.keep(place, failed);
                !failed
            }
            Operator::Since(a, b, place) => {
                let holds = values.truth(a);
                let now = values.truth(b) || (watch.bit(place) && holds);
                watch.keep(place, now && (holds || !GAP));
                now
            }
            Operator::Within(a, b, place) | Operator::Ago(a, b, place) => {
                let kind = self.clocks[place as usize];
                let (holds, comes) = (values.truth(a), values.truth(b));
                let clock = &mut watch.clocks[place as usize];
                let now = kind.now(*clock, holds, comes);
                *clock = if holds || !GAP { now } else { 0 };
                kind.counts(now)
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

    fn set<const GAP: bool>(
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
                let holds = values.set(a);
                let now = values.set(b).union(old.intersection(holds));
                watch.sets[place as usize] = if GAP { now.intersection(holds) } else { now };
                now
            }
            Operator::InSetWindow(place) => self.in_set_window::<GAP>(place, values, watch),
            Operator::Side(Half::Infeed) => all.intersection(Halves {
                infeed: u64::MAX,
                outfeed: 0,
            }),
            Operator::Side(Half::Outfeed) => all.intersection(Halves {
                infeed: 0,
                outfeed: u64::MAX,
            }),
            Operator::Wider(wider, a) => wider.of(values.set(a), all),
            _ => Halves::NONE,
        }
    }
}
