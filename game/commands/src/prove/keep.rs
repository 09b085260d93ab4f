//! A proof as it is kept, and a kept one as if it had just been made.

use rackproof_attempt::{
    Broken, Decisive, Hashes, ORDERED, Proof as Kept, Race, RuleNeed, Search, Time, TrapSprung,
    UNORDERED, core_hash,
};
use rackproof_buffer::{HarmKind, StateFact, Timer};
use rackproof_drill::IntentKind;
use rackproof_library::Loaded;

use super::{
    claim_list::claims,
    claims::{Guided, Proof},
    facts::Counts,
    job,
    level::Level,
    level_told::forgets_order,
    lines::WayFrom,
    races::{Moments, Races, SOURCES},
    report::harm_name,
    sprung::Sprung,
    survey::Survey,
    vacuity::{Need, Vacuity, unlisted},
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
        times: proof
            .guided
            .iter()
            .map(|one| Time {
                variant: name(one.variant),
                way: exercise.procedure.ways[one.way].clone(),
                time: one.time,
                runs: one.runs as u64,
                failed: one.failed as u64,
            })
            .collect(),
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
        machine: proof.machine.clone().unwrap_or_default(),
        races: races(&proof.races),
        decisive: decisive(&proof.races),
        facts: proof.facts.as_ref().map_or(Vec::new(), counted),
    }
}

/// The name under which all states stand beside those without a fact.
const STATES: &str = "states";

fn counted((states, without): &Counts) -> Vec<(String, u64)> {
    let names = StateFact::ALL.iter().map(|(name, _)| *name);
    let all = std::iter::once((STATES, states)).chain(names.zip(without));
    all.map(|(name, count)| (name.to_owned(), *count as u64))
        .collect()
}

/// What each fact costs, as it was counted. `None` if it names what this program does not know.
fn counts_of(kept: &Kept) -> Option<Option<Counts>> {
    if kept.facts.is_empty() {
        return Some(None);
    }
    let count = |name: &str| {
        let found = kept.facts.iter().find(|(known, _)| known == name);
        usize::try_from(found?.1).ok()
    };
    let without = StateFact::ALL.iter().map(|(name, _)| count(name));
    let without = without.collect::<Option<Vec<usize>>>()?;
    (kept.facts.len() == without.len() + 1).then_some(())?;
    Some(Some((count(STATES)?, without)))
}

/// The names of what a level merges; at level 6, whether the order of slots was forgotten.
fn merged(level: Level, unordered: bool) -> Vec<String> {
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

/// The race table of a kept proof. `None` if it names what this program does not know.
fn races_of(kept: &Kept) -> Option<Races> {
    let timer = |name: &str| {
        let found = Timer::ALL.iter().find(|(known, _)| *known == name);
        found.map(|(_, timer)| *timer)
    };
    let mut races = Races::default();
    for race in &kept.races {
        let pair = (timer(&race.one)?, timer(&race.other)?);
        races.pairs.insert(pair, race.states);
    }
    for one in &kept.decisive {
        let source = SOURCES.iter().position(|known| *known == one.source)?;
        let mut by = 0;
        for name in &one.by {
            let (_, kind) = IntentKind::ALL.iter().find(|(known, _)| known == name)?;
            by |= 1 << *kind as u8;
        }
        races.moments[source] = Moments {
            states: one.states,
            most: one.most,
            by,
        };
    }
    Some(races)
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

/// A kept proof as it was made. `None` if it names what the drill does not have: then it is of
/// another program.
pub(super) fn from_kept(drill: &Loaded, kept: &Kept) -> Option<Proof> {
    let exercise = &drill.exercise;
    let mut milestones = Vec::new();
    for (name, _) in &exercise.drill.milestones {
        let (_, met) = kept.milestones.iter().find(|(known, _)| known == name)?;
        milestones.push(*met);
    }
    let (mut spoken_of, mut reachable) = (0, 0);
    for (name, reached) in &kept.harms {
        let kind = HarmKind::ALL
            .into_iter()
            .find(|&kind| harm_name(kind) == name)?;
        spoken_of |= 1 << kind as u8;
        reachable |= u64::from(*reached) << kind as u8;
    }
    let found = kept.searches.iter().map(|one| searched(drill, one));
    let guided = kept.times.iter().map(|one| {
        Some(Guided {
            variant: exercise.variant(&one.variant)?,
            way: exercise
                .procedure
                .ways
                .iter()
                .position(|way| *way == one.way)?,
            time: one.time,
            runs: usize::try_from(one.runs).ok()?,
            failed: usize::try_from(one.failed).ok()?,
            // What failed was kept as an attempt then.
            broke: None,
        })
    });
    let races = races_of(kept)?;
    let levels = [Level::Exact, Level::Squeezed, Level::Unordered];
    let level = levels
        .into_iter()
        .find(|&level| merged(level, forgets_order(drill, level)) == kept.merged)?;
    let proof = Proof {
        level,
        undeclared: races.undeclared(&exercise.drill).collect(),
        races,
        kept: found.collect::<Option<_>>()?,
        guided: guided.collect::<Option<_>>()?,
        milestones,
        spoken_of,
        reachable,
        facts: counts_of(kept)?,
        machine: Some(kept.machine.clone()).filter(|way| !way.is_empty()),
        vacuity: match level {
            Level::Exact | Level::Squeezed => Some(vacuity(drill, kept)?),
            Level::Unordered => None,
        },
        whole: true,
    };
    // What is claimed today must be what was claimed then.
    let now = claims(&proof);
    let then = kept.claims.iter();
    let same = now.len() == kept.claims.len()
        && now
            .iter()
            .zip(then)
            .all(|((id, holds), (name, held))| claim_name(id) == name && holds == held);
    same.then_some(proof)
}

fn searched(drill: &Loaded, one: &Search) -> Option<job::Kept> {
    let exercise = &drill.exercise;
    let mut broken = Vec::new();
    for way in &one.broken {
        broken.push((
            way.claim.as_str(),
            exercise.variant(&way.variant)?,
            &way.way,
        ));
    }
    let way = |claim: &str| {
        let found = broken.iter().find(|(known, ..)| *known == claim);
        found.map(|&(_, variant, way)| (variant, way.clone()))
    };
    let variants = one.variants.iter().map(|name| exercise.variant(name));
    Some(job::Kept {
        variants: variants.collect::<Option<_>>()?,
        slots: u8::try_from(one.slots).ok()?,
        states: one.states,
        steps: one.steps,
        memory: one.memory,
        took: None,
        complete: one.complete,
        finished: one.finished,
        beyond_bound: one.beyond_bound,
        checked: one.checked,
        won: one.won,
        // Kept for all searches together, with what each rule is needed for.
        first_broken: Vec::new(),
        survey: Survey::default(),
        corner: way("no-corner"),
        machine: way("machine"),
        harm: way("rules-suffice"),
        unfair: way("fair"),
        unsound: way("sound"),
        incongruent: way("congruent"),
        unfair_start: way("fair-start"),
    })
}

fn vacuity(drill: &Loaded, kept: &Kept) -> Option<Vacuity> {
    let exercise = &drill.exercise;
    let variant = |name: &String| exercise.variant(name);
    let needs = kept.rules.iter().map(|one| {
        Some(Need {
            rule: one.rule.clone(),
            sourced: one.sourced,
            first_broken: one.first_broken,
            tested: one.tested,
            early: one.early,
            turned: match &one.harm_without {
                Some(name) => Some(variant(name)?),
                None => None,
            },
            cornered: match &one.corner_without {
                Some(name) => Some(variant(name)?),
                None => None,
            },
        })
    });
    let traps = kept.traps.iter().map(|one| {
        let all = &exercise.drill.traps;
        Some(Sprung {
            trap: all.iter().position(|trap| trap.id == one.trap)?,
            variants: one.armed.iter().map(variant).collect::<Option<_>>()?,
            slots: u8::try_from(one.slots).ok()?,
            way: match &one.sprung {
                Some(name) => Some((variant(name)?, one.way.clone())),
                None => None,
            },
        })
    });
    let wrong = kept.always_wrong.iter().map(|name| {
        let known = IntentKind::ALL.iter().find(|(known, _)| known == name);
        known.map(|(known, _)| *known)
    });
    let always_wrong: Vec<_> = wrong.collect::<Option<_>>()?;
    Some(Vacuity {
        unlisted: unlisted(exercise, &always_wrong),
        needs: needs.collect::<Option<_>>()?,
        incongruent: None,
        traps: traps.collect::<Option<_>>()?,
        always_wrong,
    })
}

#[cfg(test)]
#[path = "keep_tests.rs"]
mod tests;
