//! Products, settings and alarms on their pages.

use egui::accesskit::Role;
use egui_kittest::kittest::Queryable;
use rackproof_buffer::{Button, Command, Mode, Setting};
use rackproof_drill::Intent;
use rackproof_model::Micrometres;

use super::panel_tests::{Shown, click, enabled, pressed, shown, wishes};
use super::stage::{Stage, press};
use crate::PanelPage;

fn idle() -> [Intent; 2] {
    [press(Button::Mode(Mode::Changeover)), press(Button::Reset)]
}

fn type_in(harness: &mut Shown<'_>, text: &str) {
    let field = harness.get_by_role_and_label(Role::TextInput, "Board width in mm");
    field.focus();
    harness.run_steps(2);
    let field = harness.get_by_role_and_label(Role::TextInput, "Board width in mm");
    field.type_text(text);
    harness.run_steps(3);
}

/// The page is longer than the column: what stands below is scrolled to.
fn down_to(harness: &mut Shown<'_>, label: &str) {
    harness
        .get_by_role_and_label(Role::Button, label)
        .scroll_to_me();
    harness.run_steps(8);
}

#[test]
fn a_width_is_typed_saved_and_loaded_by_three_buttons() {
    let stage = Stage::opened("green-middle").then(&idle());
    let mut harness = shown(stage.on_page(PanelPage::Product));
    harness.get_by_label("Stored: 160.0 mm, as delivered");
    harness.get_by_label("Nothing typed that is not saved.");
    assert!(!enabled(&harness, "Type it") && !enabled(&harness, "Save"));
    type_in(&mut harness, "1");
    type_in(&mut harness, "6,5");
    harness.get_by_label("Digits and one point, such as 160.5.");
    assert!(!enabled(&harness, "Type it"));

    let typed = press(Button::EditWidth(Micrometres(165_000)));
    let stage = Stage::opened("green-middle").then(&idle()).then(&[typed]);
    let mut harness = shown(stage.on_page(PanelPage::Product));
    harness.get_by_label("Typed: 165.0 mm, not saved");
    harness.get_by_label("Stored: 160.0 mm, as delivered");
    assert_eq!(click(&mut harness, "Save"), pressed(Button::Save));
    down_to(&mut harness, "Save over Kestrel");
    let over = click(&mut harness, "Save over Kestrel");
    assert_eq!(over, pressed(Button::SaveOver(1)));
    down_to(&mut harness, "Load Wren");
    assert_eq!(click(&mut harness, "Load Wren"), pressed(Button::Load));

    let stage = Stage::opened("green-middle").then(&idle());
    let saved = stage.then(&[typed, press(Button::Save)]);
    let harness = shown(saved.on_page(PanelPage::Product));
    harness.get_by_label("Stored: 165.0 mm, saved by the operator, change 1");
}

#[test]
fn what_was_saved_and_not_loaded_stands_beside_what_was_loaded() {
    let typed = press(Button::EditWidth(Micrometres(165_000)));
    let save = press(Button::Save);
    let at = |more: &[Intent], page| {
        let stage = Stage::opened("green-middle").then(&idle());
        shown(stage.then(more).on_page(page))
    };
    let same = at(&[], PanelPage::Product);
    same.get_by_label("Loaded: Wren, 160.0 mm");
    let same = at(&[], PanelPage::Values);
    assert!(same.query_by_label_contains("Loaded with").is_none());

    let saved = at(&[typed, save], PanelPage::Product);
    saved.get_by_label(
        "Loaded: Wren, 160.0 mm. It was saved otherwise since. Load it, and what is stored now \
         counts.",
    );
    let saved = at(&[typed, save], PanelPage::Values);
    saved.get_by_label("Loaded with: 160.0 mm");
    saved.get_by_label("Stored now: otherwise");
    saved.get_by_label("Commanded: 160.8 mm");

    let loaded = at(&[typed, save, press(Button::Load)], PanelPage::Product);
    loaded.get_by_label("Loaded: Wren, 165.0 mm");
}

#[test]
fn any_figure_can_be_typed_and_what_is_beyond_is_for_the_machine_to_refuse() {
    let stage = Stage::opened("green-middle").then(&idle());
    let mut harness = shown(stage.on_page(PanelPage::Product));
    type_in(&mut harness, "1650");
    let asked = click(&mut harness, "Type it");
    assert_eq!(asked, pressed(Button::EditWidth(Micrometres(1_650_000))));
    let beyond = press(Button::EditWidth(Micrometres(1_650_000)));
    let stage = Stage::opened("green-middle").then(&idle()).then(&[beyond]);
    let harness = shown(stage);
    harness.get_by_label("The width is beyond the travel of the rails");
}

#[test]
fn settings_are_grey_with_their_reason_until_the_key_is_turned() {
    let shut = shown(Stage::new("green-middle").on_page(PanelPage::Settings));
    shut.get_by_label("To be read only: this page is not open here.");
    shut.get_by_label("16 slots counted");
    assert!(shut.query_by_label("15 slots counted").is_none());

    let mut harness = shown(Stage::opened("green-middle").on_page(PanelPage::Settings));
    harness.get_by_label("Level: operator");
    harness.get_by_label("To be read only: the setter's key is not turned.");
    assert!(!enabled(&harness, "15 slots counted"));
    assert_eq!(click(&mut harness, "15 slots counted"), []);

    let key = Stage::opened("green-middle").then(&[Intent::KeyIn]);
    let mut harness = shown(key.on_page(PanelPage::Settings));
    harness.get_by_label("Level: setter");
    assert!(harness.query_by_label_contains("To be read only").is_none());
    let asked = click(&mut harness, "15 slots counted");
    assert_eq!(asked, pressed(Button::Set(Setting::SlotCount(15))));

    let work = [press(Button::Reset), press(Button::Start), Intent::KeyIn];
    let at_work = Stage::opened("green-middle").then(&work);
    let harness = shown(at_work.on_page(PanelPage::Settings));
    harness.get_by_label("To be read only: the unit must be Stopped, Idle or Aborted.");
}

#[test]
fn a_changed_setting_is_said_and_stands_on_its_page() {
    let set = press(Button::Set(Setting::Signals(false)));
    let stage = Stage::opened("green-middle").then(&[Intent::KeyIn, set]);
    let harness = shown(stage.on_page(PanelPage::Settings));
    harness.get_by_label("Machine Ready of downstream not read");
    harness.get_by_label("Setting changed: Machine Ready of downstream not read.");
}

#[test]
fn alarms_stand_in_their_order_with_state_first_cause_and_what_to_do() {
    let both = [Intent::PressEmergency, press(Button::Acknowledge)];
    let hatch = [
        Intent::Walk(rackproof_drill::Stand::Hatch),
        Intent::OpenHatch,
        Intent::Walk(rackproof_drill::Stand::Panel),
    ];
    let stage = Stage::new("green-middle").then(&both).then(&hatch);
    let harness = shown(stage.on_page(PanelPage::Alarms));
    let emergency = harness.get_by_label("since 00:01, acknowledged").rect();
    let first = harness.get_by_label("Came first: begin here.").rect();
    let opened = harness.get_by_label_contains("See who works there.").rect();
    harness.get_by_label_contains("Find out who pressed it and why.");
    assert!(emergency.bottom() <= first.top() + 1.0 && first.bottom() < opened.top());
}

#[test]
fn commands_of_the_standard_are_pressed_where_the_drill_opens_them() {
    let stage = Stage::opened("green-middle");
    let mut harness = shown(stage.on_page(PanelPage::Product));
    down_to(&mut harness, "Hold");
    let hold = click(&mut harness, "Hold");
    assert_eq!(hold, pressed(Button::Order(Command::Hold)));
    let stage = Stage::opened("green-middle").then(&[press(Button::Order(Command::Hold))]);
    shown(stage).get_by_label("Hold has no effect in Stopped");
    let shut = shown(Stage::new("green-middle").on_page(PanelPage::Product));
    assert!(shut.query_by_role_and_label(Role::Button, "Hold").is_none());
    assert_eq!(wishes(&mut harness), []);
}

#[test]
fn a_clear_out_that_was_taken_over_shows_who_answered_for_what() {
    let harness = shown(Stage::left("green-middle"));
    harness.get_by_label("Slot 4: look, then answer");
    harness.get_by_label("Slot 1: said empty before");
    harness.get_by_label("Slot 3: said taken before");
    harness.get_by_label("Slot 2: unknown");
    let harness = shown(Stage::left("green-middle").on_page(PanelPage::Log));
    harness.get_by_label_contains("Answered by badge 17: slots 1, 3.");
}
