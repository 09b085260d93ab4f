//! The page by its names and roles, and what it asks for.

use std::cell::RefCell;

use egui::accesskit::Role;
use egui::{Key, Modifiers, Rect, Vec2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable, by};
use rackproof_buffer::{Condition, bow_at_shortening};
use rackproof_grade::Verdict;

use super::sample::{BELT_FORGOTTEN, BY_HAND, DECLARED_UNSEEN, Debriefed};
use super::*;
use crate::fonts;

pub(super) const PAGE: Vec2 = vec2(1280.0, 720.0);

/// What a page answered and asked for.
#[derive(Default)]
pub(super) struct Heard {
    hall: RefCell<Option<Rect>>,
    pub(super) wishes: RefCell<Vec<Wish>>,
}

pub(super) fn shown<'a>(view: DebriefView<'a>, heard: &'a Heard, size: Vec2) -> Harness<'a> {
    let mut harness = Harness::builder().with_size(size).build_ui(move |ui| {
        if fonts::ready(ui.ctx()) {
            let all = ui.ctx().content_rect();
            let mut page = ui.new_child(UiBuilder::new().max_rect(all));
            page.set_clip_rect(all);
            let hall = debrief_page(&view, &mut page, &mut heard.wishes.borrow_mut());
            *heard.hall.borrow_mut() = Some(hall);
        }
    });
    harness.run();
    harness
}

/// What one key asks for.
fn wished(view: DebriefView<'_>, key: Key, modifiers: Modifiers) -> Vec<Wish> {
    let heard = Heard::default();
    let mut harness = shown(view, &heard, PAGE);
    harness.key_press_modifiers(modifiers, key);
    harness.run();
    drop(harness);
    heard.wishes.into_inner()
}

#[test]
fn verdict_questions_and_findings_are_told_by_name() {
    let cases = [
        (BY_HAND, "Passed", Verdict::Passed),
        (DECLARED_UNSEEN, "Not passed", Verdict::Failed),
    ];
    for (journal, head, verdict) in cases {
        let one = Debriefed::of(journal);
        assert_eq!(one.findings.verdict, verdict);
        let heard = Heard::default();
        let harness = shown(one.view(), &heard, PAGE);
        harness.get_by_role_and_label(Role::Heading, head);
        for name in [
            "Safety",
            "Procedure",
            "Result",
            "What the slot map did not know",
        ] {
            harness.get_by_label(name);
        }
        harness.get_by_role_and_label(Role::Slider, "Timeline");
        assert_eq!(one.words.faults(), [""; 0]);
    }
    let one = Debriefed::of(DECLARED_UNSEEN);
    let heard = Heard::default();
    let harness = shown(one.view(), &heard, PAGE);
    // The row of the list and the mark on the timeline.
    harness.get_by_label("Stop rule: Hold the declare-empty button for 2.0 s, 01:09");
    harness.get_by_label("Stop, 01:09");
    harness.get_by_label("Harm: Raven broken, 02:07");
    harness.get_by_label_contains("Seen empty then: 16 of 32 halves.");
    // In the list and on the timeline.
    let lean = harness.get_all_by_label_contains("A lean to the outfeed side");
    assert_eq!(lean.count(), 2);
    harness.get_by_label("Boards in the rack now: true 1, believed 0, slots unknown 0");
    harness.get_by_label_contains("Slot 12: true, infeed half empty, outfeed half board");
}

/// The chosen finding says what was true, believed, looked at and to be seen; what went right says
/// why, and what came out of it is told.
#[test]
fn the_chosen_finding_has_its_evidence_and_what_went_right_its_reason() {
    let one = Debriefed::of(DECLARED_UNSEEN);
    let heard = Heard::default();
    let first = one.findings.breaches().next().expect("a rule is broken").1;
    let evidence = [
        ("True was: ", &first.evidence.was_true),
        ("Looked at: ", &first.evidence.looked),
        ("To be seen: ", &first.evidence.visible),
        ("Source: ", &first.source),
        ("", &first.evidence.around),
        ("", &first.evidence.panel),
    ];
    let number = one
        .findings
        .list
        .iter()
        .position(|finding| matches!(&finding.told, rackproof_phrases::Told::Breach(_)));
    for chosen in [None, number] {
        let view = DebriefView {
            chosen,
            ..one.view()
        };
        let harness = shown(view, &heard, vec2(1280.0, 3000.0));
        for (label, said) in evidence {
            let told = format!("{label}{said}");
            let count = harness.query_all_by_label_contains(&told).count();
            assert_eq!(count, usize::from(chosen.is_some()), "{told}");
        }
        harness.get_by_label("What came out of it");
        harness.get_by_label("What the verdict rests on");
        for said in &one.findings.because {
            harness.get_by_label(said);
        }
        harness.get_by_label_contains(&one.findings.outturn[0]);
        let right = one.findings.right.first().expect("something went right");
        assert!(
            harness
                .query_all_by_label_contains(&right.why)
                .next()
                .is_some()
        );
    }
}

/// Its evidence may be longer than the list is high: then it is shown from its head on.
#[test]
fn the_head_of_the_chosen_finding_is_in_view() {
    let one = Debriefed::of(DECLARED_UNSEEN);
    let (number, _) = one.breach();
    for height in [720.0, 640.0, 560.0] {
        let view = DebriefView {
            chosen: Some(number),
            ..one.view()
        };
        let heard = Heard::default();
        let harness = shown(view, &heard, vec2(1280.0, height));
        let row = "Stop rule: Hold the declare-empty button for 2.0 s, 01:09";
        let row = harness.get_by_label(row).rect();
        let above = harness.get_by_label("Safety").rect();
        assert!(row.top() > above.bottom(), "{height}: {row:?} {above:?}");
    }
}

#[test]
fn the_hall_is_left_open() {
    let one = Debriefed::of(BY_HAND);
    let cases = [
        (PAGE, vec2(879.0, 424.0)),
        (vec2(1536.0, 864.0), vec2(1095.0, 568.0)),
        (vec2(1100.0, 640.0), vec2(739.0, 302.0)),
    ];
    for (size, expected) in cases {
        let heard = Heard::default();
        drop(shown(one.view(), &heard, size));
        let hall = heard.hall.into_inner().expect("it was shown");
        assert_eq!(hall.size(), expected, "{size}");
    }
    // Large text in a small window: what can be seen of it.
    let heard = Heard::default();
    drop(shown(one.view(), &heard, vec2(640.0, 360.0)));
    let hall = heard.hall.into_inner().expect("it was shown");
    assert!(hall.right() <= 640.0 && hall.bottom() <= 360.0, "{hall}");
    assert!(hall.width() > 200.0, "{hall}");
}

#[test]
fn buttons_and_rows_ask() {
    let one = Debriefed::of(DECLARED_UNSEEN);
    let (harm, at) = one.harm();
    let (breach, moment) = one.breach();
    let view = DebriefView {
        at,
        chosen: Some(harm),
        ..one.view()
    };
    let start = one.timeline.gaps[0].from;
    let cases = [
        ("Play", Wish::Play(true)),
        ("4x", Wish::Speed(4.0)),
        ("16x", Wish::Speed(16.0)),
        ("Take over from here", Wish::TakeOver),
        ("Rules and sources", Wish::Over(Over::Rules)),
        ("Again", Wish::Again),
        ("Ways on", Wish::WaysOn),
        ("Help", Wish::Over(Over::Help)),
        ("Close", Wish::Leave),
        ("Stop, 01:09", Wish::Finding(breach)),
        ("00:00 to 02:51", Wish::Scrub(start)),
    ];
    assert!(moment < at);
    for (name, wish) in cases {
        let heard = Heard::default();
        let mut harness = shown(view, &heard, PAGE);
        let pressable = by().label(name).predicate(|node| {
            let role = node.role();
            role != Role::Label
        });
        harness.get(pressable).click_accesskit();
        harness.run();
        drop(harness);
        assert_eq!(heard.wishes.into_inner(), [wish], "{name}");
    }
}

#[test]
fn keys_ask() {
    let one = Debriefed::of(DECLARED_UNSEEN);
    let (harm, at) = one.harm();
    let view = DebriefView {
        at,
        chosen: Some(harm),
        ..one.view()
    };
    let end = one.history.end();
    let (none, shift) = (Modifiers::NONE, Modifiers::SHIFT);
    let before = steps::before(&view).expect("a rule was broken before");
    let cases = [
        (Key::Space, none, vec![Wish::Play(true)]),
        (Key::OpenBracket, none, vec![Wish::Finding(before)]),
        // Nothing with a moment comes after the harm.
        (Key::CloseBracket, none, vec![]),
        (Key::ArrowLeft, none, vec![Wish::Scrub(at - 1_000_000)]),
        (Key::ArrowRight, none, vec![Wish::Scrub(at + 1_000_000)]),
        (
            Key::ArrowLeft,
            shift,
            vec![Wish::Scrub(one.history.before(at))],
        ),
        (
            Key::ArrowRight,
            shift,
            vec![Wish::Scrub(one.history.after(at))],
        ),
        (Key::Home, none, vec![Wish::Scrub(0)]),
        (Key::End, none, vec![Wish::Scrub(end)]),
        (Key::Enter, none, vec![Wish::TakeOver]),
        (Key::A, none, vec![Wish::Again]),
        (Key::R, none, vec![Wish::Over(Over::Rules)]),
        (Key::W, none, vec![Wish::WaysOn]),
        (Key::F1, none, vec![Wish::Over(Over::Help)]),
        (Key::Escape, none, vec![Wish::Leave]),
    ];
    for (key, modifiers, expected) in cases {
        assert_eq!(wished(view, key, modifiers), expected, "{key:?}");
    }
    // At the end of a reported attempt nothing is left to take over.
    assert_eq!(wished(one.view(), Key::Enter, none), []);
    let no_letters = DebriefView {
        preferences: Preferences {
            no_letters: true,
            ..Preferences::default()
        },
        ..view
    };
    assert_eq!(wished(no_letters, Key::A, none), []);
    let over = DebriefView {
        over: Some(Over::Rules),
        ..view
    };
    assert_eq!(wished(over, Key::Space, none), []);
    assert_eq!(wished(over, Key::Escape, none), [Wish::CloseOver]);
}

#[test]
fn a_click_on_the_timeline_shows_that_moment() {
    let one = Debriefed::of(BY_HAND);
    let heard = Heard::default();
    let mut harness = shown(one.view(), &heard, PAGE);
    let chart = harness
        .get_by_role_and_label(Role::Slider, "Timeline")
        .rect();
    let place = chart.left_top() + vec2(chart.width() / 4.0, 70.0);
    harness.hover_at(place);
    harness.run();
    harness.drag_at(place);
    harness.run();
    harness.drop_at(place);
    harness.run();
    drop(harness);
    let quarter = one.history.end() / 4;
    let wishes = heard.wishes.into_inner();
    assert!(!wishes.is_empty());
    for wish in wishes {
        let Wish::Scrub(at) = wish else {
            panic!("{wish:?}");
        };
        assert!(at.abs_diff(quarter) < 500_000, "{at} for {quarter}");
    }
}

#[test]
fn the_rules_that_were_cited_stand_with_their_sources() {
    let one = Debriefed::of(BELT_FORGOTTEN);
    let heard = Heard::default();
    let view = DebriefView {
        over: Some(Over::Rules),
        ..one.view()
    };
    let harness = shown(view, &heard, PAGE);
    harness.get_by_role_and_label(Role::Dialog, "Rules and sources");
    // Each once, though one was broken twice.
    assert_eq!(
        harness.get_all_by_label("Source: common practice").count(),
        2
    );
    assert_eq!(one.words.faults(), [""; 0]);
}

#[test]
fn a_pressed_board_is_drawn_at_its_true_height() {
    let one = Debriefed::of(DECLARED_UNSEEN);
    let (harm, at) = one.harm();
    let view = DebriefView {
        at,
        chosen: Some(harm),
        ..one.view()
    };
    let found = section::pressed(&view).expect("the rails press a board");
    let machine = one.exercise.machine.clone();
    let rails = one.history.state_at(at).world.machine.width(&machine);
    let kind = machine.kinds()[usize::from(found.kind)];
    let bow = bow_at_shortening(kind.width, kind.thickness, kind.width - rails);
    assert_eq!((found.rails, Some(found.bow)), (rails, bow));
    assert_eq!(found.condition, Condition::Broken);
    assert!(found.bow.rise.0 > 10_000 && found.bow.strain.0 >= 3_990);
    // A little before, whole and less bowed; at the start not at all.
    let earlier = DebriefView {
        at: at - 30_000,
        chosen: None,
        ..view
    };
    let less = section::pressed(&earlier).expect("it is bowed already");
    assert!(less.condition < Condition::Broken && less.bow.rise < found.bow.rise);
    let start = DebriefView {
        at: 0,
        chosen: None,
        ..view
    };
    assert_eq!(section::pressed(&start), None);
    let heard = Heard::default();
    let harness = shown(view, &heard, PAGE);
    harness.get_by_label("Slot 12 across the flow, to scale");
    harness.get_by_label_contains("Raven broke, bowed up");
}

#[test]
fn everything_that_can_be_pressed_or_read_has_a_name() {
    let one = Debriefed::of(DECLARED_UNSEEN);
    for over in [None, Some(Over::Rules), Some(Over::Help)] {
        let heard = Heard::default();
        let view = DebriefView { over, ..one.view() };
        let harness = shown(view, &heard, PAGE);
        let roles = [Role::Button, Role::Label, Role::Slider, Role::Heading];
        let mut named = 0;
        for role in roles {
            for node in harness.query_all_by_role(role) {
                let node = node.accesskit_node();
                let name = node.label().or(node.value()).unwrap_or_default();
                assert!(
                    !name.trim().is_empty(),
                    "{role:?} at {:?}",
                    node.bounding_box()
                );
                named += 1;
            }
        }
        assert!(named > 60, "{named}");
        assert_eq!(one.words.faults(), [""; 0]);
    }
}
