//! Machines that differ in all that may differ, for random trials.

use rackproof_model::{Micrometres, Micros, quantity::Percent};

use crate::{
    Alarm, Asks, DrawBack, Edition, FirstZero, Machine, MachineParts, MiddleBeam, Mistrust,
    Neighbouring, Order, Priority, ReadyRule, Scope, ServiceParts, Unfitted, sample,
};

/// A machine whose site differs in all that may differ, by the bits of `variant`.
pub(crate) fn variant(variant: u32) -> Machine {
    let mut parts = sample::parts();
    let is = |bit: u32| variant >> bit & 1 == 1;
    let behaviours = &mut parts.behaviours;
    if is(0) {
        behaviours.machine_ready = ReadyRule::OnOffer;
    }
    if is(1) {
        behaviours.rails_zero = FirstZero::Opening;
    }
    if is(2) {
        behaviours.sweep_seen = Mistrust::All;
    }
    behaviours.rails_asked = !is(3);
    behaviours.runs_after_changeover = is(4);
    behaviours.whole_cycle_if_same = !is(5);
    if is(6) {
        parts.slots = 40;
    }
    if is(7) {
        // The longest and the shortest boards that a machine of this size takes.
        for (kind, length) in parts.kinds.iter_mut().zip([240, 168, 200, 168]) {
            kind.length = Micrometres::from_millimetres(length);
        }
    }
    vary_storing(&mut parts, variant >> 8);
    vary_service(&mut parts.service, variant >> 18);
    let mut machine = Machine::new(parts);
    if is(24) {
        // Downstream's rails are nearer than boards are wide, or far enough for one to fall.
        let old = [100, 260][usize::from(is(25))];
        machine = machine.with_neighbours(Neighbouring {
            nobody_behind: is(25),
            old_width: Some(Micrometres::from_millimetres(old)),
        });
    }
    if is(VARIANT_BITS - 1) {
        machine.with_faults(crate::faults::sample::faults())
    } else {
        machine
    }
}

/// How many bits [`variant`] reads. The last one is for faults.
pub(crate) const VARIANT_BITS: u32 = 27;

/// Settings, alarms, clear-out and unit as they may differ, by six bits.
fn vary_service(service: &mut ServiceParts, variant: u32) {
    let is = |bit: u32| variant >> bit & 1 == 1;
    if is(0) {
        service.clear_out_asks = Asks::Place;
        service.side_play_scope = Scope::Product;
    }
    service.downstream_takes = is(1);
    service.manual_mode = is(1);
    if is(2) {
        service.latching = ServiceParts::mask(&Alarm::ALL.map(|(_, alarm)| alarm));
    }
    service.unit_states = Edition::ALL[(variant >> 3) as usize % 3].1;
    if is(5) {
        service.unfitted = Unfitted::Waits;
        service.width_sensor = is(0);
    }
}

/// Storing and sending as they may differ, by ten bits.
fn vary_storing(parts: &mut MachineParts, variant: u32) {
    let is = |bit: u32| variant >> bit & 1 == 1;
    let orders = [
        Order::FirstInFirstOut,
        Order::LastInFirstOut,
        Order::StraightThrough,
        Order::FirstInFirstOut,
    ];
    let storing = &mut parts.storing;
    storing.order = orders[variant as usize % 4];
    if is(2) {
        storing.order_scope = Scope::Product;
    }
    if is(3) {
        storing.priority = Priority::Emptying;
    }
    if is(4) {
        storing.middle_beam = Some(MiddleBeam {
            at: Micrometres::from_millimetres(250),
            clearance: Micrometres::from_millimetres(5),
            reflectance: Percent(18),
        });
    }
    if is(5) {
        storing.draw_back = Some(DrawBack {
            past: Micrometres::from_millimetres(15),
            reflectance: Percent(18),
        });
    }
    if is(6) {
        storing.release_interval = Micros::from_seconds(12);
    }
    if is(7) {
        storing.arrival_time_out = Micros::from_seconds(15);
    }
    if is(8) {
        parts.kinds[2].above = Micrometres::from_millimetres(25);
        parts.kinds[2].below = Micrometres::from_millimetres(3);
    }
    for (number, product) in parts.products.iter_mut().enumerate() {
        product.storing.order = orders[(variant as usize + number) % 4];
        product.storing.tandem = true;
        product.storing.interval = if is(9) { 1 + number as u8 } else { 1 };
    }
}
