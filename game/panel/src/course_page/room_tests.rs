//! The course page in little and in much room.

use egui::accesskit::Role;
use egui::vec2;
use egui_kittest::kittest::Queryable;
use rackproof_attempt::{Ground, ProofState};
use rackproof_phrases::exam_closed;
use rackproof_words::Words;

use super::course_tests::{Case, Page, STARTS, shown, with_all, with_view};
use super::{CourseView, course_page};
use crate::tokens;

#[test]
fn a_small_page_scrolls() {
    let words = Words::english();
    let mut page = shown(vec2(640.0, 360.0), move |ui, wishes| {
        with_view(&words, Case::default(), |view| {
            let picture = course_page(view, ui, wishes);
            assert!(picture.right() <= 640.0);
        });
    });
    page.harness
        .get_by_role_and_label(Role::Button, "Exam")
        .focus();
    page.harness.run_steps(4);
    let rect = page
        .harness
        .get_by_role_and_label(Role::Button, "Exam")
        .rect();
    assert!(rect.right() <= 641.0 && rect.left() >= 0.0, "{rect:?}");
}

/// The longest reason that closes an exam: why, and how that is changed, on a long path.
#[test]
fn a_closed_exam_has_room_for_its_reason() {
    let words = Words::english();
    let state = ProofState::Stale(vec![
        Ground::Machine,
        Ground::Drill,
        Ground::Rules,
        Ground::Procedure,
        Ground::Core,
    ]);
    let path = "./scenarios/changeover/left-inside.ron";
    let closed = exam_closed(&words, &state, path).expect("it is closed");
    let page = shown(vec2(1536.0, 864.0), move |ui, wishes| {
        with_all(&words, |view| {
            let view = CourseView {
                proof: &closed,
                exam_open: false,
                ..view.clone()
            };
            course_page(&view, ui, wishes);
        });
    });
    let start = format!("Start {STARTS} of {STARTS}");
    let rect = page.harness.get_by_label(&start).rect();
    assert!(rect.bottom() <= 864.0 - 22.0 - 6.0, "{rect:?}");
    assert!(!has_bar(&page));
}

#[test]
fn nothing_of_the_chosen_drill_is_cut_off() {
    for (width, height) in [(1280.0, 720.0), (1536.0, 864.0)] {
        let words = Words::english();
        let page = shown(vec2(width, height), move |ui, wishes| {
            with_all(&words, |view| {
                course_page(view, ui, wishes);
            });
        });
        let start = format!("Start {STARTS} of {STARTS}");
        let rect = page.harness.get_by_label(&start).rect();
        // The card ends 22 over the edge of the window.
        assert!(rect.bottom() <= height - 22.0 - 6.0, "{width}: {rect:?}");
        assert!(!has_bar(&page), "{width}");
    }
    // In less room a bar says that there is more, and nothing stands out at the side.
    let words = Words::english();
    let mut page = shown(vec2(1100.0, 640.0), move |ui, wishes| {
        with_all(&words, |view| {
            course_page(view, ui, wishes);
        });
    });
    assert!(has_bar(&page));
    for name in ["Watch", "Guided", "Practice", "Exam"] {
        let button = page.harness.get_by_role_and_label(Role::Button, name);
        assert!(button.rect().right() <= 1100.0 - 24.0 - 18.0, "{name}");
    }
    // What has the focus is scrolled to.
    let last = format!("Start {STARTS} of {STARTS}");
    page.harness.get_by_label(&last).focus();
    page.harness.run_steps(4);
    let rect = page.harness.get_by_label(&last).rect();
    assert!(rect.bottom() <= 640.0 - 22.0 - 6.0, "{rect:?}");
}

/// Whether a scroll bar is painted in the margin of the card.
fn has_bar(page: &Page<'_>) -> bool {
    let right = page.harness.ctx.content_rect().right();
    page.harness.output().shapes.iter().any(|clipped| {
        let egui::Shape::Rect(rect) = &clipped.shape else {
            return false;
        };
        let in_margin = rect.rect.left() > right - 24.0 - 18.0 && rect.rect.right() < right - 24.0;
        in_margin && rect.fill == tokens::INK && rect.rect.height() > 20.0
    })
}
