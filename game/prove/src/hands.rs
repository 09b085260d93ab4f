//! Who works at a search. The search itself knows no thread: the caller lends it hands.

/// Hands that work side by side. What a search finds, and in which order, does not hang on them.
pub trait Hands {
    /// How many there are now; 0 counts as 1. Asked again before each piece of work.
    fn count(&self) -> usize;

    /// Calls `work` once with each of the parts, in any order and by any hand, and `meanwhile` once
    /// beside it. Comes back when all is done.
    fn each<P: Send>(
        &self,
        parts: &mut [P],
        work: impl Fn(&mut P) + Sync,
        meanwhile: impl FnOnce(),
    );
}

/// One hand: it does one thing after the other.
#[derive(Clone, Copy, Debug, Default)]
pub struct OneHand;

impl Hands for OneHand {
    fn count(&self) -> usize {
        1
    }

    fn each<P: Send>(
        &self,
        parts: &mut [P],
        work: impl Fn(&mut P) + Sync,
        meanwhile: impl FnOnce(),
    ) {
        meanwhile();
        parts.iter_mut().for_each(work);
    }
}

#[cfg(test)]
mod tests {
    use std::{cell::Cell, ops::ControlFlow};

    use super::*;
    use crate::{Congruence, End, Node, Settings, explore_by, toys::lamps::Lamps};

    /// Now so many hands, now fewer, and the last part comes first.
    struct Backwards(Cell<usize>);

    impl Hands for Backwards {
        fn count(&self) -> usize {
            self.0.set((self.0.get() + 5) % 7);
            self.0.get()
        }

        fn each<P: Send>(
            &self,
            parts: &mut [P],
            work: impl Fn(&mut P) + Sync,
            meanwhile: impl FnOnce(),
        ) {
            parts.iter_mut().rev().for_each(work);
            meanwhile();
        }
    }

    /// All that a search says of itself.
    type Said = (
        (End, usize, usize, u64, usize),
        (usize, Option<Node>, u64),
        Vec<(Node, Vec<u8>)>,
        Vec<usize>,
        Option<(usize, usize)>,
    );

    fn said(hands: &impl Hands, settings: &Settings, most: usize) -> Said {
        let world = Lamps { lamps: 12 };
        let watch = |progress: crate::Progress| {
            if progress.expanded < most {
                ControlFlow::Continue(())
            } else {
                ControlFlow::Break(())
            }
        };
        let flags = |state: &u64| u64::from(state.count_ones() == 9) | (state >> 3 & 1) << 1;
        let found = explore_by(hands, (&world, &[5, 4_000]), settings, flags, watch);
        let keys = found
            .nodes()
            .map(|node| (node, found.key(node).as_bytes().to_vec()));
        let corners = found.corners(1, 2);
        (
            (
                found.end,
                found.states,
                found.expanded,
                found.steps,
                found.depth,
            ),
            (found.dead_ends, found.first_dead_end, found.checked),
            keys.collect(),
            (0..2).map(|bit| found.count(bit)).collect(),
            corners.map(|corners| (corners.count, corners.won)),
        )
    }

    #[test]
    fn what_is_found_does_not_hang_on_the_hands() {
        let settings = Settings {
            congruence: Congruence::Every(40),
            steps_kept: true,
            ..Settings::default()
        };
        let cases = [
            (settings, usize::MAX, End::Complete),
            (
                Settings {
                    prune: 2,
                    ..settings
                },
                usize::MAX,
                End::Complete,
            ),
            (
                Settings {
                    until: 1,
                    ..settings
                },
                usize::MAX,
                End::AllSeen,
            ),
            (
                Settings {
                    states_most: 3_000,
                    ..settings
                },
                usize::MAX,
                End::BoundReached,
            ),
            (
                Settings {
                    watch_every: 7,
                    ..settings
                },
                2_000,
                End::Interrupted,
            ),
        ];
        for (settings, most, end) in cases {
            let one = said(&OneHand, &settings, most);
            assert_eq!(one.0.0, end);
            assert!(one.0.1 > 2_000 || end == End::AllSeen, "{:?}", one.0);
            for hands in 0..7 {
                let many = said(&Backwards(Cell::new(hands)), &settings, most);
                assert!(one == many, "{hands}: {:?} and {:?}", one.0, many.0);
            }
        }
    }
}
