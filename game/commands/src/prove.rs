//! `prove PATH…`: explores every variant of a drill completely and says which claims hold.

mod claim_list;
mod claims;
mod facts;
mod interrupt;
mod job;
mod json;
mod keep;
mod level;
mod level_told;
mod lines;
mod race_table;
mod races;
mod report;
mod sizes;
mod sound;
mod spoken;
mod survey;
mod tasks;
mod unordered;
mod vacuity;
mod ways;
mod workers;

#[cfg(test)]
mod mutant_tests;

use std::{
    io::{self, Write},
    path::{Path, PathBuf},
};

use rackproof_attempt::{Exercise, Proof as Kept, Text};
use rackproof_files::Problems;
use rackproof_library::{
    Loaded, drill, files_in, is_proof, keep_proof, kept_proof, load, read_text, shown,
};
use rackproof_words::{Arg, Words};

use crate::{Answer, Exit, lines::wrapped, problems::write_problems};

use level::{Effort, Level};

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
    /// Searches racks of these sizes side by side, and proves nothing.
    #[arg(long, value_name = "SLOTS", value_delimiter = ',')]
    #[arg(conflicts_with_all = ["json", "small"])]
    slots: Vec<u8>,
    /// How much is merged: 4, exact; 5, runs of alike slots squeezed as well; 6, the order of slots
    /// forgotten.
    #[arg(long, value_name = "LEVEL", default_value_t = 4)]
    level: u8,
    /// Though nothing changed since it was proved.
    #[arg(long)]
    again: bool,
    /// Where the attempts go that break a claim. Without it: beside the drill, if it is proved
    /// whole.
    #[arg(long, value_name = "FOLDER")]
    ways: Option<PathBuf>,
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
            Ok(files) => drills.extend(files.into_iter().filter(|file| !is_proof(file))),
            Err(error) => return not_read(&shown(path), &error, out, words),
        }
    }
    let mut loaded = Vec::new();
    for path in drills {
        // A drill goes by its name as well: the one that is compiled in has no other.
        let text = match read_text(&path).or_else(|error| drill_named(&path, error)) {
            Ok(text) => text,
            Err(error) => return not_read(&shown(&path), &error, out, words),
        };
        loaded.extend(load(text, &problems));
    }
    if !problems.is_empty() {
        write_problems(out, words, &problems.sorted())?;
        return Ok(Exit::No);
    }
    if loaded.is_empty() {
        writeln!(out, "{}", words.say("prove-no-drill", &[]))?;
        return Ok(Exit::WrongUse);
    }
    if let Some(slots) = sizes::impossible(&arguments.slots) {
        let slots = ("slots", Arg::from(i64::from(slots)));
        writeln!(out, "{}", words.say("prove-sizes-none", &[slots]))?;
        return Ok(Exit::WrongUse);
    }
    let Some(level) = Level::numbered(arguments.level) else {
        let level = ("level", Arg::from(i64::from(arguments.level)));
        writeln!(out, "{}", words.say("prove-level-none", &[level]))?;
        return Ok(Exit::WrongUse);
    };
    interrupt::heed();
    let mut exit = Exit::Done;
    for drill in &loaded {
        if interrupt::came() {
            return Ok(Exit::No);
        }
        exit = exit.and(prove_one(drill, (arguments, level.in_full()), out, words)?);
    }
    Ok(exit)
}

/// The numbers of the variants that are to be proved.
fn chosen(drill: &Loaded, arguments: &Arguments) -> Vec<usize> {
    let wanted = arguments.variant.as_ref();
    let variants = drill.exercise.drill.variants.iter().enumerate();
    variants
        .filter(|(_, one)| wanted.is_none_or(|name| *name == one.id))
        .map(|(number, _)| number)
        .collect()
}

/// The racks on which all is searched: the small one and the whole one.
fn sizes_of(exercise: &Exercise, arguments: &Arguments) -> Vec<u8> {
    let (slots, small) = (exercise.machine.slots(), exercise.drill.limits.small_rack);
    if slots <= small {
        vec![slots]
    } else if arguments.small {
        vec![small]
    } else {
        vec![small, slots]
    }
}

fn prove_one(
    drill: &Loaded,
    (arguments, effort): (&Arguments, Effort),
    out: &mut dyn Write,
    words: &Words,
) -> Answer {
    let exercise = &drill.exercise;
    let chosen = chosen(drill, arguments);
    if chosen.is_empty() {
        let name = arguments.variant.clone().unwrap_or_default();
        writeln!(
            out,
            "{}",
            words.say("prove-no-variant", &[("name", Arg::from(name))])
        )?;
        return Ok(Exit::WrongUse);
    }
    if !exercise.rules.fit_keys() {
        let name = [("drill", Arg::from(exercise.drill.id.as_str()))];
        write!(
            out,
            "{}",
            wrapped("", 0, &words.say("prove-rules-large", &name))
        )?;
        return Ok(Exit::No);
    }
    if !arguments.slots.is_empty() {
        return sizes::write(exercise, &chosen, (&arguments.slots, effort), out, words);
    }
    let is_whole = chosen.len() == exercise.drill.variants.len() && !arguments.small;
    if is_whole && drill.proof.shows_something() {
        let kept = kept_proof(&drill.material.drill)?;
        if let Some(exit) = tell_kept(drill, kept.as_ref(), (arguments, effort.level), out, words)?
        {
            return Ok(exit);
        }
    }
    let sizes = &sizes_of(exercise, arguments);
    if !arguments.json {
        report::write_head(drill, (sizes, effort), &chosen, out, words)?;
    }
    let mut told = Ok(());
    let json = arguments.json;
    let proof = claims::prove(exercise, &chosen, (sizes, effort), &mut |line| {
        if !json && told.is_ok() {
            told = report::write_progress(line, out, words);
        }
    });
    told?;
    let came = interrupt::came();
    let holds = proof.holds() && !came;
    if json {
        writeln!(out, "{}", json::json(drill, &proof, false))?;
    } else {
        report::write_claims(drill, &proof, came, out, words)?;
    }
    let mut exit = if holds { Exit::Done } else { Exit::No };
    // What goes with an answer for a program goes without words.
    let mut nowhere = io::sink();
    let out = if json { &mut nowhere } else { out };
    if is_whole && !came {
        exit = exit.and(keep(drill, &proof, out, words)?);
    } else if !came {
        write!(
            out,
            "{}",
            wrapped("", 0, &words.say("prove-not-written", &[]))
        )?;
    }
    let beside = PathBuf::from(&drill.material.drill.file);
    let beside = beside.parent().map(Path::to_owned).filter(|_| is_whole);
    if let Some(folder) = arguments.ways.clone().or(beside) {
        exit = exit.and(ways::write(drill, &proof, &folder, out, words)?);
    }
    Ok(exit)
}

/// Says what a kept proof said, if it is one of this program. It is not replaced by one that shows
/// less, though it was asked for again.
fn tell_kept(
    drill: &Loaded,
    kept: Option<&Text>,
    (arguments, level): (&Arguments, Level),
    out: &mut dyn Write,
    words: &Words,
) -> io::Result<Option<Exit>> {
    let problems = Problems::new();
    let read = |text: &Text| Kept::read(problems.for_file(&text.file, &text.text));
    let proof = kept
        .and_then(read)
        .and_then(|kept| keep::from_kept(drill, &kept))
        // What merged more than is asked for now shows less.
        .filter(|proof| proof.level <= level);
    let (Some(proof), Some(kept)) = (proof, kept) else {
        return Ok(None);
    };
    let number = |level: Level| Arg::from(i64::from(level.number()));
    let path = ("path", Arg::from(kept.file.as_str()));
    if arguments.again {
        if proof.level == level {
            return Ok(None);
        }
        let told = [
            ("level", number(level)),
            ("kept", number(proof.level)),
            path,
        ];
        let said = words.say("prove-kept-more", &told);
        write!(out, "{}", wrapped("", 0, &said))?;
        return Ok(Some(Exit::WrongUse));
    }
    if arguments.json {
        writeln!(out, "{}", json::json(drill, &proof, true))?;
        return Ok(Some(Exit::Done));
    }
    let arguments = [("drill", Arg::from(drill.exercise.drill.id.as_str())), path];
    write!(
        out,
        "{}",
        wrapped("", 0, &words.say("prove-kept", &arguments))
    )?;
    report::write_claims(drill, &proof, false, out, words)?;
    Ok(Some(Exit::Done))
}

/// Keeps a proof beside its drill, and says where.
fn keep(drill: &Loaded, proof: &claims::Proof, out: &mut dyn Write, words: &Words) -> Answer {
    let path = Path::new(&drill.material.drill.file);
    let (id, path, exit) = match keep_proof(path, &keep::to_keep(drill, proof)) {
        Ok(path) if proof.holds() => ("prove-written", path, Exit::Done),
        Ok(path) => ("prove-written-failed", path, Exit::Done),
        Err((path, error)) => {
            let reason = ("reason", Arg::from(error.to_string()));
            let path = ("path", Arg::from(shown(&path)));
            let told = words.say("file-not-written", &[path, reason]);
            write!(out, "{}", wrapped("", 0, &told))?;
            return Ok(Exit::No);
        }
    };
    let told = words.say(id, &[("path", Arg::from(shown(&path)))]);
    write!(out, "{}", wrapped("", 0, &told))?;
    Ok(exit)
}

fn drill_named(path: &Path, error: io::Error) -> io::Result<Text> {
    if error.kind() == io::ErrorKind::NotFound {
        drill(&shown(path), Path::new("here")).map_err(|_| error)
    } else {
        Err(error)
    }
}

fn not_read(path: &str, error: &io::Error, out: &mut dyn Write, words: &Words) -> Answer {
    let reason = error.to_string();
    let arguments = [("path", Arg::from(path)), ("reason", Arg::from(reason))];
    writeln!(out, "{}", words.say("file-not-read", &arguments))?;
    Ok(Exit::WrongUse)
}
