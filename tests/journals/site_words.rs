//! A machine file with the words of its site: what the terminal then says.

use std::{
    fs,
    path::{Path, PathBuf},
};

use rackproof_commands::Exit;

use crate::play::{in_a_row, in_clone, root, run, text};

/// What this site calls things.
const WORDS: &[(&str, &str)] = &[
    ("intent-start", "Press Cycle on"),
    ("intent-walk-hatch", "Walk to the glass door"),
    (
        "intent-take-from-outfeed-belt",
        "Take a board off the exit belt",
    ),
    ("stand-panel", "console"),
    (
        "question-seen",
        "Storey { $slot }: a board was seen. The map is not to be trusted.",
    ),
];

/// A folder with the first drill, on a machine with these words. The path of the drill.
fn site(folder: &Path, words: &[(&str, &str)]) -> PathBuf {
    let machine = fs::read_to_string(root().join("assets/machines/alder-16.ron"));
    let machine = machine.expect("it can be read");
    let words: String = words
        .iter()
        .map(|(id, text)| format!("        {id:?}: {text:?},\n"))
        .collect();
    let named = "name: \"alder-16\",\n";
    let with = format!("{named}    words: {{\n{words}    }},\n");
    let machine = machine.replacen(named, &with, 1);
    let (machines, scenarios) = (folder.join("assets/machines"), folder.join("scenarios"));
    fs::create_dir_all(&machines).expect("it can be made");
    fs::create_dir_all(&scenarios).expect("it can be made");
    fs::write(machines.join("alder-16.ron"), machine).expect("it can be written");
    let drill = scenarios.join("left-inside.ron");
    let shipped = in_clone("scenarios/changeover/left-inside.ron");
    fs::copy(shipped, &drill).expect("it can be copied");
    drill
}

/// What is said of a drill that is begun: in the words of its site, and in plain ones.
fn told(drill: &str, folder: &Path) -> [String; 2] {
    let out = |name: &str| text(&folder.join(name));
    let (_, own) = run(&["play", drill, "--out", &out("own.attempt")]);
    let plain = out("plain.attempt");
    let (_, plain) = run(&["play", drill, "--plain-words", "--out", &plain]);
    [own, plain]
}

#[test]
fn a_drill_on_a_machine_is_told_in_the_words_of_its_site() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let drill = text(&site(folder.path(), WORDS));
    let [own, plain] = told(&drill, folder.path());
    for (site, ours) in [
        ("Walk to the glass door", "Walk to the hatch"),
        ("Press Cycle on", "Press Start"),
    ] {
        assert!(own.contains(site) && !own.contains(ours), "{site}:\n{own}");
        assert!(
            !plain.contains(site) && plain.contains(ours),
            "{ours}:\n{plain}"
        );
    }
    let (_, resumed) = run(&[
        "play",
        "--resume",
        &text(&folder.path().join("plain.attempt")),
    ]);
    assert!(resumed.contains("Walk to the glass door"), "{resumed}");
}

#[test]
fn the_list_of_all_words_can_be_put_into_a_machine_file_as_it_is() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let (exit, list) = run(&["machine", "--words"]);
    assert_eq!(exit, Exit::Done);
    let count = list.lines().filter(|line| line.contains("\": ")).count();
    assert!(count > 250, "only {count} words:\n{list}");
    let machine = fs::read_to_string(root().join("assets/machines/alder-16.ron"));
    let named = "name: \"alder-16\",\n";
    let with = machine
        .expect("it can be read")
        .replacen(named, &format!("{named}{list}"), 1);
    let path = folder.path().join("alder-16.ron");
    fs::write(&path, with).expect("it can be written");
    let (exit, said) = run(&["check", &text(&path)]);
    assert_eq!(exit, Exit::Done, "{said}");
    assert!(said.contains(&format!("{count} words of")), "{said}");
}

#[test]
fn an_attempt_keeps_the_words_in_which_it_was_played() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    site(folder.path(), WORDS);
    let journal = folder.path().join("hands.ron");
    let kept = in_clone("tests/journals/left-inside/hands-while-moving.ron");
    fs::copy(kept, &journal).expect("it can be copied");
    let attempt = text(&folder.path().join("hands.attempt"));
    let (exit, said) = run(&["play", "--journal", &text(&journal), "--out", &attempt]);
    assert_eq!(exit, Exit::Done, "{said}");
    // The machine's file is gone: the attempt has its text.
    fs::remove_dir_all(folder.path().join("assets")).expect("it can be removed");
    let (_, own) = run(&["grade", &attempt]);
    let (_, plain) = run(&["grade", "--plain-words", &attempt]);
    assert!(own.contains("off the exit belt"), "{own}");
    assert!(!plain.contains("off the exit belt"), "{plain}");
    assert!(plain.contains("off the outfeed belt"), "{plain}");
}

#[test]
fn check_counts_the_words_and_says_all_that_is_wrong_in_them() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let machine = |words| {
        site(folder.path(), words);
        text(&folder.path().join("assets/machines/alder-16.ron"))
    };
    let (exit, said) = run(&["check", &machine(WORDS)]);
    assert_eq!(exit, Exit::Done, "{said}");
    assert!(
        in_a_row(&said).contains("a machine, with 5 words of its site."),
        "{said}"
    );
    let wrong = [
        ("intent-strat", "Go"),
        ("question-seen", "A board was seen."),
        ("operator-start", "Start the whole cycle"),
    ];
    let (exit, said) = run(&["check", &machine(&wrong)]);
    assert_eq!(exit, Exit::No);
    for part in [
        "Perhaps “intent-start” is meant.",
        "lacks the value { $slot }.",
        "At most 9 characters: its place has no more room.",
        "3 problems.",
    ] {
        assert!(said.contains(part), "{part} is missing in:\n{said}");
    }
    // A drill on such a machine is not played.
    let drill = text(&site(folder.path(), &wrong));
    let (exit, said) = run(&["play", &drill]);
    assert_eq!(exit, Exit::No);
    assert!(
        said.contains("There is no message “intent-strat”."),
        "{said}"
    );
}

/// The second machine is shipped with words of its own site: the terminal says them, and the plain
/// ones when asked to.
#[test]
fn the_second_machine_is_told_in_the_words_of_its_site() {
    let (exit, said) = run(&["check", &in_clone("assets/machines/rowan-40.ron")]);
    assert_eq!(exit, Exit::Done, "{said}");
    assert!(said.contains("words of"), "{said}");
    let folder = tempfile::tempdir().expect("a folder can be made");
    let drill = in_clone("scenarios/changeover/left-inside-rowan.ron");
    let [own, plain] = told(&drill, folder.path());
    for (site, ours) in [
        ("Walk to the door", "Walk to the hatch"),
        ("Walk to the main switch", "Walk to the isolator"),
        ("Press Go", "Press Start"),
        ("Press Halt", "Press Stop"),
        ("Door shut.", "Hatch shut."),
        ("Main switch on.", "Isolator on."),
    ] {
        assert!(own.contains(site) && !own.contains(ours), "{site}:\n{own}");
        assert!(
            !plain.contains(site) && plain.contains(ours),
            "{ours}:\n{plain}"
        );
    }
}
