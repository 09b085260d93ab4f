//! A kept proof as if it had just been made.

use rackproof_attempt::{Proof as Kept, Search};
use rackproof_buffer::{HarmKind, StateFact, Timer};
use rackproof_drill::IntentKind;
use rackproof_library::Loaded;

use super::{
    choices::Choice,
    claim_list::claims,
    claims::{Guided, Proof},
    facts::Counts,
    job,
    keep::{STATES, claim_name, merged},
    level::Level,
    level_told::forgets_order,
    races::{Moments, Races, SOURCES},
    report::harm_name,
    sprung::Sprung,
    survey::Survey,
    vacuity::{Need, Vacuity, unlisted},
};

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
            attempt: one.attempt.clone(),
            end: one.end.clone(),
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
    let choices = kept.choices.iter().map(|one| {
        Some(Choice {
            chance: one.chance.clone(),
            arises: one.arises.iter().map(variant).collect::<Option<_>>()?,
            never: one.never.iter().map(variant).collect::<Option<_>>()?,
        })
    });
    Some(Vacuity {
        unlisted: unlisted(exercise, &always_wrong),
        needs: needs.collect::<Option<_>>()?,
        incongruent: None,
        traps: traps.collect::<Option<_>>()?,
        always_wrong,
        choices: choices.collect::<Option<_>>()?,
    })
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
