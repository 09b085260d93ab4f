//! From formulas in a file to operators. All problems are reported with their places.

use std::collections::{BTreeMap, BTreeSet};

use rackproof_buffer::Halves;
use rackproof_drill::{Condition, IntentKind, SignKind};
use rackproof_files::{Kind, Place, Report, Value, nearest};

use crate::{
    Program,
    formula::{At, Operator},
    known::{Sort, known, moved_by_gaps},
    limits::{Limit, MEMORY_BITS_MOST, NESTING_MOST, OPERATORS_MOST, SET_OPERATORS_MOST},
};

mod definitions;
mod operators;
mod sets;
mod temporal;
mod widths;

#[cfg(test)]
pub(crate) use operators::names as operator_names;
use operators::{names, no_operator};

pub use definitions::Definitions;

/// What a formula gives.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Gives {
    Truth(At),
    Set(At),
}

/// Compiles formulas into one program.
pub(crate) struct Compiler<'c> {
    program: Program,
    /// For each operator: where it was first written.
    places: Vec<Place>,
    definitions: &'c Definitions,
    /// Names being compiled, to find a definition that uses itself.
    open: Vec<String>,
    /// Definitions that are compiled, so that each is compiled once however often it is named.
    done: BTreeMap<String, Gives>,
    /// Definitions that have a problem, which was reported.
    failed: BTreeSet<String>,
    /// How many formulas are open, one in the other.
    depth: usize,
    /// Limits that were passed: each is reported once.
    passed: Vec<Limit>,
}

/// The operator that a value stands for, and what it is applied to.
fn parts<'v>(value: &'v Value, report: Report<'_>) -> Option<(&'v str, &'v [Value])> {
    match &value.kind {
        Kind::Tagged(name, arguments) => Some((name, arguments)),
        Kind::Bool(true) => Some(("True", &[])),
        Kind::Bool(false) => Some(("False", &[])),
        Kind::Unreadable => None,
        // What was lost on the way was reported, and the rest says nothing.
        Kind::Record(record) if !record.whole => None,
        Kind::Record(record) => {
            let operator = record.name.as_deref().unwrap_or_default();
            no_operator(value, operator, report);
            None
        }
        _ => {
            report
                .add(value.place, "problem-no-formula", &[])
                .expected("expected-operator", &[("names", &names())]);
            None
        }
    }
}

impl<'c> Compiler<'c> {
    pub(crate) fn new(slots: u8, definitions: &'c Definitions) -> Compiler<'c> {
        let program = Program {
            slots,
            ..Program::default()
        };
        Compiler {
            program,
            places: Vec::new(),
            definitions,
            open: Vec::new(),
            done: BTreeMap::new(),
            failed: definitions.failed.clone(),
            depth: 0,
            passed: Vec::new(),
        }
    }

    /// For each operator so far: where it was first written, in the file of its rule or definition.
    pub(crate) fn places(&self) -> &[Place] {
        &self.places
    }

    pub(crate) fn finish(mut self) -> Program {
        self.program.number_sets();
        let known = known(&self.program, Sort::Quiet);
        let moved = moved_by_gaps(&self.program, &known);
        self.program.gaps_matter = moved.contains(&true);
        let mut operators = self.program.operators.iter().zip(moved);
        self.program.gaps_are_moments = operators.all(|(operator, moved)| {
            !moved || matches!(operator, Operator::Once(..) | Operator::Historically(..))
        });
        self.program
    }

    /// Makes sure that there is an operator with the number nought. Before all others.
    pub(crate) fn nothing(&mut self) {
        self.program.operators.push(Operator::Constant(false));
        self.places.push(Place::default());
    }

    /// Checks a formula of either kind, of which nothing is needed.
    pub(crate) fn check(&mut self, value: &Value, report: Report<'_>) {
        self.formula(value, report);
    }

    /// A formula that must give yes or no.
    pub(crate) fn truth(&mut self, value: &Value, report: Report<'_>) -> Option<At> {
        match self.formula(value, report)? {
            Gives::Truth(at) => Some(at),
            Gives::Set(_) => {
                report
                    .add(value.place, "problem-formula-kind", &[])
                    .expected("expected-truth", &[]);
                None
            }
        }
    }

    /// A formula that must give a set of half-slots. A yes or no stands for all or none.
    fn set(&mut self, value: &Value, report: Report<'_>) -> Option<At> {
        let gives = self.formula(value, report)?;
        self.spread(gives, value, report)
    }

    /// A yes or no stands for all half-slots or none.
    fn spread(&mut self, gives: Gives, value: &Value, report: Report<'_>) -> Option<At> {
        match gives {
            Gives::Set(at) => Some(at),
            Gives::Truth(at) => self.push(Operator::Spread(at), value, report),
        }
    }

    fn not(&mut self, gives: Gives, value: &Value, report: Report<'_>) -> Option<Gives> {
        Some(match gives {
            Gives::Truth(a) => Gives::Truth(self.push(Operator::Not(a), value, report)?),
            Gives::Set(a) => Gives::Set(self.push(Operator::SetNot(a), value, report)?),
        })
    }

    /// A definition by its name, which must give a set.
    pub(crate) fn named_set(
        &mut self,
        name: &str,
        value: &Value,
        report: Report<'_>,
    ) -> Option<At> {
        let gives = self.named(name, value, report)?;
        self.spread(gives, value, report)
    }

    fn formula(&mut self, value: &Value, report: Report<'_>) -> Option<Gives> {
        if self.depth == NESTING_MOST {
            self.limit(Limit::Nesting, value, report);
            return None;
        }
        self.depth += 1;
        let gives = if let Some(operator) = temporal::windowed(value) {
            self.with_window(operator, value, report)
        } else if let Some(operator) = widths::comparing(value) {
            self.comparison(operator, value, report)
        } else {
            self.plain(value, report)
        };
        self.depth -= 1;
        gives
    }

    fn plain(&mut self, value: &Value, report: Report<'_>) -> Option<Gives> {
        let (operator, arguments) = parts(value, report)?;
        match (operator, arguments) {
            ("Did", [a]) => self.atom(a, IntentKind::ALL, Operator::Did, report),
            ("Sign", [a]) => self.atom(a, SignKind::ALL, Operator::Sign, report),
            ("Is", [a]) => self.atom(a, Condition::ALL, Operator::Is, report),
            ("Named", [a]) => {
                let name = report.text(a)?.to_owned();
                self.named(&name, a, report)
            }
            ("True" | "False", []) => {
                let at = self.push(Operator::Constant(operator == "True"), value, report)?;
                Some(Gives::Truth(at))
            }
            (_, []) => self.set_atom(operator, value, report),
            ("Not", [a]) => {
                let a = self.formula(a, report)?;
                self.not(a, value, report)
            }
            ("And" | "Or", [list]) => self.many(operator == "And", list, report),
            ("Implies", [a, b]) => {
                let (a, b) = (self.truth(a, report), self.truth(b, report));
                let not = self.push(Operator::Not(a?), value, report)?;
                Some(Gives::Truth(self.push(
                    Operator::Or(not, b?),
                    value,
                    report,
                )?))
            }
            ("Since", [a, b]) => self.since(a, b, value, report),
            ("Previously" | "Once" | "Historically", [a]) => {
                self.over_time(operator, a, value, report)
            }
            (_, [a]) => self.of_set(operator, a, value, report),
            _ => {
                no_operator(value, operator, report);
                None
            }
        }
    }

    fn atom<T: Copy>(
        &mut self,
        value: &Value,
        names: &[(&'static str, T)],
        make: impl Fn(T) -> Operator,
        report: Report<'_>,
    ) -> Option<Gives> {
        let kind = report.choice(value, names)?;
        Some(Gives::Truth(self.push(make(kind), value, report)?))
    }

    fn many(&mut self, all: bool, list: &Value, report: Report<'_>) -> Option<Gives> {
        let before = report.problems().len();
        let parts: Vec<Gives> = report
            .list(list)?
            .into_iter()
            .filter_map(|part| self.formula(part, report))
            .collect();
        if report.problems().len() > before {
            return None;
        }
        let sets = parts.iter().any(|part| matches!(part, Gives::Set(_)));
        let mut joined: Option<At> = None;
        for part in parts {
            let part = match part {
                Gives::Truth(at) if sets => self.push(Operator::Spread(at), list, report)?,
                Gives::Truth(at) | Gives::Set(at) => at,
            };
            joined = Some(match (joined, sets, all) {
                (None, ..) => part,
                (Some(old), false, true) => self.push(Operator::And(old, part), list, report)?,
                (Some(old), false, false) => self.push(Operator::Or(old, part), list, report)?,
                (Some(old), true, true) => self.push(Operator::SetAnd(old, part), list, report)?,
                (Some(old), true, false) => self.push(Operator::SetOr(old, part), list, report)?,
            });
        }
        let at = match joined {
            Some(at) => at,
            None => self.push(Operator::Constant(all), list, report)?,
        };
        Some(if sets {
            Gives::Set(at)
        } else {
            Gives::Truth(at)
        })
    }

    fn named(&mut self, name: &str, value: &Value, report: Report<'_>) -> Option<Gives> {
        if self.open.iter().any(|open| open == name) {
            report.add(value.place, "problem-definition-circle", &[("name", &name)]);
            return None;
        }
        let definitions = self.definitions;
        let Some((_, formula)) = definitions.list.iter().find(|(known, _)| known == name) else {
            if definitions.others_lost {
                return None;
            }
            let names = definitions.list.iter().map(|(known, _)| known.as_str());
            report
                .add(
                    value.place,
                    "problem-unknown-definition",
                    &[("name", &name)],
                )
                .did_you_mean(nearest(name, names));
            return None;
        };
        if let Some(done) = self.done.get(name) {
            return Some(*done);
        }
        if self.failed.contains(name) {
            return None;
        }
        self.open.push(name.to_owned());
        let found = self.formula(formula, report);
        self.open.pop();
        match found {
            Some(gives) => {
                self.done.insert(name.to_owned(), gives);
            }
            None => {
                self.failed.insert(name.to_owned());
            }
        }
        found
    }

    fn limit(&mut self, limit: Limit, value: &Value, report: Report<'_>) {
        if !self.passed.contains(&limit) {
            self.passed.push(limit);
            limit.passed(value, report);
        }
    }

    /// Looks whether the memory still fits a key, after something was added to it.
    fn remembered(&mut self, value: &Value, report: Report<'_>) -> Option<()> {
        let fits = self.program.memory_bits() <= MEMORY_BITS_MOST;
        if !fits {
            self.limit(Limit::Memory, value, report);
        }
        fits.then_some(())
    }

    fn push(&mut self, operator: Operator, value: &Value, report: Report<'_>) -> Option<At> {
        let operators = &mut self.program.operators;
        if let Some(at) = operators.iter().position(|known| *known == operator) {
            return Some(at as At);
        }
        let sets = operators.iter().filter(|known| known.is_set()).count();
        let passed = if operators.len() == OPERATORS_MOST {
            Some(Limit::Operators)
        } else if operator.is_set() && sets == SET_OPERATORS_MOST {
            Some(Limit::SetOperators)
        } else {
            None
        };
        if let Some(limit) = passed {
            self.limit(limit, value, report);
            return None;
        }
        operators.push(operator);
        self.places.push(value.place);
        Some(operators.len() as At - 1)
    }
}

/// The lowest half-slot of a set.
pub(crate) fn lowest(set: Halves) -> Option<rackproof_buffer::HalfSlot> {
    set.iter().next()
}
