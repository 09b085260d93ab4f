//! Runs the program in this process, as `main` does.

use std::path::{Path, PathBuf};

use rackproof_commands::Exit;
use serde_json::Value;

/// The clone.
pub(crate) fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// A path in the clone, as an argument.
pub(crate) fn in_clone(path: &str) -> String {
    root().join(path).to_string_lossy().into_owned()
}

/// Runs a command with this typed into it: its exit and all that it says.
pub(crate) fn run_with(arguments: &[&str], typed: &str) -> (Exit, String) {
    let mut out = Vec::new();
    let line = ["rackproof"].iter().chain(arguments).map(Into::into);
    let exit = rackproof_commands::run(line, &mut typed.as_bytes(), &mut out, None);
    let said = String::from_utf8(out).expect("it says text");
    assert_eq!(unsaid(&said), [""; 0], "{said}");
    (exit, said)
}

/// Marks of messages or values that are not there: `[some-id]`, `{$value}`.
pub(crate) fn unsaid(said: &str) -> Vec<&str> {
    let mark = |word: &&str| {
        let id = word
            .strip_prefix('[')
            .and_then(|word| word.split(']').next());
        let of_id = |one: char| one == '-' || one.is_ascii_lowercase() || one.is_ascii_digit();
        let small = |id: &str| id.contains('-') && id.chars().all(of_id);
        word.contains("{$") || id.is_some_and(small)
    };
    said.split_whitespace().filter(mark).collect()
}

#[test]
fn a_message_that_is_not_there_is_found() {
    let words = rackproof_words::Words::english();
    let missing = words.say("no-such-message", &[]);
    let value = words.say("file-not-read", &[]);
    assert_eq!(
        unsaid(&format!("All is well. {missing}")),
        [missing.as_str()]
    );
    assert!(!unsaid(&value).is_empty(), "{value}");
    assert_eq!(unsaid("Usage: rackproof [OPTIONS] {0}"), [""; 0]);
}

/// Runs a command with nothing typed.
pub(crate) fn run(arguments: &[&str]) -> (Exit, String) {
    run_with(arguments, "")
}

/// Plays a journal of the clone into a folder, and gives the attempt's path: one of the first drill
/// by its name, of another as `DRILL/NAME`.
pub(crate) fn play(journal: &str, folder: &Path) -> PathBuf {
    let out = folder.join(format!("{}.attempt", journal.replace('/', "-")));
    let (drill, journal) = journal.split_once('/').unwrap_or(("left-inside", journal));
    let path = in_clone(&format!("tests/journals/{drill}/{journal}.ron"));
    let (exit, said) = run(&["play", "--journal", &path, "--out", &out.to_string_lossy()]);
    assert_eq!(exit, Exit::Done, "{journal}: {said}");
    out
}

/// Grades an attempt: the exit, and the object.
pub(crate) fn grade(attempt: &Path) -> (Exit, Value) {
    let (exit, said) = run(&["grade", "--json", &attempt.to_string_lossy()]);
    (exit, serde_json::from_str(&said).expect("it is one object"))
}

/// A path as messages show it.
pub(crate) fn text(path: &Path) -> String {
    rackproof_library::shown(path)
}

/// The lines of a text as one, without the breaks of a terminal.
pub(crate) fn in_a_row(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
