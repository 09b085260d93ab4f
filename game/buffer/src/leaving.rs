//! A rack that is emptied, with as many boards inside as somebody says: in which order they leave,
//! and where the lift waits between them, reckoned without running anything.
//!
//! Source of the ways of the lift: the rules of storing, as `storing.rs` has them. The tests here
//! and those of `reckon` let the machine itself fill and empty its rack and compare to the
//! microsecond.

use rackproof_model::{Micrometres, Micros};

use crate::{Drain, LiftPlace, Machine, Motion, Order, Sending};

/// The slots with boards in them, in the order in which they were filled, and how many each holds.
struct Filled {
    /// Slots that the product uses, from the lowest.
    used: Vec<u8>,
    /// Boards that one slot takes: 1 or 2.
    each: u8,
    /// Filled slots, with their boards.
    slots: Vec<(u8, u8)>,
}

impl Filled {
    /// Where the next board is stored: behind the one in the slot filled last, else in the lowest
    /// free slot, else nowhere.
    fn next_room(&self) -> Option<u8> {
        let open = self.slots.last().filter(|(_, held)| *held < self.each);
        let is_filled = |slot: u8| self.slots.iter().any(|(filled, _)| *filled == slot);
        let free = || self.used.iter().copied().find(|&slot| !is_filled(slot));
        open.map(|(slot, _)| *slot).or_else(free)
    }

    /// Where the lift waits: at the next room, else at the slot filled last.
    fn home(&self) -> u8 {
        let last = self.slots.last().map(|(slot, _)| *slot);
        self.next_room().or(last).unwrap_or(0)
    }

    /// Takes out the board that leaves next, and gives its slot.
    fn send(&mut self, order: Order) -> Option<u8> {
        let at = match order {
            Order::LastInFirstOut => self.slots.len().checked_sub(1)?,
            Order::FirstInFirstOut | Order::StraightThrough => 0,
        };
        let (slot, held) = self.slots.get_mut(at)?;
        let sent = *slot;
        *held -= 1;
        if *held == 0 {
            self.slots.remove(at);
        }
        Some(sent)
    }
}

impl Machine {
    /// A rack that took in so many boards of a product: the lowest slots are full. At most as many
    /// as fit count.
    fn filled(&self, product: u8, boards: u8) -> Filled {
        let each = self.capacity(product).boards_in_slot;
        let used = self.slots_of(product);
        let held = |number: usize| boards.saturating_sub(number as u8 * each).min(each);
        let slots = used.iter().enumerate();
        let slots = slots
            .map(|(number, &slot)| (slot, held(number)))
            .filter(|(_, held)| *held > 0)
            .collect();
        Filled { used, each, slots }
    }

    /// The slot, from 0, at which the lift waits with so many boards of a product inside.
    pub fn waits_at(&self, product: u8, boards: u8) -> u8 {
        self.filled(product, boards).home()
    }

    /// So many boards of a product, sent in the order in force with nothing coming in, behind a
    /// machine that asks for one each `takt` at the earliest. The lift stands at slot `from`.
    pub fn drain(&self, product: u8, boards: u8, from: u8, takt: Micros) -> Drain {
        let mut rack = self.filled(product, boards);
        let order = self.order_for(product);
        let (draw_back, transfer) = self.belts_of_sending(product);
        let storing = &self.parts.storing;
        let open = self.parts.signal_open.max(storing.release_interval);
        let mut at = from;
        let mut sendings = Vec::with_capacity(usize::from(boards));
        while let Some(slot) = rack.send(order) {
            let index = self.lift_time(LiftPlace::At(at), LiftPlace::At(slot));
            // With no room at all the lift stays where it is.
            at = rack.next_room().unwrap_or(slot);
            let back = self.lift_time(LiftPlace::At(slot), LiftPlace::At(at));
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

    /// What the belts take for each board of a product that is sent: a little past the mouth and
    /// back, where the machine does so, and until it has left.
    fn belts_of_sending(&self, product: u8) -> (Micros, Micros) {
        let kind = &self.parts.kinds[self.parts.products[product as usize].kind as usize];
        let [_, rest] = self.rest_leads().map(|lead| lead.0);
        let time = |way: i32| Motion::begin(&self.parts.axes.belts, Micrometres(way)).left();
        let draw_back = self.parts.storing.draw_back.map_or(Micros(0), |back| {
            let past = time(self.parts.rack_length.0 + back.past.0 - rest);
            past + past
        });
        (draw_back, time(self.outfeed_end() + kind.length.0 - rest))
    }
}
