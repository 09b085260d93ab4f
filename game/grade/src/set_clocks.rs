//! Windows over sets: one clock for each half-slot, so that each has its own witness.
//!
//! A set that can only hold whole slots needs a clock for each slot, one that can only hold whole
//! sides needs two. So memory is bounded by the rack, whatever happens and however often.

use std::ops::Range;

use rackproof_buffer::Halves;
use rackproof_model::key::Coder;

use crate::{
    Program, Watch,
    formula::{At, Operator, SetAtom, Values, Wider},
    limits::MEMORY_BITS_MOST,
    watch::{Clock, LARGEST_RACK},
};

/// What has a clock of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Grain {
    /// Each half-slot.
    Half,
    /// Each slot: its two halves are in the sets together or not at all.
    Slot,
    /// Each side, in the same way.
    Side,
}

impl Grain {
    /// How many clocks a rack of so many slots needs.
    pub(crate) fn clocks(self, slots: usize) -> usize {
        match self {
            Grain::Half => 2 * slots,
            Grain::Slot => slots,
            Grain::Side => 2,
        }
    }
}

/// The clocks of one operator with a window over sets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct SetClock {
    /// How each of them runs.
    pub(crate) clock: Clock,
    pub(crate) grain: Grain,
    /// Where they begin in the memory.
    pub(crate) first: usize,
}

impl SetClock {
    fn places(self, slots: u8) -> Range<usize> {
        self.first..self.first + self.grain.clocks(usize::from(slots))
    }

    /// The bits of a set that stand for its clocks, in their order.
    fn bits(self, set: Halves, slots: u8) -> u128 {
        match self.grain {
            Grain::Half => u128::from(set.infeed) | u128::from(set.outfeed) << slots,
            Grain::Slot => u128::from(set.infeed),
            Grain::Side => u128::from(set.infeed & 1 | (set.outfeed & 1) << 1),
        }
    }

    /// The set that such bits stand for.
    fn set(self, bits: u128, all: Halves, slots: u8) -> Halves {
        let side = |bit: u32, all: u64| if bits >> bit & 1 == 1 { all } else { 0 };
        match self.grain {
            Grain::Half => Halves {
                infeed: bits as u64 & all.infeed,
                outfeed: (bits >> slots) as u64 & all.outfeed,
            },
            Grain::Slot => Halves {
                infeed: bits as u64 & all.infeed,
                outfeed: bits as u64 & all.outfeed,
            },
            Grain::Side => Halves {
                infeed: side(0, all.infeed),
                outfeed: side(1, all.outfeed),
            },
        }
    }
}

impl Program {
    /// The half-slots for which an operator with a window over sets holds, and its memory after it.
    // Apart, so that sets without a window do not pay for it.
    #[inline(never)]
    pub(crate) fn in_set_window<const GAP: bool>(
        &self,
        place: u8,
        values: &Values<'_>,
        watch: &mut Watch,
    ) -> Halves {
        let kind = self.set_clocks[usize::from(place)];
        let (mut holds, mut comes) = self.set_bits(kind, values);
        let mut counting = 0_u128;
        for (at, clock) in watch.set_clocks[kind.places(self.slots)]
            .iter_mut()
            .enumerate()
        {
            let (is_held, is_come) = (holds & 1 == 1, comes & 1 == 1);
            let now = kind.clock.now(*clock, is_held, is_come);
            *clock = if is_held || !GAP { now } else { 0 };
            counting |= u128::from(kind.clock.counts(now)) << at;
            (holds, comes) = (holds >> 1, comes >> 1);
        }
        kind.set(counting, Halves::all(self.slots), self.slots)
    }

    /// What holds and what came, a bit for each clock.
    fn set_bits(&self, kind: SetClock, values: &Values<'_>) -> (u128, u128) {
        let bits = |at: At| kind.bits(values.set(at), self.slots);
        (bits(kind.clock.holds), bits(kind.clock.comes))
    }

    /// How many half-moments it takes until a half-slot comes into a window or leaves it, if all
    /// stays as it is in `values`. See [`Clock::room`].
    pub(crate) fn set_room(&self, watch: &Watch, values: &Values<'_>) -> Option<u32> {
        let mut least: Option<u32> = None;
        for &kind in &self.set_clocks {
            let (mut holds, mut comes) = self.set_bits(kind, values);
            for &clock in &watch.set_clocks[kind.places(self.slots)] {
                let room = kind.clock.room(clock, holds & 1 == 1, comes & 1 == 1);
                least = [least, room].into_iter().flatten().min();
                (holds, comes) = (holds >> 1, comes >> 1);
            }
        }
        least
    }

    /// Lets half-moments go by in which all stays as it is in `values`.
    pub(crate) fn set_drift(&self, watch: &mut Watch, values: &Values<'_>, half_moments: u32) {
        for &kind in &self.set_clocks {
            let (mut holds, mut comes) = self.set_bits(kind, values);
            for clock in &mut watch.set_clocks[kind.places(self.slots)] {
                if !kind.clock.stands(holds & 1 == 1, comes & 1 == 1) {
                    *clock = kind.clock.aged(*clock, half_moments);
                }
                (holds, comes) = (holds >> 1, comes >> 1);
            }
        }
    }

    /// Lets half-moments go by on all clocks of sets. Whether one of them turned: see
    /// [`Clock::turned`].
    pub(crate) fn set_age(&self, watch: &mut Watch, half_moments: u32) -> bool {
        let mut turns = false;
        for &kind in &self.set_clocks {
            for clock in &mut watch.set_clocks[kind.places(self.slots)] {
                let before = *clock;
                *clock = kind.clock.aged(before, half_moments);
                turns |= kind.clock.turned(before, *clock);
            }
        }
        turns
    }

    /// The clocks of sets in a key.
    pub(crate) fn code_set_clocks(&self, watch: &mut Watch, coder: &mut impl Coder) {
        for &kind in &self.set_clocks {
            for clock in &mut watch.set_clocks[kind.places(self.slots)] {
                coder.word(clock, kind.clock.width());
            }
        }
    }

    /// Whether the whole memory fits a key, so that states with it can be explored. Only clocks of
    /// sets can make it too long: the rest is limited when it is compiled.
    pub(crate) fn fits_key(&self) -> bool {
        let clocks = self.set_clocks.iter();
        let bits =
            clocks.map(|kind| kind.grain.clocks(self.slots.into()) as u32 * kind.clock.width());
        self.memory_bits() + bits.sum::<u32>() <= MEMORY_BITS_MOST
    }

    /// The coarsest grain of two sets: what is true of all that they are made of.
    pub(crate) fn grain(&self, a: At, b: At) -> Grain {
        let [slots, sides] = [Grain::Slot, Grain::Side].map(|grain| self.made_of(grain));
        let both = |made: &[bool]| made[a as usize] && made[b as usize];
        match (both(&sides), both(&slots)) {
            (true, _) => Grain::Side,
            (false, true) => Grain::Slot,
            (false, false) => Grain::Half,
        }
    }

    /// For each operator: whether it gives a set of nothing but whole slots, or whole sides.
    fn made_of(&self, grain: Grain) -> Vec<bool> {
        let mut made: Vec<bool> = Vec::with_capacity(self.operators.len());
        for operator in &self.operators {
            let of = |at: At| made[at as usize];
            let is = match *operator {
                Operator::Spread(_) => true,
                Operator::Set(SetAtom::Answered)
                | Operator::Wider(Wider::WholeSlots | Wider::PartSlots, _) => grain == Grain::Slot,
                Operator::Side(_) | Operator::Wider(Wider::WholeSides | Wider::PartSides, _) => {
                    grain == Grain::Side
                }
                Operator::SetNot(a) => of(a),
                Operator::SetAnd(a, b) | Operator::SetOr(a, b) | Operator::SetSince(a, b, _) => {
                    of(a) && of(b)
                }
                Operator::InSetWindow(place) => {
                    let clock = self.set_clocks[usize::from(place)].clock;
                    of(clock.holds) && of(clock.comes)
                }
                _ => false,
            };
            made.push(is);
        }
        made
    }
}

/// The clocks of the largest rack fit the memory at least once.
const _: () = assert!(2 * LARGEST_RACK as usize <= crate::limits::SET_CLOCKS_MOST);
