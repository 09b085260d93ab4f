//! What becomes of each journal.

use std::fs;

use rackproof_attempt::{Material, Text};
use rackproof_commands::Exit;
use rackproof_files::Problems;
use serde_json::Value;

use crate::play::{grade, play, root};

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

/// Every journal. One passes if nothing stands behind its name.
const ALL: &[Expected] = &[
    expect("by-hand", &[], &[], &[], &[]),
    expect("by-hand-low", &[], &[], &[], &[]),
    expect("by-clear-out", &[], &[], &[], &[]),
    expect("with-the-good-ones", &[], &[], &[], &[]),
    // One for each rule of severity Stop: it breaks that rule, harms nobody and fails for it.
    expect(
        "rails-unproven",
        &["rails-unproven"],
        &[],
        &[],
        &["sweep-believed"],
    ),
    expect(
        "production-unproven",
        &["production-unproven"],
        &[],
        &[],
        &[],
    ),
    expect(
        "declared-unseen-harmless",
        &["declared-unseen"],
        &[],
        &[],
        &[],
    ),
    expect(
        "belts-unseen",
        &["belts-unseen"],
        &[],
        &[],
        &["belt-forgotten"],
    ),
    expect("upstream-not-held", &["upstream-not-held"], &[], &[], &[]),
    expect(
        "upstream-let-go-early",
        &["upstream-let-go-early"],
        &[],
        &[],
        &[],
    ),
    // Who has no lock on cannot have tried under lock: the two go together.
    expect("hands-without-lock", &["hands-without-lock"], &[], &[], &[]),
    expect("hands-while-moving", &["hands-while-moving"], &[], &[], &[]),
    expect("answered-unseen", &["answered-unseen"], &[], &[], &[]),
    expect(
        "started-mouths-unseen",
        &["started-mouths-unseen"],
        &[],
        &[],
        &[],
    ),
    expect("started-hands-full", &["started-hands-full"], &[], &[], &[]),
    expect("board-put-in", &["board-put-in"], &[], &[], &[]),
    // One for each rule of severity Major or Minor.
    expect("hands-untried", &["hands-untried"], &[], &[], &[]),
    expect("hands-under-lift", &["hands-under-lift"], &[], &[], &[]),
    expect("hands-ungrounded", &["hands-ungrounded"], &[], &[], &[]),
    expect("answered-untaken", &["answered-untaken"], &[], &[], &[]),
    expect("power-given-early", &["power-given-early"], &[], &[], &[]),
    expect(
        "doubtful-board-good",
        &["doubtful-board-good"],
        &[],
        &[],
        &[],
    ),
    expect("emergency-for-stop", &["emergency-for-stop"], &[], &[], &[]),
    // Where luck ends.
    expect(
        "declared-unseen",
        &["declared-unseen"],
        &["Overstrained", "Broken"],
        &["MapTrueIsEmpty"],
        &["half-a-look"],
    ),
    // One for each trap.
    expect(
        "sweep-believed",
        &["rails-unproven"],
        &["Overstrained", "Broken"],
        &["MapTrueIsEmpty"],
        &["sweep-believed"],
    ),
    expect(
        "half-a-look",
        &["declared-unseen"],
        &[],
        &["WidthTrueIsWanted", "MapTrueIsEmpty", "UnitReady"],
        &["half-a-look"],
    ),
    expect(
        "belt-forgotten",
        &["belts-unseen", "started-mouths-unseen"],
        &["Overstrained", "SprungOut"],
        &["BeltsClear"],
        &["belt-forgotten"],
    ),
];

/// The journal in which each rule is put to the test and kept: what is done there that it speaks
/// of.
const KEPT: &[(&str, &str, &str)] = &[
    ("rails-unproven", "by-hand", "Start"),
    ("declared-unseen", "by-hand", "HoldDeclare"),
    ("belts-unseen", "by-hand", "Start"),
    ("upstream-not-held", "by-hand", "Start"),
    ("upstream-let-go-early", "by-hand", "LetUpstreamGo"),
    ("hands-without-lock", "by-hand", "HandIn"),
    ("hands-untried", "by-hand", "HandIn"),
    ("hands-while-moving", "by-hand", "HandIn"),
    ("hands-under-lift", "by-hand-low", "Take("),
    ("hands-ungrounded", "by-hand", "HandIn"),
    ("answered-unseen", "by-clear-out", "AnswerSeenEmpty"),
    ("answered-untaken", "by-clear-out", "AnswerTaken"),
    ("started-mouths-unseen", "by-hand", "Start"),
    ("started-hands-full", "by-hand", "Start"),
    ("doubtful-board-good", "with-the-good-ones", "PutDownGood"),
    ("power-given-early", "by-hand", "LockOff"),
];

/// Rules that no journal keeps though put to the test. `board-put-in` forbids an act always, so
/// that none can.
const UNTESTED: &[&str] = &["production-unproven", "board-put-in", "emergency-for-stop"];

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
    for expected in ALL {
        let name = expected.journal;
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

#[test]
fn every_journal_of_the_folder_is_listed() {
    let folder = root().join("tests/journals/left-inside");
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
    let mut listed: Vec<&str> = ALL.iter().map(|expected| expected.journal).collect();
    listed.sort_unstable();
    assert_eq!(there, listed);
}

#[test]
fn every_rule_and_every_trap_has_its_journal() {
    let problems = Problems::new();
    let material = material();
    let exercise = material.read(&problems).expect("it has no problem");
    let breaks = |journal: &str, rule: &str| {
        let listed = ALL.iter().find(|expected| expected.journal == journal);
        listed.is_none_or(|expected| expected.rules.contains(&rule))
    };
    for (rule, journal, done) in KEPT {
        let path = format!("tests/journals/left-inside/{journal}.ron");
        let text = fs::read_to_string(root().join(path)).expect("it is there");
        assert!(text.contains(done) && !breaks(journal, rule), "{rule}");
    }
    for rule in &exercise.rules.list {
        // These alone: harmless, and the job is done all the same.
        let fails_for_it = ALL.iter().any(|expected| {
            expected.rules.contains(&rule.name.as_str())
                && expected.journal.starts_with(&rule.name)
                && expected.harms.is_empty()
                && expected.open.is_empty()
        });
        assert!(fails_for_it, "{}", rule.name);
        let kept = KEPT.iter().filter(|(name, ..)| *name == rule.name);
        let tested = usize::from(!UNTESTED.contains(&rule.name.as_str()));
        assert_eq!(kept.count(), tested, "{}", rule.name);
    }
    for trap in &exercise.drill.traps {
        let sprung = |expected: &&Expected| {
            expected.journal == trap.id && expected.traps == [trap.id.as_str()]
        };
        assert!(ALL.iter().any(|expected| sprung(&expected)), "{}", trap.id);
    }
}

/// The four texts as shipped.
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
