//! Ways that break a claim, as attempts: to be played, graded and looked at like any other.

use std::{
    fs,
    io::{self, Write},
    path::{Path, PathBuf},
};

use rackproof_attempt::{Attempt, Journal, Note, PlayedAs, Recorder, claim_note};
use rackproof_files::Problems;
use rackproof_library::{Loaded, new_attempt, shown};
use rackproof_phrases::claim_said;
use rackproof_words::{Arg, Words};

use super::{claims::Proof, job::Kept, keep::ways_of, lines::Way, tasks::SLOTS_FREE};
use crate::{Answer, Exit, lines::wrapped};

/// Writes an attempt for each claim that a search of the whole rack broke, and says what it shows.
pub(super) fn write(
    drill: &Loaded,
    proof: &Proof,
    folder: &Path,
    out: &mut dyn Write,
    words: &Words,
) -> Answer {
    let exercise = &drill.exercise;
    let whole = exercise.machine.slots();
    let mut exit = Exit::Done;
    for (number, claim, way) in broken(proof, whole) {
        let variant = exercise.drill.variants[number].id.as_str();
        let base = folder.join(format!("{}-{claim}-{variant}", exercise.drill.id));
        let sentence = ("claim", Arg::from(claim_said(words, claim)));
        let of_variant = ("variant", Arg::from(variant));
        let told = match keep(drill, number, claim, way, &base) {
            Ok(Some((path, at))) => words.say(
                "prove-way-attempt",
                &[
                    ("path", Arg::from(shown(&path))),
                    ("time", Arg::Clock(at)),
                    of_variant,
                    sentence,
                ],
            ),
            Ok(None) => {
                let slots = ("slots", Arg::from(i64::from(whole)));
                words.say("prove-way-strays", &[slots, of_variant, sentence])
            }
            Err((path, error)) => {
                exit = Exit::No;
                let reason = ("reason", Arg::from(error.to_string()));
                let path = ("path", Arg::from(shown(&path)));
                words.say("file-not-written", &[path, reason])
            }
        };
        write!(out, "{}", wrapped("", 0, &told))?;
    }
    for slots in small(proof, whole) {
        let slots = ("slots", Arg::from(i64::from(slots)));
        write!(
            out,
            "{}",
            wrapped("", 0, &words.say("prove-way-small", &[slots]))
        )?;
    }
    Ok(exit)
}

/// The ways on the whole rack that break a claim: variant, claim, way. Of the guide one a variant.
fn broken(proof: &Proof, whole: u8) -> Vec<(usize, &'static str, &Way)> {
    let searched = proof.kept.iter().filter(|one| one.slots == whole);
    let searched = searched.flat_map(|one| {
        let ways = ways_of(one).into_iter();
        ways.filter_map(|(claim, way)| {
            let (variant, way) = way.as_ref()?;
            // What was found and not played is no attempt.
            (!way.is_empty()).then_some((*variant, claim, way))
        })
    });
    let mut found: Vec<(usize, &'static str, &Way)> = searched.collect();
    for one in &proof.guided {
        let known = |(variant, claim, _): &(usize, &str, &Way)| {
            *variant == one.variant && *claim == "guide"
        };
        if let Some(way) = &one.broke
            && !found.iter().any(known)
        {
            found.push((one.variant, "guide", way));
        }
    }
    found
}

/// The smaller racks on which a claim was broken, each once.
fn small(proof: &Proof, whole: u8) -> Vec<u8> {
    let broke = |one: &&Kept| {
        let ways = ways_of(one).into_iter();
        ways.filter_map(|(_, way)| way.as_ref())
            .any(|(_, way)| !way.is_empty())
    };
    let searched = proof.kept.iter().filter(broke).map(|one| one.slots);
    let plain = proof.machine.as_ref().map(|_| SLOTS_FREE);
    let mut small: Vec<u8> = searched
        .chain(plain)
        .filter(|slots| *slots != whole)
        .collect();
    small.sort_unstable();
    small.dedup();
    small
}

/// Plays a way on the real machine and keeps it. Gives the path and when it ends. `None` if it
/// cannot be played.
fn keep(
    drill: &Loaded,
    variant: usize,
    claim: &str,
    way: &Way,
    base: &Path,
) -> Result<Option<(PathBuf, u64)>, (PathBuf, io::Error)> {
    let Some(attempt) = play(drill, variant, way) else {
        return Ok(None);
    };
    if let Some(folder) = base.parent() {
        fs::create_dir_all(folder).map_err(|error| (folder.to_owned(), error))?;
    }
    let (path, file) = new_attempt(None, &base.to_string_lossy())?;
    let (material, exercise) = (&drill.material, &drill.exercise);
    let mode = PlayedAs::Practice;
    let note = Note {
        noted: attempt.at(),
        note: claim_note(claim),
    };
    Recorder::begin(file, material, exercise, variant, mode, &drill.proof)
        .and_then(|mut recorder| {
            recorder.catch_up(&attempt)?;
            recorder.note(&note)?;
            recorder.end(&attempt).map(|_| ())
        })
        .map_err(|error| (path.clone(), error))?;
    Ok(Some((path, attempt.at())))
}

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
