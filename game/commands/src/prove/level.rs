//! How much a search merges.

use rackproof_grade::Judged;

#[cfg(test)]
use super::job::STATES_MOST;

/// How much a search with the rules kept merges.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Level {
    /// Levels 1 to 4: exact, and its ways are played as they are.
    #[default]
    Exact,
    /// Level 5: runs of alike slots are squeezed as well.
    Squeezed,
    /// Level 6: the order of slots is forgotten. An over-approximation: it shows that the rules
    /// suffice and that the drill is fair, and nothing else.
    Unordered,
}

/// How much a search merges, and how far it goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Effort {
    /// How much it merges.
    pub(crate) level: Level,
    /// Of each search: the most states.
    pub(crate) states_most: usize,
}

impl Level {
    /// A search of this level that goes as far as any.
    #[cfg(test)]
    pub(crate) fn in_full(self) -> Effort {
        Effort {
            level: self,
            states_most: STATES_MOST,
        }
    }

    /// The level with this number.
    pub(crate) fn numbered(number: u8) -> Option<Level> {
        match number {
            4 => Some(Level::Exact),
            5 => Some(Level::Squeezed),
            6 => Some(Level::Unordered),
            _ => None,
        }
    }

    /// Its number.
    pub(crate) fn number(self) -> u8 {
        match self {
            Level::Exact => 4,
            Level::Squeezed => 5,
            Level::Unordered => 6,
        }
    }

    /// The pair as a search of this level explores it.
    pub(crate) fn of(self, judged: Judged) -> Judged {
        match self {
            Level::Exact => judged.prepared(),
            Level::Squeezed => judged.squeezed(),
            Level::Unordered => judged.unordered(),
        }
    }
}
