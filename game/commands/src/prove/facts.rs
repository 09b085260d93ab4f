//! By what factor each fact of a state makes the states more: all states of a search, counted once
//! as they are and once with the fact made the same in all of them.

use std::collections::BTreeSet;

use rackproof_attempt::Exercise;
use rackproof_buffer::StateFact;
use rackproof_grade::{Judged, JudgedState};
use rackproof_model::{Model, key::KeyWriter};
use rackproof_prove::{Congruence, Settings};

use super::{
    interrupt::explore,
    job::{BREACH, HARMS, REPORTED, flags, judged},
};

/// So many states are counted at most: each key is kept once more for each fact.
const STATES_MOST: usize = 2_000_000;

/// How many states there are, and how many without each fact in the order of [`StateFact::ALL`].
pub(crate) type Counts = (usize, Vec<usize>);

/// Different keys of the states, as they are, and without each fact in the order of
/// [`StateFact::ALL`]. `None` if there are too many states to count.
pub(super) fn counts(exercise: &Exercise, variant: usize, slots: u8) -> Option<Counts> {
    let judged = judged(exercise, variant, slots, &exercise.rules.for_proof()).prepared();
    let settings = Settings {
        prune: HARMS | 1 << BREACH | 1 << REPORTED,
        states_most: STATES_MOST,
        congruence: Congruence::Off,
        ..Settings::default()
    };
    let flags = |state: &JudgedState| flags(&judged, state);
    let found = explore(&judged, &[judged.start()], &settings, flags);
    if found.end != rackproof_prove::End::Complete {
        return None;
    }
    let count = |fact: Option<StateFact>| {
        let states = found.states().map(|(_, state)| state);
        let keys: BTreeSet<Box<[u8]>> = states.map(|state| key(&judged, &state, fact)).collect();
        keys.len()
    };
    let without = StateFact::ALL.map(|(_, fact)| count(Some(fact)));
    Some((count(None), without.into()))
}

fn key(judged: &Judged, state: &JudgedState, without: Option<StateFact>) -> Box<[u8]> {
    let mut state = *state;
    if let Some(fact) = without {
        let machine = judged.world().machine();
        state.world.machine = machine.without_fact(&state.world.machine, fact);
    }
    let mut writer = KeyWriter::new();
    judged.write_key(&state, &mut writer);
    writer.finish().into()
}
