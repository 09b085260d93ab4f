//! `picture` and `tour`: what they ask a display for, and what becomes of it.

use std::{collections::BTreeMap, fs, path::Path};

use rackproof_attempt::{Attempt, Journal, PlayedAs, ProofState, Recorder};
use rackproof_commands::{Exit, display::Page};
use rackproof_files::Problems;

use crate::{
    outcomes::material,
    play::{grade, in_a_row, play, root, run, run_with, text},
    proofs::proved,
    window::{Asked, Paper, in_own_folder},
};

/// The one picture that was asked for since the last time.
fn asked(paper: &Paper) -> Asked {
    let drawn = paper.drawn.take();
    assert_eq!(drawn.len(), 1, "{drawn:?}");
    drawn.into_iter().next().expect("there is one")
}

#[test]
fn a_picture_is_asked_for_as_it_was_typed() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let attempt = text(&play("by-hand", folder.path()));
    let paper = Paper::default();
    let out = |name: &str| text(&folder.path().join(name));
    let first = out("a.png");
    let line = [
        "picture", &attempt, "--at", "00:51.5", "--size", "800x640", "--out", &first,
    ];
    let (exit, said) = paper.run(&line, "");
    assert_eq!(exit, Exit::Done, "{said}");
    let seen = asked(&paper);
    assert_eq!(seen.variant, "green-middle");
    assert_eq!((seen.at, seen.page), (51_500_000, Page::Seen));
    assert_eq!((seen.size, seen.mode), ([800, 640], PlayedAs::Practice));
    assert_eq!(fs::read(&first).expect("it is written"), seen.bytes());
    // Without a time it is the end.
    let second = out("end.png");
    let (exit, _) = paper.run(&["picture", &attempt, "--debrief", "--out", &second], "");
    assert_eq!(exit, Exit::Done);
    let end = asked(&paper);
    assert_eq!((end.at, end.causes), (seen.end, seen.causes));
    assert_eq!((end.page, end.size), (Page::Debrief, [1280, 720]));
    assert_eq!(fs::read(&second).expect("it is written"), end.bytes());
    // The end itself can be asked for, and nothing after it.
    let seconds = |micros: u64| format!("{}.{:06}", micros / 1_000_000, micros % 1_000_000);
    for (number, late) in [0, 1].into_iter().enumerate() {
        let (at, out) = (seconds(seen.end + late), out(&format!("{number}.png")));
        let (exit, said) = paper.run(&["picture", &attempt, "--at", &at, "--out", &out], "");
        let wanted = [Exit::Done, Exit::WrongUse][number];
        assert_eq!(exit, wanted, "{at}: {said}");
    }
    assert_eq!(asked(&paper).at, seen.end);
}

#[test]
fn a_picture_knows_how_its_attempt_was_played_and_what_was_noted() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let paper = Paper::default();
    let drill = text(&proved(folder.path()));
    let cases = [
        ("exam", "1\nq\n", PlayedAs::Exam, &[][..]),
        ("guided", "1\nq\n", PlayedAs::Guided, &[]),
        (
            "practice",
            "h\nt 9 i\n1\nq\n",
            PlayedAs::Practice,
            &["Hint(test-straps)", "Tick(9, Infeed)"],
        ),
    ];
    for (mode, typed, played, notes) in cases {
        let attempt = text(&folder.path().join(mode));
        let (exit, said) = run_with(&["play", &drill, "--mode", mode, "--out", &attempt], typed);
        assert_eq!(exit, Exit::Done, "{said}");
        let out = text(&folder.path().join(format!("{mode}.png")));
        let (exit, said) = paper.run(&["picture", &attempt, "--out", &out], "");
        assert_eq!(exit, Exit::Done, "{said}");
        let asked = asked(&paper);
        assert_eq!((asked.mode, asked.causes), (played, 1), "{asked:?}");
        assert_eq!(asked.notes, notes, "{asked:?}");
    }
}

#[test]
fn a_picture_is_never_written_over_anything() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let attempt = text(&play("by-hand", folder.path()));
    let out = folder.path().join("there.png");
    fs::write(&out, "another's").expect("it can be written");
    let whole = fs::read(&attempt).expect("it is there");
    let paper = Paper::default();
    for out in [
        &text(&out),
        &attempt,
        &text(&folder.path().join("no/a.png")),
    ] {
        let (exit, said) = paper.run(&["picture", &attempt, "--out", out], "");
        assert_eq!(exit, Exit::No, "{said}");
        assert!(in_a_row(&said).contains("cannot be written"), "{said}");
    }
    let there = fs::read_to_string(&out).expect("it is there");
    assert_eq!(there, "another's");
    assert!(fs::read(&attempt).expect("it is there") == whole);
}

/// An attempt whose journal comes out otherwise with the texts that it names.
fn otherwise(path: &Path) {
    let exercise = material().read(&Problems::new());
    let exercise = exercise.expect("it has no problem");
    let mut other = material();
    let quick = "lift: Axis(speed_mm_s: 200";
    assert!(other.machine.text.contains(quick));
    let slow = other
        .machine
        .text
        .replace(quick, "lift: Axis(speed_mm_s: 150");
    other.machine.text = slow;
    let journal = root().join("tests/journals/left-inside/by-hand.ron");
    let journal = fs::read_to_string(journal).expect("it is shipped");
    let problems = Problems::new();
    let report = problems.for_file("by-hand.ron", &journal);
    let journal = Journal::read(report, &exercise).expect("it has no problem");
    let judged = exercise.judged(journal.variant);
    let mut attempt = Attempt::new(judged.expect("it is listed"));
    assert!(journal.run(&mut attempt, report, &mut |_| true));
    let file = fs::File::create(path).expect("it can be made");
    let (variant, mode) = (journal.variant, PlayedAs::Practice);
    let recorder = Recorder::begin(file, &other, &exercise, variant, mode, &ProofState::Missing);
    let ended = recorder.expect("it can be written").end(&attempt);
    ended.expect("it can be written");
}

#[test]
fn a_wrong_wish_for_a_picture_is_told() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let attempt = text(&play("by-hand", folder.path()));
    let file = |name: &str, bytes: &str| {
        let path = folder.path().join(name);
        fs::write(&path, bytes).expect("it can be written");
        text(&path)
    };
    let bytes = fs::read_to_string(&attempt).expect("it is there");
    let edited = file("edited", &bytes.replacen("TestStraps", "Torch(true)", 1));
    let later = "{\"format\":9,\"kind\":\"rackproof attempt\"}\n";
    let later = file("later", later);
    let (foreign, nothing) = (file("foreign", "Journal()"), file("nothing", ""));
    let differs = folder.path().join("differs");
    otherwise(&differs);
    assert_eq!(grade(&differs).1["state"], "differs");
    let differs = text(&differs);
    let out = text(&folder.path().join("a.png"));
    let unread = "no attempt that this program can play";
    let wrong = Exit::WrongUse;
    let cases: &[(&[&str], Exit, &str)] = &[
        (&[&attempt, "--at", "1:75"], wrong, "is no time"),
        (&[&attempt, "--at", "soon"], wrong, "is no time"),
        (&[&attempt, "--at", "59:00"], wrong, "is later"),
        (&[&attempt, "--size", "10x10"], wrong, "is no size"),
        (&[&attempt, "--size", "800x5000"], wrong, "is no size"),
        (&["nowhere.attempt"], Exit::No, "cannot be read"),
        (&[&edited], Exit::No, unread),
        (&[&foreign], Exit::No, unread),
        (&[&later], Exit::No, unread),
        (&[&nothing], Exit::No, unread),
        (&[&differs], Exit::No, unread),
    ];
    for (arguments, wanted, part) in cases {
        let paper = Paper::default();
        let line = [&["picture", "--out", &out][..], arguments].concat();
        let (exit, said) = paper.run(&line, "");
        assert_eq!(exit, *wanted, "{arguments:?}: {said}");
        assert!(in_a_row(&said).contains(part), "{arguments:?}: {said}");
        assert!(paper.drawn.borrow().is_empty(), "{arguments:?}");
        assert!(!Path::new(&out).exists(), "{arguments:?}");
    }
}

#[test]
fn what_is_whole_of_an_attempt_that_was_cut_off_is_drawn() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let attempt = play("by-hand", folder.path());
    let bytes = fs::read(&attempt).expect("it is there");
    let cut = text(&folder.path().join("cut.attempt"));
    fs::write(&cut, &bytes[..bytes.len() - 2_000]).expect("it can be written");
    let paper = Paper::default();
    let mut ends = Vec::new();
    for (attempt, name) in [(&text(&attempt), "whole.png"), (&cut, "cut.png")] {
        let out = text(&folder.path().join(name));
        let (exit, said) = paper.run(&["picture", attempt, "--out", &out], "");
        assert_eq!(exit, Exit::Done, "{said}");
        let asked = asked(&paper);
        assert_eq!(asked.at, asked.end);
        ends.push((asked.causes, asked.end));
    }
    let [whole, cut] = ends[..] else {
        panic!("two were drawn: {ends:?}")
    };
    assert!(0 < cut.0 && cut.0 < whole.0, "{ends:?}");
    assert!(0 < cut.1 && cut.1 < whole.1, "{ends:?}");
}

/// Journals of the tour, with verdict and number of harms.
const TOUR: [(&str, &str, usize); 4] = [
    ("by-hand", "passed", 0),
    ("by-clear-out", "passed", 0),
    ("declared-unseen", "failed", 2),
    ("sweep-believed", "failed", 2),
];

#[test]
fn the_tour_leaves_graded_attempts_and_pictures() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let out = folder.path().join("tour");
    let paper = Paper::default();
    let (exit, said) = paper.run(&["tour", "--out", &text(&out)], "");
    assert_eq!(exit, Exit::Done, "{said}");
    let mut left = files_of(&out);
    for (name, verdict, harms) in TOUR {
        let attempt = out.join(format!("{name}.attempt"));
        let (_, object) = grade(&attempt);
        assert_eq!(object["state"], "graded", "{name}");
        assert_eq!(object["verdict"], verdict, "{name}");
        let found = object["harms"].as_array().map_or(0, Vec::len);
        assert_eq!(found, harms, "{name}: {object:#}");
        // The text is what grade says, without the file's name.
        let (_, graded) = run(&["grade", &text(&attempt)]);
        let told = left.remove(&format!("{name}.txt")).expect("it is there");
        let told = String::from_utf8(told).expect("it is text");
        assert!(!told.is_empty() && graded.ends_with(&told), "{told}");
        assert!(told.contains(&verdict.to_uppercase()), "{told}");
        assert!(said.contains(&format!("{name}: {}", verdict.to_uppercase())));
        left.remove(&format!("{name}.attempt"));
    }
    // What is left are pictures, each under the name of its moment, and each was told.
    let drawn = paper.drawn.borrow();
    assert_eq!(left.len(), drawn.len(), "{:?}", left.keys());
    for asked in drawn.iter() {
        assert_eq!((asked.size, asked.mode), ([1280, 720], PlayedAs::Practice));
        let ours = left.iter().find(|(_, bytes)| **bytes == asked.bytes());
        let (name, _) = ours.expect("it was written");
        let (seconds, page) = (asked.at / 1_000_000, format!("{:?}", asked.page));
        let clock = format!("{:02}-{:02}", seconds / 60, seconds % 60);
        let ending = format!("-{clock}-{}.png", page.to_lowercase());
        assert!(name.ends_with(&ending), "{name}: {asked:?}");
        assert!(said.contains(name.as_str()), "{name}: {said}");
    }
    let of = |page, ends: bool| {
        let is = |asked: &&Asked| asked.page == page && (asked.at == asked.end) == ends;
        drawn.iter().filter(is).count()
    };
    assert_eq!(of(Page::Debrief, true), TOUR.len(), "each end");
    assert!(of(Page::Debrief, false) >= 2, "breaches and harms: {said}");
    assert!(
        of(Page::Seen, false) >= 2,
        "looks that show a board: {said}"
    );
}

/// Names and contents of a folder's files.
fn files_of(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let files = fs::read_dir(folder).expect("it is a folder");
    let named = files.map(|file| {
        let file = file.expect("it can be read");
        let bytes = fs::read(file.path()).expect("it can be read");
        (file.file_name().to_string_lossy().into_owned(), bytes)
    });
    named.collect()
}

#[test]
fn the_tour_goes_into_no_folder_that_is_there() {
    let test = "drawn::the_tour_goes_into_no_folder_that_is_there";
    if !in_own_folder(test, &["rackproof-tour-1", "rackproof-tour-2"]) {
        return;
    }
    fs::create_dir("there").expect("it can be made");
    fs::write("file", "another's").expect("it can be written");
    for out in ["there", "file", "no/such"] {
        let paper = Paper::default();
        let (exit, said) = paper.run(&["tour", "--out", out], "");
        assert_eq!(exit, Exit::No, "{said}");
        assert!(in_a_row(&said).contains("cannot be written"), "{said}");
        assert!(paper.drawn.borrow().is_empty());
    }
    assert_eq!(files_of(Path::new("there")).len(), 0);
    // Without a name it is the first that is free.
    let before = Path::new("rackproof-tour-2");
    for number in [1, 2] {
        assert!(!before.exists());
        let (exit, said) = Paper::default().run(&["tour"], "");
        assert_eq!(exit, Exit::Done, "{said}");
        assert!(said.contains(&format!("rackproof-tour-{number}")));
    }
}
