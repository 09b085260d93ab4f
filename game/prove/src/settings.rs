//! What the caller decides about a search.

/// What to search, and how far.
///
/// Flags are bits that the caller computes for each state; see [`explore`](crate::explore).
#[derive(Clone, Copy, Debug)]
pub struct Settings {
    /// A state with any of these flags is recorded, but nothing is tried from it. As it stands: 0.
    pub prune: u64,
    /// Whether the person acts. False leaves the environment alone. As it stands: true.
    pub persons: bool,
    /// The search stops as soon as each of these flags has been seen in some state. 0, as it
    /// stands, never stops it.
    pub until: u64,
    /// The most states that are recorded, from 1 up. As it stands: no bound but memory.
    pub states_most: usize,
    /// After how many expanded states the watch is called again, from 1 up; 0 counts as 1. As it
    /// stands: 65,536.
    pub watch_every: usize,
    /// Whether the steps between states are kept, for [`Exploration::corners`]: four bytes a step.
    /// As it stands: false.
    ///
    /// [`Exploration::corners`]: crate::Exploration::corners
    pub steps_kept: bool,
    /// How much of the congruence check is done. As it stands: all of it.
    pub congruence: Congruence,
}

impl Default for Settings {
    fn default() -> Settings {
        Settings {
            prune: 0,
            persons: true,
            until: 0,
            states_most: usize::MAX,
            watch_every: 1 << 16,
            steps_kept: false,
            congruence: Congruence::Always,
        }
    }
}

/// How often a landing is checked: that the state which a step reached, and the state that its key
/// reads back as, have the same flags and the same classes of successors.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Congruence {
    /// Never.
    Off,
    /// Each n-th landing, from 1 up; 0 counts as 1. The search is the slower, the smaller this is.
    Every(u32),
    /// The first so many landings, and then each n-th: what a search of few states does is checked
    /// whole.
    Dense {
        /// So many landings are checked one by one.
        all: u64,
        /// Of those after them each n-th, from 1 up; 0 counts as 1.
        every: u32,
    },
    /// Each landing.
    Always,
}

impl Congruence {
    /// Whether landing number `landing`, counted from 0, is to be checked.
    pub(crate) fn is_due(self, landing: u64) -> bool {
        match self {
            Congruence::Off => false,
            Congruence::Every(n) => landing.is_multiple_of(u64::from(n.max(1))),
            Congruence::Dense { all, every } => {
                landing < all || landing.is_multiple_of(u64::from(every.max(1)))
            }
            Congruence::Always => true,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_check_is_due_as_often_as_asked() {
        let cases = [
            (Congruence::Off, [false, false, false, false]),
            (Congruence::Always, [true, true, true, true]),
            (Congruence::Every(1), [true, true, true, true]),
            (Congruence::Every(2), [true, false, true, false]),
            (Congruence::Every(3), [true, false, false, true]),
            (Congruence::Every(0), [true, true, true, true]),
            (
                Congruence::Dense { all: 2, every: 3 },
                [true, true, false, true],
            ),
            (
                Congruence::Dense { all: 0, every: 2 },
                [true, false, true, false],
            ),
        ];
        for (congruence, due) in cases {
            assert_eq!(
                [0, 1, 2, 3].map(|n| congruence.is_due(n)),
                due,
                "{congruence:?}"
            );
        }
    }
}
