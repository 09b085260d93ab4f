//! Whether a green proof says anything: is each rule needed, does each trap spring, is each thing
//! that is on offer allowed somewhere.
//!
//! Beer, Ben-David, Eisner and Rodeh, "Efficient detection of vacuity in temporal model checking",
//! 2001, from memory, for the idea.

use rackproof_attempt::Exercise;
use rackproof_drill::{IntentKind, Mergers};
use rackproof_grade::JudgedState;
use rackproof_prove::{Congruence, Settings};

use super::{
    interrupt::explore,
    job::{BREACH, HARMED_KEPT, HARMS, Kept, REPORTED, STATES_MOST_FREE, Way, flags, judged, way},
    workers,
};

/// The rack on which rules are knocked out.
const SLOTS: u8 = 2;
/// In so many variants it is tried what becomes of the proof without a rule.
const VARIANTS_MOST: usize = 4;
/// The rack on which traps are sprung.
const SLOTS_TRAPS: u8 = 4;

/// A rule, and what became of the proof without it.
#[derive(Clone, Debug)]
pub(crate) struct Need {
    pub(crate) rule: String,
    /// Whether it rests on a source from outside, and not on common practice.
    pub(crate) sourced: bool,
    /// In how many states it was the first to be broken.
    pub(crate) first_broken: u64,
    /// The variant in which, without it, an attempt that keeps all others does harm.
    pub(crate) turned: Option<usize>,
}

/// A trap, and how it is sprung.
#[derive(Clone, Debug)]
pub(crate) struct Sprung {
    pub(crate) trap: usize,
    /// Variants that list it: it is armed there from the start.
    pub(crate) variants: Vec<usize>,
    /// A variant and a shortest way that springs it there.
    pub(crate) way: Option<(usize, Way)>,
}

/// All checks.
#[derive(Clone, Debug)]
pub(crate) struct Vacuity {
    pub(crate) needs: Vec<Need>,
    pub(crate) traps: Vec<Sprung>,
    /// Names of the kinds of intent that break a rule wherever they are on offer.
    pub(crate) always_wrong: Vec<&'static str>,
}

impl Vacuity {
    /// Whether each rule was the first to be broken somewhere, and is needed, or rests on a source
    /// from outside.
    pub(crate) fn rules_count(&self) -> bool {
        let counts = |need: &Need| need.first_broken > 0 && (need.turned.is_some() || need.sourced);
        self.needs.iter().all(counts)
    }

    /// Whether each trap is armed in some variant, and sprung.
    pub(crate) fn traps_live(&self) -> bool {
        let lives = |trap: &Sprung| !trap.variants.is_empty() && trap.way.is_some();
        self.traps.iter().all(lives)
    }
}

/// Does all checks. `kept` are the searches with the rules kept.
pub(crate) fn check(exercise: &Exercise, chosen: &[usize], kept: &[Kept]) -> Vacuity {
    let rules = exercise.rules.for_proof();
    let first_broken = |rule: usize| kept.iter().map(|one| one.first_broken[rule]).sum();
    let few = some_of(chosen);
    let numbers: Vec<usize> = (0..rules.list.len()).collect();
    let turned = workers::each(
        &numbers,
        |&number, _: &mut dyn FnMut(())| {
            let name = &rules.list[number].name;
            few.iter()
                .copied()
                .find(|&variant| harms_without(exercise, variant, name))
        },
        &mut |_| {},
    );
    let needs = rules.list.iter().zip(turned).enumerate();
    let needs = needs.map(|(number, (rule, turned))| Need {
        rule: rule.name.clone(),
        sourced: rule.source != "common practice",
        first_broken: first_broken(number),
        turned,
    });
    let traps = (0..exercise.drill.traps.len()).map(|trap| spring(exercise, chosen, trap));
    let allowed = kept.iter().fold(0, |mask, one| mask | one.allowed);
    let kinds = IntentKind::ALL.iter();
    let always_wrong = kinds.filter(|(_, kind)| allowed >> *kind as u8 & 1 == 0);
    Vacuity {
        needs: needs.collect(),
        traps: traps.collect(),
        always_wrong: always_wrong.map(|(name, _)| *name).collect(),
    }
}

/// At most [`VARIANTS_MOST`] of the variants, spread evenly.
fn some_of(chosen: &[usize]) -> Vec<usize> {
    let most = VARIANTS_MOST.min(chosen.len());
    (0..most)
        .map(|at| chosen[at * (chosen.len() - 1) / (most - 1).max(1)])
        .collect()
}

/// Whether without this rule an attempt that keeps all others does harm.
fn harms_without(exercise: &Exercise, variant: usize, rule: &str) -> bool {
    let rules = exercise.rules.for_proof().without(rule);
    let judged = judged(exercise, variant, SLOTS, &rules).prepared();
    let settings = Settings {
        prune: HARMS | 1 << BREACH | 1 << REPORTED,
        until: 1 << HARMED_KEPT,
        states_most: STATES_MOST_FREE,
        congruence: Congruence::Off,
        ..Settings::default()
    };
    let flags = |state: &JudgedState| flags(&judged, state);
    explore(&judged, &[judged.start()], &settings, flags).count(HARMED_KEPT) > 0
}

/// A shortest way that springs a trap, in the first variant that lists it and has one.
fn spring(exercise: &Exercise, chosen: &[usize], trap: usize) -> Sprung {
    let lists = |variant: &usize| exercise.drill.variants[*variant].traps.contains(&trap);
    let variants: Vec<usize> = chosen.iter().copied().filter(lists).collect();
    let found = variants.iter().find_map(|&variant| {
        let way = [Mergers::Prepared, Mergers::Plain]
            .into_iter()
            .find_map(|mergers| spring_in(exercise, variant, trap, mergers))?;
        Some((variant, way))
    });
    Sprung {
        trap,
        variants,
        way: found,
    }
}

fn spring_in(exercise: &Exercise, variant: usize, trap: usize, mergers: Mergers) -> Option<Way> {
    let traps = exercise.rules.of_traps(&exercise.drill);
    let name = exercise.drill.traps[trap].id.as_str();
    let only = traps.only_named(name);
    let pair = judged(exercise, variant, SLOTS_TRAPS, &only);
    let pair = match mergers {
        Mergers::Plain => pair,
        Mergers::Prepared => pair.prepared(),
    };
    let settings = Settings {
        prune: HARMS | 1 << REPORTED,
        until: 1 << BREACH,
        states_most: STATES_MOST_FREE,
        congruence: Congruence::Off,
        ..Settings::default()
    };
    let flags = |state: &JudgedState| flags(&pair, state);
    let found = explore(&pair, &[pair.start()], &settings, flags);
    way(&pair, &found, BREACH)
}
