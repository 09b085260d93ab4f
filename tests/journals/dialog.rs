//! The dialog, played by somebody who reads nothing but what it prints.

use std::{
    cell::RefCell,
    collections::VecDeque,
    io::{self, BufReader, Read, Write},
    path::Path,
    rc::Rc,
};

use rackproof_commands::Exit;

use crate::{
    play::{grade, in_a_row, root, run_with, unsaid},
    proofs::proved,
};

/// What was printed so far.
#[derive(Clone, Default)]
pub(crate) struct Paper(Rc<RefCell<Vec<u8>>>);

impl Write for Paper {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.0.borrow_mut().write(bytes)
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

impl Paper {
    pub(crate) fn text(&self) -> String {
        String::from_utf8_lossy(&self.0.borrow()).into_owned()
    }
}

/// Somebody who wants to do these things in turn, each by the words of its line in the last list.
struct Trainee {
    paper: Paper,
    wishes: VecDeque<&'static str>,
}

impl Read for Trainee {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        let Some(wish) = self.wishes.pop_front() else {
            return Ok(0);
        };
        let typed = match wish.strip_prefix('>') {
            Some(typed) => format!("{typed}\n"),
            None => format!("{}\n", number_of(&self.paper.text(), wish)),
        };
        buffer[..typed.len()].copy_from_slice(typed.as_bytes());
        Ok(typed.len())
    }
}

/// The number in front of these words in the last list that was printed.
pub(crate) fn number_of(printed: &str, words: &str) -> String {
    let list = printed
        .rfind("\nI can\n")
        .map_or("", |start| &printed[start..]);
    let number = |line: &str| {
        line.match_indices(words).find_map(|(at, _)| {
            let rest = &line[at + words.len()..];
            let ends = rest.is_empty() || rest.starts_with("  ");
            let number = line[..at].strip_suffix(' ')?.split(' ').next_back()?;
            (ends && number.parse::<usize>().is_ok()).then(|| number.to_owned())
        })
    };
    let found = list.lines().find_map(number);
    found.unwrap_or_else(|| panic!("“{words}” is not in the list:{list}"))
}

fn play(folder: &Path, arguments: &[&str], wishes: Vec<&'static str>) -> (Exit, String) {
    play_drill(&proved(folder), folder, arguments, wishes)
}

fn play_drill(
    drill: &Path,
    folder: &Path,
    arguments: &[&str],
    wishes: Vec<&'static str>,
) -> (Exit, String) {
    let paper = Paper::default();
    let drill = drill.to_string_lossy().into_owned();
    let out = folder.join("dialog.attempt").to_string_lossy().into_owned();
    let mut line = vec!["rackproof", "play", &drill, "--out", &out];
    line.extend(arguments);
    let mut trainee = BufReader::new(Trainee {
        paper: paper.clone(),
        wishes: wishes.into(),
    });
    let line = line.into_iter().map(Into::into);
    let exit = rackproof_commands::run(line, &mut trainee, &mut paper.clone(), None);
    let said = paper.text();
    assert_eq!(unsaid(&said), [""; 0], "{said}");
    (exit, said)
}

/// The way by hand, in the words of the list. What begins with `>` is typed as it stands.
const BY_HAND: &[&str] = &[
    "Test my shoe straps",
    "Ask upstream to hold all boards",
    "Light the torch",
    "Walk to the isolator",
    "Turn the isolator off",
    "Put my lock on the isolator",
    "Walk to the panel",
    "Try Start on the dark panel",
    "Walk to the hatch",
    "Open the hatch",
    "Plug my wrist cord into the bonding stud",
    "Lean to the infeed side and look into every slot",
    ">t 9 i",
    "Set the prop under the lift",
    "Reach into the rack",
    "Take the board out of a slot: slot and half are asked for",
    ">9 infeed",
    ">t 9 i",
    "Take my hand out of the rack",
    "Put the board into quarantine",
    "Lean to the infeed side and look into every slot",
    "Lean to the outfeed side and look into every slot",
    "Take the prop out",
    "Unplug my wrist cord",
    "Shut the hatch",
    "Walk to the isolator",
    "Take my lock off the isolator",
    "Turn the isolator on",
    "Walk to the panel",
    "Put the setter's key in and turn it",
    "Hold the declare-empty button for 2.0 s",
    ">w",
    "Turn the setter's key back and take it out",
    "Choose mode Changeover",
    "Press Reset",
    "Choose product Kestrel",
    "Load product Kestrel",
    "Walk to the infeed",
    "Look at the infeed belt and along the slot behind it",
    "Walk to the outfeed",
    "Look at the outfeed belt and along the slot behind it",
    "Walk to the panel",
    "Press Start",
    ">w 10",
    "Walk to the infeed",
    "Look at the infeed belt and along the slot behind it",
    "Walk to the outfeed",
    "Look at the outfeed belt and along the slot behind it",
    "Walk to the panel",
    "Press Start",
    ">w 10",
    "Press Reset",
    "Tell upstream to go on",
    "Write the log",
    "Report the job done and end the attempt",
    ">yes",
];

#[test]
fn the_way_by_hand_can_be_played_from_the_words_alone() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let mut wishes = BY_HAND.to_vec();
    wishes.insert(4, ">h");
    let (exit, said) = play(folder.path(), &["--variant", "green-middle"], wishes);
    assert_eq!(exit, Exit::Done, "{said}");
    for part in [
        "PASSED",
        "Slot 9, infeed half: Wren.",
        "All looks are void",
        "Turn the isolator off.",
        "1-16 empty",
    ] {
        assert!(said.contains(part), "{part} is missing in:\n{said}");
    }
    let wide: Vec<&str> = said
        .lines()
        .filter(|line| line.chars().count() > 80)
        .collect();
    let paths = |line: &&&str| !line.contains("attempt");
    assert_eq!(wide.iter().filter(paths).count(), 0, "{wide:#?}");
    let (exit, object) = grade(&folder.path().join("dialog.attempt"));
    assert_eq!((exit, &object["passed"]), (Exit::Done, &true.into()));
    let notes: Vec<_> = object["notes"]
        .as_array()
        .expect("a list")
        .iter()
        .map(|it| &it["note"])
        .collect();
    assert_eq!(
        notes,
        ["Hint(isolate)", "Tick(9, Infeed)", "Tick(9, Infeed)"]
    );
}

#[test]
fn an_attempt_that_was_left_is_gone_on_with() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let (first, rest) = BY_HAND.split_at(14);
    let (exit, said) = play(
        folder.path(),
        &["--variant", "green-middle"],
        first.to_vec(),
    );
    assert_eq!(exit, Exit::Done, "the input ended: {said}");
    let path = folder.path().join("dialog.attempt");
    let name = path.to_string_lossy().into_owned();
    assert_eq!(grade(&path).1["state"], "cut-off");
    let (_, said) = run_with(&["play", "--resume", &name], "t\n");
    assert!(said.contains("Infeed halves marked: 9"), "{said}");
    let paper = Paper::default();
    let trainee = Trainee {
        paper: paper.clone(),
        wishes: rest.iter().copied().collect(),
    };
    let line = ["rackproof", "play", "--resume", &name]
        .into_iter()
        .map(Into::into);
    let mut input = BufReader::new(trainee);
    let exit = rackproof_commands::run(line, &mut input, &mut paper.clone(), None);
    assert_eq!(exit, Exit::Done, "{}", paper.text());
    assert_eq!(grade(&path).1["passed"], true);
}

#[test]
fn an_exam_gives_no_hint_and_does_not_say_that_looks_are_void() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let mut wishes = BY_HAND[..15].to_vec();
    wishes.extend([">h", ">o"]);
    let (_, said) = play(folder.path(), &["--mode", "exam"], wishes);
    assert!(said.contains("There are no hints in an exam."), "{said}");
    assert!(said.contains("There is no help in an exam."), "{said}");
    assert!(!said.contains("void") && !said.contains("Why "), "{said}");
}

/// A safe way on is told until something new is seen, noted, and listed in the report.
#[test]
fn a_safe_way_on_is_told_and_listed() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let mut wishes = BY_HAND.to_vec();
    wishes.insert(13, ">o");
    wishes.insert(0, ">o");
    let (exit, said) = play(folder.path(), &["--variant", "green-middle"], wishes);
    assert_eq!(exit, Exit::Done, "{said}");
    let told: Vec<&str> = said.split("A safe way on from here").collect();
    assert_eq!(told.len(), 3, "{said}");
    assert!(
        told[1].contains("Open the hatch.") && told[1].contains("Ask again"),
        "{said}"
    );
    // What was seen by then is named, and nothing was before.
    assert!(told[2].contains("slot 9, infeed half"), "{said}");
    let first = told[1].split(" I can").next().unwrap_or_default();
    assert!(!first.contains("slot 9"), "{first}");
    let path = folder.path().join("dialog.attempt");
    let object = grade(&path).1;
    assert_eq!(object["helped"]["ways_on"], 2, "{object:#}");
    let notes = &object["notes"];
    assert_eq!(notes[0]["note"], "WayOn(test-straps)");
    assert_eq!(notes[2]["note"], "WayOn(set-prop)");
    let (_, graded) = crate::play::run(&["grade", &path.to_string_lossy()]);
    assert!(graded.contains("a way on asked for 2 times"), "{graded}");
}

/// Asked before each doing, a way on names the product and has no bracket with nothing in it.
#[test]
fn a_way_on_names_what_is_chosen_and_has_no_empty_brackets() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let asked = BY_HAND[..42]
        .iter()
        .flat_map(|wish| match wish.strip_prefix('>') {
            Some(_) => vec![*wish],
            None => vec![">o", wish],
        });
    let (_, said) = play(
        folder.path(),
        &["--variant", "green-middle"],
        asked.collect(),
    );
    let said = in_a_row(&said);
    for part in ["()", "(Load product Wren)", "(Choose product Wren)"] {
        assert!(!said.contains(part), "{part} in:\n{said}");
    }
    for part in [
        "Open the hatch. Through the hatch",
        "Press Reset, or Clear while Aborted. (Press Reset)",
        "Choose the next product. (Choose product Kestrel)",
        "Load the product. (Load product Kestrel)",
    ] {
        assert!(said.contains(part), "{part} is missing in:\n{said}");
    }
}

#[test]
fn guided_shows_the_next_step_unasked() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let (_, said) = play(folder.path(), &["--mode", "guided"], Vec::new());
    assert!(said.contains("Next     Test your shoe straps."), "{said}");
}

#[test]
fn who_does_not_ask_upstream_to_hold_gets_its_board() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let look = "Look at the infeed belt and along the slot behind it";
    let wishes = vec!["Walk to the infeed", ">w 30", look];
    let (_, said) = play(folder.path(), &[], wishes);
    assert!(
        said.contains("Upstream laid a board on the infeed belt."),
        "{said}"
    );
    assert!(said.contains("Infeed belt: a board lies on it"), "{said}");
}

/// A terminal has no sound: what is heard of a fault is written, and not among what the panel
/// shows.
#[test]
fn what_is_heard_of_a_fault_is_written_as_heard() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let drill = root().join("tests/journals/faults/scenarios/lift-sinks.ron");
    let wishes = vec!["Press the emergency stop", ">q"];
    let (_, said) = play_drill(&drill, folder.path(), &[], wishes);
    assert!(said.contains("I hear   The lift's brake ticks."), "{said}");
}

#[test]
fn a_report_is_asked_about_and_rest_is_waited_for() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let report = "Report the job done and end the attempt";
    let wishes = vec![
        ">r",
        "Choose mode Changeover",
        "Press Reset",
        "Choose product Kestrel",
        "Load product Kestrel",
        "Press Start",
        ">r",
        report,
        ">no",
        report,
        ">Yes",
    ];
    let (exit, said) = play(folder.path(), &["--variant", "black-high"], wishes);
    assert_eq!(exit, Exit::No, "{said}");
    for part in [
        "No time has passed.",
        "The sweep saw no board. Start moves the rails.",
        "Nothing was reported.",
        "FAILED",
    ] {
        assert!(said.contains(part), "{part} is missing in:\n{said}");
    }
}

#[test]
fn nothing_that_is_typed_does_harm() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let wishes = vec![
        ">",
        ">0",
        ">99999999999999999999",
        ">-1",
        ">5 i",
        ">w -1",
        ">w 99999",
        ">t 99 i",
        ">t x",
        ">\u{0}",
        ">?",
        ">s",
        ">ü",
        ">q",
    ];
    let (exit, said) = play(folder.path(), &[], wishes);
    assert_eq!(exit, Exit::Done);
    assert!(said.contains("You left."), "{said}");
    assert!(!said.contains("Done: "), "{said}");
    assert_eq!(
        grade(&folder.path().join("dialog.attempt")).1["state"],
        "cut-off"
    );
}
