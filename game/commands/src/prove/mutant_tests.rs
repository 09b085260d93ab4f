//! Machines made wrong in one point: the proof must fail on each, and the table says by which
//! claim. The cheap claims are asked first.

use std::path::Path;

use rackproof_attempt::Exercise;
use rackproof_buffer::Defect;
use rackproof_files::Problems;
use rackproof_library::{drill, load};
use rackproof_prove::OneHand;

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
    NoCorner,
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

/// Which claim turns in the drill whose task is to let the rack drain. Nothing is swept, cleared
/// out or changed over in it, its rails stand, and no look counts: what is made wrong there it
/// cannot show.
const TURNS_DRAINING: [(Defect, Option<Claim>); 10] = [
    (Defect::InterlockOff, Some(Claim::Machine)),
    (Defect::SweepBlind, None),
    (Defect::LooksOutliveMotion, None),
    (Defect::MapLostWithPower, None),
    (Defect::StopUnlatched, Some(Claim::Machine)),
    (Defect::DeclareKeyless, Some(Claim::Machine)),
    (Defect::ReadyWhileRailsMove, None),
    (Defect::LockCutsNothing, Some(Claim::NoCorner)),
    (Defect::ReferenceKept, None),
    (Defect::RunsOutUnasked, None),
];

/// A drill by its name, and the variant of it that is searched.
type Asked = (&'static str, &'static str);

const CLEARING: Asked = ("left-inside", "belt-and-black");
const DRAINING: Asked = ("blocked-downstream", "jumper-two");

fn exercise(name: &str, defect: Option<Defect>) -> Exercise {
    let text = drill(name, Path::new("")).expect("it is compiled in");
    let mut exercise = load(text, &Problems::new())
        .expect("it has no problem")
        .exercise;
    if let Some(defect) = defect {
        exercise.machine = exercise.machine.with_defect(defect);
    }
    exercise
}

/// The first claim that fails.
fn failing((drill, variant): Asked, defect: Option<Defect>) -> Option<Claim> {
    let exercise = exercise(drill, defect);
    let mut milestones = vec![0; exercise.drill.milestones.len()];
    for variant in 0..exercise.drill.variants.len() {
        for way in 0..exercise.procedure.ways.len() {
            if guide(&exercise, variant, way, &mut milestones).failed > 0 {
                return Some(Claim::Guide);
            }
        }
    }
    if milestones.contains(&0) {
        return Some(Claim::Milestones);
    }
    let variant = exercise.variant(variant).expect("it is listed");
    if explore_plain(&exercise, variant, SLOTS).machine.is_some() {
        return Some(Claim::Machine);
    }
    let rules = exercise.rules.for_proof();
    let kept = explore_kept(
        &exercise,
        &[variant],
        (SLOTS, Level::Exact.in_full()),
        &rules,
        (&OneHand, &mut |_| {}),
    );
    if kept.harm.is_some() {
        return Some(Claim::RulesSuffice);
    }
    if kept.incongruent.is_some() {
        return Some(Claim::Congruent);
    }
    if kept.corner.is_some() {
        return Some(Claim::NoCorner);
    }
    kept.machine.is_some().then_some(Claim::Machine)
}

#[test]
fn the_proof_fails_on_each_machine_that_is_made_wrong() {
    for (defect, claim) in TURNS {
        assert_eq!(failing(CLEARING, Some(defect)), Some(claim), "{defect:?}");
    }
    assert_eq!(TURNS.map(|(defect, _)| defect), Defect::ALL);
}

#[test]
fn the_proof_of_a_drill_that_drains_the_rack_fails_on_those_that_it_can_show() {
    let found = TURNS_DRAINING.map(|(defect, _)| (defect, failing(DRAINING, Some(defect))));
    assert_eq!(found, TURNS_DRAINING);
    assert_eq!(TURNS_DRAINING.map(|(defect, _)| defect), Defect::ALL);
}

#[test]
fn what_these_tests_ask_holds_on_the_machine_as_it_is() {
    for drill in [CLEARING, DRAINING] {
        assert_eq!(failing(drill, None), None, "{drill:?}");
    }
}
