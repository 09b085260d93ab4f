//! One search: variants on a rack of some size, with the rules kept or with none.

use std::time::Duration;

use rackproof_attempt::Exercise;
use rackproof_buffer::{BoardPlace, Fault, HalfSlot, HarmKind, Machine, Question};
use rackproof_drill::{Cause, Mergers, World};
use rackproof_grade::{Judged, JudgedState, Rules};
use rackproof_prove::{Congruence, End, Exploration, Hands, OneHand, Progress, Settings, Witness};

use super::{
    interrupt::{explore, explore_told},
    level::{Effort, Level},
    lines::{Way, WayFrom, lines, way},
    survey::Survey,
    unordered::explore_unordered,
};

/// Harms, bit n for the n-th kind.
pub(super) const HARMS: u64 = (1 << HarmKind::ALL.len()) - 1;
/// A stop or a major breach.
pub(super) const BREACH: u32 = 16;
/// The finish was reached and reported.
pub(super) const FINISHED: u32 = 17;
/// Rules kept and finished, and not passed.
pub(super) const UNFAIR: u32 = 18;
/// A harm with the rules kept.
pub(super) const HARMED_KEPT: u32 = 19;
/// The job was reported done, finished or not.
pub(super) const REPORTED: u32 = 20;
/// More slots are "not sure" than the drill's bound.
pub(super) const BEYOND_BOUND: u32 = 21;

/// Finished, with the rules kept and no harm done.
pub(super) const SAFE: u32 = 22;

/// The machine breaks what must hold in every state of it.
pub(super) const INVARIANT: u32 = 23;
/// From this bit on: the rule that was broken first, by its number.
pub(super) const FIRST_BROKEN: u32 = 24;

/// What follows so many states is checked for congruence landing by landing: some 60,000 landings.
/// After them one landing of so many. The check lists the successors of both states, so that it
/// costs tens of steps.
pub(super) const CHECKED: Congruence = Congruence::Dense {
    states: 4_000,
    every: 1_000,
};

/// Most states of one search. Beyond it the answer is "not proved within the bounds".
pub(super) const STATES_MOST: usize = 40_000_000;
/// The same with the rules off, where states are many more.
pub(super) const STATES_MOST_FREE: usize = 800_000;

/// What a search with the rules kept gave.
#[derive(Clone, Debug, Default)]
pub(crate) struct Kept {
    /// The variants whose starts it began with.
    pub(crate) variants: Vec<usize>,
    pub(crate) slots: u8,
    pub(crate) states: u64,
    pub(crate) steps: u64,
    /// Bytes that it took.
    pub(crate) memory: u64,
    /// How long it took, if it was done now.
    pub(crate) took: Option<Duration>,
    pub(crate) complete: bool,
    pub(crate) finished: u64,
    pub(crate) beyond_bound: u64,
    pub(crate) checked: u64,
    /// States from which the trainee can reach a finish, whatever the neighbours choose.
    pub(crate) won: u64,
    /// For each rule: in how many states it was the first to be broken.
    pub(crate) first_broken: Vec<u64>,
    /// What the acts on offer come to.
    pub(crate) survey: Survey,
    pub(crate) corner: Option<WayFrom>,
    /// A way to a state that no machine may be in.
    pub(crate) machine: Option<WayFrom>,
    pub(crate) harm: Option<WayFrom>,
    pub(crate) unfair: Option<WayFrom>,
    /// A way to an end that passes and should not.
    pub(crate) unsound: Option<WayFrom>,
    pub(crate) incongruent: Option<WayFrom>,
    pub(crate) unfair_start: Option<WayFrom>,
}

/// How far boards move down together so that the one in slot `highest` fits into a rack of `slots`
/// slots: as far as they must, and by whole steps of the products that come and go, so that a slot
/// that one of them passes over stays one.
fn moved_down(exercise: &Exercise, highest: u8, slots: u8) -> u8 {
    let interval = |product: u8| {
        let storing = exercise.machine.parts().products[product as usize].storing;
        storing.interval.max(1)
    };
    let (old, new) = (exercise.drill.start.product, exercise.drill.next);
    let (old, new) = (interval(old), interval(new));
    let step = (1..=new).map(|times| old * times);
    let step = step.filter(|step| step.is_multiple_of(new)).min();
    let down = highest.saturating_sub(slots - 1);
    let whole = down.next_multiple_of(step.unwrap_or(1));
    if whole <= highest { whole } else { down }
}

/// How far the boards of a variant move down on a rack of `slots` slots.
pub(super) fn down(exercise: &Exercise, variant: usize, slots: u8) -> u8 {
    let variant = &exercise.drill.variants[variant];
    let lying = variant.boards.iter().chain(&variant.stored);
    let highest = lying.map(|(at, _)| at.slot).max().unwrap_or(0);
    moved_down(exercise, highest, slots)
}

/// The world of a variant on a rack of `slots` slots. On a smaller rack its boards move down
/// together, see [`moved_down`].
pub(crate) fn judged(exercise: &Exercise, variant: usize, slots: u8, rules: &Rules) -> Judged {
    let mut parts = exercise.machine.parts().clone();
    let mut drill = exercise.drill.clone();
    parts.slots = slots;
    let down = down(exercise, variant, slots);
    let variant_of = &mut drill.variants[variant];
    for (at, _) in variant_of.boards.iter_mut().chain(&mut variant_of.stored) {
        at.slot = at.slot.saturating_sub(down);
    }
    for fault in &mut drill.faults {
        if let Fault::Board { place, .. } = &mut fault.what
            && let BoardPlace::Slot(at) = place
        {
            at.slot = at.slot.saturating_sub(down).min(slots - 1);
        }
    }
    let machine = Machine::new(parts);
    let machine = match exercise.machine.defect() {
        Some(defect) => machine.with_defect(defect),
        None => machine,
    };
    let world = World::new(machine, exercise.hall.clone(), drill, variant);
    Judged::new(world, rules.for_slots(slots))
}

/// The variants in groups of which each can be searched at once: their worlds differ in nothing but
/// how they begin, and what they come to is much the same. Whoever took the boards out stands in
/// the same empty rack, wherever they lay.
pub(crate) fn groups(exercise: &Exercise, chosen: &[usize]) -> Vec<Vec<usize>> {
    let of = |variant: usize| &exercise.drill.variants[variant];
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for &variant in chosen {
        let alike = groups.iter_mut().find(|group| {
            let (one, other) = (of(group[0]), of(variant));
            one.line == other.line && one.faults.is_empty() && other.faults.is_empty()
        });
        match alike {
            Some(group) => group.push(variant),
            None => groups.push(vec![variant]),
        }
    }
    groups
}

/// The pair of the variants of one group, and each one's start.
pub(super) fn joined(
    exercise: &Exercise,
    variants: &[usize],
    slots: u8,
    rules: &Rules,
) -> (Judged, Vec<JudgedState>) {
    let starts = variants
        .iter()
        .map(|&variant| judged(exercise, variant, slots, rules).start());
    let pair = judged(exercise, variants[0], slots, rules);
    (pair, starts.collect())
}

/// Explores all that can be done with the rules kept, and all that the environment does alone, from
/// the starts of the variants of one group.
pub(crate) fn explore_kept(
    exercise: &Exercise,
    variants: &[usize],
    (slots, effort): (u8, Effort),
    rules: &Rules,
    by: (&impl Hands, &mut dyn FnMut(Progress)),
) -> Kept {
    let hands = by.0;
    let Effort { level, states_most } = effort;
    if level == Level::Unordered {
        let size = (slots, states_most);
        return explore_unordered(exercise, variants, size, rules, by);
    }
    let (judged, starts) = joined(exercise, variants, slots, rules);
    let judged = level.of(judged);
    let settings = Settings {
        prune: HARMS | 1 << BREACH | 1 << REPORTED | 1 << BEYOND_BOUND,
        states_most,
        congruence: CHECKED,
        steps_kept: true,
        ..Settings::default()
    };
    let flags_of = |state: &JudgedState| flags(&judged, state);
    let found = explore_told(by, (&judged, &starts), &settings, flags_of);
    let corners = found.corners(1 << SAFE, settings.prune);
    let alone = Settings {
        persons: false,
        prune: HARMS,
        steps_kept: false,
        ..settings
    };
    let alone = explore(&judged, &starts, &alone, flags_of);
    let survey = Survey::of(hands, (&judged, &found), settings.prune);
    let harmed = (0..BREACH).find(|&bit| alone.count(bit) > 0);
    let from = |witness: Witness<Cause>| (variants[witness.start], lines(&judged, &witness));
    let way = |found: &Exploration<'_, Judged>, bit: u32| {
        let witness = found.witness(bit)?;
        let strays = witness.strayed.is_some() && level == Level::Squeezed;
        let exact = strays.then(|| exact_way(exercise, variants, (slots, states_most), rules, bit));
        exact.flatten().or_else(|| Some(from(witness)))
    };
    let unlatched = survey.unlatched.clone();
    let unsound = survey.unsound.clone();
    Kept {
        unsound: unsound.map(|(start, way)| (variants[start], way)),
        won: corners.map_or(0, |corners| corners.won as u64),
        corner: corners
            .and_then(|corners| corners.first)
            .map(|node| from(found.witness_to(node))),
        machine: way(&found, INVARIANT)
            .or_else(|| unlatched.map(|(start, way)| (variants[start], way))),
        survey,
        harm: way(&found, HARMED_KEPT),
        unfair: way(&found, UNFAIR),
        unfair_start: harmed.and_then(|bit| way(&alone, bit)),
        complete: found.end == End::Complete && alone.end == End::Complete,
        ..Kept::of(&found, &judged, variants)
    }
}

impl Kept {
    /// What every level tells of its search: how large it was, and where it failed its own check.
    /// No claim is asked yet.
    pub(super) fn of(found: &Exploration<'_, Judged>, pair: &Judged, variants: &[usize]) -> Kept {
        let broken = |rule| found.count(FIRST_BROKEN + rule) as u64;
        let incongruent = found.incongruence.as_ref().map(|one| {
            let way = lines(pair, &one.witness);
            (variants[one.witness.start], way)
        });
        Kept {
            variants: variants.to_vec(),
            slots: pair.world().machine().slots(),
            states: found.states as u64,
            steps: found.steps,
            memory: found.memory as u64,
            took: None,
            complete: found.end == End::Complete,
            finished: found.count(FINISHED) as u64,
            beyond_bound: found.count(BEYOND_BOUND) as u64,
            checked: found.checked,
            first_broken: (0..pair.rules().list.len() as u32).map(broken).collect(),
            incongruent,
            won: 0,
            survey: Survey::default(),
            corner: None,
            machine: None,
            harm: None,
            unfair: None,
            unsound: None,
            unfair_start: None,
        }
    }
}

/// A shortest way to a state with this flag, as the exact search finds it. A squeezed search finds
/// states to which the way is another one on a rack of many slots: a long move of the lift is
/// stopped elsewhere. `bounds` are the slots of the rack, and the most states.
pub(super) fn exact_way(
    exercise: &Exercise,
    variants: &[usize],
    (slots, states_most): (u8, usize),
    rules: &Rules,
    bit: u32,
) -> Option<WayFrom> {
    let (judged, starts) = joined(exercise, variants, slots, rules);
    let judged = judged.prepared();
    let settings = Settings {
        prune: HARMS | 1 << BREACH | 1 << REPORTED | 1 << BEYOND_BOUND,
        until: 1 << bit,
        states_most,
        congruence: Congruence::Off,
        ..Settings::default()
    };
    let found = explore(&judged, &starts, &settings, |state| flags(&judged, state));
    let witness = found.witness(bit)?;
    Some((variants[witness.start], lines(&judged, &witness)))
}

/// What plain steps with the rules kept gave, up to their most states: they leave the hatch open
/// and the key turned, which prepared steps do not.
#[derive(Clone, Debug, Default)]
pub(crate) struct Plain {
    /// A way to a state that no machine may be in.
    pub(crate) machine: Option<Way>,
    /// What the acts on offer come to.
    pub(crate) survey: Survey,
}

/// Explores by plain steps with the rules kept, up to the most states.
pub(crate) fn explore_plain(exercise: &Exercise, variant: usize, slots: u8) -> Plain {
    let judged = judged(exercise, variant, slots, &exercise.rules.for_proof());
    let settings = Settings {
        prune: HARMS | 1 << BREACH | 1 << REPORTED | 1 << BEYOND_BOUND,
        until: 1 << INVARIANT,
        states_most: STATES_MOST_FREE,
        congruence: Congruence::Off,
        ..Settings::default()
    };
    let flags = |state: &JudgedState| flags(&judged, state);
    let found = explore(&judged, &[judged.start()], &settings, flags);
    let survey = Survey::of(&OneHand, (&judged, &found), settings.prune);
    let machine = way(&judged, &found, INVARIANT);
    Plain {
        machine: machine.or_else(|| survey.unlatched.clone().map(|(_, way)| way)),
        survey,
    }
}

/// Which of the harms in `wanted` can be reached on this variant with no rule at all, by prepared
/// or by plain steps: on a rack of so many slots, within so many states.
pub(crate) fn explore_free(
    exercise: &Exercise,
    variant: usize,
    (slots, states_most): (u8, usize),
    wanted: u64,
    mergers: Mergers,
) -> u64 {
    let judged = judged(exercise, variant, slots, &exercise.rules.none());
    let judged = match mergers {
        Mergers::Plain => judged,
        Mergers::Prepared => judged.prepared(),
    };
    let settings = Settings {
        prune: 1 << REPORTED,
        until: wanted,
        states_most,
        congruence: Congruence::Off,
        ..Settings::default()
    };
    let flags = |state: &JudgedState| flags(&judged, state);
    explore(&judged, &[judged.start()], &settings, flags).seen() & wanted
}

pub(super) fn flags(judged: &Judged, state: &JudgedState) -> u64 {
    let world = &state.world;
    let kept = judged.kept(state);
    let harms = u64::from(world.harms());
    let finished = judged.world().finished(world);
    let limit = judged.world().drill().limits.not_sure;
    // Of what is over the key holds the verdict alone: it lies beyond nothing.
    let goes_on = state.broken == 0 && !world.person.reported;
    let beyond = match world.machine.question() {
        Some(Question::Answer(slot) | Question::AnswerHalf(HalfSlot { slot, .. })) => {
            (world.machine.map.unknown & ((1 << slot) - 1)).count_ones() > limit
        }
        _ => false,
    };
    let unfair = finished && kept && !judged.passes(state, 0);
    let bit = |holds: bool, at: u32| u64::from(holds) << at;
    harms
        | bit(!kept, BREACH)
        | bit(finished, FINISHED)
        | bit(unfair, UNFAIR)
        | bit(harms != 0 && kept, HARMED_KEPT)
        | bit(world.person.reported, REPORTED)
        | bit(beyond && goes_on, BEYOND_BOUND)
        | bit(finished && kept && harms == 0, SAFE)
        | bit(
            judged
                .world()
                .machine()
                .broken_invariant(&world.machine)
                .is_some(),
            INVARIANT,
        )
        | state.broken.checked_shl(FIRST_BROKEN).unwrap_or(0)
}

#[cfg(test)]
#[path = "job_tests.rs"]
mod tests;

#[cfg(test)]
#[path = "squeezed_tests.rs"]
mod squeezed_tests;
