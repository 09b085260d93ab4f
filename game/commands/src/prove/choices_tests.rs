//! What the environment may choose, in drills that say more than can come up.

use rackproof_files::Problems;
use rackproof_library::{built_in_drills, load};
use rackproof_prove::OneHand;

use super::*;
use crate::prove::{
    job::{explore_kept, groups},
    level::{Effort, Level},
};

/// The drill that drains the rack, its text changed.
fn draining(changes: &[(&str, &str)]) -> Exercise {
    let mut drills = built_in_drills().into_iter();
    let mut drill = drills
        .find(|drill| drill.file.ends_with("blocked-downstream.ron"))
        .expect("it is compiled in");
    for (from, to) in changes {
        assert!(drill.text.contains(from), "{from}");
        drill.text = drill.text.replace(from, to);
    }
    let problems = Problems::new();
    let loaded = load(drill, &problems);
    assert!(problems.is_empty(), "{:?}", problems.sorted());
    loaded.expect("it has no problem").exercise
}

/// What may be chosen, and whether it comes up, as the searches on the smallest rack find it.
fn told(exercise: &Exercise) -> Vec<String> {
    let all: Vec<usize> = (0..exercise.drill.variants.len()).collect();
    let effort = Effort {
        level: Level::Exact,
        states_most: 60_000,
    };
    let rules = exercise.rules.for_proof();
    let search = |group: &Vec<usize>| {
        explore_kept(
            exercise,
            group,
            (2, effort),
            &rules,
            (&OneHand, &mut |_| {}),
        )
    };
    let kept: Vec<Kept> = groups(exercise, &all).iter().map(search).collect();
    let of = |one: &Choice| format!("{} {:?} {:?}", one.chance, one.arises, one.never);
    choices(exercise, &kept).iter().map(of).collect()
}

const FAULTS: (&str, &str) = (
    "    variants: [",
    "    faults: [
        Fault(name: \"stiff\", what: StepsLost(lost_mm: 1.5), comes: Chance),
        Fault(name: \"forgotten\", what: StepsLost(lost_mm: 2.5), comes: Chance),
        Fault(name: \"always\", what: StepsLost(lost_mm: 0.5), comes: Start),
    ],
    variants: [",
);

#[test]
fn a_choice_that_never_comes_up_is_told_with_its_variants() {
    let shipped = draining(&[]);
    assert_eq!(told(&shipped), ["UpstreamOffersBoard [0, 1, 2] []"]);
    // Upstream has no second board to give with the first; a fault that no variant has.
    let two = (
        "upstream: Upstream(boards: 2, works: Chance)",
        "upstream: Upstream(boards: 1, works: Chance, two_at_once: Chance)",
    );
    let listed = ("Variant(name: ", "Variant(faults: [\"stiff\"], name: ");
    let more = draining(&[two, listed, FAULTS]);
    assert_eq!(
        told(&more),
        [
            "UpstreamOffersBoard [0, 1, 2] []",
            "UpstreamGivesTwo [] [0, 1, 2]",
            "FaultComes(\"stiff\") [0, 1, 2] []",
            "FaultComes(\"forgotten\") [] []",
        ]
    );
}
