//! Cards and acts of the drill page, by their accessible names, and what an exam does without.

use egui::accesskit::Role;
use egui::{Color32, Key};
use egui_kittest::kittest::{NodeT, Queryable};
use rackproof_drill::{Aim, Intent, Stand};

use super::harness::{Page, page};
use super::sample::Sample;
use crate::{Over, Way, Wish, tokens};

/// A situation, to be gone through in one of the ways.
type Make = fn(Way) -> Sample;

const PLUM: [Color32; 2] = [tokens::PLUM, tokens::PLUM_TINT];

fn is_plum(page: &Page<'_>) -> bool {
    page.colours().iter().any(|colour| PLUM.contains(colour))
}

#[test]
fn while_somebody_plays_times_are_told_in_minutes() {
    let told = page(Sample::new(Way::Practice));
    assert!(told.says("Drill time 0 min") && told.says("Line down 0 min"));
    assert!(!told.says("Drill time 00:00"));
    assert!(page(Sample::new(Way::Watch)).says("Drill time 00:00"));
}

#[test]
fn an_exam_is_without_plum_hint_and_reference_time() {
    for way in [Way::Guided, Way::Practice] {
        assert!(is_plum(&page(Sample::new(way))), "{way:?}");
    }
    let exams: [Make; 6] = [
        Sample::new,
        Sample::looked,
        Sample::hand_in,
        Sample::clear_out,
        Sample::emergency,
        Sample::dark,
    ];
    for make in exams {
        // Whatever the window gives, an exam shows nothing of the guide.
        let mut sample = make(Way::Exam);
        sample.hinted = true;
        let page = page(sample);
        assert!(!is_plum(&page));
        for said in [
            "Reference time",
            "hint",
            "Why",
            "All looks are void",
            "Guide",
            "next",
        ] {
            assert!(!page.says(said), "{said}");
        }
        assert!(page.says("Time allowed"));
    }
    for over in [Over::Help, Over::Settings, Over::Pause, Over::Report] {
        assert!(
            !is_plum(&page(Sample::new(Way::Exam).under(over))),
            "{over:?}"
        );
    }
}

#[test]
fn walking_by_button_and_by_key_is_the_same_wish() {
    let cases = [
        ("Walk to the infeed", Key::Num1, Stand::Infeed),
        ("Walk to the hatch", Key::Num2, Stand::Hatch),
        ("Walk to the isolator", Key::Num3, Stand::Isolator),
        ("Walk to the outfeed", Key::Num5, Stand::Outfeed),
    ];
    let mut page = page(Sample::new(Way::Exam));
    for (name, key, stand) in cases {
        let walk = [Wish::Do(Intent::Walk(stand))];
        assert_eq!(page.click(name), walk, "{name}");
        assert_eq!(page.strike(key), walk, "{name}");
    }
}

#[test]
fn each_act_by_button_and_by_key_is_the_same_wish_once() {
    let cases: [(Make, &str, Key); 10] = [
        (Sample::new, "Test straps", Key::F),
        (Sample::new, "Key in", Key::Q),
        (Sample::emergency, "Turn button out", Key::U),
        (Sample::dark, "Try to start", Key::Y),
        (Sample::at_the_hatch, "Lean infeed", Key::OpenBracket),
        (Sample::at_the_hatch, "Lean outfeed", Key::CloseBracket),
        (Sample::hand_in, "Take board out", Key::T),
        (Sample::hand_in, "Hands out", Key::Z),
        (Sample::clear_out, "Look along slot", Key::L),
        (Sample::clear_out, "Seen empty", Key::F6),
    ];
    for (make, name, key) in cases {
        let mut page = page(make(Way::Practice));
        let by_key = page.strike(key);
        assert_eq!(by_key.len(), 1, "{name}");
        assert_eq!(page.click(name), by_key, "{name}");
    }
}

#[test]
fn all_buttons_are_reached_page_by_page() {
    for make in [
        Sample::new,
        Sample::looked,
        Sample::board_in_hand,
        Sample::clear_out,
    ] {
        let sample = make(Way::Practice);
        let entries = super::acts::entries(&sample.view());
        let mut wanted: Vec<String> = entries
            .iter()
            .map(|entry| entry.label(&sample.view()))
            .collect();
        let mut page = page(sample);
        for _ in 0..5 {
            let shown = |name: &String| {
                let found = page.harness.query_all_by_role_and_label(Role::Button, name);
                found.count() > 0
            };
            wanted.retain(|name| !shown(name));
            let more = page.harness.query_by_label_contains("More ");
            let more = more.and_then(|more| more.accesskit_node().label());
            if let Some(more) = more {
                page.click(&more);
            }
        }
        assert_eq!(wanted, [""; 0]);
    }
}

#[test]
fn the_next_step_carries_its_flag_and_its_page_is_turned_to() {
    let step = Sample::looked(Way::Guided);
    let page = page(step);
    page.harness.get_by_label("Set the prop under the lift.");
    page.harness.get_by_role_and_label(Role::Button, "Set prop");
    assert!(page.says("Why A lift without power"));
}

#[test]
fn a_look_is_read_in_words_in_every_way() {
    for way in [Way::Guided, Way::Practice, Way::Exam] {
        let page = page(Sample::looked(way));
        assert!(page.says("Slot 12, outfeed half: Raven."), "{way:?}");
        assert!(page.says("Slots seen empty, outfeed half alone: 1-10, 13-16."));
        assert!(page.says("Upstream: “I hold all boards.”"));
    }
}

#[test]
fn void_looks_are_told_until_the_next_look_but_not_in_an_exam() {
    let told = "All looks are void, by a hand in the rack.";
    for (way, is_told) in [
        (Way::Guided, true),
        (Way::Practice, true),
        (Way::Exam, false),
    ] {
        assert!(!page(Sample::looked(way)).says(told));
        assert_eq!(page(Sample::hand_in(way)).says(told), is_told, "{way:?}");
    }
    let again =
        Sample::hand_in(Way::Practice).then(&[Intent::HandOut, Intent::Look(Aim::LeanInfeed)]);
    assert!(!page(again).says(told));
    // Nothing was looked at, so nothing is void.
    assert!(!page(Sample::emergency(Way::Practice)).says("All looks are void"));
}
