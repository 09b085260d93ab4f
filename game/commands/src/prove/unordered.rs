//! Level 6: a search with the order of slots forgotten. It is an over-approximation: where it finds
//! nothing, there is nothing; what it finds is looked for on the machine as it is, and only a way
//! that was played there counts.

use rackproof_attempt::Exercise;
use rackproof_drill::Cause;
use rackproof_grade::{Judged, JudgedState, Rules};
use rackproof_prove::{Exploration, Hands, Progress, Settings, Witness, replay};

use super::{
    interrupt::explore_told,
    job::{
        BEYOND_BOUND, BREACH, CHECKED, HARMED_KEPT, HARMS, Kept, REPORTED, UNFAIR, exact_way,
        flags, joined,
    },
    level::Level,
    lines::{WayFrom, lines},
};

/// So many states has the exact search that is asked for a way at most.
const STATES_MOST_EXACT: usize = 3_000_000;

/// What a search is about: the variants whose starts it begins with, on a rack of so many slots.
struct Asked<'a> {
    exercise: &'a Exercise,
    variants: &'a [usize],
    slots: u8,
    rules: &'a Rules,
}

/// Explores all that can be done with the rules kept, from the starts of the variants of one group,
/// with the order of slots forgotten. Where that is switched off, the search is exact.
pub(super) fn explore_unordered(
    exercise: &Exercise,
    variants: &[usize],
    (slots, states_most): (u8, usize),
    rules: &Rules,
    by: (&impl Hands, &mut dyn FnMut(Progress)),
) -> Kept {
    let (pair, starts) = joined(exercise, variants, slots, rules);
    let judged = Level::Unordered.of(pair);
    let settings = Settings {
        prune: prune(&judged),
        states_most,
        congruence: CHECKED,
        ..Settings::default()
    };
    let flags_of = |state: &JudgedState| flags_in_any_order(&judged, state);
    let found = explore_told(by, (&judged, &starts), &settings, flags_of);
    let asked = Asked {
        exercise,
        variants,
        slots,
        rules,
    };
    // Nothing else is asked at this level.
    Kept {
        harm: asked.way(&found, HARMED_KEPT),
        unfair: asked.way(&found, UNFAIR),
        ..Kept::of(&found, &judged, variants)
    }
}

/// Where nothing more is tried.
pub(super) fn prune(judged: &Judged) -> u64 {
    let bound = u64::from(!judged.is_unordered()) << BEYOND_BOUND;
    HARMS | 1 << BREACH | 1 << REPORTED | bound
}

/// The flags of a state that do not depend on the order of its slots. How many slots below the one
/// that is asked about were left as not sure does, and needs no bound here.
pub(super) fn flags_in_any_order(judged: &Judged, state: &JudgedState) -> u64 {
    let bound = u64::from(judged.is_unordered()) << BEYOND_BOUND;
    flags(judged, state) & !bound
}

impl Asked<'_> {
    /// A way to a state with this flag: as it was found if it can be played on the machine as it
    /// is, else as the exact search finds one. An empty way says that neither gave one.
    fn way(&self, found: &Exploration<'_, Judged>, bit: u32) -> Option<WayFrom> {
        let witness = found.witness(bit)?;
        let played = self.played(&witness, bit);
        let exact = || {
            let bounds = (self.slots, STATES_MOST_EXACT);
            exact_way(self.exercise, self.variants, bounds, self.rules, bit)
        };
        let way = played.or_else(exact);
        Some(way.unwrap_or((self.variants[witness.start], Vec::new())))
    }

    /// The lines of a way, if the machine as it is comes by it to a state with this flag.
    fn played(&self, witness: &Witness<Cause>, bit: u32) -> Option<WayFrom> {
        let (pair, starts) = joined(self.exercise, self.variants, self.slots, self.rules);
        let pair = pair.prepared();
        let start = &starts[witness.start];
        let end = replay::<Judged>(&pair, start, &witness.steps, &mut |_| {}).ok()?;
        let comes = flags(&pair, &end) >> bit & 1 == 1;
        comes.then(|| (self.variants[witness.start], lines(&pair, witness)))
    }
}

#[cfg(test)]
#[path = "unordered_tests.rs"]
mod tests;
