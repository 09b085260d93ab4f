//! A command that the unit does not take is answered in words that name the command and the state:
//! each of them, in each state and mode that a person at the panel can meet, in each edition.

use std::collections::{BTreeMap, VecDeque};
use std::path::Path;

use rackproof_buffer::{Button, Command, Edition, Mode, Outcome as Shown, Refusal, UnitState};
use rackproof_drill::message::{of_command, of_refusal, of_sign, of_unit};
use rackproof_drill::{Cause, Intent, Outcome, Sign, State, World, file};
use rackproof_files::Problems;
use rackproof_model::{Micros, Model};
use rackproof_words::Words;

use crate::{checks::text_of, shipped};

/// A drill whose panel has the page of commands, on a machine that keeps an edition and has a mode
/// Manual.
fn world(edition: &str) -> World {
    let read = |path: &str| shipped::text(&Path::new(env!("CARGO_MANIFEST_DIR")).join(path));
    let machine = read("assets/machines/alder-16.ron")
        .replacen("Shared46", edition, 1)
        .replacen("manual_mode: false", "manual_mode: true", 1);
    let drill = read("tests/journals/behaviours/scenarios/orders-refused.ron");
    let problems = Problems::new();
    let machine = file::read_machine(problems.for_file("machine", &machine));
    let machine = machine.expect("it has no problem");
    let drill = file::read_drill(problems.for_file("drill", &drill), |_| Ok(&machine));
    let drill = drill.expect("it has no problem");
    World::new(machine.0, machine.1, drill, 0)
}

/// What is heard when a button is pressed.
fn pressed(world: &World, state: &State, intent: Intent) -> (State, Vec<Outcome>) {
    let (mut after, mut heard) = (*state, Vec::new());
    world.act(&mut after, Cause::Did(intent), &mut |outcome| {
        heard.push(outcome);
    });
    (after, heard)
}

/// So many of the nearest states are gone through.
const STATES_MOST: usize = 3_000;

/// Every unit state in every mode that whoever presses buttons and waits can meet: one state each.
fn met(world: &World) -> BTreeMap<(UnitState, Mode), State> {
    let start = world.start();
    let mut met = BTreeMap::from([((start.machine.unit(), start.machine.mode()), start)]);
    let mut ahead = VecDeque::from([start]);
    let mut seen = vec![start];
    while let Some(state) = ahead.pop_front() {
        let mut offers = Vec::new();
        world.offered(&state, &mut offers);
        offers.retain(|offer| {
            matches!(
                offer,
                Intent::Press(_) | Intent::PressEmergency | Intent::ReleaseEmergency
            )
        });
        let mut next: Vec<State> = offers
            .into_iter()
            .map(|offer| pressed(world, &state, offer).0)
            .collect();
        if let Some(span) = world.next_event(&state) {
            // In the middle, too: what moves has to be braked there.
            for span in [span, Micros(span.0 / 2)] {
                let mut later = state;
                world.advance(&mut later, span, &mut |_| {});
                next.push(later);
            }
        }
        for state in next {
            let key = (state.machine.unit(), state.machine.mode());
            met.entry(key).or_insert(state);
            if seen.len() < STATES_MOST && !seen.contains(&state) {
                seen.push(state);
                ahead.push_back(state);
            }
        }
    }
    met
}

/// The three buttons, and the commands that have none. To clear is the button Reset in Aborted.
fn commands() -> Vec<(Command, Button)> {
    let buttons = [
        (Command::Start, Button::Start),
        (Command::Stop, Button::Stop),
        (Command::Reset, Button::Reset),
    ];
    let has_none = |command: &Command| {
        *command != Command::Clear && buttons.iter().all(|(own, _)| own != command)
    };
    let orders = Command::ALL.into_iter().filter(has_none);
    let orders = orders.map(|command| (command, Button::Order(command)));
    buttons.into_iter().chain(orders).collect()
}

#[test]
fn every_refused_command_is_answered_in_words_that_name_it_and_the_state() {
    let words = Words::english();
    let (mut refused, mut states) = (0, Vec::new());
    for (edition, _) in Edition::ALL {
        let world = world(edition);
        for ((unit, mode), state) in met(&world) {
            states.push((unit, mode));
            for (command, button) in commands() {
                let at = format!("{edition} {unit:?} {mode:?} {button:?}");
                let mut offers = Vec::new();
                world.offered(&state, &mut offers);
                assert!(
                    offers.contains(&Intent::Press(button)),
                    "{at}: not on offer"
                );
                let (_, heard) = pressed(&world, &state, Intent::Press(button));
                assert!(!heard.is_empty(), "{at}: nothing is answered");
                let no = heard.iter().find_map(|outcome| match outcome {
                    Outcome::Sign(sign @ Sign::Machine(shown)) => match shown.shown() {
                        Shown::Refused(refusal) => Some((refusal, *sign)),
                        _ => None,
                    },
                    _ => None,
                });
                let Some((refusal, sign)) = no else { continue };
                refused += 1;
                let said = of_sign(&world, &sign).unwrap_or_else(|| panic!("{at}: no words"));
                let said = text_of(&words, &said);
                assert!(
                    said.contains("Nothing changed") || !by_unit(refusal),
                    "{at}: {said}"
                );
                let names = [of_command(command), of_unit(unit)];
                for name in names.map(|name| text_of(&words, &name)) {
                    assert!(said.contains(&name) || !by_unit(refusal), "{at}: {said}");
                }
                assert!(said.split(' ').count() > 5, "{at}: {said}");
            }
        }
    }
    states.sort_unstable();
    states.dedup();
    println!("{refused} refused, in {states:?}");
    assert!(
        refused > 300 && states.len() > 20,
        "{refused} {}",
        states.len()
    );
}

/// Whether it is the unit's state that refuses it, and nothing else that is wanted first.
fn by_unit(refusal: Refusal) -> bool {
    matches!(
        refusal,
        Refusal::State(_) | Refusal::Button(..) | Refusal::Order(..)
    )
}

/// The states that pass at once are met by nobody: their words are there all the same.
#[test]
fn every_state_and_command_has_its_words_of_refusal() {
    let words = Words::english();
    let world = world("Opc52");
    for unit in UnitState::ALL {
        let name = text_of(&words, &of_unit(unit));
        let state = text_of(&words, &of_refusal(&world, Refusal::State(unit)));
        assert!(state.contains(&name), "{state}");
        for command in Command::ALL {
            let own = text_of(&words, &of_command(command));
            let mut all = vec![Refusal::Order(command, unit)];
            if matches!(command, Command::Start | Command::Stop | Command::Reset) {
                all.push(Refusal::Button(command, unit));
            }
            for refusal in all {
                let said = text_of(&words, &of_refusal(&world, refusal));
                assert!(said.contains(&name) && said.starts_with(&own), "{said}");
            }
        }
    }
}
