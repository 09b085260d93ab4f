//! In which order boards leave, and whose order is in force.

use rackproof_model::Micros;

use crate::{
    AxisName, Button, Order, Outcome, Scope, Side,
    plant::{Plant, passed},
    sample,
};

#[test]
fn last_in_first_out_empties_the_slot_filled_last() {
    let mut plant = Plant::running(|parts| parts.storing.order = Order::LastInFirstOut);
    plant.fill(3);
    assert_eq!(plant.stored(), [0, 1, 2]);
    (0..3).for_each(|_| plant.send());
    assert_eq!(plant.sent(), [2, 1, 0]);
}

#[test]
fn the_scope_says_whose_order_is_in_force() {
    for (scope, sent) in [(Scope::Machine, [0, 1]), (Scope::Product, [1, 0])] {
        let mut plant = Plant::running(|parts| {
            parts.storing.order_scope = scope;
            parts.products[0].storing.order = Order::LastInFirstOut;
        });
        plant.fill(2);
        (0..2).for_each(|_| plant.send());
        assert_eq!(plant.sent(), sent, "{scope:?}");
    }
}

/// 9 + 400 mm of infeed, 500 of rack, 9 + 500 of outfeed and the board's own 180: 1 598 mm, with
/// 150 mm/s and 600 mm/s² in 1598/150 + 150/600 = 10.903 333 s (handbook kinematics).
#[test]
fn a_board_goes_straight_through_if_downstream_is_ready() {
    let mut plant = Plant::running(|parts| parts.storing.order = Order::StraightThrough);
    plant.call(true);
    plant.offer(sample::WREN);
    assert!(plant.state.machine_ready() && plant.state.board_available());
    plant.settle();
    assert_eq!(plant.stored(), []);
    assert!(plant.heard.contains(&Outcome::BoardPassed(0)));
    assert!(plant.state.rack.present().is_empty() && plant.state.map.is_empty());
    let whole = 10_903_334 + 50_000;
    assert_eq!(plant.clock, whole, "rounded up; then the signals' 50 ms");
    // The lift had no need to move.
    assert!(!plant.heard.contains(&Outcome::Started(AxisName::Lift)));
}

#[test]
fn straight_through_stores_when_downstream_waits_and_never_overtakes() {
    let mut plant = Plant::running(|parts| parts.storing.order = Order::StraightThrough);
    plant.fill(1);
    assert_eq!(plant.stored(), [0], "nobody was ready");
    // Both neighbours at once: the stored board goes first, whatever comes.
    plant.offer(sample::WREN);
    plant.call(true);
    plant.settle();
    assert_eq!((plant.stored(), plant.sent()), (vec![0, 1], vec![0]));
    assert_eq!(plant.slots(passed), []);
    plant.call(false);
    plant.send();
    plant.call(true);
    plant.offer(sample::WREN);
    plant.settle();
    assert_eq!(plant.slots(passed).len(), 1, "nothing stored any more");
}

/// It has left upstream after 180 mm. In 3 s more it comes some 450 mm further: from 409 mm before
/// the rack to 221 mm in it, and 221 and its 45 mm of braking are short of the outfeed half.
#[test]
fn a_stop_on_the_way_through_leaves_the_board_where_it_is() {
    for (seconds, slot, mouth) in [(3, true, false), (5, false, true)] {
        let mut plant = Plant::running(|parts| parts.storing.order = Order::StraightThrough);
        plant.call(true);
        plant.offer(sample::WREN);
        while !plant.heard.contains(&Outcome::BoardEntered) {
            plant.step();
        }
        plant.wait(Micros::from_seconds(seconds));
        plant.press(Button::Stop);
        plant.settle();
        let there = !plant.state.rack.present().is_empty();
        let across = plant.state.mouths[Side::Outfeed as usize].is_some();
        assert_eq!((there, across), (slot, mouth), "{seconds} s");
        assert!(!plant.state.machine_ready() && !plant.state.board_available());
    }
}
