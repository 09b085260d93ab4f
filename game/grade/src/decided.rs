//! Formulas that nothing can turn: a rule that nobody can break, or that nobody can keep.
//!
//! What is decided is so whatever is done and whatever comes. Each sort of observation is looked at
//! with every sign, condition, width and memory free that it could have by its sort, and a memory
//! only as far as something could ever have got there. More than the machine can do is taken to be
//! possible, so that much which can never be is not found; what is found is so.

use std::collections::BTreeMap;

use rackproof_buffer::Half;
use rackproof_drill::IntentKind;

use crate::{
    Program,
    diagram::{ALWAYS, Diagrams, NEVER, Node},
    formula::{At, Operator, Wider},
    known::{Known, Sort, known},
    widths::Comparison,
};

/// What a formula gives at all observations.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Decided {
    /// Yes, at each. Of a set: every half-slot is in it.
    Always,
    /// No, at each. Of a set: none is.
    Never,
    /// No, at each that comes of a doing, or of time: of those before a doing nothing is decided.
    NeverAfter,
}

/// What is free at an observation.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Free {
    Sign(u8),
    Condition(u8),
    /// Whether a width can be read, with the one that it is counted from.
    Read(u8),
    /// Whether such a width reaches its limit of this number, if it reaches the ones before.
    Reaches(u8, u16),
    /// Whether there is a slot at the belts.
    SlotAtBelts,
    /// What an operator remembers, or what other half-slots add to it.
    Of(At),
    // Of one half-slot, any.
    /// Whether an observation brings it.
    Brought(u8),
    /// Whether it is of the infeed side.
    Infeed,
    /// The same as [`Free::Of`] for this half-slot.
    OfHalf(At),
}

impl Free {
    fn is_of_half(self) -> bool {
        matches!(self, Free::Brought(_) | Free::Infeed | Free::OfHalf(_))
    }
}

/// A program being looked at.
struct Looking<'p> {
    program: &'p Program,
    diagrams: Diagrams,
    questions: BTreeMap<Free, u32>,
    free: Vec<Free>,
    /// For each operator with a memory: whether it can ever hold something.
    remembers: Vec<bool>,
}

impl Program {
    /// What is decided of each of these operators. Nothing, if that takes too long to work out.
    pub(crate) fn decided(&self, roots: &[At]) -> Vec<Option<Decided>> {
        let mut looking = Looking {
            program: self,
            diagrams: Diagrams::default(),
            questions: BTreeMap::new(),
            free: Vec::new(),
            remembers: vec![false; self.operators.len()],
        };
        looking.decide(roots)
    }

    /// Every sort of observation that is another one to this program, those without an intent
    /// first.
    fn sorts(&self) -> Vec<Sort> {
        let asks = self.asks();
        let mut others = false;
        let mut sorts = vec![Sort::After, Sort::Quiet];
        for &(_, kind) in IntentKind::ALL {
            if asks.before(kind) || !std::mem::replace(&mut others, true) {
                sorts.push(Sort::Before(kind));
            }
        }
        sorts
    }
}

impl Looking<'_> {
    fn decide(&mut self, roots: &[At]) -> Vec<Option<Decided>> {
        let sorts = self.program.sorts();
        let mut all = Vec::new();
        let mut again = true;
        while again && !self.diagrams.too_large {
            again = false;
            all.clear();
            for &sort in &sorts {
                let values = self.values(sort);
                again |= self.remember(&values);
                all.push(values);
            }
        }
        let decided = |root: &At| {
            let found: Vec<Node> = all
                .iter()
                .map(|values| values[usize::from(*root)])
                .collect();
            let is = |among: &[Node], node| among.iter().all(|found| *found == node);
            match &found[..] {
                _ if self.diagrams.too_large => None,
                all if is(all, ALWAYS) => Some(Decided::Always),
                all if is(all, NEVER) => Some(Decided::Never),
                // Those come first among the sorts.
                [after, quiet, ..] if is(&[*after, *quiet], NEVER) => Some(Decided::NeverAfter),
                _ => None,
            }
        };
        roots.iter().map(decided).collect()
    }

    /// Notes which memories can hold something after such an observation. Whether one is new.
    fn remember(&mut self, values: &[Node]) -> bool {
        let mut new = false;
        for (at, operator) in self.program.operators.iter().enumerate() {
            let value = |at: At| values[usize::from(at)];
            let can = match *operator {
                Operator::Previously(a, _) => value(a) != NEVER,
                Operator::Once(..) | Operator::Since(..) | Operator::SetSince(..) => {
                    values[at] != NEVER
                }
                Operator::Historically(..) => values[at] != ALWAYS,
                Operator::Within(_, b, _) | Operator::Ago(_, b, _) => value(b) != NEVER,
                Operator::InSetWindow(number) => {
                    let clock = self.program.set_clocks[usize::from(number)].clock;
                    value(clock.comes) != NEVER
                }
                _ => false,
            };
            new |= can && !self.remembers[at];
            self.remembers[at] |= can;
        }
        new
    }

    /// What each operator gives at an observation of this sort.
    fn values(&mut self, sort: Sort) -> Vec<Node> {
        let known = known(self.program, sort);
        let mut values: Vec<Node> = Vec::with_capacity(known.len());
        for (at, operator) in self.program.operators.iter().enumerate() {
            let value = match known[at] {
                Known::Truth(true) | Known::Full => ALWAYS,
                Known::Truth(false) | Known::Empty => NEVER,
                Known::Open => self.open(at as At, *operator, &values),
            };
            values.push(value);
        }
        values
    }

    fn ask(&mut self, free: Free) -> Node {
        let next = self.free.len() as u32;
        let question = *self.questions.entry(free).or_insert(next);
        if question == next {
            self.free.push(free);
        }
        self.diagrams.ask(question)
    }

    /// What an operator remembers.
    fn memory(&mut self, at: At, free: Free) -> Node {
        match self.remembers[usize::from(at)] {
            true => self.ask(free),
            false => NEVER,
        }
    }

    fn open(&mut self, at: At, operator: Operator, values: &[Node]) -> Node {
        let value = |at: At| values[usize::from(at)];
        match operator {
            Operator::Did(_) => NEVER,
            Operator::Sign(kind) => self.ask(Free::Sign(kind as u8)),
            Operator::Is(condition) => self.ask(Free::Condition(condition as u8)),
            Operator::Compares(number) => {
                self.compares(self.program.comparisons[usize::from(number)])
            }
            Operator::Constant(truth) => Node::from(truth),
            Operator::Not(a) | Operator::SetNot(a) => self.diagrams.not(value(a)),
            Operator::And(a, b) | Operator::SetAnd(a, b) => self.diagrams.and(value(a), value(b)),
            Operator::Or(a, b) | Operator::SetOr(a, b) => self.diagrams.or(value(a), value(b)),
            Operator::Spread(a) => value(a),
            Operator::Previously(..) => self.memory(at, Free::Of(at)),
            Operator::Once(a, _) => {
                let ever = self.memory(at, Free::Of(at));
                self.diagrams.or(ever, value(a))
            }
            Operator::Historically(a, _) => {
                let failed = self.memory(at, Free::Of(at));
                let kept = self.diagrams.not(failed);
                self.diagrams.and(kept, value(a))
            }
            Operator::Since(a, b, _) | Operator::Within(a, b, _) => {
                let before = self.memory(at, Free::Of(at));
                self.since(before, value(a), value(b))
            }
            // Long enough ago is before now, and what holds has held on.
            Operator::Ago(a, ..) => {
                let before = self.memory(at, Free::Of(at));
                self.diagrams.and(before, value(a))
            }
            Operator::SetSince(a, b, _) => {
                let before = self.memory(at, Free::OfHalf(at));
                self.since(before, value(a), value(b))
            }
            Operator::InSetWindow(number) => {
                let clock = self.program.set_clocks[usize::from(number)].clock;
                let before = self.memory(at, Free::OfHalf(at));
                let comes = if clock.within {
                    value(clock.comes)
                } else {
                    NEVER
                };
                self.since(before, value(clock.holds), comes)
            }
            Operator::Set(atom) => self.ask(Free::Brought(atom as u8)),
            Operator::Side(half) => {
                let infeed = self.ask(Free::Infeed);
                match half {
                    Half::Infeed => infeed,
                    Half::Outfeed => self.diagrams.not(infeed),
                }
            }
            Operator::Wider(wider, a) => self.wider(at, wider, value(a)),
            Operator::Every(a) | Operator::Some(a) => self.quantified(at, value(a)),
            Operator::AtBelts(a) => {
                let all = self.quantified(at, value(a));
                let slot = self.ask(Free::SlotAtBelts);
                self.diagrams.and(slot, all)
            }
        }
    }

    fn since(&mut self, before: Node, holds: Node, comes: Node) -> Node {
        let goes_on = self.diagrams.and(before, holds);
        self.diagrams.or(comes, goes_on)
    }

    /// A width reaches a limit only if it reaches all lower ones. In whole µm, at most is not to
    /// reach the next.
    fn compares(&mut self, comparison: Comparison) -> Node {
        let pair = |one: &Comparison| (one.width, one.over);
        let limit = |one: &Comparison| one.plus.0 + i32::from(!one.least);
        let all = self.program.comparisons.iter();
        let mut limits: Vec<i32> = all
            .filter(|one| pair(one) == pair(&comparison))
            .map(limit)
            .collect();
        limits.sort_unstable();
        limits.dedup();
        let over = comparison.over.map_or(0, |over| over as u8 + 1);
        let width = 16 * over + comparison.width as u8;
        let mut reaches = ALWAYS;
        let upto = limits.iter().take_while(|one| **one <= limit(&comparison));
        for number in 0..upto.count() {
            let next = self.ask(Free::Reaches(width, number as u16));
            reaches = self.diagrams.and(reaches, next);
        }
        let holds = match comparison.least {
            true => reaches,
            false => self.diagrams.not(reaches),
        };
        let read = self.ask(Free::Read(width));
        self.diagrams.and(read, holds)
    }

    /// The other half-slots of the slot or the side take part.
    fn wider(&mut self, at: At, wider: Wider, own: Node) -> Node {
        let others = self.ask(Free::OfHalf(at));
        match wider {
            Wider::WholeSlots | Wider::WholeSides => self.diagrams.and(own, others),
            Wider::PartSlots | Wider::PartSides => {
                let [some, _] = self.over_halves(own);
                let others = self.diagrams.and(some, others);
                self.diagrams.or(own, others)
            }
        }
    }

    /// What is asked of several half-slots: true if it is so for any, false if it is for none.
    fn quantified(&mut self, at: At, of: Node) -> Node {
        let [some, all] = self.over_halves(of);
        let between = self.ask(Free::Of(at));
        let between = self.diagrams.and(some, between);
        self.diagrams.or(all, between)
    }

    /// For some half-slot that could be, and for each.
    fn over_halves(&mut self, of: Node) -> [Node; 2] {
        let free = &self.free;
        self.diagrams
            .over(of, &|question| free[question as usize].is_of_half())
    }
}
