//! The task sheet, and what `check` refuses of a task: a standard of steps, a limit without bounds,
//! a critical step with nothing behind it.

use std::fs;

use rackproof_commands::Exit;
use rackproof_files::Problems;
use rackproof_words::Words;
use serde_json::Value;

use crate::{
    outcomes::material,
    play::{in_a_row, in_clone, root, run},
};

const DRILL: &str = "scenarios/changeover/left-inside.ron";
const PROCEDURE: &str = "assets/procedures/changeover.ron";

#[test]
fn the_sheet_says_what_is_asked_and_nothing_of_what_waits() {
    let (exit, said) = run(&["sheet", &in_clone(DRILL)]);
    assert_eq!(exit, Exit::Done, "{said}");
    let line = in_a_row(&said);
    let (exit, json) = run(&["sheet", "--json"]);
    assert_eq!(exit, Exit::Done, "{json}");
    let sheet: Value = serde_json::from_str(&json).expect("it is one object");
    let exercise = material().read(&Problems::new()).expect("no problem");
    let count = |part: &str| sheet[part].as_array().expect("it is a list").len();
    assert_eq!(count("standard"), exercise.drill.finish.len());
    assert_eq!(count("criteria"), exercise.rules.list.len());
    assert_eq!(count("ways"), exercise.procedure.ways.len());
    let critical = sheet["critical"].as_array().expect("it is a list");
    assert_eq!(critical.len(), 11);
    for step in critical {
        let because = step["because"].as_array().expect("it is a list");
        assert!(!because.is_empty(), "{step}");
    }
    // By hand from the analysis: the first three go in any order, looks come before what they are
    // for, and slots are looked at in any order.
    let ordered = |name: &str| {
        let step = critical.iter().find(|step| step["step"] == name);
        step.expect("it is critical")["ordered"] == true
    };
    assert!(ordered("isolate") && ordered("look-before-rails") && ordered("take-out"));
    assert!(!ordered("hold-upstream") && !ordered("let-upstream-go"));
    let words = Words::english();
    for trap in &exercise.drill.traps {
        for part in ["", "-debrief"] {
            let told = words.say(&format!("trap-{}{part}", trap.id), &[]);
            let told = in_a_row(&told);
            assert!(!line.contains(&told), "{told}");
        }
    }
    for variant in &exercise.drill.variants {
        assert!(
            !said.contains(&variant.id) && !json.contains(&variant.id),
            "{}",
            variant.id
        );
    }
    assert!(line.contains("At most 45 minutes."), "{line}");
    assert!(!line.contains("reference time"), "{line}");
    // A product that runs on is not said to come next.
    let products = [
        ("left-inside", "Wren is loaded. Kestrel is next."),
        ("blocked-downstream", "Wren is loaded, and runs on."),
    ];
    for (drill, told) in products {
        let (_, said) = run(&["sheet", drill]);
        assert!(said.contains(told), "{said}");
    }
    let (exit, said) = run(&["sheet", "no-such"]);
    assert_eq!(exit, Exit::No, "{said}");
}

/// A shipped file with one part in place of another, checked in a tree of its own: what is said.
fn checked(path: &str, from: &str, to: &str) -> (Exit, String) {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let shipped = [
        "assets/machines/alder-16.ron",
        "assets/rules/changeover.ron",
        PROCEDURE,
        DRILL,
    ];
    for one in shipped {
        let mut text = fs::read_to_string(root().join(one)).expect("it is shipped");
        if one == path {
            assert!(text.contains(from), "{path} has no {from}");
            text = text.replacen(from, to, 1);
        }
        let copy = folder.path().join(one);
        fs::create_dir_all(copy.parent().expect("it has a folder")).expect("it can be made");
        fs::write(copy, text).expect("it can be written");
    }
    let path = folder.path().join(path).to_string_lossy().into_owned();
    let (exit, said) = run(&["check", &path]);
    (exit, in_a_row(&said))
}

#[test]
fn a_task_that_cannot_be_judged_is_refused() {
    let finish = "WidthTrueIsWanted, MapTrueIsEmpty, BeltsClear, HandsEmpty, LockOff, PropOut, \
                  HatchShut,\n        CordOut, KeyOut, UnitReady, LogWritten, UpstreamLetGo,";
    let critical = "critical: [Rule(\"rails-unproven\")]";
    let cases: &[(&str, &str, &str, &str)] = &[
        // A standard that is a list of steps.
        (DRILL, finish, "", "The standard names steps alone."),
        (
            DRILL,
            finish,
            "LogWritten, KeyOut, HatchShut",
            "The standard names steps alone.",
        ),
        // A limit without bounds.
        (DRILL, "minutes: 45, ", "", "has no field “minutes”"),
        (DRILL, "majors: 0, ", "", "has no field “majors”"),
        (
            DRILL,
            "minutes: 45",
            "minutes: 100000",
            "“minutes” is 100000",
        ),
        (
            DRILL,
            "minutes: 45",
            "minutes: 1",
            "Nobody can keep this limit of time.",
        ),
        // A critical step with nothing behind it.
        (
            PROCEDURE,
            critical,
            "critical: []",
            "Nothing stands behind this critical step.",
        ),
        (PROCEDURE, critical, "critical: true", "list"),
        (
            PROCEDURE,
            critical,
            "critical: [Habit]",
            "nothing that makes a step critical",
        ),
        (
            PROCEDURE,
            critical,
            "critical: [Rule(\"rails-proven\")]",
            "There is no rule",
        ),
        (
            PROCEDURE,
            critical,
            "critical: [Harm(Bruised)]",
            "“Bruised”, which is not known",
        ),
        (
            PROCEDURE,
            critical,
            "critical: [Rule(\"hands-untried\")]",
            "does not fail who breaks it",
        ),
    ];
    for (path, from, to, part) in cases {
        let (exit, said) = checked(path, from, to);
        assert_eq!(exit, Exit::No, "{to}: {said}");
        assert!(said.contains(part), "{to}: no {part} in: {said}");
    }
    for (path, from, to) in [
        (DRILL, finish, "BeltsClear"),
        (DRILL, "minutes: 45", "minutes: 240"),
        (PROCEDURE, critical, "critical: [Harm(Dropped)]"),
    ] {
        let (exit, said) = checked(path, from, to);
        assert_eq!(exit, Exit::Done, "{to}: {said}");
    }
}

/// A drill with one start says so, and none says more of what differs than that it does.
#[test]
fn the_sheet_of_a_drill_with_one_start_draws_none() {
    let one = in_clone("tests/journals/neighbours/scenarios/slow.ron");
    let (_, said) = run(&["sheet", &one]);
    assert!(said.contains("- There is one start."), "{said}");
    assert!(!said.contains("is drawn"), "{said}");
    // Here starts differ in what the machine downstream does, and that is for the trainee to find.
    let (_, said) = run(&[
        "sheet",
        &in_clone("scenarios/production/blocked-downstream.ron"),
    ]);
    assert!(
        said.contains("One of 3 starts is drawn. They differ in"),
        "{said}"
    );
    assert!(!said.contains("where boards were left"), "{said}");
}
