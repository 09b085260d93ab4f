//! Without a command, and `open FILE…`: the window, else the terminal.

use std::{
    ffi::OsStr,
    fs,
    io::{self, BufRead, Write},
    path::Path,
};

use rackproof_attempt::{Reading, Text, read_attempt};
use rackproof_files::Problems;
use rackproof_library::{FIRST_DRILL, Loaded, drill, load, load_material, shipped_drills, shown};
use rackproof_phrases::problem_drawn;
use rackproof_words::{Arg, Words};

use crate::{
    Answer, Exit,
    display::{Display, Missing},
    lines::wrapped,
    play,
    shortest::shortest,
};

/// What is opened: drills by their files or names, or one attempt. Nothing: the shipped drills.
#[derive(Debug, Default, clap::Args)]
pub(crate) struct Arguments {
    #[arg(value_name = "FILE")]
    files: Vec<String>,
}

/// Opens the window. Where none can be opened it says what is missing and offers the terminal.
pub(crate) fn run(
    arguments: &Arguments,
    display: Option<&dyn Display>,
    input: &mut dyn BufRead,
    out: &mut dyn Write,
    words: &Words,
) -> Answer {
    let opened = match &arguments.files[..] {
        [] => shipped(),
        [one] if is_attempt(one) => debriefed(one),
        files => named(files),
    };
    let (drills, attempt) = match opened {
        Ok(opened) => opened,
        Err(refused) => return refused.tell(out, words),
    };
    let in_terminal = play::Arguments::of(arguments.files.first().cloned());
    let Some(display) = display else {
        return match attempt {
            None => play::run(&in_terminal, input, out, words),
            Some(_) => Refused::told("picture-no-window", Vec::new()).tell(out, words),
        };
    };
    let mut drills = drills.into_iter();
    let Some(first) = drills.next() else {
        return Ok(Exit::No);
    };
    let Err(missing) = display.open((first, drills.collect()), attempt, shortest) else {
        return Ok(Exit::Done);
    };
    tell_missing(&missing, out, words)?;
    if attempt.is_some() {
        return Ok(Exit::No);
    }
    write!(out, "\n{} ", words.say("open-terminal-instead", &[]))?;
    out.flush()?;
    let mut typed = String::new();
    input.read_line(&mut typed)?;
    writeln!(out)?;
    if typed.trim().to_lowercase() != words.say("play-yes", &[]) {
        write!(out, "{}", wrapped("", 0, &words.say("open-not-now", &[])))?;
        return Ok(Exit::No);
    }
    play::run(&in_terminal, input, out, words)
}

/// What is opened: drills, the first one chosen, and an attempt if its debrief is to be shown.
type Opened<'f> = (Vec<Loaded>, Option<&'f Path>);

/// Why nothing is opened.
enum Refused {
    Told(&'static str, Vec<(&'static str, Arg<'static>)>, Exit),
    Problems(Problems),
}

impl Refused {
    fn told(id: &'static str, values: Vec<(&'static str, Arg<'static>)>) -> Refused {
        Refused::Told(id, values, Exit::No)
    }

    fn unread(path: &str, error: &io::Error) -> Refused {
        let reason = ("reason", Arg::from(error.to_string()));
        let path = ("path", Arg::from(shown(Path::new(path))));
        Refused::told("file-not-read", vec![path, reason])
    }

    fn tell(self, out: &mut dyn Write, words: &Words) -> Answer {
        match self {
            Refused::Told(id, values, exit) => {
                write!(out, "{}", wrapped("", 0, &words.say(id, &values)))?;
                Ok(exit)
            }
            Refused::Problems(problems) => {
                for problem in problems.sorted() {
                    writeln!(out, "{}\n", problem_drawn(words, &problem))?;
                }
                Ok(Exit::No)
            }
        }
    }
}

fn is_attempt(file: &str) -> bool {
    Path::new(file).extension() == Some(OsStr::new("attempt"))
}

/// The drills that are shipped.
fn shipped<'f>() -> Result<Opened<'f>, Refused> {
    let texts = shipped_drills(Path::new("here"));
    let texts = texts.map_err(|error| Refused::unread("scenarios", &error))?;
    loaded(texts).map(|drills| (drills, None))
}

/// Drills by their files or names.
fn named<'f>(files: &'f [String]) -> Result<Opened<'f>, Refused> {
    if let Some(attempt) = files.iter().find(|file| is_attempt(file)) {
        let path = ("path", Arg::from(shown(Path::new(attempt))));
        return Err(Refused::Told(
            "open-attempt-alone",
            vec![path],
            Exit::WrongUse,
        ));
    }
    let texts = files.iter().map(|file| {
        drill(file, Path::new("here")).map_err(|error| match error.kind() {
            io::ErrorKind::NotFound => {
                let first = ("first", Arg::from(FIRST_DRILL));
                Refused::told(
                    "play-no-drill",
                    vec![("name", Arg::from(file.clone())), first],
                )
            }
            _ => Refused::unread(file, &error),
        })
    });
    let texts = texts.collect::<Result<Vec<_>, _>>()?;
    loaded(texts).map(|drills| (drills, None))
}

fn loaded(texts: Vec<Text>) -> Result<Vec<Loaded>, Refused> {
    let problems = Problems::new();
    let drills: Vec<Loaded> = texts
        .into_iter()
        .filter_map(|text| load(text, &problems))
        .collect();
    if problems.is_empty() {
        Ok(drills)
    } else {
        Err(Refused::Problems(problems))
    }
}

/// An attempt, with its drill as it was when it was played.
fn debriefed(file: &str) -> Result<Opened<'_>, Refused> {
    let path = Path::new(file);
    let bytes = fs::read(path).map_err(|error| Refused::unread(file, &error))?;
    let kept = match read_attempt(&bytes) {
        Reading::Whole(kept) | Reading::CutOff(Some(kept)) => Some(kept),
        _ => None,
    };
    let problems = Problems::new();
    kept.and_then(|kept| load_material(kept.header.material, &problems))
        .map(|drill| (vec![drill], Some(path)))
        .ok_or_else(|| {
            let path = ("path", Arg::from(shown(path)));
            Refused::told("picture-unread", vec![path])
        })
}

/// Three lines: what is missing, what it is for, what to do.
pub(crate) fn tell_missing(
    missing: &Missing,
    out: &mut dyn Write,
    words: &Words,
) -> io::Result<()> {
    let told = match missing {
        Missing::Display => words.say("missing-display", &[]),
        Missing::Driver => words.say("missing-driver", &[]),
        Missing::Picture => words.say("missing-picture", &[]),
        Missing::Window => words.say("missing-window", &[]),
        Missing::Other(reason) => {
            // Others say it in lines of their own: here it has one.
            let reason = reason.split_whitespace().collect::<Vec<_>>().join(" ");
            words.say("missing-other", &[("reason", Arg::from(reason))])
        }
    };
    writeln!(out, "{told}")
}
