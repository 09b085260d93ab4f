//! The race table: which timers run at once, and where a moment decides what an act comes to.
//!
//! Two timers of the machine that run at once are a race. A drill names those that it knows of; any
//! other is an error of the drill, or of the machine. The person's own timer may run beside one of
//! the machine's.

use std::collections::BTreeMap;

use rackproof_buffer::{AxisName, Timer};
use rackproof_drill::{Cause, Drill, World};
use rackproof_grade::{Judged, JudgedState};
use rackproof_model::{Instants, Model, Stride};

/// Of so many states with a moment that decides one is asked which acts it decides on.
const TRIED_OF: u64 = 17;

/// What a decisive moment belongs to.
pub(crate) const SOURCES: [&str; 4] = ["lift", "rails", "belts", "upstream"];

/// Moments of one source at which an act comes out otherwise than just before.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Moments {
    /// In so many states there are such moments ahead, before the next event.
    pub(crate) states: u64,
    /// The most of them that one state has.
    pub(crate) most: u64,
    /// Kinds of intent that break the motion off there, as a mask.
    pub(crate) by: u64,
}

/// What was met in searches.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Races {
    /// Pairs of the machine's timers that ran at once, and in how many states.
    pub(crate) pairs: BTreeMap<(Timer, Timer), u64>,
    /// Decisive moments, in the order of [`SOURCES`].
    pub(crate) moments: [Moments; SOURCES.len()],
}

impl Races {
    /// Notes one state, with the steps of the explorer from it.
    pub(crate) fn note(&mut self, judged: &Judged, state: &JudgedState, strides: &[Stride<Cause>]) {
        let world = judged.world();
        let timers = world.timers(&state.world);
        let machines: Vec<Timer> = timers.filter(|timer| !timer.is_person()).collect();
        for (at, &one) in machines.iter().enumerate() {
            for &other in &machines[at + 1..] {
                *self.pairs.entry((one, other)).or_default() += 1;
            }
        }
        if machines.is_empty() {
            return;
        }
        for (source, moments) in self.moments.iter_mut().enumerate() {
            let ahead = ahead(world, state, source);
            if ahead == 0 {
                continue;
            }
            let tried = moments.states.is_multiple_of(TRIED_OF);
            moments.states += 1;
            moments.most = moments.most.max(ahead);
            if let Some(axis) = AxisName::ALL.get(source).filter(|_| tried) {
                for stride in strides {
                    moments.by |= breaking_off(judged, state, stride, *axis);
                }
            }
        }
    }

    /// Both together.
    pub(crate) fn join(&mut self, other: &Races) {
        for (pair, states) in &other.pairs {
            *self.pairs.entry(*pair).or_default() += states;
        }
        for (one, other) in self.moments.iter_mut().zip(&other.moments) {
            one.states += other.states;
            one.most = one.most.max(other.most);
            one.by |= other.by;
        }
    }

    /// Pairs that ran at once and that the drill does not name.
    pub(crate) fn undeclared<'r>(
        &'r self,
        drill: &'r Drill,
    ) -> impl Iterator<Item = (Timer, Timer)> + 'r {
        let met = self.pairs.keys().copied();
        met.filter(|pair| !drill.races.contains(pair))
    }
}

/// How many decisive moments of a source lie before the next event.
fn ahead(world: &World, state: &JudgedState, source: usize) -> u64 {
    let mut instants = Instants::new();
    match AxisName::ALL.get(source) {
        Some(axis) => {
            world
                .machine()
                .critical_of(&state.world.machine, *axis, &mut instants);
        }
        None => world.critical_chances(&state.world, &mut instants),
    }
    instants.as_slice().len() as u64
}

/// The kind of intent, as a mask, by which a stride changes the motion of an axis.
fn breaking_off(
    judged: &Judged,
    state: &JudgedState,
    stride: &Stride<Cause>,
    axis: AxisName,
) -> u64 {
    let mut child = *state;
    let motion = |state: &JudgedState| state.world.machine.motions()[axis as usize];
    for cause in stride.causes() {
        let before = motion(&child);
        judged.act(&mut child, cause, &mut |_| {});
        if let Cause::Did(intent) = cause
            && motion(&child) != before
        {
            return 1 << intent.kind() as u8;
        }
    }
    0
}
