//! A program made ready for one sort of observation: what is known beforehand (which intent, no
//! sign yet, or no intent) is worked out once, and what nothing needs any more is left out.

use rackproof_drill::IntentKind;

use crate::{
    Observation, Program, Watch,
    formula::{At, OPERATORS_MOST, Operator, SetAtom, Values},
};

/// A sort of observation.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Sort {
    /// About to do an intent of this kind: no sign yet.
    Before(IntentKind),
    /// Signs, no intent.
    After,
}

/// What an operator gives, as far as it is known beforehand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Known {
    Truth(bool),
    Empty,
    Open,
}

/// The operators that are left for a sort of observation, and the roots that can be false.
#[derive(Clone, Debug)]
pub(crate) struct Plan {
    /// What is known to be true beforehand.
    truths: Box<[bool; OPERATORS_MOST]>,
    operators: Vec<(At, Operator)>,
    /// Number of the rule, and its operator.
    roots: Vec<(u8, At)>,
}

impl Plan {
    /// The plan of a program whose rules have these roots.
    pub(crate) fn new(program: &Program, roots: &[At], sort: Sort) -> Plan {
        let known = known(program, sort);
        let mut needed = vec![false; program.operators.len()];
        let is_true = |at: At| known[at as usize] == Known::Truth(true);
        let open_roots: Vec<(u8, At)> = (0..)
            .zip(roots.iter().copied())
            .filter(|&(_, at)| !is_true(at))
            .collect();
        for &(_, at) in &open_roots {
            needed[at as usize] = true;
        }
        for (at, operator) in program.operators.iter().enumerate().rev() {
            needed[at] |= operator.remembers();
            if needed[at] && known[at] == Known::Open {
                operator.arguments(&mut |argument| needed[argument as usize] = true);
            }
        }
        let mut truths = Box::new([false; OPERATORS_MOST]);
        for (truth, known) in truths.iter_mut().zip(&known) {
            *truth = *known == Known::Truth(true);
        }
        let operators = program.operators.iter().enumerate();
        let operators = operators
            .filter(|&(at, _)| needed[at] && known[at] == Known::Open)
            .map(|(at, &operator)| (at as At, operator))
            .collect();
        Plan {
            truths,
            operators,
            roots: open_roots,
        }
    }

    /// Lets an observation of this sort pass, and calls `broke` with each rule that it breaks.
    pub(crate) fn step(
        &self,
        program: &Program,
        watch: &mut Watch,
        seen: &Observation,
        broke: &mut dyn FnMut(u8),
    ) {
        let mut values = Values::new(program, &self.truths);
        for &(at, operator) in &self.operators {
            program.evaluate(at, operator, &mut values, watch, seen);
        }
        for &(rule, at) in &self.roots {
            if !values.truth(at) {
                broke(rule);
            }
        }
    }
}

/// What is known of each operator beforehand.
fn known(program: &Program, sort: Sort) -> Vec<Known> {
    let mut known: Vec<Known> = Vec::with_capacity(program.operators.len());
    for &operator in &program.operators {
        let of = |at: At| known[at as usize];
        let answer = match operator {
            Operator::Did(kind) => Known::Truth(sort == Sort::Before(kind)),
            Operator::Sign(_) if sort != Sort::After => Known::Truth(false),
            Operator::Constant(truth) => Known::Truth(truth),
            Operator::Not(a) => match of(a) {
                Known::Truth(truth) => Known::Truth(!truth),
                other => other,
            },
            Operator::And(a, b) => join(of(a), of(b), false),
            Operator::Or(a, b) => join(of(a), of(b), true),
            Operator::Set(atom) if set_is_empty(atom, sort) => Known::Empty,
            Operator::Spread(a) if of(a) == Known::Truth(false) => Known::Empty,
            Operator::SetAnd(a, b) if of(a) == Known::Empty || of(b) == Known::Empty => {
                Known::Empty
            }
            Operator::SetOr(a, b) if of(a) == Known::Empty && of(b) == Known::Empty => Known::Empty,
            Operator::Some(a) | Operator::AtBelts(a) if of(a) == Known::Empty => {
                Known::Truth(false)
            }
            _ => Known::Open,
        };
        known.push(answer);
    }
    known
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
        (SetAtom::ReachedFor, Sort::After) => true,
        (_, Sort::Before(_)) => true,
        (_, Sort::After) => false,
    }
}

impl Operator {
    /// Whether it keeps something in memory, so that no observation may pass it by.
    fn remembers(self) -> bool {
        matches!(
            self,
            Operator::Previously(..)
                | Operator::Once(..)
                | Operator::Historically(..)
                | Operator::Since(..)
                | Operator::SetSince(..)
        )
    }

    fn arguments(self, found: &mut impl FnMut(At)) {
        match self {
            Operator::Did(_)
            | Operator::Sign(_)
            | Operator::Is(_)
            | Operator::Constant(_)
            | Operator::Set(_) => {}
            Operator::Not(a)
            | Operator::Previously(a, _)
            | Operator::Once(a, _)
            | Operator::Historically(a, _)
            | Operator::Spread(a)
            | Operator::SetNot(a)
            | Operator::Every(a)
            | Operator::Some(a)
            | Operator::AtBelts(a) => found(a),
            Operator::And(a, b)
            | Operator::Or(a, b)
            | Operator::Since(a, b, _)
            | Operator::SetAnd(a, b)
            | Operator::SetOr(a, b)
            | Operator::SetSince(a, b, _) => {
                found(a);
                found(b);
            }
        }
    }
}
