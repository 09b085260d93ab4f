//! Ways that break a claim, as attempts: to be played, graded and looked at like any other.

use std::{
    fs,
    io::{self, Write},
    path::{Path, PathBuf},
};

use rackproof_attempt::{Attempt, Journal, Note, PlayedAs, Recorder};
use rackproof_files::Problems;
use rackproof_library::{Loaded, new_attempt, shown};
use rackproof_words::{Arg, Words};

use super::{claims::Proof, job::Way, keep::ways_of};
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
    let mut exit = Exit::Done;
    let mut small = Vec::new();
    for one in &proof.kept {
        let broken: Vec<_> = ways_of(one)
            .into_iter()
            .filter_map(|(claim, way)| Some((claim, way.as_ref()?)))
            .collect();
        if one.slots != exercise.machine.slots() {
            if !broken.is_empty() && !small.contains(&one.slots) {
                small.push(one.slots);
            }
            continue;
        }
        for (claim, (number, way)) in broken {
            let variant = exercise.drill.variants[*number].id.as_str();
            let base = folder.join(format!("{}-{claim}-{variant}", exercise.drill.id));
            let sentence = ("claim", Arg::from(sentence(words, claim)));
            let of_variant = ("variant", Arg::from(variant));
            let told = match keep(drill, *number, claim, way, &base) {
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
                    let slots = ("slots", Arg::from(i64::from(one.slots)));
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
    }
    for slots in small {
        let slots = ("slots", Arg::from(i64::from(slots)));
        write!(
            out,
            "{}",
            wrapped("", 0, &words.say("prove-way-small", &[slots]))
        )?;
    }
    Ok(exit)
}

/// What a claim says.
pub(crate) fn sentence(words: &Words, claim: &str) -> String {
    rackproof_phrases::named(words, &format!("prove-claim-{claim}"), claim)
}

/// The claim that a note names: an attempt with such a note is a way that a proof found.
pub(crate) fn claim_of(note: &Note) -> Option<&str> {
    note.note.strip_prefix(NOTED)?.strip_suffix(')')
}

/// How a note begins that names a claim.
const NOTED: &str = "Claim(";

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
        note: format!("{NOTED}{claim})"),
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
