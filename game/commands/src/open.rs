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
use rackproof_words::{Arg, Words};

use crate::{
    Answer, Exit,
    display::{Display, Missing},
    lines::wrapped,
    names::{Told, no_drill},
    play,
    problems::write_problems,
    reason::reason,
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
    let in_terminal = InTerminal::of(arguments, &drills);
    let several = drills.len() > 1 && !arguments.files.is_empty();
    let Some(display) = display else {
        if let Some(attempt) = attempt {
            return Refused::one("picture-no-window", Vec::new())
                .and("open-attempt-instead", vec![path_of(attempt)])
                .tell(out, words);
        }
        if several {
            let said = in_terminal.say("open-only-one", words);
            write!(out, "{}", wrapped("", 0, &said))?;
        }
        return play::run(&in_terminal.arguments, input, out, words);
    };
    let mut drills = drills.into_iter();
    let Some(first) = drills.next() else {
        return Ok(Exit::No);
    };
    let Err(missing) = display.open((first, drills.collect()), attempt, shortest) else {
        return Ok(Exit::Done);
    };
    tell_missing(&missing, out, words)?;
    if let Some(attempt) = attempt {
        let said = words.say("open-attempt-instead", &[path_of(attempt)]);
        write!(out, "\n{}", wrapped("", 0, &said))?;
        return Ok(Exit::No);
    }
    in_terminal.ask(input, out, words)
}

fn path_of(path: &Path) -> (&'static str, Arg<'static>) {
    ("path", Arg::from(shown(path)))
}

/// What the terminal plays in place of the window: one drill.
struct InTerminal {
    arguments: play::Arguments,
    drill: String,
}

impl InTerminal {
    /// The first that was named, else the one that is played when nothing is said.
    fn of(arguments: &Arguments, drills: &[Loaded]) -> InTerminal {
        let named = arguments.files.first();
        let first = drills.first().filter(|_| named.is_some());
        let first = first.map(|drill| drill.exercise.drill.id.as_str());
        InTerminal {
            arguments: play::Arguments::of(named.cloned()),
            drill: first.unwrap_or(FIRST_DRILL).to_owned(),
        }
    }

    fn say(&self, id: &str, words: &Words) -> String {
        words.say(id, &[("drill", Arg::from(self.drill.as_str()))])
    }

    /// Offers it, and plays if that is wished.
    fn ask(&self, input: &mut dyn BufRead, out: &mut dyn Write, words: &Words) -> Answer {
        write!(out, "\n{} ", self.say("open-terminal-instead", words))?;
        out.flush()?;
        let mut typed = String::new();
        input.read_line(&mut typed)?;
        writeln!(out)?;
        if typed.trim().to_lowercase() != words.say("play-yes", &[]) {
            write!(out, "{}", wrapped("", 0, &words.say("open-not-now", &[])))?;
            return Ok(Exit::No);
        }
        play::run(&self.arguments, input, out, words)
    }
}

/// What is opened: drills, the first one chosen, and an attempt if its debrief is to be shown.
type Opened<'f> = (Vec<Loaded>, Option<&'f Path>);

/// A message with its values.
type Said = Told;

/// Why nothing is opened: all of it at once.
struct Refused {
    told: Vec<Said>,
    problems: Problems,
    exit: Exit,
}

impl Refused {
    fn of(told: Vec<Said>, problems: Problems) -> Refused {
        Refused {
            told,
            problems,
            exit: Exit::No,
        }
    }

    fn one(id: &'static str, values: Vec<(&'static str, Arg<'static>)>) -> Refused {
        Refused::of(vec![(id, values)], Problems::new())
    }

    fn and(mut self, id: &'static str, values: Vec<(&'static str, Arg<'static>)>) -> Refused {
        self.told.push((id, values));
        self
    }

    fn tell(self, out: &mut dyn Write, words: &Words) -> Answer {
        for (id, values) in &self.told {
            write!(out, "{}", wrapped("", 0, &words.say(id, values)))?;
        }
        write_problems(out, words, &self.problems.sorted())?;
        Ok(self.exit)
    }
}

fn unread(path: &str, error: &io::Error) -> Said {
    let reason = ("reason", reason(error));
    ("file-not-read", vec![path_of(Path::new(path)), reason])
}

fn is_attempt(file: &str) -> bool {
    Path::new(file).extension() == Some(OsStr::new("attempt"))
}

/// The drills that are shipped.
fn shipped<'f>() -> Result<Opened<'f>, Refused> {
    let texts = shipped_drills(Path::new("here"));
    let unread = |error| Refused::of(vec![unread("scenarios", &error)], Problems::new());
    loaded(texts.map_err(unread)?, Vec::new()).map(|drills| (drills, None))
}

/// Drills by their files or names.
fn named<'f>(files: &'f [String]) -> Result<Opened<'f>, Refused> {
    if let Some(attempt) = files.iter().find(|file| is_attempt(file)) {
        let mut refused = Refused::one("open-attempt-alone", vec![path_of(Path::new(attempt))]);
        refused.exit = Exit::WrongUse;
        return Err(refused);
    }
    let (mut texts, mut missing) = (Vec::new(), Vec::new());
    for file in files {
        match drill(file, Path::new("here")) {
            Ok(text) => texts.push(text),
            Err(error) if error.kind() == io::ErrorKind::NotFound => {
                missing.push(no_drill(file));
            }
            Err(error) => missing.push(unread(file, &error)),
        }
    }
    loaded(texts, missing).map(|drills| (drills, None))
}

/// The drills of these texts, if nothing is missing and nothing is wrong in them.
fn loaded(texts: Vec<Text>, missing: Vec<Said>) -> Result<Vec<Loaded>, Refused> {
    let problems = Problems::new();
    let drills: Vec<Loaded> = texts
        .into_iter()
        .filter_map(|text| load(text, &problems))
        .collect();
    if missing.is_empty() && problems.is_empty() {
        Ok(drills)
    } else {
        Err(Refused::of(missing, problems))
    }
}

/// An attempt, with its drill as it was when it was played.
fn debriefed(file: &str) -> Result<Opened<'_>, Refused> {
    let path = Path::new(file);
    let unread = |error| Refused::of(vec![unread(file, &error)], Problems::new());
    let bytes = fs::read(path).map_err(unread)?;
    let kept = match read_attempt(&bytes) {
        Reading::Whole(kept) | Reading::CutOff(Some(kept)) => Some(kept),
        _ => None,
    };
    let problems = Problems::new();
    kept.and_then(|kept| load_material(kept.header.material, &problems))
        .map(|drill| (vec![drill], Some(path)))
        .ok_or_else(|| Refused::one("picture-unread", vec![path_of(path)]))
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
