//! A session without a window: what becomes of wishes.

use std::fs;

use rackproof_attempt::{Ground, ProofState, Reading, ahead, read_attempt};
use rackproof_buffer::{Button, Half, HalfSlot, Mode};
use rackproof_drill::{Cause, Intent, Stand};
use rackproof_files::Problems;
use rackproof_grade::{GuideRun, Verdict};
use rackproof_library::{Loaded, built_in_drill, load};
use rackproof_panel::{Over, Preferences, Setting, Way, Wish};
use rackproof_words::Words;
use tempfile::TempDir;

use super::{Play, Screen, Session};
use crate::pages::tried;

fn session() -> (TempDir, Session) {
    session_with(ProofState::Proved("0".repeat(64)))
}

/// A session with a drill that stands so to its proof.
fn session_with(proof: ProofState) -> (TempDir, Session) {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let loaded = load(built_in_drill(), &Problems::new()).expect("it has no problem");
    let loaded = Loaded { proof, ..loaded };
    let path = folder.path().to_owned();
    let session = Session::new(
        Words::english(),
        (loaded, Vec::new()),
        path,
        Preferences::default(),
    );
    (folder, session)
}

pub(super) fn begun(way: Way) -> (TempDir, Session) {
    let (folder, mut session) = session();
    session.variant = Some(0);
    session.wish(Wish::Begin(way));
    (folder, session)
}

pub(super) fn play(session: &Session) -> &Play {
    match &session.screen {
        Screen::Play(play) => play,
        _ => panic!("no drill is played: {:?}", session.trouble),
    }
}

/// Lets real time pass in pieces until nothing is being done any more.
pub(super) fn finish(session: &mut Session, piece: u64) {
    while matches!(&session.screen, Screen::Play(play) if play.doing().is_some()) {
        session.pass(piece);
    }
}

/// Plays what the guide does, by wishes, with time passing in pieces.
pub(super) fn play_as_the_guide(session: &mut Session, piece: u64) {
    let exercise = session.exercise().clone();
    let judged = exercise.judged(0).expect("a drill has a variant");
    let run = GuideRun::play(&judged, &exercise.procedure, 0).expect("the guide finishes");
    let mut at = 0;
    for (since, cause) in run.causes {
        at += u64::from(since.0);
        let Cause::Did(intent) = cause else { continue };
        // Until the moment at which the guide did it, less what it takes here.
        let takes = takes(session, intent);
        while play(session).attempt().at() < at.saturating_sub(takes) {
            let left = at.saturating_sub(takes) - play(session).attempt().at();
            session.pass(left.min(piece));
        }
        session.wish(Wish::Do(intent));
        finish(session, piece);
    }
}

fn takes(session: &Session, intent: Intent) -> u64 {
    let attempt = play(session).attempt();
    let pace = &attempt.world().hall().pace;
    let takes = pace.of(intent, attempt.state().world.person.stand);
    if takes > pace.press {
        u64::from(takes.0)
    } else {
        0
    }
}

#[test]
fn a_good_attempt_ends_in_its_debrief_and_lies_in_its_file() {
    let (folder, mut session) = begun(Way::Practice);
    play_as_the_guide(&mut session, 40_000);
    let Screen::Review(review) = &session.screen else {
        panic!("it did not end");
    };
    assert_eq!(review.grade().verdict, Verdict::Passed);
    let bytes = fs::read(folder.path().join("left-inside-1.attempt")).expect("it is kept");
    let Reading::Whole(kept) = read_attempt(&bytes) else {
        panic!("it is not whole");
    };
    let rebuilt = kept.rebuild(&Problems::new()).expect("it can be read");
    assert_eq!(rebuilt.difference, None);
}

/// Dropped pictures change nothing: the same wishes at the same times give the same file.
#[test]
fn pictures_decide_nothing() {
    let files = [20_000, 2_500_000].map(|piece| {
        let (folder, mut session) = begun(Way::Practice);
        play_as_the_guide(&mut session, piece);
        assert!(
            matches!(session.screen, Screen::Review(_)),
            "pieces of {piece}"
        );
        fs::read(folder.path().join("left-inside-1.attempt")).expect("it is kept")
    });
    assert!(!files[0].is_empty());
    assert_eq!(files[0], files[1]);
}

#[test]
fn whoever_is_far_from_a_stop_walks_to_it_first() {
    let (_folder, mut session) = begun(Way::Exam);
    session.wish(Wish::Do(Intent::Walk(Stand::Hatch)));
    finish(&mut session, 40_000);
    session.wish(Wish::Do(Intent::TestStraps));
    assert!(play(&session).doing().is_some());
    let before = play(&session).attempt().at();
    session.wish(Wish::Emergency);
    finish(&mut session, 40_000);
    let attempt = play(&session).attempt();
    let did: Vec<Intent> = attempt
        .done()
        .iter()
        .filter_map(|done| match done.cause {
            Cause::Did(intent) => Some(intent),
            Cause::Chose(_) => None,
        })
        .collect();
    let [.., walk, press] = did.as_slice() else {
        panic!("{did:?}");
    };
    assert!(matches!(walk, Intent::Walk(_)), "{did:?}");
    assert_eq!(*press, Intent::PressEmergency);
    assert!(
        !did.contains(&Intent::TestStraps),
        "what was left is not done"
    );
    assert!(attempt.at() >= before + 2_000_000, "walking takes its time");
    assert!(attempt.state().world.machine.emergency());
}

#[test]
fn what_is_broken_off_is_not_done() {
    let (_folder, mut session) = begun(Way::Practice);
    session.wish(Wish::Do(Intent::AskUpstreamHold));
    session.pass(300_000);
    assert!(play(&session).doing().is_some());
    session.wish(Wish::BreakOff);
    let at = play(&session).attempt().at();
    assert!(at > 0 && play(&session).doing().is_none());
    assert!(play(&session).attempt().done().is_empty());
}

#[test]
fn nothing_that_is_not_on_offer_is_done() {
    let (_folder, mut session) = begun(Way::Practice);
    for intent in [
        Intent::HandIn,
        Intent::Take(HalfSlot {
            slot: 0,
            half: Half::Infeed,
        }),
        Intent::Press(Button::Load),
        Intent::ReleaseEmergency,
    ] {
        session.wish(Wish::Do(intent));
        assert!(play(&session).doing().is_none(), "{intent:?}");
    }
    assert!(play(&session).attempt().done().is_empty());
    session.wish(Wish::Do(Intent::Press(Button::Mode(Mode::Changeover))));
    assert_eq!(play(&session).attempt().done().len(), 1);
}

#[test]
fn no_exam_is_begun_on_a_drill_that_is_not_proved() {
    for proof in [
        ProofState::Missing,
        ProofState::Broken,
        ProofState::Stale(vec![Ground::Core]),
        ProofState::Failed(vec!["fair".to_owned()]),
    ] {
        let (folder, mut session) = session_with(proof);
        session.wish(Wish::Begin(Way::Exam));
        assert!(matches!(session.screen, Screen::Course));
        let told = session.trouble.clone().expect("it is told");
        assert!(told.contains("rackproof prove left-inside.ron"), "{told}");
        let there = fs::read_dir(folder.path()).expect("it is there").count();
        assert_eq!(there, 0, "nothing was begun");
        for way in [Way::Practice, Way::Guided] {
            session.wish(Wish::Begin(way));
            assert!(matches!(session.screen, Screen::Play(_)), "{way:?}");
        }
        session.wish(Wish::Begin(Way::Watch));
        assert!(matches!(session.screen, Screen::Watch(_)));
        let kept = fs::read(folder.path().join("left-inside-1.attempt")).expect("it is kept");
        let Reading::CutOff(Some(kept)) = read_attempt(&kept) else {
            panic!("it has not ended");
        };
        assert!(!kept.header.proved && kept.header.proof.is_none());
    }
    let (folder, _session) = begun(Way::Exam);
    let kept = fs::read(folder.path().join("left-inside-1.attempt")).expect("it is kept");
    let Reading::CutOff(Some(kept)) = read_attempt(&kept) else {
        panic!("it has not ended");
    };
    assert!(kept.header.proved && kept.header.proof.is_some());
}

#[test]
fn in_an_exam_nobody_helps_and_the_clock_runs() {
    let (_folder, mut session) = begun(Way::Exam);
    session.wish(Wish::Hint);
    session.wish(Wish::Wait);
    assert!(play(&session).ahead().is_none());
    assert_eq!(play(&session).reference(), None);
    assert_eq!(play(&session).attempt().at(), 0);
    session.wish(Wish::Over(Over::Pause));
    session.pass(1_000_000);
    assert_eq!(play(&session).attempt().at(), 1_000_000);
    let (_folder, mut session) = begun(Way::Practice);
    session.wish(Wish::Hint);
    assert!(play(&session).ahead().is_some());
    session.wish(Wish::Over(Over::Pause));
    session.pass(1_000_000);
    assert_eq!(play(&session).attempt().at(), 0);
    session.wish(Wish::CloseOver);
    session.wish(Wish::Wait);
    assert!(play(&session).attempt().at() > 0);
}

#[test]
fn from_any_moment_somebody_can_take_over_and_again_is_the_same_start() {
    let (folder, mut session) = begun(Way::Exam);
    session.wish(Wish::Do(Intent::PressEmergency));
    session.pass(5_000_000);
    session.wish(Wish::Do(Intent::Report));
    finish(&mut session, 100_000);
    let Screen::Review(review) = &session.screen else {
        panic!("a report ends it");
    };
    assert_eq!(review.grade().verdict, Verdict::Failed);
    let variant = review.variant();
    session.wish(Wish::Scrub(2_000_000));
    session.wish(Wish::TakeOver);
    assert_eq!(play(&session).way(), Way::Practice);
    assert_eq!(play(&session).attempt().at(), 2_000_000);
    assert_eq!(play(&session).attempt().done().len(), 1);
    let text = fs::read_to_string(folder.path().join("left-inside-2.attempt")).expect("kept");
    assert!(text.contains("TakenOver(2000000)"), "{text}");
    session.wish(Wish::Again);
    assert_eq!(play(&session).attempt().at(), 0);
    assert_eq!(play(&session).variant(), variant);
    assert_eq!(session.exercise().drill.variants.len(), 13);
}

/// What was left, or taken over and left, is not practised.
#[test]
fn only_what_was_reported_counts_as_practised() {
    let (_folder, mut session) = begun(Way::Practice);
    session.wish(Wish::Do(Intent::TestStraps));
    finish(&mut session, 100_000);
    let practised = |session: &mut Session| {
        session.wish(Wish::Leave);
        tried(session.attempts()).practised
    };
    assert_eq!(practised(&mut session), 0);
    assert_eq!(session.attempts().len(), 1);
    for (way, count) in [(Way::Practice, 1), (Way::Guided, 2)] {
        session.wish(Wish::Begin(way));
        session.wish(Wish::Do(Intent::Report));
        finish(&mut session, 100_000);
        assert!(matches!(session.screen, Screen::Review(_)));
        session.wish(Wish::Scrub(0));
        session.wish(Wish::TakeOver);
        assert!(matches!(session.screen, Screen::Play(_)));
        assert_eq!(practised(&mut session), count, "{way:?}");
    }
    assert_eq!(session.attempts().len(), 5);
}

#[test]
fn an_attempt_that_cannot_be_written_is_told() {
    let (folder, mut session) = session();
    fs::remove_dir_all(folder.path()).expect("it can be removed");
    session.wish(Wish::Begin(Way::Practice));
    assert!(matches!(session.screen, Screen::Course));
    assert!(
        session
            .trouble
            .is_some_and(|told| told.contains("left-inside"))
    );
}

/// Guided, the card is what the guide would say now: after each thing done, heard or not, and
/// whenever time alone has made it another.
#[test]
fn the_next_step_is_never_that_of_before() {
    let (_folder, mut session) = begun(Way::Guided);
    let (mut steps, mut quiet) = (0, 0);
    while let Screen::Play(play) = &session.screen {
        let now = ahead(play.attempt(), play.exercise());
        assert_eq!(play.ahead(), now.as_ref(), "at {} µs", play.attempt().at());
        let intent = now
            .and_then(|now| now.intent)
            .filter(|_| play.doing().is_none());
        let heard = play.attempt().heard().len();
        match intent {
            Some(intent) => {
                session.wish(Wish::Do(intent));
                finish(&mut session, 250_000);
                steps += 1;
            }
            None => session.pass(250_000),
        }
        if let (Some(_), Screen::Play(play)) = (intent, &session.screen) {
            quiet += usize::from(play.attempt().heard().len() == heard);
        }
        assert!(steps < 300, "it never ends");
    }
    assert!(
        steps > 30 && quiet > 0,
        "{steps} steps, {quiet} of them unheard"
    );
    assert!(matches!(&session.screen, Screen::Review(review)
        if review.grade().verdict == Verdict::Passed));
}

#[test]
fn plain_words_take_the_place_of_those_of_the_site_and_back() {
    let (_folder, mut session) = session();
    session.change_exercise().hall.site_words = vec![("part-rack".to_owned(), "Store".to_owned())];
    for (plain, said) in [(false, "Store"), (true, "Rack"), (false, "Store")] {
        session.wish(Wish::Set(Setting::PlainWords(plain)));
        assert_eq!(session.words.say("part-rack", &[]), said);
        assert_eq!(
            (session.preferences.plain_words, session.keeps),
            (plain, true)
        );
    }
}
