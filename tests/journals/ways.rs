//! What breaks a claim, as attempts; and searches that are ended before their time.

use std::{fs, path::Path};

use rackproof_commands::Exit;

use crate::{
    play::{grade, run},
    proofs::tree,
};

/// Writes one part of a file in place of another.
fn replace(path: &Path, from: &str, to: &str) {
    let text = fs::read_to_string(path).expect("it is there");
    let (start, end) = match from.split_once('…') {
        Some((first, last)) => {
            let start = text.find(first).expect(first);
            let end = text[start..].find(last).expect(last) + start + last.len();
            (start, end)
        }
        None => {
            let start = text.find(from).expect(from);
            (start, start + from.len())
        }
    };
    let text = format!("{}{to}{}", &text[..start], &text[end..]);
    fs::write(path, text).expect("it can be written");
}

/// With a rule taken out the rules do not suffice. What the search found is an attempt like any
/// other: it is read, run again, and fails by a harm. A machine of two slots is searched whole.
#[test]
fn a_way_that_breaks_a_claim_is_an_attempt() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let drill = tree(folder.path());
    let machine = folder.path().join("assets/machines/alder-16.ron");
    replace(&machine, "slots: 16", "slots: 2");
    let rules = folder.path().join("assets/rules/changeover.ron");
    replace(
        &rules,
        "Rule(name: \"rails-unproven\"…Named(\"rack-proven\"))),",
        "",
    );
    replace(
        &drill,
        "Variant(name: \"green-middle\"…boards: [Lying(slot: 14, half: Infeed, board: \"raven\")]),",
        "Variant(name: \"black-low\", traps: [\"sweep-believed\", \"half-a-look\"],
            boards: [Lying(slot: 1, half: Infeed, board: \"raven\")]),
        Variant(name: \"belt\", traps: [\"half-a-look\", \"belt-forgotten\"], infeed_belt: \"wren\",
            boards: [Lying(slot: 1, half: Outfeed, board: \"wren\")]),",
    );
    let drill = drill.to_string_lossy().into_owned();
    let ways = folder.path().join("ways");
    let out = ways.to_string_lossy().into_owned();
    let (exit, said) = run(&["prove", &drill, "--variant", "black-low", "--ways", &out]);
    assert_eq!(exit, Exit::No, "{said}");
    assert!(said.contains("No proof is kept of a part"), "{said}");
    let path = ways.join("left-inside-rules-suffice-black-low-1.attempt");
    let row = said.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(row.contains(&*path.to_string_lossy()), "{said}");
    let (exit, object) = grade(&path);
    assert_eq!(exit, Exit::No, "{object:#}");
    assert_eq!(object["state"], "graded", "{object:#}");
    assert!(
        object["harms"]
            .as_array()
            .is_some_and(|all| !all.is_empty()),
        "{object:#}"
    );
    let (_, said) = run(&["grade", &path.to_string_lossy()]);
    assert!(
        said.contains("A proof found this way. It breaks a claim at"),
        "{said}"
    );
    assert!(said.contains("Rules suffice: "), "{said}");
    // A second time nothing is written over.
    let before = fs::read(&path).expect("it is there");
    run(&["prove", &drill, "--variant", "black-low", "--ways", &out]);
    assert!(fs::read(&path).expect("it is there") == before);
    assert!(
        ways.join("left-inside-rules-suffice-black-low-2.attempt")
            .exists()
    );
}

/// Ctrl-C: the program says what is known by then, and keeps nothing.
#[cfg(unix)]
#[test]
fn searches_can_be_ended_before_their_time() {
    use std::{
        io::{BufRead, BufReader, Read},
        process::{Command, Stdio},
    };
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
