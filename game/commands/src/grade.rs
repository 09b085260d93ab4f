//! `grade ATTEMPT…`: the verdict on kept attempts, with its evidence.

mod again;
mod differs;
mod findings;
mod json;
mod known;
mod not_graded;
mod tally;
mod way_on;
mod what_if;

use std::{
    fs, io,
    path::{Path, PathBuf},
};

use rackproof_attempt::{
    Foreign, Helped, Kept, PlayedAs, Reading, Rebuilt, claim_of, read_attempt,
};
use rackproof_files::Problems;
use rackproof_grade::{Grade, Verdict};
use rackproof_library::{files_in, shown};
use rackproof_phrases::{claim_said, problem_line, site_words};
use rackproof_words::{Arg, Words};

use crate::{
    Answer, Exit,
    lines::{on_one_line, wrapped},
    play::typed::readable,
    reason::reason,
};

use again::{Again, Flips, Named};
use differs::{Differs, Otherwise};
pub(crate) use findings::write_grade;
use known::Known;
use not_graded::not_graded;
use tally::Tally;
use way_on::{Asked, KeptWays, WaysOn};
use what_if::Other;

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    #[arg(required = true, value_name = "ATTEMPT")]
    attempts: Vec<PathBuf>,
    #[arg(long)]
    json: bool,
    #[arg(long)]
    plain_words: bool,
    #[arg(long, value_name = "N", allow_negative_numbers = true)]
    what_if: Option<String>,
    #[arg(long, value_name = "MOMENT", allow_negative_numbers = true)]
    way_on: Option<String>,
    #[arg(long, value_name = "FOLDER", requires = "way_on")]
    keep: Option<PathBuf>,
    #[arg(long, value_name = "FILE")]
    rules: Option<PathBuf>,
    #[arg(long, value_name = "FILE")]
    procedure: Option<PathBuf>,
}

/// What can be said of one file.
enum Graded {
    /// It cannot be read.
    Unread(io::Error),
    /// It is a folder without an attempt.
    None,
    /// It was cut off; so many causes are whole.
    CutOff(Option<Box<Kept>>),
    /// It was changed: the first line that does not fit.
    Edited(usize),
    /// It is not ours.
    Foreign(Foreign),
    /// This program cannot read its texts.
    Unreadable(Problems),
    /// Its texts are not those of the drill and variant that it names.
    OtherDrill(Box<Kept>),
    /// This program computes something else. What was recorded stands.
    Differs(Box<Differs>),
    /// Whole, and graded.
    Whole(Box<Whole>),
}

/// A whole attempt with its grade.
struct Whole {
    kept: Box<Kept>,
    rebuilt: Rebuilt,
    grade: Grade,
    /// What it becomes under the rules of today.
    again: Again,
    /// The finding that was asked about, with its other end.
    other: Option<(usize, Other)>,
    /// The ways on from the moment that was asked about.
    ways: Option<WaysOn>,
}

/// What is asked about each attempt.
#[derive(Clone, Copy)]
struct About {
    what_if: Option<usize>,
    way_on: Option<Asked>,
}

/// Grades all attempts. The answer is yes if all of them passed, by the rules that they keep, and
/// nothing is wrong with texts that were named.
pub(crate) fn run(arguments: &Arguments, out: &mut dyn io::Write, words: &Words) -> Answer {
    let (named, about) = match asked(arguments, out, words)? {
        Ok(asked) => asked,
        Err(exit) => return Ok(exit),
    };
    let files = attempts_in(&arguments.attempts);
    let several = files.len() > 1;
    let (mut exit, mut tally, mut flips) = (Exit::Done, Tally::default(), Flips::default());
    let (mut otherwise, mut known) = (Otherwise::default(), Known::default());
    for (number, (path, graded)) in files.into_iter().enumerate() {
        let mut graded = graded.unwrap_or_else(|| match fs::read(&path) {
            Ok(bytes) => grade(&bytes, &path, (&named, about), &mut known),
            Err(error) => Graded::Unread(error),
        });
        let passed = matches!(&graded, Graded::Whole(whole) if passed(&whole.grade));
        exit = exit.and(if passed { Exit::Done } else { Exit::No });
        let name = shown(&path);
        let site = match &graded {
            Graded::Whole(whole) => site_words(&whole.rebuilt.exercise.hall, arguments.plain_words),
            _ => None,
        };
        let words = site.as_ref().unwrap_or(words);
        let kept = keep_ways(&path, &graded, arguments);
        if kept.as_ref().is_some_and(Result::is_err) {
            exit = exit.and(Exit::No);
        }
        if arguments.json {
            writeln!(out, "{}", json::of(&name, &graded, kept.as_ref(), words))?;
        } else {
            if number > 0 {
                writeln!(out)?;
            }
            write_graded(&name, &graded, out, words)?;
            if let Some(kept) = &kept {
                way_on::tell_kept(kept, out, words)?;
            }
        }
        tally.take(&name, &graded);
        match &mut graded {
            Graded::Whole(whole) => {
                flips.take(&name, std::mem::replace(&mut whole.again, Again::Same));
            }
            Graded::Differs(differs) => otherwise.take(&name, differs),
            _ => {}
        }
    }
    if named.any() && flips.has_problems() {
        exit = exit.and(Exit::No);
    }
    if !arguments.json {
        if several {
            writeln!(out)?;
            tally.write(out, words)?;
        }
        flips.write(out, words)?;
        if several {
            otherwise.write(out, words)?;
        }
    }
    Ok(exit)
}

/// The texts that were named and what is asked, or the exit if one of them is wrong: then that was
/// said.
fn asked(
    arguments: &Arguments,
    out: &mut dyn io::Write,
    words: &Words,
) -> io::Result<Result<(Named, About), Exit>> {
    let named = match Named::read(arguments.rules.as_ref(), arguments.procedure.as_ref()) {
        Ok(named) => named,
        Err((path, error)) => {
            let path = ("path", Arg::from(shown(&path)));
            let told = [path, ("reason", reason(&error))];
            refuse(arguments, ("grade-unread", &told), out, words)?;
            return Ok(Err(Exit::No));
        }
    };
    let typed = arguments.way_on.as_deref();
    let way_on = typed.and_then(way_on::read);
    if let (Some(typed), None) = (typed, way_on) {
        let told = [("typed", Arg::from(readable(typed)))];
        refuse(arguments, ("ways-no-moment", &told), out, words)?;
        return Ok(Err(Exit::WrongUse));
    }
    let typed = arguments.what_if.as_deref();
    let what_if = typed.and_then(|typed| typed.trim().parse().ok());
    if let (Some(typed), None) = (typed, what_if) {
        let told = [("typed", Arg::from(readable(typed)))];
        refuse(arguments, ("what-if-no-number", &told), out, words)?;
        return Ok(Err(Exit::WrongUse));
    }
    Ok(Ok((named, About { what_if, way_on })))
}

/// Says why nothing is graded at all.
fn refuse(
    arguments: &Arguments,
    (id, told): (&str, &[(&str, Arg<'_>)]),
    out: &mut dyn io::Write,
    words: &Words,
) -> io::Result<()> {
    let said = words.say(id, told);
    if arguments.json {
        writeln!(out, "{}", json::refused(id, &said))
    } else {
        write!(out, "{}", wrapped("", 0, &said))
    }
}

/// Keeps the ways on as attempts, if that was asked for and there are some.
fn keep_ways(path: &Path, graded: &Graded, arguments: &Arguments) -> Option<KeptWays> {
    let (Some(folder), Graded::Whole(whole)) = (&arguments.keep, graded) else {
        return None;
    };
    let ways = whole.ways.as_ref()?;
    Some(way_on::keep(
        path,
        folder,
        (&whole.kept, &whole.rebuilt),
        ways,
    ))
}

/// The files, of a folder all attempts in it. With what can be said at once: that a folder has none
/// or cannot be read.
fn attempts_in(paths: &[PathBuf]) -> Vec<(PathBuf, Option<Graded>)> {
    let mut files = Vec::new();
    for path in paths {
        let found = match path.is_dir() {
            true => files_in(path, "attempt"),
            false => Ok(vec![path.clone()]),
        };
        match found {
            Ok(found) if found.is_empty() => files.push((path.clone(), Some(Graded::None))),
            Ok(found) => files.extend(found.into_iter().map(|file| (file, None))),
            Err(error) => files.push((path.clone(), Some(Graded::Unread(error)))),
        }
    }
    files
}

pub(crate) fn passed(grade: &Grade) -> bool {
    grade.verdict == Verdict::Passed
}

/// Grades one file, with the texts that were named and what is asked about it.
fn grade(bytes: &[u8], path: &Path, (named, about): (&Named, About), known: &mut Known) -> Graded {
    let kept = match read_attempt(bytes) {
        Reading::Whole(kept) => kept,
        Reading::CutOff(kept) => return Graded::CutOff(kept),
        Reading::Edited(line) => return Graded::Edited(line),
        Reading::Foreign(foreign) => return Graded::Foreign(foreign),
    };
    let problems = Problems::new();
    let Some(texts) = known.read(&kept.header.material, &problems) else {
        return Graded::Unreadable(problems);
    };
    let Some(mut rebuilt) = kept.rebuild_of(known.exercise(texts)) else {
        return Graded::OtherDrill(kept);
    };
    if let Some(difference) = rebuilt.difference.take() {
        let differs = Differs::of(kept, rebuilt.exercise, difference);
        return Graded::Differs(Box::new(differs));
    }
    let attempt = &rebuilt.attempt;
    let (exercise, references) = known.references(texts, kept.header.number, attempt.judged());
    let grade = attempt.grade_against(exercise, Some(references));
    let again = again::of(path, named, (&kept, &rebuilt, &grade), known);
    let other = about.what_if;
    let other = other.map(|finding| (finding, what_if::of(&rebuilt, &grade, finding)));
    let ways = about
        .way_on
        .map(|asked| way_on::of(&rebuilt, &grade, asked));
    Graded::Whole(Box::new(Whole {
        kept,
        rebuilt,
        grade,
        again,
        other,
        ways,
    }))
}

fn write_graded(
    name: &str,
    graded: &Graded,
    out: &mut dyn io::Write,
    words: &Words,
) -> io::Result<()> {
    if let Graded::Whole(whole) = graded {
        let rebuilt = &whole.rebuilt;
        writeln!(out, "{name}")?;
        writeln!(out, "{}", head(&whole.kept, words))?;
        for (at, claim) in whole.kept.notes.iter().filter_map(claim_of) {
            let arguments = [
                ("time", Arg::Clock(at)),
                ("claim", Arg::from(claim_said(words, &on_one_line(claim)))),
            ];
            write!(
                out,
                "{}",
                wrapped("", 0, &words.say("grade-way", &arguments))
            )?;
        }
        write_grade(
            rebuilt.attempt.judged(),
            &rebuilt.exercise,
            &whole.grade,
            out,
            words,
        )?;
        if let Some((finding, other)) = &whole.other {
            what_if::write(*finding, (rebuilt, other), out, words)?;
        }
        if let Some(ways) = &whole.ways {
            way_on::write((rebuilt, &whole.grade, ways), out, words)?;
        }
        return Ok(());
    }
    let (id, mut arguments) = not_graded(graded);
    arguments.push(("path", Arg::from(name)));
    write!(out, "{}", wrapped("", 0, &words.say(id, &arguments)))?;
    if let Graded::Differs(differs) = graded {
        differs.write(out, words)?;
    }
    if let Graded::Unreadable(problems) = graded {
        for problem in problems.sorted() {
            writeln!(out, "  {}", problem_line(words, &problem))?;
        }
    }
    Ok(())
}

/// The words for a way to play.
pub(crate) fn mode_id(mode: PlayedAs) -> &'static str {
    match mode {
        PlayedAs::Guided => "played-guided",
        PlayedAs::Practice => "played-practice",
        PlayedAs::Exam => "played-exam",
    }
}

/// What was played and how, and which help was asked for.
pub(crate) fn head(kept: &Kept, words: &Words) -> String {
    let header = &kept.header;
    let id = if header.proved {
        "grade-proved"
    } else {
        "grade-not-proved"
    };
    let helped = Helped::of(&kept.notes);
    let count = |number: usize| Arg::Number(i64::try_from(number).unwrap_or(i64::MAX));
    let arguments = [
        ("drill", Arg::from(header.drill.as_str())),
        ("variant", Arg::from(header.variant.as_str())),
        ("mode", Arg::from(words.say(mode_id(header.mode), &[]))),
        ("proved", Arg::from(words.say(id, &[]))),
        ("hints", count(helped.hints)),
        ("ways", count(helped.ways)),
    ];
    words.say("grade-head", &arguments)
}
