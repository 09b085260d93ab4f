//! The explorer on the real core, on the smallest rack: every path replays, rules are needed, a
//! broken key is found out.

use std::collections::BTreeSet;

use rackproof_attempt::Exercise;
use rackproof_drill::Mergers;
use rackproof_files::Problems;
use rackproof_grade::Rules;
use rackproof_model::{
    Model,
    key::{Key, KeyWriter},
};
use rackproof_prove::{Congruence, End, OneHand, Settings, explore, replay};

use super::{
    super::spoken::spoken_of, BEYOND_BOUND, BREACH, HARMED_KEPT, HARMS, Level, REPORTED,
    STATES_MOST, STATES_MOST_FREE, exact_way, explore_free, explore_kept, flags, groups, joined,
    judged,
};
use rackproof_library::{built_in_drill, load};

/// The smallest rack there is.
const SLOTS: u8 = 2;

fn exercise() -> Exercise {
    let problems = Problems::new();
    load(built_in_drill(), &problems)
        .expect("it has no problem")
        .exercise
}

fn number(exercise: &Exercise, name: &str) -> usize {
    exercise.variant(name).expect("it is listed")
}

#[test]
fn every_path_of_the_explorer_replays_to_the_same_key() {
    let exercise = exercise();
    let variant = number(&exercise, "belt-and-black");
    let judged = judged(&exercise, variant, SLOTS, &exercise.rules.for_proof()).prepared();
    let settings = Settings {
        prune: 1 << BREACH | 1 << REPORTED,
        states_most: 60_000,
        congruence: Congruence::Every(50),
        ..Settings::default()
    };
    let start = judged.start();
    let found = explore(&judged, &[start], &settings, |state| flags(&judged, state));
    assert!(found.incongruence.is_none() && found.checked > 1_000);
    let nodes: Vec<_> = found.nodes().collect();
    for node in nodes.iter().step_by(nodes.len() / 60) {
        let witness = found.witness_to(*node);
        assert_eq!(witness.strayed, None);
        // Each cause must be on offer where the program stands: replay sees to it.
        let end = replay(&judged, &start, &witness.steps, &mut |_| {}).expect("all on offer");
        let mut writer = KeyWriter::new();
        judged.write_key(&end, &mut writer);
        assert_eq!(Key::from_bytes(writer.finish()), found.key(*node));
    }
}

/// Of half-slots with nothing in them one of each sort is reached for. The same states follow as if
/// each were, by fewer steps.
#[test]
fn reaching_for_one_of_each_sort_reaches_what_reaching_for_each_does() {
    let exercise = exercise();
    for (name, slots) in [("belt-and-black", 2), ("green-middle", 3)] {
        let variant = number(&exercise, name);
        let pair = judged(&exercise, variant, slots, &exercise.rules.for_proof()).prepared();
        let pairs = [pair.clone(), pair.reaching_for_each()];
        let [some, each] = pairs.each_ref().map(|pair| {
            let settings = Settings {
                prune: HARMS | 1 << BREACH | 1 << REPORTED | 1 << BEYOND_BOUND,
                congruence: Congruence::Off,
                ..Settings::default()
            };
            let found = explore(pair, &[pair.start()], &settings, |state| flags(pair, state));
            let keys = found
                .nodes()
                .map(|node| found.key(node).as_bytes().to_vec());
            (found.end, found.steps, keys.collect::<Vec<_>>())
        });
        assert_eq!(some.0, End::Complete);
        assert!(some.2 == each.2, "{name}");
        assert!(some.1 < each.1, "{name}: {} and {}", some.1, each.1);
    }
}

/// The keys of all states that are reached from these variants, each with whether it lies between
/// two events.
fn reached(exercise: &Exercise, variants: &[usize]) -> BTreeSet<(Vec<u8>, bool)> {
    let rules = exercise.rules.for_proof();
    let (pair, starts) = joined(exercise, variants, SLOTS, &rules);
    let pair = pair.prepared();
    let settings = Settings {
        prune: HARMS | 1 << BREACH | 1 << REPORTED,
        congruence: Congruence::Off,
        ..Settings::default()
    };
    let found = explore(&pair, &starts, &settings, |state| flags(&pair, state));
    let key = |node| (found.key(node).as_bytes().to_vec(), found.is_between(node));
    found.nodes().map(key).collect()
}

#[test]
fn variants_that_begin_together_reach_what_each_reaches_alone() {
    let exercise = exercise();
    let variants = ["green-low", "belt-and-black"].map(|name| number(&exercise, name));
    let alone = variants.map(|variant| reached(&exercise, &[variant]));
    let [one, other] = &alone;
    let shared = one.intersection(other).count();
    assert!(shared > one.len() / 4, "{shared} of {}", one.len());
    let both: BTreeSet<_> = one.union(other).cloned().collect();
    assert!(reached(&exercise, &variants) == both);
    let all: Vec<usize> = (0..exercise.drill.variants.len()).collect();
    assert_eq!(groups(&exercise, &all), vec![all]);
}

#[test]
fn the_rules_suffice_on_the_smallest_rack_and_not_without_one_of_them() {
    let exercise = exercise();
    let variant = number(&exercise, "black-low");
    let search = |rules: &Rules| {
        explore_kept(
            &exercise,
            &[variant],
            (SLOTS, Level::Exact),
            rules,
            (&OneHand, &mut |_| {}),
        )
    };
    let rules = exercise.rules.for_proof();
    let kept = search(&rules);
    assert!(kept.complete && kept.finished > 0);
    assert_eq!(
        (kept.harm, kept.unfair, kept.incongruent, kept.corner),
        (None, None, None, None)
    );
    for name in ["rails-unproven", "belts-unseen"] {
        assert!(
            search(&rules.without(name)).harm.is_some(),
            "without {name}"
        );
    }
}

#[test]
fn the_exact_way_to_a_harm_does_it() {
    let exercise = exercise();
    let rules = exercise.rules.for_proof().without("rails-unproven");
    let variants = ["green-low", "black-low"].map(|name| number(&exercise, name));
    let find =
        |rules: &Rules| exact_way(&exercise, &variants, (3, STATES_MOST), rules, HARMED_KEPT);
    let (variant, way) = find(&rules).expect("without the rule harm is done");
    assert!(variants.contains(&variant));
    assert!(way.iter().any(|line| line.contains("Start")), "{way:?}");
}

#[test]
fn with_the_rules_off_the_harms_are_there() {
    let exercise = exercise();
    let variant = number(&exercise, "black-low");
    let wanted = spoken_of(&exercise);
    let bounds = (SLOTS, STATES_MOST_FREE);
    let prepared = explore_free(&exercise, variant, bounds, wanted, Mergers::Prepared);
    let left = wanted & !prepared;
    let reached = prepared | explore_free(&exercise, variant, bounds, left, Mergers::Plain);
    assert_eq!(
        reached,
        wanted,
        "{:?}",
        super::super::claims::kinds(wanted & !reached).collect::<Vec<_>>()
    );
}

/// With a rule more: the lock stays on. Who locked cannot finish; who has not can, by clear-out.
#[test]
fn a_rule_that_forbids_the_way_back_makes_corners() {
    let loaded = load(built_in_drill(), &Problems::new()).expect("it has no problem");
    let exercise = loaded.exercise;
    let variant = number(&exercise, "green-low");
    let more = r#"rules: [
        Rule(name: "lock-stays", severity: Stop, source: "for this test",
            always: Not(Did(LockOff))),"#;
    let text = loaded.material.rules.text.replacen("rules: [", more, 1);
    let problems = Problems::new();
    let rules = Rules::read(problems.for_file("", &text), SLOTS).expect("it has no problem");
    let locked = explore_kept(
        &exercise,
        &[variant],
        (SLOTS, Level::Exact),
        &rules.for_proof(),
        (&OneHand, &mut |_| {}),
    );
    let (_, corner) = locked.corner.expect("the lock leads into a corner");
    assert!(
        corner.last().is_some_and(|line| line.contains("TryStart")),
        "{corner:?}"
    );
    assert!(0 < locked.won && locked.won < locked.states);
}
