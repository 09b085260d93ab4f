//! A margin of one formula at one moment.

use rackproof_drill::Width;
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

/// What a margin rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Ground {
    /// A time, or a plain yes or no.
    Plain,
    /// A width that was read.
    Read(WidthRead),
    /// A width that could not be read.
    Unread(Width),
}

/// A margin. None is nought, and a formula is true just when its margin is greater.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Degree {
    pub(super) amount: i64,
    pub(super) ground: Ground,
}

impl Degree {
    pub(super) fn far(truth: bool) -> Degree {
        Degree {
            amount: if truth { FAR } else { -FAR },
            ground: Ground::Plain,
        }
    }

    /// A comparison of which a width could not be read: it does not hold.
    pub(super) fn unread(width: Width) -> Degree {
        Degree {
            ground: Ground::Unread(width),
            ..Degree::far(false)
        }
    }

    /// As it is carried on: why a width could not be read is known only while it is so.
    pub(super) fn carried(self) -> Degree {
        match self.ground {
            Ground::Unread(_) => Degree {
                ground: Ground::Plain,
                ..self
            },
            _ => self,
        }
    }

    /// Of two that are alike, the one that says more.
    fn or_equal(self, other: Degree) -> Degree {
        let says_more = self.ground == Ground::Plain && self.amount == other.amount;
        if says_more { other } else { self }
    }

    pub(super) fn less(self, other: Degree) -> Degree {
        if other.amount < self.amount {
            other
        } else {
            self.or_equal(other)
        }
    }

    pub(super) fn greater(self, other: Degree) -> Degree {
        if other.amount > self.amount {
            other
        } else {
            self.or_equal(other)
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
            ground: match self.ground {
                Ground::Read(read) => Ground::Read(turned(read)),
                other => other,
            },
        }
    }
}

impl Degree {
    /// By how much it holds, if it is not far.
    pub(super) fn spare(self) -> Option<Spare> {
        if self.amount.abs() >= FAR {
            return None;
        }
        Some(match self.ground {
            Ground::Read(read) => Spare::Width(read),
            _ => Spare::Time((self.amount.abs() + 2) / 4 * self.amount.signum()),
        })
    }

    /// By how much it is missed, or which width could not be read. `None`: it holds, or for a plain
    /// yes or no there is nothing to say.
    pub(super) fn missed(self) -> Option<Result<Spare, Width>> {
        match (self.amount < 0, self.spare(), self.ground) {
            (true, Some(spare), _) => Some(Ok(spare)),
            (true, None, Ground::Unread(width)) => Some(Err(width)),
            _ => None,
        }
    }
}

/// Since now, and what it carries on.
pub(super) fn since<const GAP: bool>(a: Degree, b: Degree, old: Degree) -> (Degree, Degree) {
    let now = b.greater(a.less(old));
    (now, if GAP { now.less(a) } else { now })
}
