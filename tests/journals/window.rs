//! What the commands ask of the window, and what they say where there is none.

use std::{cell::RefCell, env, path::Path, process::Command};

use rackproof_attempt::PlayedAs;
use rackproof_commands::{
    Exit,
    display::{Display, Figure, Missing, Page, Picture, SearchShortest},
};
use rackproof_library::Loaded;

use crate::play::{grade, in_a_row, play, run, run_with, text, unsaid};

/// A picture that was asked for.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Asked {
    pub(crate) variant: String,
    /// How many causes the attempt has, and when it ended.
    pub(crate) causes: usize,
    pub(crate) end: u64,
    pub(crate) notes: Vec<String>,
    pub(crate) mode: PlayedAs,
    pub(crate) at: u64,
    pub(crate) page: Page,
    pub(crate) size: [u32; 2],
}

impl Asked {
    fn of(wanted: &Picture<'_>) -> Asked {
        let notes = wanted.notes.iter().map(|note| note.note.clone());
        Asked {
            variant: wanted.attempt.world().variant().id.clone(),
            causes: wanted.attempt.done().len(),
            end: wanted.attempt.at(),
            notes: notes.collect(),
            mode: wanted.mode,
            at: wanted.at,
            page: wanted.page,
            size: wanted.size,
        }
    }

    /// What stands in its file in place of a picture.
    pub(crate) fn bytes(&self) -> Vec<u8> {
        format!("{self:?}").into_bytes()
    }
}

/// A display that draws nothing and writes down what it is asked for.
#[derive(Default)]
pub(crate) struct Paper {
    missing: Option<Missing>,
    pub(crate) opened: RefCell<Vec<String>>,
    pub(crate) debriefed: RefCell<Vec<String>>,
    measured: RefCell<Vec<String>>,
    pub(crate) drawn: RefCell<Vec<Asked>>,
}

impl Paper {
    pub(crate) fn without(missing: Missing) -> Paper {
        Paper {
            missing: Some(missing),
            ..Paper::default()
        }
    }

    fn there(&self) -> Result<(), Missing> {
        self.missing.clone().map_or(Ok(()), Err)
    }

    pub(crate) fn run(&self, arguments: &[&str], typed: &str) -> (Exit, String) {
        let mut out = Vec::new();
        let line = ["rackproof"].iter().chain(arguments).map(Into::into);
        let exit = rackproof_commands::run(line, &mut typed.as_bytes(), &mut out, Some(self));
        let said = String::from_utf8(out).expect("it says text");
        assert_eq!(unsaid(&said), [""; 0], "{said}");
        (exit, said)
    }
}

/// Name and value of each figure, as the window gives them.
const FIGURES: [(&str, &str); 6] = [
    ("measured-first", "1.23 s"),
    ("measured-picture", "7.0 ms"),
    ("measured-rate", "61.5"),
    ("measured-course", "0.1 %, 0"),
    ("measured-drill", "0.4 %, 2"),
    ("measured-again", "35 ms"),
];

impl Display for Paper {
    fn open(
        &self,
        (first, others): (Loaded, Vec<Loaded>),
        attempt: Option<&Path>,
        _search: SearchShortest,
    ) -> Result<(), Missing> {
        self.there()?;
        self.debriefed.borrow_mut().extend(attempt.map(text));
        let drills = std::iter::once(first).chain(others);
        let ids = drills.map(|drill| drill.exercise.drill.id);
        self.opened.borrow_mut().extend(ids);
        Ok(())
    }

    fn pictures(&self, wanted: &[Picture<'_>]) -> Result<Vec<Vec<u8>>, Missing> {
        self.there()?;
        let asked: Vec<Asked> = wanted.iter().map(Asked::of).collect();
        self.drawn.borrow_mut().extend(asked.iter().cloned());
        Ok(asked.iter().map(Asked::bytes).collect())
    }

    fn measure(&self, drill: Loaded) -> Result<Vec<Figure>, Missing> {
        self.there()?;
        self.measured.borrow_mut().push(drill.exercise.drill.id);
        let figure = |(id, value): (&'static str, &str)| Figure {
            id,
            value: value.to_owned(),
        };
        Ok(FIGURES.map(figure).into())
    }
}

/// All that can be missing. What others say of it may have lines of its own.
pub(crate) fn all_missing() -> [Missing; 3] {
    [
        Missing::Display,
        Missing::Driver,
        Missing::Other("no libX11\n  cannot open it".to_owned()),
    ]
}

pub(crate) const OFFER: &str =
    "The drill left-inside can be played in the terminal. Type yes to play it:";

/// Names the folder of a test that runs again in a process of its own.
const OWN_FOLDER: &str = "RACKPROOF_TEST_FOLDER";

/// Whether this process has a current folder that is empty at first and can be written to. If not,
/// the test with this name is run in one that has, and must leave these files.
pub(crate) fn in_own_folder(test: &str, leaves: &[&str]) -> bool {
    if env::var_os(OWN_FOLDER).is_some() {
        return true;
    }
    let folder = tempfile::tempdir().expect("a folder can be made");
    let program = env::current_exe().expect("it runs");
    let mut command = Command::new(program);
    command.args(["--exact", test]).current_dir(folder.path());
    let done = command.env(OWN_FOLDER, folder.path()).output();
    let done = done.expect("it can be run again");
    let said = String::from_utf8_lossy(&done.stdout);
    assert!(done.status.success(), "{said}");
    for name in leaves {
        assert!(folder.path().join(name).exists(), "no {name}: {said}");
    }
    false
}

#[test]
fn without_a_command_the_window_is_opened() {
    let paper = Paper::default();
    let (exit, said) = paper.run(&[], "");
    assert_eq!((exit, said.as_str()), (Exit::Done, ""));
    let opened = paper.opened.borrow();
    assert_eq!(opened.first().map(String::as_str), Some("left-inside"));
    assert!(opened.iter().any(|drill| drill == "left-inside-rowan"));
}

#[test]
fn where_none_can_be_opened_three_lines_say_why_and_the_terminal_is_offered() {
    let parts = ["no display", "no Vulkan driver", "no libX11"];
    for (missing, part) in all_missing().into_iter().zip(parts) {
        let paper = Paper::without(missing);
        for typed in ["", "no\n", "\n", "y\n", "yes, of course\n", "quit"] {
            let (exit, said) = paper.run(&[], typed);
            assert_eq!(exit, Exit::No, "{typed}: {said}");
            let lines: Vec<&str> = said.lines().collect();
            assert!(lines[0].contains(part), "{said}");
            let three = lines[..3].iter().all(|line| !line.trim().is_empty());
            assert!(three && lines[3].is_empty(), "{said}");
            assert_eq!(lines[4].trim_end(), OFFER, "{said}");
            assert_eq!(
                lines[5..],
                ["Nothing was played. In the terminal: rackproof play"],
                "{typed}"
            );
        }
    }
}

#[test]
fn who_says_yes_plays_in_the_terminal() {
    let test = "window::who_says_yes_plays_in_the_terminal";
    if !in_own_folder(
        test,
        &[
            "left-inside-1.attempt",
            "left-inside-5.attempt",
            "blocked-downstream-1.attempt",
        ],
    ) {
        return;
    }
    for missing in all_missing() {
        let (exit, said) = Paper::without(missing).run(&[], "yes\nq\n");
        assert_eq!(exit, Exit::Done, "{said}");
        assert!(said.contains("\nI can\n") && said.contains("You left."));
    }
    let (exit, said) = Paper::without(Missing::Driver).run(&[], "  Yes \nq\n");
    assert_eq!(exit, Exit::Done, "{said}");
    // A program without a window asks nothing.
    let (exit, said) = run_with(&[], "q\n");
    assert_eq!(exit, Exit::Done, "{said}");
    assert!(said.contains("You left.") && !said.contains(OFFER));
    assert!(!said.contains("plays one drill"), "{said}");
    // Of several drills it plays the first, and says so.
    let (_, said) = run_with(&["open", "blocked-downstream", "left-inside"], "q\n");
    let said = in_a_row(&said);
    assert!(
        said.contains("plays one drill, blocked-downstream:"),
        "{said}"
    );
    let (_, object) = grade(Path::new("left-inside-1.attempt"));
    assert_eq!(object["state"], "cut-off", "{object:#}");
}

#[test]
fn without_a_window_in_the_program_each_says_so() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let attempt = text(&play("by-hand", folder.path()));
    let out = text(&folder.path().join("a.png"));
    let tour = folder.path().join("tour");
    for line in [
        &["picture", &attempt, "--out", &out][..],
        &["tour", "--out", &text(&tour)],
        &["measure"],
    ] {
        let (exit, said) = run(line);
        assert_eq!(exit, Exit::No, "{said}");
        assert!(said.contains("without its window"), "{said}");
        assert!(said.contains("cargo build --release"), "{said}");
        let tours = line[0] == "tour";
        let undrawn = in_a_row(&said).contains("The pictures are missing.");
        assert_eq!(undrawn, tours, "{said}");
    }
    assert!(!Path::new(&out).exists());
    // What needs no window is there all the same.
    assert!(tour.join("by-hand.attempt").is_file());
    assert!(tour.join("sweep-believed.txt").is_file());
}

#[test]
fn what_is_missing_is_told_in_three_lines_by_each_command() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let attempt = text(&play("by-hand", folder.path()));
    let out = text(&folder.path().join("a.png"));
    for (number, missing) in all_missing().into_iter().enumerate() {
        let paper = Paper::without(missing);
        let (exit, alone) = paper.run(&["measure"], "");
        assert_eq!((exit, alone.lines().count()), (Exit::No, 3), "{alone}");
        let (exit, said) = paper.run(&["picture", &attempt, "--out", &out], "");
        assert_eq!((exit, said.as_str()), (Exit::No, alone.as_str()));
        assert!(!Path::new(&out).exists(), "{said}");
        let tour = text(&folder.path().join(format!("tour-{number}")));
        let (exit, said) = paper.run(&["tour", "--out", &tour], "");
        assert_eq!(exit, Exit::No, "{said}");
        assert!(said.contains(&alone), "{said}");
    }
}

#[test]
fn what_was_measured_is_printed_with_its_name() {
    let paper = Paper::default();
    let (exit, said) = paper.run(&["measure"], "");
    assert_eq!(exit, Exit::Done);
    assert_eq!(*paper.measured.borrow(), ["left-inside"]);
    let values: Vec<&str> = said
        .lines()
        .filter_map(|line| line.split_once(": ").map(|(_, value)| value))
        .collect();
    assert_eq!(values, FIGURES.map(|(_, value)| value), "{said}");
    let mut names: Vec<&str> = said
        .lines()
        .filter_map(|line| line.split(':').next())
        .collect();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), FIGURES.len(), "each has its own name: {said}");
}
