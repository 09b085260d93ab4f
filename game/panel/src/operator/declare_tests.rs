//! Declaring empty: held, let go, broken off, pressed twice.

use egui::accesskit::Role;
use egui_kittest::kittest::Queryable;
use rackproof_buffer::Button;
use rackproof_drill::Intent;

use super::panel_tests::{Shown, click, enabled, pressed, shown, wishes};
use super::stage::{Stage, press};
use crate::{Doing, PanelPage, Wish};

/// Presses the pointer on the hold button, or takes it away.
fn hold(harness: &mut Shown<'_>, down: bool) -> Vec<Wish> {
    let middle = harness
        .get_by_role_and_label(Role::Button, "Hold")
        .rect()
        .center();
    if down {
        harness.hover_at(middle);
        harness.run_steps(1);
        harness.drag_at(middle);
    } else {
        harness.drop_at(middle);
    }
    harness.run_steps(3);
    wishes(harness)
}

#[test]
fn declare_empty_is_held_and_let_go() {
    let mut harness = shown(Stage::declaring());
    harness.get_by_label("Key in and turned");
    harness.get_by_label("Only declare what you have seen empty");
    let begin = pressed(Button::HoldDeclare);
    assert_eq!(hold(&mut harness, true), begin);
    let stage = &mut harness.state_mut().0;
    stage.attempt.do_intent(press(Button::HoldDeclare)).unwrap();
    stage.attempt.wait(1_300_000);
    stage.refresh();
    harness.run_steps(2);
    assert_eq!(
        wishes(&mut harness),
        [],
        "it is held: nothing more is asked for"
    );
    let node = harness.get_by_role_and_label(Role::Button, "Hold");
    assert_eq!(node.value().as_deref(), Some("1.3 of 2.0 s"));
    let let_go = hold(&mut harness, false);
    assert_eq!(let_go.first(), pressed(Button::LetGoDeclare).first());
}

#[test]
fn a_hand_that_stays_on_the_button_declares_once() {
    let mut harness = shown(Stage::declaring());
    hold(&mut harness, true);
    let stage = &mut harness.state_mut().0;
    stage.attempt.do_intent(press(Button::HoldDeclare)).unwrap();
    stage.attempt.wait(2_500_000);
    stage.refresh();
    harness.run_steps(3);
    assert_eq!(wishes(&mut harness), []);
    assert_eq!(hold(&mut harness, false), []);
}

#[test]
fn a_hand_taken_away_too_soon_breaks_the_reach_off() {
    let mut harness = shown(Stage::declaring());
    hold(&mut harness, true);
    let intent = press(Button::HoldDeclare);
    harness.state_mut().0.doing = Some(Doing { intent, part: 0.3 });
    harness.run_steps(1);
    assert_eq!(wishes(&mut harness), []);
    assert_eq!(hold(&mut harness, false).first(), Some(&Wish::BreakOff));
}

#[test]
fn pressed_twice_in_place_of_held() {
    let mut stage = Stage::declaring();
    stage.preferences.press_twice = true;
    let mut harness = shown(stage);
    assert_eq!(click(&mut harness, "Hold"), pressed(Button::HoldDeclare));
    let stage = &mut harness.state_mut().0;
    stage.attempt.do_intent(press(Button::HoldDeclare)).unwrap();
    stage.refresh();
    harness.run_steps(2);
    assert_eq!(wishes(&mut harness), [], "nobody lets go by themselves");
    assert_eq!(click(&mut harness, "Hold"), pressed(Button::LetGoDeclare));
}

#[test]
fn without_the_key_the_button_is_off_and_says_why() {
    let stage = Stage::declaring().then(&[Intent::KeyOut]);
    let mut harness = shown(stage);
    assert!(!enabled(&harness, "Hold"));
    assert_eq!(hold(&mut harness, true), []);
    harness.get_by_label("Put the setter’s key in and turn it first.");
}

#[test]
fn declare_empty_is_off_where_it_is_not_offered() {
    let mut harness = shown(Stage::new("green-middle").on_page(PanelPage::Declare));
    assert!(!enabled(&harness, "Hold"));
    assert_eq!(click(&mut harness, "Hold"), []);
    harness.get_by_label("Key not turned");
}
