//! Straight through: a board goes by the slot at the belts to the machine downstream without being
//! stored.

use rackproof_model::Micros;

use crate::{Hear, Machine, Order, Outcome, Phase, State, runners::Purpose};

impl Machine {
    /// Whether the board on offer goes straight through: the machine downstream is ready, and no
    /// stored board would be overtaken.
    pub(crate) fn goes_through(&self, s: &State) -> bool {
        let may_offer = s.board_available || s.available_open_left == Micros(0);
        self.order_in_force(s) == Order::StraightThrough
            && s.order_len == 0
            && self.is_called(s)
            && may_offer
    }

    /// Closes Board Available, then runs the board on offer through.
    pub(crate) fn pass_through(&self, s: &mut State, hear: &mut Hear) {
        if !s.board_available {
            self.set_board_available(s, true, hear);
            return;
        }
        s.upstream_fresh = false;
        s.downstream_fresh = false;
        s.phase = Phase::PassingThrough;
        self.run_belts(s, Purpose::Through, self.incoming(s), hear);
    }

    /// The belts that ran a board through came to rest.
    pub(crate) fn passed(&self, s: &mut State, sent: bool, ran: Micros, hear: &mut Hear) {
        self.set_machine_ready(s, false, hear);
        self.board_left(s, hear);
        if !sent {
            return self.await_arrival(s, ran, hear);
        }
        hear(Outcome::BoardPassed(s.slot));
        self.produce(s, hear);
    }
}
