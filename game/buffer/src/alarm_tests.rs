//! The table of alarm states, what is first up, and what latches.

use super::*;
use crate::{Button, sample};

/// ANSI/ISA-18.2-2016, from memory: from, event, to without and with latching. `-`: no change.
const TABLE: &str = "
    A Comes B B
    A Acknowledged - -
    A Clears - -
    A Reset - -
    B Comes - -
    B Acknowledged C C
    B Clears D E
    B Reset - -
    C Comes - -
    C Acknowledged - -
    C Clears A F
    C Reset - -
    D Comes B B
    D Acknowledged A A
    D Clears - -
    D Reset - -
    E Comes - -
    E Acknowledged F F
    E Clears - -
    E Reset - -
    F Comes - -
    F Acknowledged - -
    F Clears - -
    F Reset A A
";

#[test]
fn the_states_follow_the_table() {
    let events = [
        AlarmEvent::Comes,
        AlarmEvent::Acknowledged,
        AlarmEvent::Clears,
        AlarmEvent::Reset,
    ];
    let letter = |state: Option<AlarmState>| state.map_or('-', AlarmState::letter);
    let mut rows = Vec::new();
    for state in AlarmState::ALL {
        for event in events {
            let [plain, latching] = [false, true].map(|latches| state.after(event, latches));
            let row = [letter(Some(state)), letter(plain), letter(latching)];
            rows.push(format!("{} {event:?} {} {}", row[0], row[1], row[2]));
        }
    }
    let theirs: Vec<&str> = TABLE
        .lines()
        .map(str::trim)
        .filter(|l| !l.is_empty())
        .collect();
    assert_eq!(rows, theirs);
}

fn letters(machine: &Machine, s: &State) -> String {
    machine.note_alarms(&mut s.clone());
    Alarm::ALL
        .map(|(_, alarm)| s.alarms().state(alarm).letter())
        .iter()
        .collect()
}

fn press(machine: &Machine, s: &mut State, button: Button) {
    machine.press(s, button, &mut |_| {});
}

#[test]
fn an_emergency_stop_and_a_hatch_go_through_their_states() {
    let machine = sample::machine();
    let mut s = machine.at_rest(0);
    assert_eq!(letters(&machine, &s), "AAAAAAA");
    machine.press_emergency(&mut s, &mut |_| {});
    machine.open_hatch(&mut s, &mut |_| {});
    assert_eq!(letters(&machine, &s), "BBAAAAA");
    let list: Vec<Alarm> = s.alarms().list().map(|(alarm, _)| alarm).collect();
    assert_eq!(list, [Alarm::EmergencyStop, Alarm::HatchOpened]);
    press(&machine, &mut s, Button::Acknowledge);
    assert_eq!(letters(&machine, &s), "CCAAAAA");
    machine.release_emergency(&mut s);
    // The first cause is gone, and still the first: look there.
    assert_eq!(letters(&machine, &s), "ACAAAAA");
    assert_eq!(s.alarms().first_up(), Some(Alarm::EmergencyStop));
    machine.press_emergency(&mut s, &mut |_| {});
    let list: Vec<Alarm> = s.alarms().list().map(|(alarm, _)| alarm).collect();
    assert_eq!(list, [Alarm::HatchOpened, Alarm::EmergencyStop]);
    machine.release_emergency(&mut s);
    machine.shut_hatch(&mut s);
    assert_eq!(letters(&machine, &s), "DAAAAAA");
    press(&machine, &mut s, Button::Acknowledge);
    assert_eq!(letters(&machine, &s), "AAAAAAA");
    assert_eq!(s.alarms().first_up(), None);
}

#[test]
fn what_latches_waits_for_a_reset_after_it_was_acknowledged() {
    let mut parts = sample::parts();
    parts.service.latching = 1 << Alarm::HatchOpened as u8;
    let machine = Machine::new(parts);
    let mut s = machine.at_rest(0);
    machine.open_hatch(&mut s, &mut |_| {});
    machine.shut_hatch(&mut s);
    assert_eq!(letters(&machine, &s), "AEAAAAA");
    press(&machine, &mut s, Button::Reset);
    assert_eq!(letters(&machine, &s), "AEAAAAA");
    press(&machine, &mut s, Button::Acknowledge);
    assert_eq!(letters(&machine, &s), "AFAAAAA");
    press(&machine, &mut s, Button::Reset);
    assert_eq!(letters(&machine, &s), "AAAAAAA");
}

#[test]
fn after_power_returns_the_panel_alarms_what_holds_then() {
    let machine = sample::machine();
    let mut s = machine.at_rest(0);
    machine.press_emergency(&mut s, &mut |_| {});
    press(&machine, &mut s, Button::Acknowledge);
    machine.turn_isolator(&mut s, false, &mut |_| {});
    assert_eq!(letters(&machine, &s), "AAAAAAA");
    machine.turn_isolator(&mut s, true, &mut |_| {});
    assert_eq!(letters(&machine, &s), "BAAAAAA");
}

/// Nothing but the alarm tells that the lift's drive lost its count: it holds until Clear.
#[test]
fn what_a_drive_says_of_itself_holds_until_clear() {
    let machine = sample::machine().with_faults(vec![crate::Fault::ReferenceLost]);
    let mut s = machine.at_rest(sample::WREN);
    machine.fault_comes(&mut s, 0, &mut |_| {});
    assert_eq!(s.alarms.state(Alarm::LiftDrive), AlarmState::Unacknowledged);
    machine.press(&mut s, Button::Acknowledge, &mut |_| {});
    assert_eq!(s.alarms.state(Alarm::LiftDrive), AlarmState::Acknowledged);
    machine.press(&mut s, Button::Reset, &mut |_| {});
    assert_eq!(s.alarms.state(Alarm::LiftDrive), AlarmState::Normal);
    assert_eq!(s.alarms.first_up(), None);
}
