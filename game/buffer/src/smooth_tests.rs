//! Smooth work and work by all rules come out the same.

use proptest::prelude::*;

use crate::{
    Axes, Axis, Machine, MachineParts, Order, Outcome, Priority, ReadyRule, State,
    deeds::{Chance, Step, apply, next_deed},
    line::Line,
    sample,
};

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

/// With moves that take time and with moves that take none.
#[test]
fn whatever_is_done_meanwhile_it_comes_out_as_by_all_rules() {
    for change in CHANGES {
        for axis in [None, Some(Axis::AT_ONCE)] {
            let mut parts = sample::parts();
            change(&mut parts);
            if let Some(axis) = axis {
                let [lift, rails, belts] = [axis; 3];
                parts.axes = Axes { lift, rails, belts };
            }
            let mut machine = Machine::new(parts);
            let sent: usize = (0..60).map(|seed| both_ways(&mut machine, seed)).sum();
            assert!(sent > 600, "{sent} boards sent, {axis:?}");
        }
    }
}

/// Does the same to two machines, of which one goes by all rules, and lays them beside each other
/// after each step. How many boards were sent.
fn both_ways(machine: &mut Machine, seed: u64) -> usize {
    let (mut chance, mut sent) = (Chance(seed), 0);
    let mut states = [machine.at_rest(sample::WREN); 2];
    for number in 0..3_000 {
        let (mostly, anything) = (MOSTLY[chance.below(8) as usize], chance.below(32));
        let is_usual = chance.below(200) > 0;
        let which = if is_usual { mostly } else { anything };
        let step = Step::from(which, chance.next() as u32);
        let mut told = [Vec::new(), Vec::new()];
        for ((s, told), smooth) in states.iter_mut().zip(&mut told).zip([true, false]) {
            machine.smooth = smooth;
            do_step(machine, s, step, told);
        }
        assert_eq!(states[0], states[1], "seed {seed}, step {number}: {step:?}");
        assert_eq!(told[0], told[1], "seed {seed}, step {number}: {step:?}");
        let is_sent = |outcome: &&Outcome| matches!(outcome, Outcome::BoardSent(_));
        sent += told[0].iter().filter(is_sent).count();
    }
    sent
}

/// To go on, to let time pass, and what the neighbours do.
const MOSTLY: [u32; 8] = [0, 7, 7, 12, 21, 21, 23, 23];

fn do_step(machine: &Machine, s: &mut State, step: Step, told: &mut Vec<Outcome>) {
    let mut hear = |outcome| told.push(outcome);
    let mut act = |s: &mut State, deed| {
        apply(machine, s, deed, &mut hear);
    };
    match step {
        Step::Do(deed) => act(s, deed),
        Step::GoOn(value) => act(s, next_deed(machine, s, value)),
        Step::Wait(most) => {
            machine.advance_at_most(s, most, &mut hear);
        }
        Step::Events(events) => {
            for _ in 0..events {
                let span = machine.next_event(s).unwrap_or_default();
                machine.advance(s, span, &mut hear);
            }
        }
    }
}
