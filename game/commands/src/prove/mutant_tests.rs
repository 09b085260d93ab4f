//! Machines made wrong in one point: the proof must fail on each, and the table says by which
//! claim. The cheap claims are asked first.

use rackproof_attempt::Exercise;
use rackproof_buffer::Defect;
use rackproof_files::Problems;
use rackproof_library::{built_in_drill, load};

use super::{
    claims::guide,
    job::{explore_kept, explore_plain},
    level::Level,
};

/// The smallest rack there is.
const SLOTS: u8 = 2;

/// A claim that fails.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Claim {
    Guide,
    Milestones,
    Machine,
    RulesSuffice,
    Congruent,
}

/// Which claim turns on which machine.
const TURNS: [(Defect, Claim); 10] = [
    (Defect::InterlockOff, Claim::Machine),
    (Defect::SweepBlind, Claim::Milestones),
    (Defect::LooksOutliveMotion, Claim::Congruent),
    (Defect::MapLostWithPower, Claim::Milestones),
    (Defect::StopUnlatched, Claim::Machine),
    (Defect::DeclareKeyless, Claim::Machine),
    (Defect::ReadyWhileRailsMove, Claim::Machine),
    (Defect::LockCutsNothing, Claim::Guide),
    (Defect::ReferenceKept, Claim::Guide),
    (Defect::RunsOutUnasked, Claim::Guide),
];

fn exercise(defect: Option<Defect>) -> Exercise {
    let problems = Problems::new();
    let mut exercise = load(built_in_drill(), &problems)
        .expect("it has no problem")
        .exercise;
    if let Some(defect) = defect {
        exercise.machine = exercise.machine.with_defect(defect);
    }
    exercise
}

/// The first claim that fails.
fn failing(defect: Option<Defect>) -> Option<Claim> {
    let exercise = exercise(defect);
    let mut milestones = vec![false; exercise.drill.milestones.len()];
    for variant in 0..exercise.drill.variants.len() {
        for way in 0..exercise.procedure.ways.len() {
            if guide(&exercise, variant, way, &mut milestones).failed > 0 {
                return Some(Claim::Guide);
            }
        }
    }
    if milestones.contains(&false) {
        return Some(Claim::Milestones);
    }
    let variant = exercise.variant("belt-and-black").expect("it is listed");
    if explore_plain(&exercise, variant, SLOTS).machine.is_some() {
        return Some(Claim::Machine);
    }
    let rules = exercise.rules.for_proof();
    let kept = explore_kept(
        &exercise,
        &[variant],
        (SLOTS, Level::Exact),
        &rules,
        &mut |_| {},
    );
    if kept.harm.is_some() {
        return Some(Claim::RulesSuffice);
    }
    if kept.incongruent.is_some() {
        return Some(Claim::Congruent);
    }
    kept.machine.is_some().then_some(Claim::Machine)
}

#[test]
fn the_proof_fails_on_each_machine_that_is_made_wrong() {
    for (defect, claim) in TURNS {
        assert_eq!(failing(Some(defect)), Some(claim), "{defect:?}");
    }
    assert_eq!(TURNS.map(|(defect, _)| defect), Defect::ALL);
}

#[test]
fn what_these_tests_ask_holds_on_the_machine_as_it_is() {
    assert_eq!(failing(None), None);
}
