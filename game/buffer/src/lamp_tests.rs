//! The colours against the table of IEC 60204-1, section 10.

use super::*;
use crate::{Answer, sample};

/// IEC 60204-1, section 10 (EN text repeated by a button maker, and a FAQ): the colours that a
/// control may have, the preferred one first.
const BUTTONS: [(Control, &[Colour]); 6] = [
    (Control::EmergencyStop, &[Colour::Red]),
    (
        Control::Start,
        &[Colour::White, Colour::Grey, Colour::Black, Colour::Green],
    ),
    (
        Control::Stop,
        &[Colour::Black, Colour::Grey, Colour::White, Colour::Red],
    ),
    (
        Control::Reset,
        &[Colour::Blue, Colour::White, Colour::Grey, Colour::Black],
    ),
    (
        Control::HoldToRun,
        &[Colour::White, Colour::Grey, Colour::Black],
    ),
    (
        Control::Other,
        &[Colour::Grey, Colour::White, Colour::Black, Colour::Blue],
    ),
];

#[test]
fn buttons_have_colours_that_the_standard_allows() {
    for (control, allowed) in BUTTONS {
        let colour = control.colour();
        assert!(allowed.contains(&colour), "{control:?} is {colour:?}");
        let emergency = control == Control::EmergencyStop;
        assert_eq!(
            colour == Colour::Red,
            emergency,
            "red near an emergency stop"
        );
    }
    let preferred = [Control::Start, Control::Stop, Control::Reset];
    for (control, allowed) in BUTTONS.iter().filter(|(it, _)| preferred.contains(it)) {
        assert_eq!(control.colour(), allowed[0], "{control:?}");
    }
}

#[test]
fn lamps_mean_what_their_colours_mean() {
    // Red: act at once. Yellow: abnormal. Blue: an operator must do something. Green: normal.
    let meant = [
        (Lamp::Alarm, Colour::Red),
        (Lamp::Abnormal, Colour::Yellow),
        (Lamp::MustAct, Colour::Blue),
        (Lamp::AtWork, Colour::Green),
    ];
    assert_eq!(Lamp::ALL.map(|lamp| (lamp, lamp.colour())), meant);
}

#[test]
fn the_tower_shows_the_state() {
    let machine = sample::machine();
    let mut s = machine.at_rest(0);
    let press = |s: &mut State, button| machine.press(s, button, &mut |_| {});
    assert_eq!(s.lamps(), [false; 4]);
    press(&mut s, Button::Reset);
    press(&mut s, Button::Start);
    assert_eq!(s.lamps(), [false, false, false, true]);
    // Held on a question: abnormal, and a person must act.
    let mut asked = machine.at_rest(0);
    machine.leave_half_cleared(&mut asked, &[], Some(0));
    assert_eq!(asked.lamps(), [false, true, true, false]);
    machine.press_emergency(&mut s, &mut |_| {});
    assert_eq!(s.lamps(), [true, true, true, false]);
    press(&mut s, Button::Acknowledge);
    assert_eq!(s.lamps(), [false, true, true, false]);
    machine.turn_isolator(&mut s, false, &mut |_| {});
    assert_eq!(s.lamps(), [false; 4]);
}

#[test]
fn a_button_has_its_colour_where_it_has_an_effect() {
    let machine = sample::machine();
    let mut s = machine.at_rest(0);
    let row = |s: &State| {
        [Button::Start, Button::Stop, Button::Reset].map(|button| machine.button_colour(s, button))
    };
    assert_eq!(row(&s), [Colour::Grey, Colour::Grey, Colour::Blue]);
    machine.press(&mut s, Button::Reset, &mut |_| {});
    assert_eq!(row(&s), [Colour::White, Colour::Black, Colour::Grey]);
    let answer = Button::Answer(Answer::Taken);
    assert_eq!(machine.button_colour(&s, answer), Colour::Grey);
}
