//! What nothing asks of a state any more, though it is there: how a stop goes on of which only the
//! end counts, and which product is loaded where another load comes first.

use rackproof_model::Micrometres;

use crate::{Machine, Motion, Phase, State, Task};

impl Machine {
    /// Forgets how fast and how far a stop of the lift still goes, where nothing can come of it but
    /// that the lift is at rest at its end. With a board across a mouth it counts how far the lift
    /// goes, beside another axis or a timer which of them ends first, and with faults perhaps both.
    /// Our signals are open: one that opens later would begin a timer.
    pub fn forget_braking(&self, s: &mut State) {
        let brakes = !s.lift.is_rest() && !s.lift.is_run();
        if !brakes || s.mouths != [None; 2] || s.phase == Phase::Sweeping {
            return;
        }
        let alone = s.rails.is_rest()
            && s.belts.is_rest()
            && s.next_timer().is_none()
            && !(s.machine_ready || s.board_available);
        let end = s.lift_from + s.lift.way();
        // What has not moved at all does not tell that it came to rest.
        let moves = s.lift.way().0 != 0 || self.height(s.lift_place) != end;
        if alone && moves && self.faults.is_empty() {
            s.lift_place = self.place_at(end);
            s.lift_from = self.height(s.lift_place);
            s.lift = Motion::RUNS_OUT;
        }
    }

    /// Forgets which product is loaded, where another load comes before anything that asks for it:
    /// no changeover is chosen, and the width is not known, so production does not start. Where
    /// the rails truly stand at `wanted`, a finish may ask for it all the same. For a machine of
    /// which [`Machine::stores_alike`] says that its products differ in their widths alone.
    pub fn forget_loaded(&self, s: &mut State, wanted: Micrometres) {
        let asked_for = s.width_known || s.width_from == wanted || !s.rails.is_rest();
        if s.task == Task::Changeover || asked_for || s.edited.is_some() {
            return;
        }
        (s.chosen, s.loaded) = (0, 0);
        self.load_figures(s);
    }

    /// Whether all products use the same slots, in the same order, as many boards a slot.
    pub fn stores_alike(&self) -> bool {
        let products = &self.parts.products;
        let pairs = |product: usize| {
            self.parts.storing.middle_beam.is_some() && products[product].storing.tandem
        };
        (1..products.len()).all(|product| {
            self.used[product] == self.used[0]
                && self.order_for(product as u8) == self.order_for(0)
                && pairs(product) == pairs(0)
        })
    }
}

#[cfg(test)]
#[path = "forgetting_tests.rs"]
mod tests;
