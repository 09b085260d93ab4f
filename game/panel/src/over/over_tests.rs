//! What lies over the page: names, focus, and that what is behind is not reached.

use egui::Key;
use egui::accesskit::Role;
use egui_kittest::kittest::{NodeT, Queryable};
use rackproof_buffer::{Half, HalfSlot};
use rackproof_drill::{Intent, IntentKind, Stand, Tray};

use crate::drill_page::harness::{Page, page};
use crate::drill_page::sample::Sample;
use crate::{Over, PartRow, Setting, Way, Wish};

fn focused(page: &Page<'_>) -> String {
    page.focused().1
}

#[test]
fn each_dialog_has_its_name_takes_the_focus_and_closes() {
    let cases = [
        (Over::Help, "Help"),
        (Over::Parts, "Parts of the hall"),
        (Over::Settings, "Settings"),
        (Over::Pause, "The drill’s clock stands"),
        (Over::Report, "Report the job done?"),
    ];
    for (over, name) in cases {
        let mut page = page(Sample::new(Way::Practice).under(over));
        page.harness.get_by_role_and_label(Role::Dialog, name);
        assert_eq!(focused(&page), name);
        assert_eq!(page.strike(Key::Escape), [Wish::CloseOver], "{name}");
        assert_eq!(page.click("Close"), [Wish::CloseOver], "{name}");
    }
}

#[test]
fn what_is_behind_is_not_reached() {
    let mut page = page(Sample::new(Way::Practice).under(Over::Pause));
    for _ in 0..12 {
        page.strike(Key::Tab);
        let focused = focused(&page);
        let within = [
            "The drill’s clock stands",
            "Go on",
            "Begin the same start again",
            "Settings",
            "Leave to the course",
            "Close",
        ];
        assert!(within.contains(&focused.as_str()), "{focused}");
    }
    let dialog = page
        .harness
        .get_by_role_and_label(Role::Dialog, "The drill’s clock stands");
    assert!(dialog.accesskit_node().is_modal());
    // A click on the walk to the hatch meets the ground of the dialog: it only closes.
    let wishes = page.click_at(88.0, 690.0);
    assert!(
        !wishes.contains(&Wish::Do(Intent::Walk(Stand::Hatch))),
        "{wishes:?}"
    );
    // Nor does a reader of the screen reach it.
    let behind = page.harness.get_by_label("Test straps");
    behind.click_accesskit();
    assert_eq!(page.asked(), []);
}

#[test]
fn the_focus_comes_back() {
    let mut page = page(Sample::new(Way::Practice));
    page.focus("Test straps");
    assert_eq!(focused(&page), "Test straps");
    page.sample.borrow_mut().over = Some(Over::Report);
    page.step();
    assert_eq!(focused(&page), "Report the job done?");
    page.sample.borrow_mut().over = None;
    page.step();
    page.step();
    assert_eq!(focused(&page), "Test straps");
}

#[test]
fn a_report_has_no_default() {
    let mut page = page(Sample::new(Way::Practice).under(Over::Report));
    assert_eq!(page.strike(Key::Enter), []);
    assert_eq!(page.strike(Key::Space), []);
    assert_eq!(page.click("Not yet"), [Wish::CloseOver]);
    let report = [Wish::CloseOver, Wish::Do(Intent::Report)];
    assert_eq!(
        page.click("Report the job done and end the attempt"),
        report
    );
}

#[test]
fn slots_are_chosen_by_click_and_by_arrows() {
    let take = |slot, half| {
        let at = HalfSlot { slot, half };
        [Wish::CloseOver, Wish::Do(Intent::Take(at))]
    };
    let sample = Sample::hand_in(Way::Guided).under(Over::Slots(IntentKind::Take));
    let mut page = page(sample);
    page.harness
        .get_by_role_and_label(Role::Dialog, "Take the board out of which slot?");
    let twelve = "Slot 12, outfeed half: look voided";
    assert_eq!(page.click(twelve), take(11, Half::Outfeed));
    page.focus(twelve);
    page.strike(Key::ArrowDown);
    page.strike(Key::ArrowLeft);
    assert_eq!(page.strike(Key::Enter), take(10, Half::Infeed));
}

#[test]
fn the_list_of_slots_opens_at_its_first_row_in_every_way() {
    for way in [Way::Guided, Way::Practice, Way::Exam] {
        for from in ["Walk to the hatch", "Help", "Fold the task"] {
            let mut page = page(Sample::hand_in(way));
            if page.says(from) {
                page.focus(from);
            }
            page.sample.borrow_mut().over = Some(Over::Slots(IntentKind::Take));
            page.step();
            for row in 0..16 {
                let name = format!("Slot {}, infeed half", 16 - row);
                assert!(focused(&page).starts_with(&name), "{way:?} {from} {row}");
                page.strike(Key::ArrowDown);
            }
        }
    }
}

#[test]
fn in_practice_only_my_own_marks_stand_in_the_rack() {
    let one = HalfSlot {
        slot: 0,
        half: Half::Infeed,
    };
    let sample = Sample::hand_in(Way::Exam).ticked(&[one]);
    let page = page(sample.under(Over::Slots(IntentKind::Take)));
    page.harness
        .get_by_role_and_label(Role::Button, "Slot 1, infeed half");
    assert!(
        page.harness
            .query_by_label_contains("look voided")
            .is_none()
    );
}

#[test]
fn trays_and_settings_and_leaving_ask_for_what_they_say() {
    let quarantine = Intent::PutDown(Tray::Quarantine);
    let mut trays = page(Sample::board_in_hand(Way::Practice).under(Over::Trays));
    let asked = trays.click("Put the board into quarantine");
    assert_eq!(asked, [Wish::CloseOver, Wish::Do(quarantine)]);
    assert_eq!(trays.strike(Key::Enter), []);
    let mut settings = page(Sample::new(Way::Practice).under(Over::Settings));
    assert_eq!(settings.click("1.5"), [Wish::Set(Setting::Scale(1.5))]);
    let stretched = [Wish::Set(Setting::Stretch(2))];
    assert_eq!(settings.click("twice as long"), stretched);
    let letters = "Letter and figure keys off";
    assert_eq!(
        settings.click(letters),
        [Wish::Set(Setting::NoLetters(true))]
    );
    let plain = "Plain words in place of those of this site";
    assert_eq!(
        settings.click(plain),
        [Wish::Set(Setting::PlainWords(true))]
    );
    let mut exam = page(Sample::new(Way::Exam).under(Over::Pause));
    exam.harness
        .get_by_role_and_label(Role::Dialog, "Leave the exam?");
    assert_eq!(exam.click("Leave to the course"), [Wish::Leave]);
    assert!(
        exam.harness
            .query_by_label("Begin the same start again")
            .is_none()
    );
}

#[test]
fn a_part_of_the_list_does_what_it_offers() {
    let mut sample = Sample::new(Way::Practice).under(Over::Parts);
    sample.parts = vec![
        PartRow {
            name: "Lock for the setter’s key".to_owned(),
            offers: vec![Intent::KeyIn],
        },
        PartRow {
            name: "Hatch".to_owned(),
            offers: Vec::new(),
        },
    ];
    let mut page = page(sample);
    let asked = page.click("Put the setter's key in and turn it");
    assert_eq!(asked, [Wish::CloseOver, Wish::Do(Intent::KeyIn)]);
    page.harness.get_by_label("Nothing from here.");
}

#[test]
fn the_help_lists_the_keys_of_the_table() {
    let page = page(Sample::new(Way::Practice).under(Over::Help));
    for said in [
        "Emergency stop, from anywhere",
        "Tick sheet: arrows, Space",
        "Answer: seen empty",
        "Close, break off, pause",
    ] {
        page.harness.get_by_label(said);
    }
    let none = page.harness.query_by_label("Try a board between the rails");
    assert!(none.is_none());
}

/// All of it is seen at once, and in the first picture that stands: no row is cut, none is below.
#[test]
fn the_help_opens_whole() {
    let mut page = page(Sample::new(Way::Practice));
    page.sample.borrow_mut().over = Some(Over::Help);
    page.harness.run();
    let close = page.harness.get_by_label("Close").rect();
    for last in [
        "Isolator off or on",
        "Answer: seen empty",
        "Close, break off, pause",
    ] {
        let row = page.harness.get_by_label(last).rect();
        assert!(
            row.bottom() + 8.0 <= close.top(),
            "{last}: {row:?} {close:?}"
        );
    }
}
