//! Whatever two neighbours do, boards are handed over by the rules, and leave in order.

use proptest::prelude::*;
use rackproof_model::Micros;

use crate::{
    MachineParts, Order, Priority, ReadyRule,
    line::Line,
    plant::{draws_back, tandem},
};

const RULES: [ReadyRule; 2] = [ReadyRule::Room, ReadyRule::OnOffer];

/// Each order, with one and two boards in a slot, with all slots used and with every second.
const CHANGES: [fn(&mut MachineParts); 8] = [
    |_| {},
    |parts| parts.storing.order = Order::LastInFirstOut,
    |parts| parts.storing.order = Order::StraightThrough,
    tandem,
    |parts| {
        tandem(parts);
        parts.storing.order = Order::LastInFirstOut;
        parts.products[0].storing.interval = 2;
    },
    |parts| {
        tandem(parts);
        parts.storing.order = Order::StraightThrough;
        parts.storing.priority = Priority::Emptying;
    },
    |parts| {
        draws_back(parts);
        parts.products[0].storing.interval = 3;
    },
    |parts| {
        draws_back(parts);
        tandem(parts);
        parts.storing.priority = Priority::Emptying;
        parts.storing.arrival_time_out = Micros::from_seconds(20);
    },
];

proptest! {
    #![proptest_config(ProptestConfig { cases: 120, failure_persistence: None,
        ..ProptestConfig::default() })]

    #[test]
    fn any_two_neighbours_hand_over_by_the_rules(
        seed: u64, on_offer: bool, change in 0..CHANGES.len(),
    ) {
        let setting = (RULES[usize::from(on_offer)], CHANGES[change]);
        let mut whole = Line::new(seed, setting, false);
        let mut pieces = Line::new(seed, setting, true);
        whole.run(600_000_000);
        pieces.run(600_000_000);
        prop_assert_eq!(whole.state, pieces.state);
        prop_assert_eq!(whole.told, pieces.told);
    }
}

#[test]
fn a_long_day_between_two_neighbours() {
    for (number, change) in CHANGES.into_iter().enumerate() {
        for rule in RULES {
            let mut line = Line::new(number as u64, (rule, change), false);
            line.run(8 * 3_600_000_000);
            let (left, withdrawn) = (line.left, line.withdrawn);
            assert!(left > 300, "{number}: {left} boards left");
            assert!(withdrawn > 20, "{number}: {withdrawn} offers withdrawn");
            let through = line.machine.order_in_force(&line.state) == Order::StraightThrough;
            assert_eq!(line.passed > 50, through, "{number}: {}", line.passed);
            let pairs = line.machine.stores_pairs(&line.state);
            assert_eq!(line.pairs > 50, pairs, "{number}: {} pairs", line.pairs);
            let draws = line.machine.parts().storing.draw_back.is_some();
            assert_eq!(line.drawn_back > 300, draws, "{number}");
        }
    }
}
