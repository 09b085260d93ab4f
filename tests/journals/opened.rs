//! `open FILE…`: which drills and which debrief the window is asked for.

use std::fs;

use rackproof_commands::{Exit, display::Missing};

use crate::{
    play::{in_a_row, play, root, run_with, text},
    window::{OFFER, Paper},
};

/// Opens these files. The exit, what was opened, whose debrief is shown, and what was said.
fn open(files: &[&str]) -> (Exit, Vec<String>, Vec<String>, String) {
    let paper = Paper::default();
    let (exit, said) = paper.run(&[&["open"], files].concat(), "");
    let said = in_a_row(&said);
    (exit, paper.opened.take(), paper.debriefed.take(), said)
}

#[test]
fn drills_are_opened_by_their_names_and_files() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let mine = text(&folder.path().join("blocked-downstream.ron"));
    let shipped = root().join("scenarios/production/blocked-downstream.ron");
    fs::copy(shipped, &mine).expect("it can be copied");
    let cases: [&[&str]; 3] = [
        &["blocked-downstream"],
        &["blocked-downstream", "left-inside"],
        &["left-inside", &mine],
    ];
    for files in cases {
        let (exit, opened, debriefed, said) = open(files);
        assert_eq!((exit, said.as_str()), (Exit::Done, ""), "{files:?}");
        let expected = files.iter().map(|file| match *file {
            "left-inside" => "left-inside",
            _ => "blocked-downstream",
        });
        assert_eq!(opened, expected.collect::<Vec<_>>());
        assert_eq!(debriefed, [""; 0]);
    }
}

#[test]
fn an_attempt_is_opened_alone_with_its_own_drill() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let attempt = text(&play("by-hand", folder.path()));
    let (exit, opened, debriefed, said) = open(&[&attempt]);
    assert_eq!((exit, said.as_str()), (Exit::Done, ""));
    assert_eq!(opened, ["left-inside"]);
    assert_eq!(debriefed, [attempt.as_str()]);
    for files in [&[attempt.as_str(), &attempt], &["left-inside", &attempt]] {
        let (exit, opened, _, said) = open(files);
        assert_eq!((exit, opened.len()), (Exit::WrongUse, 0), "{said}");
        assert!(said.contains("One attempt is opened at a time"), "{said}");
    }
    // Without a window an attempt is not played, and the terminal is not offered for it.
    let instead = format!("rackproof grade {attempt}\n");
    let (exit, said) = Paper::without(Missing::Driver).run(&["open", &attempt], "yes\n");
    assert!(exit == Exit::No && !said.contains(OFFER), "{said}");
    assert!(said.ends_with(&instead), "{said}");
    let (exit, said) = run_with(&["open", &attempt], "");
    assert!(
        exit == Exit::No && said.contains("without its window"),
        "{said}"
    );
    assert!(said.ends_with(&instead), "{said}");
}

/// The terminal plays one drill: of several it is said which.
#[test]
fn of_several_drills_the_terminal_names_the_one_that_it_offers() {
    let missing = || Paper::without(Missing::Driver);
    let (_, said) = missing().run(&["open", "blocked-downstream", "left-inside"], "no\n");
    assert!(
        said.contains("The drill blocked-downstream can be played in the terminal."),
        "{said}"
    );
    let (_, said) = missing().run(&["open", "left-inside"], "no\n");
    assert!(said.contains(OFFER), "{said}");
}

#[test]
fn what_cannot_be_read_is_named_and_nothing_is_opened() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let written = |name: &str, held: &str| {
        let path = folder.path().join(name);
        fs::write(&path, held).expect("it can be written");
        text(&path)
    };
    let garbage = written("garbage.attempt", "{}\n");
    let wrong = written("wrong.ron", "Drill(");
    let cases: [(&[&str], &str); 4] = [
        (&["no-such-name"], "no drill of that name"),
        (&["nothing.attempt"], "nothing.attempt"),
        (&[&garbage], "no attempt that this program can play"),
        (&["left-inside", &wrong], "wrong.ron"),
    ];
    for (files, says) in cases {
        let (exit, opened, debriefed, said) = open(files);
        assert_eq!(exit, Exit::No, "{files:?}: {said}");
        assert!(opened.is_empty() && debriefed.is_empty(), "{files:?}");
        assert!(said.contains(says), "{files:?}: {said}");
    }
    // All that are not there are named, not the first alone, and the problems of those that are.
    let (exit, opened, _, said) = open(&["no-such-name", "left-inside", "nor-this", &wrong]);
    assert_eq!((exit, opened.len()), (Exit::No, 0));
    for part in ["no-such-name cannot", "nor-this cannot", "wrong.ron"] {
        assert!(said.contains(part), "{part}: {said}");
    }
}
