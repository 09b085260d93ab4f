//! What all ways of least cost have, and what some have.

use crate::{Label, run::Given};

/// Something that a way may have.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Fact {
    /// A step with this label was done, at some event.
    Done(usize),
    /// A step with this label is missing.
    Missing(usize),
    /// An event with this label, and of some weight, is not needed.
    NotNeeded(usize),
    /// This event does a step.
    DoneAt(usize),
    /// This event is not needed.
    NotNeededAt(usize),
}

/// Sets of facts, each of `words` words: what every way has, then what some way has.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Facts {
    words: usize,
    bits: Vec<u64>,
}

impl Given<'_> {
    /// The number of a label. Every label of task and trace has one.
    pub(crate) fn number(&self, label: Label) -> usize {
        self.labels.binary_search(&label).unwrap_or_default()
    }

    fn bit(&self, fact: Fact) -> usize {
        let (labels, events) = (self.labels.len(), self.trace.len());
        match fact {
            Fact::Done(label) => label,
            Fact::Missing(label) => labels + label,
            Fact::NotNeeded(label) => 2 * labels + label,
            Fact::DoneAt(event) => 3 * labels + event,
            Fact::NotNeededAt(event) => 3 * labels + events + event,
        }
    }

    /// The facts of a way with nothing in it.
    pub(crate) fn nothing(&self) -> Facts {
        let bits = 3 * self.labels.len() + 2 * self.trace.len();
        let words = bits.div_ceil(64);
        Facts {
            words,
            bits: vec![0; 2 * words],
        }
    }
}

impl Facts {
    /// Whether every way has it.
    pub(crate) fn every(&self, given: &Given<'_>, fact: Fact) -> bool {
        let bit = given.bit(fact);
        self.bits[bit / 64] >> (bit % 64) & 1 == 1
    }

    /// Whether some way has it.
    pub(crate) fn some(&self, given: &Given<'_>, fact: Fact) -> bool {
        let bit = given.bit(fact);
        self.bits[self.words + bit / 64] >> (bit % 64) & 1 == 1
    }

    /// Every way has it from now on.
    pub(crate) fn add(&mut self, given: &Given<'_>, fact: Fact) {
        let bit = given.bit(fact);
        self.bits[bit / 64] |= 1 << (bit % 64);
        self.bits[self.words + bit / 64] |= 1 << (bit % 64);
    }

    /// The facts of these ways, each followed by one of `next`.
    pub(crate) fn follow(&mut self, next: &Facts) {
        for (bits, next) in self.bits.iter_mut().zip(&next.bits) {
            *bits |= next;
        }
    }

    /// The facts of these ways and of `others` beside them.
    pub(crate) fn join(&mut self, others: &Facts) {
        let (every, some) = self.bits.split_at_mut(self.words);
        let (other_every, other_some) = others.bits.split_at(self.words);
        for (bits, others) in every.iter_mut().zip(other_every) {
            *bits &= others;
        }
        for (bits, others) in some.iter_mut().zip(other_some) {
            *bits |= others;
        }
    }
}
