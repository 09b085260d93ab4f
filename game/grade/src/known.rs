//! What is known of a formula before an observation is seen, by its sort alone.

use rackproof_drill::{Condition, IntentKind};

use crate::{
    Program,
    formula::{At, Operator, SetAtom},
};

/// A sort of observation.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Sort {
    /// About to do an intent of this kind: no sign yet.
    Before(IntentKind),
    /// Signs, no intent.
    After,
    /// Neither: time that passes.
    Quiet,
}

/// What an operator gives, as far as it is known beforehand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Known {
    Truth(bool),
    /// An empty set.
    Empty,
    /// All half-slots. Known, and worked out all the same: others read the set.
    Full,
    Open,
}

impl Known {
    /// Whether it has to be worked out.
    pub(crate) fn is_open(self) -> bool {
        matches!(self, Known::Full | Known::Open)
    }
}

/// What is known of each operator beforehand.
pub(crate) fn known(program: &Program, sort: Sort) -> Vec<Known> {
    let mut known: Vec<Known> = Vec::with_capacity(program.operators.len());
    for &operator in &program.operators {
        let of = |at: At| known[at as usize];
        let answer = match operator {
            Operator::Did(kind) => Known::Truth(sort == Sort::Before(kind)),
            Operator::Sign(_) if sort != Sort::After => Known::Truth(false),
            Operator::Is(Condition::ReachesUnder) if sort == Sort::Quiet => Known::Truth(false),
            Operator::Constant(truth) => Known::Truth(truth),
            Operator::Not(a) => match of(a) {
                Known::Truth(truth) => Known::Truth(!truth),
                other => other,
            },
            Operator::And(a, b) => join(of(a), of(b), false),
            Operator::Or(a, b) => join(of(a), of(b), true),
            Operator::Some(a) | Operator::AtBelts(a) if of(a) == Known::Empty => {
                Known::Truth(false)
            }
            Operator::Every(a) if of(a) == Known::Full => Known::Truth(true),
            _ => known_set(operator, &of, sort),
        };
        known.push(answer);
    }
    known
}

/// The same for operators that give sets.
fn known_set(operator: Operator, of: &dyn Fn(At) -> Known, sort: Sort) -> Known {
    match operator {
        Operator::Set(atom) if set_is_empty(atom, sort) => Known::Empty,
        Operator::Spread(a) => match of(a) {
            Known::Truth(false) => Known::Empty,
            Known::Truth(true) => Known::Full,
            other => other,
        },
        Operator::SetNot(a) => match of(a) {
            Known::Empty => Known::Full,
            Known::Full => Known::Empty,
            other => other,
        },
        Operator::SetAnd(a, b) => match (of(a), of(b)) {
            (Known::Empty, _) | (_, Known::Empty) => Known::Empty,
            (Known::Full, Known::Full) => Known::Full,
            _ => Known::Open,
        },
        Operator::SetOr(a, b) => match (of(a), of(b)) {
            (Known::Full, _) | (_, Known::Full) => Known::Full,
            (Known::Empty, Known::Empty) => Known::Empty,
            _ => Known::Open,
        },
        Operator::Wider(_, a) => of(a),
        _ => Known::Open,
    }
}

/// And, or Or, of what is known: `decides` is the truth that decides alone.
fn join(a: Known, b: Known, decides: bool) -> Known {
    if a == Known::Truth(decides) || b == Known::Truth(decides) {
        Known::Truth(decides)
    } else if a == Known::Truth(!decides) && b == Known::Truth(!decides) {
        Known::Truth(!decides)
    } else {
        Known::Open
    }
}

fn set_is_empty(atom: SetAtom, sort: Sort) -> bool {
    match (atom, sort) {
        (SetAtom::ReachedFor, Sort::Before(kind)) => {
            !matches!(kind, IntentKind::Take | IntentKind::PutIn)
        }
        (SetAtom::ReachedFor, _) => true,
        (_, Sort::Before(_) | Sort::Quiet) => true,
        (_, Sort::After) => false,
    }
}

/// For each operator: whether it keeps something in memory that a gap can change.
pub(crate) fn moved_by_gaps(program: &Program, known: &[Known]) -> Vec<bool> {
    let gaps = Gaps { program, known };
    let operators = program.operators.iter();
    operators.map(|&operator| gaps.move_it(operator)).collect()
}

struct Gaps<'k> {
    program: &'k Program,
    /// What is known of a quiet observation.
    known: &'k [Known],
}

impl Gaps<'_> {
    fn move_it(&self, operator: Operator) -> bool {
        let of = |at: At| self.known[at as usize];
        match operator {
            Operator::Once(a, _) => of(a) != Known::Truth(false),
            Operator::Historically(a, _) => of(a) != Known::Truth(true),
            // Nothing comes in a gap; and what was true stays true if a holds on.
            Operator::Since(a, b, _) => of(b) != Known::Truth(false) || !self.holds_on(a, b),
            Operator::SetSince(a, b, _) => of(b) != Known::Empty || of(a) != Known::Full,
            Operator::Within(..) | Operator::Ago(..) | Operator::InSetWindow(_) => true,
            _ => false,
        }
    }

    /// Whether `a` is true in a gap if it, or `b`, was true at the observation before it: it is
    /// known to be true, or it is a condition that b asks for as well.
    fn holds_on(&self, a: At, b: At) -> bool {
        match self.program.operators[a as usize] {
            _ if self.known[a as usize] == Known::Truth(true) => true,
            Operator::And(first, second) => self.holds_on(first, b) && self.holds_on(second, b),
            Operator::Is(condition) => condition != Condition::ReachesUnder && self.asks(b, a),
            Operator::Compares(_) => self.asks(b, a),
            _ => false,
        }
    }

    /// Whether `b` can be true only if `a` is: it is a, or joins it to others.
    fn asks(&self, b: At, a: At) -> bool {
        match self.program.operators[b as usize] {
            _ if a == b => true,
            Operator::And(first, second) => self.asks(first, a) || self.asks(second, a),
            _ => false,
        }
    }
}
