//! Exams in the terminal: which start one has.

use std::{collections::BTreeSet, fs, path::Path};

use rackproof_attempt::{Reading, read_attempt};
use rackproof_commands::Exit;

use crate::{
    play::{in_a_row, run_with, text},
    proofs::proved,
};

/// The starts of so many attempts that were begun and left.
fn starts(mode: &str, count: usize) -> BTreeSet<String> {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let drill = text(&proved(folder.path()));
    let begun = |number: usize| {
        let out = folder.path().join(format!("{number}.attempt"));
        let line = ["play", &drill, "--mode", mode, "--out", &text(&out)];
        let (exit, said) = run_with(&line, "q\n");
        assert_eq!(exit, Exit::Done, "{said}");
        let bytes = fs::read(&out).expect("it is kept");
        match read_attempt(&bytes) {
            Reading::CutOff(Some(kept)) => kept.header.variant,
            other => panic!("{other:?}"),
        }
    };
    (0..count).map(begun).collect()
}

/// The task sheet says that one of the starts is drawn, and whoever knows the first one could take
/// the board out unseen. Of thirteen the same one comes twelve times in a row by a chance of 1 in
/// 13 to the eleventh.
#[test]
fn an_exam_draws_its_start_and_practice_has_the_first() {
    assert!(starts("exam", 12).len() > 1);
    assert_eq!(starts("practice", 3), ["green-low".to_owned()].into());
    assert_eq!(starts("guided", 3), ["green-low".to_owned()].into());
}

/// The names of starts say where boards lie.
#[test]
fn the_start_of_an_exam_cannot_be_chosen() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let drill = text(&proved(folder.path()));
    let out = text(&folder.path().join("chosen.attempt"));
    let line = |mode| {
        let chosen = ["play", &drill, "--mode", mode, "--variant", "black-low"];
        let (exit, said) = run_with(&[&chosen[..], &["--out", &out]].concat(), "q\n");
        (exit, in_a_row(&said))
    };
    let (exit, said) = line("exam");
    assert_eq!(exit, Exit::WrongUse);
    assert!(said.contains("In an exam the start is drawn"), "{said}");
    assert!(!Path::new(&out).exists(), "nothing was begun");
    assert_eq!(line("practice").0, Exit::Done);
}
