//! `check PATH…`: reads every file and says all that is wrong in them, at once.

use std::{
    collections::BTreeSet,
    fs, io,
    path::{Path, PathBuf},
};

use rackproof_attempt::{Attempt, Exercise, Journal, Text, journal_drill};
use rackproof_drill::file;
use rackproof_files::{Fields, Problem, Problems, Report, Value, read};
use rackproof_grade::{Definitions, Procedure, References, Rules};
use rackproof_library::{asset, drill, files_in, load, read_text, shown};
use rackproof_phrases::{problem_drawn, problem_json};
use rackproof_words::{Arg, Words};

use crate::{Answer, Exit, lines::wrapped};

/// Slots for which rules and procedures are compiled when no machine is at hand: the most that a
/// machine may have, so that all limits count.
const SLOTS: u8 = 40;

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    #[arg(required = true, value_name = "PATH")]
    paths: Vec<PathBuf>,
    #[arg(long)]
    json: bool,
}

/// What a file is, by the name of its record.
const ROOTS: [(&str, Root); 5] = [
    ("Machine", Root::Machine),
    ("Drill", Root::Drill),
    ("Rules", Root::Rules),
    ("Procedure", Root::Procedure),
    ("Journal", Root::Journal),
];

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Root {
    Machine,
    Drill,
    Rules,
    Procedure,
    Journal,
}

/// Checks all paths.
pub(crate) fn run(arguments: &Arguments, out: &mut dyn io::Write, words: &Words) -> Answer {
    let (mut files, mut unread) = (Vec::new(), Vec::new());
    for path in &arguments.paths {
        let found = if path.is_dir() {
            files_in(path, "ron")
        } else {
            Ok(vec![path.clone()])
        };
        match found {
            Ok(found) => files.extend(found),
            Err(error) => unread.push((shown(path), error.to_string())),
        }
    }
    let problems = Problems::new();
    let mut checked: Vec<(String, &'static str)> = Vec::new();
    for path in files {
        match read_text(&path) {
            Ok(text) => checked.push((text.file.clone(), check_text(&text, &problems))),
            Err(error) => unread.push((shown(&path), error.to_string())),
        }
    }
    let found = each_once(problems.sorted());
    let good = found.is_empty() && unread.is_empty() && !checked.is_empty();
    if arguments.json {
        write_json(&checked, &found, &unread, good, out, words)?;
    } else {
        write_text(&checked, &found, &unread, out, words)?;
    }
    Ok(if good { Exit::Done } else { Exit::No })
}

/// A file can be read for itself and for a drill that names it: its problems count once.
fn each_once(problems: Vec<Problem>) -> Vec<Problem> {
    let mut seen = BTreeSet::new();
    let mut new = |problem: &Problem| {
        let path = fs::canonicalize(&problem.file).unwrap_or_else(|_| PathBuf::from(&problem.file));
        seen.insert((path, problem.place, format!("{:?}", problem.found)))
    };
    problems
        .into_iter()
        .filter(|problem| new(problem))
        .collect()
}

/// Checks one text and says what it is.
fn check_text(text: &Text, problems: &Problems) -> &'static str {
    let report = problems.for_file(&text.file, &text.text);
    let scratch = Problems::new();
    let value = read(scratch.for_file(&text.file, &text.text));
    let tag = value.as_ref().and_then(Value::tag);
    let Some((name, root)) = ROOTS.into_iter().find(|(name, _)| Some(*name) == tag) else {
        match read(report) {
            Some(value) if scratch.is_empty() => {
                report.variant(&value, &ROOTS);
            }
            _ => {}
        }
        return "";
    };
    match root {
        Root::Machine => {
            file::read_machine(report);
        }
        Root::Drill => {
            if let (Some(loaded), Some(value)) = (load(text.clone(), problems), &value) {
                check_time(&loaded.exercise, value, text, report);
            }
        }
        Root::Rules => {
            Rules::read(report, SLOTS);
        }
        Root::Procedure => check_procedure(text, report),
        Root::Journal => check_journal(text, report),
    }
    if let (Some(value), false) = (&value, root == Root::Journal) {
        check_name(value, name, text, report);
    }
    name
}

/// Files are found by their names: the name inside must be the same.
fn check_name(value: &Value, root: &'static str, text: &Text, report: Report<'_>) {
    let scratch = Problems::new();
    let Some(fields) = Fields::of(value, root, scratch.for_file(&text.file, &text.text)) else {
        return;
    };
    let (name, place) = (fields.name("name"), fields.place_of("name"));
    fields.finish();
    let stem = Path::new(&text.file)
        .file_stem()
        .map(|stem| stem.to_string_lossy().into_owned());
    if let (Some(name), Some(stem)) = (name, stem)
        && name != stem
    {
        report
            .add(place, "problem-name-not-file", &[("name", &name)])
            .expected("expected-name-of-file", &[("name", &stem)]);
    }
}

/// A limit that nobody can keep bounds nothing: the guide must be done within it, on each way from
/// each start.
fn check_time(exercise: &Exercise, value: &Value, text: &Text, report: Report<'_>) {
    let allowed = u64::from(exercise.drill.limits.minutes) * 60_000_000;
    let starts = (0..exercise.drill.variants.len()).filter_map(|number| exercise.judged(number));
    let longest = starts.filter_map(|judged| {
        let references = References::of(&judged, &exercise.procedure);
        references.longest()
    });
    let Some(longest) = longest.max().filter(|longest| *longest > allowed) else {
        return;
    };
    let scratch = Problems::new();
    let fields = Fields::of(value, "Drill", scratch.for_file(&text.file, &text.text));
    let place = fields.map_or_else(Default::default, |fields| fields.place_of("limits"));
    let least = longest.div_ceil(60_000_000);
    report
        .add(place, "problem-limit-too-short", &[])
        .expected("expected-limit-from", &[("minutes", &least)]);
}

/// A procedure uses the definitions of the rules of its own name.
fn check_procedure(text: &Text, report: Report<'_>) {
    let name = Path::new(&text.file)
        .file_stem()
        .map(|stem| stem.to_string_lossy().into_owned());
    let rules = name.and_then(|name| asset(Path::new(&text.file), "rules", &name));
    let scratch = Problems::new();
    let rules =
        rules.and_then(|rules| Rules::read(scratch.for_file(&rules.file, &rules.text), SLOTS));
    let none = Definitions::default();
    let definitions = rules.as_ref().map_or(&none, Rules::definitions);
    let procedure = Procedure::read(report, definitions, SLOTS);
    if let (Some(procedure), Some(rules)) = (procedure, &rules) {
        procedure.analysis.check_critical(rules, report);
    }
}

/// A journal is read and done.
fn check_journal(text: &Text, report: Report<'_>) {
    let Some(name) = journal_drill(report) else {
        return;
    };
    let Ok(found) = drill(&name, Path::new(&text.file)) else {
        let place = rackproof_files::Place::default();
        report.add(place, "problem-no-drill", &[("name", &name)]);
        return;
    };
    let Some(loaded) = load(found, report.problems()) else {
        return;
    };
    let journal = Journal::read(report, &loaded.exercise);
    if let Some(journal) = journal
        && let Some(judged) = loaded.exercise.judged(journal.variant)
    {
        journal.run(&mut Attempt::new(judged), report, &mut |_| true);
    }
}

type Unread = (String, String);

fn write_text(
    checked: &[(String, &'static str)],
    problems: &[Problem],
    unread: &[Unread],
    out: &mut dyn io::Write,
    words: &Words,
) -> io::Result<()> {
    for problem in problems {
        writeln!(out, "{}\n", problem_drawn(words, problem))?;
    }
    for (path, reason) in unread {
        let arguments = [
            ("path", Arg::from(path.as_str())),
            ("reason", Arg::from(reason.as_str())),
        ];
        writeln!(out, "{}", words.say("file-not-read", &arguments))?;
    }
    for (name, kind) in checked.iter().filter(|(_, kind)| !kind.is_empty()) {
        let id = format!("check-read-{}", kind.to_lowercase());
        let line = words.say(&id, &[("path", Arg::from(name.as_str()))]);
        write!(out, "{}", wrapped("", 0, &line))?;
    }
    let count = |list: usize| Arg::Number(i64::try_from(list).unwrap_or(i64::MAX));
    let files = ("files", count(checked.len()));
    let wrong = problems.len() + unread.len();
    let summary = match (checked.len(), wrong) {
        (0, 0) => words.say("check-no-file", &[]),
        (_, 0) => words.say("check-nothing-wrong", &[files]),
        _ => words.say("check-problems", &[files, ("problems", count(wrong))]),
    };
    writeln!(out, "{summary}")
}

fn write_json(
    checked: &[(String, &'static str)],
    problems: &[Problem],
    unread: &[Unread],
    good: bool,
    out: &mut dyn io::Write,
    words: &Words,
) -> io::Result<()> {
    let files: Vec<_> = checked
        .iter()
        .map(|(file, kind)| serde_json::json!({ "file": file, "kind": kind.to_lowercase() }))
        .collect();
    let problems: Vec<_> = problems
        .iter()
        .map(|one| problem_json(words, one))
        .collect();
    let unread: Vec<_> = unread
        .iter()
        .map(|(file, reason)| serde_json::json!({ "file": file, "reason": reason }))
        .collect();
    let answer = serde_json::json!({
        "good": good, "files": files, "problems": problems, "unread": unread,
    });
    writeln!(out, "{answer:#}")
}
