//! A proof for a program that reads it.

use rackproof_attempt::{core_hash, hash_of};
use rackproof_buffer::StateFact;
use rackproof_library::Loaded;
use rackproof_phrases::problem_json;
use rackproof_words::Words;
use serde_json::{Value, json};

use super::{
    asked::Refused,
    choices::choices_json,
    claim_list::{Verdict, not_asked, verdicts},
    claims::{Proof, kinds},
    facts::Counts,
    forms::outside_json,
    keep::{claim_name, kinds_of},
    lines::WayFrom,
    races::SOURCES,
    report::harm_name,
    tasks::SLOTS_FREE,
    vacuity::Vacuity,
    written::Written,
};

/// Why nothing is searched at all.
pub(super) fn refused(refused: &Refused, words: &Words) -> Value {
    let problems = refused.problems.iter();
    let unread = refused.unread.iter();
    json!({
        "proved": false,
        "problems": problems.map(|one| problem_json(words, one)).collect::<Vec<_>>(),
        "unread": unread
            .map(|(file, reason)| json!({"file": file, "reason": reason}))
            .collect::<Vec<_>>(),
        "wrong": refused.wrong,
    })
}

/// Why nothing of one drill is searched.
pub(super) fn nothing(drill: &str, said: &str) -> Value {
    json!({"drill": drill, "proved": false, "reason": said})
}

/// Where a proof comes from that is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Origin {
    /// It was made before, and nothing changed since.
    Kept,
    /// It was made now; perhaps somebody ended its searches before their time.
    Made { interrupted: bool },
}

/// The proof for a program, and what was written of it now.
pub(crate) fn json(
    drill: &Loaded,
    proof: &Proof,
    (origin, written): (Origin, &Written),
    words: &Words,
) -> Value {
    let kept = origin == Origin::Kept;
    let ended = origin == Origin::Made { interrupted: true };
    let (exercise, material) = (&drill.exercise, &drill.material);
    let name = |variant: usize| exercise.drill.variants[variant].id.clone();
    let way = |found: &Option<WayFrom>| {
        let found = found.as_ref();
        found.map(|(variant, way)| {
            // What was found with the order of slots forgotten, and not played.
            let played = Some(way).filter(|way| !way.is_empty());
            json!({"variant": name(*variant), "way": played})
        })
    };
    let searches: Vec<Value> = proof
        .kept
        .iter()
        .map(|one| {
            json!({
                "variants": one.variants.iter().map(|&n| name(n)).collect::<Vec<_>>(),
                "slots": one.slots, "states": one.states,
                "steps": one.steps, "memory_bytes": one.memory, "complete": one.complete,
                "seconds": one.took.map(|took| took.as_secs_f64()),
                "finished": one.finished,
                "beyond_bound": one.beyond_bound, "congruence_checked": one.checked,
                "harm": way(&one.harm), "unfair": way(&one.unfair),
                "unsound": way(&one.unsound),
                "incongruent": way(&one.incongruent), "unfair_start": way(&one.unfair_start),
                "won": one.won, "corner": way(&one.corner), "machine": way(&one.machine),
            })
        })
        .collect();
    let guided = guided_json(drill, proof);
    let milestones = exercise.drill.milestones.iter().zip(&proof.milestones);
    let milestones: serde_json::Map<String, Value> = milestones
        .map(|((name, _), &visits)| (name.clone(), json!(visits)))
        .collect();
    let harms = |mask| kinds(mask).map(harm_name).collect::<Vec<_>>();
    // What is open is neither true nor false.
    let told = |verdict| match verdict {
        Verdict::Holds => json!(true),
        Verdict::Fails => json!(false),
        Verdict::Open => Value::Null,
    };
    let claims: serde_json::Map<String, Value> = verdicts(proof, ended)
        .into_iter()
        .map(|(id, verdict)| (claim_name(id).to_owned(), told(verdict)))
        .collect();
    let vacuity = proof.vacuity.as_ref().map(|one| vacuity_json(drill, one));
    let not_asked: Vec<&str> = not_asked(proof).into_iter().map(claim_name).collect();
    json!({
        "kept": kept, "interrupted": ended, "core": core_hash(),
        "vacuity": vacuity, "races": races_json(drill, proof),
        "decisive_moments": moments_json(proof),
        "drill": exercise.drill.id,
        "hashes": {
            "drill": hash_of(&material.drill.text), "machine": hash_of(&material.machine.text),
            "rules": hash_of(&material.rules.text),
            "procedure": hash_of(&material.procedure.text),
        },
        "level": proof.level.number(), "not_asked": not_asked,
        "outside_forms": outside_json(drill, words),
        "facts": proof.facts.as_ref().map(facts_json),
        "written": written_json(written),
        "bounds": {"not_sure": exercise.drill.limits.not_sure},
        "proved": proof.holds() && !ended, "claims": claims, "whole": proof.whole,
        "searches": searches, "guide": guided, "milestones": milestones,
        "harms_spoken_of": harms(proof.spoken_of), "harms_reachable": harms(proof.reachable),
    })
}

/// How the guide fared in each variant, by each way.
fn guided_json(drill: &Loaded, proof: &Proof) -> Vec<Value> {
    let exercise = &drill.exercise;
    let guided = proof.guided.iter().map(|one| {
        json!({
            "variant": exercise.drill.variants[one.variant].id,
            "way": exercise.procedure.ways[one.way],
            "reference_us": one.time, "runs": one.runs, "failed": one.failed,
        })
    });
    guided.collect()
}

/// What was written, and what could not be.
fn written_json(written: &Written) -> Value {
    let failed = written.failed.iter();
    json!({
        "proof": written.proof, "attempts": written.attempts,
        "failed": failed
            .map(|(file, reason)| json!({"file": file, "reason": reason}))
            .collect::<Vec<_>>(),
    })
}

/// How many states there are, and how many of them differ without each fact.
fn facts_json((states, without): &Counts) -> Value {
    let names = StateFact::ALL.iter().zip(without);
    let without: serde_json::Map<String, Value> = names
        .map(|((name, _), count)| ((*name).to_owned(), json!(count)))
        .collect();
    json!({"slots": SLOTS_FREE, "states": states, "without": without})
}

/// The machine's timers that ran at once.
fn races_json(drill: &Loaded, proof: &Proof) -> Vec<Value> {
    let pairs = proof.races.pairs.iter();
    pairs
        .map(|(pair, states)| {
            json!({
                "one": pair.0.name(), "other": pair.1.name(), "states": states,
                "declared": drill.exercise.drill.races.contains(pair),
            })
        })
        .collect()
}

/// Where a moment decides what an act comes to.
fn moments_json(proof: &Proof) -> Vec<Value> {
    let sources = SOURCES.iter().zip(&proof.races.moments);
    sources
        .map(|(source, moments)| {
            json!({
                "source": source, "states": moments.states, "most": moments.most,
                "broken_off_by": kinds_of(moments.by).collect::<Vec<_>>(),
            })
        })
        .collect()
}

/// What each rule is needed for, how each trap springs, what is always wrong.
fn vacuity_json(drill: &Loaded, one: &Vacuity) -> Value {
    let exercise = &drill.exercise;
    let name = |variant: usize| exercise.drill.variants[variant].id.clone();
    let needs: Vec<Value> = one
        .needs
        .iter()
        .map(|need| {
            json!({
                "rule": need.rule, "first_broken": need.first_broken,
                "harm_without_in": need.turned.map(name),
                "corner_without_in": need.cornered.map(name), "sourced": need.sourced,
                "early": need.early, "tested": need.tested,
            })
        })
        .collect();
    let traps: Vec<Value> = one
        .traps
        .iter()
        .map(|trap| {
            json!({
                "trap": exercise.drill.traps[trap.trap].id,
                "armed_in": trap.variants.iter().map(|&n| name(n)).collect::<Vec<_>>(),
                "sprung_in": trap.way.as_ref().map(|(n, _)| name(*n)),
                "slots": trap.way.as_ref().map(|_| trap.slots),
                "way": trap.way.as_ref().map(|(_, way)| way),
            })
        })
        .collect();
    json!({
        "rules": needs, "traps": traps, "always_wrong": one.always_wrong,
        "unlisted": one.unlisted, "choices": choices_json(drill, &one.choices),
    })
}
