//! Ways on, asked for in practice and in the debrief, and ways that a proof left beside its drill.

use std::{fs, ops::ControlFlow, thread, time::Duration};

use rackproof_attempt::{
    Attempt, Exercise, Helped, Note, PlayedAs, Recorder, Shortest, WhatIf, claim_note,
};
use rackproof_files::Problems;
use rackproof_grade::Grade;
use rackproof_library::{built_in_drill, load};
use rackproof_panel::{Over, Preferences, Way, Wish};
use rackproof_words::Words;

use super::session_tests::{begun, play_as_the_guide};
use super::{Screen, Session};

/// A search that answers with the guide's way.
fn found(
    (attempt, exercise, grade): (&Attempt, &Exercise, &Grade),
    (at, _): (u64, usize),
    _watch: &mut dyn FnMut(usize) -> ControlFlow<()>,
) -> Shortest {
    let guide = WhatIf::at(attempt, exercise, grade, at).expect("the guide goes on");
    Shortest::Found(Box::new(guide), 7)
}

/// A search that goes on until it is broken off.
fn endless(
    _: (&Attempt, &Exercise, &Grade),
    _: (u64, usize),
    watch: &mut dyn FnMut(usize) -> ControlFlow<()>,
) -> Shortest {
    let mut states = 0;
    while watch(states).is_continue() {
        states += 1;
        thread::yield_now();
    }
    Shortest::BrokenOff(states)
}

#[test]
fn a_way_on_is_told_in_practice_noted_and_never_in_an_exam() {
    let (folder, mut session) = begun(Way::Practice);
    session.wish(Wish::WayOn);
    let Screen::Play(play) = &session.screen else {
        panic!("{:?}", session.trouble);
    };
    let told = play.way_on().expect("it was asked for");
    assert!(told.steps.len() > 4 && play.stands_still(), "{told:?}");
    assert_eq!(session.over, Some(Over::WayOn));
    session.wish(Wish::CloseOver);
    let text = fs::read_to_string(folder.path().join("left-inside-1.attempt"));
    assert!(text.expect("it is kept").contains("WayOn(test-straps)"));
    play_as_the_guide(&mut session, 400_000);
    let Screen::Review(review) = &session.screen else {
        panic!("it did not end");
    };
    assert_eq!(review.helped(), Helped { hints: 0, ways: 1 });
    for way in [Way::Exam, Way::Guided] {
        let (_folder, mut session) = begun(way);
        session.wish(Wish::WayOn);
        assert_eq!(session.over, None, "{way:?}");
    }
}

#[test]
fn the_debrief_tells_both_ways_and_the_search_ends_when_nobody_asks() {
    let (_folder, session) = begun(Way::Practice);
    let mut session = session.searched_by(found);
    play_as_the_guide(&mut session, 400_000);
    session.wish(Wish::Scrub(60_000_000));
    session.wish(Wish::WaysOn);
    assert_eq!(session.over, Some(Over::WaysOn));
    let mut shortest = None;
    for _ in 0..1_000 {
        session.pass(0);
        let Screen::Review(review) = &session.screen else {
            panic!("it is the debrief");
        };
        let ways = review.ways_told().expect("they were asked for");
        assert_eq!(ways.at, 60_000_000);
        shortest = ways.shortest.clone();
        if shortest.is_some() {
            break;
        }
        thread::sleep(Duration::from_millis(5));
    }
    let shortest = shortest.expect("it was searched");
    assert!(shortest.head.contains("with the truth known"));
    session.wish(Wish::CloseOver);
    let mut session = session.searched_by(endless);
    session.wish(Wish::WaysOn);
    session.wish(Wish::CloseOver);
    let Screen::Review(review) = &session.screen else {
        panic!("it is the debrief");
    };
    assert_eq!(review.ways_told(), None);
}

/// A way that a proof left beside its drill is listed, shown where it breaks, and counts as no
/// practice.
#[test]
fn a_way_that_a_proof_found_is_debriefed_with_its_claim() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let (beside, here) = (folder.path().join("course"), folder.path().join("here"));
    fs::create_dir(&beside).expect("a folder can be made");
    fs::create_dir(&here).expect("a folder can be made");
    let mut loaded = load(built_in_drill(), &Problems::new()).expect("it has no problem");
    let file = beside.join("left-inside.ron");
    loaded.material.drill.file = file.to_string_lossy().into_owned();
    let judged = loaded.exercise.judged(0).expect("it is listed");
    let mut attempt = Attempt::new(judged);
    attempt.wait(5_000_000);
    for (name, note) in [
        ("proof", claim_note("fair")),
        ("other", "Tick(1, Infeed)".to_owned()),
    ] {
        let file = fs::File::create(beside.join(format!("{name}-1.attempt")));
        let file = file.expect("it can be made");
        let (material, exercise) = (&loaded.material, &loaded.exercise);
        let note = Note {
            noted: attempt.at(),
            note,
        };
        Recorder::begin(
            file,
            material,
            exercise,
            0,
            PlayedAs::Practice,
            &loaded.proof,
        )
        .and_then(|mut recorder| {
            recorder.note(&note)?;
            recorder.end(&attempt)
        })
        .expect("it can be written");
    }
    let words = Words::english();
    let mut session = Session::new(words, (loaded, Vec::new()), here, Preferences::default());
    let listed: Vec<_> = session.attempts().iter().map(|one| one.claims).collect();
    assert_eq!(listed, [true]);
    assert!(!session.attempts()[0].reported);
    session.wish(Wish::OpenAttempt(0));
    let Screen::Review(review) = &session.screen else {
        panic!("{:?}", session.trouble);
    };
    let claim = review.claim().expect("it breaks one");
    assert!(claim.contains("at 00:05. Fair:"), "{claim}");
    assert_eq!(review.at(), 5_000_000);
}
