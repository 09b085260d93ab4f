//! Ways on, help that was asked for, and the claim that a way breaks, as the debrief tells them.

use egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use rackproof_attempt::{Helped, Shortest, WhatIf};
use rackproof_phrases::{OtherTold, WaysTold};

use super::page_tests::{Heard, PAGE, shown};
use super::sample::{DECLARED_UNSEEN, Debriefed};
use super::{DebriefView, debrief_page};
use crate::{Over, fonts};

/// Both ways stand side by side, and each says by what it goes.
#[test]
fn ways_on_are_told_side_by_side_and_each_says_what_it_knows() {
    let one = Debriefed::of(DECLARED_UNSEEN);
    let attempt = one.history.take_over(one.history.end());
    let grade = attempt.grade(&one.exercise);
    let at = one.breach().1 / 2;
    let guide = WhatIf::at(&attempt, &one.exercise, &grade, at).expect("the guide goes on");
    let words = &one.words;
    let found = Shortest::Found(Box::new(guide.clone()), 1_234);
    let mut ways = WaysTold {
        at,
        guide: OtherTold::of_guide(words, Some(&guide), &grade),
        shortest: None,
    };
    let searching = [("It goes by signs only", 1), ("Nobody who stands there", 0)];
    let both = [("It goes by signs only", 1), ("Nobody who stands there", 1)];
    for (shortest, said) in [(None, searching), (Some(&found), both)] {
        ways.shortest = shortest.map(|found| OtherTold::of_shortest(words, found, &grade));
        let view = DebriefView {
            over: Some(Over::WaysOn),
            ways: Some(&ways),
            ..one.view()
        };
        let heard = Heard::default();
        let mut harness = Harness::builder().with_size(PAGE).build_ui(|ui| {
            if fonts::ready(ui.ctx()) {
                debrief_page(&view, ui, &mut heard.wishes.borrow_mut());
            }
        });
        harness.run_steps(4);
        harness.get_by_role_and_label(Role::Dialog, "Ways on from here");
        for (text, count) in said {
            let found = harness.query_all_by_label_contains(text).count();
            assert_eq!(found, count, "{text}");
        }
        let waits = harness
            .query_all_by_label_contains("is being searched")
            .count();
        assert_eq!(waits, usize::from(shortest.is_none()));
        assert_eq!(
            harness.query_all_by_label_contains("Passes. ").count(),
            said[1].1 + 1
        );
    }
    assert_eq!(one.words.faults(), [""; 0]);
}

#[test]
fn help_that_was_asked_for_and_a_broken_claim_are_told() {
    let one = Debriefed::of(DECLARED_UNSEEN);
    let claim = "A proof found this way.";
    let cases = [
        (
            Helped { hints: 0, ways: 0 },
            None,
            ["hint", "a way on asked"],
            [0, 0],
        ),
        (
            Helped { hints: 2, ways: 0 },
            None,
            ["2 hints", "a way on asked"],
            [1, 0],
        ),
        (
            Helped { hints: 1, ways: 3 },
            Some(claim),
            ["1 hint, ", "a way on asked for 3 times"],
            [1, 1],
        ),
    ];
    for (helped, claim, said, counts) in cases {
        let view = DebriefView {
            helped,
            claim,
            ..one.view()
        };
        let heard = Heard::default();
        let harness = shown(view, &heard, PAGE);
        for (text, count) in said.into_iter().zip(counts) {
            let found = harness.query_all_by_label_contains(text).count();
            assert_eq!(found, count, "{text} {helped:?}");
        }
        let told = harness
            .query_all_by_label_contains("A proof found this way.")
            .count();
        assert_eq!(told, usize::from(claim.is_some()));
    }
    assert_eq!(one.words.faults(), [""; 0]);
}
