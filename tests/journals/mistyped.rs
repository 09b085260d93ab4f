//! Names and figures that were typed wrongly: what happened, what it means, what to do.

use rackproof_commands::Exit;

use crate::play::{in_a_row, play, run, text};

const NO_FILE: &str = "gone cannot be read: there is no such file. Look how its name is written";
const NEAR_DRILL: &str = "left-insid cannot be read: there is no such file, and no drill of that \
                          name. Perhaps “left-inside” is meant. Drills of ours: left-inside,";

#[test]
fn a_wrong_name_or_figure_is_told_with_what_to_do() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let attempt = text(&play("by-hand", folder.path()));
    let inside = text(folder.path());
    let no_folder = text(&folder.path().join("none/a.attempt"));
    let journal = crate::play::in_clone("tests/journals/left-inside/by-hand.ron");
    let cases: &[(&[&str], Exit, &str)] = &[
        (&["check", "gone"], Exit::No, NO_FILE),
        (&["play", "--journal", "gone"], Exit::No, NO_FILE),
        (&["play", "--resume", "gone"], Exit::No, NO_FILE),
        (&["grade", "gone"], Exit::No, NO_FILE),
        (&["grade", "gone", "--rules", "gone"], Exit::No, NO_FILE),
        (&["play", "left-insid"], Exit::No, NEAR_DRILL),
        (&["open", "left-insid"], Exit::No, NEAR_DRILL),
        (&["sheet", "left-insid"], Exit::No, NEAR_DRILL),
        (
            &["sheet", "zzz"],
            Exit::No,
            "no drill of that name. Drills of ours: left-inside, blocked-downstream,",
        ),
        (
            &["sheet", &inside],
            Exit::No,
            "it is a folder. Name a file in it.",
        ),
        (
            &["play", "--journal", &journal, "--out", &no_folder],
            Exit::No,
            "a.attempt cannot be written: its folder is not there. Make it, or name another.",
        ),
        (
            &["tour", "--out", &inside],
            Exit::No,
            "cannot be written: it is there already, and nothing is written over.",
        ),
        (
            &["grade", &attempt, "--what-if", "one"],
            Exit::WrongUse,
            "“one” is no number of a finding. Write the number that stands at the finding",
        ),
        (
            &["grade", &attempt, "--what-if", "-1"],
            Exit::WrongUse,
            "“-1” is no number of a finding.",
        ),
        (
            &["grade", &attempt, "--way-on", "-1"],
            Exit::WrongUse,
            "“-1” is no moment.",
        ),
    ];
    for (arguments, exit, part) in cases {
        let (found, said) = run(arguments);
        assert_eq!(found, *exit, "{arguments:?}: {said}");
        assert!(in_a_row(&said).contains(part), "{arguments:?}: {said}");
    }
}
