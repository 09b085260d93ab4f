//! By how much time a rule with a window was kept or missed: the least over the attempt.
//!
//! Each formula has a margin as it has a truth. An operator with the window `[0, b]` has b less the
//! age of its newest witness, one with `[a, ∞)` the age of its oldest less a. Not turns the margin
//! round, And takes the less, Or the greater; what time alone cannot turn has none, for or against.
//! Under a window, and in sets, only the truth of a formula counts. This is the measure in time of
//! signal temporal logic (Donzé and Maler 2010, from memory), for past windows alone.
//!
//! It is taken where something is done or heard, where a window runs out, and right before. The
//! monitors of a proof have no need of it: only a grade keeps this memory.

use rackproof_model::Micros;

use crate::{
    Moment, Observation, Program, Rules, Watch,
    formula::{At, Operator, Values},
};

/// The least margin of one rule over an attempt.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Margin {
    /// The number of the rule.
    pub rule: usize,
    /// Time to spare, in µs. Less than nought: the rule was broken by so much.
    pub spare: i64,
    /// When it was least.
    pub moment: Moment,
}

/// The margin of what no time can turn. Finite margins lie far below it.
const FAR: i64 = i64::MAX / 4;

/// The margins of rules along an attempt.
///
/// Margins are kept in quarters of a microsecond: twice the half-moments, and one. So none is
/// nought, and a formula is true just when its margin is greater.
#[derive(Clone, Debug)]
pub(crate) struct Margins<'r> {
    program: &'r Program,
    roots: Vec<At>,
    watch: Watch,
    /// Half-moments since the start.
    now: u64,
    /// Whether the present is no observation, but time that passes.
    quiet: bool,
    /// For each operator: its margin now.
    margins: Vec<i64>,
    /// For each operator without a window that remembers: the margin that it carries on.
    carried: Vec<i64>,
    /// For each clock: when its witness was.
    witnesses: Vec<Option<u64>>,
    /// For each rule: its least margin so far, and when.
    least: Vec<Option<(i64, Moment)>>,
}

impl<'r> Margins<'r> {
    pub(crate) fn new(rules: &'r Rules) -> Margins<'r> {
        let roots = rules.list.iter().map(|rule| rule.root);
        Margins::over(&rules.program, roots.collect())
    }

    /// The margins of formulas of a program.
    pub(crate) fn over(program: &'r Program, roots: Vec<At>) -> Margins<'r> {
        let begins = |operator: &Operator| match operator {
            Operator::Historically(..) => FAR,
            _ => -FAR,
        };
        Margins {
            program,
            watch: Watch::default(),
            now: 0,
            quiet: false,
            margins: vec![0; program.operators.len()],
            carried: program.operators.iter().map(begins).collect(),
            witnesses: vec![None; program.clocks.len()],
            least: vec![None; roots.len()],
            roots,
        }
    }

    /// Lets an observation pass. Without a window anywhere there is nothing to do.
    pub(crate) fn observe(&mut self, seen: &Observation, moment: Moment) {
        if !self.program.clocks.is_empty() {
            let values = self.program.step(&mut self.watch, seen);
            self.quiet = seen.is_quiet();
            self.take::<false>(&values, moment);
        }
    }

    /// Lets a span pass in which only `quiet` is to be seen. `moment` is its end.
    pub(crate) fn pass(&mut self, quiet: &Observation, span: Micros, moment: Moment) {
        let program = self.program;
        if program.clocks.is_empty() || span == Micros(0) {
            return;
        }
        let (begin, last) = (self.now, 2 * u64::from(span.0) - 1);
        let mut watch = self.watch;
        let mut before = None;
        self.quiet = true;
        program.pass(&mut watch, span, &mut |watch, now| {
            // What held until now, at its end.
            if let Some(values) = &before {
                self.take_at(begin, now - 1, values, moment);
            }
            let values = program.at_half_moment(watch, quiet, now);
            self.take_at(begin, now, &values, moment);
            before = Some(values);
            values
        });
        if let Some(values) = &before {
            self.take_at(begin, last, values, moment);
        }
        self.watch = watch;
        self.now = begin + last + 1;
    }

    fn take_at(&mut self, begin: u64, now: u64, values: &Values<'_>, moment: Moment) {
        self.now = begin + now;
        if now % 2 == 1 {
            self.take::<true>(values, moment);
        } else {
            self.take::<false>(values, moment);
        }
    }

    /// The least margin of each rule that has one.
    pub(crate) fn finish(self) -> Vec<Margin> {
        let least = self.least.into_iter().enumerate();
        let margins = least.filter_map(|(rule, least)| {
            let (quarters, moment) = least?;
            let whole = (quarters.abs() + 2) / 4;
            Some(Margin {
                rule,
                spare: whole * quarters.signum(),
                moment,
            })
        });
        margins.collect()
    }

    /// Whether a formula is true by its margin, for a test.
    #[cfg(test)]
    pub(crate) fn is_true(&self, at: At) -> bool {
        self.margins[at as usize] > 0
    }

    fn take<const GAP: bool>(&mut self, values: &Values<'_>, moment: Moment) {
        for (at, &operator) in self.program.operators.iter().enumerate() {
            self.margins[at] = self.of::<GAP>(at, operator, values);
        }
        for (root, least) in self.roots.iter().zip(&mut self.least) {
            let margin = self.margins[*root as usize];
            let finite = margin.abs() < FAR;
            if finite && least.is_none_or(|(known, _)| margin < known) {
                *least = Some((margin, moment));
            }
        }
    }

    fn of<const GAP: bool>(&mut self, at: usize, operator: Operator, values: &Values<'_>) -> i64 {
        let margin = |at: At| self.margins[at as usize];
        let old = self.carried[at];
        let (now, carried) = match operator {
            Operator::Not(a) => return -margin(a),
            Operator::And(a, b) => return margin(a).min(margin(b)),
            Operator::Or(a, b) => return margin(a).max(margin(b)),
            Operator::Within(_, _, place) | Operator::Ago(_, _, place) => {
                return self.of_clock::<GAP>(place, values);
            }
            Operator::Previously(a, _) => (old, if self.quiet { old } else { margin(a) }),
            Operator::Once(a, _) => (old.max(margin(a)), old.max(margin(a))),
            Operator::Historically(a, _) => (old.min(margin(a)), old.min(margin(a))),
            Operator::Since(a, b, _) => {
                let now = margin(b).max(margin(a).min(old));
                (now, if GAP { now.min(margin(a)) } else { now })
            }
            _ if operator.is_set() => return 0,
            _ => return if values.truth(at as At) { FAR } else { -FAR },
        };
        self.carried[at] = carried;
        now
    }

    fn of_clock<const GAP: bool>(&mut self, place: u8, values: &Values<'_>) -> i64 {
        let kind = self.program.clocks[place as usize];
        let (holds, comes) = (values.truth(kind.holds), values.truth(kind.comes));
        let witness = &mut self.witnesses[place as usize];
        let goes_on = witness.filter(|_| holds);
        let found = if kind.within {
            comes.then_some(self.now).or(goes_on)
        } else {
            goes_on.or(comes.then_some(self.now))
        };
        *witness = found.filter(|_| holds || !GAP);
        let Some(then) = found else {
            return -FAR;
        };
        let age = (self.now - then) as i64;
        let window = i64::from(kind.most - 1);
        let spare = if kind.within {
            window - age
        } else {
            age - window
        };
        2 * spare + 1
    }
}
