//! The questions to a machine file, answered by somebody at a keyboard.

mod parts;

use std::{
    fs,
    path::{Path, PathBuf},
};

use rackproof_commands::Exit;

use crate::play::{in_a_row, in_clone, run, run_with};

/// A machine of the clone, copied into a folder.
fn alder(folder: &Path) -> PathBuf {
    let path = folder.join("alder-16.ron");
    fs::copy(in_clone("assets/machines/alder-16.ron"), &path).expect("it can be copied");
    path
}

fn text(path: &Path) -> String {
    fs::read_to_string(path).expect("it can be read")
}

/// Answers these lines about this file.
fn answer(path: &Path, lines: &[&str]) -> (Exit, String) {
    let typed: String = lines.iter().map(|line| format!("{line}\n")).collect();
    let (exit, said) = run_with(&["machine", &path.to_string_lossy()], &typed);
    // A line of a file is drawn as it stands; names of folders are as long as they are.
    let drawn = |line: &&str| line.contains(" | ") || line.contains('/');
    let wide: Vec<&str> = said
        .lines()
        .filter(|line| !drawn(line) && line.chars().count() > 80)
        .collect();
    let of_a_problem = |line: &&str| line.starts_with("problem: ") || line.starts_with("  = ");
    assert_eq!(
        wide.iter().filter(|line| !of_a_problem(line)).count(),
        0,
        "{wide:#?}"
    );
    (exit, said)
}

/// The names in a folder, sorted.
fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder)
        .expect("it is there")
        .map(|entry| entry.expect("it can be read").file_name())
        .map(|name| name.to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}

fn has(said: &str, parts: &[&str]) {
    let one_line = in_a_row(said);
    for part in parts {
        assert!(one_line.contains(part), "“{part}” is missing in:\n{said}");
    }
}

#[test]
fn a_file_that_is_there_is_changed_in_its_figures_alone() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let path = alder(folder.path());
    let before = text(&path);
    // Slots, pitch; then a behaviour by its number and a time by its unit.
    let (exit, said) = answer(
        &path,
        &[
            "24",
            "0.75 in",
            "",
            "go machine_ready",
            "1",
            "go declare",
            "1500 ms",
            "go write_s",
            "",
            "yes",
        ],
    );
    assert_eq!(exit, Exit::Done, "{said}");
    has(
        &said,
        &[
            "Rack 1 of",
            "rack, slots What slots of the rack Range 2 to 40 slots, whole.",
            "Count the slots from the bottom",
            "Now 16 slots",
            "Noted: 24 slots.",
            "Noted: 19.05 mm.",
            "1 only after upstream offers a board",
            "Now whenever there is room",
            "Noted: only after upstream offers a board.",
            "Changed: 4. Kept: 2.",
            "is written, with its comments as they were.",
        ],
    );
    let expected = before
        .replacen("slots: 16", "slots: 24", 1)
        .replacen("pitch_mm: 20.0", "pitch_mm: 19.05", 1)
        .replacen("machine_ready: Room", "machine_ready: OnOffer", 1)
        .replacen("declare_hold_s: 2.0", "declare_hold_s: 1.5", 1);
    assert_eq!(text(&path), expected);
    assert_eq!(names(folder.path()), ["alder-16.ron"]);
    assert_eq!(run(&["check", &path.to_string_lossy()]).0, Exit::Done);
}

#[test]
fn a_new_file_begins_from_a_machine_of_ours_and_has_its_own_name() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let path = folder.path().join("hall-3.ron");
    let (exit, said) = answer(&path, &["", "18.5", "go write_s", "skip", "yes"]);
    assert_eq!(exit, Exit::Done, "{said}");
    has(
        &said,
        &[
            "hall-3 begins as a copy of alder-16",
            "Others to begin from, by --from NAME: rowan-40.",
            "Not answered, and as before: Rack 5, Rails 3, Belts and mouths 4,",
        ],
    );
    let made = text(&path);
    let head = "// hall-3: begun from alder-16 by questions.\n";
    assert!(
        made.starts_with(head) && made.contains("pitch_mm: 18.5,"),
        "{made}"
    );
    assert_eq!(run(&["check", &path.to_string_lossy()]).0, Exit::Done);
    assert_eq!(names(folder.path()), ["hall-3.ron"]);
}

#[test]
fn what_cannot_be_taken_is_answered_with_what_was_expected_and_an_example() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let path = alder(folder.path());
    let before = text(&path);
    let cases: &[(&str, &str, &str)] = &[
        (
            "go pitch",
            "20 s",
            "“s” is not a unit of this figure. Its units: mm, cm, m, µm, in.",
        ),
        ("go pitch", "7 cm", "70 mm is out of range."),
        ("go pitch", "20,5", "“20,5” has a comma"),
        (
            "go pitch",
            "20.0001",
            "“20.0001” has too many decimals: at most 3.",
        ),
        ("go pitch", "wide", "“wide” is not a number with a unit."),
        (
            "go pitch",
            "back now",
            "“back now” is not a number with a unit.",
        ),
        (
            "go slots",
            "16.5",
            "“16.5” has too many decimals: at most 0.",
        ),
        (
            "go machine_ready",
            "rom",
            "“rom” is none of these. Perhaps “Room” is meant: 2.",
        ),
        ("go machine_ready", "3", "“3” is none of these."),
        ("go machine_ready", "0", "“0” is none of these."),
        (
            "go nothing-like-it",
            "?",
            "No figure has “nothing-like-it” in its way.",
        ),
        ("back", "?", "This is the first question."),
    ];
    for (first, typed, told) in cases {
        let (exit, said) = answer(&path, &[first, typed]);
        assert_eq!(exit, Exit::Done, "the input ended: {said}");
        has(&said, &[told]);
        let example = match *first {
            "go pitch" => {
                "Expected: 5 to 60 mm, with at most 3 decimals. Units: mm, cm, m, µm, in. \
                           For example: 20.0 mm"
            }
            "go slots" => "Expected: 2 to 40 slots, whole. For example: 16 slots",
            "go machine_ready" => "Expected: a number from 1 to 2. For example: 1",
            _ => "",
        };
        has(&said, &[example]);
        assert!(!said.contains("Noted: "), "{said}");
        assert_eq!(said.contains("Nothing was noted."), *typed == "7 cm");
        assert_eq!(text(&path), before);
    }
}

#[test]
fn back_and_why_and_quit_lose_nothing() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let path = alder(folder.path());
    let before = text(&path);
    let lines = ["why", "24", "back", "20", "skip", "", "open", "quit"];
    let (exit, said) = answer(&path, &lines);
    assert_eq!(exit, Exit::Done);
    has(
        &said,
        &[
            "The rack decides which slots there are",
            "Now 24 slots",
            "You left.",
        ],
    );
    assert_eq!(text(&path), before, "the file is as it was");
    assert_eq!(names(folder.path()), ["alder-16.ron", "alder-16.ron.part"]);

    // Gone on with, and cut off: the input ends.
    let (_, said) = answer(&path, &["go rest", "11"]);
    has(
        &said,
        &[
            "It goes on from there. Type",
            "2 of 168: rack, pitch_mm",
            "4 of 168: rack, rest_clearance_mm",
            "Now 10.0 mm",
        ],
    );
    assert!(!said.contains("rack, slots"), "{said}");
    let (exit, said) = answer(&path, &["go write_s", "", "yes"]);
    assert_eq!(exit, Exit::Done, "{said}");
    has(&said, &["Changed: 2. Kept: 2.", "Rack 4,"]);
    let expected = before.replacen("slots: 16", "slots: 20", 1).replacen(
        "rest_clearance_mm: 10.0",
        "rest_clearance_mm: 11.0",
        1,
    );
    assert_eq!(text(&path), expected);
    assert_eq!(names(folder.path()), ["alder-16.ron"]);
}

#[test]
fn what_does_not_go_together_is_told_at_once_and_at_the_end() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let path = alder(folder.path());
    let before = text(&path);
    let beyond = "Product “kestrel” is 220 mm wide, beyond the travel of the rails.";
    let long = "The board “kestrel” is 200 mm long, too long for a half of a slot.";
    let lines = [
        "go rack, length",
        "400",
        "go most",
        "200",
        "go write_s",
        "",
        "yes",
        "quit",
    ];
    let (exit, said) = answer(&path, &lines);
    assert_eq!(exit, Exit::Done, "{said}");
    assert_eq!(
        said.matches(beyond).count(),
        3,
        "at once, at the end, and after yes: {said}"
    );
    assert_eq!(said.matches(long).count(), 3, "{said}");
    has(&said, &["2 things are wrong, so", "is not written."]);
    assert_eq!(text(&path), before);

    let lines = [
        "go rack, length",
        "500",
        "go most",
        "300",
        "go write_s",
        "",
        "yes",
    ];
    let (exit, said) = answer(&path, &lines);
    assert_eq!(exit, Exit::Done, "{said}");
    has(
        &said,
        &["One thing is still wrong.", "Now all fits together."],
    );
    assert_eq!(text(&path), before, "all is as it was");
}

#[test]
fn a_file_with_problems_is_put_right_by_its_questions() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let path = alder(folder.path());
    let good = text(&path);
    let bad = good.replacen("slots: 16", "slots: 90", 1).replacen(
        "machine_ready: Room",
        "machine_ready: Rom",
        1,
    );
    fs::write(&path, bad).expect("it can be written");
    let lines = [
        "",
        "16",
        "go machine_ready",
        "",
        "room",
        "go write_s",
        "",
        "yes",
    ];
    let (exit, said) = answer(&path, &lines);
    assert_eq!(exit, Exit::Done, "{said}");
    has(
        &said,
        &[
            "These 2 things are wrong in the file now.",
            "For example: 2 slots",
            "One thing is still wrong.",
            "Expected: a number from 1 to 2.",
        ],
    );
    assert_eq!(text(&path), good);

    fs::write(&path, &good[..good.len() - 20]).expect("it can be written");
    let (exit, said) = answer(&path, &[]);
    assert_eq!(exit, Exit::Done, "what can be read is asked about: {said}");
    for broken in ["", "Drill(name: \"alder-16\")", "Machine(rack: )"] {
        fs::write(&path, broken).expect("it can be written");
        let (exit, said) = answer(&path, &["yes"]);
        assert_eq!(exit, Exit::No, "{broken}: {said}");
        has(&said, &["problem: ", "is not a machine file"]);
        assert_eq!(text(&path), broken);
    }
}

#[test]
fn nothing_is_written_over_what_somebody_else_changed() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let path = alder(folder.path());
    answer(&path, &["24", "quit"]);
    let other = text(&path).replacen("most_mm: 300.0", "most_mm: 310.0", 1);
    fs::write(&path, &other).expect("it can be written");
    let (exit, said) = answer(&path, &["go write_s", "", "yes"]);
    assert_eq!(exit, Exit::No, "{said}");
    has(&said, &["was changed after the questions of"]);
    assert_eq!(text(&path), other);
    let part = folder.path().join("alder-16.ron.part");
    // The answers are there still.
    assert!(text(&part).contains("slots: 24"));
    for foreign in ["nothing of ours", "nothing\nof ours\n"] {
        fs::write(&part, foreign).expect("it can be written");
        let (exit, said) = answer(&path, &["quit"]);
        assert_eq!(exit, Exit::No, "{said}");
        has(&said, &["is not a file of answers"]);
    }
}

#[test]
fn a_name_that_no_machine_can_have_is_told_before_anything_is_asked() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    for (name, told) in [
        ("hall-3", "write a name that ends in .ron"),
        ("Hall 3.ron", "a machine has the name of its file"),
    ] {
        let (exit, said) = answer(&folder.path().join(name), &["24", "yes"]);
        assert_eq!(exit, Exit::WrongUse, "{said}");
        has(&said, &[told]);
        assert_eq!(names(folder.path()), [""; 0]);
    }
    let (exit, said) = answer(&folder.path().join("nowhere/hall-3.ron"), &["24", "yes"]);
    assert_eq!(exit, Exit::WrongUse, "{said}");
    has(&said, &["There is no folder", "Make the folder first"]);
    assert!(!said.contains("slots of the rack"), "{said}");
    let path = folder
        .path()
        .join("hall-3.ron")
        .to_string_lossy()
        .into_owned();
    let (exit, said) = run(&["machine", &path, "--from", "alder-17"]);
    assert_eq!(exit, Exit::WrongUse, "{said}");
    has(&said, &["Perhaps “alder-16” is meant."]);
}
