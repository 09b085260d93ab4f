//! The shortest safe way on from a moment of an attempt, with the truth known: the explorer,
//! breadth first from that very state, with the neighbours quiet.

mod play;

use std::ops::ControlFlow;

use rackproof_attempt::{Attempt, Exercise, Shortest, WhatIf, is_safe};
use rackproof_drill::{Cause, Intent};
use rackproof_grade::{Grade, Judged, JudgedOutcome, JudgedState};
use rackproof_model::{
    Instants, Micros, Model, Stride,
    key::{Key, KeyWriter},
};
use rackproof_prove::{Congruence, End, OneHand, Settings, explore_by};

use play::{Item, items_of, play, put_back, shorter};

/// Most states of one search: some 250 MB.
pub(crate) const STATES_MOST: usize = 2_000_000;

/// After so many states the watch is asked whether to go on.
const WATCH_EVERY: usize = 1 << 14;

/// Reported with all of the finish, no rule broken since and no more harm done.
const SAFE: u64 = 1;
/// Nothing that follows counts.
const OVER: u64 = 1 << 1;

/// Searches from a moment of an attempt, in µs since the start, right after its first `same`
/// doings. `grade` is the grade of the attempt; `watch` hears now and then how many states there
/// are.
pub(crate) fn shortest(
    (attempt, exercise, grade): (&Attempt, &Exercise, &Grade),
    moment: (u64, usize),
    watch: &mut dyn FnMut(usize) -> ControlFlow<()>,
) -> Shortest {
    within(STATES_MOST, (attempt, exercise, grade), moment, watch)
}

/// The same within a bound of states.
fn within(
    states_most: usize,
    (attempt, exercise, grade): (&Attempt, &Exercise, &Grade),
    (from, same): (u64, usize),
    watch: &mut dyn FnMut(usize) -> ControlFlow<()>,
) -> Shortest {
    let Some(there) = at_moment(attempt, from, same) else {
        return Shortest::Strayed(0);
    };
    if there.is_over() {
        return Shortest::None(0);
    }
    // What the explorer does right before an act, and undoes after it, is put back first.
    let mut back = there.clone();
    let put = put_back(&mut back);
    let quiet = Quiet(back.judged().clone().prepared());
    // What was broken before is not asked again.
    let start = JudgedState {
        broken: 0,
        ..*back.state()
    };
    let settings = Settings {
        prune: SAFE | OVER,
        until: SAFE,
        states_most,
        watch_every: WATCH_EVERY,
        congruence: Congruence::Off,
        ..Settings::default()
    };
    let flags = |state: &JudgedState| quiet.flags(&start, state);
    let watch = |progress: rackproof_prove::Progress| watch(progress.states);
    let found = explore_by(&OneHand, (&quiet, &[start]), &settings, flags, watch);
    let states = found.states;
    let Some(witness) = found.witness(SAFE.trailing_zeros()) else {
        return match found.end {
            End::Complete => Shortest::None(states),
            End::Interrupted => Shortest::BrokenOff(states),
            _ => Shortest::Bound(states),
        };
    };
    let mut items: Vec<Item> = put;
    items.extend(items_of(&witness));
    let before = there.heard().len();
    let safe = |items: &[Item]| play(&there, items).filter(|end| is_safe(end, before));
    match shorter(items, &safe) {
        Some(other) => {
            let other = WhatIf::of_other((from, same), other, exercise, grade);
            Shortest::Found(Box::new(other), states)
        }
        None => Shortest::Strayed(states),
    }
}

/// The attempt as it stood at a moment, after its first `same` doings.
fn at_moment(attempt: &Attempt, from: u64, same: usize) -> Option<Attempt> {
    let mut there = Attempt::new(attempt.judged().clone());
    for done in attempt.done().get(..same)? {
        there.wait(done.at - there.at());
        there.do_at_once(done.cause).ok()?;
    }
    there.wait(from.checked_sub(there.at())?);
    Some(there)
}

/// The pair of world and rules with neighbours that choose nothing.
struct Quiet(Judged);

impl Quiet {
    fn flags(&self, start: &JudgedState, state: &JudgedState) -> u64 {
        let (world, kept) = (&state.world, self.0.kept(state));
        let harmed = world.harms() != start.world.harms();
        let safe = kept && !harmed && self.0.world().finished(world);
        let over = !kept || harmed || world.person.reported;
        (u64::from(safe) * SAFE) | (u64::from(over) * OVER)
    }
}

impl Model for Quiet {
    type State = JudgedState;
    type Cause = Cause;
    type Outcome = JudgedOutcome;

    fn offers(&self, state: &JudgedState, out: &mut Vec<Cause>) {
        self.0.offers(state, out);
    }

    fn chances(&self, _state: &JudgedState, _out: &mut Vec<Cause>) {}

    fn strides(&self, state: &JudgedState, out: &mut Vec<Stride<Cause>>) {
        self.0.strides(state, out);
    }

    fn act(&self, state: &mut JudgedState, cause: Cause, hear: &mut impl FnMut(JudgedOutcome)) {
        self.0.act(state, cause, hear);
    }

    fn next_event(&self, state: &JudgedState) -> Option<Micros> {
        self.0.next_event(state)
    }

    fn critical_instants(&self, state: &JudgedState, out: &mut Instants) {
        self.0.critical_instants(state, out);
    }

    fn advance(&self, state: &mut JudgedState, span: Micros, hear: &mut impl FnMut(JudgedOutcome)) {
        self.0.advance(state, span, hear);
    }

    fn write_key(&self, state: &JudgedState, out: &mut KeyWriter) {
        self.0.write_key(state, out);
    }

    fn read_key(&self, key: &Key) -> JudgedState {
        self.0.read_key(key)
    }
}

/// Whether an intent only walks.
fn walks(intent: Intent) -> bool {
    matches!(intent, Intent::Walk(_))
}

#[cfg(test)]
#[path = "shortest_tests.rs"]
mod tests;
