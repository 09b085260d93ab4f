//! Sheet, notes, focus, hall and person bar of the drill page.

use egui::accesskit::{Role, Toggled};
use egui::epaint::Shape;
use egui::{Key, pos2};
use egui_kittest::kittest::{NodeT, Queryable};
use rackproof_buffer::{Half, HalfSlot};
use rackproof_drill::{Aim, Intent, Stand};
use rackproof_grade::Verdict;

use super::harness::{page, sized};
use super::sample::Sample;
use crate::{Doing, Watching, Way, Wish};

#[test]
fn the_tick_sheet_is_ticked_by_click_and_by_keys() {
    let at = |slot, half| HalfSlot { slot, half };
    let seven = at(6, Half::Infeed);
    for way in [Way::Practice, Way::Exam] {
        let mut page = page(Sample::new(way).ticked(&[seven]));
        let node = page.harness.get_by_label("Slot 7, infeed half");
        assert_eq!(node.accesskit_node().toggled(), Some(Toggled::True));
        assert_eq!(page.click("Slot 7, infeed half"), [Wish::Tick(seven)]);
        assert_eq!(page.strike(Key::M), []);
        assert_eq!(page.focused().1, "Slot 16, infeed half");
        page.strike(Key::ArrowDown);
        page.strike(Key::ArrowRight);
        assert_eq!(page.strike(Key::Space), [Wish::Tick(at(14, Half::Outfeed))]);
    }
}

#[test]
fn guided_keeps_notes_of_halves_and_of_what_is_void() {
    let page_of = |sample| page(sample);
    let looked = page_of(Sample::looked(Way::Guided));
    let both = "Slot 12: infeed half seen empty, outfeed half a board";
    looked.harness.get_by_label(both);
    looked
        .harness
        .get_by_label("Slot 11: infeed half seen empty, outfeed half not looked at");
    assert!(looked.harness.query_by_label("Tick sheet").is_none());
    let void = page_of(Sample::hand_in(Way::Guided));
    void.harness
        .get_by_label("Slot 12: infeed half look voided, outfeed half look voided");
    assert!(void.says("All looks are void, by a hand in the rack. At 01:19."));
    let sides = [Aim::LeanInfeed, Aim::LeanOutfeed].map(Intent::Look);
    let out = || Sample::hand_in(Way::Guided).then(&[Intent::HandOut]);
    let some = page_of(out().then(&sides[..1]));
    assert!(some.says("Struck through: void since 01:19. The others count."));
    assert!(!some.says("All looks are void"));
    // What cannot be seen because of the board that lies there was not looked at before either.
    let again = page_of(out().then(&sides));
    assert!(again.says("These looks still count") && !again.says("void"));
}

#[test]
fn notes_stand_in_the_hall_however_small_it_is() {
    for (width, height) in [(1280.0, 720.0), (1100.0, 640.0), (1000.0, 640.0)] {
        let page = sized(Sample::hand_in(Way::Guided), egui::vec2(width, height));
        let foot = page
            .harness
            .get_by_label_contains("All looks are void")
            .rect();
        let lowest = page.harness.get_by_label_contains("Slot 1: infeed").rect();
        assert!(
            lowest.bottom() <= foot.top(),
            "{width}: {lowest:?} {foot:?}"
        );
        assert!(page.hall.borrow().contains_rect(foot), "{width}: {foot:?}");
    }
}

#[test]
fn tab_goes_from_part_to_part_and_arrows_stay_inside() {
    let mut page = page(Sample::new(Way::Practice));
    let mut order = Vec::new();
    for _ in 0..7 {
        page.strike(Key::Tab);
        order.push(page.focused().1);
    }
    let expected = [
        "Help",
        "Fold the task",
        "Slot 16, infeed half",
        "The hall",
        "Start",
        "Walk to the infeed",
        "Help",
    ];
    let expected: Vec<String> = expected.iter().map(|name| (*name).to_owned()).collect();
    // Which widget of the panel is first is the panel's own matter.
    order[4].clone_from(&expected[4]);
    assert_eq!(order, expected);
    page.harness
        .key_press_modifiers(egui::Modifiers::SHIFT, Key::Tab);
    page.step();
    assert_eq!(page.focused().1, "Walk to the infeed");
    page.strike(Key::ArrowRight);
    assert_eq!(page.focused().1, "Walk to the hatch");
    assert_eq!(
        page.strike(Key::Enter),
        [Wish::Do(Intent::Walk(Stand::Hatch))]
    );
    for _ in 0..9 {
        page.strike(Key::ArrowLeft);
        page.strike(Key::ArrowUp);
    }
    assert!(page.focused().1.starts_with("Walk to") || page.focused().1 == "Test straps");
}

#[test]
fn in_the_hall_the_arrows_turn_the_view() {
    let mut page = page(Sample::new(Way::Practice));
    page.harness.get_by_label("The hall").focus();
    page.step();
    assert_eq!(page.strike(Key::ArrowLeft), [Wish::Turn(5.0, 0.0)]);
    assert_eq!(page.strike(Key::ArrowUp), [Wish::Turn(0.0, 5.0)]);
    assert_eq!(page.strike(Key::Home), [Wish::TurnBack]);
}

#[test]
fn the_panel_is_entered_by_key_and_by_button() {
    let mut page = page(Sample::new(Way::Practice));
    page.strike(Key::P);
    let into = page.focused();
    assert!(!into.1.is_empty() && into.0 != Role::Image, "{into:?}");
    assert!(!into.1.contains("Walk"));
}

#[test]
fn what_cannot_be_done_here_is_named_with_the_place_to_go() {
    let mut page = page(Sample::new(Way::Exam));
    assert_eq!(page.strike(Key::D), []);
    page.harness
        .get_by_label("Open hatch: go to the hatch (2).");
    page.strike(Key::L);
    page.harness
        .get_by_label("Look along slot: go to the infeed (1), outfeed (5).");
    page.strike(Key::F5);
    page.harness
        .get_by_label("Answer for the slot: not possible now.");
    page.sample.borrow_mut().seconds = 60.0;
    page.step();
    assert!(!page.says("not possible now"));
    page.focus("Walk to the isolator");
    page.harness
        .get_by_label("At the isolator: power off and on, my lock.");
}

#[test]
fn the_cord_holds_and_says_so() {
    let mut page = page(Sample::at_the_hatch(Way::Practice));
    assert_eq!(page.click("Walk to the panel"), []);
    assert_eq!(page.strike(Key::Num4), []);
    page.harness
        .get_by_label("Wrist cord plugged in: I cannot walk or shut the hatch.");
}

#[test]
fn what_is_being_done_shows_how_much_and_can_be_broken_off() {
    let mut sample = Sample::new(Way::Exam);
    let (intent, part) = (Intent::Walk(Stand::Hatch), 0.25);
    sample.doing = Some(Doing { intent, part });
    let mut page = page(sample);
    let bar = page.harness.get_by_role(Role::ProgressIndicator);
    assert_eq!(bar.accesskit_node().numeric_value(), Some(0.25));
    assert_eq!(
        bar.accesskit_node().label().as_deref(),
        Some("Walk to the hatch")
    );
    assert_eq!(page.click("Break off"), [Wish::BreakOff]);
    assert_eq!(page.strike(Key::Escape), [Wish::BreakOff]);
    assert_eq!(page.strike(Key::Num1), []);
}

#[test]
fn help_on_demand_is_asked_for_and_then_shown() {
    let mut sample = Sample::new(Way::Practice);
    let mut without = page(Sample::new(Way::Practice));
    assert_eq!(without.click("Show a hint"), [Wish::Hint]);
    assert!(!without.says("Test your shoe straps."));
    sample.hinted = true;
    assert!(page(sample).says("Test your shoe straps."));
}

#[test]
fn a_safe_way_on_is_asked_for_and_then_told_step_by_step() {
    let mut without = page(Sample::new(Way::Practice));
    // It stands below the hint: by Tab the list follows.
    without.focus("A safe way on");
    without.step();
    assert_eq!(without.click("A safe way on"), [Wish::WayOn]);
    assert_eq!(without.strike(Key::F2), [Wish::WayOn]);
    let told = page(Sample::new(Way::Practice).told_way_on());
    let name = "A safe way on from here";
    told.harness.get_by_role_and_label(Role::Dialog, name);
    for said in [
        "By what can be known",
        "Test your shoe straps.",
        "Open the hatch.",
        "Through the hatch every slot can be seen.",
        "Ask again there.",
        "listed in the report",
    ] {
        assert!(told.says(said), "{said}");
    }
    // Nothing of what nobody looked at.
    assert!(!told.says("Take board") && !told.says("Raven"));
    // Whatever the window gives, an exam shows nothing of it.
    let exam = page(Sample::new(Way::Exam).told_way_on());
    assert!(!exam.says("By what can be known") && !exam.says("Ask again"));
    let mut exam = page(Sample::new(Way::Exam));
    assert!(exam.harness.query_by_label("A safe way on").is_none());
    assert_eq!(exam.strike(Key::F2), []);
}

#[test]
fn watching_has_its_controls_and_no_acts() {
    let mut sample = Sample::looked(Way::Watch);
    sample.watching = Some(Watching {
        plays: true,
        speed: 2.0,
        whole: 600_000_000,
        ended: None,
    });
    let mut page = page(sample);
    assert_eq!(page.click("Stand still"), [Wish::Play(false)]);
    assert_eq!(page.click("4 times as fast"), [Wish::Speed(4.0)]);
    assert!(page.says("Now Set the prop"));
    assert!(page.says("Set the prop under the lift."));
    assert!(page.harness.query_by_label("Set prop").is_none());
    assert_eq!(page.click("Walk to the panel"), []);
}

#[test]
fn the_controls_of_watch_are_seen_at_once_and_its_end_says_what_became_of_it() {
    for (width, height) in [(1280.0, 720.0), (1100.0, 640.0)] {
        for ended in [None, Some(Verdict::Passed)] {
            let mut sample = Sample::new(Way::Watch);
            sample.watching = Some(Watching {
                plays: false,
                speed: 4.0,
                whole: 240_000_000,
                ended,
            });
            let mut page = sized(sample, egui::vec2(width, height));
            let play = if ended.is_some() {
                "Again from 00:00"
            } else {
                "Play"
            };
            for name in [play, "8 times as fast"] {
                let rect = page.harness.get_by_label(name).rect();
                assert!(
                    page.hall.borrow().contains_rect(rect),
                    "{width} {name} {rect:?}"
                );
            }
            assert_eq!(page.says("The end: Passed"), ended.is_some());
            assert_eq!(page.says("no stop rule was broken"), ended.is_some());
            assert_eq!(page.click(play), [Wish::Play(true)]);
            if ended.is_some() {
                assert_eq!(page.click("Leave to the course"), [Wish::Leave]);
            }
        }
    }
}

#[test]
fn the_hall_is_left_open_and_the_page_fits_many_sizes() {
    let sizes = [
        (1280.0, 720.0, (824.0, 556.0)),
        (1536.0, 864.0, (1052.0, 700.0)),
        (1100.0, 640.0, (644.0, 396.0)),
    ];
    for (width, height, hall) in sizes {
        let page = sized(Sample::looked(Way::Practice), egui::vec2(width, height));
        assert_eq!(page.hall.borrow().size(), egui::vec2(hall.0, hall.1));
    }
    // At scale 2.0 a window of 1280x720 has 640x360 points: the page scrolls to what has the focus.
    let mut small = sized(Sample::new(Way::Practice), egui::vec2(640.0, 360.0));
    small.focus("Walk to the hatch");
    small.step();
    let rect = small.harness.get_by_label("Walk to the hatch").rect();
    assert!(rect.bottom() <= 360.0 && rect.top() >= 0.0, "{rect:?}");
    assert!(small.hall.borrow().width() <= 640.0);
}

#[test]
fn nothing_opaque_lies_in_the_hall_but_cards() {
    let page = page(Sample::new(Way::Exam));
    let free = pos2(480.0, 300.0);
    for clipped in &page.harness.output().shapes {
        let shape = &clipped.shape;
        let covers = shape
            .visual_bounding_rect()
            .intersect(clipped.clip_rect)
            .contains(free);
        let Shape::Rect(rect) = shape else { continue };
        // The harness itself has a ground under all.
        let ground = rect.rect.size() == egui::vec2(1280.0, 720.0);
        assert!(!covers || ground || rect.fill.a() == 0, "{rect:?}");
    }
}

#[test]
fn cards_that_are_more_than_their_place_have_a_bar() {
    let many = || Sample::hand_in(Way::Practice).then(&[Intent::HandOut]);
    let cases = [
        (many(), (1280.0, 720.0), true),
        (many(), (1100.0, 640.0), true),
        (Sample::new(Way::Exam), (1280.0, 720.0), false),
    ];
    for (mut sample, (width, height), is_there) in cases {
        sample.hinted = sample.way == Way::Practice;
        let mut page = sized(sample, egui::vec2(width, height));
        // Beside the cards, which are 256 wide.
        let bar = |page: &super::harness::Page<'_>| {
            let mut shapes = page.harness.output().shapes.iter();
            shapes.find_map(|clipped| match &clipped.shape {
                Shape::Rect(rect) if rect.fill == crate::tokens::INK => {
                    let place = rect.rect;
                    let beside = place.left() >= 268.0 && place.right() <= 284.0;
                    (beside && place.height() > 20.0).then_some(place)
                }
                _ => None,
            })
        };
        let first = bar(&page);
        assert_eq!(first.is_some(), is_there, "{width}");
        let Some(first) = first else { continue };
        // What is below is scrolled to, and the bar says so.
        page.focus("Show a hint");
        page.step();
        let second = bar(&page).expect("it is still there");
        assert!(second.top() > first.top() + 5.0, "{first:?} {second:?}");
        let button = page.harness.get_by_label("Show a hint").rect();
        assert!(page.hall.borrow().contains_rect(button), "{button:?}");
    }
}
