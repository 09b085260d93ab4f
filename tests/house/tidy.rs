//! Small rules that keep the house easy to read.

use std::collections::BTreeSet;

use crate::listing;

const LINE_CHARACTERS_MAX: usize = 100;
const FILE_LINES_MAX: usize = 400;

/// Names that say nothing about what is in a file, with what to do instead.
const EMPTY_NAMES: &[&str] = &["helper", "helpers", "misc", "util", "utils"];
const NAME_IT: &str = "name it after what is in it";

/// Marks of work that is not done. Put together here, so that this file does not trip on itself.
const UNDONE: &[&str] = &[
    concat!("to", "do!"),
    concat!("un", "implemented!"),
    concat!("TO", "DO"),
    concat!("FIX", "ME"),
];

/// All that the top level has.
const TOP: &[&str] = &[
    ".cargo",
    ".ci",
    ".gitattributes",
    ".gitignore",
    "Cargo.lock",
    "Cargo.toml",
    "DEVELOPERS.md",
    "LICENSE-APACHE",
    "LICENSE-MIT",
    "README.md",
    "assets",
    "game",
    "scenarios",
    "tests",
];

/// What is wrong with one file. `text` is None if the file is not text.
fn complaints(path: &str, text: Option<&str>) -> Vec<String> {
    let mut complaints = Vec::new();
    for part in path.split('/') {
        let stem = part.split('.').next().unwrap_or_default();
        if EMPTY_NAMES.contains(&stem) {
            complaints.push(format!("{path}: \"{stem}\" says nothing: {NAME_IT}"));
        }
    }
    let Some(text) = text else {
        return complaints;
    };
    for (index, line) in text.lines().enumerate() {
        let place = format!("{path}:{}", index + 1);
        let characters = line.chars().count();
        if path.ends_with(".rs") && characters > LINE_CHARACTERS_MAX && !line.contains("://") {
            complaints.push(format!(
                "{place}: {characters} characters, at most {LINE_CHARACTERS_MAX}: break the line"
            ));
        }
        for mark in UNDONE.iter().filter(|mark| line.contains(**mark)) {
            complaints.push(format!(
                "{place}: {mark}: do it, or say in words what is not there"
            ));
        }
    }
    let lines = text.lines().count();
    if path.ends_with(".rs") && lines > FILE_LINES_MAX {
        complaints.push(format!(
            "{path}: {lines} lines, at most {FILE_LINES_MAX}: split it"
        ));
    }
    complaints
}

/// What is on the top level and should not be, and what should be and is not.
fn top_level(files: &[String]) -> Vec<String> {
    let there: BTreeSet<&str> = files
        .iter()
        .filter_map(|path| path.split('/').next())
        .collect();
    let expected: BTreeSet<&str> = TOP.iter().copied().collect();
    let extra = there
        .difference(&expected)
        .map(|name| format!("{name}: not for the top level"));
    let missing = expected
        .difference(&there)
        .map(|name| format!("{name}: missing"));
    extra.chain(missing).collect()
}

#[test]
fn all_files_are_tidy() -> Result<(), String> {
    let mut found = Vec::new();
    for path in listing::files()? {
        if ["game/", "tests/", "assets/", "scenarios/"]
            .iter()
            .any(|top| path.starts_with(top))
        {
            found.extend(complaints(&path, listing::read(&path)?.as_deref()));
        }
    }
    assert!(found.is_empty(), "\n{}", found.join("\n"));
    Ok(())
}

#[test]
fn the_top_level_has_just_what_it_needs() -> Result<(), String> {
    assert_eq!(top_level(&listing::files()?), [""; 0]);
    Ok(())
}

#[test]
fn an_untidy_file_is_found() {
    let long = "x".repeat(101);
    let address = format!("// see https://{long}");
    let many = "\n".repeat(401);
    let undone: Vec<String> = UNDONE
        .iter()
        .map(|mark| format!("fn a() {{ {mark} }}"))
        .collect();
    let cases: &[(&str, &str, &str)] = &[
        ("game/a.rs", "fn a() {}", ""),
        ("game/a.rs", &long, "game/a.rs:1: 101 characters"),
        ("game/a.rs", &long[1..], ""),
        ("game/a.rs", &address, ""),
        ("assets/a.ron", &long, ""),
        ("game/a.rs", &many, "game/a.rs: 401 lines"),
        ("game/a.rs", &many[1..], ""),
        ("scenarios/a.ron", &many, ""),
        ("game/utils.rs", "", "game/utils.rs: \"utils\" says nothing"),
        (
            "game/helpers/a.rs",
            "",
            "game/helpers/a.rs: \"helpers\" says nothing",
        ),
        (
            "tests/misc.tests.rs",
            "",
            "tests/misc.tests.rs: \"misc\" says nothing",
        ),
        ("game/a.rs", &undone[0], "game/a.rs:1: "),
        ("game/a.rs", &undone[1], "game/a.rs:1: "),
        ("assets/a.ftl", &undone[2], "assets/a.ftl:1: "),
        ("scenarios/a.ron", &undone[3], "scenarios/a.ron:1: "),
    ];
    for (path, text, expected) in cases {
        let found = complaints(path, Some(text));
        let is_as_expected = match expected.is_empty() {
            true => found.is_empty(),
            false => found.len() == 1 && found[0].starts_with(expected),
        };
        assert!(
            is_as_expected,
            "{path}: expected {expected:?}, found {found:?}"
        );
    }
    assert_eq!(complaints("assets/a.ttf", None), [""; 0]);
}

#[test]
fn a_crowded_or_bare_top_level_is_found() {
    let mut files: Vec<String> = TOP.iter().map(|name| (*name).to_owned()).collect();
    assert_eq!(top_level(&files), [""; 0]);
    files.retain(|name| name != "README.md");
    files.push(String::from("notes/today.md"));
    assert_eq!(
        top_level(&files),
        ["notes: not for the top level", "README.md: missing"]
    );
}
