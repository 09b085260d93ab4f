//! Worlds so small that their states can be counted by hand.

pub(crate) mod clear_out;
pub(crate) mod corridor;
pub(crate) mod counter;
pub(crate) mod ferry;
pub(crate) mod fischer;
pub(crate) mod gate;
pub(crate) mod lamps;
pub(crate) mod mover;
pub(crate) mod secret;

use rackproof_model::{Micros, Model, key::Coder};

use crate::{Congruence, End, Exploration, Settings, Step, Witness, explore, replay};

/// A time left, in `bits` bits, of a timer that may not run.
pub(crate) fn code_timer(coder: &mut impl Coder, left: &mut Option<Micros>, bits: u32) {
    let mut runs = left.is_some();
    coder.flag(&mut runs);
    if runs {
        let mut micros = left.map_or(0, |left| left.0);
        coder.word(&mut micros, bits);
        *left = Some(Micros(micros));
    } else {
        *left = None;
    }
}

/// Explores all of a world whose keys are right.
pub(crate) fn all<'m, M: Model<State: Send, Cause: Send> + Sync>(
    world: &'m M,
    start: M::State,
    flags: impl Fn(&M::State) -> u64 + Sync,
) -> Exploration<'m, M> {
    let found = explore(world, &[start], &Settings::default(), flags);
    assert_eq!(found.incongruence.as_ref().map(|i| &i.difference), None);
    assert_eq!((found.end, found.checked), (End::Complete, found.steps + 1));
    found
}

/// States, steps, depth, dead ends.
pub(crate) fn counts<M: Model>(found: &Exploration<'_, M>) -> (usize, u64, usize, usize) {
    (found.states, found.steps, found.depth, found.dead_ends)
}

/// The state at the end of a witness, after a replay that must not fail.
pub(crate) fn end_of<M: Model>(
    world: &M,
    start: &M::State,
    witness: &Witness<M::Cause>,
) -> M::State {
    assert_eq!(witness.strayed, None);
    replay(world, start, &witness.steps, &mut |_| ()).expect("a witness can be replayed")
}

/// Without the check, for worlds whose keys are wrong.
pub(crate) fn unchecked() -> Settings {
    Settings {
        congruence: Congruence::Off,
        ..Settings::default()
    }
}

/// The person's part of a witness.
pub(crate) fn deeds<C: Copy>(witness: &Witness<C>) -> Vec<C> {
    let done = |step: &Step<C>| match *step {
        Step::Did(cause) => Some(cause),
        Step::Chose(_) | Step::Waited(_) => None,
    };
    witness.steps.iter().filter_map(done).collect()
}
