//! A proof as it is kept.

use rackproof_attempt::{
    Broken, Choice, Decisive, Exercise, Hashes, ORDERED, Proof as Kept, Race, RuleNeed, Search,
    Time, TrapSprung, UNORDERED, core_hash,
};
use rackproof_buffer::{HarmKind, StateFact};
use rackproof_drill::IntentKind;
use rackproof_library::Loaded;

use super::{
    choices,
    claim_list::claims,
    claims::{Guided, Proof},
    facts::Counts,
    job,
    level::Level,
    level_told::forgets_order,
    lines::WayFrom,
    races::{Races, SOURCES},
    report::harm_name,
    vacuity::Need,
};

/// What the searches merge, see the levels of keys: parts of looks that cannot count any more, what
/// nobody asks for, walking and preparing and acting, one look at all that can be seen.
const MERGED: [&str; 4] = ["spent-parts", "unasked", "prepared-strides", "whole-looks"];

/// What level 5 merges besides.
const SQUEEZED: &str = "alike-slots";

/// How the message of a claim begins; what follows is the claim's name.
const CLAIM: &str = "prove-claim-";

/// The name of a claim, by the id of its message.
pub(super) fn claim_name(id: &str) -> &str {
    id.strip_prefix(CLAIM).unwrap_or(id)
}

/// The ways of a search to what should not be, each with the claim that it breaks.
pub(super) fn ways_of(one: &job::Kept) -> [(&'static str, &Option<WayFrom>); 7] {
    [
        ("rules-suffice", &one.harm),
        ("fair", &one.unfair),
        ("sound", &one.unsound),
        ("fair-start", &one.unfair_start),
        ("no-corner", &one.corner),
        ("machine", &one.machine),
        ("congruent", &one.incongruent),
    ]
}

impl Proof {
    /// Whether a way was found that breaks this claim, and played on the machine as it is.
    pub(super) fn breaks(&self, claim: &str) -> bool {
        let broken = |one: &job::Kept| {
            let ways = ways_of(one).into_iter();
            let mut of_claim = ways.filter(|(name, _)| *name == claim);
            of_claim.any(|(_, way)| way.as_ref().is_some_and(|(_, way)| !way.is_empty()))
        };
        self.kept.iter().any(broken) || (claim == "machine" && self.machine.is_some())
    }
}

/// What is kept of a proof of a whole drill.
pub(super) fn to_keep(drill: &Loaded, proof: &Proof) -> Kept {
    let exercise = &drill.exercise;
    let name = |variant: usize| exercise.drill.variants[variant].id.clone();
    let mut sizes: Vec<u64> = proof.kept.iter().map(|one| one.slots.into()).collect();
    sizes.dedup();
    let milestones = exercise.drill.milestones.iter().map(|(name, _)| name);
    let vacuity = proof.vacuity.as_ref();
    let traps = vacuity.map_or(&[][..], |one| &one.traps);
    Kept {
        older: false,
        drill: exercise.drill.id.clone(),
        program: env!("CARGO_PKG_VERSION").to_owned(),
        texts: Hashes::of(&drill.material),
        core: core_hash().to_owned(),
        not_sure: exercise.drill.limits.not_sure.into(),
        merged: merged(proof.level, forgets_order(drill, proof.level)),
        sizes,
        variants: (0..exercise.drill.variants.len()).map(name).collect(),
        claims: claims(proof)
            .into_iter()
            .map(|(id, holds)| (claim_name(id).to_owned(), holds))
            .collect(),
        searches: proof.kept.iter().map(|one| search(one, name)).collect(),
        milestones: milestones
            .cloned()
            .zip(proof.milestones.iter().copied())
            .collect(),
        harms: HarmKind::ALL
            .into_iter()
            .filter(|&kind| proof.spoken_of >> kind as u8 & 1 == 1)
            .map(|kind| {
                let reached = proof.reachable >> kind as u8 & 1 == 1;
                (harm_name(kind).to_owned(), reached)
            })
            .collect(),
        times: proof.guided.iter().map(|one| time(one, exercise)).collect(),
        rules: vacuity
            .map_or(&[][..], |one| &one.needs)
            .iter()
            .map(|need| rule(need, name))
            .collect(),
        traps: traps
            .iter()
            .map(|one| TrapSprung {
                trap: exercise.drill.traps[one.trap].id.clone(),
                armed: one.variants.iter().copied().map(name).collect(),
                sprung: one.way.as_ref().map(|(variant, _)| name(*variant)),
                slots: one.slots.into(),
                way: one.way.iter().flat_map(|(_, way)| way.clone()).collect(),
            })
            .collect(),
        always_wrong: vacuity
            .map_or(&[][..], |one| &one.always_wrong)
            .iter()
            .map(|name| (*name).to_owned())
            .collect(),
        choices: vacuity
            .map_or(&[][..], |one| &one.choices)
            .iter()
            .map(|one| choice(one, name))
            .collect(),
        machine: proof.machine.clone().unwrap_or_default(),
        races: races(&proof.races),
        decisive: decisive(&proof.races),
        facts: proof.facts.as_ref().map_or(Vec::new(), counted),
    }
}

/// The name under which all states stand beside those without a fact.
pub(super) const STATES: &str = "states";

fn counted((states, without): &Counts) -> Vec<(String, u64)> {
    let names = StateFact::ALL.iter().map(|(name, _)| *name);
    let all = std::iter::once((STATES, states)).chain(names.zip(without));
    all.map(|(name, count)| (name.to_owned(), *count as u64))
        .collect()
}

/// The names of what a level merges; at level 6, whether the order of slots was forgotten.
pub(super) fn merged(level: Level, unordered: bool) -> Vec<String> {
    let more = match level {
        Level::Exact => None,
        Level::Squeezed => Some(SQUEEZED),
        Level::Unordered if unordered => Some(UNORDERED),
        Level::Unordered => Some(ORDERED),
    };
    MERGED.into_iter().chain(more).map(str::to_owned).collect()
}

fn races(races: &Races) -> Vec<Race> {
    let pairs = races.pairs.iter();
    pairs
        .map(|((one, other), &states)| Race {
            one: one.name().to_owned(),
            other: other.name().to_owned(),
            states,
        })
        .collect()
}

fn decisive(races: &Races) -> Vec<Decisive> {
    let sources = SOURCES.iter().zip(&races.moments);
    sources
        .map(|(source, moments)| Decisive {
            source: (*source).to_owned(),
            states: moments.states,
            most: moments.most,
            by: kinds_of(moments.by).map(str::to_owned).collect(),
        })
        .collect()
}

/// The names of the kinds of intent in a mask.
pub(super) fn kinds_of(mask: u64) -> impl Iterator<Item = &'static str> {
    let kinds = IntentKind::ALL.iter();
    kinds
        .filter(move |(_, kind)| mask >> *kind as u8 & 1 == 1)
        .map(|(name, _)| *name)
}

fn time(one: &Guided, exercise: &Exercise) -> Time {
    Time {
        variant: exercise.drill.variants[one.variant].id.clone(),
        way: exercise.procedure.ways[one.way].clone(),
        time: one.time,
        runs: one.runs as u64,
        failed: one.failed as u64,
        attempt: one.attempt.clone(),
        end: one.end.clone(),
    }
}

fn choice(one: &choices::Choice, name: impl Fn(usize) -> String) -> Choice {
    Choice {
        chance: one.chance.clone(),
        arises: one.arises.iter().copied().map(&name).collect(),
        never: one.never.iter().copied().map(&name).collect(),
    }
}

fn rule(need: &Need, name: impl Fn(usize) -> String) -> RuleNeed {
    RuleNeed {
        rule: need.rule.clone(),
        sourced: need.sourced,
        first_broken: need.first_broken,
        tested: need.tested,
        early: need.early,
        harm_without: need.turned.map(&name),
        corner_without: need.cornered.map(&name),
    }
}

fn search(one: &job::Kept, name: impl Fn(usize) -> String) -> Search {
    Search {
        variants: one.variants.iter().copied().map(&name).collect(),
        slots: one.slots.into(),
        states: one.states,
        steps: one.steps,
        memory: one.memory,
        complete: one.complete,
        finished: one.finished,
        beyond_bound: one.beyond_bound,
        checked: one.checked,
        won: one.won,
        broken: ways_of(one)
            .into_iter()
            .filter_map(|(claim, way)| {
                let (variant, way) = way.as_ref()?;
                Some(Broken {
                    claim: claim.to_owned(),
                    variant: name(*variant),
                    way: way.clone(),
                })
            })
            .collect(),
    }
}

#[cfg(test)]
#[path = "keep_tests.rs"]
mod tests;
