//! Kept proofs: how `check` says them, what an exam asks for, and what `prove` does with one.

use std::{
    fs,
    path::{Path, PathBuf},
};

use rackproof_attempt::{
    Deed, Exercise, Hashes, Material, Proof, Search, Time, cause_text, core_hash, end_of, replay,
};
use rackproof_commands::Exit;
use rackproof_files::Problems;
use rackproof_grade::GuideRun;
use rackproof_library::{keep_proof, load, proof_path, read_text};

use crate::play::{grade, in_a_row, root, run, run_with, text};

/// The claims of a proof, in their order.
const CLAIMS: [&str; 15] = [
    "rules-suffice",
    "fair",
    "sound",
    "fair-start",
    "no-corner",
    "machine",
    "races",
    "guide",
    "congruent",
    "milestones",
    "harms",
    "needed",
    "traps",
    "offers",
    "choices",
];

/// The files that the first drill rests on.
pub(crate) const FILES: [&str; 4] = [
    "assets/machines/alder-16.ron",
    "assets/rules/changeover.ron",
    "assets/procedures/changeover.ron",
    "scenarios/changeover/left-inside.ron",
];

/// A copy of the first drill and of all that it names; the drill's path.
pub(crate) fn tree(folder: &Path) -> PathBuf {
    for file in FILES {
        let to = folder.join(file);
        fs::create_dir_all(to.parent().expect("it has a folder")).expect("it can be made");
        fs::copy(root().join(file), to).expect("it can be copied");
    }
    folder.join(FILES[3])
}

/// A copy of the first drill beside which a proof lies. The proof was made by nobody: it stands for
/// one that takes an hour.
pub(crate) fn proved(folder: &Path) -> PathBuf {
    let drill = tree(folder);
    keep_proof(&drill, &proof(&drill)).expect("it can be written");
    drill
}

fn material(drill: &Path) -> Material {
    let text = read_text(drill).expect("it is there");
    let loaded = load(text, &Problems::new());
    loaded.expect("it has no problem").material
}

/// What a proof of a drill would be in which every claim holds.
fn proof(drill: &Path) -> Proof {
    let material = material(drill);
    let exercise = material.read(&Problems::new()).expect("it has no problem");
    let variants: Vec<String> = exercise
        .drill
        .variants
        .iter()
        .map(|one| one.id.clone())
        .collect();
    let search = |variant: &String| Search {
        variants: vec![variant.clone()],
        slots: 16,
        states: 84_000,
        complete: true,
        finished: 1,
        ..Search::default()
    };
    let milestones = exercise.drill.milestones.iter();
    let times = vec![guided(&exercise)];
    Proof {
        drill: exercise.drill.id.clone(),
        texts: Hashes::of(&material),
        core: core_hash().to_owned(),
        not_sure: 1,
        sizes: vec![16],
        merged: ["spent-parts", "unasked", "prepared-strides", "whole-looks"]
            .map(str::to_owned)
            .into(),
        claims: CLAIMS.map(|claim| (claim.to_owned(), true)).into(),
        searches: variants.iter().map(search).collect(),
        milestones: milestones.map(|(name, _)| (name.clone(), 1)).collect(),
        variants,
        times,
        ..Proof::default()
    }
}

/// The guide's first way in the first variant.
fn guided(exercise: &Exercise) -> Time {
    let judged = exercise.judged(0).expect("it has a variant");
    let run = GuideRun::play(&judged, &exercise.procedure, 0).expect("the guide finishes");
    let attempt: Vec<Deed> = run
        .causes
        .iter()
        .map(|(after, cause)| Deed {
            after: u64::from(after.0),
            cause: cause_text(judged.world(), *cause),
        })
        .collect();
    let played = replay(exercise, 0, &attempt).expect("it can be played");
    Time {
        variant: exercise.drill.variants[0].id.clone(),
        way: exercise.procedure.ways[0].clone(),
        time: Some(run.time),
        runs: 1,
        failed: 0,
        attempt,
        end: end_of(&played),
    }
}

/// Adds a remark to a file: nothing that it says changes, and its hash does.
fn remark(path: &Path) {
    let mut text = fs::read_to_string(path).expect("it is there");
    text.push_str("// Looked through.\n");
    fs::write(path, text).expect("it can be written");
}

/// What was done to the tree, how `check` calls it, and part of what it says.
type Case = (fn(&Path, &Path), &'static str, &'static str);

const CASES: &[Case] = &[
    (|_, _| {}, "proved", "every claim holds"),
    (
        |_, drill| fs::remove_file(proof_path(drill)).expect("it is there"),
        "missing",
        "No proof is kept",
    ),
    (
        |folder, _| remark(&folder.join(FILES[0])),
        "stale",
        "Changed since: the machine file.",
    ),
    (
        |folder, _| remark(&folder.join(FILES[1])),
        "stale",
        "Changed since: the rules file.",
    ),
    (
        |folder, _| remark(&folder.join(FILES[2])),
        "stale",
        "Changed since: the procedure file.",
    ),
    (
        |folder, _| remark(&folder.join(FILES[3])),
        "stale",
        "Changed since: the drill file.",
    ),
    (
        |_, drill| {
            let other = Proof {
                core: "0".repeat(64),
                ..proof(drill)
            };
            keep_proof(drill, &other).expect("it can be written");
        },
        "stale",
        "Changed since: the program’s own core.",
    ),
    (
        |_, drill| {
            let mut strayed = proof(drill);
            strayed.times[0].attempt.remove(7);
            keep_proof(drill, &strayed).expect("it can be written");
        },
        "stale",
        "do not come out as it says: green-low (",
    ),
    (
        |_, drill| {
            let mut failed = proof(drill);
            failed.claims[4].1 = false;
            keep_proof(drill, &failed).expect("it can be written");
        },
        "failed",
        "do not hold or were not shown: no corner",
    ),
];

#[test]
fn check_says_how_a_drill_stands_to_its_proof_and_an_exam_asks_for_one() {
    for (number, (change, state, part)) in CASES.iter().enumerate() {
        let folder = tempfile::tempdir().expect("a folder can be made");
        let drill = proved(folder.path());
        change(folder.path(), &drill);
        let (path, is_proved) = (text(&drill), *state == "proved");
        let renew = format!("rackproof prove {path}");
        // A line, not a problem.
        let (exit, said) = run(&["check", &path]);
        assert_eq!(exit, Exit::Done, "{number}: {said}");
        assert!(in_a_row(&said).contains(part), "{number}: {said}");
        assert_eq!(said.contains(&renew), !is_proved, "{number}: {said}");
        let (_, json) = run(&["check", "--json", &text(folder.path())]);
        let json: serde_json::Value = serde_json::from_str(&json).expect("it is one object");
        assert_eq!(json["proofs"][0]["state"], *state, "{number}: {json:#}");
        // For a drill that is used for exams it is one.
        let yes = if is_proved { Exit::Done } else { Exit::No };
        let (exit, said) = run(&["check", "--exam", &path]);
        assert_eq!(exit, yes, "{number}: {said}");
        assert!(said.contains(&renew) || is_proved, "{number}: {said}");
        // And none can be taken.
        let out = text(&folder.path().join("exam.attempt"));
        let (exit, said) = run_with(&["play", &path, "--mode", "exam", "--out", &out], "q\n");
        assert_eq!(exit, yes, "{number}: {said}");
        assert_eq!(Path::new(&out).exists(), is_proved, "{number}");
        if !is_proved {
            assert!(in_a_row(&said).contains(part), "{number}: {said}");
            assert!(said.contains(&format!("\n{renew}\n")), "{number}: {said}");
        }
        for mode in ["practice", "guided"] {
            let out = text(&folder.path().join(mode));
            let (exit, said) = run_with(&["play", &path, "--mode", mode, "--out", &out], "q\n");
            assert_eq!(exit, Exit::Done, "{number}: {said}");
        }
    }
}

/// What an attempt says of its proof, and `grade` after it.
#[test]
fn an_attempt_records_whether_its_drill_was_proved() {
    let journal = root().join("tests/journals/left-inside/by-hand.ron");
    for is_proved in [true, false] {
        let folder = tempfile::tempdir().expect("a folder can be made");
        let drill = match is_proved {
            true => proved(folder.path()),
            false => tree(folder.path()),
        };
        let (drill, journal) = (text(&drill), text(&journal));
        let out = text(&folder.path().join("kept"));
        let line = ["play", &drill, "--journal", &journal, "--out", &out];
        // An exam is played by a person.
        let (exit, said) = run(&[&line[..], &["--mode", "exam"]].concat());
        assert_eq!(exit, Exit::WrongUse, "{said}");
        assert!(!Path::new(&out).exists(), "nothing was begun");
        let (exit, said) = run(&line);
        assert_eq!(exit, Exit::Done, "{said}");
        let (exit, object) = grade(Path::new(&out));
        assert_eq!(exit, Exit::Done, "{object:#}");
        assert_eq!(object["proved"], is_proved);
        assert_eq!(object["proof"].is_string(), is_proved, "{object:#}");
        let (_, said) = run(&["grade", &out]);
        assert_eq!(said.contains("not proved"), !is_proved, "{said}");
    }
}

#[test]
fn a_broken_proof_is_told_with_all_its_problems_and_is_never_a_drill() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let drill = proved(folder.path());
    let kept = proof_path(&drill);
    let good = fs::read_to_string(&kept).expect("it is there");
    let (exit, said) = run(&["check", &text(folder.path())]);
    assert_eq!(exit, Exit::Done, "{said}");
    assert!(
        in_a_row(&said).contains("left-inside.proof.ron: a proof."),
        "{said}"
    );
    let broken =
        good.replacen("complete: true", "complete: 1", 1)
            .replacen("core: \"", "core: \"x", 1);
    fs::write(&kept, broken).expect("it can be written");
    let (exit, said) = run(&["check", &text(folder.path())]);
    assert_eq!(exit, Exit::No, "{said}");
    for part in [
        "“core” is not a hash",
        "complete",
        "cannot be read, or was changed",
    ] {
        assert!(in_a_row(&said).contains(part), "{part}: {said}");
    }
    fs::write(&kept, good.replacen("84000", "84001", 1)).expect("it can be written");
    let (exit, said) = run(&["check", &text(&kept)]);
    assert_eq!(exit, Exit::No, "{said}");
    assert!(in_a_row(&said).contains("The seal at the end"), "{said}");
    // With the drill gone there is nothing to prove here.
    fs::remove_file(&drill).expect("it is there");
    let (exit, said) = run(&["prove", &text(drill.parent().expect("it has a folder"))]);
    assert_eq!(exit, Exit::WrongUse, "{said}");
    assert!(said.contains("There is no drill in "), "{said}");
}

#[test]
fn what_is_proved_is_not_proved_again_unasked() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let drill = proved(folder.path());
    let (exit, said) = run(&["prove", &text(&drill)]);
    assert_eq!(exit, Exit::Done, "{said}");
    let row = in_a_row(&said);
    assert!(
        row.contains("nothing changed since it was proved"),
        "{said}"
    );
    assert!(row.contains("left-inside: every claim holds"), "{said}");
    assert!(!row.contains("searches at a time"), "{said}");
    let (exit, said) = run(&["prove", "--json", &text(&drill)]);
    let json: serde_json::Value = serde_json::from_str(&said).expect("it is one object");
    assert_eq!((exit, &json["kept"]), (Exit::Done, &true.into()));
    assert_eq!(json["proved"], true, "{json:#}");
    assert_eq!(
        json["claims"].as_object().map(|all| all.len()),
        Some(CLAIMS.len())
    );
    assert_eq!(json["searches"].as_array().map(Vec::len), Some(13));
}

/// A clock for each of 32 half-slots, 32 bits each: more than a key holds. Attempts are graded by
/// such rules, and the drill is no less a drill.
#[test]
fn rules_that_no_key_can_hold_are_said_so_and_nothing_is_proved() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let drill = tree(folder.path());
    let rules = folder.path().join(FILES[1]);
    let shipped = fs::read_to_string(&rules).expect("it is there");
    let of_window = |window: &str| {
        let rule = format!(
            "Rule(name: \"looks-old\", severity: Minor, source: \"made up\", always: \
             Implies(Did(HoldDeclare), {window})),\n        Rule(name: \"rails-unproven\""
        );
        shipped.replacen("Rule(name: \"rails-unproven\"", &rule, 1)
    };
    let large = "Every(Once(within_s: 1800.0, of: SeenEmpty))";
    fs::write(&rules, of_window(large)).expect("it can be written");
    let (exit, said) = run(&["prove", &text(&drill)]);
    let said = in_a_row(&said);
    assert_eq!(exit, Exit::No, "{said}");
    let told = "left-inside: its rules have windows over sets that remember more than a key of a \
                state can hold. Nothing was proved.";
    assert!(said.starts_with(told), "{said}");
    let (exit, json) = run(&["prove", "--json", &text(&drill)]);
    let json: serde_json::Value = serde_json::from_str(&json).expect("it is one object");
    assert_eq!((exit, &json["proved"]), (Exit::No, &false.into()));
    assert!(
        json["reason"].to_string().contains("windows over sets"),
        "{json}"
    );
    assert!(!proof_path(&drill).exists(), "{said}");
    let (exit, said) = run(&["check", &text(&drill)]);
    assert_eq!(exit, Exit::Done, "{said}");
    // What the message says to do helps.
    fs::write(
        &rules,
        of_window("Once(within_s: 1800.0, of: Every(SeenEmpty))"),
    )
    .expect("it can be written");
    let problems = Problems::new();
    let loaded = load(read_text(&drill).expect("it is there"), &problems);
    assert!(loaded.expect("it has no problem").exercise.rules.fit_keys());
}
