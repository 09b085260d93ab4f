//! Verdicts bit for bit: what a grade says of kept journals is the same in every build and on every
//! machine. `cargo test --release` compares with the same hashes.

use std::path::Path;

use rackproof_attempt::hash_of;

use crate::play::{grade, play};

/// The hash of all that a grade says, without the file's name and what the drill's text and the
/// notes say anyway.
fn pinned(journal: &str, folder: &Path) -> String {
    let (_, mut object) = grade(&play(journal, folder));
    for part in [
        "attempt",
        "hashes",
        "again",
        "proved",
        "proof",
        "allowed_us",
        "helped",
        "claims",
    ] {
        object
            .as_object_mut()
            .expect("it is an object")
            .remove(part);
    }
    hash_of(&object.to_string())
}

/// The journals, and the hash of what is said of each. A change of rules, procedure or grade
/// changes it, and then it is worth a look which verdicts changed.
const PINNED: &str = include_str!("verdicts.txt");

#[test]
fn a_grade_is_the_same_bit_for_bit() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let lines = PINNED.lines().filter(|line| !line.starts_with('#'));
    let found: Vec<String> = lines
        .clone()
        .map(|line| {
            let (_, journal) = line.split_once("  ").expect("a hash, then a journal");
            format!("{}  {journal}", pinned(journal, folder.path()))
        })
        .collect();
    let expected: Vec<&str> = lines.collect();
    assert!(expected.len() >= 12, "so many are pinned");
    assert_eq!(found, expected, "what is found:\n{}", found.join("\n"));
}
