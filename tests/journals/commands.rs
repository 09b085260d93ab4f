//! Exit codes and messages, with wrong inputs above all.

use std::{fs, path::Path};

use rackproof_attempt::{Attempt, PlayedAs, ProofState, Recorder};
use rackproof_commands::Exit;
use rackproof_files::Problems;
use rackproof_grade::GuideRun;

use crate::{
    outcomes::material,
    play::{grade, in_a_row, in_clone, play, root, run, run_with},
};

pub(crate) fn write(folder: &Path, name: &str, text: &str) -> String {
    let path = folder.join(name);
    fs::create_dir_all(path.parent().expect("it has a folder")).expect("it can be made");
    fs::write(&path, text).expect("it can be written");
    path.to_string_lossy().into_owned()
}

/// The clone's text with one part in place of another.
pub(crate) fn changed(path: &str, pairs: &[(&str, &str)]) -> String {
    let mut text = fs::read_to_string(root().join(path)).expect("it is shipped");
    for (from, to) in pairs {
        assert!(text.contains(from), "{path} has no {from}");
        text = text.replacen(from, to, 1);
    }
    text
}

const DRILL: &str = "scenarios/changeover/left-inside.ron";
const BY_HAND: &str = "tests/journals/left-inside/by-hand.ron";

#[test]
fn what_is_shipped_has_no_problem() {
    let paths = [
        in_clone("scenarios"),
        in_clone("assets"),
        in_clone("tests/journals"),
    ];
    let (exit, said) = run(&["check", &paths[0], &paths[1], &paths[2]]);
    assert_eq!(exit, Exit::Done, "{said}");
    assert!(said.contains("Nothing is wrong."), "{said}");
    let (exit, said) = run(&["check", "--json", &paths[0]]);
    assert_eq!(exit, Exit::Done, "{said}");
    let said: serde_json::Value = serde_json::from_str(&said).expect("it is one object");
    assert_eq!(said["good"], true);
    let files = said["files"].as_array().expect("it is a list");
    assert!(files.iter().any(|one| one["kind"] == "drill"), "{said:#}");
}

#[test]
fn all_problems_of_all_files_are_told_at_once() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let broken = changed(
        DRILL,
        &[
            ("next: \"kestrel\"", "next: \"kestral\""),
            ("minutes: 45", "minutes: 0"),
            ("half: Outfeed", "half: Outfed"),
            ("slot: 9", "slot: 99"),
        ],
    );
    write(folder.path(), "left-inside.ron", &broken);
    write(
        folder.path(),
        "deep/down/other.ron",
        "Machine(name: \"other\", rack: 3)",
    );
    write(folder.path(), "what.ron", "Recipe(name: \"what\")");
    write(folder.path(), "not-text.ron", "[1, 2");
    write(folder.path(), "left-out.txt", "anything");
    let path = folder.path().to_string_lossy().into_owned();
    let (exit, said) = run(&["check", &path]);
    assert_eq!(exit, Exit::No);
    let told = [
        "“kestral” is not known here.",
        "Perhaps “kestrel” is meant.",
        "The field “minutes” is 0",
        "“Outfed”, which is not known",
        "99",
        "Machine has no field “rails”",
        "“Recipe”, which is not known",
        "The bracket “[” is not closed",
        "left-inside.ron:",
        "other.ron:1:",
    ];
    for part in told {
        assert!(said.contains(part), "{part} is missing in:\n{said}");
    }
    assert!(!said.contains("left-out.txt"), "{said}");
    let (exit, json) = run(&["check", "--json", &path]);
    let json: serde_json::Value = serde_json::from_str(&json).expect("it is one object");
    assert_eq!((exit, &json["good"]), (Exit::No, &false.into()));
    let problems = json["problems"].as_array().expect("it is a list");
    assert!(problems.len() >= 8, "{json:#}");
    assert!(
        problems
            .iter()
            .all(|one| one["line"].as_u64() > Some(0) && one["found"].is_string())
    );
}

#[test]
fn wrong_use_and_missing_files_are_told_apart() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let gone = folder
        .path()
        .join("gone.ron")
        .to_string_lossy()
        .into_owned();
    let drill = in_clone(DRILL);
    let cases: &[(&[&str], Exit, &str)] = &[
        (&["fly"], Exit::WrongUse, "fly"),
        (&["check"], Exit::WrongUse, "PATH"),
        (&["grade"], Exit::WrongUse, "ATTEMPT"),
        (&["play", "--mode", "watching"], Exit::WrongUse, "practice"),
        (
            &["play", "--journal", "a", "--variant", "b"],
            Exit::WrongUse,
            "--variant",
        ),
        (
            &["play", &drill, "--variant", "green-lo"],
            Exit::WrongUse,
            "Perhaps “green-low”",
        ),
        (
            &["play", &drill, "--variant", "zzz"],
            Exit::WrongUse,
            "window-middle",
        ),
        (&["--help"], Exit::Done, "check"),
        (&["--version"], Exit::Done, "rackproof"),
        (&["check", &gone], Exit::No, "cannot be read"),
        (&["play", &gone], Exit::No, "cannot be read"),
        (&["play", "--journal", &gone], Exit::No, "cannot be read"),
        (&["play", "--resume", &gone], Exit::No, "cannot be read"),
        (&["grade", &gone], Exit::No, "cannot be read"),
        (
            &["check", &in_clone(".cargo")],
            Exit::No,
            "Nothing was checked.",
        ),
    ];
    for (arguments, exit, part) in cases {
        let (found, said) = run(arguments);
        assert_eq!(found, *exit, "{arguments:?}: {said}");
        assert!(in_a_row(&said).contains(part), "{arguments:?}: {said}");
    }
}

#[test]
fn a_journal_that_does_what_is_not_on_offer_names_its_line() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let cases: &[(&str, &str, &[&str])] = &[
        (
            "Walk(Panel), TryStart",
            "Walk(Panel), LockOff",
            &[
                ":9:59",
                "“LockOff” is not on offer at 20 s.",
                "One of Walk(Infeed), ",
                "First “Walk(Isolator)”.",
            ],
        ),
        (
            "Walk(Panel), TryStart",
            "Walk(Roof), TryStart",
            &[":9:51", "“Roof”", "Panel, Infeed"],
        ),
        (
            "OpenHatch",
            "OpenHach",
            &[":10:22", "Perhaps “OpenHatch” is meant."],
        ),
        (
            "TryStart,",
            "TryStart, At(1, Report),",
            &[":9:69", "1 s is over already"],
        ),
        (
            "TryStart,",
            "TryStart, Chose(UpstreamLaysBoard),",
            &[":9:69", "cannot happen"],
        ),
        (
            "\"kestrel\"",
            "\"kestral\"",
            &["Perhaps “kestrel” is meant."],
        ),
        (
            "\"green-middle\"",
            "\"green-mid\"",
            &["“green-mid” is not known", "green-low"],
        ),
        (
            "\"left-inside\"",
            "\"no-such\"",
            &["no-such cannot be read"],
        ),
    ];
    for (number, (from, to, parts)) in cases.iter().enumerate() {
        let text = changed(BY_HAND, &[(from, to)]);
        let journal = write(folder.path(), &format!("{number}.ron"), &text);
        let out = folder.path().join(format!("{number}.attempt"));
        let (exit, said) = run(&[
            "play",
            "--journal",
            &journal,
            "--out",
            &out.to_string_lossy(),
        ]);
        assert_eq!(exit, Exit::No, "{to}: {said}");
        for part in *parts {
            assert!(said.contains(part), "{to}: no {part} in:\n{said}");
        }
        let (exit, _) = run(&["check", &journal]);
        assert_eq!(exit, Exit::No, "{to}");
    }
}

#[test]
fn what_is_not_whole_is_never_graded_as_if_it_were() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let whole = play("by-hand", folder.path());
    let bytes = fs::read(&whole).expect("it was written");
    let text = String::from_utf8(bytes.clone()).expect("it is text");
    let edited = text.replacen("HandIn", "HandOn", 1);
    let cases: &[(&str, &[u8], &str)] = &[
        ("cut.attempt", &bytes[..bytes.len() - 300], "cut-off"),
        ("nothing.attempt", b"", "cut-off"),
        ("edited.attempt", edited.as_bytes(), "edited"),
        ("foreign.attempt", b"Journal()", "foreign"),
        (
            "binary.attempt",
            &[0xff, 0, 0x80, b'\n'].repeat(700),
            "foreign",
        ),
        (
            "later.attempt",
            b"{\"format\":9,\"kind\":\"rackproof attempt\"}\n",
            "later",
        ),
    ];
    for (name, bytes, state) in cases {
        let path = folder.path().join(name);
        fs::write(&path, bytes).expect("it can be written");
        let (exit, object) = grade(&path);
        assert_eq!(exit, Exit::No, "{name}");
        assert_eq!(object["state"], *state, "{name}: {object:#}");
        assert_eq!(object["passed"], false, "{name}");
        let (exit, said) = run(&["grade", &path.to_string_lossy(), &whole.to_string_lossy()]);
        assert_eq!(exit, Exit::No, "{name}");
        let line = in_a_row(&said);
        assert!(line.contains("no verdict"), "{said}");
        assert!(said.contains("PASSED"), "the other one is graded: {said}");
    }
    // Which line does not fit; of the first, that it does not fit what was written.
    let header = text.replacen("left-inside", "left-outside", 1);
    let edited = text.replacen("\"cause\":\"HandIn", "\"cause\":\"HandOn", 1);
    for (text, line) in [
        (&edited, "does not fit the lines before"),
        (&header, "its first line is"),
    ] {
        let path = folder.path().join("changed.attempt");
        fs::write(&path, text).expect("it can be written");
        let (_, said) = run(&["grade", &path.to_string_lossy()]);
        let said = in_a_row(&said);
        assert!(said.contains(line), "{said}");
    }
}

#[test]
fn an_attempt_is_never_written_over() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let whole = play("by-hand", folder.path());
    let before = fs::read(&whole).expect("it was written");
    let out = whole.to_string_lossy().into_owned();
    let (exit, said) = run(&["play", "--journal", &in_clone(BY_HAND), "--out", &out]);
    assert_eq!(exit, Exit::No, "{said}");
    assert!(said.contains("cannot be written"), "{said}");
    let (exit, said) = run_with(&["play", "--resume", &out], "q\n");
    assert_eq!(exit, Exit::No, "{said}");
    assert!(said.contains("it has ended"), "{said}");
    assert!(fs::read(&whole).expect("it is there") == before);
}

#[test]
fn an_attempt_that_comes_out_otherwise_is_named_and_neither_graded_nor_gone_on_with() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let exercise = material()
        .read(&Problems::new())
        .expect("it has no problem");
    // The texts of another machine, whose lift is slower, beside what this one did.
    let mut other = material();
    other.machine.text = changed(
        "assets/machines/alder-16.ron",
        &[("lift: Axis(speed_mm_s: 200", "lift: Axis(speed_mm_s: 150")],
    );
    let judged = exercise.judged(0).expect("it is listed");
    let guided = GuideRun::play(&judged, &exercise.procedure, 0).expect("the guide finishes");
    let mut attempt = Attempt::new(judged);
    for (since, cause) in &guided.causes {
        attempt.wait(u64::from(since.0));
        attempt
            .do_at_once(*cause)
            .expect("the guide does what is on offer");
    }
    for (name, ended, state) in [("whole", true, "differs"), ("cut", false, "cut-off")] {
        let path = folder.path().join(name);
        let file = fs::File::create(&path).expect("it can be made");
        let (mode, proof) = (PlayedAs::Practice, ProofState::Missing);
        let begun = Recorder::begin(file, &other, &exercise, 0, mode, &proof);
        let mut recorder = begun.expect("it can be written");
        recorder.catch_up(&attempt).expect("it can be written");
        if ended {
            recorder.end(&attempt).expect("it can be written");
        }
        let (exit, object) = grade(&path);
        assert_eq!(
            (exit, &object["passed"]),
            (Exit::No, &false.into()),
            "{name}"
        );
        assert_eq!(object["state"], state, "{object:#}");
        let name = path.to_string_lossy().into_owned();
        let (exit, said) = run_with(&["play", "--resume", &name], "q\n");
        assert_eq!(exit, Exit::No, "{said}");
        assert!(
            in_a_row(&said).contains(if ended {
                "it has ended"
            } else {
                "comes out otherwise"
            }),
            "{said}"
        );
    }
    let (_, said) = run(&["grade", &folder.path().join("whole").to_string_lossy()]);
    assert!(said.contains("outcomes do not stand."), "{said}");
    assert!(!said.contains("PASSED"), "{said}");
}

/// A procedure that names rules which are not there: that is the problem, and not each definition.
#[test]
fn rules_that_are_not_there_are_told_once() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let procedure = fs::read_to_string(root().join("assets/procedures/changeover.ron"));
    let procedure = procedure.expect("it is shipped");
    let named = procedure.replacen(
        "name: \"changeover\",",
        "name: \"mine\", rules: \"changover\",",
        1,
    );
    assert_ne!(named, procedure);
    write(folder.path(), "mine.ron", &named);
    let path = folder.path().to_string_lossy().into_owned();
    let (exit, said) = run(&["check", &path]);
    assert_eq!(exit, Exit::No);
    assert!(said.contains("There are no rules “changover”."), "{said}");
    assert!(said.contains("1 problem. 1 file read."), "{said}");
}
