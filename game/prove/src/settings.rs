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
/// reads back as, have the same flags and the same classes of successors. What is checked does not
/// hang on who works at the search.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Congruence {
    /// Never.
    Off,
    /// One landing of n, from 1 up; 0 counts as 1. The search is the slower, the smaller this is.
    Every(u32),
    /// All landings from the first so many states, and then one of n: what a search of few states
    /// does is checked whole.
    Dense {
        /// What follows so many states is checked landing by landing.
        states: u64,
        /// Of the landings after them one of n, from 1 up; 0 counts as 1.
        every: u32,
    },
    /// Each landing.
    Always,
}

/// By so many landings the sample moves on from state to state: about as many as follow one.
const STEPS_OF_STATE: u64 = 17;

impl Congruence {
    /// Whether a landing is to be checked: the number of the state that the step began at, and the
    /// number of the step among those of this state, both counted from 0.
    pub(crate) fn is_due(self, state: u64, step: u64) -> bool {
        let sampled = |every: u32| {
            let number = state.wrapping_mul(STEPS_OF_STATE).wrapping_add(step);
            number.is_multiple_of(u64::from(every.max(1)))
        };
        match self {
            Congruence::Off => false,
            Congruence::Every(n) => sampled(n),
            Congruence::Dense { states, every } => state < states || sampled(every),
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
            (Congruence::Every(0), [true, true, true, true]),
            (Congruence::Every(2), [true, false, false, true]),
            (Congruence::Every(1_000), [true, false, false, false]),
            (
                Congruence::Dense {
                    states: 1,
                    every: 3,
                },
                [true, true, false, true],
            ),
            (
                Congruence::Dense {
                    states: 0,
                    every: 18,
                },
                [true, false, false, true],
            ),
        ];
        let landings = [(0, 0), (0, 1), (1, 0), (1, 1)];
        for (congruence, due) in cases {
            assert_eq!(
                landings.map(|(state, step)| congruence.is_due(state, step)),
                due,
                "{congruence:?}"
            );
        }
    }

    /// Counted: of states with 16 to 24 steps each.
    #[test]
    fn a_sample_is_about_as_large_as_asked() {
        let (mut landings, mut checked) = (0_u64, 0_u64);
        for state in 0..200_000 {
            for step in 0..16 + state % 9 {
                landings += 1;
                checked += u64::from(Congruence::Every(1_000).is_due(state, step));
            }
        }
        let aim = landings / 1_000;
        assert!(
            (aim * 9 / 10..=aim * 11 / 10).contains(&checked),
            "{checked} of {landings}"
        );
    }
}
