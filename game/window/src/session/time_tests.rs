//! How time passes in a session, and how long a page stays as it is.

use rackproof_buffer::Button;
use rackproof_drill::Intent;
use rackproof_panel::{Over, Setting, Way, Wish};

use super::{
    Session,
    session_tests::{begun, finish, play},
};

#[test]
fn a_page_stays_as_long_as_it_says_and_no_longer() {
    let (_folder, mut session) = begun(Way::Practice);
    let shown = |session: &Session| {
        let attempt = play(session).attempt();
        let clocks = [attempt.at(), play(session).line_down()].map(|at| at / 60_000_000);
        (attempt.heard().len(), attempt.done().len(), clocks)
    };
    let (mut minutes, mut apart, mut events) = (0, 0, 0);
    for round in 0..16 {
        // For as long as it runs, the line is not down: its clock falls behind.
        if round == 6 {
            for button in [Button::Reset, Button::Start] {
                session.wish(Wish::Do(Intent::Press(button)));
            }
            session.pass(7_000_000);
            session.wish(Wish::Do(Intent::Press(Button::Stop)));
            session.pass(20_000_000);
        }
        let before = shown(&session);
        let stays = session.stays_for().expect("its time passes");
        session.pass(stays - 1);
        assert_eq!(shown(&session), before, "it changed before {stays}");
        session.pass(1);
        let after = shown(&session);
        minutes += after.2[0] - before.2[0];
        apart += u64::from(after.2[0] - before.2[0] != after.2[1] - before.2[1]);
        events += u64::from((after.0, after.1) != (before.0, before.1));
        assert_ne!(after, before, "nothing came after {stays}");
    }
    // Upstream lays its board, which comes in; then only the clock goes on.
    let told = (minutes, apart, events);
    assert!(minutes > 2 && apart > 2 && events > 0, "{told:?}");
    session.wish(Wish::Over(Over::Pause));
    assert_eq!(session.stays_for(), None);
}

#[test]
fn time_is_stretched_outside_exams_alone_and_no_piece_of_it_is_lost() {
    for (way, expected) in [(Way::Practice, 250), (Way::Guided, 250), (Way::Exam, 1_001)] {
        let (_folder, mut session) = begun(way);
        session.wish(Wish::Set(Setting::Stretch(3)));
        assert_eq!(session.preferences.stretch, 1, "there is no such stretch");
        session.wish(Wish::Set(Setting::Stretch(4)));
        let whole = session.stays_for().expect("its time passes");
        for _ in 0..1_001 {
            session.pass(1);
        }
        assert_eq!(play(&session).attempt().at(), expected, "{way:?}");
        assert_eq!(session.stays_for(), Some(whole - 1_001), "{way:?}");
        // What is left over does not go into the next attempt.
        session.wish(Wish::Leave);
        session.wish(Wish::Begin(Way::Exam));
        session.pass(10);
        assert_eq!(play(&session).attempt().at(), 10, "{way:?}");
    }
}

#[test]
fn a_button_is_held_no_longer_where_time_is_stretched() {
    let (_folder, mut session) = begun(Way::Practice);
    session.wish(Wish::Set(Setting::Stretch(4)));
    let doings = [
        Intent::PressEmergency,
        Intent::ReleaseEmergency,
        Intent::Press(Button::Reset),
        Intent::KeyIn,
    ];
    for doing in doings {
        session.wish(Wish::Do(doing));
        finish(&mut session, 100_000);
    }
    session.wish(Wish::Do(Intent::Press(Button::HoldDeclare)));
    let left = |session: &Session| play(session).attempt().state().world.machine.hold_left().0;
    let whole = left(&session);
    session.pass(400_000);
    assert_eq!((whole, left(&session)), (2_000_000, 1_600_000));
}
