//! Each widget answers under its name, to the pointer and to the keys, and not when it is off.

use std::cell::RefCell;

use egui::accesskit::Role;
use egui::{Key, Rect, Ui, Vec2, pos2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};

use super::*;
use crate::fonts;
use crate::tokens::{self, INK, Step, Weight};

/// A window that shows this, with our faces.
fn shown<'a>(mut page: impl FnMut(&mut Ui) + 'a) -> Harness<'a> {
    let mut harness = Harness::builder()
        .with_size(Vec2::new(500.0, 300.0))
        .build_ui(move |ui| {
            if fonts::ready(ui.ctx()) {
                page(ui);
            }
        });
    harness.run();
    harness
}

const LOOKS: [ButtonLook; 9] = [
    ButtonLook::Plain,
    ButtonLook::Primary,
    ButtonLook::Panel,
    ButtonLook::PanelStart,
    ButtonLook::PanelStop,
    ButtonLook::PanelBlue,
    ButtonLook::Teaching,
    ButtonLook::TeachingQuiet,
    ButtonLook::Selected,
];

#[test]
fn a_button_of_each_look_answers_to_click_enter_and_space() {
    for look in LOOKS {
        let pressed = RefCell::new(0);
        let mut harness = shown(|ui| {
            let button = key_button(ui, "Ask upstream", Some("C"), look, OPERATOR, true);
            *pressed.borrow_mut() += u32::from(button.clicked());
        });
        harness
            .get_by_role_and_label(Role::Button, "Ask upstream")
            .click();
        harness.run();
        assert_eq!(*pressed.borrow(), 1, "{look:?}: click");
        harness.get_by_label("Ask upstream").focus();
        harness.run();
        for (key, count) in [(Key::Enter, 2), (Key::Space, 3)] {
            harness.key_press(key);
            harness.run();
            assert_eq!(*pressed.borrow(), count, "{look:?}: {key:?}");
        }
    }
}

#[test]
fn a_button_that_is_off_answers_to_nothing_and_says_so() {
    let cases = LOOKS
        .map(|look| (look, false))
        .into_iter()
        .chain([(ButtonLook::PanelOff, true)]);
    for (look, enabled) in cases {
        let pressed = RefCell::new(0);
        let mut harness = shown(|ui| {
            let button = key_button(ui, "Reset", Some("F11"), look, OPERATOR, enabled);
            *pressed.borrow_mut() += u32::from(button.clicked());
        });
        let node = harness.get_by_label("Reset");
        assert!(node.accesskit_node().is_disabled(), "{look:?}");
        node.click();
        harness.run();
        for key in [Key::Tab, Key::Enter, Key::Space] {
            harness.key_press(key);
            harness.run();
        }
        assert_eq!(*pressed.borrow(), 0, "{look:?}");
    }
}

#[test]
fn tab_walks_over_what_is_on_and_leaves_out_what_is_off() {
    let mut harness = shown(|ui| {
        key_button(ui, "First", None, ButtonLook::Plain, ACTION, true);
        key_button(ui, "Off", None, ButtonLook::Plain, ACTION, false);
        key_button(ui, "Second", None, ButtonLook::Plain, ACTION, true);
    });
    for name in ["First", "Second"] {
        harness.key_press(Key::Tab);
        harness.run();
        assert!(harness.get_by_label(name).is_focused(), "{name}");
    }
}

#[test]
fn a_button_has_the_asked_size_and_its_key() {
    let mut harness = shown(|ui| {
        let wide = Vec2::new(180.0, tokens::OPERATOR_HEIGHT);
        key_button(ui, "Pages", Some("F12"), ButtonLook::Panel, wide, true);
        key_button(ui, "Wait", Some("W"), ButtonLook::Plain, ACTION, true);
    });
    harness.run();
    let pages = harness.get_by_label("Pages");
    assert_eq!(pages.rect().size(), Vec2::new(180.0, 44.0));
    let node = pages.accesskit_node();
    assert_eq!(node.data().keyboard_shortcut(), Some("F12"));
    let wait = harness.get_by_label("Wait").rect();
    assert!(wait.width() > 60.0 && wait.height() >= 38.0, "{wait:?}");
}

#[test]
fn the_flag_stands_beside_the_words() {
    let widths = RefCell::new(Vec::new());
    let _harness = shown(|ui| {
        widths.borrow_mut().clear();
        for flag in [None, Some("next")] {
            let button = KeyButton {
                label: "Ask upstream",
                key: Some("C"),
                look: ButtonLook::Plain,
                size: ACTION,
                enabled: true,
                flag,
            };
            widths.borrow_mut().push(button.show(ui).rect.width());
        }
    });
    let widths = widths.borrow();
    assert!(widths[1] > widths[0] + 20.0, "{widths:?}");
}

#[test]
fn hold_is_down_while_it_is_held_and_not_after() {
    let down = RefCell::new(false);
    let mut harness = shown(|ui| {
        let size = Vec2::new(196.0, 56.0);
        *down.borrow_mut() = hold_button(ui, "Hold", 0.65, "1.3 of 2.0 s", size).down;
    });
    let node = harness.get_by_role_and_label(Role::Button, "Hold");
    assert_eq!(node.value().as_deref(), Some("1.3 of 2.0 s"));
    let middle = node.rect().center();
    assert!(!*down.borrow());
    harness.drag_at(middle);
    harness.run();
    assert!(*down.borrow(), "pointer");
    harness.drop_at(middle);
    harness.run();
    assert!(!*down.borrow(), "let go");
    for key in [Key::Space, Key::Enter] {
        harness.get_by_label("Hold").focus();
        harness.run();
        harness.key_down(key);
        harness.run();
        assert!(*down.borrow(), "{key:?}");
        harness.key_up(key);
        harness.run();
        assert!(!*down.borrow(), "{key:?} let go");
    }
}

#[test]
fn an_area_says_what_it_is() {
    let cases = [
        (Pressable::Button, Role::Button),
        (Pressable::Box { ticked: true }, Role::CheckBox),
        (Pressable::Row { chosen: true }, Role::Button),
    ];
    for (what, role) in cases {
        let pressed = RefCell::new(0);
        let mut harness = shown(|ui| {
            let rect = Rect::from_min_size(pos2(20.0, 20.0), Vec2::new(48.0, 40.0));
            let area = press_area(ui, rect, "place 4", "Panel", what);
            *pressed.borrow_mut() += u32::from(area.clicked());
        });
        harness.get_by_role_and_label(role, "Panel").click();
        harness.run();
        harness.get_by_label("Panel").focus();
        harness.run();
        harness.key_press(Key::Space);
        harness.run();
        assert_eq!(*pressed.borrow(), 2, "{what:?}");
    }
}

#[test]
fn cards_are_groups_with_names_and_headings() {
    let mut harness = shown(|ui| {
        teaching_card(ui, "Task", |ui| head(ui, "Change over to Heron."));
        exam_card(ui, "Exam task", |ui| body(ui, "Keep the buffer running."));
        title(ui, "Not passed");
        note(ui, "Nothing looked at yet");
        paragraph(
            ui,
            &[("Why", Weight::Bold), (" then", Weight::Regular)],
            Step::Text,
            INK,
        );
    });
    harness.run();
    harness.get_by_role_and_label(Role::Group, "Task");
    harness.get_by_role_and_label(Role::Group, "Exam task");
    harness.get_by_role_and_label(Role::Heading, "Change over to Heron.");
    harness.get_by_role_and_label(Role::Heading, "Not passed");
    let texts = [
        "Keep the buffer running.",
        "Nothing looked at yet",
        "Why then",
    ];
    for text in texts {
        harness.get_by_label(text);
    }
}

#[test]
fn what_is_only_read_has_its_name() {
    let mut harness = shown(|ui| {
        label_value_row(ui, "Measured", "no sensor", Face::Words, RowLook::PANEL);
        label_value_row(ui, "Width", "unknown", Face::NotKnown, RowLook::PANEL);
        dotted_box(ui, "lift unknown", Step::Small, INK);
        mode_tag(ui, "Guided", false);
        key_cap(ui, "F3");
    });
    harness.run();
    for name in [
        "Measured no sensor",
        "Width unknown",
        "lift unknown",
        "Guided",
        "F3",
    ] {
        harness.get_by_label(name);
    }
}

#[test]
fn a_key_hint_can_be_pressed_and_leaves_the_row_as_it_was() {
    let pressed = RefCell::new(0);
    let gap = RefCell::new(0.0);
    let mut harness = shown(|ui| {
        ui.horizontal(|ui| {
            let hint = key_hint(ui, "F1", "Help");
            *pressed.borrow_mut() += u32::from(hint.clicked());
            *gap.borrow_mut() = ui.spacing().item_spacing.x;
        });
    });
    let hint = harness.get_by_role_and_label(Role::Button, "Help");
    assert!(hint.rect().height() >= 24.0);
    assert_eq!(hint.accesskit_node().data().keyboard_shortcut(), Some("F1"));
    hint.click();
    harness.run();
    assert_eq!(*pressed.borrow(), 1);
    assert_eq!(*gap.borrow(), tokens::GAP);
}
