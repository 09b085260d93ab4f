//! `check PATH…`: reads every file and says all that is wrong in them, at once.

mod told;

use std::{
    collections::BTreeSet,
    fs, io,
    path::{Path, PathBuf},
};

use rackproof_attempt::{Attempt, Exercise, Journal, Proof, ProofState, Text, journal_drill};
use rackproof_drill::file;
use rackproof_files::{Fields, Place, Problem, Problems, Report, Value, read};
use rackproof_grade::{Definitions, Procedure, References, Rules};
use rackproof_library::{asset, drill, files_in, load, read_text, shown};
use rackproof_phrases::{check_site_words, proof_told};
use rackproof_words::Words;

use crate::{Answer, Exit};

use told::{write_json, write_text};

/// Slots for which rules and procedures are compiled when no machine is at hand: the most that a
/// machine may have, so that all limits count.
const SLOTS: u8 = 40;

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    #[arg(required = true, value_name = "PATH")]
    paths: Vec<PathBuf>,
    #[arg(long)]
    json: bool,
    /// A drill that is not proved is a problem.
    #[arg(long)]
    exam: bool,
}

/// What a file is, by the name of its record.
const ROOTS: [(&str, Root); 6] = [
    ("Machine", Root::Machine),
    ("Drill", Root::Drill),
    ("Rules", Root::Rules),
    ("Procedure", Root::Procedure),
    ("Journal", Root::Journal),
    ("Proof", Root::Proof),
];

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Root {
    Machine,
    Drill,
    Rules,
    Procedure,
    Journal,
    Proof,
}

/// What a file is, by the name of its record. `None` if it is none that is known here.
pub(crate) fn kind_of(text: &Text) -> Option<&'static str> {
    let scratch = Problems::new();
    let value = read(scratch.for_file(&text.file, &text.text));
    let tag = value.as_ref().and_then(Value::tag)?;
    let kinds = ROOTS.iter().map(|(name, _)| *name);
    kinds.into_iter().find(|name| *name == tag)
}

/// A drill that was read, and how it stands to its proof.
struct Drill {
    file: String,
    proof: ProofState,
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
            Err(error) => unread.push((shown(path), error)),
        }
    }
    let problems = Problems::new();
    let mut checked: Vec<Checked> = Vec::new();
    let mut drills: Vec<Drill> = Vec::new();
    for path in files {
        match read_text(&path) {
            Ok(text) => checked.push(check_text(&text, &problems, &mut |drill| {
                if arguments.exam {
                    report_unproved(&drill, &text, &problems, words);
                }
                drills.push(drill);
            })),
            Err(error) => unread.push((shown(&path), error)),
        }
    }
    let found = each_once(problems.sorted());
    let good = found.is_empty() && unread.is_empty() && !checked.is_empty();
    if arguments.json {
        let found = (&found[..], &drills[..]);
        write_json(&checked, found, &unread, good, out, words)?;
    } else {
        let found = (&found[..], &drills[..]);
        write_text(&checked, found, &unread, out, words)?;
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

/// A drill that is used for exams and is not proved has a problem.
fn report_unproved(drill: &Drill, text: &Text, problems: &Problems, words: &Words) {
    if drill.proof.hash().is_some() {
        return;
    }
    let state = proof_told(words, &drill.proof);
    problems
        .for_file(&text.file, &text.text)
        .add(
            Place::default(),
            "problem-exam-not-proved",
            &[("state", &state)],
        )
        .expected("expected-proof", &[])
        .hint("hint-proof-renew", &[("path", &text.file)]);
}

/// A file that was read.
struct Checked {
    file: String,
    /// What it is, by the name of its record. Empty if that is not known.
    kind: &'static str,
    /// How many words of a site it has.
    site_words: usize,
}

/// Checks one text and says what it is. `found` hears of each drill.
fn check_text(text: &Text, problems: &Problems, found: &mut dyn FnMut(Drill)) -> Checked {
    let mut checked = Checked {
        file: text.file.clone(),
        kind: "",
        site_words: 0,
    };
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
        return checked;
    };
    checked.kind = name;
    match root {
        Root::Machine => {
            file::read_machine(report);
            checked.site_words = check_site_words(report);
        }
        Root::Drill => {
            if let (Some(loaded), Some(value)) = (load(text.clone(), problems), &value) {
                check_time(&loaded.exercise, value, text, report);
                found(Drill {
                    file: text.file.clone(),
                    proof: loaded.proof,
                });
            }
        }
        Root::Rules => {
            if let Some(rules) = Rules::read(report, SLOTS) {
                let [place] = places(value.as_ref(), "Rules", ["rules"], text);
                rules.report_pointless(place, report);
            }
        }
        Root::Procedure => check_procedure(text, report),
        Root::Journal => check_journal(text, report),
        Root::Proof => {
            Proof::read(report);
        }
    }
    if let (Some(value), false) = (&value, matches!(root, Root::Journal | Root::Proof)) {
        check_name(value, name, text, report);
    }
    checked
}

/// The same for a machine file whose form may be broken.
pub(crate) fn check_machine_name(text: &Text, report: Report<'_>) {
    let scratch = Problems::new();
    if let Some(value) = read(scratch.for_file(&text.file, &text.text)) {
        check_name(&value, "Machine", text, report);
    }
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
    let [place] = places(Some(value), "Drill", ["limits"], text);
    let least = longest.div_ceil(60_000_000);
    report
        .add(place, "problem-limit-too-short", &[])
        .expected("expected-limit-from", &[("minutes", &least)]);
}

/// A procedure uses the definitions of the rules that it names, else of those of its own name.
fn check_procedure(text: &Text, report: Report<'_>) {
    let scratch = Problems::new();
    let value = read(scratch.for_file(&text.file, &text.text));
    let fields = value.as_ref().and_then(|value| {
        let report = scratch.for_file(&text.file, &text.text);
        Fields::of(value, "Procedure", report)
    });
    let named = fields.as_ref().filter(|fields| fields.has("rules"));
    let named = named.map(|fields| (fields.name("rules"), fields.place_of("rules")));
    if let Some(fields) = fields {
        fields.finish();
    }
    let stem = Path::new(&text.file).file_stem();
    let own = || stem.map(|stem| stem.to_string_lossy().into_owned());
    let name = named.as_ref().map_or_else(own, |(name, _)| name.clone());
    let rules = name
        .as_ref()
        .and_then(|name| asset(Path::new(&text.file), "rules", name));
    // Problems of the rules are told where they are checked. Whether all is known that it uses.
    let (definitions, is_whole) = match (&rules, &named) {
        (Some(rules), _) => {
            let unread = Problems::new();
            let unread = unread.for_file(&rules.file, &rules.text);
            match Rules::read(unread, SLOTS) {
                Some(rules) => (rules.definitions().clone(), true),
                None => (Definitions::in_rules(unread, SLOTS), false),
            }
        }
        (None, None) => (Definitions::none(), true),
        (None, Some((name, place))) => {
            if let Some(name) = name {
                report
                    .add(*place, "problem-no-rules", &[("name", name)])
                    .hint("hint-no-rules", &[("name", name)]);
            }
            (Definitions::lost(), false)
        }
    };
    if let Some(procedure) = Procedure::read(report, &definitions, SLOTS).filter(|_| is_whole) {
        let lists = places(value.as_ref(), "Procedure", ["steps", "done"], text);
        procedure.report_pointless(lists, report);
    }
}

/// Where fields stand in a text that was read.
fn places<const COUNT: usize>(
    value: Option<&Value>,
    root: &'static str,
    fields: [&'static str; COUNT],
    text: &Text,
) -> [Place; COUNT] {
    let scratch = Problems::new();
    let report = scratch.for_file(&text.file, &text.text);
    let known = value.and_then(|value| Fields::of(value, root, report));
    let place = |field| {
        let known = known.as_ref();
        known.map_or_else(Place::default, |known| known.place_of(field))
    };
    fields.map(place)
}

/// A journal is read and done.
fn check_journal(text: &Text, report: Report<'_>) {
    let Some(name) = journal_drill(report) else {
        return;
    };
    let Ok(found) = drill(&name, Path::new(&text.file)) else {
        let place = Place::default();
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
