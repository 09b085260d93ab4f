//! The sequential test against known plans, and what it makes of any numbers.

use proptest::prelude::*;

use crate::{Aims, Decision, Plan, Problem, Trials, outside::assert_printed};

fn aims(poor: f64, good: f64, false_pass: f64, false_hold: f64) -> Aims {
    Aims {
        poor,
        good,
        false_pass,
        false_hold,
    }
}

/// Computed from Wald's formulas by another hand.
#[test]
fn bounds_steps_and_clean_runs_are_those_of_the_table() {
    let cases = [
        (
            aims(0.60, 0.85, 0.05, 0.05),
            ["2.944439", "-2.944439", "0.348307", "-0.980829"],
            9,
        ),
        (
            aims(0.70, 0.95, 0.05, 0.10),
            ["2.890372", "-2.251292", "0.305382", "-1.791759"],
            10,
        ),
    ];
    for (aims, printed, clean_run) in cases {
        let plan = Plan::new(aims).expect("a plan");
        let (bounds, steps) = (plan.bounds(), plan.steps());
        let found = [bounds.certified, bounds.not_yet, steps.passed, steps.failed];
        for (printed, found) in printed.iter().zip(found) {
            assert_printed(printed, found, &format!("{aims:?}"));
        }
        assert_eq!(plan.clean_run(), Trials(clean_run));
    }
}

/// Acceptance sampling with p1 = 0.01, p2 = 0.10, risks 0.05 and 0.10 has the lines
/// -0.939 + 0.0397 n and 1.205 + 0.0397 n: NIST/SEMATECH e-Handbook, 6.2.6, from memory. What
/// comes out here "certified" is there a rejected lot, and a success a defective unit.
#[test]
fn the_lines_of_the_handbook_are_met() {
    let plan = Plan::new(aims(0.01, 0.10, 0.05, 0.10)).expect("a plan");
    let (bounds, steps) = (plan.bounds(), plan.steps());
    let both = steps.passed - steps.failed;
    assert_printed("0.0397", -steps.failed / both, "slope");
    assert_printed("1.205", bounds.certified / both, "upper line");
    assert_printed("-0.939", bounds.not_yet / both, "lower line");
    // No defective unit in 24 accepts, two in two reject.
    let decided = |attempts: &[bool]| {
        let course = plan.decide(attempts);
        (course.decision, course.attempts)
    };
    assert_eq!(decided(&[false; 23]), (Decision::GoOn, 23));
    assert_eq!(decided(&[false; 30]), (Decision::NotYet, 24));
    assert_eq!(decided(&[true; 30]), (Decision::Certified, 2));
}

#[test]
fn the_first_crossing_decides() {
    let plan = Plan::new(aims(0.60, 0.85, 0.05, 0.05)).expect("a plan");
    // By hand: -2 * 0.980829 + 14 * 0.348307 = 2.914640 is short of 2.944439, 15 are not.
    let mut attempts = vec![false, false];
    attempts.extend([true; 14]);
    assert_eq!(plan.decide(&attempts).decision, Decision::GoOn);
    attempts.extend([true, false, false, false, false, false, false]);
    let course = plan.decide(&attempts);
    assert_eq!(
        (course.decision, course.attempts),
        (Decision::Certified, 17)
    );
    assert_eq!(plan.decide(&[false; 9]).attempts, 4);
    assert_eq!(plan.decide(&[]).decision, Decision::GoOn);
}

/// Rates 0.4 and 0.8 double the ratio at each success; risks 0.1 and 0.2 ask for eight times.
#[test]
fn a_bound_that_is_met_exactly_is_reached() {
    let plan = Plan::new(aims(0.4, 0.8, 0.1, 0.2)).expect("a plan");
    assert_eq!(plan.clean_run(), Trials(3));
    assert_eq!(plan.decide(&[true; 5]).attempts, 3);
}

/// Rates that are typed just so far apart as they must be are, however their floats are rounded.
#[test]
fn rates_at_the_least_gap_are_far_enough_apart() {
    for thousandths in 1..998_u32 {
        let typed = |thousandths: u32| format!("0.{thousandths:03}").parse().expect("a rate");
        let (poor, good) = (typed(thousandths), typed(thousandths + 1));
        let made = Plan::new(aims(poor, good, 0.05, 0.05));
        assert!(made.is_ok(), "{poor} {good}");
        let close = good - 0.000_001;
        let made = Plan::new(aims(poor, close, 0.05, 0.05));
        assert_eq!(made, Err(Problem::RatesTooClose { poor, good: close }));
    }
}

#[test]
fn aims_that_cannot_be_are_told() {
    let good = aims(0.6, 0.9, 0.05, 0.05);
    let rate = |rate| Err(Problem::RateOutOfBounds(rate));
    let risk = |risk| Err(Problem::RiskOutOfBounds(risk));
    let close = |poor, good| Err(Problem::RatesTooClose { poor, good });
    let cases = [
        (Aims { poor: 0.0, ..good }, rate(0.0)),
        (Aims { good: 1.0, ..good }, rate(1.0)),
        (Aims { poor: -0.5, ..good }, rate(-0.5)),
        (
            Aims {
                good: f64::INFINITY,
                ..good
            },
            rate(f64::INFINITY),
        ),
        (Aims { poor: 0.9, ..good }, close(0.9, 0.9)),
        (Aims { poor: 0.95, ..good }, close(0.95, 0.9)),
        (
            Aims {
                false_pass: 0.0,
                ..good
            },
            risk(0.0),
        ),
        (
            Aims {
                false_hold: 0.5,
                ..good
            },
            risk(0.5),
        ),
    ];
    for (aims, expected) in cases {
        assert_eq!(Plan::new(aims), expected, "{aims:?}");
    }
    let unknown = Plan::new(Aims {
        false_hold: f64::NAN,
        ..good
    });
    assert!(matches!(unknown, Err(Problem::RiskOutOfBounds(_))));
}

proptest! {
    #[test]
    fn any_aims_give_a_plan_or_a_problem(
        poor in prop_oneof![0.001..0.999, any::<f64>()],
        good in prop_oneof![0.001..0.999, any::<f64>()],
        false_pass in prop_oneof![0.0001..0.49, any::<f64>()],
        false_hold in prop_oneof![0.0001..0.49, any::<f64>()],
        attempts in prop::collection::vec(any::<bool>(), 0..200),
    ) {
        let Ok(plan) = Plan::new(aims(poor, good, false_pass, false_hold)) else {
            return Ok(());
        };
        let (bounds, steps) = (plan.bounds(), plan.steps());
        prop_assert!(bounds.not_yet < 0.0 && 0.0 < bounds.certified);
        prop_assert!(steps.failed < 0.0 && 0.0 < steps.passed);
        let course = plan.decide(&attempts);
        prop_assert!(course.ratio.is_finite());
        // What follows the decision changes nothing.
        prop_assert_eq!(plan.decide(&attempts[..course.attempts]), course);
        let clean = plan.clean_run().0 as usize;
        let run = plan.decide(&vec![true; clean]);
        prop_assert_eq!((run.decision, run.attempts), (Decision::Certified, clean));
    }
}
