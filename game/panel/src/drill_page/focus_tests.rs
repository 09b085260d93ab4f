//! Where the focus goes on the drill page: fast keys, cards that overflow, buttons that change.

use egui::{Event, Key, Modifiers, RawInput, vec2};
use rackproof_buffer::{Button, Mode};
use rackproof_drill::{Intent, Stand};

use super::harness::{Page, page, sized};
use super::sample::Sample;
use crate::keys::Group;
use crate::{Over, PanelPage, Watching, Way, Wish};

/// A key goes down. Its letting go is another frame's.
fn down(input: &mut RawInput, key: Key, modifiers: Modifiers) {
    input.events.push(Event::Key {
        key,
        physical_key: None,
        pressed: true,
        repeat: false,
        modifiers,
    });
}

fn up(input: &mut RawInput, key: Key) {
    input.events.push(Event::Key {
        key,
        physical_key: None,
        pressed: false,
        repeat: false,
        modifiers: Modifiers::NONE,
    });
}

/// Strikes a key so many times, in one frame or in one frame each, with none between.
fn fast(page: &mut Page<'_>, key: Key, modifiers: Modifiers, times: usize, frames: bool) {
    for _ in 0..times {
        down(page.harness.input_mut(), key, modifiers);
        up(page.harness.input_mut(), key);
        if frames {
            page.harness.run_steps(1);
        }
    }
    page.step();
}

#[test]
fn fast_keys_go_as_far_as_slow_ones() {
    let cases = [
        (Key::Tab, Modifiers::SHIFT, 3),
        (Key::Tab, Modifiers::NONE, 3),
        (Key::ArrowRight, Modifiers::NONE, 2),
        (Key::ArrowDown, Modifiers::NONE, 1),
    ];
    for (key, modifiers, times) in cases {
        let mut slow = page(Sample::new(Way::Practice));
        slow.focus("Walk to the infeed");
        for _ in 0..times {
            slow.harness.key_press_modifiers(modifiers, key);
            slow.step();
        }
        for frames in [true, false] {
            let mut page = page(Sample::new(Way::Practice));
            page.focus("Walk to the infeed");
            fast(&mut page, key, modifiers, times, frames);
            assert_eq!(
                page.focused(),
                slow.focused(),
                "{key:?} {modifiers:?} {frames}"
            );
        }
    }
}

/// Guided, at the panel: by key and by button the focus goes to the button of the next step, not
/// to Start, and the card says where it stands.
#[test]
fn use_panel_goes_to_the_button_of_the_next_step() {
    let choose = |sample: Sample| sample.then(&[Intent::Press(Button::Reset)]);
    let key = Sample::new(Way::Guided).then(&[Intent::KeyIn]);
    let cases: [(Sample, Intent, PanelPage, &str, &str); 3] = [
        (
            key,
            Intent::Press(Button::HoldDeclare),
            PanelPage::Declare,
            "Hold",
            "On the panel’s page “Declare empty”.",
        ),
        (
            Sample::new(Way::Guided),
            Intent::Press(Button::Mode(Mode::Changeover)),
            PanelPage::Product,
            "Mode\nChangeover",
            "On the panel’s page “Product and task”.",
        ),
        (
            choose(Sample::new(Way::Guided)),
            Intent::Press(Button::Stop),
            PanelPage::Values,
            "Stop",
            "",
        ),
    ];
    for (mut sample, next, on, name, said) in cases {
        sample.offers.push(next);
        sample.next_is(next);
        let mut page = page(sample);
        assert!(page.says(said) || said.is_empty(), "{said}");
        for by_key in [true, false] {
            let asked = if by_key {
                page.strike(Key::P)
            } else {
                page.click("Use panel")
            };
            let turned = (on != PanelPage::Values).then_some(Wish::Page(on));
            assert_eq!(asked.first(), turned.as_ref());
            page.sample.borrow_mut().page = on;
            page.step();
            let focused = page.focused().1.replace('\n', " ");
            assert_eq!(focused, name.replace('\n', " "), "{by_key}");
            page.sample.borrow_mut().page = PanelPage::Values;
            page.focus("Walk to the hatch");
        }
    }
}

/// What lies on an arrow's way comes before what is nearer in the middle.
#[test]
fn arrows_go_by_what_lies_on_their_way() {
    let mut sample = Sample::new(Way::Watch);
    sample.watching = Some(Watching {
        plays: false,
        speed: 4.0,
        whole: 240_000_000,
        ended: None,
    });
    let mut page = page(sample);
    page.focus("1 times as fast");
    let mut order = Vec::new();
    for key in [Key::ArrowUp, Key::ArrowDown, Key::ArrowDown, Key::ArrowUp] {
        page.strike(key);
        order.push(page.focused().1);
    }
    assert_eq!(order[0], "Play");
    assert!(order[1].ends_with("times as fast"), "{order:?}");
    assert_eq!(order[2], "Fold the task");
    assert!(order[3].ends_with("times as fast"), "{order:?}");
}

#[test]
fn tab_from_the_panel_meets_the_person_bar_however_many_cards_there_are() {
    for (width, height) in [(1280.0, 720.0), (1100.0, 640.0), (640.0, 360.0)] {
        for hinted in [false, true] {
            let mut sample = Sample::hand_in(Way::Practice).then(&[Intent::HandOut]);
            sample.hinted = hinted;
            let mut page = sized(sample, vec2(width, height));
            // Back from the top bar is the person bar too.
            page.focus("Help");
            page.harness.key_press_modifiers(Modifiers::SHIFT, Key::Tab);
            page.step();
            assert!(page.focused().1.starts_with("Walk"), "{:?}", page.focused());
            page.harness.key_press(Key::Tab);
            page.step();
            assert_eq!(page.focused().1, "Help", "{width}");
        }
    }
}

/// What is done by the button that has the focus, and what has the focus then.
#[test]
fn a_button_that_changes_keeps_the_focus_or_its_neighbour_gets_it() {
    let torch = |on| Intent::Torch(on);
    let cases: [(&str, &[Intent], &str); 2] = [
        ("Torch on", &[torch(true)], "Torch off"),
        ("Key in", &[Intent::KeyIn], "Key out"),
    ];
    for (name, done, then) in cases {
        let mut page = page(Sample::new(Way::Exam));
        page.focus(name);
        let after = Sample::new(Way::Exam).then(done);
        page.sample.replace(after);
        page.step();
        assert_eq!(page.focused().1, then, "{name}");
    }
}

#[test]
fn where_all_of_a_part_goes_off_tab_goes_on_from_there() {
    let mut page = page(Sample::new(Way::Exam));
    page.focus("Stop");
    let away = Sample::new(Way::Exam).at(Stand::Isolator);
    page.sample.replace(away);
    page.step();
    page.strike(Key::Tab);
    assert!(page.focused().1.starts_with("Walk"), "{:?}", page.focused());
}

#[test]
fn what_is_done_takes_the_focus_from_nobody() {
    let mut page = page(Sample::new(Way::Exam));
    page.focus("Test straps");
    let (intent, part) = (Intent::TestStraps, 0.5);
    page.sample.borrow_mut().doing = Some(crate::Doing { intent, part });
    page.step();
    // A key struck twice does not break off what it began.
    assert_eq!(page.strike(Key::Enter), []);
    page.sample.borrow_mut().doing = None;
    page.step();
    assert_eq!(page.focused().1, "Test straps");
}

#[test]
fn a_dialog_keeps_the_key_that_opens_or_closes_it() {
    let fold = "Fold the task";
    // Struck in the very frame in which it opens.
    let mut page = page(Sample::new(Way::Exam));
    page.focus(fold);
    page.sample.borrow_mut().over = Some(Over::Report);
    down(page.harness.input_mut(), Key::Enter, Modifiers::NONE);
    page.harness.run_steps(1);
    up(page.harness.input_mut(), Key::Enter);
    page.step();
    assert!(page.says(fold));
    // Held longer than the dialog stands.
    page.focus("Not yet");
    page.asked();
    down(page.harness.input_mut(), Key::Enter, Modifiers::NONE);
    assert_eq!(page.asked(), [Wish::CloseOver]);
    page.sample.borrow_mut().over = None;
    for _ in 0..5 {
        down(page.harness.input_mut(), Key::Enter, Modifiers::NONE);
        page.harness.run_steps(1);
        assert!(page.says(fold));
    }
    assert_eq!(page.focused().1, fold);
    up(page.harness.input_mut(), Key::Enter);
    page.step();
    page.strike(Key::Enter);
    assert!(!page.says(fold));
}

#[test]
fn all_parts_are_in_the_order_of_tab_once() {
    let mut parts = super::TAB_ORDER.to_vec();
    parts.sort();
    parts.dedup();
    assert_eq!(parts.len(), 6);
    assert!(parts.contains(&Group::Person));
}
