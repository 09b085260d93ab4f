//! Without a command: the window, else the terminal.

use std::{
    io::{BufRead, Write},
    path::Path,
};

use rackproof_files::Problems;
use rackproof_library::{Loaded, load, shipped_drills};
use rackproof_phrases::problem_drawn;
use rackproof_words::{Arg, Words};

use crate::{
    Answer, Exit,
    display::{Display, Missing},
    lines::wrapped,
    play,
    shortest::shortest,
};

/// Opens the window. Where none can be opened it says what is missing and offers the terminal.
pub(crate) fn run(
    display: Option<&dyn Display>,
    input: &mut dyn BufRead,
    out: &mut dyn Write,
    words: &Words,
) -> Answer {
    let Some(display) = display else {
        return play::run(&play::Arguments::default(), input, out, words);
    };
    let problems = Problems::new();
    let drills: Vec<Loaded> = match shipped_drills(Path::new("here")) {
        Ok(texts) => {
            let loaded = texts.into_iter().filter_map(|text| load(text, &problems));
            loaded.collect()
        }
        Err(error) => {
            let reason = ("reason", Arg::from(error.to_string()));
            let told = words.say("file-not-read", &[("path", Arg::from("scenarios")), reason]);
            write!(out, "{}", wrapped("", 0, &told))?;
            return Ok(Exit::No);
        }
    };
    if !problems.is_empty() {
        for problem in problems.sorted() {
            writeln!(out, "{}\n", problem_drawn(words, &problem))?;
        }
        return Ok(Exit::No);
    }
    let mut drills = drills.into_iter();
    let Some(first) = drills.next() else {
        return Ok(Exit::No);
    };
    let Err(missing) = display.open((first, drills.collect()), shortest) else {
        return Ok(Exit::Done);
    };
    tell_missing(&missing, out, words)?;
    write!(out, "\n{} ", words.say("open-terminal-instead", &[]))?;
    out.flush()?;
    let mut typed = String::new();
    input.read_line(&mut typed)?;
    writeln!(out)?;
    if typed.trim().to_lowercase() != words.say("play-yes", &[]) {
        write!(out, "{}", wrapped("", 0, &words.say("open-not-now", &[])))?;
        return Ok(Exit::No);
    }
    play::run(&play::Arguments::default(), input, out, words)
}

/// Three lines: what is missing, what it is for, what to do.
pub(crate) fn tell_missing(
    missing: &Missing,
    out: &mut dyn Write,
    words: &Words,
) -> std::io::Result<()> {
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
