//! Smooth work and work by all rules come out the same.

use proptest::prelude::*;

use crate::{MachineParts, Order, Priority, ReadyRule, line::Line};

const CHANGES: [fn(&mut MachineParts); 4] = [
    |_| {},
    |parts| parts.storing.order = Order::LastInFirstOut,
    |parts| {
        parts.storing.order = Order::StraightThrough;
        parts.storing.priority = Priority::Emptying;
    },
    |parts| parts.products[0].storing.interval = 3,
];

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None,
        ..ProptestConfig::default() })]

    #[test]
    fn what_goes_smoothly_comes_out_as_by_all_rules(
        seed: u64, on_offer: bool, change in 0..CHANGES.len(), pieces: bool,
    ) {
        let rule = if on_offer { ReadyRule::OnOffer } else { ReadyRule::Room };
        let setting = (rule, CHANGES[change]);
        let mut smooth = Line::new(seed, setting, pieces);
        let mut other = Line::new(seed, setting, pieces);
        prop_assert!(smooth.machine.smooth);
        other.machine.smooth = false;
        smooth.run(600_000_000);
        other.run(600_000_000);
        prop_assert_eq!(smooth.state, other.state);
        prop_assert_eq!(smooth.told, other.told);
        prop_assert!(smooth.left > 3, "{} boards left", smooth.left);
    }
}
