//! How boards are stored and sent: what a machine file and its products say of it, and what the
//! controller believes beside the slot map.

use rackproof_model::{Micrometres, Micros, key::Coder, quantity::Percent};

use crate::{
    Board, BoardKind, Half, HalfSlot, Hear, Machine, MachineParts, SLOTS_MOST, State,
    halves::slots_mask,
};

/// Greatest slot interval: every eighth slot.
pub const INTERVAL_MOST: u8 = 8;

/// In which order boards leave.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Order {
    /// The one stored first leaves first.
    FirstInFirstOut,
    /// The slot filled last is emptied first. Within a slot the board nearer to the outfeed leaves
    /// first: it stands in the way of the other.
    LastInFirstOut,
    /// A board goes through the slot at the belts without being stored if the machine downstream
    /// is ready and nothing is stored; else first in, first out.
    StraightThrough,
}

/// Whose setting is in force.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scope {
    /// That of the loaded product.
    Product,
    /// That of the machine, for all products, whatever the page of a product shows.
    Machine,
}

/// What goes first when both neighbours wait.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Priority {
    /// The board from upstream is taken in.
    Filling,
    /// A stored board is sent.
    Emptying,
}

/// A beam in the middle of the rack, for two boards in one slot. Lengths in µm.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MiddleBeam {
    /// Where it crosses the slot, from the rack's infeed end.
    pub at: Micrometres,
    /// How far a board at rest must keep from it.
    pub clearance: Micrometres,
    /// Reflectance that it needs, in hundredths.
    pub reflectance: Percent,
}

/// Before a board is sent it runs a little past the outfeed mouth, is seen by a beam there, and is
/// drawn back: so the controller knows that it is there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DrawBack {
    /// How far past the rack's end its leading edge comes, in µm.
    pub past: Micrometres,
    /// Reflectance that the beam there needs, in hundredths.
    pub reflectance: Percent,
}

/// What the machine file says of storing and sending.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Storing {
    /// The machine's own order.
    pub order: Order,
    /// Whose order is in force.
    pub order_scope: Scope,
    /// What goes first when both neighbours wait.
    pub priority: Priority,
    /// The beam in the middle, where there is one. Without it no slot takes two boards.
    pub middle_beam: Option<MiddleBeam>,
    /// Whether and how boards are run past the mouth and drawn back.
    pub draw_back: Option<DrawBack>,
    /// Least time from one board sent to the next offer. Nought: only as long as a signal stays
    /// open. Over nought, a machine downstream whose signal never opens is sent to as well: an
    /// oven, a plain link.
    pub release_interval: Micros,
    /// Least time from the start of the belts after which a board counts as not arrived.
    pub arrival_time_out: Micros,
    /// Room kept free over tall parts when the least slot interval is worked out, in µm.
    pub part_margin: Micrometres,
}

impl Storing {
    /// What a file means that says nothing of it.
    pub const PLAIN: Storing = Storing {
        order: Order::FirstInFirstOut,
        order_scope: Scope::Machine,
        priority: Priority::Filling,
        middle_beam: None,
        draw_back: None,
        release_interval: Micros(0),
        arrival_time_out: Micros(0),
        part_margin: Micrometres(2_000),
    };
}

/// What a product says of storing and sending.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ProductStoring {
    /// Its order; in force if the scope is that of the product.
    pub order: Order,
    /// Every so many slots is used, 1 to [`INTERVAL_MOST`].
    pub interval: u8,
    /// Two boards in one slot, one behind the other.
    pub tandem: bool,
}

impl ProductStoring {
    /// What a product means that says nothing of it.
    pub const PLAIN: ProductStoring = ProductStoring {
        order: Order::FirstInFirstOut,
        interval: 1,
        tandem: false,
    };
}

/// What the controller believes of storing beside the slot map.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Stored {
    /// Slots believed to hold two boards, bit k for slot k. Counts only where the map says full.
    pairs: u64,
}

impl Stored {
    /// The fields in a key. What this machine cannot have is left out.
    pub(crate) fn code(&mut self, machine: &Machine, full: u64, coder: &mut impl Coder) {
        self.pairs &= full;
        if machine.parts.storing.middle_beam.is_some() {
            coder.mask(&mut self.pairs, u32::from(machine.parts.slots));
        } else {
            self.pairs = 0;
        }
    }
}

impl MachineParts {
    /// Where the leading edge of a board at rest is in each half, in µm from the rack's infeed end.
    pub fn rest_leads(&self) -> [Micrometres; 2] {
        crate::machine::rest_leads(self)
    }

    /// The longest board of which two fit into one slot: each must lie inside the rack and stop
    /// clear of the middle beam, in µm. `None` without a middle beam.
    ///
    /// Source: geometry; that a sensor in mid-rack limits the length is common practice.
    pub fn longest_tandem_board(&self) -> Option<Micrometres> {
        let beam = self.storing.middle_beam?;
        let [infeed_lead, outfeed_lead] = self.rest_leads();
        let infeed_room = if infeed_lead + beam.clearance <= beam.at {
            infeed_lead - self.rest_clearance
        } else {
            Micrometres(0)
        };
        let outfeed_room = outfeed_lead - beam.at - beam.clearance;
        Some(infeed_room.min(outfeed_room).max(Micrometres(0)))
    }

    /// Every how many slots boards of a kind can be stored, so that parts above and below keep
    /// free of each other.
    ///
    /// Source: common geometry, ⌈(height above + height below + thickness + margin) / pitch⌉.
    pub fn least_interval(&self, kind: &BoardKind) -> u8 {
        let height = kind.above.0 + kind.below.0 + kind.thickness.0 + self.storing.part_margin.0;
        let interval = (height + self.pitch.0 - 1) / self.pitch.0;
        interval.clamp(1, SLOTS_MOST as i32) as u8
    }

    /// The slots that are used with an interval, bit k for slot k: slot 1 and every so many above.
    pub(crate) fn slots_at(&self, interval: u8) -> u64 {
        let used = (0..self.slots).step_by(interval.max(1) as usize);
        used.fold(0, |mask, slot| mask | 1 << slot)
    }
}

impl Machine {
    /// The slots that the loaded product uses, of those that the controller counts, bit k for slot
    /// k. The others are not visited: not in production, not by the sweep, not by a clear-out.
    #[inline(always)]
    pub fn used_slots(&self, s: &State) -> u64 {
        self.used[s.loaded as usize] & slots_mask(s.service.settings.slot_count)
    }

    /// Whether a product uses a slot.
    pub fn uses(&self, product: u8, slot: u8) -> bool {
        self.used[product as usize] >> slot & 1 == 1
    }

    /// The highest slot that the loaded product uses.
    pub(crate) fn highest_used(&self, s: &State) -> u8 {
        63 - self.used_slots(s).leading_zeros() as u8
    }

    /// The next slot above this one that the loaded product uses.
    pub(crate) fn used_above(&self, s: &State, slot: u8) -> Option<u8> {
        lowest(self.used_slots(s) & !slots_mask(slot + 1))
    }

    /// The order in force: the machine's or the loaded product's, by the scope of that setting.
    pub fn order_in_force(&self, s: &State) -> Order {
        self.order_for(s.loaded)
    }

    /// The order in force with a product loaded.
    pub fn order_for(&self, product: u8) -> Order {
        match self.parts.storing.order_scope {
            Scope::Machine => self.parts.storing.order,
            Scope::Product => self.parts.products[product as usize].storing.order,
        }
    }

    /// Whether two boards are stored in one slot.
    #[inline]
    pub fn stores_pairs(&self, s: &State) -> bool {
        let fitted = self.parts.storing.middle_beam.is_some();
        fitted && self.parts.products[s.loaded as usize].storing.tandem
    }

    /// How many boards the controller believes in a slot.
    pub fn believed_boards(&self, s: &State, slot: u8) -> u8 {
        let is = |mask: u64| (mask >> slot & 1) as u8;
        is(s.map.full) + is(s.map.full & s.stored.pairs)
    }

    /// The slot that waits for its second board: the one stored last, so that no board overtakes.
    #[inline]
    fn open_pair(&self, s: &State) -> Option<u8> {
        // Mostly a slot takes one.
        if !self.stores_pairs(s) {
            return None;
        }
        self.slot_of_open_pair(s)
    }

    #[inline(never)] // keeps those small that ask for it
    fn slot_of_open_pair(&self, s: &State) -> Option<u8> {
        let last = (s.order_len as usize).checked_sub(1)?;
        let slot = s.order[last];
        let open = s.map.full & !s.map.unknown & !s.stored.pairs & self.used_slots(s);
        (open >> slot & 1 == 1).then_some(slot)
    }

    /// The slots that are believed empty, of those that the loaded product uses, bit k for slot k.
    #[inline(always)]
    pub(crate) fn free_slots(&self, s: &State) -> u64 {
        self.used_slots(s) & !(s.map.full | s.map.unknown)
    }

    /// Where the next board is stored: behind the last one in its slot, or in the lowest free slot.
    pub(crate) fn next_room(&self, s: &State) -> Option<u8> {
        self.open_pair(s).or_else(|| lowest(self.free_slots(s)))
    }

    /// Whether the controller believes that the slot takes one more board, where slots take two or
    /// not.
    #[inline(always)] // a call would make each event dearer that closes a signal
    pub(crate) fn has_room(&self, s: &State, pairs: bool) -> bool {
        // A slot is below 40: the 63 only spares a check of that.
        let is = |slots: u64| slots >> (s.slot & 63) & 1 == 1;
        let used = s.slot < s.service.settings.slot_count && is(self.used[s.loaded as usize]);
        used && !is(s.map.full | s.map.unknown)
            || pairs && self.slot_of_open_pair(s) == Some(s.slot)
    }

    /// The half in which the next board of a slot comes to rest.
    pub(crate) fn half_to_fill(&self, s: &State, slot: u8) -> Half {
        if self.open_pair(s) == Some(slot) {
            Half::Infeed
        } else {
            Half::Outfeed
        }
    }

    /// The slot that is sent next. Only where something is stored.
    pub(crate) fn next_to_send(&self, s: &State) -> u8 {
        match self.order_in_force(s) {
            Order::LastInFirstOut => s.order[(s.order_len as usize).saturating_sub(1)],
            Order::FirstInFirstOut | Order::StraightThrough => s.order[0],
        }
    }

    /// Puts a board into the rack as one that was stored before: the controller knows of it, and
    /// sends it after those that it has. False if there is no room.
    pub fn begin_stored(&self, s: &mut State, at: HalfSlot, board: Board, hear: &mut Hear) -> bool {
        let fits = self.put_in_rack(s, at, board, hear);
        if fits {
            self.note_stored(s, at.slot);
        }
        fits
    }

    /// A board was stored in a slot.
    #[inline]
    pub(crate) fn note_stored(&self, s: &mut State, slot: u8) {
        let bit = 1 << slot;
        if s.map.full & bit == 0 {
            s.order[s.order_len as usize] = slot;
            s.order_len += 1;
            s.stored.pairs &= !bit;
        } else {
            s.stored.pairs |= bit;
        }
        s.map.full |= bit;
        s.map.said_empty &= !bit;
        s.map.said_taken &= !bit;
    }

    /// A board of a slot was sent.
    #[inline(always)] // the short way and the long one
    pub(crate) fn note_sent(&self, s: &mut State, slot: u8) {
        let bit = 1 << slot;
        if s.map.full & s.stored.pairs & bit != 0 {
            s.stored.pairs &= !bit;
            return;
        }
        s.map.full &= !bit;
        let len = s.order_len as usize;
        if len > 0 && s.order[0] == slot {
            // Mostly the one filled first is sent first.
            s.order.copy_within(1.., 0);
            s.order[SLOTS_MOST - 1] = 0;
            s.order_len -= 1;
        } else if let Some(at) = s.order[..len].iter().position(|&queued| queued == slot) {
            s.order[..len].copy_within(at + 1.., at);
            s.order_len -= 1;
            s.order[s.order_len as usize] = 0;
        }
    }
}

/// The lowest slot of some, bit k for slot k.
#[inline]
pub(crate) fn lowest(slots: u64) -> Option<u8> {
    (slots != 0).then_some(slots.trailing_zeros() as u8)
}
