//! Comparisons of widths that can be read.
//!
//! `AtLeast(width: Counted, over: NextStored, mm: 0.4)` holds if the width by step count is at
//! least the stored width of the next product and 0.4 mm. Without `over` it is compared with the
//! figure alone. What cannot be read is neither at least nor at most anything.

use rackproof_drill::Width;
use rackproof_model::Micrometres;

use crate::{Observation, limits::LENGTH};

/// A plain comparison in whole micrometres.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Comparison {
    /// Whether the width must be at least the limit. Else at most.
    pub(crate) least: bool,
    /// What is read.
    pub(crate) width: Width,
    /// What the limit is counted from, if not from nought.
    pub(crate) over: Option<Width>,
    /// What is added to that.
    pub(crate) plus: Micrometres,
}

/// A width that was read, beside its limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct WidthRead {
    /// What was read, in µm.
    pub read: Micrometres,
    /// Its limit, in µm.
    pub limit: Micrometres,
    /// Whether it must be at least the limit. Else at most.
    pub least: bool,
}

impl WidthRead {
    /// By how much it is within its limit, in µm. Less than nought: it is beyond it.
    pub fn spare(self) -> Micrometres {
        if self.least {
            self.read - self.limit
        } else {
            self.limit - self.read
        }
    }
}

impl Comparison {
    /// What is read, beside its limit.
    ///
    /// # Errors
    ///
    /// The first of the two widths that cannot be read.
    pub(crate) fn reads(self, seen: &Observation) -> Result<WidthRead, Width> {
        let read = |width| seen.width(width).ok_or(width);
        let from = self.over.map_or(Ok(Micrometres(0)), read);
        Ok(WidthRead {
            read: read(self.width)?,
            limit: from? + self.plus,
            least: self.least,
        })
    }

    /// Whether it holds.
    pub(crate) fn holds(self, seen: &Observation) -> bool {
        self.reads(seen)
            .is_ok_and(|read| read.spare() >= Micrometres(0))
    }
}

/// Lengths of a machine file and the length of a formula add up without overflow.
const _: () = assert!(LENGTH.most < i32::MAX as i64 / 4 && LENGTH.least > i32::MIN as i64 / 4);
