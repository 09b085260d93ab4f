//! `grade ATTEMPT --way-on MOMENT`: how it could have gone on from there, by the written procedure
//! and, with the truth known, the shortest way.

use std::{
    fs, io,
    ops::ControlFlow,
    path::{Path, PathBuf},
};

use rackproof_attempt::{
    Kept, Note, PlayedAs, ProofState, Rebuilt, Recorder, Shortest, WhatIf, journal_entry,
    right_before,
};
use rackproof_grade::Grade;
use rackproof_library::{new_attempt, shown};
use rackproof_phrases::OtherTold;
use rackproof_words::{Arg, Words};
use serde_json::{Value, json};

use super::json::grade_object;
use crate::{lines::wrapped, picture::moment, reason::reason, shortest::shortest};

/// The moment that was asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Asked {
    /// Right before a finding, by its number from 1.
    Finding(usize),
    /// This moment, in µs since the start.
    At(u64),
}

/// Reads a moment: `03:49`, or the number of a finding. `None` if it is neither.
pub(super) fn read(typed: &str) -> Option<Asked> {
    if let Ok(finding) = typed.parse() {
        return Some(Asked::Finding(finding));
    }
    moment(typed).map(Asked::At)
}

/// What can be said of an attempt.
pub(super) enum WaysOn {
    /// There are only so many findings.
    NoFinding(usize, usize),
    /// The attempt ended before that moment.
    AfterEnd(u64, u64),
    /// Both ways on.
    Ways(Box<Both>),
}

/// Both ways on from a moment.
pub(super) struct Both {
    at: u64,
    guide: Option<WhatIf>,
    shortest: Shortest,
}

/// Both ways on from that moment.
pub(super) fn of(rebuilt: &Rebuilt, grade: &Grade, asked: Asked) -> WaysOn {
    let (attempt, exercise) = (&rebuilt.attempt, &rebuilt.exercise);
    let (guide, start) = match asked {
        Asked::Finding(finding) => {
            let breach = finding.checked_sub(1).and_then(|at| grade.breaches.get(at));
            let Some(breach) = breach else {
                return WaysOn::NoFinding(finding, grade.breaches.len());
            };
            let start = right_before(attempt, breach.moment);
            (WhatIf::of(attempt, exercise, grade, breach), start)
        }
        Asked::At(at) if at > attempt.at() => return WaysOn::AfterEnd(at, attempt.at()),
        Asked::At(at) => {
            let same = attempt.done().partition_point(|done| done.at <= at);
            (WhatIf::at(attempt, exercise, grade, at), (at, same))
        }
    };
    // Both from the same moment, though it lies before the one that was asked for.
    let start = guide.as_ref().map_or(start, |way| (way.from.at, way.same));
    let mut on = |_| ControlFlow::Continue(());
    WaysOn::Ways(Box::new(Both {
        at: start.0,
        shortest: shortest((attempt, exercise, grade), start, &mut on),
        guide,
    }))
}

/// Writes them.
pub(super) fn write(
    (rebuilt, grade, ways): (&Rebuilt, &Grade, &WaysOn),
    out: &mut dyn io::Write,
    words: &Words,
) -> io::Result<()> {
    let number = |number: usize| Arg::Number(i64::try_from(number).unwrap_or(i64::MAX));
    writeln!(out)?;
    let both = match ways {
        WaysOn::NoFinding(finding, findings) => {
            let arguments = [
                ("finding", number(*finding)),
                ("findings", number(*findings)),
            ];
            let said = words.say("what-if-no-finding", &arguments);
            return write!(out, "{}", wrapped("", 0, &said));
        }
        WaysOn::AfterEnd(at, end) => {
            let arguments = [("at", Arg::Clock(*at)), ("end", Arg::Clock(*end))];
            let said = words.say("picture-after-end", &arguments);
            return write!(out, "{}", wrapped("", 0, &said));
        }
        WaysOn::Ways(both) => both,
    };
    let guide = OtherTold::of_guide(words, both.guide.as_ref(), grade);
    write_one(rebuilt, (&guide, both.guide.as_ref()), out, words)?;
    writeln!(out)?;
    let shortest = OtherTold::of_shortest(words, &both.shortest, grade);
    write_one(rebuilt, (&shortest, found(&both.shortest)), out, words)
}

fn found(shortest: &Shortest) -> Option<&WhatIf> {
    match shortest {
        Shortest::Found(other, _) => Some(other),
        _ => None,
    }
}

fn write_one(
    rebuilt: &Rebuilt,
    (told, other): (&OtherTold, Option<&WhatIf>),
    out: &mut dyn io::Write,
    words: &Words,
) -> io::Result<()> {
    write!(out, "{}", wrapped("", 0, &told.head))?;
    if let Some(ends) = &told.ends {
        write!(out, "{}", wrapped("  -", 4, ends))?;
    }
    let Some(other) = other else { return Ok(()) };
    writeln!(out, "{}", words.say("what-if-journal", &[]))?;
    for done in other.instead() {
        writeln!(out, "    {},", journal_entry(rebuilt.attempt.world(), done))?;
    }
    Ok(())
}

/// The same for a program. `journal` is the whole other attempt.
pub(super) fn object(rebuilt: &Rebuilt, ways: &WaysOn) -> Value {
    let both = match ways {
        WaysOn::NoFinding(finding, findings) => {
            return json!({ "state": "no finding", "finding": finding, "findings": findings });
        }
        WaysOn::AfterEnd(at, end) => return json!({ "state": "after end", "at": at, "end": end }),
        WaysOn::Ways(both) => both,
    };
    let one = |other: &WhatIf| {
        let world = rebuilt.attempt.world();
        let journal = other.attempt.done().iter();
        let journal: Vec<String> = journal.map(|done| journal_entry(world, done)).collect();
        let mut object = grade_object(other.attempt.judged(), &rebuilt.exercise, &other.grade);
        object["from"] = json!(other.from.at);
        object["same"] = json!(other.same);
        object["journal"] = json!(journal);
        object
    };
    let (search, states) = match &both.shortest {
        Shortest::Found(_, states) => ("found", states),
        Shortest::None(states) => ("none", states),
        Shortest::Bound(states) => ("bound reached", states),
        Shortest::Strayed(states) => ("strayed", states),
        Shortest::BrokenOff(states) => ("broken off", states),
    };
    json!({
        "at": both.at,
        "guide": both.guide.as_ref().map(one),
        "shortest": found(&both.shortest).map(one),
        "search": search,
        "states": states,
    })
}

/// The paths of the ways that were kept, or the path that cannot be written, and why.
pub(super) type KeptWays = Result<Vec<PathBuf>, (PathBuf, io::Error)>;

/// Keeps the ways in a folder, as attempts. Gives their paths.
///
/// # Errors
/// The path that cannot be written, and why.
pub(super) fn keep(
    path: &Path,
    folder: &Path,
    (kept, rebuilt): (&Kept, &Rebuilt),
    ways: &WaysOn,
) -> KeptWays {
    let WaysOn::Ways(both) = ways else {
        return Ok(Vec::new());
    };
    fs::create_dir_all(folder).map_err(|error| (folder.to_owned(), error))?;
    let stem = path.file_stem().unwrap_or_default().to_string_lossy();
    let all = [
        ("guide", both.guide.as_ref()),
        ("shortest", found(&both.shortest)),
    ];
    let mut paths = Vec::new();
    for (name, other) in all {
        let Some(other) = other else { continue };
        let base = folder.join(format!("{stem}-{name}"));
        let (path, file) = new_attempt(None, &base.to_string_lossy())?;
        let note = Note {
            noted: other.attempt.at(),
            note: format!("TakenOver({})", other.from.at),
        };
        let (material, number) = (&kept.header.material, kept.header.number);
        let mode = PlayedAs::Practice;
        let proof = &ProofState::Missing;
        Recorder::begin(file, material, &rebuilt.exercise, number, mode, proof)
            .and_then(|mut recorder| {
                recorder.catch_up(&other.attempt)?;
                recorder.note(&note)?;
                recorder.end(&other.attempt).map(|_| ())
            })
            .map_err(|error| (path.clone(), error))?;
        paths.push(path);
    }
    Ok(paths)
}

/// Says where the ways are kept.
pub(super) fn tell_kept(kept: &KeptWays, out: &mut dyn io::Write, words: &Words) -> io::Result<()> {
    match kept {
        Ok(paths) => {
            for path in paths {
                let said = words.say("ways-kept", &[("path", Arg::from(shown(path)))]);
                write!(out, "{}", wrapped("", 0, &said))?;
            }
            Ok(())
        }
        Err((path, error)) => {
            let reason = ("reason", reason(error));
            let path = ("path", Arg::from(shown(path)));
            write!(
                out,
                "{}",
                wrapped("", 0, &words.say("file-not-written", &[path, reason]))
            )
        }
    }
}

/// The same for a program: which files the ways are kept in, or why they are not.
pub(super) fn kept_object(kept: &KeptWays) -> Value {
    match kept {
        Ok(paths) => json!({ "kept": paths.iter().map(|path| shown(path)).collect::<Vec<_>>() }),
        Err((path, error)) => {
            json!({ "kept": [], "path": shown(path), "reason": error.to_string() })
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_moment_is_a_time_or_a_finding() {
        let cases = [
            ("3", Some(Asked::Finding(3))),
            ("03:49", Some(Asked::At(229_000_000))),
            ("03:49.5", Some(Asked::At(229_500_000))),
            ("", None),
            ("soon", None),
            ("-1", None),
        ];
        for (typed, expected) in cases {
            assert_eq!(read(typed), expected, "{typed}");
        }
    }
}
