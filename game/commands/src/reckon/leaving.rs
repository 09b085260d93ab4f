//! A rack that is emptied, with as many boards inside as somebody says. The core reckons a full
//! one; here a rack that the machine filled from empty, board by board, is followed to its end.
//!
//! Source of the ways of the lift: the rules of storing, as `buffer` has them. The tests let the
//! machine itself fill and empty the rack and compare to the microsecond.

use rackproof_buffer::{Drain, Machine, Motion, Order, Sending};
use rackproof_model::{Micrometres, Micros};

/// The slots with boards in them, in the order in which they were filled, and how many each holds.
struct Rack {
    /// Slots that the product uses, from the lowest.
    used: Vec<u8>,
    /// Boards that one slot takes: 1 or 2.
    each: u8,
    /// Filled slots, with their boards.
    filled: Vec<(u8, u8)>,
}

impl Rack {
    /// A rack that took in so many boards: the lowest slots are full.
    fn with(machine: &Machine, product: u8, boards: u8) -> Rack {
        let capacity = machine.capacity(product);
        let each = capacity.boards_in_slot;
        let used: Vec<u8> = (0..capacity.slots)
            .step_by(usize::from(capacity.interval.max(1)))
            .collect();
        let boards_of = |number: usize| boards.saturating_sub(number as u8 * each).min(each);
        let filled = used.iter().enumerate();
        let filled = filled
            .map(|(number, &slot)| (slot, boards_of(number)))
            .filter(|(_, boards)| *boards > 0)
            .collect();
        Rack { used, each, filled }
    }

    /// Where the next board is stored: behind the one in the slot filled last, else in the lowest
    /// free slot, else nowhere.
    fn next_room(&self) -> Option<u8> {
        let open = self.filled.last().filter(|(_, held)| *held < self.each);
        let is_filled = |slot: u8| self.filled.iter().any(|(filled, _)| *filled == slot);
        let free = || self.used.iter().copied().find(|&slot| !is_filled(slot));
        open.map(|(slot, _)| *slot).or_else(free)
    }

    /// Where the lift waits: at the next room, else at the slot filled last.
    fn home(&self) -> u8 {
        let last = self.filled.last().map(|(slot, _)| *slot);
        self.next_room().or(last).unwrap_or(0)
    }

    /// Takes out the board that leaves next, and gives its slot.
    fn send(&mut self, order: Order) -> Option<u8> {
        let at = match order {
            Order::LastInFirstOut => self.filled.len().checked_sub(1)?,
            Order::FirstInFirstOut | Order::StraightThrough => 0,
        };
        let (slot, held) = self.filled.get_mut(at)?;
        let sent = *slot;
        *held -= 1;
        if *held == 0 {
            self.filled.remove(at);
        }
        Some(sent)
    }
}

/// Where the lift waits, from slot 0, with so many boards inside.
pub(super) fn waits_at(machine: &Machine, product: u8, boards: u8) -> u8 {
    Rack::with(machine, product, boards).home()
}

/// So many boards of a product, sent in the order in force with nothing coming in, behind a machine
/// that asks for one each `takt` at the earliest.
pub(super) fn drain(machine: &Machine, product: u8, boards: u8, takt: Micros) -> Drain {
    let mut rack = Rack::with(machine, product, boards);
    let parts = machine.parts();
    let lift = |from: u8, to: u8| {
        let way = (i32::from(to) - i32::from(from)) * parts.pitch.0;
        Motion::begin(&parts.axes.lift, Micrometres(way)).left()
    };
    let open = parts.signal_open.max(parts.storing.release_interval);
    // The belts do the same for every board.
    let whole = machine.drain(product, 0, takt);
    let belts = whole.sendings.first();
    let (draw_back, transfer) =
        belts.map_or((Micros(0), Micros(0)), |one| (one.draw_back, one.transfer));
    let order = machine.order_for(product);
    let mut at = rack.home();
    let mut sendings = Vec::with_capacity(usize::from(boards));
    while let Some(slot) = rack.send(order) {
        let index = lift(at, slot);
        // With no room at all the lift stays where it is.
        at = rack.next_room().unwrap_or(slot);
        let back = lift(slot, at);
        sendings.push(Sending {
            slot,
            index,
            draw_back,
            transfer,
            back,
            signal: Micros(open.0.saturating_sub(back.0)),
        });
    }
    Drain { sendings, takt }
}

#[cfg(test)]
pub(in crate::reckon) mod leaving_tests;
