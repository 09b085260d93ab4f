//! What the commands ask of the window, and what they say where there is none.

use std::{cell::RefCell, fs, path::Path};

use rackproof_attempt::PlayedAs;
use rackproof_commands::{
    Exit,
    display::{Display, Figure, Missing, Page, Picture},
};
use rackproof_library::Loaded;

use crate::play::{grade, play, run, unsaid};

/// Moment, page, size and mode of a picture that was asked for.
type Asked = (u64, Page, [u32; 2], PlayedAs);

/// A display that draws nothing and writes down what it is asked for.
#[derive(Default)]
struct Paper {
    missing: Option<Missing>,
    opened: RefCell<Vec<String>>,
    drawn: RefCell<Vec<Asked>>,
}

impl Paper {
    fn without(missing: Missing) -> Paper {
        Paper {
            missing: Some(missing),
            ..Paper::default()
        }
    }

    fn there(&self) -> Result<(), Missing> {
        self.missing.clone().map_or(Ok(()), Err)
    }

    fn run(&self, arguments: &[&str], typed: &str) -> (Exit, String) {
        let mut out = Vec::new();
        let line = ["rackproof"].iter().chain(arguments).map(Into::into);
        let exit = rackproof_commands::run(line, &mut typed.as_bytes(), &mut out, Some(self));
        let said = String::from_utf8(out).expect("it says text");
        assert_eq!(unsaid(&said), [""; 0], "{said}");
        (exit, said)
    }
}

impl Display for Paper {
    fn open(&self, drill: Loaded) -> Result<(), Missing> {
        self.there()?;
        self.opened.borrow_mut().push(drill.exercise.drill.id);
        Ok(())
    }

    fn pictures(&self, wanted: &[Picture<'_>]) -> Result<Vec<Vec<u8>>, Missing> {
        self.there()?;
        let asked = wanted
            .iter()
            .map(|one| (one.at, one.page, one.size, one.mode));
        self.drawn.borrow_mut().extend(asked);
        Ok(wanted
            .iter()
            .map(|one| one.at.to_string().into_bytes())
            .collect())
    }

    fn measure(&self, _drill: Loaded) -> Result<Vec<Figure>, Missing> {
        self.there()?;
        let figure = |id| Figure {
            id,
            value: "7 ms".to_owned(),
        };
        Ok(vec![figure("measured-first"), figure("measured-picture")])
    }
}

fn text(path: &Path) -> String {
    path.to_string_lossy().into_owned()
}

#[test]
fn without_a_command_the_window_is_opened() {
    let paper = Paper::default();
    let (exit, said) = paper.run(&[], "");
    assert_eq!((exit, said.as_str()), (Exit::Done, ""));
    assert_eq!(*paper.opened.borrow(), ["left-inside"]);
}

#[test]
fn where_none_can_be_opened_three_lines_say_why_and_the_terminal_is_offered() {
    let missing = [
        Missing::Display,
        Missing::Driver,
        Missing::Other("no libX11".to_owned()),
    ];
    for missing in missing {
        let paper = Paper::without(missing.clone());
        for typed in ["", "no\n", "\n"] {
            let (exit, said) = paper.run(&[], typed);
            assert_eq!(exit, Exit::No, "{said}");
            let before = said.lines().take_while(|line| !line.is_empty()).count();
            assert_eq!(before, 3, "{said}");
        }
        let (exit, said) = paper.run(&["measure"], "");
        assert_eq!(
            (exit, said.lines().count()),
            (Exit::No, 3),
            "{missing:?}: {said}"
        );
    }
}

#[test]
fn a_picture_is_asked_for_as_it_was_typed_and_never_written_over() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let attempt = text(&play("by-hand", folder.path()));
    let out = text(&folder.path().join("a.png"));
    let paper = Paper::default();
    let line = [
        "picture", &attempt, "--at", "00:51.5", "--size", "800x640", "--out", &out,
    ];
    let (exit, said) = paper.run(&line, "");
    assert_eq!(exit, Exit::Done, "{said}");
    let asked = (51_500_000, Page::Seen, [800, 640], PlayedAs::Practice);
    assert_eq!(*paper.drawn.borrow(), [asked]);
    assert_eq!(fs::read_to_string(&out).expect("it is written"), "51500000");
    let (exit, said) = paper.run(&line, "");
    assert_eq!(exit, Exit::No, "{said}");
    assert_eq!(fs::read_to_string(&out).expect("it is there"), "51500000");
    // Without a time it is the end.
    let end = text(&folder.path().join("end.png"));
    let (exit, _) = paper.run(&["picture", &attempt, "--debrief", "--out", &end], "");
    assert_eq!(exit, Exit::Done);
    let last = paper.drawn.borrow()[2];
    assert_eq!((last.1, last.2), (Page::Debrief, [1280, 720]));
    assert!(last.0 > 200_000_000, "{last:?}");
}

#[test]
fn a_wrong_wish_for_a_picture_is_told() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let attempt = text(&play("by-hand", folder.path()));
    let edited = text(&folder.path().join("edited.attempt"));
    let bytes = fs::read_to_string(&attempt).expect("it is there");
    fs::write(&edited, bytes.replacen("TestStraps", "Torch(true)", 1)).expect("it can be written");
    let cut = text(&folder.path().join("cut.attempt"));
    fs::write(&cut, &bytes[..bytes.len() - 700]).expect("it can be written");
    let out = text(&folder.path().join("a.png"));
    let cases: &[(&[&str], Exit, &str)] = &[
        (&[&attempt, "--at", "1:75"], Exit::WrongUse, "is no time"),
        (&[&attempt, "--at", "59:00"], Exit::WrongUse, "is later"),
        (&[&attempt, "--size", "10x10"], Exit::WrongUse, "is no size"),
        (&["nowhere.attempt"], Exit::No, "cannot be read"),
        (
            &[&edited],
            Exit::No,
            "no attempt that this program can play",
        ),
        // What is whole of it is drawn.
        (&[&cut], Exit::Done, "is in"),
    ];
    for (arguments, wanted, part) in cases {
        let paper = Paper::default();
        let line = [&["picture", "--out", &out][..], arguments].concat();
        let (exit, said) = paper.run(&line, "");
        assert_eq!(exit, *wanted, "{arguments:?}: {said}");
        assert!(said.contains(part), "{arguments:?}: {said}");
        assert_eq!(paper.drawn.borrow().is_empty(), exit != Exit::Done);
    }
}

#[test]
fn the_tour_leaves_graded_attempts_and_pictures() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let out = folder.path().join("tour");
    let paper = Paper::default();
    let (exit, said) = paper.run(&["tour", "--out", &text(&out)], "");
    assert_eq!(exit, Exit::Done, "{said}");
    let graded = [
        ("by-hand", "passed"),
        ("by-clear-out", "passed"),
        ("declared-unseen", "failed"),
        ("sweep-believed", "failed"),
    ];
    for (name, verdict) in graded {
        let (_, object) = grade(&out.join(format!("{name}.attempt")));
        assert_eq!(object["verdict"], verdict, "{name}");
        assert!(out.join(format!("{name}.txt")).is_file(), "{name}");
    }
    let files = fs::read_dir(&out).expect("it is a folder");
    let pictures = files.filter(|file| {
        let file = file.as_ref().expect("it can be read");
        file.path()
            .extension()
            .is_some_and(|ending| ending == "png")
    });
    assert_eq!(pictures.count(), paper.drawn.borrow().len());
    assert!(paper.drawn.borrow().len() >= 8);
    // What is there is not written over.
    let (exit, said) = paper.run(&["tour", "--out", &text(&out)], "");
    assert_eq!(exit, Exit::No, "{said}");
}

#[test]
fn without_a_window_in_the_program_each_says_so() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let attempt = text(&play("by-hand", folder.path()));
    let out = text(&folder.path().join("a.png"));
    let tour = text(&folder.path().join("tour"));
    for line in [
        &["picture", &attempt, "--out", &out][..],
        &["tour", "--out", &tour],
        &["measure"],
    ] {
        let (exit, said) = run(line);
        assert_eq!(exit, Exit::No, "{said}");
        assert!(said.contains("without its window"), "{said}");
    }
}

#[test]
fn what_was_measured_is_printed_with_its_name() {
    let (exit, said) = Paper::default().run(&["measure"], "");
    assert_eq!(exit, Exit::Done);
    assert_eq!(said.lines().count(), 2, "{said}");
    assert!(said.lines().all(|line| line.ends_with(": 7 ms")), "{said}");
}
