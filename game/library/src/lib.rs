//! Where files are found: a drill by its path or name, what it names beside it, and a new file for
//! an attempt.

mod proofs;

use std::{
    fs::{self, File, OpenOptions},
    io,
    path::{Path, PathBuf},
};

use rackproof_attempt::{Exercise, Material, ProofState, Text};
use rackproof_drill::file::{self, NoMachine};
use rackproof_files::{Fields, Problems, Report, Value, read};
use rackproof_phrases::check_site_words;

pub use proofs::{is_proof, keep_proof, kept_proof, proof_path};

/// The copies that are compiled in, so that the program plays anywhere. By folder and name.
const BUILT_IN: &[(&str, &str, &str)] = include!(concat!(env!("OUT_DIR"), "/built_in.rs"));

/// The drill that is played when none is named.
pub const FIRST_DRILL: &str = "left-inside";

/// How deep folders are walked.
const DEPTH_MOST: usize = 16;

/// A file's name as problems show it: with `/` on every system.
pub fn shown(path: &Path) -> String {
    path.to_string_lossy().replace('\\', "/")
}

/// The text of a file.
///
/// # Errors
/// If it cannot be read, or is not UTF-8.
pub fn read_text(path: &Path) -> io::Result<Text> {
    fs::read_to_string(path).map(|text| Text {
        file: shown(path),
        text,
    })
}

/// All files of this ending in a folder and the folders in it, sorted. Links to folders are not
/// followed.
///
/// # Errors
/// If a folder cannot be read.
pub fn files_in(folder: &Path, ending: &str) -> io::Result<Vec<PathBuf>> {
    let mut found = Vec::new();
    collect(folder, ending, DEPTH_MOST, &mut found)?;
    found.sort();
    Ok(found)
}

fn collect(folder: &Path, ending: &str, depth: usize, out: &mut Vec<PathBuf>) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let (path, kind) = (entry.path(), entry.file_type()?);
        if kind.is_dir() && depth > 0 {
            collect(&path, ending, depth - 1, out)?;
        } else if !kind.is_dir() && path.extension().is_some_and(|found| found == ending) {
            out.push(path);
        }
    }
    Ok(())
}

/// The file in a folder of assets that is nearest to another file: in the tree above that file,
/// then above the current folder, then among the copies compiled in.
pub fn asset(near: &Path, folder: &str, name: &str) -> Option<Text> {
    let here = Path::new(".");
    for above in near.ancestors().skip(1).chain([here]) {
        if above.join("assets/machines").is_dir() {
            let path = above
                .join("assets")
                .join(folder)
                .join(format!("{name}.ron"));
            if let Ok(text) = read_text(&path) {
                return Some(text);
            }
            break;
        }
    }
    built_in(folder, name)
}

fn built_in(folder: &str, name: &str) -> Option<Text> {
    let known = BUILT_IN
        .iter()
        .find(|(of, known, _)| *of == folder && *known == name)?;
    Some(Text {
        file: format!("{name}.ron"),
        text: known.2.to_owned(),
    })
}

/// The machines that are compiled in, by name.
pub fn machines() -> Vec<Text> {
    let machines = BUILT_IN.iter().filter(|(of, ..)| *of == "machines");
    machines
        .filter_map(|(of, name, _)| built_in(of, name))
        .collect()
}

/// The drills that are compiled in, the first drill first, the others by name.
pub fn built_in_drills() -> Vec<Text> {
    let drills = BUILT_IN.iter().filter(|(of, ..)| *of == "drills");
    let mut names: Vec<&str> = drills.map(|(_, name, _)| *name).collect();
    names.sort_by_key(|name| (*name != FIRST_DRILL, *name));
    let texts = names.into_iter();
    texts.filter_map(|name| built_in("drills", name)).collect()
}

/// The first drill, as it is compiled in.
#[expect(clippy::expect_used, reason = "a test sees that it is compiled in")]
pub fn built_in_drill() -> Text {
    built_in("drills", FIRST_DRILL).expect("the first drill is compiled in")
}

/// A drill by its path, else by its name: in the tree of scenarios above `near` or the current
/// folder, else compiled in.
///
/// # Errors
/// If there is none, or it cannot be read.
pub fn drill(path_or_name: &str, near: &Path) -> io::Result<Text> {
    let path = Path::new(path_or_name);
    let error = match read_text(path) {
        Ok(text) => return Ok(text),
        Err(error) if error.kind() == io::ErrorKind::NotFound => error,
        Err(error) => return Err(error),
    };
    let wanted = format!("{path_or_name}.ron");
    for above in near.ancestors().skip(1).chain([Path::new(".")]) {
        let scenarios = above.join("scenarios");
        if scenarios.is_dir() {
            let files = files_in(&scenarios, "ron")?;
            let is_it = |file: &&PathBuf| file.ends_with(&wanted) && !is_proof(file);
            if let Some(found) = files.iter().find(is_it) {
                return read_text(found);
            }
        }
    }
    built_in("drills", path_or_name).ok_or(error)
}

/// The shipped drills, the first drill first, the others by name. Of each the copy that lies in the
/// tree of scenarios above `near` or the current folder, else the one that is compiled in.
///
/// # Errors
/// If one lies there and cannot be read.
pub fn shipped_drills(near: &Path) -> io::Result<Vec<Text>> {
    let name = |text: Text| text.file.trim_end_matches(".ron").to_owned();
    let names = built_in_drills().into_iter().map(name);
    names.map(|name| drill(&name, near)).collect()
}

/// A drill with all that it names.
#[derive(Clone, Debug)]
pub struct Loaded {
    /// The texts.
    pub material: Material,
    /// What they say, ready to run.
    pub exercise: Exercise,
    /// How they stand to the proof of the drill, as it was when they were read.
    pub proof: ProofState,
}

/// A new file for an attempt: the one that was asked for, else the first free `NAME-N.attempt` in
/// the current folder. A file that is there already is never written over.
///
/// # Errors
/// The path, and why no file could be made there.
pub fn new_attempt(
    out: Option<&Path>,
    drill: &str,
) -> Result<(PathBuf, File), (PathBuf, io::Error)> {
    let create = |path: &Path| OpenOptions::new().append(true).create_new(true).open(path);
    if let Some(path) = out {
        return match create(path) {
            Ok(file) => Ok((path.to_owned(), file)),
            Err(error) => Err((path.to_owned(), error)),
        };
    }
    let mut number: u32 = 1;
    loop {
        let path = PathBuf::from(format!("{drill}-{number}.attempt"));
        match create(&path) {
            Ok(file) => return Ok((path, file)),
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists && number < u32::MAX => {
                number += 1;
            }
            Err(error) => return Err((path, error)),
        }
    }
}

/// Reads a drill and all that it names. `None` if something has a problem; all are reported.
pub fn load(drill: Text, problems: &Problems) -> Option<Loaded> {
    let near = PathBuf::from(&drill.file);
    let named =
        |field| named_by(&drill, field).and_then(|(name, _)| asset(&near, folder(field), &name));
    let [machine, rules, procedure] = ["machine", "rules", "procedure"].map(named);
    let (Some(machine), Some(rules), Some(procedure)) = (&machine, &rules, &procedure) else {
        report_missing(
            &drill,
            machine.as_ref(),
            [rules.is_none(), procedure.is_none()],
            problems,
        );
        return None;
    };
    let [machine, rules, procedure] = [machine, rules, procedure].map(Clone::clone);
    load_material(
        Material {
            machine,
            drill,
            rules,
            procedure,
        },
        problems,
    )
}

/// Reads the texts of a drill, such as those that an attempt keeps. `None` if something has a
/// problem; all are reported.
pub fn load_material(material: Material, problems: &Problems) -> Option<Loaded> {
    let before = problems.len();
    let exercise = material.read(problems);
    check_site_words(problems.for_file(&material.machine.file, &material.machine.text));
    let exercise = exercise.filter(|_| problems.len() == before)?;
    let proof = proofs::proof_state(&material, &exercise);
    Some(Loaded {
        material,
        exercise,
        proof,
    })
}

fn folder(field: &str) -> &'static str {
    match field {
        "machine" => "machines",
        "rules" => "rules",
        _ => "procedures",
    }
}

/// The name that a drill's field gives, and its value. Says nothing about problems: reading the
/// drill does.
fn named_by(drill: &Text, field: &'static str) -> Option<(String, Value)> {
    let problems = Problems::new();
    let report = problems.for_file(&drill.file, &drill.text);
    let value = read(report)?;
    let fields = Fields::of(&value, "Drill", report)?;
    let name = fields.name(field);
    let found = fields.value(field).cloned();
    fields.finish();
    Some((name?, found?))
}

/// Says what a drill names that is not there, and what else is wrong in the drill.
fn report_missing(drill: &Text, machine: Option<&Text>, missing: [bool; 2], problems: &Problems) {
    let report = problems.for_file(&drill.file, &drill.text);
    let without = if machine.is_some() {
        NoMachine::Unread
    } else {
        NoMachine::Missing
    };
    let machine = machine.and_then(|text| read_machine(text, problems));
    file::read_drill(report, |_| machine.as_ref().ok_or(without));
    for (field, missing) in ["rules", "procedure"].into_iter().zip(missing) {
        if missing && let Some((name, value)) = named_by(drill, field) {
            no_file(report, &value, folder(field), &name);
        }
    }
}

fn read_machine(
    text: &Text,
    problems: &Problems,
) -> Option<(rackproof_buffer::Machine, rackproof_drill::Hall)> {
    file::read_machine(problems.for_file(&text.file, &text.text))
}

fn no_file(report: Report<'_>, value: &Value, folder: &str, name: &str) {
    let path = format!("assets/{folder}/{name}.ron");
    report
        .add(value.place, "problem-no-file", &[("name", &name)])
        .expected("expected-file", &[("path", &path)]);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn without_any_file_the_first_drill_is_there() {
        let nowhere = tempfile::tempdir().expect("a folder can be made");
        let text = built_in("drills", FIRST_DRILL).expect("it is compiled in");
        let text = Text {
            file: shown(&nowhere.path().join("a/b.ron")),
            ..text
        };
        let problems = Problems::new();
        let loaded = load(text, &problems);
        assert!(loaded.is_some() && problems.is_empty());
    }

    #[test]
    fn every_shipped_drill_is_compiled_in_and_the_first_one_comes_first() {
        let shipped = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../../scenarios"));
        let files = files_in(shipped, "ron").expect("it is there");
        let mut texts: Vec<String> = files
            .iter()
            .filter(|file| !is_proof(file))
            .map(|file| read_text(file).expect("it can be read").text)
            .collect();
        let built_in = built_in_drills();
        assert_eq!(built_in.first(), Some(&built_in_drill()));
        let mut copies: Vec<String> = built_in.into_iter().map(|drill| drill.text).collect();
        assert!(copies.len() > 1);
        texts.sort();
        copies.sort();
        assert_eq!(copies, texts);
    }

    #[test]
    fn all_that_is_missing_is_reported_with_all_that_is_wrong() {
        let text = built_in("drills", FIRST_DRILL).expect("it is compiled in");
        let broken = text
            .text
            .replace("rules: \"changeover\"", "rules: \"no-such\"")
            .replace("procedure: \"changeover\"", "procedure: \"neither\"")
            .replace("minutes: 45", "minutes: -1");
        let problems = Problems::new();
        let drill = Text {
            file: "d.ron".to_owned(),
            text: broken,
        };
        assert!(load(drill, &problems).is_none());
        let mut found: Vec<_> = problems.sorted().iter().map(|one| one.found.id).collect();
        found.sort_unstable();
        assert_eq!(
            found,
            [
                "problem-no-file",
                "problem-no-file",
                "problem-out-of-bounds"
            ]
        );
    }
}
