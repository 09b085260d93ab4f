//! What becomes of each journal of each drill. The tables stand in the modules below.

mod blocked_downstream;
mod left_inside;
mod left_inside_rowan;

use std::fs;

use rackproof_attempt::{Material, Text};
use rackproof_commands::Exit;
use rackproof_files::Problems;
use rackproof_library::{files_in, is_proof};
use serde_json::Value;

use crate::play::{grade, play_of, root};

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

/// A drill with its journals.
struct Journals {
    drill: &'static str,
    /// The files of machine, drill, rules and procedure.
    files: [&'static str; 4],
    /// Every journal. One passes if nothing stands behind its name.
    all: &'static [Expected],
    /// The journal in which each rule is put to the test and kept: what is done there that it
    /// speaks of.
    kept: &'static [(&'static str, &'static str, &'static str)],
    /// Rules that no journal breaks yet.
    unbroken: &'static [&'static str],
    /// Rules that none keeps though put to the test.
    untested: &'static [&'static str],
}

const DRILLS: [&Journals; 3] = [
    &left_inside::JOURNALS,
    &left_inside_rowan::JOURNALS,
    &blocked_downstream::JOURNALS,
];

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
    for journals in DRILLS {
        fs::create_dir(folder.path().join(journals.drill)).expect("it can be made");
    }
    let all = DRILLS
        .iter()
        .flat_map(|of| of.all.iter().map(|one| (of.drill, one)));
    for (drill, expected) in all {
        let name = expected.journal;
        let (exit, grade) = grade(&play_of(drill, name, &folder.path().join(drill)));
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

#[test]
fn every_journal_of_the_folders_is_listed() {
    for journals in DRILLS {
        let folder = root().join("tests/journals").join(journals.drill);
        let mut there: Vec<String> = fs::read_dir(folder)
            .expect("it is there")
            .map(|entry| entry.expect("it can be read").path())
            .map(|path| {
                path.file_stem()
                    .expect("it has a name")
                    .to_string_lossy()
                    .into_owned()
            })
            .collect();
        there.sort();
        let mut listed: Vec<&str> = journals.all.iter().map(|one| one.journal).collect();
        listed.sort_unstable();
        assert_eq!(there, listed);
    }
}

/// A new drill needs its journals.
#[test]
fn every_shipped_drill_has_its_journals() {
    let files = files_in(&root().join("scenarios"), "ron").expect("they can be listed");
    let drills = files.iter().filter(|file| !is_proof(file));
    let names: Vec<String> = drills
        .map(|file| {
            file.file_stem()
                .unwrap_or_default()
                .to_string_lossy()
                .into_owned()
        })
        .collect();
    let mut listed: Vec<&str> = DRILLS.iter().map(|journals| journals.drill).collect();
    listed.sort_unstable();
    let mut there: Vec<&str> = names.iter().map(String::as_str).collect();
    there.sort_unstable();
    assert_eq!(there, listed);
}

#[test]
fn every_rule_and_every_trap_has_its_journal() {
    for journals in DRILLS {
        journals.cover_rules_and_traps();
    }
}

impl Journals {
    fn breaks(&self, journal: &str, rule: &str) -> bool {
        let listed = self.all.iter().find(|expected| expected.journal == journal);
        listed.is_none_or(|expected| expected.rules.contains(&rule))
    }

    fn cover_rules_and_traps(&self) {
        let problems = Problems::new();
        let material = material_of(self.files);
        let exercise = material.read(&problems).expect("it has no problem");
        for (rule, journal, done) in self.kept {
            let path = format!("tests/journals/{}/{journal}.ron", self.drill);
            let text = fs::read_to_string(root().join(path)).expect("it is there");
            assert!(text.contains(done) && !self.breaks(journal, rule), "{rule}");
        }
        for rule in &exercise.rules.list {
            // These alone: harmless, and the job is done all the same.
            let fails_for_it = self.all.iter().any(|expected| {
                expected.rules.contains(&rule.name.as_str())
                    && expected.journal.starts_with(&rule.name)
                    && expected.harms.is_empty()
                    && expected.open.is_empty()
            });
            let name = rule.name.as_str();
            assert_eq!(fails_for_it, !self.unbroken.contains(&name), "{name}");
            let kept = self.kept.iter().filter(|(rule, ..)| *rule == name);
            let tested = usize::from(!self.untested.contains(&name));
            assert_eq!(kept.count(), tested, "{name}");
        }
        for trap in &exercise.drill.traps {
            let sprung = |expected: &&Expected| {
                expected.journal == trap.id && expected.traps == [trap.id.as_str()]
            };
            assert!(
                self.all.iter().any(|expected| sprung(&expected)),
                "{}",
                trap.id
            );
        }
    }
}

/// The four texts of the first drill as shipped.
pub(crate) fn material() -> Material {
    material_of(left_inside::JOURNALS.files)
}

/// The four texts of a drill as shipped.
pub(crate) fn material_of_drill(name: &str) -> Material {
    let journals = DRILLS.iter().find(|journals| journals.drill == name);
    material_of(journals.expect("it is listed").files)
}

fn material_of([machine, drill, rules, procedure]: [&str; 4]) -> Material {
    let text = |path: &str| Text {
        file: path.to_owned(),
        text: fs::read_to_string(root().join(path)).expect("it is shipped"),
    };
    Material {
        machine: text(machine),
        drill: text(drill),
        rules: text(rules),
        procedure: text(procedure),
    }
}
