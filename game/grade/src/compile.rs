//! From formulas in a file to operators. All problems are reported with their places.

use rackproof_buffer::Halves;
use rackproof_drill::{Condition, IntentKind, SignKind};
use rackproof_files::{Kind, Report, Value, nearest};

use crate::{
    Program,
    formula::{At, BITS_MOST, OPERATORS_MOST, Operator, SET_OPERATORS_MOST, SETS_MOST, SetAtom},
};

/// Named formulas that other formulas may use.
#[derive(Clone, Debug, Default)]
pub struct Definitions {
    /// Name and formula, in the order of the files.
    pub(crate) list: Vec<(String, Value)>,
}

impl Definitions {
    /// Adds those of a field `define`. A name twice is a problem.
    pub(crate) fn add(&mut self, entries: Vec<(&str, &Value)>, report: Report<'_>) {
        for (name, value) in entries {
            if self.list.iter().any(|(known, _)| known == name) {
                report.add(value.place, "problem-name-twice", &[("name", &name)]);
            }
            self.list.push((name.to_owned(), value.clone()));
        }
    }
}

/// What a formula gives.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Gives {
    Truth(At),
    Set(At),
}

/// Compiles formulas into one program.
pub(crate) struct Compiler<'c> {
    program: Program,
    definitions: &'c Definitions,
    /// Names being compiled, to find a definition that uses itself.
    open: Vec<String>,
}

/// Operators of the language, for hints.
const OPERATORS: [&str; 21] = [
    "Did",
    "Sign",
    "Is",
    "Not",
    "And",
    "Or",
    "Implies",
    "Previously",
    "Once",
    "Historically",
    "Since",
    "Every",
    "Some",
    "AtBelts",
    "Named",
    "SeenEmpty",
    "SeenBoard",
    "Answered",
    "ReachedFor",
    "True",
    "False",
];

/// The operator that a value stands for, and what it is applied to.
fn parts<'v>(value: &'v Value, report: Report<'_>) -> Option<(&'v str, &'v [Value])> {
    match &value.kind {
        Kind::Tagged(name, arguments) => Some((name, arguments)),
        Kind::Bool(true) => Some(("True", &[])),
        Kind::Bool(false) => Some(("False", &[])),
        Kind::Unreadable => None,
        _ => {
            report
                .add(value.place, "problem-no-formula", &[])
                .expected("expected-operator", &[("names", &OPERATORS.join(", "))]);
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
            definitions,
            open: Vec::new(),
        }
    }

    pub(crate) fn finish(mut self) -> Program {
        self.program.number_sets();
        self.program
    }

    /// Checks a formula of either kind.
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
        match self.formula(value, report)? {
            Gives::Set(at) => Some(at),
            Gives::Truth(at) => self.push(Operator::Spread(at), value, report),
        }
    }

    /// A definition by its name, which must give a set.
    pub(crate) fn named_set(
        &mut self,
        name: &str,
        value: &Value,
        report: Report<'_>,
    ) -> Option<At> {
        match self.named(name, value, report)? {
            Gives::Set(at) => Some(at),
            Gives::Truth(at) => self.push(Operator::Spread(at), value, report),
        }
    }

    fn formula(&mut self, value: &Value, report: Report<'_>) -> Option<Gives> {
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
            ("SeenEmpty" | "SeenBoard" | "Answered" | "ReachedFor", []) => {
                let atom = match operator {
                    "SeenEmpty" => SetAtom::SeenEmpty,
                    "SeenBoard" => SetAtom::SeenBoard,
                    "Answered" => SetAtom::Answered,
                    _ => SetAtom::ReachedFor,
                };
                Some(Gives::Set(self.push(Operator::Set(atom), value, report)?))
            }
            ("Not", [a]) => match self.formula(a, report)? {
                Gives::Truth(a) => {
                    Some(Gives::Truth(self.push(Operator::Not(a), value, report)?))
                }
                Gives::Set(a) => Some(Gives::Set(self.push(Operator::SetNot(a), value, report)?)),
            },
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
            ("Every" | "Some" | "AtBelts", [a]) => {
                let a = self.set(a, report)?;
                let made = match operator {
                    "Every" => Operator::Every(a),
                    "Some" => Operator::Some(a),
                    _ => Operator::AtBelts(a),
                };
                Some(Gives::Truth(self.push(made, value, report)?))
            }
            _ => {
                report
                    .add(
                        value.place,
                        "problem-unknown-operator",
                        &[("operator", &operator)],
                    )
                    .expected("expected-operator", &[("names", &OPERATORS.join(", "))])
                    .did_you_mean(nearest(operator, OPERATORS));
                None
            }
        }
    }

    /// An operator that keeps one bit of what was.
    fn over_time(
        &mut self,
        operator: &str,
        a: &Value,
        value: &Value,
        report: Report<'_>,
    ) -> Option<Gives> {
        let a = self.truth(a, report)?;
        let found = self
            .program
            .operators
            .iter()
            .position(|known| match *known {
                Operator::Previously(b, _) => operator == "Previously" && a == b,
                Operator::Once(b, _) => operator == "Once" && a == b,
                Operator::Historically(b, _) => operator == "Historically" && a == b,
                _ => false,
            });
        if let Some(at) = found {
            return Some(Gives::Truth(at as At));
        }
        let bit = self.bit(value, report)?;
        let made = match operator {
            "Previously" => Operator::Previously(a, bit),
            "Once" => Operator::Once(a, bit),
            _ => Operator::Historically(a, bit),
        };
        Some(Gives::Truth(self.push(made, value, report)?))
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

    fn since(&mut self, a: &Value, b: &Value, whole: &Value, report: Report<'_>) -> Option<Gives> {
        let (first, second) = (self.formula(a, report), self.formula(b, report));
        if let (Gives::Truth(a), Gives::Truth(b)) = (first?, second?) {
            let found =
                self.program.operators.iter().position(
                    |known| matches!(*known, Operator::Since(c, d, _) if (c, d) == (a, b)),
                );
            if let Some(at) = found {
                return Some(Gives::Truth(at as At));
            }
            let bit = self.bit(whole, report)?;
            return Some(Gives::Truth(self.push(
                Operator::Since(a, b, bit),
                whole,
                report,
            )?));
        }
        let mut spread = |gives: Gives| match gives {
            Gives::Set(at) => Some(at),
            Gives::Truth(at) => self.push(Operator::Spread(at), whole, report),
        };
        let (a, b) = (spread(first?)?, spread(second?)?);
        let found =
            self.program.operators.iter().position(
                |known| matches!(*known, Operator::SetSince(c, d, _) if (c, d) == (a, b)),
            );
        if let Some(at) = found {
            return Some(Gives::Set(at as At));
        }
        if self.program.sets as usize == SETS_MOST {
            too_large(whole, report);
            return None;
        }
        self.program.sets += 1;
        let place = self.program.sets - 1;
        Some(Gives::Set(self.push(
            Operator::SetSince(a, b, place),
            whole,
            report,
        )?))
    }

    fn named(&mut self, name: &str, value: &Value, report: Report<'_>) -> Option<Gives> {
        if self.open.iter().any(|open| open == name) {
            report.add(value.place, "problem-definition-circle", &[("name", &name)]);
            return None;
        }
        let definitions = self.definitions;
        let Some((_, formula)) = definitions.list.iter().find(|(known, _)| known == name) else {
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
        self.open.push(name.to_owned());
        let found = self.formula(formula, report);
        self.open.pop();
        found
    }

    fn bit(&mut self, value: &Value, report: Report<'_>) -> Option<u8> {
        if self.program.bits as usize == BITS_MOST {
            too_large(value, report);
            return None;
        }
        self.program.bits += 1;
        Some(self.program.bits - 1)
    }

    fn push(&mut self, operator: Operator, value: &Value, report: Report<'_>) -> Option<At> {
        let operators = &mut self.program.operators;
        if let Some(at) = operators.iter().position(|known| *known == operator) {
            return Some(at as At);
        }
        let sets = operators.iter().filter(|known| known.is_set()).count();
        if operators.len() == OPERATORS_MOST || sets == SET_OPERATORS_MOST {
            too_large(value, report);
            return None;
        }
        operators.push(operator);
        Some(operators.len() as At - 1)
    }
}

fn too_large(value: &Value, report: Report<'_>) {
    report.add(
        value.place,
        "problem-formula-too-large",
        &[("most", &OPERATORS_MOST)],
    );
}

/// The lowest half-slot of a set.
pub(crate) fn lowest(set: Halves) -> Option<rackproof_buffer::HalfSlot> {
    set.iter().next()
}
