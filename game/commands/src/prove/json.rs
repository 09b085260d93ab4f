//! A proof for a program that reads it.

use rackproof_attempt::{core_hash, hash_of};
use rackproof_library::Loaded;
use serde_json::{Value, json};

use super::{
    claim_list::{Verdict, not_asked, verdicts},
    claims::{Proof, kinds},
    interrupt::came,
    keep::{claim_name, kinds_of},
    lines::WayFrom,
    races::SOURCES,
    report::harm_name,
    vacuity::Vacuity,
};

/// The proof for a program.
pub(crate) fn json(drill: &Loaded, proof: &Proof, kept: bool) -> Value {
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
                "finished": one.finished,
                "beyond_bound": one.beyond_bound, "congruence_checked": one.checked,
                "harm": way(&one.harm), "unfair": way(&one.unfair),
                "unsound": way(&one.unsound),
                "incongruent": way(&one.incongruent), "unfair_start": way(&one.unfair_start),
                "won": one.won, "corner": way(&one.corner), "machine": way(&one.machine),
            })
        })
        .collect();
    let guided: Vec<Value> = proof
        .guided
        .iter()
        .map(|one| {
            json!({
                "variant": name(one.variant), "way": exercise.procedure.ways[one.way],
                "reference_us": one.time, "runs": one.runs, "failed": one.failed,
            })
        })
        .collect();
    let milestones = exercise.drill.milestones.iter().zip(&proof.milestones);
    let milestones: serde_json::Map<String, Value> = milestones
        .map(|((name, _), &met)| (name.clone(), json!(met)))
        .collect();
    let harms = |mask| kinds(mask).map(harm_name).collect::<Vec<_>>();
    let ended = came() && !kept;
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
        "bounds": {"not_sure": exercise.drill.limits.not_sure},
        "proved": proof.holds() && !ended, "claims": claims, "whole": proof.whole,
        "searches": searches, "guide": guided, "milestones": milestones,
        "harms_spoken_of": harms(proof.spoken_of), "harms_reachable": harms(proof.reachable),
    })
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
                "way": trap.way.as_ref().map(|(_, way)| way),
            })
        })
        .collect();
    json!({
        "rules": needs, "traps": traps, "always_wrong": one.always_wrong,
        "unlisted": one.unlisted,
    })
}
