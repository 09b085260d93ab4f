//! Ways that break a claim, as attempts: to be played, graded and looked at like any other.

use std::{
    fs,
    io::{self, Write},
    path::{Path, PathBuf},
};

use rackproof_attempt::{Attempt, Journal, Note, PlayedAs, Recorder, claim_note, replay};
use rackproof_files::Problems;
use rackproof_library::{Loaded, new_attempt, shown};
use rackproof_phrases::claim_said;
use rackproof_words::{Arg, Words};

use super::{
    claims::Proof,
    job::{HARMED_KEPT, HARMS, INVARIANT, UNFAIR, flags},
    keep::ways_of,
    lines::Way,
    tasks::SLOTS_FREE,
    written::Written,
};
use crate::lines::paragraph;

/// A way that breaks a claim: slots, variant, claim, way.
type Broken<'p> = (u8, usize, &'static str, &'p Way);

/// Writes an attempt for each claim that a search of the whole rack broke, and says what it shows.
/// A way that was found on a smaller rack alone is played on the whole machine, and kept if it does
/// the same there.
pub(super) fn write(
    drill: &Loaded,
    proof: &Proof,
    folder: &Path,
    (out, written): (&mut dyn Write, &mut Written),
    words: &Words,
) -> io::Result<()> {
    let exercise = &drill.exercise;
    let whole = exercise.machine.slots();
    for (slots, number, claim, way) in broken(proof, whole) {
        let is_whole = slots == whole;
        let variant = exercise.drill.variants[number].id.as_str();
        let base = folder.join(format!("{}-{claim}-{variant}", exercise.drill.id));
        let sentence = ("claim", Arg::from(claim_said(words, claim)));
        let of_variant = ("variant", Arg::from(variant));
        let played = play(drill, number, way);
        let slots = ("slots", Arg::from(i64::from(slots)));
        let breaks = |attempt: &Attempt| is_whole || breaks(claim, attempt);
        let told = match played {
            None => words.say("prove-way-strays", &[slots, of_variant, sentence]),
            Some(attempt) if !breaks(&attempt) => {
                words.say("prove-way-small", &[slots, of_variant, sentence])
            }
            Some(attempt) => match record(drill, number, Some(claim), &attempt, &base) {
                Ok(path) => {
                    let path = shown(&path);
                    written.attempts.push(path.clone());
                    words.say(
                        "prove-way-attempt",
                        &[
                            ("path", Arg::from(path)),
                            ("time", Arg::Clock(attempt.at())),
                            of_variant,
                            sentence,
                        ],
                    )
                }
                Err((path, error)) => written.fail(&path, &error, words),
            },
        };
        paragraph(out, &told)?;
    }
    if proof.machine.is_some() {
        let slots = [("slots", Arg::from(i64::from(SLOTS_FREE)))];
        paragraph(out, &words.say("prove-way-plain", &slots))?;
    }
    Ok(())
}

/// Writes what shows how the drill goes: an attempt for each trap that springs it, and one of the
/// guide for each variant and way, with the neighbours quiet. Each is played on the machine as it
/// is.
pub(super) fn write_shown(
    drill: &Loaded,
    proof: &Proof,
    folder: &Path,
    (out, written): (&mut dyn Write, &mut Written),
    words: &Words,
) -> io::Result<()> {
    let exercise = &drill.exercise;
    let name = &exercise.drill.id;
    let traps = proof.vacuity.as_ref().map_or(&[][..], |one| &one.traps);
    let whole = exercise.machine.slots();
    let sprung = traps.iter().filter(|one| one.slots == whole);
    let sprung = sprung.filter_map(|one| {
        let (variant, way) = one.way.as_ref()?;
        let trap = &exercise.drill.traps[one.trap].id;
        Some((
            *variant,
            format!("{name}-trap-{trap}"),
            play(drill, *variant, way)?,
        ))
    });
    let guided = proof.guided.iter().filter_map(|one| {
        one.time?;
        let way = &exercise.procedure.ways[one.way];
        let attempt = replay(exercise, one.variant, &one.attempt)?;
        Some((one.variant, format!("{name}-guide-{way}"), attempt))
    });
    let before = written.attempts.len();
    for (variant, of_what, attempt) in sprung.chain(guided) {
        let id = exercise.drill.variants[variant].id.as_str();
        let base = folder.join(format!("{of_what}-{id}"));
        match record(drill, variant, None, &attempt, &base) {
            Ok(path) => written.attempts.push(shown(&path)),
            Err((path, error)) => {
                let said = written.fail(&path, &error, words);
                return paragraph(out, &said);
            }
        }
    }
    let told = [
        ("count", Arg::from((written.attempts.len() - before) as i64)),
        ("folder", Arg::from(shown(folder))),
    ];
    paragraph(out, &words.say("prove-shown", &told))
}

/// Whether an attempt ends with this claim broken. What its end alone does not show is none.
fn breaks(claim: &str, attempt: &Attempt) -> bool {
    let bits = match claim {
        "rules-suffice" => 1 << HARMED_KEPT,
        "fair" => 1 << UNFAIR,
        "fair-start" => HARMS,
        "machine" => 1 << INVARIANT,
        _ => 0,
    };
    flags(attempt.judged(), attempt.state()) & bits != 0
}

/// The ways that break a claim: slots, variant, claim, way. Of the guide one a variant; those on a
/// smaller rack if none on the whole rack breaks the claim.
fn broken(proof: &Proof, whole: u8) -> Vec<Broken<'_>> {
    let searched = proof.kept.iter().flat_map(|one| {
        let ways = ways_of(one).into_iter();
        ways.filter_map(|(claim, way)| {
            let (variant, way) = way.as_ref()?;
            // What was found and not played is no attempt.
            (!way.is_empty()).then_some((one.slots, *variant, claim, way))
        })
    });
    let (mut found, small): (Vec<_>, Vec<_>) =
        searched.partition(|&(slots, ..): &Broken<'_>| slots == whole);
    let is_new = |(_, _, claim, _): &Broken<'_>, found: &[Broken<'_>]| {
        found.iter().all(|(_, _, known, _)| known != claim)
    };
    for one in small {
        if is_new(&one, &found) {
            found.push(one);
        }
    }
    for one in &proof.guided {
        let known =
            |&(_, variant, claim, _): &Broken<'_>| variant == one.variant && claim == "guide";
        if let Some(way) = &one.broke
            && !found.iter().any(known)
        {
            found.push((whole, one.variant, "guide", way));
        }
    }
    found
}

/// Keeps an attempt, one that breaks a claim with a note that says so. Gives the path.
fn record(
    drill: &Loaded,
    variant: usize,
    claim: Option<&str>,
    attempt: &Attempt,
    base: &Path,
) -> Result<PathBuf, (PathBuf, io::Error)> {
    if let Some(folder) = base.parent() {
        fs::create_dir_all(folder).map_err(|error| (folder.to_owned(), error))?;
    }
    let (path, file) = new_attempt(None, &base.to_string_lossy())?;
    let (material, exercise) = (&drill.material, &drill.exercise);
    let mode = PlayedAs::Practice;
    let note = claim.map(|claim| Note {
        noted: attempt.at(),
        note: claim_note(claim),
    });
    Recorder::begin(file, material, exercise, variant, mode, &drill.proof)
        .and_then(|mut recorder| {
            recorder.catch_up(attempt)?;
            if let Some(note) = &note {
                recorder.note(note)?;
            }
            recorder.end(attempt).map(|_| ())
        })
        .map_err(|error| (path.clone(), error))?;
    Ok(path)
}

/// Plays a way on the real machine. `None` if it cannot be played there.
fn play(drill: &Loaded, variant: usize, way: &Way) -> Option<Attempt> {
    let exercise = &drill.exercise;
    let text = format!(
        "Journal(drill: \"{}\", variant: \"{}\", causes: [{}])",
        exercise.drill.id,
        exercise.drill.variants[variant].id,
        way.join(", ")
    );
    let problems = Problems::new();
    let report = problems.for_file("", &text);
    let journal = Journal::read(report, exercise)?;
    let mut attempt = Attempt::new(exercise.judged(variant)?);
    journal
        .run(&mut attempt, report, &mut |_| true)
        .then_some(attempt)
}

#[cfg(test)]
#[path = "ways_tests.rs"]
mod tests;
