//! Searches that are ended before their time.

use std::{
    io::{BufRead, BufReader, Read},
    process::{Command, Stdio},
};

use crate::proofs::tree;

/// Ends a command after it said what it may take. What it said in all.
fn ended(arguments: &[&str]) -> String {
    let mut program = Command::new(env!("CARGO_BIN_EXE_rackproof"))
        .args(arguments)
        .stdout(Stdio::piped())
        .spawn()
        .expect("it is built");
    let mut out = BufReader::new(program.stdout.take().expect("it is piped"));
    let mut said = String::new();
    // What it says beforehand ends with this; then it searches for minutes.
    while !said.contains("by then.") {
        assert!(out.read_line(&mut said).expect("it is text") > 0, "{said}");
    }
    let kill = Command::new("kill")
        .args(["-INT", &program.id().to_string()])
        .status();
    assert!(kill.expect("it is there").success());
    out.read_to_string(&mut said).expect("it is text");
    let exit = program.wait().expect("it ends");
    assert_eq!(exit.code(), Some(1), "{said}");
    said
}

/// Ctrl-C: the program says what is known by then, and keeps nothing.
#[test]
fn searches_can_be_ended_before_their_time() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let drill = tree(folder.path());
    let path = drill.to_string_lossy().into_owned();
    // A second drill is not begun.
    let said = ended(&["prove", &path, &path]);
    assert!(said.contains("left-inside: not begun"), "{said}");
    assert!(said.contains("holds      Guide"), "{said}");
    assert!(said.contains("holds      Milestones"), "{said}");
    assert!(said.contains("Ended before its time."), "{said}");
    assert!(said.contains(": ended by somebody after "), "{said}");
    assert!(!said.contains("Not proved within the bounds"), "{said}");
    assert!(said.contains("open       Rules suffice"), "{said}");
    assert!(!drill.with_extension("proof.ron").exists());
}

/// And so can those of racks side by side.
#[test]
fn racks_side_by_side_can_be_ended_before_their_time() {
    let said = ended(&["prove", "left-inside", "--slots", "16,40"]);
    assert!(said.contains("16 slots: ended by somebody at"), "{said}");
    assert!(
        said.contains("0 of 2 searches were done to their end"),
        "{said}"
    );
}
