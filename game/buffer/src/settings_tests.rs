//! What a setting does, and who may change it when.

use super::*;
use crate::{Board, Button, HalfSlot, HarmKind, Mode, Phase, Question, Side, UnitState, sample};

fn rest(machine: &Machine, s: &mut State) -> Vec<Outcome> {
    let mut heard = Vec::new();
    while let Some(next) = machine.next_event(s) {
        machine.advance(s, next, &mut |outcome| heard.push(outcome));
    }
    heard
}

fn press(machine: &Machine, s: &mut State, buttons: &[Button]) -> Vec<Outcome> {
    let mut heard = Vec::new();
    for button in buttons {
        machine.press(s, *button, &mut |outcome| heard.push(outcome));
        heard.extend(rest(machine, s));
    }
    heard
}

fn set(machine: &Machine, s: &mut State, setting: Setting) -> Vec<Outcome> {
    machine.turn_key(s, true);
    press(machine, s, &[Button::Set(setting)])
}

const CHANGEOVER: [Button; 6] = [
    Button::Mode(Mode::Changeover),
    Button::Reset,
    Button::Choose(sample::KESTREL),
    Button::Load,
    Button::Start,
    Button::Start,
];

#[test]
fn a_setting_needs_the_key_and_rest_and_keeps_its_bounds() {
    let machine = sample::machine();
    let refused = |s: &mut State, setting| {
        press(&machine, s, &[Button::Set(setting)])
            .into_iter()
            .find_map(|outcome| match outcome {
                Outcome::Refused(refusal) => Some(refusal),
                _ => None,
            })
    };
    let mut s = machine.at_rest(0);
    let off = Setting::Signals(false);
    assert_eq!(refused(&mut s, off), Some(Refusal::SetterOnly));
    machine.turn_key(&mut s, true);
    let bounds = [
        (Setting::SlotCount(1), Setting::SlotCount(2)),
        (Setting::SlotCount(17), Setting::SlotCount(16)),
        (
            Setting::WidthOffset(Micrometres(5_001)),
            Setting::WidthOffset(Micrometres(-5_000)),
        ),
        (
            Setting::SidePlay(Micrometres(199)),
            Setting::SidePlay(Micrometres(1_500)),
        ),
        (
            Setting::ConfirmWithin(Micros(120_000_001)),
            Setting::ConfirmWithin(Micros(120_000_000)),
        ),
    ];
    for (beyond, within) in bounds {
        assert_eq!(
            refused(&mut s, beyond),
            Some(Refusal::SettingBeyondBounds(beyond))
        );
        assert_eq!(refused(&mut s, within), None, "{within:?}");
        assert_eq!(s.service.settings.now(within, 0), within);
    }
    press(
        &machine,
        &mut s,
        &[
            Button::Reset,
            Button::Mode(Mode::Changeover),
            Button::ClearOut,
        ],
    );
    assert_eq!(
        refused(&mut s, Setting::SlotCount(8)),
        Some(Refusal::MapNotEmpty)
    );
    press(&machine, &mut s, &[Button::Start]);
    assert_eq!(s.unit, UnitState::Held);
    assert_eq!(refused(&mut s, off), Some(Refusal::State(s.unit)));
}

#[test]
fn with_a_slot_count_too_low_the_sweep_passes_over_the_top() {
    let machine = sample::machine();
    let at = HalfSlot {
        slot: 15,
        half: Half::Outfeed,
    };
    for (count, seen, harmed) in [(16, true, false), (15, false, true)] {
        let mut s = machine.at_rest(0);
        let quiet = &mut |_| {};
        assert!(machine.put_in_rack(&mut s, at, Board::good(sample::WREN), quiet));
        set(&machine, &mut s, Setting::SlotCount(count));
        let heard = press(&machine, &mut s, &CHANGEOVER);
        assert_eq!(heard.contains(&Outcome::SweepSaw(15)), seen, "{count}");
        let harms = heard
            .iter()
            .any(|outcome| matches!(outcome, Outcome::Harmed(_)));
        assert_eq!(harms, harmed, "{count}");
    }
}

#[test]
fn a_wrong_offset_makes_every_width_wrong_and_no_figure_shows_it() {
    let machine = sample::machine();
    let mut s = machine.at_rest(0);
    set(&machine, &mut s, Setting::WidthOffset(Micrometres(2_000)));
    assert!(
        !s.width_known(),
        "the count is void until the rails were at their zero"
    );
    press(&machine, &mut s, &CHANGEOVER);
    assert_eq!(s.unit, UnitState::Complete);
    // 220 mm, 0.8 mm of side play, 2 mm of offset.
    assert_eq!(s.width(&machine).0, 222_800);
    assert_eq!(
        s.width_by_count(&machine).map_or(0, |width| width.0),
        220_800
    );
    assert_eq!(machine.wanted_width(&s).0, 220_800);
    assert!(machine.width_is_wanted(&s));
    // 4 mm of clearance is more than the ledge of 3 mm: a board falls.
    press(&machine, &mut s, &[Button::Reset]);
    set(&machine, &mut s, Setting::WidthOffset(Micrometres(4_000)));
    press(
        &machine,
        &mut s,
        &[Button::Load, Button::Start, Button::Start],
    );
    let mut harms = Vec::new();
    let board = Board::good(sample::KESTREL);
    machine.lay_on_infeed_belt(&mut s, board, &mut |outcome| harms.push(outcome));
    let [Outcome::Harmed(harm)] = harms[..] else {
        panic!("{harms:?}")
    };
    assert_eq!((harm.kind, harm.number), (HarmKind::Dropped, 4_800));
}

#[test]
fn with_its_signal_off_a_board_is_pushed_onto_a_machine_that_is_not_ready() {
    for (read, harmed) in [(true, false), (false, true)] {
        let machine = sample::machine();
        let mut s = machine.at_rest(0);
        set(&machine, &mut s, Setting::Signals(read));
        press(&machine, &mut s, &[Button::Reset, Button::Start]);
        machine.upstream_signal(&mut s, Some(Board::good(sample::WREN)), &mut |_| {});
        let heard = rest(&machine, &mut s);
        assert!(heard.contains(&Outcome::BoardStored(0)));
        let sent = heard.contains(&Outcome::BoardSent(0));
        let harms: Vec<HarmKind> = heard
            .iter()
            .filter_map(|outcome| match outcome {
                Outcome::Harmed(harm) => Some(harm.kind),
                _ => None,
            })
            .collect();
        assert_eq!(
            (sent, harms.contains(&HarmKind::Collided)),
            (harmed, harmed)
        );
        assert!(!s.neighbour_signal(Side::Outfeed));
    }
}

fn checking(sensor: bool, unfitted: Unfitted) -> Machine {
    let mut parts = sample::parts();
    (parts.service.width_sensor, parts.service.unfitted) = (sensor, unfitted);
    Machine::new(parts)
}

#[test]
fn a_setting_for_a_fitting_that_is_not_there_is_refused_or_waits_for_ever() {
    let check = Setting::WidthCheck(true);
    let refuses = checking(false, Unfitted::Refused);
    let mut s = refuses.at_rest(0);
    let heard = set(&refuses, &mut s, check);
    assert_eq!(heard, [Outcome::Refused(Refusal::NotFitted)]);

    let waits = checking(false, Unfitted::Waits);
    let mut s = waits.at_rest(0);
    set(&waits, &mut s, check);
    let heard = press(&waits, &mut s, &CHANGEOVER);
    assert_eq!(heard.last(), Some(&Outcome::WaitsForWidth));
    assert_eq!(
        (s.unit, s.phase, s.question()),
        (UnitState::Execute, Phase::AwaitWidth, None)
    );
    assert_eq!(waits.next_event(&s), None);
    press(&waits, &mut s, &[Button::Stop]);
    assert_eq!(s.unit, UnitState::Stopped);

    // With a time the wait ends in an alarm.
    set(
        &waits,
        &mut s,
        Setting::ConfirmWithin(Micros::from_seconds(30)),
    );
    let again = [Button::Reset, Button::Load, Button::Start, Button::Start];
    let heard = press(&waits, &mut s, &again);
    assert!(heard.contains(&Outcome::Alarmed(Alarm::NoConfirmation)));
    assert_eq!(s.question(), Some(Question::Confirmation));
}

#[test]
fn a_sensor_that_is_there_confirms_the_width_and_finds_the_offset() {
    let machine = checking(true, Unfitted::Refused);
    for (offset, done) in [(0, true), (1, false)] {
        let mut s = machine.at_rest(0);
        set(&machine, &mut s, Setting::WidthCheck(true));
        set(&machine, &mut s, Setting::WidthOffset(Micrometres(offset)));
        let heard = press(&machine, &mut s, &CHANGEOVER);
        assert_eq!(heard.contains(&Outcome::WidthReached), done, "{offset}");
    }
}

#[test]
fn a_sweep_of_fewer_slots_ends_when_the_lift_rests_at_the_last_of_them() {
    let machine = sample::machine();
    for count in [2, 15, 16] {
        let mut s = machine.at_rest(0);
        set(&machine, &mut s, Setting::SlotCount(count));
        for button in &CHANGEOVER[..5] {
            machine.press(&mut s, *button, &mut |_| {});
        }
        let mut ended = false;
        while !ended {
            let next = machine.next_event(&s).expect("it sweeps");
            machine.advance(&mut s, next, &mut |outcome| {
                ended |= outcome == Outcome::SweepSawNothing;
            });
        }
        assert!(!s.moves(), "{count}");
        assert_eq!(s.slot_at_belts(), Some(count - 1));
    }
}
