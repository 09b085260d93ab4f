//! Every command in every state and mode comes out as the table has it, or is refused in words.

use super::*;
use crate::{Button, Edition, Machine, Outcome, Setting, sample};

fn machine(edition: Edition) -> Machine {
    let mut parts = sample::parts();
    parts.service.unit_states = edition;
    parts.service.manual_mode = true;
    Machine::new(parts)
}

const MODES: [Mode; 3] = [Mode::Production, Mode::Changeover, Mode::Manual];

#[test]
fn every_command_is_done_as_the_table_has_it_or_refused_in_words() {
    let (mut done, mut refused) = (0, 0);
    for (_, edition) in Edition::ALL {
        let machine = machine(edition);
        for unit in UnitState::ALL {
            for mode in MODES {
                for command in Command::ALL {
                    let mut s = machine.at_rest(0);
                    (s.unit, s.mode) = (unit, mode);
                    let mut heard = Vec::new();
                    machine.press(&mut s, Button::Order(command), &mut |o| heard.push(o));
                    let no = heard.iter().find_map(|outcome| match outcome {
                        Outcome::Refused(refusal) => Some(*refusal),
                        _ => None,
                    });
                    let first = heard.iter().find_map(|outcome| match outcome {
                        Outcome::UnitChanged(unit) => Some(*unit),
                        _ => None,
                    });
                    let wanted = edition.after(unit, command);
                    let at = format!("{edition:?} {unit:?} {mode:?} {command:?}: {heard:?}");
                    match no {
                        // What the table allows may still want something first: a task, say.
                        Some(refusal) => {
                            refused += 1;
                            assert_eq!(s.unit, settled(unit), "{at}");
                            let by_table = refusal == Refusal::Order(command, unit);
                            assert_eq!(by_table, wanted.is_none(), "{at}");
                        }
                        None => {
                            done += 1;
                            assert!(first.is_some() && first == wanted, "{at}");
                        }
                    }
                }
            }
        }
    }
    // 3 editions, 17 states, 3 modes, 10 commands.
    assert_eq!(done + refused, 3 * 17 * 3 * 10);
    assert!(done > 300 && refused > 700, "{done} {refused}");
}

/// Where a state goes by itself when nothing moves.
fn settled(unit: UnitState) -> UnitState {
    match unit {
        UnitState::Stopping
        | UnitState::Aborting
        | UnitState::Holding
        | UnitState::Suspending
        | UnitState::Completing => unit.when_done().unwrap_or(unit),
        _ => unit,
    }
}

/// What can be pressed beside commands. Letting go and acknowledging are always taken.
fn others() -> Vec<Button> {
    let mut buttons = vec![
        Button::Start,
        Button::Stop,
        Button::Reset,
        Button::Choose(0),
        Button::Choose(9),
        Button::EditWidth(rackproof_model::Micrometres(1)),
        Button::Save,
        Button::SaveOver(9),
        Button::Load,
        Button::ClearOut,
        Button::Answer(crate::Answer::SeenEmpty),
        Button::HoldDeclare,
        Button::Set(Setting::Signals(false)),
        Button::Set(Setting::SlotCount(1)),
    ];
    buttons.extend(MODES.map(Button::Mode));
    buttons
}

/// The three buttons: Start goes on in Held, and Reset clears in Aborted; else they are the
/// commands of their names in every edition.
#[test]
fn every_button_is_taken_as_the_table_has_it_or_refused_by_its_name_and_state() {
    let buttons = [
        (Button::Start, Command::Start),
        (Button::Stop, Command::Stop),
        (Button::Reset, Command::Reset),
    ];
    let mut refused = 0;
    for (_, edition) in Edition::ALL {
        let machine = machine(edition);
        for unit in UnitState::ALL {
            for mode in MODES {
                for (button, command) in buttons {
                    let mut s = machine.at_rest(0);
                    (s.unit, s.mode) = (unit, mode);
                    let mut no = false;
                    let by_unit = Outcome::Refused(Refusal::Button(command, unit));
                    machine.press(&mut s, button, &mut |outcome| no |= outcome == by_unit);
                    let more = match unit {
                        UnitState::Held => command == Command::Start,
                        UnitState::Aborted => command == Command::Reset,
                        _ => false,
                    };
                    let taken = unit.after(command).is_some() || more;
                    assert_eq!(no, !taken, "{edition:?} {unit:?} {mode:?} {button:?}");
                    refused += u32::from(no);
                }
            }
        }
    }
    // Start in 15 of 17 states, Stop in 5, Reset in 14; three editions, three modes.
    assert_eq!(refused, (15 + 5 + 14) * 3 * 3);
}

#[test]
fn nothing_that_is_pressed_stays_without_an_answer() {
    let machine = machine(Edition::Shared46);
    for unit in UnitState::ALL {
        for mode in MODES {
            for key in [false, true] {
                for button in others() {
                    let mut s = machine.at_rest(0);
                    (s.unit, s.mode, s.key_turned) = (unit, mode, key);
                    let mut heard = 0;
                    machine.press(&mut s, button, &mut |_| heard += 1);
                    assert!(heard > 0, "{unit:?} {mode:?} key {key}: {button:?}");
                }
            }
        }
    }
}

fn rest(machine: &Machine, s: &mut State) {
    while let Some(next) = machine.next_event(s) {
        machine.advance(s, next, &mut |_| {});
    }
}

fn press(machine: &Machine, s: &mut State, buttons: &[Button]) {
    for button in buttons {
        machine.press(s, *button, &mut |_| {});
    }
}

const HOLD: Button = Button::Order(Command::Hold);
const TO_SWEEP: [Button; 5] = [
    Button::Mode(Mode::Changeover),
    Button::Reset,
    Button::Choose(2),
    Button::Load,
    Button::Start,
];

#[test]
fn a_sweep_that_was_held_begins_anew_and_a_rail_move_goes_by_its_zero() {
    let machine = machine(Edition::Shared46);
    let mut s = machine.at_rest(0);
    press(&machine, &mut s, &TO_SWEEP);
    for _ in 0..4 {
        let next = machine.next_event(&s).expect("it sweeps");
        machine.advance(&mut s, next, &mut |_| {});
    }
    assert!(s.phase == Phase::Sweeping && s.slot > 0);
    press(&machine, &mut s, &[HOLD]);
    assert_eq!(s.unit, UnitState::Holding);
    rest(&machine, &mut s);
    assert_eq!(
        (s.unit, s.question(), s.task),
        (UnitState::Held, None, Task::Changeover)
    );
    press(&machine, &mut s, &[Button::Start]);
    assert_eq!((s.phase, s.slot), (Phase::ToSweep, 0));
    rest(&machine, &mut s);
    press(&machine, &mut s, &[Button::Start, HOLD]);
    rest(&machine, &mut s);
    assert!(!s.width_known(), "the count is lost with the stop");
    press(&machine, &mut s, &[Button::Start]);
    rest(&machine, &mut s);
    press(&machine, &mut s, &[Button::Start]);
    rest(&machine, &mut s);
    assert_eq!((s.unit, s.width_known()), (UnitState::Complete, true));
}

#[test]
fn suspended_production_opens_its_signals_and_goes_on() {
    let machine = machine(Edition::Edition2022);
    let mut s = machine.at_rest(0);
    press(&machine, &mut s, &[Button::Reset, Button::Start]);
    assert!(s.machine_ready());
    press(&machine, &mut s, &[Button::Order(Command::Suspend)]);
    assert_eq!((s.unit, s.machine_ready()), (UnitState::Suspended, false));
    rest(&machine, &mut s);
    press(&machine, &mut s, &[Button::Order(Command::Unsuspend)]);
    assert_eq!((s.unit, s.machine_ready()), (UnitState::Execute, true));
    press(&machine, &mut s, &[Button::Order(Command::Complete)]);
    assert_eq!(s.unit, UnitState::Complete);
}

#[test]
fn held_on_its_way_to_the_reference_it_finds_it_before_it_works() {
    let machine = machine(Edition::Opc52);
    let mut s = machine.at_rest(0);
    machine.press_emergency(&mut s, &mut |_| {});
    machine.release_emergency(&mut s);
    let again = [
        Button::Mode(Mode::Changeover),
        Button::Reset,
        Button::Reset,
        Button::ClearOut,
    ];
    press(&machine, &mut s, &again);
    press(&machine, &mut s, &[Button::Start, HOLD]);
    rest(&machine, &mut s);
    assert_eq!((s.unit, s.referenced()), (UnitState::Held, false));
    press(&machine, &mut s, &[Button::Start]);
    assert_eq!(
        (s.unit, s.phase),
        (UnitState::Unholding, Phase::Referencing)
    );
    rest(&machine, &mut s);
    assert_eq!((s.unit, s.referenced()), (UnitState::Held, true));
}

#[test]
fn manual_starts_nothing_and_changes_only_at_rest() {
    let machine = machine(Edition::Shared46);
    for unit in UnitState::ALL {
        let mut s = machine.at_rest(0);
        s.unit = unit;
        press(&machine, &mut s, &[Button::Mode(Mode::Manual)]);
        let rests = matches!(
            unit,
            UnitState::Stopped | UnitState::Idle | UnitState::Aborted
        );
        assert_eq!(s.mode() == Mode::Manual, rests, "{unit:?}");
    }
    let mut s = machine.at_rest(0);
    press(
        &machine,
        &mut s,
        &[Button::Mode(Mode::Manual), Button::Reset],
    );
    let mut heard = Vec::new();
    machine.press(&mut s, Button::Start, &mut |outcome| heard.push(outcome));
    assert_eq!(heard, [Outcome::Refused(Refusal::Manual)]);
}
