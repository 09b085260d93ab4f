//! Which formulas have a margin, and where it is kept.

use rackproof_buffer::{Half, HalfSlot};

use super::degree::Measure;
use crate::{
    Program,
    formula::{At, Operator},
};

/// Which operators have a margin in a measure, and where it is kept.
#[derive(Clone, Debug)]
pub(crate) struct Layout {
    /// The operators that have one, in their order, each with its first lane: one for a yes or no,
    /// one for each half-slot for a set.
    pub(super) moved: Vec<(At, usize)>,
    /// For each operator: its first lane, if it has one.
    pub(super) lanes: Vec<Option<usize>>,
    /// How many lanes there are.
    pub(super) count: usize,
    /// The operators whose truth is read.
    pub(super) read: Vec<At>,
}

impl Layout {
    /// `None` if nothing in the program has this measure.
    pub(super) fn of(program: &Program, measure: Measure) -> Option<Layout> {
        let (mut lanes, mut moved, mut count) = (Vec::new(), Vec::new(), 0);
        let mut read = Vec::new();
        for (at, &operator) in program.operators.iter().enumerate() {
            let at = at as At;
            let mut has = match operator {
                // What stands under a window has no margin of its own there.
                Operator::Within(..) | Operator::Ago(..) | Operator::InSetWindow(_) => {
                    measure == Measure::Time
                }
                Operator::Compares(_) => measure == Measure::Width,
                _ => false,
            };
            if !has && !has_window(operator) {
                operator.arguments(program, &mut |a| has |= has_lane(&lanes, a));
            }
            lanes.push(has.then_some(count));
            if has {
                operator.arguments(program, &mut |a| read.push(a));
                moved.push((at, count));
                count += program.width_of(operator);
            }
        }
        (count > 0).then_some(Layout {
            moved,
            lanes,
            count,
            read,
        })
    }

    pub(super) fn has(&self, at: At) -> bool {
        has_lane(&self.lanes, at)
    }
}

fn has_lane(lanes: &[Option<usize>], at: At) -> bool {
    lanes[at as usize].is_some()
}

fn has_window(operator: Operator) -> bool {
    matches!(
        operator,
        Operator::Within(..) | Operator::Ago(..) | Operator::InSetWindow(_)
    )
}

impl Program {
    /// How many margins an operator has.
    fn width_of(&self, operator: Operator) -> usize {
        if operator.is_set() {
            2 * usize::from(self.slots)
        } else {
            1
        }
    }

    pub(super) fn lane(&self, at: HalfSlot) -> usize {
        usize::from(at.slot)
            + match at.half {
                Half::Infeed => 0,
                Half::Outfeed => usize::from(self.slots),
            }
    }
}
