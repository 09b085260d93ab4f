//! `grade ATTEMPT…`: the verdict on kept attempts, with its evidence.

mod findings;
mod json;

use std::{fs, io, path::PathBuf};

use rackproof_attempt::{
    Difference, Foreign, Kept, Note, PlayedAs, Reading, Rebuilt, read_attempt,
};
use rackproof_files::Problems;
use rackproof_grade::{Grade, Verdict};
use rackproof_library::shown;
use rackproof_phrases::{problem_line, site_words};
use rackproof_words::{Arg, Words};

use crate::{
    Answer, Exit,
    lines::wrapped,
    prove::{claim_of, sentence},
};

pub(crate) use findings::write_grade;

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    #[arg(required = true, value_name = "ATTEMPT")]
    attempts: Vec<PathBuf>,
    #[arg(long)]
    json: bool,
    #[arg(long)]
    plain_words: bool,
}

/// What can be said of one file.
enum Graded {
    /// It cannot be read.
    Unread(io::Error),
    /// It was cut off; so many causes are whole.
    CutOff(Option<Box<Kept>>),
    /// It was changed: the first line that does not fit.
    Edited(usize),
    /// It is not ours.
    Foreign(Foreign),
    /// This program cannot read its texts.
    Unreadable(Problems),
    /// This program computes something else.
    Differs(Box<Kept>, Difference),
    /// Whole, and graded.
    Whole(Box<Kept>, Box<Rebuilt>, Box<Grade>),
}

/// Grades all attempts. The answer is yes if all of them passed.
pub(crate) fn run(arguments: &Arguments, out: &mut dyn io::Write, words: &Words) -> Answer {
    let mut exit = Exit::Done;
    for (number, path) in arguments.attempts.iter().enumerate() {
        let graded = match fs::read(path) {
            Ok(bytes) => grade(&bytes),
            Err(error) => Graded::Unread(error),
        };
        let passed = matches!(&graded, Graded::Whole(.., grade) if passed(grade));
        exit = exit.and(if passed { Exit::Done } else { Exit::No });
        let name = shown(path);
        let site = match &graded {
            Graded::Whole(_, rebuilt, _) => {
                site_words(&rebuilt.exercise.hall, arguments.plain_words)
            }
            _ => None,
        };
        let words = site.as_ref().unwrap_or(words);
        if arguments.json {
            writeln!(out, "{}", json::of(&name, &graded, words))?;
        } else {
            if number > 0 {
                writeln!(out)?;
            }
            write_graded(&name, &graded, out, words)?;
        }
    }
    Ok(exit)
}

pub(crate) fn passed(grade: &Grade) -> bool {
    grade.verdict == Verdict::Passed
}

fn grade(bytes: &[u8]) -> Graded {
    let kept = match read_attempt(bytes) {
        Reading::Whole(kept) => kept,
        Reading::CutOff(kept) => return Graded::CutOff(kept),
        Reading::Edited(line) => return Graded::Edited(line),
        Reading::Foreign(foreign) => return Graded::Foreign(foreign),
    };
    let problems = Problems::new();
    let Some(mut rebuilt) = kept.rebuild(&problems) else {
        return Graded::Unreadable(problems);
    };
    if let Some(difference) = rebuilt.difference.take() {
        return Graded::Differs(kept, difference);
    }
    let grade = rebuilt.attempt.grade(&rebuilt.exercise);
    Graded::Whole(kept, Box::new(rebuilt), Box::new(grade))
}

/// The id of what became of a file that is not graded, and its values.
fn not_graded(graded: &Graded) -> (&'static str, Vec<(&'static str, Arg<'_>)>) {
    let number = |number: usize| Arg::Number(i64::try_from(number).unwrap_or(i64::MAX));
    match graded {
        Graded::Unread(error) => (
            "grade-unread",
            vec![("reason", Arg::from(error.to_string()))],
        ),
        Graded::CutOff(kept) => {
            let causes = kept.as_ref().map_or(0, |kept| kept.causes());
            ("grade-cut-off", vec![("causes", number(causes))])
        }
        Graded::Edited(line) => ("grade-edited", vec![("line", number(*line))]),
        Graded::Foreign(Foreign::NotAnAttempt) => ("grade-foreign", Vec::new()),
        Graded::Foreign(Foreign::Later(format)) => (
            "grade-later",
            vec![("format", Arg::from(format.to_string()))],
        ),
        Graded::Unreadable(problems) => (
            "grade-unreadable",
            vec![("problems", number(problems.len()))],
        ),
        Graded::Differs(kept, difference) => (
            "grade-differs",
            vec![
                ("line", number(difference.line)),
                ("recorded", Arg::from(difference.recorded.as_str())),
                ("computed", Arg::from(difference.computed.as_str())),
                ("program", Arg::from(kept.header.program.as_str())),
            ],
        ),
        Graded::Whole(..) => ("", Vec::new()),
    }
}

fn write_graded(
    name: &str,
    graded: &Graded,
    out: &mut dyn io::Write,
    words: &Words,
) -> io::Result<()> {
    if let Graded::Whole(kept, rebuilt, grade) = graded {
        writeln!(out, "{name}")?;
        writeln!(out, "{}", head(kept, words))?;
        for (at, claim) in kept.notes.iter().filter_map(broken_claim) {
            let arguments = [
                ("time", Arg::Clock(at)),
                ("claim", Arg::from(sentence(words, claim))),
            ];
            write!(
                out,
                "{}",
                wrapped("", 0, &words.say("grade-way", &arguments))
            )?;
        }
        return write_grade(
            rebuilt.attempt.judged(),
            &rebuilt.exercise,
            grade,
            out,
            words,
        );
    }
    let (id, mut arguments) = not_graded(graded);
    arguments.push(("path", Arg::from(name)));
    write!(out, "{}", wrapped("", 0, &words.say(id, &arguments)))?;
    if let Graded::Unreadable(problems) = graded {
        for problem in problems.sorted() {
            writeln!(out, "  {}", problem_line(words, &problem))?;
        }
    }
    Ok(())
}

/// When a way that a proof found breaks a claim, and which.
fn broken_claim(note: &Note) -> Option<(u64, &str)> {
    claim_of(note).map(|claim| (note.noted, claim))
}

/// The words for a way to play.
pub(crate) fn mode_id(mode: PlayedAs) -> &'static str {
    match mode {
        PlayedAs::Guided => "played-guided",
        PlayedAs::Practice => "played-practice",
        PlayedAs::Exam => "played-exam",
    }
}

fn head(kept: &Kept, words: &Words) -> String {
    let header = &kept.header;
    let id = if header.proved {
        "grade-proved"
    } else {
        "grade-not-proved"
    };
    let hints = kept
        .notes
        .iter()
        .filter(|note| note.note.starts_with("Hint"))
        .count();
    let arguments = [
        ("drill", Arg::from(header.drill.as_str())),
        ("variant", Arg::from(header.variant.as_str())),
        ("mode", Arg::from(words.say(mode_id(header.mode), &[]))),
        ("proved", Arg::from(words.say(id, &[]))),
        (
            "hints",
            Arg::Number(i64::try_from(hints).unwrap_or(i64::MAX)),
        ),
    ];
    words.say("grade-head", &arguments)
}
