//! What stands on the panel in each situation, and what comes of pressing.

use egui::accesskit::{Role, Toggled};
use egui::{Key, Rect, Vec2, vec2};
use egui_kittest::{Harness, kittest::NodeT, kittest::Queryable};
use rackproof_buffer::{Answer, Button, Mode};
use rackproof_drill::{Intent, Stand};

use super::alarms::outlined;
use super::map::Window;
use super::operator_panel;
use super::stage::{Stage, long_words, press};
use crate::fonts;
use crate::{Doing, PanelPage, Wish};

/// A stage with what was wished for on it.
pub(super) type Shown<'a> = Harness<'a, (Stage, Vec<Wish>)>;

const SIZE: Vec2 = vec2(432.0, 656.0);

fn shown_at<'a>(stage: Stage, size: Vec2) -> Shown<'a> {
    let app = |ui: &mut egui::Ui, (stage, wishes): &mut (Stage, Vec<Wish>)| {
        if fonts::ready(ui.ctx()) {
            let all = ui.ctx().content_rect();
            let mut ui = ui.new_child(egui::UiBuilder::new().max_rect(all));
            ui.set_clip_rect(all);
            operator_panel(&stage.view(), &mut ui, wishes);
        }
    };
    let mut harness = Harness::builder()
        .with_size(size)
        .build_ui_state(app, (stage, Vec::new()));
    harness.run_steps(4);
    harness
}

pub(super) fn shown<'a>(stage: Stage) -> Shown<'a> {
    shown_at(stage, SIZE)
}

pub(super) fn wishes(harness: &mut Shown<'_>) -> Vec<Wish> {
    std::mem::take(&mut harness.state_mut().1)
}

pub(super) fn click(harness: &mut Shown<'_>, label: &str) -> Vec<Wish> {
    harness.get_by_role_and_label(Role::Button, label).click();
    harness.run_steps(3);
    wishes(harness)
}

pub(super) fn enabled(harness: &Shown<'_>, label: &str) -> bool {
    let button = harness.get_by_role_and_label(Role::Button, label);
    !button.accesskit_node().is_disabled()
}

pub(super) fn pressed(button: Button) -> [Wish; 1] {
    [Wish::Do(press(button))]
}

#[test]
fn where_it_is_low_the_commands_stay_in_sight() {
    let size = vec2(432.0, 576.0);
    let mut harness = shown_at(Stage::new("green-middle"), size);
    for name in ["Start", "Stop", "Reset", "Pages"] {
        let rect = harness.get_by_role_and_label(Role::Button, name).rect();
        assert!(rect.bottom() <= size.y, "{name}: {rect:?}");
    }
    assert_eq!(click(&mut harness, "Stop"), pressed(Button::Stop));
}

#[test]
fn each_command_asks_for_its_own_button_and_nothing_else() {
    let changeover = [press(Button::Mode(Mode::Changeover)), press(Button::Reset)];
    let mut harness = shown(Stage::new("green-middle").then(&changeover));
    assert_eq!(click(&mut harness, "Start"), pressed(Button::Start));
    assert_eq!(click(&mut harness, "Stop"), pressed(Button::Stop));
    assert_eq!(click(&mut harness, "Reset"), pressed(Button::Reset));
    let product = [Wish::Page(PanelPage::Product)];
    assert_eq!(click(&mut harness, "Pages"), product);
    assert!(harness.query_by_label("Clear").is_none());
}

#[test]
fn an_answer_comes_by_the_pointer_and_never_by_enter_or_space() {
    let mut harness = shown(Stage::clear_out("green-middle", &[]));
    harness.get_by_label("Slot 1: look, then answer");
    harness.get_by_label("Slot 1: unknown, at the belts, answer now");
    for (label, answer) in [
        ("Taken by hand", Answer::Taken),
        ("Seen empty", Answer::SeenEmpty),
        ("Not sure", Answer::NotSure),
    ] {
        let node = harness.get_by_role_and_label(Role::Button, label);
        assert!(
            !node.is_focused(),
            "{label} has the focus before anything was done"
        );
        node.focus();
        harness.run_steps(2);
        assert!(
            harness
                .get_by_role_and_label(Role::Button, label)
                .is_focused()
        );
        for key in [Key::Enter, Key::Space] {
            harness.key_press(key);
            harness.run_steps(2);
            assert_eq!(wishes(&mut harness), [], "{label} by {key:?}");
        }
        assert_eq!(click(&mut harness, label), pressed(Button::Answer(answer)));
    }
}

#[test]
fn out_of_reach_all_can_be_read_and_nothing_pressed() {
    let away = Stage::clear_out("green-middle", &[]).then(&[Intent::Walk(Stand::Infeed)]);
    let mut harness = shown(away);
    harness.get_by_label("Out of reach. Go to: panel, outfeed");
    harness.get_by_label("Slot 1: look, then answer");
    let all = [
        "Start",
        "Stop",
        "Reset",
        "Pages",
        "Taken by hand",
        "Seen empty",
        "Not sure",
    ];
    for label in all {
        assert!(!enabled(&harness, label), "{label} can be pressed");
        assert_eq!(click(&mut harness, label), [], "{label}");
    }
    let here = shown(Stage::clear_out("green-middle", &[]));
    assert!(all.iter().all(|label| enabled(&here, label)));
    assert!(here.query_by_label_contains("Out of reach").is_none());
}

#[test]
fn while_something_is_done_nothing_else_is_asked_for() {
    let mut stage = Stage::new("green-middle");
    let intent = press(Button::Reset);
    stage.doing = Some(Doing { intent, part: 0.5 });
    let mut harness = shown(stage);
    for label in ["Start", "Reset", "Pages"] {
        assert_eq!(click(&mut harness, label), [], "{label}");
    }
}

#[test]
fn a_dark_panel_says_so_and_takes_only_the_try() {
    let off = [
        Intent::Walk(Stand::Isolator),
        Intent::IsolatorOff,
        Intent::Walk(Stand::Panel),
    ];
    let mut harness = shown(Stage::new("green-middle").then(&off));
    harness.get_by_label("Dark. It has no power.");
    assert!(harness.query_by_label_contains("Slot").is_none());
    assert_eq!(click(&mut harness, "Start"), [Wish::Do(Intent::TryStart)]);
    for label in ["Stop", "Reset", "Pages"] {
        assert!(!enabled(&harness, label), "{label}");
    }
}

#[test]
fn after_power_returns_nothing_of_before_is_shown_as_known() {
    let cycle = [
        Intent::Walk(Stand::Isolator),
        Intent::IsolatorOff,
        Intent::IsolatorOn,
    ];
    let changed = [press(Button::Mode(Mode::Changeover)), press(Button::Reset)];
    let harness = shown(Stage::new("green-middle").then(&changed).then(&cycle));
    for label in [
        "Slot map, old belief",
        "Slot 1: was empty",
        "By step count: unknown",
        "Confirmed: unknown",
        "Last command none",
        "Mode Production",
    ] {
        harness.get_by_label(label);
    }
}

#[test]
fn after_an_emergency_stop_it_is_aborted_and_the_third_command_is_clear() {
    let mut harness = shown(Stage::emergency());
    for label in [
        "Aborted",
        "emergency stop",
        "Slot map, old belief",
        "Axes: no power",
    ] {
        harness.get_by_label(label);
    }
    harness.get_by_label("Confirmed axes without power");
    harness.get_by_label("since 00:01, not acknowledged");
    assert!(harness.query_by_label("Reset").is_none());
    assert_eq!(click(&mut harness, "Clear"), pressed(Button::Reset));
    let refused = shown(Stage::emergency().then(&[press(Button::Reset)]));
    refused.get_by_label_contains("The unit stays Aborted. Turn the button out first.");
}

#[test]
fn a_refusal_stands_until_something_else_is_shown() {
    let text = "Start has no effect in Stopped";
    let stage = Stage::new("green-middle").then(&[press(Button::Start)]);
    let harness = shown(stage);
    harness.get_by_label(text);
    let stage = Stage::new("green-middle").then(&[press(Button::Start), press(Button::Reset)]);
    let harness = shown(stage);
    assert!(harness.query_by_label(text).is_none());
    harness.get_by_label("Nothing to answer");
}

#[test]
fn an_alarm_is_acknowledged_on_its_page() {
    let mut harness = shown(Stage::emergency().on_page(PanelPage::Alarms));
    let acknowledge = pressed(Button::Acknowledge);
    assert_eq!(click(&mut harness, "Acknowledge"), acknowledge);
    let done = Stage::emergency().then(&[press(Button::Acknowledge)]);
    let harness = shown(done.on_page(PanelPage::Alarms));
    assert!(!enabled(&harness, "Acknowledge"));
    harness.get_by_label("Emergency stop latched. Acknowledged.");
}

#[test]
fn a_new_high_alarm_asks_for_its_next_picture_and_an_old_one_does_not() {
    let asks = |stage: Stage| {
        let harness = shown(stage);
        let all = harness.output().viewport_output.values();
        all.map(|output| output.repaint_delay).min()
    };
    let new = asks(Stage::emergency()).unwrap();
    assert!(new.as_millis() <= 500, "{new:?}");
    let old = asks(Stage::emergency().then(&[press(Button::Acknowledge)])).unwrap();
    assert!(old.as_secs() > 1, "{old:?}");
    let mut calm = Stage::emergency();
    calm.preferences.less_motion = true;
    let calm = asks(calm).unwrap();
    assert!(calm.as_secs() > 1, "{calm:?}");
    let halves = [0.0, 0.49, 0.5, 0.99, 1.0, 7.25, 7.75].map(outlined);
    assert_eq!(halves, [false, false, true, true, false, false, true]);
}

#[test]
fn the_product_page_offers_what_can_be_chosen() {
    let changeover = [press(Button::Mode(Mode::Changeover)), press(Button::Reset)];
    let stage = Stage::new("green-middle").then(&changeover);
    let mut harness = shown(stage.on_page(PanelPage::Product));
    assert_eq!(
        click(&mut harness, "Choose Kestrel"),
        pressed(Button::Choose(1))
    );
    assert_eq!(click(&mut harness, "Load Wren"), pressed(Button::Load));
    let mode = Button::Mode(Mode::Production);
    assert_eq!(click(&mut harness, "Mode Production"), pressed(mode));
    assert_eq!(click(&mut harness, "Clear-out"), pressed(Button::ClearOut));
    let stopped = shown(Stage::new("green-middle").on_page(PanelPage::Product));
    assert!(enabled(&stopped, "Mode Changeover"));
    assert!(!enabled(&stopped, "Choose Kestrel") && !enabled(&stopped, "Clear-out"));
}

#[test]
fn the_log_is_read_on_its_page() {
    let mut stage = Stage::new("green-middle").on_page(PanelPage::Log);
    let empty = shown(Stage::new("green-middle").on_page(PanelPage::Log));
    empty.get_by_label("Nothing is written yet.");
    stage.log = vec![String::from("02:30  Slot 9: a Wren * taken out")];
    shown(stage).get_by_label("02:30  Slot 9: a Wren * taken out");
}

#[test]
fn of_more_than_16_slots_those_round_the_lift_are_shown() {
    let clear_out = [
        press(Button::Mode(Mode::Changeover)),
        press(Button::Reset),
        press(Button::ClearOut),
        press(Button::Start),
    ];
    let mut harness = shown(Stage::with_slots("green-middle", 40).then(&clear_out));
    let rows = harness.query_all_by_label_contains(": unknown").count();
    assert_eq!(rows, 16);
    harness.get_by_label("Slot 16: unknown");
    assert!(harness.query_by_label_contains("Slot 17:").is_none());
    let strip = harness.get_by_label("Whole rack: show other slots");
    strip.focus();
    harness.run_steps(2);
    harness.key_press(Key::Enter);
    harness.run_steps(2);
    harness.get_by_label("Slot 32: unknown");
    assert!(harness.query_by_label_contains("Slot 16:").is_none());
}

#[test]
fn the_rows_follow_the_lift_and_stay_while_it_moves() {
    let at = |lift| Window::follow(None, Some(lift), 40);
    assert_eq!(at(3), Window::follow(Some(at(3)), None, 40));
    assert_ne!(at(3), Window::follow(Some(at(3)), Some(30), 40));
    assert_eq!(at(39), Window::follow(Some(at(3)), Some(39), 40));
}

#[test]
fn longer_words_stay_on_the_panel() {
    let changeover = [press(Button::Mode(Mode::Changeover)), press(Button::Reset)];
    for page in PanelPage::ALL {
        for stage in [
            Stage::clear_out("green-middle", &[Answer::Taken]),
            Stage::emergency(),
            Stage::declaring(),
            Stage::new("green-middle").then(&changeover),
        ] {
            let mut stage = stage.on_page(page);
            stage.words = long_words();
            let harness = shown(stage);
            let screen = Rect::from_min_size(egui::Pos2::ZERO, SIZE).shrink(10.0);
            let commands = SIZE.y - 70.0;
            let buttons = harness.query_all_by_role(Role::Button);
            let mut taken: Vec<Rect> = Vec::new();
            for button in buttons {
                let rect = button.rect();
                assert!(screen.contains_rect(rect), "{page:?} {button:?} {rect}");
                let over = taken
                    .iter()
                    .find(|other| other.shrink(1.0).intersects(rect));
                let foot = rect.top() > commands;
                assert!(
                    over.is_none() || !foot,
                    "{page:?} {button:?} {rect} {over:?}"
                );
                taken.push(rect);
            }
            assert!(taken.len() >= 4);
        }
    }
}

#[test]
fn every_thing_that_can_be_pressed_has_a_name_and_its_least_height() {
    for page in PanelPage::ALL {
        let harness = shown(Stage::declaring().on_page(page));
        for button in harness.query_all_by_role(Role::Button) {
            let name = button.accesskit_node().label().unwrap_or_default();
            assert!(!name.is_empty(), "{page:?}");
            assert!(button.rect().height() >= 44.0, "{name} {}", button.rect());
            assert_eq!(button.accesskit_node().toggled(), None::<Toggled>);
        }
    }
}
