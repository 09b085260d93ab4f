//! The list of attempts over the course.

use egui::accesskit::Role;
use egui::vec2;
use egui_kittest::kittest::Queryable;
use rackproof_words::Words;

use super::course_tests::{Case, Page, kept, page, shown, with_view};
use super::*;
use crate::{Way, tokens};

/// The list of so many attempts, of which more may be kept.
fn list(listed: usize, attempts_kept: usize) -> Page<'static> {
    let words = Words::english();
    let row = |number| kept(&format!("{number}.attempt"), Way::Exam, Ending::Passed);
    let rows: Vec<AttemptRow> = (0..listed).map(row).collect();
    shown(vec2(1280.0, 720.0), move |ui, wishes| {
        let case = Case {
            over: Some(Over::Attempts),
            ..Case::default()
        };
        with_view(&words, case, |view| {
            let view = CourseView {
                attempts: &rows,
                attempts_kept,
                ..view.clone()
            };
            course_page(&view, ui, wishes);
        });
    })
}

#[test]
fn an_attempt_of_before_opens_its_debrief() {
    let mut page = page(Case {
        over: Some(Over::Attempts),
        ..Case::default()
    });
    page.harness
        .get_by_role_and_label(Role::Dialog, "My attempts");
    let older = "left-inside-1.attempt: Practice, not ended, or not to be graded";
    assert_eq!(page.click(older), [Wish::OpenAttempt(1)]);
    let newer = "left-inside-2.attempt: Exam, failed";
    assert_eq!(page.click(newer), [Wish::OpenAttempt(0)]);
    for (listed, kept, told) in [
        (0, 0, "No attempt at this drill is kept"),
        (2, 2, "Newest first."),
        (2, 120, "The newest 2 of 120. One opens"),
    ] {
        assert!(list(listed, kept).says(told), "{told}");
    }
}

/// The bar of a long list stands beside its rows, not on them.
#[test]
fn a_long_list_of_attempts_is_whole_beside_its_bar() {
    let page = list(60, 60);
    let row = page
        .harness
        .get_by_role_and_label(Role::Button, "0.attempt: Exam, passed");
    let painted = page.harness.output().shapes.iter();
    let bars = painted.filter_map(|one| match &one.shape {
        egui::Shape::Rect(shape) => Some(shape.rect),
        _ => None,
    });
    let bars: Vec<f32> = bars
        .filter(|rect| rect.width() == tokens::SCROLL_BAR && rect.height() > 100.0)
        .map(|rect| rect.left())
        .collect();
    assert!(!bars.is_empty());
    let edge = row.rect().right();
    assert!(bars.iter().all(|&bar| edge < bar), "{edge}, bars {bars:?}");
}
