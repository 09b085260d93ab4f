//! What the loaded drill asks of a state.

use rackproof_drill::{Condition, FinishItem, World};

use crate::Rules;

/// What the loaded drill asks of a state, computed from its rules and its finish. What nobody asks
/// is left out of keys.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reads {
    conditions: u64,
    pub(crate) straps: bool,
    pub(crate) log: bool,
}

impl Reads {
    /// What `rules` and the finish of the world's drill ask.
    pub fn of(world: &World, rules: &Rules) -> Reads {
        let (_, conditions) = rules.reads();
        let reads = |condition: Condition| conditions >> condition as u8 & 1 == 1;
        Reads {
            conditions,
            // Where the site looks at charge, what a hand does to a board hangs on them.
            straps: reads(Condition::StrapsTested) || world.charges(),
            log: reads(Condition::LogWritten)
                || world.drill().finish.contains(&FinishItem::LogWritten),
        }
    }

    /// How many conditions the rules read.
    pub fn conditions(&self) -> u32 {
        self.conditions.count_ones()
    }
}
