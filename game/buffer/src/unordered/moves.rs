//! A move of the lift as a class of states has it: where it came from, and how far it is.

use rackproof_model::{Micrometres, Micros};

use crate::{LiftPlace, Machine, Motion, State};

impl Machine {
    /// On its way to a place from the one beside it. While a signal's time runs it has been on its
    /// way for as long as it was, and goes on for as long if it may arrive before that is over.
    pub(super) fn come_from_next(&self, s: &mut State, to: LiftPlace) {
        let from = match to {
            LiftPlace::At(0) => LiftPlace::At(1),
            LiftPlace::At(slot) => LiftPlace::At(slot - 1),
            _ => LiftPlace::At(0),
        };
        let way = self.height(to) - self.height(from);
        let mut lift = Motion::begin(&self.parts.axes.lift, way);
        if signal_waits(s) {
            let signals = s.ready_open_left.max(s.available_open_left);
            lift.pass(s.lift.elapsed().min(lift.left()));
            if lift.left().min(s.lift.left()) <= signals {
                s.lift = s.lift.upwards();
                s.lift_from = self.height(to) - s.lift.way();
                s.lift_place = self.place_at(s.lift_from);
                return;
            }
        } else {
            lift.pass(Micros(lift.left().0 / 2));
        }
        s.lift = lift;
        s.lift_place = from;
        s.lift_from = self.height(from);
    }

    /// A sweep stands for all moments between two slots, or for that at which it passed the lower.
    /// One that a stop leaves where it is stands for itself.
    pub(super) fn forget_since_slot(&self, s: &mut State) {
        if signal_waits(s) || self.stays_if_stopped(s) {
            return;
        }
        let axis = &self.parts.axes.lift;
        let begun = Motion::begin(axis, s.lift.way());
        let passes = |slot: u8| {
            let way = self.height(LiftPlace::At(slot)) - s.lift_from;
            begun.time_to(axis, way)
        };
        let before = s.slot.checked_sub(1).and_then(passes).unwrap_or_default();
        let after = passes(s.slot).unwrap_or(begun.left());
        if s.lift.elapsed() > before {
            s.lift = begun;
            s.lift.pass(Micros(before.0 + (after.0 - before.0) / 2));
        }
    }

    /// Braked, to come to rest there.
    pub(super) fn stop_at(&self, s: &mut State, place: LiftPlace) {
        if !signal_waits(s) {
            let axis = &self.parts.axes.lift;
            let whole = i32::from(self.parts.slots - 1) * self.parts.pitch.0;
            let mut lift = Motion::begin(axis, Micrometres(whole));
            lift.pass(Micros(lift.left().0 / 2));
            s.lift = lift.brake(axis);
        }
        s.lift = s.lift.upwards();
        // It began elsewhere: what comes to rest where it began has not moved.
        s.lift_place = match place {
            LiftPlace::At(0) => LiftPlace::Reference,
            _ => LiftPlace::At(0),
        };
        s.lift_from = self.height(place) - s.lift.way();
    }
}

/// Whether one of our signals is to stay open for some time yet: what else goes on then is timed by
/// it, and the other way round.
fn signal_waits(s: &State) -> bool {
    s.ready_open_left.0 | s.available_open_left.0 != 0
}
