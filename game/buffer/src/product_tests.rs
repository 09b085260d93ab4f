//! Edited, saved, loaded; what of it a key keeps; who and when; side play; what is refused in
//! words.

use super::*;
use crate::{Button, Level, Saved, Scope, Setting, sample};

fn heard(machine: &Machine, s: &mut State, buttons: &[Button]) -> Vec<Outcome> {
    let mut heard = Vec::new();
    for button in buttons {
        machine.press(s, *button, &mut |outcome| heard.push(outcome));
    }
    heard
}

fn idle(machine: &Machine) -> State {
    let mut s = machine.at_rest(0);
    heard(
        machine,
        &mut s,
        &[Button::Mode(Mode::Changeover), Button::Reset],
    );
    s
}

fn um(micrometres: i32) -> Micrometres {
    Micrometres(micrometres)
}

#[test]
fn edited_is_not_saved_and_saved_is_not_loaded() {
    let machine = sample::machine();
    let mut s = idle(&machine);
    heard(
        &machine,
        &mut s,
        &[Button::Choose(2), Button::EditWidth(um(200_000))],
    );
    assert_eq!(
        (s.edited(), s.stored_width(2)),
        (Some(um(200_000)), um(220_000))
    );
    heard(&machine, &mut s, &[Button::Save]);
    assert_eq!((s.edited(), s.stored_width(2)), (None, um(200_000)));
    // Loaded is still product 0, 160 mm and 0.8 mm of side play.
    assert_eq!(machine.wanted_width(&s), um(160_800));
    heard(&machine, &mut s, &[Button::Load]);
    assert_eq!(machine.wanted_width(&s), um(200_800));
    // What was typed and not saved is gone with the choice of another.
    heard(
        &machine,
        &mut s,
        &[Button::EditWidth(um(90_000)), Button::Choose(0)],
    );
    assert_eq!(s.edited(), None);
}

/// Does the changeover that is loaded, and says at which width the rails stand then, in µm.
fn changed_over(machine: &Machine, s: &mut State) -> i32 {
    for _ in 0..2 {
        // The sweep, then the rails: `Start` is the answer to what stands between.
        heard(machine, s, &[Button::Start]);
        while let Some(dt) = machine.next_event(s) {
            machine.advance(s, dt, &mut |_| {});
        }
    }
    assert_eq!(s.unit(), UnitState::Complete);
    s.width(machine).0
}

#[test]
fn what_is_saved_under_the_loaded_number_moves_nothing_until_it_is_loaded() {
    let machine = sample::machine();
    let narrower = [Button::EditWidth(um(150_000)), Button::Save];
    let over = [
        Button::Choose(2),
        Button::EditWidth(um(150_000)),
        Button::SaveOver(0),
        Button::Choose(0),
    ];
    for saved in [&narrower[..], &over] {
        let mut s = idle(&machine);
        heard(&machine, &mut s, &[Button::Load]);
        heard(&machine, &mut s, saved);
        assert_eq!(
            (s.stored_width(0), s.loaded_width()),
            (um(150_000), um(160_000))
        );
        assert_eq!(machine.wanted_width(&s), um(160_800));
        assert!(machine.width_is_wanted(&s), "the rails stand as loaded");
        assert_eq!(changed_over(&machine, &mut s), 160_800, "saved");
        heard(&machine, &mut s, &[Button::Reset, Button::Load]);
        assert_eq!(machine.wanted_width(&s), um(150_800));
        assert!(!machine.width_is_wanted(&s));
        assert_eq!(changed_over(&machine, &mut s), 150_800, "loaded");
    }
}

#[test]
fn loading_what_was_saved_otherwise_is_not_loading_the_same() {
    let mut parts = sample::parts();
    parts.behaviours.whole_cycle_if_same = false;
    let machine = Machine::new(parts);
    let mut s = idle(&machine);
    let narrower = [Button::EditWidth(um(150_000)), Button::Save, Button::Load];
    heard(&machine, &mut s, &narrower);
    assert_eq!(s.task(), Task::Changeover);
}

#[test]
fn the_side_play_of_a_product_counts_from_loading_that_of_the_machine_at_once() {
    for (scope, set) in [(Scope::Machine, 161_200), (Scope::Product, 160_800)] {
        let mut parts = sample::parts();
        parts.service.side_play_scope = scope;
        let machine = Machine::new(parts);
        let mut s = idle(&machine);
        machine.turn_key(&mut s, true);
        heard(
            &machine,
            &mut s,
            &[Button::Set(Setting::SidePlay(um(1_200)))],
        );
        assert_eq!(machine.wanted_width(&s), um(set), "{scope:?}");
        heard(&machine, &mut s, &[Button::Load]);
        assert_eq!(machine.wanted_width(&s), um(161_200), "{scope:?}");
    }
}

/// A key tells apart what is loaded where it is not what is stored under that number, and comes
/// back to it; also where what is stored is the file's again.
#[test]
fn a_key_keeps_what_was_loaded_where_it_was_saved_otherwise() {
    use crate::deeds::{key, read};
    let machine = sample::machine();
    let mut plain = idle(&machine);
    heard(&machine, &mut plain, &[Button::Load]);
    let mut saved = plain;
    let narrower = [Button::EditWidth(um(150_000)), Button::Save];
    heard(&machine, &mut saved, &narrower);
    let mut loaded = saved;
    heard(&machine, &mut loaded, &[Button::Load]);
    let mut back = loaded;
    heard(
        &machine,
        &mut back,
        &[Button::EditWidth(um(160_000)), Button::Save],
    );
    let states = [plain, saved, loaded, back];
    for (at, s) in states.iter().enumerate() {
        let back = read(&machine, &key(&machine, s), &machine.at_rest(2));
        assert_eq!(back.loaded_width(), s.loaded_width(), "{at}");
        assert_eq!(machine.wanted_width(&back), machine.wanted_width(s), "{at}");
        for other in &states[..at] {
            assert_ne!(key(&machine, other), key(&machine, s), "{at}");
        }
    }
}

#[test]
fn saving_over_another_number_keeps_who_and_in_which_order() {
    let machine = sample::machine();
    let mut s = idle(&machine);
    heard(
        &machine,
        &mut s,
        &[Button::EditWidth(um(170_000)), Button::Save],
    );
    machine.turn_key(&mut s, true);
    let over = heard(&machine, &mut s, &[Button::SaveOver(2)]);
    assert_eq!(over, [Outcome::ProductSaved(2)]);
    assert_eq!(s.stored_width(2), um(170_000));
    let saved = |by, order| Some(Saved { by, order });
    assert_eq!(s.service.saved[0], saved(Level::Operator, 1));
    assert_eq!(s.service.saved[1], None);
    assert_eq!(s.service.saved[2], saved(Level::Setter, 2));
}

#[test]
fn what_cannot_be_is_refused_in_words() {
    let mut parts = sample::parts();
    // Half of a 500 mm rack less 10 mm: 240 mm is the longest board.
    (parts.products[1].length, parts.products[3].length) = (um(240_001), um(240_000));
    parts.service.save_needs_key = true;
    let machine = Machine::new(parts);
    let mut s = idle(&machine);
    let no = |s: &mut State, buttons: &[Button]| {
        let last = heard(&machine, s, buttons).pop();
        match last {
            Some(Outcome::Refused(refusal)) => Some(refusal),
            _ => None,
        }
    };
    // The travel is 50 to 300 mm, less 0.8 mm of side play.
    for (width, beyond) in [
        (49_199, true),
        (49_200, false),
        (299_200, false),
        (299_201, true),
    ] {
        let refusal = no(&mut s, &[Button::EditWidth(um(width))]);
        assert_eq!(
            refusal,
            beyond.then_some(Refusal::WidthBeyondTravel),
            "{width}"
        );
    }
    assert_eq!(no(&mut s, &[Button::Save]), Some(Refusal::SetterOnly));
    assert_eq!(
        no(&mut s, &[Button::Choose(1), Button::Load]),
        Some(Refusal::BoardTooLong)
    );
    assert_eq!(no(&mut s, &[Button::Choose(3), Button::Load]), None);
    assert_eq!(no(&mut s, &[Button::SaveOver(8)]), Some(Refusal::NoProduct));
}

#[test]
fn side_play_belongs_to_the_machine_or_to_the_product() {
    for (scope, others) in [(Scope::Machine, 1_200), (Scope::Product, 800)] {
        let mut parts = sample::parts();
        parts.service.side_play_scope = scope;
        let machine = Machine::new(parts);
        let mut s = idle(&machine);
        machine.turn_key(&mut s, true);
        let play = Button::Set(Setting::SidePlay(um(1_200)));
        heard(&machine, &mut s, &[Button::Choose(2), play]);
        let [own, other] = [2, 0].map(|product| machine.side_play_of(&s, product).0);
        assert_eq!([own, other], [1_200, others], "{scope:?}");
    }
}

#[test]
fn loading_what_is_loaded_runs_the_whole_cycle_or_nothing() {
    for (whole, task) in [(true, Task::Changeover), (false, Task::None)] {
        let mut parts = sample::parts();
        parts.behaviours.whole_cycle_if_same = whole;
        let machine = Machine::new(parts);
        let mut s = idle(&machine);
        heard(&machine, &mut s, &[Button::Load]);
        assert_eq!(s.task(), task);
        let refused = heard(&machine, &mut s, &[Button::Start]);
        let nothing = refused == [Outcome::Refused(Refusal::NoTask)];
        assert_eq!(nothing, !whole, "{refused:?}");
    }
}
