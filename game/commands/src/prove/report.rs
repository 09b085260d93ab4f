//! What a proof says: a table for a trainer, or JSON.

use std::io::{self, Write};

use rackproof_buffer::{HarmKind, StateFact};
use rackproof_library::Loaded;
use rackproof_phrases::named;
use rackproof_words::{Arg, Words};

use super::{
    choices,
    claim_list::{Verdict, mend_of, verdicts},
    claims::{Proof, kinds},
    facts::Counts,
    forms::any_outside,
    job,
    level::Level,
    level_told::{write_level, write_not_asked},
    race_table,
    tasks::SLOTS_FREE,
    vacuity::Vacuity,
};
use crate::lines::{paragraph, wrapped};

/// The claims with their verdicts, and what to mend where one fails. `open`: the searches were
/// ended before their time.
pub(crate) fn write_claims(
    drill: &Loaded,
    proof: &Proof,
    open: bool,
    out: &mut dyn Write,
    words: &Words,
) -> io::Result<()> {
    writeln!(out)?;
    write_level(drill, proof.level, out, words)?;
    for (id, verdict) in verdicts(proof, open) {
        let doubted = proof.level == Level::Unordered && proof.complete();
        let told = match verdict {
            Verdict::Holds => "prove-holds",
            Verdict::Fails => "prove-fails",
            Verdict::Open if doubted => "prove-doubt",
            Verdict::Open => "prove-open",
        };
        let label = format!("{:<10}", words.say(told, &[]));
        write!(out, "{}", wrapped(&label, 11, &words.say(id, &[])))?;
        if let Some(mend) = mend_of(id).filter(|_| verdict == Verdict::Fails) {
            write!(out, "{}", wrapped("", 11, &words.say(mend, &[])))?;
        }
    }
    if !open {
        write_stopped(drill, proof, out, words)?;
    }
    write_not_asked(proof, out, words)?;
    write_gaps((drill, proof, open), out, words)?;
    if let Some(vacuity) = proof.vacuity.as_ref().filter(|_| !open) {
        write_vacuity(drill, vacuity, out, words)?;
    }
    if proof.level != Level::Unordered {
        race_table::write((drill, proof, open), out, words)?;
    }
    if let (Some(counts), Some(first)) = (&proof.facts, drill.exercise.drill.variants.first()) {
        let told = facts_told(counts, (&first.id, SLOTS_FREE), words);
        writeln!(out)?;
        paragraph(out, &told)?;
    }
    write_ways(proof, drill, out, words)?;
    let total = |of: &dyn Fn(&job::Kept) -> u64| proof.kept.iter().map(of).sum::<u64>();
    let arguments = [
        ("states", Arg::from(total(&|one| one.states) as i64)),
        ("steps", Arg::from(total(&|one| one.steps) as i64)),
        ("checked", Arg::from(total(&|one| one.checked) as i64)),
        ("beyond", Arg::from(total(&|one| one.beyond_bound) as i64)),
    ];
    writeln!(out)?;
    paragraph(out, &words.say("prove-total", &arguments))?;
    write_times(drill, proof, out, words)?;
    let end = if open {
        "prove-interrupted"
    } else if proof.holds() && proof.level == Level::Unordered {
        "prove-proved-unordered"
    } else if proof.holds() {
        "prove-proved"
    } else {
        "prove-not-proved"
    };
    let name = [("drill", Arg::from(drill.exercise.drill.id.as_str()))];
    paragraph(out, &words.say(end, &name))?;
    paragraph(out, &words.say("prove-scope", &[]))
}

/// Why a search did not come to its end, and what would help.
fn write_stopped(
    drill: &Loaded,
    proof: &Proof,
    out: &mut dyn Write,
    words: &Words,
) -> io::Result<()> {
    let behaves = |one: &job::Kept| one.complete || one.incongruent.is_none();
    let mut ids = Vec::new();
    if !proof.kept.iter().all(behaves) {
        ids.push("prove-stopped-incongruent");
    }
    if proof.stopped_at_bound() {
        ids.push("prove-too-large");
        match proof.level {
            Level::Exact => ids.push("prove-too-large-exact"),
            Level::Squeezed => ids.push("prove-too-large-squeezed"),
            Level::Unordered => {}
        }
        if any_outside(drill) {
            ids.push("prove-too-large-forms");
        }
    }
    if !ids.is_empty() {
        let said: Vec<String> = ids.iter().map(|id| words.say(id, &[])).collect();
        writeln!(out)?;
        paragraph(out, &said.join(" "))?;
    }
    Ok(())
}

/// What was not met or reached. `open`: the harms were not searched for to the end.
fn write_gaps(
    (drill, proof, open): (&Loaded, &Proof, bool),
    out: &mut dyn Write,
    words: &Words,
) -> io::Result<()> {
    if !proof.whole {
        return Ok(());
    }
    let runs: usize = proof
        .guided
        .iter()
        .map(|one| one.runs - one.failed.min(one.runs))
        .sum();
    if !proof.milestones.is_empty() {
        writeln!(out, "\n{}", words.say("prove-milestones", &[]))?;
    }
    let names = drill.exercise.drill.milestones.iter().map(|(name, _)| name);
    for (name, &visits) in names.zip(&proof.milestones) {
        let id = match visits {
            0 => "prove-milestone-missing",
            _ => "prove-milestone",
        };
        let arguments = [
            (
                "name",
                Arg::from(named(words, &format!("milestone-{name}"), name)),
            ),
            ("visits", Arg::from(visits as i64)),
            ("runs", Arg::from(runs as i64)),
        ];
        write!(out, "{}", wrapped("  ", 4, &words.say(id, &arguments)))?;
    }
    let missing = if open {
        0
    } else {
        proof.spoken_of & !proof.reachable
    };
    for kind in kinds(missing) {
        let arguments = [("kind", Arg::from(harm_name(kind)))];
        writeln!(out, "{}", words.say("prove-harm-missing", &arguments))?;
    }
    Ok(())
}

/// What each fact costs in states.
pub(super) fn facts_told(
    (all, without): &Counts,
    (variant, slots): (&str, u8),
    words: &Words,
) -> String {
    let factors = StateFact::ALL
        .iter()
        .zip(without)
        .map(|((name, _), count)| {
            let factor = *all as f64 / *count as f64;
            format!("{name} {factor:.3}")
        });
    let arguments = [
        ("slots", Arg::from(i64::from(slots))),
        ("variant", Arg::from(variant)),
        ("list", Arg::from(factors.collect::<Vec<_>>().join(", "))),
    ];
    words.say("prove-facts", &arguments)
}

/// What each rule is needed for, how each trap springs, what is always wrong, what the environment
/// may choose.
fn write_vacuity(
    drill: &Loaded,
    vacuity: &Vacuity,
    out: &mut dyn Write,
    words: &Words,
) -> io::Result<()> {
    let variant = |number: usize| Arg::from(drill.exercise.drill.variants[number].id.as_str());
    writeln!(out)?;
    writeln!(out, "{}", words.say("prove-needs", &[]))?;
    for need in &vacuity.needs {
        let first = [
            (
                "rule",
                Arg::from(named(words, &format!("rule-{}", need.rule), &need.rule)),
            ),
            ("states", Arg::from(need.first_broken as i64)),
        ];
        let (id, last) = match (need.turned, need.cornered) {
            (Some(number), _) => ("prove-need-harm", variant(number)),
            (None, Some(number)) => ("prove-need-corner", variant(number)),
            _ if !need.tested => ("prove-need-untested", Arg::from("")),
            _ if need.early => ("prove-need-early", Arg::from("")),
            _ if need.sourced => ("prove-need-source", Arg::from("")),
            _ => ("prove-need-none", Arg::from("")),
        };
        let [rule, states] = first;
        let line = words.say(id, &[rule, states, ("variant", last)]);
        write!(out, "{}", wrapped("  ", 4, &line))?;
    }
    if let Some((rule, number)) = vacuity.incongruent {
        let rule = &vacuity.needs[rule].rule;
        let rule = Arg::from(named(words, &format!("rule-{rule}"), rule));
        let arguments = [("rule", rule), ("variant", variant(number))];
        let line = words.say("prove-need-incongruent", &arguments);
        write!(out, "{}", wrapped("  ", 4, &line))?;
    }
    writeln!(out)?;
    writeln!(out, "{}", words.say("prove-traps", &[]))?;
    for trap in &vacuity.traps {
        let name = &drill.exercise.drill.traps[trap.trap].id;
        let name = Arg::from(named(words, &format!("trap-{name}"), name));
        let count = Arg::from(trap.variants.len() as i64);
        let line = match &trap.way {
            Some((number, way)) => words.say(
                "prove-trap-sprung",
                &[
                    ("trap", name),
                    ("count", count),
                    ("variant", variant(*number)),
                    ("steps", Arg::from(way.len() as i64)),
                    ("slots", Arg::from(i64::from(trap.slots))),
                ],
            ),
            None => words.say("prove-trap-dead", &[("trap", name), ("count", count)]),
        };
        write!(out, "{}", wrapped("  ", 4, &line))?;
    }
    let list = vacuity.always_wrong.join(", ");
    let line = words.say("prove-always-wrong", &[("list", Arg::from(list))]);
    writeln!(out)?;
    paragraph(out, &line)?;
    choices::write(drill, &vacuity.choices, out, words)
}

/// The shortest way to what should not be, once for each claim.
fn write_ways(proof: &Proof, drill: &Loaded, out: &mut dyn Write, words: &Words) -> io::Result<()> {
    for one in &proof.kept {
        let found = [
            ("prove-way-harm", &one.harm),
            ("prove-way-unfair", &one.unfair),
            ("prove-way-unsound", &one.unsound),
            ("prove-way-incongruent", &one.incongruent),
            ("prove-way-start", &one.unfair_start),
            ("prove-way-corner", &one.corner),
            ("prove-way-machine", &one.machine),
        ];
        for (id, way) in found {
            let Some((variant, way)) = way else {
                continue;
            };
            let id = if way.is_empty() && proof.level == Level::Unordered {
                "prove-way-unplayed"
            } else {
                id
            };
            let arguments = [
                (
                    "variant",
                    Arg::from(drill.exercise.drill.variants[*variant].id.as_str()),
                ),
                ("slots", Arg::from(i64::from(one.slots))),
            ];
            writeln!(out)?;
            paragraph(out, &words.say(id, &arguments))?;
            for line in way {
                writeln!(out, "  {line},")?;
            }
        }
    }
    if let Some(way) = &proof.machine {
        let slots = ("slots", Arg::from(i64::from(SLOTS_FREE)));
        writeln!(out)?;
        paragraph(out, &words.say("prove-way-machine-plain", &[slots]))?;
        for line in way {
            writeln!(out, "  {line},")?;
        }
    }
    Ok(())
}

fn write_times(
    drill: &Loaded,
    proof: &Proof,
    out: &mut dyn Write,
    words: &Words,
) -> io::Result<()> {
    writeln!(out)?;
    writeln!(out, "{}", words.say("prove-times", &[]))?;
    for one in &proof.guided {
        let way = &drill.exercise.procedure.ways[one.way];
        let arguments = [
            (
                "variant",
                Arg::from(drill.exercise.drill.variants[one.variant].id.as_str()),
            ),
            ("way", Arg::from(named(words, &format!("way-{way}"), way))),
            ("time", Arg::Clock(one.time.unwrap_or(0))),
            ("runs", Arg::from(one.runs as i64)),
        ];
        let id = if one.failed == 0 {
            "prove-time"
        } else {
            "prove-guide-failed"
        };
        writeln!(out, "  {}", words.say(id, &arguments))?;
    }
    writeln!(out)
}

pub(super) fn harm_name(kind: HarmKind) -> &'static str {
    match kind {
        HarmKind::Overstrained => "overstrained",
        HarmKind::SprungOut => "sprung-out",
        HarmKind::Broken => "broken",
        HarmKind::Dropped => "dropped",
        HarmKind::Sheared => "sheared",
        HarmKind::Collided => "collided",
        HarmKind::HandInjured => "hand-injured",
        HarmKind::PropStruck => "prop-struck",
        HarmKind::PartsStruck => "parts-struck",
        HarmKind::LiftFell => "lift-fell",
        HarmKind::CaughtUnderLift => "caught-under-lift",
        HarmKind::Charged => "charged",
        HarmKind::Burned => "burned",
    }
}
