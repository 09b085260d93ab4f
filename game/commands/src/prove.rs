//! `prove PATH…`: explores every variant of a drill completely and says which claims hold.

mod claims;
mod job;
mod json;
mod report;
mod vacuity;

use std::{
    io::{self, Write},
    path::PathBuf,
};

use rackproof_files::Problems;
use rackproof_library::{Loaded, files_in, load, read_text, shown};
use rackproof_phrases::problem_drawn;
use rackproof_words::{Arg, Words};

use crate::{Answer, Exit};

/// The small rack on which everything is explored first.
const SLOTS_SMALL: u8 = 4;

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    #[arg(required = true, value_name = "PATH")]
    paths: Vec<PathBuf>,
    #[arg(long)]
    json: bool,
    /// Only the small rack: for a quick look. The result is then not a proof of the drill.
    #[arg(long)]
    small: bool,
    /// Only variants of this name.
    #[arg(long, value_name = "NAME")]
    variant: Option<String>,
}

/// Proves all drills found at the paths.
pub(crate) fn run(arguments: &Arguments, out: &mut dyn Write, words: &Words) -> Answer {
    let problems = Problems::new();
    let mut drills = Vec::new();
    for path in &arguments.paths {
        let files = if path.is_dir() {
            files_in(path, "ron")
        } else {
            Ok(vec![path.clone()])
        };
        match files {
            Ok(files) => drills.extend(files),
            Err(error) => return not_read(&shown(path), &error, out, words),
        }
    }
    let mut loaded = Vec::new();
    for path in drills {
        let text = match read_text(&path) {
            Ok(text) => text,
            Err(error) => return not_read(&shown(&path), &error, out, words),
        };
        loaded.extend(load(text, &problems));
    }
    if !problems.is_empty() {
        for problem in problems.sorted() {
            writeln!(out, "{}", problem_drawn(words, &problem))?;
        }
        return Ok(Exit::No);
    }
    if loaded.is_empty() {
        writeln!(out, "{}", words.say("prove-no-drill", &[]))?;
        return Ok(Exit::WrongUse);
    }
    let mut exit = Exit::Done;
    for drill in &loaded {
        exit = exit.and(prove_one(drill, arguments, out, words)?);
    }
    Ok(exit)
}

fn prove_one(drill: &Loaded, arguments: &Arguments, out: &mut dyn Write, words: &Words) -> Answer {
    let exercise = &drill.exercise;
    let chosen: Vec<usize> = exercise
        .drill
        .variants
        .iter()
        .enumerate()
        .filter(|(_, one)| {
            arguments
                .variant
                .as_ref()
                .is_none_or(|name| *name == one.id)
        })
        .map(|(number, _)| number)
        .collect();
    if chosen.is_empty() {
        let name = arguments.variant.clone().unwrap_or_default();
        writeln!(
            out,
            "{}",
            words.say("prove-no-variant", &[("name", Arg::from(name))])
        )?;
        return Ok(Exit::WrongUse);
    }
    let whole = exercise.machine.slots();
    let sizes: &[u8] = if arguments.small || whole <= SLOTS_SMALL {
        &[SLOTS_SMALL]
    } else {
        &[SLOTS_SMALL, whole]
    };
    if !arguments.json {
        report::write_head(drill, sizes, out, words)?;
    }
    let mut told = Ok(());
    let json = arguments.json;
    let proof = claims::prove(exercise, &chosen, sizes, &mut |line| {
        if !json && told.is_ok() {
            told = report::write_progress(line, out, words);
        }
    });
    told?;
    let holds = proof.holds();
    if arguments.json {
        writeln!(out, "{}", json::json(drill, &proof))?;
    } else {
        report::write_claims(drill, &proof, out, words)?;
    }
    Ok(if holds { Exit::Done } else { Exit::No })
}

fn not_read(path: &str, error: &io::Error, out: &mut dyn Write, words: &Words) -> Answer {
    let reason = error.to_string();
    let arguments = [("path", Arg::from(path)), ("reason", Arg::from(reason))];
    writeln!(out, "{}", words.say("file-not-read", &arguments))?;
    Ok(Exit::WrongUse)
}
