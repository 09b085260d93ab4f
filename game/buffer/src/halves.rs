//! The two halves of a slot, and sets of half-slots as bit masks.

/// The infeed or the outfeed half of a slot, along the flow.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Half {
    /// The half towards the infeed belt.
    Infeed,
    /// The half towards the outfeed belt.
    Outfeed,
}

impl Half {
    /// Both halves, in the order of the flow.
    pub const BOTH: [Half; 2] = [Half::Infeed, Half::Outfeed];

    /// The other one.
    #[must_use]
    pub fn other(self) -> Half {
        match self {
            Half::Infeed => Half::Outfeed,
            Half::Outfeed => Half::Infeed,
        }
    }
}

/// One half of one slot. Slots count from 0 at the bottom.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct HalfSlot {
    /// The slot, from 0.
    pub slot: u8,
    /// Which half of it.
    pub half: Half,
}

/// A set of half-slots: one mask a half, bit k for slot k.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Halves {
    /// Mask of infeed halves.
    pub infeed: u64,
    /// Mask of outfeed halves.
    pub outfeed: u64,
}

impl Halves {
    /// No half-slot.
    pub const NONE: Halves = Halves {
        infeed: 0,
        outfeed: 0,
    };

    /// Both halves of slots 0 to `slots` − 1.
    pub fn all(slots: u8) -> Halves {
        let mask = slots_mask(slots);
        Halves {
            infeed: mask,
            outfeed: mask,
        }
    }

    /// Both halves of one slot.
    pub fn slot(slot: u8) -> Halves {
        Halves {
            infeed: 1 << slot,
            outfeed: 1 << slot,
        }
    }

    /// One half-slot.
    pub fn one(at: HalfSlot) -> Halves {
        let mut halves = Halves::NONE;
        halves.insert(at);
        halves
    }

    /// The mask of one half.
    pub fn of(&self, half: Half) -> u64 {
        match half {
            Half::Infeed => self.infeed,
            Half::Outfeed => self.outfeed,
        }
    }

    /// The mask of one half, to be changed.
    pub fn of_mut(&mut self, half: Half) -> &mut u64 {
        match half {
            Half::Infeed => &mut self.infeed,
            Half::Outfeed => &mut self.outfeed,
        }
    }

    /// Puts a half-slot in.
    pub fn insert(&mut self, at: HalfSlot) {
        *self.of_mut(at.half) |= 1 << at.slot;
    }

    /// Takes a half-slot out.
    pub fn remove(&mut self, at: HalfSlot) {
        *self.of_mut(at.half) &= !(1 << at.slot);
    }

    /// Whether a half-slot is in.
    pub fn contains(&self, at: HalfSlot) -> bool {
        self.of(at.half) >> at.slot & 1 == 1
    }

    /// Whether nothing is in.
    pub fn is_empty(&self) -> bool {
        self.infeed | self.outfeed == 0
    }

    /// How many half-slots are in.
    pub fn len(&self) -> u32 {
        self.infeed.count_ones() + self.outfeed.count_ones()
    }

    /// What is in either.
    #[must_use]
    pub fn union(self, other: Halves) -> Halves {
        Halves {
            infeed: self.infeed | other.infeed,
            outfeed: self.outfeed | other.outfeed,
        }
    }

    /// What is in both.
    #[must_use]
    pub fn intersection(self, other: Halves) -> Halves {
        Halves {
            infeed: self.infeed & other.infeed,
            outfeed: self.outfeed & other.outfeed,
        }
    }

    /// What is in this one and not in the other.
    #[must_use]
    pub fn without(self, other: Halves) -> Halves {
        Halves {
            infeed: self.infeed & !other.infeed,
            outfeed: self.outfeed & !other.outfeed,
        }
    }

    /// The half-slots, from the lowest slot up, the infeed half of each slot first.
    pub fn iter(self) -> impl Iterator<Item = HalfSlot> {
        let mut left = self;
        std::iter::from_fn(move || {
            let slots = left.infeed | left.outfeed;
            if slots == 0 {
                return None;
            }
            let slot = slots.trailing_zeros() as u8;
            let half = if left.infeed >> slot & 1 == 1 {
                Half::Infeed
            } else {
                Half::Outfeed
            };
            let at = HalfSlot { slot, half };
            left.remove(at);
            Some(at)
        })
    }
}

/// The mask of slots 0 to `slots` − 1.
#[inline]
pub(crate) fn slots_mask(slots: u8) -> u64 {
    if slots >= 64 {
        u64::MAX
    } else {
        (1 << slots) - 1
    }
}
