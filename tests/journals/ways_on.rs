//! Ways on from a moment of an attempt: told, and kept as attempts that pass.

use std::fs;

use rackproof_commands::Exit;
use serde_json::Value;

use crate::play::{grade, in_a_row, play, run};

/// From a finding and from a moment both ways are told, each with what it goes by, and what is kept
/// is graded as passed.
#[test]
fn both_ways_on_are_told_and_kept_as_attempts_that_pass() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let path = play("declared-unseen", folder.path());
    let path = path.to_string_lossy();
    let ways = folder.path().join("ways");
    let keep = ways.to_string_lossy();
    for (number, moment) in ["1", "00:30"].into_iter().enumerate() {
        let (exit, said) = run(&["grade", "--way-on", moment, "--keep", &keep, &path]);
        assert_eq!(exit, Exit::No, "the attempt itself failed: {said}");
        let said = in_a_row(&said);
        for part in [
            "By the written procedure, from",
            "It goes by signs only: what could be known.",
            "with the truth known. Nobody who stands there could know that it suffices.",
            "Passes.",
            "This way is kept as an attempt in",
        ] {
            assert!(said.contains(part), "{part} is missing in:\n{said}");
        }
        for way in ["guide", "shortest"] {
            let name = format!("declared-unseen-{way}-{}.attempt", number + 1);
            let (exit, object) = grade(&ways.join(name));
            assert_eq!((exit, &object["passed"]), (Exit::Done, &true.into()));
        }
    }
    assert_eq!(fs::read_dir(&ways).expect("it is there").count(), 4);
}

#[test]
fn for_a_program_both_ways_have_their_grades_and_the_search_its_states() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let path = play("declared-unseen", folder.path());
    let path = path.to_string_lossy();
    let (_, said) = run(&["grade", "--json", "--way-on", "1", &path]);
    let object: Value = serde_json::from_str(&said).expect("it is one object");
    let ways = &object["ways_on"];
    assert_eq!(
        (&ways["search"], &ways["guide"]["passed"]),
        (&"found".into(), &true.into())
    );
    assert_eq!(ways["shortest"]["passed"], true);
    assert!(ways["states"].as_u64().is_some_and(|states| states > 1_000));
    let length = |way: &str| ways[way]["journal"].as_array().map_or(0, Vec::len);
    assert!(length("shortest") <= length("guide") && length("shortest") > 20);
}

/// For a program too it is said where the ways are kept, and why they are not.
#[test]
fn for_a_program_it_is_said_where_the_ways_are_kept() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let path = play("by-hand", folder.path());
    let path = path.to_string_lossy();
    let taken = folder.path().join("taken");
    fs::write(&taken, "a file").expect("it can be written");
    let ways = folder.path().join("ways");
    for (keep, exit, count) in [(&ways, Exit::Done, 2), (&taken, Exit::No, 0)] {
        let keep = keep.to_string_lossy();
        let arguments = [
            "grade", "--json", "--way-on", "00:30", "--keep", &keep, &path,
        ];
        let (found, said) = run(&arguments);
        let object: Value = serde_json::from_str(&said).expect("it is one object");
        let told = &object["ways_kept"];
        assert_eq!(found, exit, "{told:#}");
        let kept = told["kept"].as_array().expect("it is a list");
        assert_eq!(kept.len(), count, "{told:#}");
        for kept in kept {
            let kept = kept.as_str().expect("it is a path");
            assert!(fs::exists(kept).is_ok_and(|there| there), "{kept}");
        }
        assert_eq!(told["reason"].is_string(), count == 0, "{told:#}");
        assert_eq!(told["path"].is_string(), count == 0, "{told:#}");
    }
    let (_, said) = run(&["grade", "--json", &path]);
    let object: Value = serde_json::from_str(&said).expect("it is one object");
    assert!(object["ways_kept"].is_null() && object["claims"] == Value::Array(Vec::new()));
    assert_eq!(object["helped"]["ways_on"], 0);
}

#[test]
fn a_moment_that_is_none_is_said() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let path = play("declared-unseen", folder.path());
    let path = path.to_string_lossy();
    let cases = [
        ("soon", "“soon” is no moment."),
        ("99", "There is no finding 99."),
        ("59:59", "59:59 is later."),
    ];
    for (typed, told) in cases {
        let (exit, said) = run(&["grade", "--way-on", typed, &path]);
        assert_ne!(exit, Exit::Done);
        assert!(in_a_row(&said).contains(told), "{said}");
    }
    let (exit, _) = run(&["grade", "--keep", "x", &path]);
    assert_eq!(exit, Exit::WrongUse, "there is nothing to keep");
}
