//! A program made ready for every sort of observation: for who reads some of its operators at each.

use rackproof_drill::IntentKind;
use rackproof_model::Micros;

use crate::{
    Observation, Program, Watch,
    changes::Changes,
    formula::{At, Values},
    known::Sort,
    plan::Plan,
};

/// A program with its plans. It gives what the program gives, for the operators that are read.
#[derive(Clone, Debug)]
pub(crate) struct Prepared {
    pub(crate) program: Program,
    /// Intents of which the program does not ask share one.
    before: Vec<Plan>,
    /// For each kind of intent, which of them.
    of_kind: Vec<usize>,
    after: Plan,
    quiet: Plan,
    /// The same for who listens only to what changed.
    pub(crate) changes: Changes,
}

/// The traps and milestones of a drill, compiled: the formulas of the traps in their order, then
/// those of the milestones.
#[derive(Clone, Debug)]
pub struct Marks {
    pub(crate) prepared: Prepared,
    pub(crate) roots: Vec<At>,
}

impl Program {
    /// For each operator: whether one of these rests on it, or is it.
    pub(crate) fn needed_for(&self, read: &[At]) -> Vec<bool> {
        let mut needed = vec![false; self.operators.len()];
        for &at in read {
            needed[at as usize] = true;
        }
        for (at, operator) in self.operators.iter().enumerate().rev() {
            if needed[at] {
                operator.arguments(self, &mut |argument| needed[argument as usize] = true);
            }
        }
        needed
    }
}

impl Prepared {
    /// A program of which these operators are read.
    pub(crate) fn new(program: Program, read: &[At]) -> Prepared {
        let keeps = vec![true; program.operators.len()];
        Prepared::keeping(program, read, &keeps)
    }

    /// A program of which these operators are read, and of whose memory only what they rest on is
    /// kept.
    pub(crate) fn part(program: Program, read: &[At]) -> Prepared {
        let needed = program.needed_for(read);
        Prepared::keeping(program, read, &needed)
    }

    /// `keeps` says for each operator whether its memory, if it has one, is kept.
    fn keeping(program: Program, read: &[At], keeps: &[bool]) -> Prepared {
        let plan = |sort| Plan::reading(&program, read, keeps, sort);
        let asks = program.asks();
        let (mut before, mut of_kind, mut shared) = (Vec::new(), Vec::new(), None);
        for &(_, kind) in IntentKind::ALL {
            let known = shared.filter(|_| !asks.before(kind));
            of_kind.push(known.unwrap_or(before.len()));
            if known.is_none() {
                if !asks.before(kind) {
                    shared = Some(before.len());
                }
                before.push(plan(Sort::Before(kind)));
            }
        }
        Prepared {
            before,
            of_kind,
            after: plan(Sort::After),
            quiet: plan(Sort::Quiet),
            changes: Changes::of(&program, keeps),
            program,
        }
    }

    /// Lets an observation pass.
    pub(crate) fn step(&self, watch: &mut Watch, seen: &Observation) -> Values<'_> {
        let plan = match seen.intent() {
            Some(kind) => &self.before[self.of_kind[kind as usize]],
            None if seen.is_quiet() => &self.quiet,
            None => &self.after,
        };
        plan.step::<false>(&self.program, watch, seen)
    }

    /// Lets `span` pass in which only `quiet` is to be seen. The values in the gap that begins it,
    /// if it is no empty span.
    pub(crate) fn pass_quietly(
        &self,
        watch: &mut Watch,
        span: Micros,
        quiet: &Observation,
    ) -> Option<Values<'_>> {
        let mut first = None;
        self.program.pass(watch, span, &mut |watch, now| {
            let values = self.quietly(watch, quiet, now);
            first.get_or_insert(values);
            values
        });
        first
    }

    /// The time until an operator with a window comes out otherwise while only `quiet` is to be
    /// seen.
    pub(crate) fn next_quiet_change(&self, watch: &Watch, quiet: &Observation) -> Option<Micros> {
        if !self.program.has_windows() {
            return None;
        }
        let evaluate = &mut |watch: &mut Watch, now| self.quietly(watch, quiet, now);
        self.program.next_change(*watch, evaluate, &mut |_| false)
    }

    /// The values at a half-moment in which only `quiet` is to be seen: a gap if it is odd.
    pub(crate) fn quietly(&self, watch: &mut Watch, quiet: &Observation, now: u64) -> Values<'_> {
        if now % 2 == 1 {
            self.quiet.step::<true>(&self.program, watch, quiet)
        } else {
            self.quiet.step::<false>(&self.program, watch, quiet)
        }
    }
}
