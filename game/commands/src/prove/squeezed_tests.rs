//! Level 5 on the real core: what is merged goes on alike, every way is played on the machine as it
//! is, and what is found is what the exact search finds, squeezed.

use std::collections::BTreeSet;

use rackproof_attempt::Exercise;
use rackproof_files::Problems;
use rackproof_grade::{Judged, JudgedState};
use rackproof_library::{built_in_drill, load};
use rackproof_model::{
    Model,
    key::{Key, KeyWriter},
};
use rackproof_prove::{Congruence, Difference, End, Exploration, Settings, explore, replay};

use super::{BREACH, HARMS, Level, REPORTED, flags, judged, lines};

/// The drill without upstream's board, so that there are fewer states; without any board, if so.
fn exercise(boards: bool) -> Exercise {
    let mut exercise = load(built_in_drill(), &Problems::new())
        .expect("it has no problem")
        .exercise;
    exercise.drill.neighbours.leftover = None;
    if !boards {
        exercise
            .drill
            .variants
            .iter_mut()
            .for_each(|variant| variant.boards.clear());
    }
    exercise
}

fn pair(exercise: &Exercise, slots: u8, level: Level) -> Judged {
    of_variant(exercise, "green-middle", slots, level)
}

fn of_variant(exercise: &Exercise, name: &str, slots: u8, level: Level) -> Judged {
    let variant = exercise.variant(name).expect("it is listed");
    level.of(judged(
        exercise,
        variant,
        slots,
        &exercise.rules.for_proof(),
    ))
}

fn search<'j>(pair: &'j Judged, most: usize, congruence: Congruence) -> Exploration<'j, Judged> {
    let settings = Settings {
        prune: HARMS | 1 << BREACH | 1 << REPORTED | 1 << super::BEYOND_BOUND,
        states_most: most,
        congruence,
        ..Settings::default()
    };
    let found = explore(pair, &[pair.start()], &settings, |state| flags(pair, state));
    assert!(
        found.incongruence.is_none(),
        "{}",
        what_differs(pair, &found)
    );
    found
}

/// Where a check failed, and what follows only one of the two states.
fn what_differs(pair: &Judged, found: &Exploration<'_, Judged>) -> String {
    let Some(one) = &found.incongruence else {
        return String::new();
    };
    let show = |key: &Key| {
        let state = pair.read_key(key);
        let machine = &state.world.machine;
        let (motions, place) = (machine.motions()[0], machine.lift_place);
        let (phase, map) = (machine.phase(), machine.map.unknown);
        let watch = state.watch;
        let lying = (machine.rack.present(), machine.mouths, machine.outfeed_belt);
        let belts = machine.motions()[2];
        format!("{place:?} {phase:?} {map:b} {motions:?} {belts:?} {lying:?} {watch:?}\n")
    };
    let mut text = format!("{:#?}\n{}", lines(pair, &one.witness), show(&one.key));
    match &one.difference {
        Difference::Successors { reached, read } => {
            for (name, list) in [("reached", reached), ("read", read)] {
                for next in list.iter().take(5) {
                    text.push_str(&format!(
                        "{name} {:?} {}: {}",
                        next.by,
                        next.between,
                        show(&next.key)
                    ));
                }
            }
        }
        Difference::Key { read } => text.push_str(&format!("other key {}", show(read))),
        Difference::Flags { reached, read } => text.push_str(&format!("{reached:b} {read:b}")),
    }
    text
}

#[test]
fn what_is_squeezed_goes_on_alike() {
    for boards in [false, true] {
        let exercise = exercise(boards);
        let pair = pair(&exercise, 16, Level::Squeezed);
        let found = search(&pair, 120_000, Congruence::Every(37));
        assert!(found.checked > 10_000, "{}", found.checked);
    }
}

#[test]
fn on_a_large_rack_what_is_squeezed_goes_on_alike() {
    let exercise = exercise(true);
    for slots in [24, 40] {
        let pair = of_variant(&exercise, "window-under-green", slots, Level::Squeezed);
        let found = search(&pair, 5_000, Congruence::Every(1));
        assert!(found.checked > 10_000, "{}", found.checked);
    }
}

/// A long move of the lift that is stopped in its middle ends elsewhere on another rack: at a slot,
/// or between two. A way with such a stop need not be found again, and then it is said to stray.
#[test]
fn squeezed_ways_are_played_on_the_machine_as_it_is() {
    let exercise = exercise(false);
    let [squeezed, exact] = [Level::Squeezed, Level::Exact].map(|level| pair(&exercise, 12, level));
    let found = search(&squeezed, 120_000, Congruence::Off);
    let nodes: Vec<_> = found.nodes().collect();
    let (mut played, mut longer, mut strayed) = (0, 0, 0);
    for node in nodes.iter().step_by(nodes.len() / 300) {
        let witness = found.witness_to(*node);
        if witness.strayed.is_some() {
            strayed += 1;
            continue;
        }
        let end = replay::<Judged>(&exact, &exact.start(), &witness.steps, &mut |_| {});
        let end = end.expect("all on offer");
        assert_eq!(key(&squeezed, &end), found.key(*node).as_bytes());
        played += 1;
        longer += usize::from(witness.moves > found.depth);
    }
    assert!(
        played > 20 * strayed && longer > 0,
        "{played} {longer} {strayed}"
    );
}

fn key(pair: &Judged, state: &JudgedState) -> Vec<u8> {
    let mut writer = KeyWriter::new();
    pair.write_key(state, &mut writer);
    writer.finish().to_vec()
}

/// The squeezed keys of what a search found with the lift at rest, and not between two events. A
/// long move of the lift takes as long as it takes: of states on the way there are more on a larger
/// rack, and they are not compared.
fn at_rest(found: &Exploration<'_, Judged>, squeezed: &Judged) -> BTreeSet<Vec<u8>> {
    assert_eq!(found.end, End::Complete);
    let states = found.states().filter(|(node, state)| {
        !found.is_between(*node) && state.world.machine.motions()[0].is_rest()
    });
    states.map(|(_, state)| key(squeezed, &state)).collect()
}

#[test]
fn squeezed_states_are_the_classes_of_the_exact_ones() {
    let exercise = exercise(false);
    let pairs = [Level::Exact, Level::Squeezed].map(|level| pair(&exercise, 7, level));
    let [exact, squeezed] = &pairs;
    let found = [exact, squeezed].map(|pair| search(pair, usize::MAX, Congruence::Off));
    let [all, classes] = &found;
    let counts = (all.states, classes.states);
    assert!(counts.0 > counts.1, "{counts:?}");
    let (all, classes) = (at_rest(all, squeezed), at_rest(classes, squeezed));
    let (more, fewer) = (
        all.difference(&classes).count(),
        classes.difference(&all).count(),
    );
    assert_eq!((more, fewer), (0, 0), "{counts:?}, {}", classes.len());
}
