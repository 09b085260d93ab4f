//! Searches that are ended before their time.

use std::{
    io::{BufRead, BufReader, Read},
    process::{Command, Stdio},
};

use crate::proofs::tree;

/// Ctrl-C: the program says what is known by then, and keeps nothing.
#[test]
fn searches_can_be_ended_before_their_time() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let drill = tree(folder.path());
    let mut program = Command::new(env!("CARGO_BIN_EXE_rackproof"))
        .args(["prove", &drill.to_string_lossy()])
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
    assert!(said.contains("Ended before its time."), "{said}");
    assert!(said.contains("open       Rules suffice"), "{said}");
    assert!(!drill.with_extension("proof.ron").exists());
}
