//! The explorer on the real core, on the smallest rack: every path replays, rules are needed, a
//! broken key is found out.

use std::collections::BTreeSet;

use rackproof_attempt::{Attempt, Exercise, parse_cause};
use rackproof_drill::Mergers;
use rackproof_files::Problems;
use rackproof_grade::{Judged, JudgedState, Rules};
use rackproof_model::{
    Model,
    key::{Key, KeyWriter},
};
use rackproof_prove::{Congruence, End, OneHand, Progress, Settings, explore, replay};

use super::{
    super::spoken::spoken_of, BEYOND_BOUND, BREACH, HARMED_KEPT, HARMS, Level, REPORTED,
    STATES_MOST, STATES_MOST_FREE, WayFrom, exact_way, explore_free, explore_kept, flags, groups,
    joined, judged,
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

/// What prepared steps merge behaves alike by itself, not because a rule keeps it apart: so a
/// search that leaves rules out merges nothing that it must not.
#[test]
fn without_any_rule_what_is_merged_behaves_alike() {
    let exercise = exercise();
    let rules = exercise.rules.for_proof();
    let names: Vec<String> = rules.list.iter().map(|rule| rule.name.clone()).collect();
    let none = names.iter().fold(rules, |rules, name| rules.without(name));
    for (name, slots) in [("belt-and-black", SLOTS), ("green-low", SLOTS)] {
        let variant = number(&exercise, name);
        let pair = judged(&exercise, variant, slots, &none).prepared();
        let settings = Settings {
            prune: HARMS | 1 << REPORTED,
            states_most: 60_000,
            congruence: Congruence::Dense {
                states: 1_000,
                every: 101,
            },
            ..Settings::default()
        };
        let found = explore(&pair, &[pair.start()], &settings, |state| {
            flags(&pair, state)
        });
        assert!(found.incongruence.is_none(), "{:?}", found.incongruence);
        assert!(found.checked > 10_000, "{name}: {}", found.checked);
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

/// How a stop of the lift goes on, and which product is loaded, is forgotten where nothing asks for
/// it. What is found is what a search finds that forgets neither, forgotten afterwards: no more and
/// no less. Without some rules production starts where no width is right, and the lift moves with a
/// board across a mouth.
#[test]
fn what_is_forgotten_makes_one_of_states_that_go_on_alike() {
    let exercise = exercise();
    let cases: [(&str, u8, u32, &[&str]); 4] = [
        ("belt-and-black", 2, 23, &[]),
        ("green-low", 3, 211, &[]),
        (
            "green-low",
            2,
            211,
            &["production-unproven", "production-width"],
        ),
        (
            "green-low",
            2,
            211,
            &["answered-unseen", "started-mouths-unseen"],
        ),
    ];
    for (name, slots, every, without) in cases {
        let variant = number(&exercise, name);
        let rules = exercise.rules.for_proof();
        let rules = without
            .iter()
            .fold(rules, |rules, name| rules.without(name));
        let pair = judged(&exercise, variant, slots, &rules).prepared();
        let settings = Settings {
            prune: HARMS | 1 << BREACH | 1 << REPORTED | 1 << BEYOND_BOUND,
            congruence: Congruence::Every(every),
            ..Settings::default()
        };
        let pairs = [pair.clone(), pair.clone().forgetting_nothing()];
        let [few, all] = pairs.each_ref().map(|one| {
            let found = explore(one, &[one.start()], &settings, |state| flags(one, state));
            assert_eq!(found.end, End::Complete, "{:?}", found.incongruence);
            let keys = found
                .states()
                .map(|(node, state)| (key(&pair, &state), found.is_between(node)));
            (found.states, keys.collect::<BTreeSet<_>>())
        });
        assert!(few.1 == all.1, "{name}: {} {}", few.1.len(), all.1.len());
        assert!(few.0 * 3 < all.0 * 2, "{name}: {} of {}", few.0, all.0);
    }
}

fn key(pair: &Judged, state: &JudgedState) -> Vec<u8> {
    let mut writer = KeyWriter::new();
    pair.write_key(state, &mut writer);
    writer.finish().to_vec()
}

/// What a glance tells to be of one class has one key. All that is on offer is in some step, but
/// for what is listed.
#[test]
fn a_glance_tells_what_the_key_does_and_every_offer_is_in_some_step() {
    let exercise = exercise();
    let variant = number(&exercise, "belt-and-black");
    let pair = judged(&exercise, variant, SLOTS, &exercise.rules.for_proof()).prepared();
    let settings = Settings {
        prune: HARMS | 1 << BREACH | 1 << REPORTED,
        states_most: 40_000,
        congruence: Congruence::Off,
        ..Settings::default()
    };
    let found = explore(&pair, &[pair.start()], &settings, |state| {
        flags(&pair, state)
    });
    let (mut offered, mut taken) = (BTreeSet::new(), BTreeSet::new());
    let (mut offers, mut strides, mut alike) = (Vec::new(), Vec::new(), 0);
    for (_, state) in found.states().step_by(7) {
        let own = key(&pair, &state);
        offers.clear();
        strides.clear();
        pair.offers(&state, &mut offers);
        pair.strides(&state, &mut strides);
        for stride in &strides {
            let mut child = state;
            for cause in stride.causes() {
                taken.insert(format!("{cause:?}"));
                pair.act(&mut child, cause, &mut |_| ());
                pair.offers(&child, &mut offers);
            }
            if pair.same_class(&state, &child) {
                alike += 1;
                assert_eq!(key(&pair, &child), own, "{stride:?}");
            }
        }
        offered.extend(offers.iter().map(|cause| format!("{cause:?}")));
        // A person alone may differ.
        let changes: [fn(&mut JudgedState); 2] = [
            |one| one.world.person.cord ^= true,
            |one| one.world.person.lock_on ^= true,
        ];
        for change in changes {
            let mut other = state;
            change(&mut other);
            if pair.same_class(&state, &other) {
                assert_eq!(key(&pair, &other), own, "a person");
            }
        }
    }
    assert!(alike > 2_000, "{alike}");
    let never: Vec<&String> = offered.difference(&taken).collect();
    assert_eq!(never, NEVER_TAKEN);
}

/// What is on offer somewhere and in no prepared step: what no rule and no chance asks for, one
/// empty half-slot of two of a sort, and what is put back as soon as it was needed.
const NEVER_TAKEN: [&str; 7] = [
    "Did(AskDownstreamHold)",
    "Did(CallLead)",
    "Did(KeyOut)",
    "Did(Press(Acknowledge))",
    "Did(PutDown(Scrap))",
    "Did(Take(HalfSlot { slot: 0, half: Outfeed }))",
    "Did(Torch(false))",
];

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
            (SLOTS, Level::Exact.in_full()),
            rules,
            (&OneHand, &mut |_| {}),
        )
    };
    let rules = exercise.rules.for_proof();
    let kept = search(&rules);
    assert!(kept.complete && kept.finished > 0);
    assert_eq!(
        (
            kept.harm,
            kept.unfair,
            kept.incongruent,
            kept.corner,
            kept.unsound
        ),
        (None, None, None, None, None)
    );
    for name in ["rails-unproven", "belts-unseen"] {
        assert!(
            search(&rules.without(name)).harm.is_some(),
            "without {name}"
        );
    }
}

/// The flags of the state to which a way leads, played line by line on the real core.
fn played(exercise: &Exercise, (variant, way): &WayFrom, slots: u8, rules: &Rules) -> u64 {
    let micros = |text: &str| -> u64 {
        let digits: String = text.chars().filter(char::is_ascii_digit).collect();
        digits.parse().expect("seconds with six places")
    };
    let mut attempt = Attempt::new(judged(exercise, *variant, slots, rules));
    for line in way {
        if let Some(span) = line.strip_prefix("Wait(") {
            attempt.wait(micros(span));
            continue;
        }
        let inside = line.strip_prefix("At(").and_then(|it| it.strip_suffix(')'));
        let (at, cause) = inside.and_then(|it| it.split_once(", ")).expect("a line");
        attempt.wait(micros(at) - attempt.at());
        let cause = parse_cause(attempt.world(), cause).expect("it is a cause");
        attempt.do_at_once(cause).expect("it is on offer");
    }
    flags(attempt.judged(), attempt.state())
}

/// A way that a search of several variants found, and the one that the exact search is asked for
/// where a squeezed way strays: each is played in the variant that it names.
#[test]
fn the_way_to_a_harm_does_it_in_the_variant_that_it_names() {
    let exercise = exercise();
    let rules = exercise.rules.for_proof().without("rails-unproven");
    for names in [["green-low", "black-low"], ["black-low", "green-low"]] {
        let variants = names.map(|name| number(&exercise, name));
        let bounds = (SLOTS, STATES_MOST);
        let exact = exact_way(&exercise, &variants, bounds, &rules, HARMED_KEPT);
        let by: (_, &mut dyn FnMut(Progress)) = (&OneHand, &mut |_| {});
        let kept = explore_kept(
            &exercise,
            &variants,
            (SLOTS, Level::Exact.in_full()),
            &rules,
            by,
        );
        for way in [exact, kept.harm] {
            let way = way.expect("without the rule harm is done");
            let flags = played(&exercise, &way, SLOTS, &rules);
            assert_eq!(flags >> HARMED_KEPT & 1, 1, "{way:?}");
            assert_eq!(exercise.drill.variants[way.0].id, "black-low");
            let (variant, mut lines) = way;
            lines.pop();
            let short = played(&exercise, &(variant, lines), SLOTS, &rules);
            assert_eq!(short >> HARMED_KEPT & 1, 0, "the last line does it");
        }
    }
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
        (SLOTS, Level::Exact.in_full()),
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
