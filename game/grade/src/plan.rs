//! A program made ready for one sort of observation: what is known beforehand (which intent, no
//! sign yet, or no intent) is worked out once, and what nothing needs any more is left out.

use crate::{
    Observation, Program, Watch,
    circuit::{Circuit, Moment},
    formula::{At, Operator, Truths, Values},
    known::{Known, Sort, known, moved_by_gaps},
};

/// The operators that are left for a sort of observation, and the roots that can be false.
#[derive(Clone, Debug)]
pub(crate) struct Plan {
    /// What is known to be true beforehand.
    truths: Truths,
    /// Each with whether it gives a set.
    operators: Vec<(At, bool, Operator)>,
    /// Number of the rule, and its operator.
    roots: Vec<(u8, At)>,
    /// The same laid out for speed, where that fits.
    circuit: Option<Circuit>,
    /// And for gaps, if it is for time that passes.
    gap: Option<Circuit>,
    /// Whether it compares widths, so that an observation has to bring them.
    pub(crate) reads_widths: bool,
}

impl Plan {
    /// The plan of a program whose rules have these roots.
    pub(crate) fn new(program: &Program, roots: &[At], sort: Sort) -> Plan {
        let known = known(program, sort);
        let moved = moved_by_gaps(program, &known);
        let is_true = |at: At| known[at as usize] == Known::Truth(true);
        let open = (0..).zip(roots.iter().copied());
        let open: Vec<(u8, At)> = open.filter(|&(_, at)| !is_true(at)).collect();
        let keeps = |at: usize| match sort {
            Sort::Quiet => moved[at],
            _ => program.operators[at].remembers(),
        };
        let read = open.iter().map(|(_, at)| *at);
        let plan = Plan::of(program, &known, read, &keeps);
        let laid_out = |moment| Circuit::of(program, moment, (&plan.operators, &known), &open);
        let (circuit, gap) = match sort {
            Sort::Quiet => (laid_out(Moment::Quiet), laid_out(Moment::Gap)),
            Sort::Before(_) | Sort::After => (laid_out(Moment::Observed), None),
        };
        Plan {
            roots: open,
            circuit,
            gap,
            ..plan
        }
    }

    /// The plan of a program of which these operators are read, whatever they give. `keeps` says
    /// for each operator whether its memory is kept, if it has one.
    pub(crate) fn reading(program: &Program, read: &[At], keeps: &[bool], sort: Sort) -> Plan {
        let keeps = |at: usize| keeps[at] && program.operators[at].remembers();
        Plan::of(program, &known(program, sort), read.iter().copied(), &keeps)
    }

    fn of(
        program: &Program,
        known: &[Known],
        read: impl Iterator<Item = At>,
        keeps: &dyn Fn(usize) -> bool,
    ) -> Plan {
        let mut needed = vec![false; program.operators.len()];
        for at in read {
            needed[at as usize] = true;
        }
        for (at, operator) in program.operators.iter().enumerate().rev() {
            needed[at] |= keeps(at);
            if needed[at] && known[at].is_open() {
                operator.arguments(program, &mut |argument| needed[argument as usize] = true);
            }
        }
        let mut truths = Truths::default();
        for (at, known) in known.iter().enumerate() {
            truths[at / 64] |= u64::from(*known == Known::Truth(true)) << (at % 64);
        }
        let operators = program.operators.iter().enumerate();
        let operators: Vec<(At, bool, Operator)> = operators
            .filter(|&(at, _)| needed[at] && known[at].is_open())
            .map(|(at, &operator)| (at as At, operator.is_set(), operator))
            .collect();
        let compares = |(_, _, operator): &_| matches!(operator, Operator::Compares(_));
        Plan {
            truths,
            reads_widths: operators.iter().any(compares),
            operators,
            roots: Vec::new(),
            circuit: None,
            gap: None,
        }
    }

    /// Whether an observation of this sort can neither change the memory nor break a rule.
    pub(crate) fn is_idle(&self) -> bool {
        self.operators.is_empty() && self.roots.is_empty()
    }

    /// The mask of rules that an observation of this sort can break.
    pub(crate) fn breakable(&self) -> u64 {
        self.roots
            .iter()
            .fold(0, |mask, &(rule, _)| mask | 1 << rule)
    }

    /// Lets an observation of this sort pass: the values, of which [`Plan::false_roots`] are rules
    /// that do not hold.
    #[inline]
    pub(crate) fn step<'p, const GAP: bool>(
        &self,
        program: &'p Program,
        watch: &mut Watch,
        seen: &Observation,
    ) -> Values<'p> {
        let mut values = Values::new(program, &self.truths);
        for &(at, is_set, operator) in &self.operators {
            program.evaluate::<GAP>((at, is_set), operator, &mut values, watch, seen);
        }
        values
    }

    /// Lets an observation of this sort pass: the mask of rules that do not hold.
    #[inline]
    pub(crate) fn failures(&self, program: &Program, watch: &mut Watch, seen: &Observation) -> u64 {
        match &self.circuit {
            Some(circuit) => circuit.step(program, watch, seen).fails,
            None => {
                let values = self.step::<false>(program, watch, seen);
                self.false_roots(&values)
            }
        }
    }

    /// The circuits of a moment and of a gap, if it is for time that passes and they fit.
    pub(crate) fn quiet_circuits(&self) -> Option<[&Circuit; 2]> {
        Some([self.circuit.as_ref()?, self.gap.as_ref()?])
    }

    /// Whether it is laid out for speed.
    #[cfg(test)]
    pub(crate) fn is_laid_out(&self) -> bool {
        self.circuit.is_some()
    }

    /// The mask of rules that do not hold, by the values of an observation.
    #[inline]
    pub(crate) fn false_roots(&self, values: &Values<'_>) -> u64 {
        let is_false = |&&(_, at): &&(u8, At)| !values.truth(at);
        let roots = self.roots.iter().filter(is_false);
        roots.fold(0, |mask, &(rule, _)| mask | 1 << rule)
    }
}

impl Operator {
    /// Whether it keeps something in memory, so that no observation may pass it by.
    pub(crate) fn remembers(self) -> bool {
        matches!(
            self,
            Operator::Previously(..)
                | Operator::Once(..)
                | Operator::Historically(..)
                | Operator::Since(..)
                | Operator::Within(..)
                | Operator::Ago(..)
                | Operator::SetSince(..)
                | Operator::InSetWindow(_)
        )
    }

    pub(crate) fn arguments(self, program: &Program, found: &mut impl FnMut(At)) {
        match self {
            Operator::Did(_)
            | Operator::Sign(_)
            | Operator::Is(_)
            | Operator::Compares(_)
            | Operator::Constant(_)
            | Operator::Side(_)
            | Operator::Set(_) => {}
            Operator::Not(a)
            | Operator::Previously(a, _)
            | Operator::Once(a, _)
            | Operator::Historically(a, _)
            | Operator::Spread(a)
            | Operator::Wider(_, a)
            | Operator::SetNot(a)
            | Operator::Every(a)
            | Operator::Some(a)
            | Operator::AtBelts(a) => found(a),
            Operator::And(a, b)
            | Operator::Or(a, b)
            | Operator::Since(a, b, _)
            | Operator::Within(a, b, _)
            | Operator::Ago(a, b, _)
            | Operator::SetAnd(a, b)
            | Operator::SetOr(a, b)
            | Operator::SetSince(a, b, _) => {
                found(a);
                found(b);
            }
            Operator::InSetWindow(place) => {
                let clock = program.set_clocks[place as usize].clock;
                found(clock.holds);
                found(clock.comes);
            }
        }
    }
}
