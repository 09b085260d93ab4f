//! A way on in words: what its doings are called, and when they are told beside their steps.

use rackproof_attempt::{Attempt, Exercise, WhatIf};
use rackproof_drill::{
    Intent,
    message::{Argument, Message},
};
use rackproof_grade::{Breach, Moment, Verdict};
use rackproof_words::Words;

use super::{OtherTold, adds};
use crate::sample::played;

#[test]
fn a_doing_is_told_only_if_it_says_more_than_its_step() {
    let words = Words::english();
    let wren = vec![("product", Argument::Name("Wren".to_owned()))];
    let plain = Vec::new;
    // The step, the doing with its values, whether it says more.
    let cases = [
        ("Open the hatch.", "intent-open-hatch", plain(), false),
        (
            "Test your shoe straps.",
            "intent-test-straps",
            plain(),
            false,
        ),
        (
            "Take the board off the infeed belt.",
            "intent-take-from-infeed-belt",
            plain(),
            false,
        ),
        (
            "Lean to the infeed side.",
            "intent-look-infeed-side",
            plain(),
            true,
        ),
        (
            "Press Reset, or Clear while Aborted.",
            "intent-reset",
            plain(),
            true,
        ),
        ("Press it.", "intent-stop", plain(), true),
        ("Wait until it rests.", "intent-walk-panel", plain(), true),
        (
            "Choose the next product.",
            "intent-choose",
            wren.clone(),
            true,
        ),
        // A value is never left out, even if the step has all its words.
        ("Load the product: Wren.", "intent-load", wren, true),
    ];
    for (step, id, arguments, expected) in cases {
        let doing = Message { id, arguments };
        assert_eq!(adds(&words, step, &doing), expected, "{step} / {doing:?}");
    }
    assert_eq!(words.faults(), [""; 0]);
}

/// The attempt of a journal, as far as its first so many causes.
fn attempt(journal: &str, causes: usize) -> (Attempt, Exercise) {
    let (whole, exercise) = played(journal);
    let at = whole.done()[causes - 1].at;
    let mut attempt = Attempt::new(whole.judged().clone());
    for done in &whole.done()[..causes] {
        attempt.wait(done.at - attempt.at());
        attempt
            .do_at_once(done.cause)
            .expect("it was possible once");
    }
    assert_eq!(attempt.at(), at);
    (attempt, exercise)
}

const BY_CLEAR_OUT: &str = include_str!("../../../tests/journals/left-inside/by-clear-out.ron");

/// What the guide's way on from the end of an attempt says, in the debrief.
fn guide_says(attempt: &Attempt, exercise: &Exercise) -> Vec<String> {
    let mut grade = attempt.grade(exercise);
    // So early it came as near to any way.
    grade.way = exercise.procedure.way("by-clear-out").expect("it is one");
    let other = WhatIf::at(attempt, exercise, &grade, attempt.at()).expect("the guide goes on");
    let told = OtherTold::of_guide(&Words::english(), Some(&other), &grade);
    told.steps.into_iter().map(|step| step.said).collect()
}

/// Each doing reads as it would right before it is done: with the product chosen by then, the slot
/// asked about, and Clear while the unit is Aborted.
#[test]
fn each_doing_of_a_way_reads_as_right_before_it_is_done() {
    let (attempt, exercise) = attempt(BY_CLEAR_OUT, 3);
    let says = guide_says(&attempt, &exercise);
    let count = |part: &str| says.iter().filter(|said| said.contains(part)).count();
    assert_eq!(count("Load product Kestrel"), 1, "{says:?}");
    assert_eq!(count("Load product Wren"), 0, "{says:?}");
    let answers: Vec<&String> = says.iter().filter(|said| said.contains("answer")).collect();
    assert!(answers.len() > 10, "{says:?}");
    assert!(
        answers.iter().all(|said| said.starts_with("Slot ")),
        "{answers:?}"
    );
    assert_eq!(count("Slot 16: answer seen empty"), 1, "{says:?}");
}

#[test]
fn a_way_on_from_an_emergency_stop_says_clear() {
    let (mut attempt, exercise) = attempt(BY_CLEAR_OUT, 12);
    attempt
        .do_intent(Intent::PressEmergency)
        .expect("it is on offer");
    let says = guide_says(&attempt, &exercise);
    assert!(says.iter().any(|said| said == "Press Clear"), "{says:?}");
}

/// A way that ends safely is said to, and only what was broken before it is said to stay broken.
#[test]
fn a_way_that_breaks_something_itself_is_not_said_to_end_safely() {
    let journal = include_str!("../../../tests/journals/left-inside/declared-unseen.ron");
    let (attempt, exercise) = played(journal);
    let grade = attempt.grade(&exercise);
    let breach = grade.breaches[0];
    let other = WhatIf::of(&attempt, &exercise, &grade, &breach).expect("the guide goes on");
    let moved = |at: u64, cause: Option<usize>| Breach {
        moment: Moment { at, cause },
        ..breach
    };
    let before = moved(0, None);
    let after = moved(other.from.at + 1, other.same.checked_sub(1));
    // What was found at the moment itself is what this way leaves out.
    let itself = breach;
    let cases: [(&[Breach], &[Breach], bool, &str); 5] = [
        (&[itself], &[], true, "Passes."),
        (&[before, itself], &[before], true, "Ends safely"),
        (&[itself], &[after], true, "Does not pass."),
        (&[before, itself], &[before, after], true, "Does not pass."),
        (&[before, itself], &[before], false, "Does not pass."),
    ];
    for (earlier, later, reported, expected) in cases {
        let (mut grade, mut other) = (grade.clone(), other.clone());
        grade.breaches = earlier.to_vec();
        other.grade.breaches = later.to_vec();
        other.grade.reported = reported;
        if !later.is_empty() {
            other.grade.verdict = Verdict::Failed;
        }
        let told = OtherTold::of_guide(&Words::english(), Some(&other), &grade);
        let ends = told.ends.expect("it ends");
        assert!(ends.starts_with(expected), "{ends}");
    }
}
