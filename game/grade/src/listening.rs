//! Which observations a listener can pass by: those that tell its program nothing.

use rackproof_buffer::Halves;

use crate::{Observation, Program, formula::Asks};

/// Keeps what a listener knows, so that an observation which tells nothing new is not worked out.
///
/// The same twice changes no memory: an operator gives again what it gave, and keeps it. Programs
/// for which this is not so are told of all: those that count observations, and those to which a
/// gap does what no moment does. So are those that compare widths, which are not kept here.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Listening {
    asks: Asks,
    hears_all: bool,
    /// What was known at the last observation that was heard; `None` if something was done or came
    /// there, which is over at the next.
    known: Option<(u64, Halves)>,
}

impl Listening {
    /// For the listener of a program.
    pub(crate) fn to(program: &Program) -> Listening {
        let all = vec![true; program.operators.len()];
        Listening::to_part(program, &all)
    }

    /// The same for who needs these of its operators alone.
    pub(crate) fn to_part(program: &Program, needed: &[bool]) -> Listening {
        let asks = program.asks_of(needed);
        let compares = program.compares(needed);
        Listening {
            hears_all: asks.all() || !program.gaps_are_moments || compares,
            asks,
            known: None,
        }
    }

    /// Whether it hears an observation.
    pub(crate) fn hears(&mut self, seen: &Observation) -> bool {
        if self.hears_all {
            return true;
        }
        let lasting = (seen.known().0 & self.asks.conditions, seen.at_belts());
        let passing = self.asks.of_now(seen);
        let is_new = passing || self.known != Some(lasting);
        if is_new {
            self.known = (!passing).then_some(lasting);
        }
        is_new
    }
}
