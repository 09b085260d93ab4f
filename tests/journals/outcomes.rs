//! What becomes of each journal.

use std::{
    fs,
    path::{Path, PathBuf},
};

use rackproof_attempt::{Exercise, Material, Text};
use rackproof_commands::Exit;
use rackproof_files::Problems;
use rackproof_grade::Severity;
use rackproof_library::{drill, files_in, is_proof, load};
use serde_json::Value;

use crate::play::{grade, play, root};

mod blocked_downstream;
mod left_inside;
mod left_inside_rowan;

/// What must become of one journal.
struct Expected {
    journal: &'static str,
    /// Rules that are broken, each once however often.
    rules: &'static [&'static str],
    /// Harms, by their kind.
    harms: &'static [&'static str],
    /// What of the finish is open.
    open: &'static [&'static str],
    traps: &'static [&'static str],
}

const fn expect(
    journal: &'static str,
    rules: &'static [&'static str],
    harms: &'static [&'static str],
    open: &'static [&'static str],
    traps: &'static [&'static str],
) -> Expected {
    Expected {
        journal,
        rules,
        harms,
        open,
        traps,
    }
}

/// The journals of one drill.
struct Journals {
    /// The drill, which is also the folder of its journals.
    drill: &'static str,
    /// Every journal. One passes if nothing stands behind its name.
    all: &'static [Expected],
    /// The journal in which each rule is put to the test and kept: what is done there that it
    /// speaks of.
    kept: &'static [(&'static str, &'static str, &'static str)],
    /// Rules of which no journal of this drill is told. None of severity Stop that can be broken in
    /// its course is among them.
    unbroken: &'static [&'static str],
    /// Rules that none keeps though put to the test.
    untested: &'static [&'static str],
}

/// Every drill with its journals.
const DRILLS: &[Journals] = &[
    left_inside::JOURNALS,
    left_inside_rowan::JOURNALS,
    blocked_downstream::JOURNALS,
];

/// Folders of journals that have a small drill each.
const OWN_DRILLS: &[&str] = &["behaviours", "faults", "harms", "neighbours"];

/// The values of one key in a list of objects.
fn values(list: &Value, key: &str) -> Vec<String> {
    let list = list.as_array().expect("it is a list");
    list.iter()
        .map(|one| one[key].as_str().unwrap_or_default().to_owned())
        .collect()
}

fn names(list: &Value) -> Vec<&str> {
    let list = list.as_array().expect("it is a list");
    list.iter().filter_map(Value::as_str).collect()
}

#[test]
fn every_journal_comes_out_as_listed() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    for (drill, expected) in DRILLS
        .iter()
        .flat_map(|one| one.all.iter().map(|expected| (one.drill, expected)))
    {
        let name = &format!("{drill}/{}", expected.journal);
        let (exit, grade) = grade(&play(name, folder.path()));
        let severities = values(&grade["breaches"], "severity");
        let fails = severities.iter().any(|one| one != "minor");
        let passed = !fails && expected.harms.is_empty();
        assert_eq!(grade["passed"], passed, "{name}: {grade:#}");
        assert_eq!(exit, if passed { Exit::Done } else { Exit::No }, "{name}");
        let mut rules = values(&grade["breaches"], "rule");
        rules.sort();
        rules.dedup();
        assert_eq!(rules, expected.rules, "{name}");
        let harms = values(&grade["harms"], "harm");
        let kinds: Vec<&str> = harms
            .iter()
            .filter_map(|harm| harm.strip_prefix("Harm(")?.split(',').next())
            .collect();
        assert_eq!(kinds, expected.harms, "{name}");
        for harm in grade["harms"].as_array().expect("it is a list") {
            assert!(
                harm["number"].as_i64() >= harm["limit"].as_i64(),
                "{name}: {harm}"
            );
        }
        assert_eq!(names(&grade["unfinished"]), expected.open, "{name}");
        assert_eq!(values(&grade["traps"], "trap"), expected.traps, "{name}");
    }
}

/// Names of what is in a folder, without their endings, sorted.
fn names_in(folder: &Path, is_wanted: impl Fn(&Path) -> bool) -> Vec<String> {
    let entries = fs::read_dir(folder).expect("it is there");
    let paths = entries.map(|entry| entry.expect("it can be read").path());
    let stem = |path: PathBuf| {
        let stem = path.file_stem().expect("it has a name");
        stem.to_string_lossy().into_owned()
    };
    let mut names: Vec<String> = paths.filter(|path| is_wanted(path)).map(stem).collect();
    names.sort();
    names
}

#[test]
fn every_drill_has_its_folder_and_every_journal_of_it_is_listed() {
    let all = root().join("tests/journals");
    let holds_journals = |path: &Path| {
        // Each of these brings a small drill of its own: the module of its name lists them.
        if OWN_DRILLS.iter().any(|folder| path.ends_with(folder)) {
            return false;
        }
        let inside = path.is_dir().then(|| files_in(path, "ron"));
        inside.is_some_and(|files| !files.expect("it can be read").is_empty())
    };
    let mut listed: Vec<&str> = DRILLS.iter().map(|one| one.drill).collect();
    listed.sort_unstable();
    assert_eq!(names_in(&all, holds_journals), listed);
    let shipped = files_in(&root().join("scenarios"), "ron").expect("it is there");
    let mut drills: Vec<String> = shipped
        .iter()
        .filter(|file| !is_proof(file))
        .map(|file| file.file_stem().expect("a name").to_string_lossy().into())
        .collect();
    drills.sort();
    assert_eq!(drills, listed);
    for one in DRILLS {
        let mut listed: Vec<&str> = one.all.iter().map(|expected| expected.journal).collect();
        listed.sort_unstable();
        assert_eq!(names_in(&all.join(one.drill), |_| true), listed);
    }
}

#[test]
fn every_rule_and_every_trap_has_its_journal() {
    for one in DRILLS {
        let material = material_of(one.drill);
        let exercise = material.read(&Problems::new()).expect("no problem");
        one.check_rules(&exercise);
        for trap in &exercise.drill.traps {
            let sprung = |expected: &&Expected| {
                expected.journal == trap.id && expected.traps == [trap.id.as_str()]
            };
            assert!(
                one.all.iter().any(|expected| sprung(&expected)),
                "{}",
                trap.id
            );
        }
    }
}

impl Journals {
    fn check_rules(&self, exercise: &Exercise) {
        let breaks = |journal: &str, rule: &str| {
            let listed = self.all.iter().find(|expected| expected.journal == journal);
            listed.is_none_or(|expected| expected.rules.contains(&rule))
        };
        for (rule, journal, done) in self.kept {
            let path = format!("tests/journals/{}/{journal}.ron", self.drill);
            let text = fs::read_to_string(root().join(path)).expect("it is there");
            assert!(text.contains(done) && !breaks(journal, rule), "{rule}");
        }
        for rule in &exercise.rules.list {
            let name = rule.name.as_str();
            // These alone: harmless, and the job is done all the same.
            let fails_for_it = self.all.iter().any(|expected| {
                expected.rules.contains(&name)
                    && expected.journal.starts_with(name)
                    && expected.harms.is_empty()
                    && expected.open.is_empty()
            });
            let listed = self.unbroken.contains(&name);
            assert_eq!(fails_for_it, !listed, "{}: {name}", self.drill);
            assert!(!listed || rule.severity != Severity::Stop, "{name}");
            let kept = self.kept.iter().filter(|(kept, ..)| *kept == name);
            let tested = usize::from(!self.untested.contains(&name));
            assert_eq!(kept.count(), tested, "{}: {name}", self.drill);
        }
    }
}

/// The four texts of the first drill as shipped.
pub(crate) fn material() -> Material {
    let text = |path: &str| Text {
        file: path.to_owned(),
        text: fs::read_to_string(root().join(path)).expect("it is shipped"),
    };
    Material {
        machine: text("assets/machines/alder-16.ron"),
        drill: text("scenarios/changeover/left-inside.ron"),
        rules: text("assets/rules/changeover.ron"),
        procedure: text("assets/procedures/changeover.ron"),
    }
}

/// The texts of a shipped drill.
pub(crate) fn material_of(name: &str) -> Material {
    let text = drill(name, &root().join("here")).expect("it is shipped");
    load(text, &Problems::new())
        .expect("it has no problem")
        .material
}
