//! A way on that is told passes when it is followed, and tells nothing that nobody looked at.

use proptest::prelude::*;
use rackproof_drill::{Cause, Intent, Stand};
use rackproof_grade::{GuideRun, Verdict};

use super::*;
use crate::{ahead, sample};

/// The first so many doings of the guide on a way of a variant, then others drawn from what is on
/// offer, none of which breaks a rule.
fn reached(
    exercise: &Exercise,
    (variant, way): (usize, usize),
    guided: usize,
    drawn: &[u16],
) -> Attempt {
    let judged = exercise.judged(variant).expect("it is listed");
    let run = GuideRun::play(&judged, &exercise.procedure, way).expect("the guide finishes");
    let mut attempt = Attempt::new(judged);
    for &(span, cause) in run.causes.iter().take(guided.min(run.causes.len() - 1)) {
        attempt.wait(u64::from(span.0));
        attempt
            .do_at_once(cause)
            .expect("the guide does what is on offer");
    }
    for &number in drawn {
        let offers = attempt.offers();
        let offer = offers[usize::from(number) % offers.len()];
        let mut tried = attempt.clone();
        let done = tried.do_intent(offer).is_ok();
        if number % 3 == 0 {
            tried.wait_for_event();
        }
        let new = &tried.heard()[attempt.heard().len()..];
        let harms = |heard: &Heard| match heard.outcome {
            JudgedOutcome::Broke(_) => true,
            JudgedOutcome::World(outcome) => matches!(outcome, Outcome::Harm(_)),
        };
        if done && offer != Intent::Report && !new.iter().any(harms) {
            attempt = tried;
        }
    }
    attempt
}

/// Does a step as a person would who reads it: goes where it is done, then does it.
fn does(attempt: &mut Attempt, step: &StepOn) {
    let Some(intent) = step.intent else {
        assert!(attempt.wait_for_event(), "{step:?}: nothing comes");
        return;
    };
    if attempt.state().world.person.stand != step.stand {
        let walk = Intent::Walk(step.stand);
        attempt.do_intent(walk).expect("the way there is free");
    }
    assert_eq!(attempt.do_intent(intent), Ok(()), "{step:?}");
}

/// Follows what is told, and asks again where it ends.
fn followed(mut attempt: Attempt, exercise: &Exercise) -> Attempt {
    for _ in 0..600 {
        if attempt.is_over() {
            return attempt;
        }
        let on = way_on(&attempt, exercise).expect("there was a way a moment ago");
        assert!(!on.steps.is_empty() && on.to_end.0 <= on.to_end.1);
        if on.way == way_taken(&attempt, &exercise.procedure) {
            let first = ahead(&attempt, exercise).expect("there is a next step");
            assert_eq!(on.steps[0].step, first.step, "the hint says the same");
        }
        for step in &on.steps {
            does(&mut attempt, step);
        }
        assert_eq!(on.ends, attempt.is_over());
    }
    panic!("it does not end");
}

fn drawn() -> impl Strategy<Value = Vec<u16>> {
    prop::collection::vec(any::<u16>(), 0..12)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    /// From any moment before which no rule was broken, in every variant: where a way on is told,
    /// it passes.
    #[test]
    fn a_way_on_that_is_told_passes_when_it_is_followed(
        variant in 0_usize..13, way in 0_usize..3, guided in 0_usize..90, drawn in drawn(),
    ) {
        let exercise = sample::exercise();
        let attempt = reached(&exercise, (variant, way), guided, &drawn);
        match way_on(&attempt, &exercise) {
            Ok(on) => {
                prop_assert!(on.may_pass);
                let grade = followed(attempt, &exercise).grade(&exercise);
                prop_assert_eq!(grade.verdict, Verdict::Passed, "{:?}", grade.breaches);
            }
            Err(why) => prop_assert!(why != NoWayOn::Over),
        }
    }
}

/// The guide goes on from nine moments in ten at least: to know nothing is no answer.
#[test]
fn from_nearly_every_moment_a_way_on_is_known() {
    let exercise = sample::exercise();
    let mut seed: u64 = 29;
    let mut next = |below: u64| {
        // The constants of Knuth's MMIX generator.
        seed = seed
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (seed >> 33) % below
    };
    let mut known = 0;
    for _ in 0..150 {
        let start = (next(13) as usize, next(3) as usize);
        let guided = next(90) as usize;
        let drawn: Vec<u16> = (0..next(6)).map(|_| next(65_536) as u16).collect();
        let attempt = reached(&exercise, start, guided, &drawn);
        known += usize::from(way_on(&attempt, &exercise).is_ok());
    }
    assert!((135..150).contains(&known), "{known} of 150");
}

/// Every variant as a drill of its own, so that nothing can be known from the list of starts.
fn alone(exercise: &Exercise, variant: usize) -> Exercise {
    let mut alone = exercise.clone();
    alone.drill.variants = vec![exercise.drill.variants[variant].clone()];
    alone
}

/// The same doings in two starts, as long as both look the same: the same is told, though boards
/// lie elsewhere.
#[test]
fn worlds_that_look_the_same_are_told_the_same() {
    let exercise = sample::exercise();
    let variants = exercise.drill.variants.len();
    let (mut compared, mut listed) = (0, 0);
    for way in 0..exercise.procedure.ways.len() {
        let judged = exercise.judged(0).expect("it is listed");
        let run = GuideRun::play(&judged, &exercise.procedure, way).expect("the guide finishes");
        for count in (0..run.causes.len()).step_by(3) {
            let first = follow(&Attempt::new(judged.clone()), &run.causes[..count]);
            let first = first.expect("it was possible before");
            let told = way_on(&first, &exercise);
            let told_alone = way_on(&first, &alone(&exercise, 0)).expect("the guide goes on");
            for variant in 1..variants {
                let other = exercise.judged(variant).expect("it is listed");
                let Some(other) = follow(&Attempt::new(other), &run.causes[..count]) else {
                    continue;
                };
                if !looks_like(&first, &other) {
                    continue;
                }
                assert_eq!(told, way_on(&other, &exercise), "{count} of way {way}");
                let other_alone = way_on(&other, &alone(&exercise, variant));
                assert_eq!(
                    other_alone.expect("the guide goes on").steps,
                    told_alone.steps
                );
                (compared, listed) = (compared + 1, listed + told_alone.steps.len());
            }
        }
    }
    assert!(
        compared > 60 && listed > 2 * compared,
        "{compared} {listed}"
    );
}

/// At the start all steps until the first look are told, and no board.
#[test]
fn what_is_told_ends_where_something_new_is_seen() {
    let exercise = sample::exercise();
    let judged = exercise.judged(4).expect("it is listed");
    let mut attempt = Attempt::new(judged);
    let on = way_on(&attempt, &exercise).expect("the guide finishes");
    let names: Vec<&str> = on.steps.iter().map(|step| step.step.as_str()).collect();
    assert_eq!(names.first(), Some(&"test-straps"));
    assert_eq!(names.last(), Some(&"look-infeed-side"));
    assert!(names.len() > 6 && !on.ends && on.alike == 13, "{on:?}");
    assert!(on.to_end.0 < on.to_end.1);
    for step in &on.steps {
        does(&mut attempt, step);
    }
    // From here on the starts differ.
    let on = way_on(&attempt, &exercise).expect("the guide goes on");
    assert!(on.alike < 13, "{on:?}");
}

/// After a breach there may be a way on that is safe, and does not pass. Once hurt, there is none.
#[test]
fn what_is_over_or_broken_is_said_plainly() {
    let exercise = sample::exercise();
    let judged = exercise.judged(0).expect("it is listed");
    let mut attempt = Attempt::new(judged);
    let doings = [
        Intent::Walk(Stand::Hatch),
        Intent::OpenHatch,
        Intent::HandIn,
    ];
    for intent in doings {
        attempt.do_intent(intent).expect("it is on offer");
    }
    attempt.do_intent(Intent::HandOut).expect("it is on offer");
    let on = way_on(&attempt, &exercise).expect("the guide puts it right");
    assert!(!on.may_pass);
    let other = followed(attempt, &exercise);
    assert_eq!(other.grade(&exercise).verdict, Verdict::Failed);
    assert_eq!(way_on(&other, &exercise), Err(NoWayOn::Over));
}

/// What somebody undid after the job was done, and the procedure does not put right, is said: it
/// would leave something open, or break a rule.
#[test]
fn a_way_that_would_leave_or_break_something_is_not_told() {
    let exercise = sample::exercise();
    let cases: [(&[Intent], NoWayOn); 2] = [
        (&[Intent::Press(Button::ClearOut)], NoWayOn::Open),
        (
            &[
                Intent::Press(Button::Stop),
                Intent::Walk(Stand::Hatch),
                Intent::AskUpstreamHold,
                Intent::OpenHatch,
            ],
            NoWayOn::Breaks,
        ),
    ];
    for (undone, expected) in cases {
        let mut attempt = reached(&exercise, (0, 0), 49, &[]);
        for intent in undone {
            attempt.do_intent(*intent).expect("it is on offer");
        }
        assert_eq!(way_on(&attempt, &exercise), Err(expected), "{undone:?}");
    }
}

/// Something that comes round for ever is waited for at most an hour.
#[test]
fn waiting_for_ever_is_no_way() {
    let mut material = sample::material();
    let line = "lays_by_hand: true, downstream_ready: false";
    let clock = "lays_by_hand: false, upstream: Upstream(boards: 3, works: Every(cycle_s: 9.0)),
        downstream: Downstream(works: Stopped)";
    material.drill.text = material.drill.text.replace(line, clock);
    material.procedure.text = material.procedure.text.replacen(
        "Step(name: \"wait-moving\"",
        "Step(name: \"wait\", when: Is(PanelOn), do: Wait), Step(name: \"wait-moving\"",
        1,
    );
    let problems = rackproof_files::Problems::new();
    let exercise = material.read(&problems);
    assert_eq!(sample::plain(&problems), [""; 0]);
    let exercise = exercise.expect("it has no problem");
    let attempt = Attempt::new(exercise.judged(0).expect("it is listed"));
    let none = way_on(&attempt, &exercise);
    assert_eq!(none, Err(NoWayOn::NoStep(Some("wait".to_owned()))));
}

#[test]
fn whoever_can_go_on_from_a_moment_of_the_debrief_ends_well() {
    let exercise = sample::exercise();
    let attempt = reached(&exercise, (0, 0), usize::MAX, &[]);
    let grade = attempt.grade(&exercise);
    let mut found = 0;
    for part in 0..12 {
        let at = attempt.at() * part / 12;
        let other = crate::WhatIf::at(&attempt, &exercise, &grade, at).expect("the guide goes on");
        assert_eq!((other.from.at, other.grade.verdict), (at, Verdict::Passed));
        assert_eq!(
            other.attempt.done()[..other.same],
            attempt.done()[..other.same]
        );
        assert!(other.instead().iter().all(|done| done.at >= at));
        let doings = |done: &&Done| matches!(done.cause, Cause::Did(_));
        found += other.instead().iter().filter(doings).count();
    }
    assert!(found > 100, "{found}");
}
