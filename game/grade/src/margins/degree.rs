//! A margin of one formula at one moment.

use rackproof_model::Micrometres;

use super::Spare;
use crate::WidthRead;

/// The margin of what the measure cannot turn. Finite margins lie far below it.
pub(super) const FAR: i64 = i64::MAX / 4;

/// What margins are taken in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Measure {
    /// In quarters of a microsecond: twice the half-moments, and one.
    Time,
    /// In halves of a micrometre: twice the micrometres, and one.
    Width,
}

/// A margin. None is nought, and a formula is true just when its margin is greater.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Degree {
    pub(super) amount: i64,
    /// The width that decides it.
    pub(super) read: Option<WidthRead>,
}

impl Degree {
    pub(super) fn far(truth: bool) -> Degree {
        Degree {
            amount: if truth { FAR } else { -FAR },
            read: None,
        }
    }

    pub(super) fn less(self, other: Degree) -> Degree {
        if other.amount < self.amount {
            other
        } else {
            self
        }
    }

    pub(super) fn greater(self, other: Degree) -> Degree {
        if other.amount > self.amount {
            other
        } else {
            self
        }
    }

    /// That it is not so. What is not at least a limit is at most a micrometre less.
    pub(super) fn turned(self) -> Degree {
        let turned = |read: WidthRead| WidthRead {
            limit: read.limit - Micrometres(if read.least { 1 } else { -1 }),
            least: !read.least,
            ..read
        };
        Degree {
            amount: -self.amount,
            read: self.read.map(turned),
        }
    }
}

impl Degree {
    /// By how much it holds, if it is not far.
    pub(super) fn spare(self) -> Option<Spare> {
        if self.amount.abs() >= FAR {
            return None;
        }
        Some(match self.read {
            Some(read) => Spare::Width(read),
            None => Spare::Time((self.amount.abs() + 2) / 4 * self.amount.signum()),
        })
    }
}

/// Since now, and what it carries on.
pub(super) fn since<const GAP: bool>(a: Degree, b: Degree, old: Degree) -> (Degree, Degree) {
    let now = b.greater(a.less(old));
    (now, if GAP { now.less(a) } else { now })
}
