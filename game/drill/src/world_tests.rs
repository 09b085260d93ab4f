//! The world of the first drill, as the shipped files have it.

use rackproof_buffer::{Button, HarmKind, Machine, Mode};
use rackproof_files::{Problems, render_plain};
use rackproof_model::Model;

use crate::{Cause, Chance, Hall, Intent, Outcome, Stand, State, World, file};

pub(crate) const MACHINE: &str = include_str!("../../../assets/machines/alder-16.ron");
pub(crate) const DRILL: &str = include_str!("../../../scenarios/changeover/left-inside.ron");

pub(crate) fn no_problems(problems: &Problems) {
    let plain = |problem| render_plain(problem, &|id, arguments| format!("{id} {arguments:?}"));
    let list: Vec<String> = problems.sorted().iter().map(plain).collect();
    assert!(list.is_empty(), "{list:#?}");
}

pub(crate) fn alder() -> (Machine, Hall) {
    let problems = Problems::new();
    let read = file::read_machine(problems.for_file("alder-16.ron", MACHINE));
    no_problems(&problems);
    read.expect("it has no problem")
}

pub(crate) fn sample_world() -> World {
    world("black-high")
}

/// The world of the drill with `next:` replaced by this, and its start dropped if that has one.
pub(crate) fn world_of(changed: &str) -> World {
    let mut text = DRILL.to_owned();
    if changed.contains("start:") {
        text = text.replace(
            "    start: Start(product: \"wren\", mode: Production),\n",
            "",
        );
    }
    let text = text.replace("next:", changed);
    let machine = alder();
    let problems = Problems::new();
    let drill = file::read_drill(problems.for_file("left-inside.ron", &text), |_| {
        Ok(&machine)
    });
    no_problems(&problems);
    World::new(machine.0, machine.1, drill.expect("it has no problem"), 0)
}

pub(crate) fn world(variant: &str) -> World {
    let machine = alder();
    let problems = Problems::new();
    let drill = file::read_drill(problems.for_file("left-inside.ron", DRILL), |_| {
        Ok(&machine)
    });
    no_problems(&problems);
    let drill = drill.expect("it has no problem");
    let number = drill
        .variants
        .iter()
        .position(|one| one.id == variant)
        .expect("it is listed");
    World::new(machine.0, machine.1, drill, number)
}

/// Does the intents one after the other, each of which must be on offer, and lets the machine come
/// to rest after each.
fn run(world: &World, intents: &[Intent]) -> (State, Vec<Outcome>) {
    let (mut state, mut heard) = (world.start(), Vec::new());
    for &intent in intents {
        let mut offers = Vec::new();
        world.offered(&state, &mut offers);
        assert!(
            offers.contains(&intent),
            "{intent:?} is not on offer: {offers:?}"
        );
        world.act(&mut state, Cause::Did(intent), &mut |outcome| {
            heard.push(outcome)
        });
        while let Some(next) = world.next_event(&state) {
            world.advance(&mut state, next, &mut |outcome| heard.push(outcome));
        }
    }
    (state, heard)
}

const TO_SWEEP: [Intent; 5] = [
    Intent::Press(Button::Mode(Mode::Changeover)),
    Intent::Press(Button::Reset),
    Intent::Press(Button::Choose(1)),
    Intent::Press(Button::Load),
    Intent::Press(Button::Start),
];

#[test]
fn believing_the_sweep_breaks_the_black_board() {
    let world = world("black-high");
    let (state, _) = run(
        &world,
        &[&TO_SWEEP[..], &[Intent::Press(Button::Start)]].concat(),
    );
    let harms: Vec<HarmKind> = HarmKind::ALL
        .into_iter()
        .filter(|&kind| state.harms() >> kind as u8 & 1 == 1)
        .collect();
    assert_eq!(harms, [HarmKind::Overstrained, HarmKind::Broken]);
}

#[test]
fn a_hand_that_reaches_in_while_the_lift_runs_down_is_injured() {
    let world = world("green-top");
    let mut state = run(&world, &TO_SWEEP[..4]).0;
    let quiet = &mut |_| {};
    for intent in [
        TO_SWEEP[4],
        Intent::Walk(Stand::Hatch),
        Intent::OpenHatch,
        Intent::HandIn,
    ] {
        world.act(&mut state, Cause::Did(intent), quiet);
    }
    // The lift stood at slot 1 already: nothing moved yet when the hatch opened.
    assert_eq!(state.harms(), 0);
    let mut state = run(&world, &TO_SWEEP[..4]).0;
    world.act(&mut state, Cause::Did(TO_SWEEP[4]), quiet);
    for _ in 0..3 {
        let next = world.next_event(&state).expect("it sweeps");
        world.advance(&mut state, next, quiet);
    }
    for intent in [
        Intent::Walk(Stand::Hatch),
        Intent::OpenHatch,
        Intent::HandIn,
    ] {
        world.act(&mut state, Cause::Did(intent), quiet);
    }
    assert_eq!(state.harms(), 1 << HarmKind::HandInjured as u8);
}

#[test]
fn upstream_lays_its_board_until_it_is_asked_to_hold() {
    let world = world("green-low");
    let state = world.start();
    let chances = |state: &State| {
        let mut found = Vec::new();
        world.chances(state, &mut found);
        found
    };
    assert_eq!(chances(&state), [Cause::Chose(Chance::UpstreamLaysBoard)]);
    let (held, _) = run(&world, &[Intent::AskUpstreamHold]);
    assert!(chances(&held).is_empty());
    let mut laid = state;
    world.act(
        &mut laid,
        Cause::Chose(Chance::UpstreamLaysBoard),
        &mut |_| {},
    );
    assert!(laid.machine.infeed_belt.is_some() && chances(&laid).is_empty());
}

#[test]
fn the_state_is_small_and_plain() {
    fn plain<T: Copy>() -> usize {
        size_of::<T>()
    }
    assert!(plain::<State>() <= 640, "{}", plain::<State>());
}

#[test]
fn a_key_reads_back_to_its_own_class() {
    use rackproof_model::key::{Key, KeyWriter};
    let world = world("green-over-black");
    let mut state = world.start();
    for cause in TO_SWEEP {
        world.act(&mut state, Cause::Did(cause), &mut |_| {});
    }
    for _ in 0..8 {
        let write = |state: &State| {
            let mut writer = KeyWriter::new();
            world.write_key(state, &mut writer);
            Key::from_bytes(writer.finish())
        };
        let key = write(&state);
        assert_eq!(write(&world.read_key(&key)), key);
        let Some(next) = world.next_event(&state) else {
            break;
        };
        world.advance(&mut state, next, &mut |_| {});
    }
}
