//! The course: attempts of before are opened, other drills are chosen.

use std::fs;

use rackproof_drill::Intent;
use rackproof_files::Problems;
use rackproof_library::{Loaded, built_in_drills, load};
use rackproof_panel::{Preferences, Way, Wish};
use rackproof_words::Words;

use super::session_tests::{begun, play_as_the_guide};
use super::{Screen, Session, name_of};
use crate::pages::{tried, with_course};

/// A session on its course page with one attempt that was played to its end, and where it lies.
fn with_one() -> (tempfile::TempDir, Session) {
    let (folder, mut session) = begun(Way::Practice);
    play_as_the_guide(&mut session, 400_000);
    assert!(matches!(session.screen, Screen::Review(_)));
    session.wish(Wish::Leave);
    (folder, session)
}

#[test]
fn an_attempt_of_before_is_debriefed_again_and_stays_as_it_is() {
    let (_folder, mut session) = with_one();
    let path = session.attempts()[0].path.clone();
    let before = fs::read(&path).expect("it is kept");
    session.wish(Wish::OpenAttempt(0));
    let Screen::Review(review) = &session.screen else {
        panic!("{:?}", session.trouble);
    };
    assert_eq!(name_of(review.path()), "left-inside-1.attempt");
    assert_eq!(review.way(), Way::Practice);
    assert_eq!(fs::read(&path).expect("it is kept"), before);
    // There is no second one, and while a debrief is shown none is opened.
    session.wish(Wish::Leave);
    session.wish(Wish::OpenAttempt(1));
    assert!(matches!(session.screen, Screen::Course));
}

#[test]
fn an_attempt_that_cannot_be_shown_says_why() {
    let (_folder, mut session) = with_one();
    let path = session.attempts()[0].path.clone();
    let text = fs::read_to_string(&path).expect("it is text");
    fs::write(&path, text.replacen("TestStraps", "TestStrips", 1)).expect("it can be written");
    session.wish(Wish::OpenAttempt(0));
    assert!(matches!(session.screen, Screen::Course));
    let told = session.trouble.take().expect("it says why");
    assert!(
        told.starts_with("left-inside-1.attempt cannot be shown"),
        "{told}"
    );
    // With other files of the drill, hall and words would be wrong.
    fs::write(&path, &text).expect("it can be written");
    session.change_material(|material| material.rules.text.push('\n'));
    session.wish(Wish::OpenAttempt(0));
    let told = session.trouble.take().expect("it says why");
    assert!(told.contains("was played with other files"), "{told}");
    // A course page goes on.
    session.wish(Wish::Begin(Way::Practice));
    session.wish(Wish::Do(Intent::TestStraps));
    assert!(matches!(session.screen, Screen::Play(_)));
}

/// Each drill of the course is chosen, begun and kept under its own name, and what is chosen for
/// one is not chosen for the next.
#[test]
fn another_drill_of_the_course_is_chosen_and_begun() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let load = |text| load(text, &Problems::new()).expect("it has no problem");
    let mut drills = built_in_drills().into_iter().map(load);
    let first = drills.next().expect("there is a first drill");
    let others: Vec<Loaded> = drills.collect();
    assert!(!others.is_empty());
    let (path, preferences) = (folder.path().to_owned(), Preferences::default());
    let mut session = Session::new(Words::english(), (first, others), path, preferences);
    let names = session.drills().iter();
    let names: Vec<String> = names.map(|one| one.exercise.drill.id.clone()).collect();
    session.wish(Wish::ChooseVariant(Some(1)));
    for (number, name) in names.iter().enumerate().rev() {
        session.wish(Wish::ChooseDrill(number));
        assert_eq!((session.chosen(), session.variant), (number, None));
        session.wish(Wish::Begin(Way::Practice));
        let Screen::Play(play) = &session.screen else {
            panic!("{name} is not begun");
        };
        assert_eq!(play.attempt().world().drill().id, *name);
        let kept = folder.path().join(format!("{name}-1.attempt"));
        assert_eq!(play.path(), kept);
        // While one is played no other is chosen.
        session.wish(Wish::ChooseDrill((number + 1) % names.len()));
        assert_eq!(session.chosen(), number);
        session.wish(Wish::Leave);
        assert_eq!(session.attempts().len(), 1, "{name}");
    }
    // There is no such drill: nothing changes.
    session.wish(Wish::ChooseDrill(names.len()));
    assert_eq!(session.chosen(), 0);
}

/// More than are listed count all the same, and what changed since is read again.
#[test]
fn however_many_attempts_there_are_all_count() {
    let (folder, mut session) = with_one();
    let first = folder.path().join("left-inside-1.attempt");
    for number in 2..=120 {
        let copy = folder.path().join(format!("left-inside-{number}.attempt"));
        fs::copy(&first, copy).expect("it can be copied");
    }
    let counts = |session: &mut Session| {
        session.wish(Wish::Begin(Way::Practice));
        session.wish(Wish::Leave);
        let listed = with_course(session, |view| (view.attempts.len(), view.attempts_kept));
        (tried(session.attempts()).practised, listed)
    };
    assert_eq!(counts(&mut session), (120, (100, 121)));
    fs::write(&first, "").expect("it can be written");
    assert_eq!(counts(&mut session), (119, (100, 121)));
    fs::remove_file(&first).expect("it can be removed");
    assert_eq!(counts(&mut session), (119, (100, 122)));
}
