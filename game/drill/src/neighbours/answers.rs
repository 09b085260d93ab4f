//! How the contacts of the neighbours follow what is so, and what they do to boards.

use rackproof_buffer::{Board, Contact, Side};

use crate::{
    Available, Ready, State, Works, World,
    act::Hear,
    neighbours::{Downstream, FailedLine, Mark, Upstream},
};

/// Rounds in which contacts answer each other at one moment. More would be a circle.
const ROUNDS: u32 = 8;

impl World {
    /// The neighbours' contacts answer what is so now. A contact stays as it is while a board is
    /// handed over: Board Available until it has left, Machine Ready until it has arrived. But for
    /// those that drop it.
    pub(crate) fn neighbours_answer(&self, s: &mut State, hear: &mut Hear) {
        if !self.has_neighbours() {
            return;
        }
        for _ in 0..ROUNDS {
            let before = (s.machine, s.next_door);
            self.lapses_answer(s, hear);
            if let Some(upstream) = self.upstream_now(s) {
                self.upstream_answers(upstream, s, hear);
            }
            if let Some(downstream) = self.downstream_now(s) {
                self.downstream_answers(downstream, s, hear);
            }
            if before == (s.machine, s.next_door) {
                return;
            }
        }
    }

    fn upstream_answers(&self, upstream: Upstream, s: &mut State, hear: &mut Hear) {
        let machine = self.machine();
        if machine.hands_over(&s.machine, Side::Infeed) {
            return;
        }
        if upstream.available == Available::ByHand {
            self.feeds_by_hand(s, hear);
        }
        let failed = upstream.failed_line == FailedLine::Either && self.next_has_failed(s);
        let waits = match upstream.available {
            Available::AtExit | Available::Jumper => false,
            Available::WhenReady => !machine.signal_given(&s.machine, Side::Infeed),
            Available::TestBox | Available::ByHand => true,
        };
        let offers =
            self.upstream_works(upstream, s) && s.next_door.has(Mark::AtExit) && !failed && !waits;
        let offer = s.leftover.filter(|_| offers);
        let claims = match upstream.available {
            Available::Jumper | Available::TestBox => true,
            Available::ByHand => s.next_door.has(Mark::Presses),
            Available::AtExit | Available::WhenReady => false,
        };
        if s.machine.neighbour_signal(Side::Infeed) != (offer.is_some() || claims)
            || s.machine.upstream_board() != offer
        {
            self.with_machine(s, hear, |world, machine, tell| {
                let buffer = world.machine();
                buffer.upstream_signal(machine, offer, tell);
                buffer.upstream_claims(machine, claims, tell);
            });
        }
        self.pushes_by_stuck_contact(s, hear);
    }

    /// By a contact of our Machine Ready that stays closed, upstream takes us to be ready when we
    /// are not. Its belts push the board that it offers onto our belt.
    fn pushes_by_stuck_contact(&self, s: &mut State, hear: &mut Hear) {
        let stuck = self
            .machine()
            .contact_fault(&s.machine, Contact::OwnReady)
            .is_some_and(|closed| closed);
        let Some(board) = s.machine.upstream_board().filter(|_| stuck) else {
            return;
        };
        let rests = !s.machine.moves() && s.machine.infeed_belt.is_none();
        let fits = self.machine().goes_between_rails(&s.machine, board);
        if rests && fits && !s.machine.machine_ready() {
            self.lay_on_belt(s, board, hear);
        }
    }

    /// Whether upstream gives boards now: it runs, nobody holds it, and its boards go with our
    /// rails as far as it can see, or it does not look.
    fn upstream_works(&self, upstream: Upstream, s: &State) -> bool {
        upstream.works != Works::Stopped
            && !s.upstream_held
            && !s.next_door.has(Mark::Dropped(Side::Infeed))
            && (!self.line_has_changed(s)
                || self.has_old_rails(s, Side::Infeed)
                || self.gives_next_product(s))
    }

    /// Whether upstream's boards are those of the product that the drill asks for.
    fn gives_next_product(&self, s: &State) -> bool {
        let next = self.machine().parts().products[self.drill().next as usize].kind;
        let is_next = |board: Board| self.machine().base_kind(board.kind) == next;
        s.leftover.is_some_and(is_next)
    }

    /// Lays the next board on our belt when that is free, and presses the button until it runs.
    fn feeds_by_hand(&self, s: &mut State, hear: &mut Hear) {
        let runs = !s.machine.motions()[2].is_rest();
        if runs {
            s.next_door.set(Mark::Presses, false);
        }
        let free = !runs && s.machine.infeed_belt.is_none();
        let gives = |upstream| self.upstream_works(upstream, s);
        if let Some(board) = s.leftover.filter(|_| free && s.next_door.has(Mark::AtExit))
            && self.upstream().is_some_and(gives)
        {
            self.lay_on_belt(s, board, hear);
            if s.machine.infeed_belt.is_some() {
                s.next_door.set(Mark::Presses, true);
            }
        }
    }

    fn downstream_answers(&self, downstream: Downstream, s: &mut State, hear: &mut Hear) {
        let machine = self.machine();
        let runs =
            downstream.works != Works::Stopped && !s.next_door.has(Mark::Dropped(Side::Outfeed));
        let room = runs && !s.next_door.has(Mark::Busy) && !s.downstream_held;
        let takes = match downstream.ready {
            Ready::Design => runs,
            Ready::Room | Ready::OnOffer | Ready::Jumper => room,
            // Nobody is there to stand in its way.
            Ready::TestBox => true,
        };
        let is_old = self.has_old_rails(s, Side::Outfeed);
        machine.downstream_stands(&mut s.machine, !takes, is_old);
        let shows = room || self.still_closed(s).is_some();
        let closed = match downstream.ready {
            Ready::Room => shows,
            Ready::OnOffer => shows && machine.signal_given(&s.machine, Side::Outfeed),
            Ready::Jumper | Ready::Design | Ready::TestBox => true,
        };
        let stays = machine.hands_over(&s.machine, Side::Outfeed)
            && !s.next_door.has(Mark::Dropped(Side::Outfeed));
        if s.machine.neighbour_signal(Side::Outfeed) != closed && !stays {
            self.signal_of_downstream(s, closed, hear);
        }
    }

    pub(super) fn signal_of_downstream(&self, s: &mut State, closed: bool, hear: &mut Hear) {
        self.with_machine(s, hear, |world, machine, tell| {
            world.machine().downstream_signal(machine, closed, tell);
        });
    }

    /// A contact that chatters opens and closes again as a board leaves us.
    pub(crate) fn chatters(&self, s: &mut State, hear: &mut Hear) {
        let chatters = self.downstream().is_some_and(|one| one.chatters);
        if chatters && s.machine.neighbour_signal(Side::Outfeed) {
            self.signal_of_downstream(s, false, hear);
            self.signal_of_downstream(s, true, hear);
        }
    }
}
