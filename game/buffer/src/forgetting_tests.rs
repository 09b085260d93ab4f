//! What is forgotten, and what counts, by hand.

use rackproof_model::Micros;

use super::*;
use crate::{Board, LiftPlace, UnitState, sample};

/// The lift on its way from slot 1 to the top for so long, then stopped.
fn stopped_after(machine: &Machine, span: u32) -> State {
    let mut s = machine.at_rest(sample::WREN);
    s.unit = UnitState::Execute;
    machine.send_lift(&mut s, LiftPlace::At(machine.slots() - 1), &mut |_| ());
    s.lift.pass(Micros(span));
    machine.press_stop(&mut s, &mut |_| ()).expect("it runs");
    s
}

fn forgotten(machine: &Machine, state: &State) -> State {
    let mut s = *state;
    machine.forget_braking(&mut s);
    let once = s;
    machine.forget_braking(&mut s);
    assert_eq!(s, once, "it stays");
    s
}

#[test]
fn of_a_stop_alone_its_end_counts_and_nothing_else() {
    let machine = sample::machine();
    let ends = [450_000, 460_000, 900_000].map(|span| {
        let stopped = stopped_after(&machine, span);
        let short = forgotten(&machine, &stopped);
        let [end, same] = [stopped, short].map(|mut s| {
            let mut heard = Vec::new();
            let left = machine.next_event(&s).expect("it ends");
            machine.advance(&mut s, left, &mut |outcome| heard.push(outcome));
            (s, heard)
        });
        assert_eq!(end, same);
        assert!(end.0.lift.is_rest() && !end.1.is_empty());
        short
    });
    assert_eq!(ends[0], ends[1]);
    assert_ne!(ends[0], ends[2]);
}

#[test]
fn a_stop_counts_as_it_is_where_more_hangs_on_it() {
    let machine = sample::machine();
    let stopped = stopped_after(&machine, 450_000);
    assert_ne!(forgotten(&machine, &stopped), stopped);
    type Change = fn(&mut State);
    let changes: [(&str, Change); 8] = [
        ("a board across a mouth", |s| {
            s.mouths[1] = Some(Board::good(sample::WREN))
        }),
        ("a signal's time", |s| s.ready_open_left = Micros(50_000)),
        ("a signal that would open", |s| s.board_available = true),
        ("the other signal", |s| s.machine_ready = true),
        ("a sweep", |s| s.phase = Phase::Sweeping),
        ("rails", |s| {
            s.rails = Motion::begin_known(Micrometres(9), Micros(9))
        }),
        ("belts", |s| {
            s.belts = Motion::begin_known(Micrometres(9), Micros(9))
        }),
        ("no stop", |s| {
            s.lift = Motion::begin_known(Micrometres(9), Micros(9))
        }),
    ];
    for (what, change) in changes {
        let mut s = stopped;
        change(&mut s);
        assert_eq!(forgotten(&machine, &s), s, "{what}");
    }
    // What has not moved is not told to have stopped.
    let mut still = stopped;
    still.lift_from = machine.height(still.lift_place);
    still.lift = Motion::begin_known(Micrometres(0), Micros(5)).brake(&machine.parts().axes.lift);
    assert_eq!(forgotten(&machine, &still), still);
}

#[test]
fn which_product_is_loaded_counts_where_something_asks_for_it() {
    let machine = sample::machine();
    let wanted = machine.rails_for(machine.parts().products[usize::from(sample::KESTREL)].width);
    let loaded_after = |change: fn(&mut State)| {
        let mut s = machine.at_rest(sample::WREN);
        (s.loaded, s.chosen, s.width_known) = (sample::KESTREL, sample::KESTREL, false);
        machine.load_figures(&mut s);
        change(&mut s);
        machine.forget_loaded(&mut s, wanted);
        assert!(s.loaded == sample::KESTREL || !machine.stored_otherwise(&s));
        s.loaded
    };
    assert_eq!(loaded_after(|_| ()), 0);
    assert_eq!(loaded_after(|s| s.task = Task::ClearOut), 0);
    let asked: [fn(&mut State); 4] = [
        |s| s.task = Task::Changeover,
        |s| s.width_known = true,
        |s| s.edited = Some(Micrometres(1)),
        |s| s.rails = Motion::begin_known(Micrometres(9), Micros(9)),
    ];
    for (number, change) in asked.into_iter().enumerate() {
        assert_eq!(loaded_after(change), sample::KESTREL, "{number}");
    }
    let mut s = machine.at_rest(sample::KESTREL);
    s.width_known = false;
    machine.forget_loaded(&mut s, wanted);
    assert_eq!((s.width_from, s.loaded), (wanted, sample::KESTREL));
}

#[test]
fn products_that_are_stored_otherwise_are_not_alike() {
    let parts = sample::parts();
    let alike = |parts: crate::MachineParts| Machine::new(parts).stores_alike();
    assert!(alike(parts.clone()));
    let mut passing = parts.clone();
    passing.products[1].storing.interval = 2;
    assert!(!alike(passing));
    let mut ordered = parts;
    ordered.storing.order_scope = crate::Scope::Product;
    ordered.products[1].storing.order = crate::Order::LastInFirstOut;
    ordered.products[0].storing.order = crate::Order::FirstInFirstOut;
    assert!(!alike(ordered));
}
