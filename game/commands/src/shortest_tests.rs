//! What a search from a moment finds passes, and is said as it is.

use rackproof_attempt::Journal;
use rackproof_files::Problems;
use rackproof_grade::{GuideRun, Verdict};
use rackproof_library::{built_in_drill, load};

use super::*;

fn exercise() -> Exercise {
    let loaded = load(built_in_drill(), &Problems::new());
    loaded.expect("it has no problem").exercise
}

/// The guide's attempt at a variant, by one way.
fn guided(exercise: &Exercise, variant: &str, way: usize) -> Attempt {
    let number = exercise.variant(variant).expect("it is listed");
    let judged = exercise.judged(number).expect("it is listed");
    let run = GuideRun::play(&judged, &exercise.procedure, way).expect("the guide finishes");
    let mut attempt = Attempt::new(judged);
    for (span, cause) in run.causes {
        attempt.wait(u64::from(span.0));
        attempt.do_at_once(cause).expect("it is on offer");
    }
    attempt
}

fn on(_states: usize) -> ControlFlow<()> {
    ControlFlow::Continue(())
}

/// Both ways of an attempt from one of its moments.
fn ways(exercise: &Exercise, attempt: &Attempt, at: u64) -> (Option<WhatIf>, Shortest) {
    let grade = attempt.grade(exercise);
    let same = attempt.done().partition_point(|done| done.at <= at);
    let guide = WhatIf::at(attempt, exercise, &grade, at);
    let found = shortest((attempt, exercise, &grade), (at, same), &mut on);
    (guide, found)
}

#[test]
fn from_any_moment_the_shortest_way_passes_and_is_no_longer_than_the_guides() {
    let exercise = exercise();
    let attempt = guided(&exercise, "black-low", 0);
    let mut shorter = 0;
    for part in [1, 3, 4, 5, 6, 8] {
        let at = attempt.at() * part / 9;
        let (guide, found) = ways(&exercise, &attempt, at);
        let guide = guide.expect("the guide goes on");
        let Shortest::Found(other, states) = found else {
            panic!("{part}: no way was found");
        };
        eprintln!(
            "{part}: {states} states, {} doings and {} us, the guide {} and {}",
            other.instead().len(),
            other.attempt.at() - at,
            guide.instead().len(),
            guide.attempt.at() - at,
        );
        assert_eq!(other.grade.verdict, Verdict::Passed, "{part}");
        assert_eq!((other.from.at, guide.from.at), (at, at));
        assert!(other.instead().len() <= guide.instead().len(), "{part}");
        shorter += usize::from(other.instead().len() < guide.instead().len());
    }
    assert!(shorter > 0, "to know the truth is worth something");
}

#[test]
fn a_bound_and_a_break_are_said_and_not_pretended() {
    let exercise = exercise();
    let attempt = guided(&exercise, "green-low", 0);
    let grade = attempt.grade(&exercise);
    let asked = (&attempt, &exercise, &grade);
    let found = within(500, asked, (0, 0), &mut on);
    assert!(matches!(found, Shortest::Bound(500)));
    let found = within(500, asked, (0, 0), &mut |_| ControlFlow::Break(()));
    assert!(matches!(found, Shortest::BrokenOff(_)));
}

/// When all is over no way is left.
#[test]
fn where_no_way_is_left_it_is_said() {
    let exercise = exercise();
    let attempt = guided(&exercise, "green-low", 0);
    let grade = attempt.grade(&exercise);
    let moment = (attempt.at(), attempt.done().len());
    let found = shortest((&attempt, &exercise, &grade), moment, &mut on);
    assert!(matches!(found, Shortest::None(0)));
}

/// From right before a broken rule: what was broken is not broken again.
#[test]
fn from_a_finding_there_is_a_way_that_keeps_the_rules() {
    let exercise = exercise();
    let text = include_str!("../../../tests/journals/left-inside/declared-unseen.ron");
    let problems = Problems::new();
    let report = problems.for_file("journal", text);
    let journal = Journal::read(report, &exercise).expect("it has no problem");
    let judged = exercise.judged(journal.variant).expect("it is listed");
    let mut attempt = Attempt::new(judged);
    assert!(journal.run(&mut attempt, report, &mut |_| true));
    let grade = attempt.grade(&exercise);
    let start = rackproof_attempt::right_before(&attempt, grade.breaches[0].moment);
    let found = shortest((&attempt, &exercise, &grade), start, &mut on);
    let Shortest::Found(other, _) = found else {
        panic!("no way was found");
    };
    assert!(other.grade.breaches.is_empty() && other.grade.harms.is_empty());
    assert_eq!(other.grade.verdict, Verdict::Passed);
}
