//! Windows over sets: one clock for each half-slot, so that each has its own witness.
//!
//! A set that can only hold whole slots needs a clock for each slot, one that can only hold whole
//! sides needs two. So memory is bounded by the rack, whatever happens and however often.

use std::ops::Range;

use rackproof_buffer::{Half, Halves};
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
    /// Where its clocks lie: those of one side after those of the other, or of slots as a whole.
    fn parts(self, slots: u8) -> impl Iterator<Item = (Half, Range<usize>)> {
        let clocks = match self.grain {
            Grain::Half | Grain::Slot => usize::from(slots),
            Grain::Side => 1,
        };
        let sides = if self.grain == Grain::Slot { 1 } else { 2 };
        let parts = Half::BOTH.into_iter().take(sides).enumerate();
        parts.map(move |(number, half)| {
            let first = self.first + number * clocks;
            (half, first..first + clocks)
        })
    }

    /// What holds, and what comes.
    pub(crate) fn sets(self, values: &Values<'_>) -> [Halves; 2] {
        [self.clock.holds, self.clock.comes].map(|at| values.set(at))
    }

    fn places(self, slots: u8) -> Range<usize> {
        self.first..self.first + self.grain.clocks(usize::from(slots))
    }

    /// Puts what holds for the clocks of a part into a set, bit k for the k-th clock.
    fn put(self, set: &mut Halves, half: Half, bits: u64, all: Halves) {
        match self.grain {
            Grain::Half => *set.of_mut(half) = bits,
            Grain::Slot => (set.infeed, set.outfeed) = (bits, bits),
            Grain::Side => *set.of_mut(half) = if bits & 1 == 1 { all.of(half) } else { 0 },
        }
    }
}

/// What holds and what comes for some clocks, a bit for each.
#[derive(Clone, Copy, Debug)]
struct Bits {
    holds: u64,
    comes: u64,
    /// How many clocks there are.
    count: usize,
}

impl Bits {
    /// Those of a part, by what holds and what comes.
    fn of_part([holds, comes]: [Halves; 2], half: Half, count: usize) -> Bits {
        Bits {
            holds: holds.of(half),
            comes: comes.of(half),
            count,
        }
    }

    /// A bit for each clock.
    fn all(self) -> u64 {
        u64::MAX >> (64 - self.count)
    }

    /// Whether nothing comes and all goes on, so that each clock runs by itself. It mostly is so.
    fn is_plain(self) -> bool {
        self.comes == 0 && self.holds & self.all() == self.all()
    }

    fn of(self, at: usize) -> (bool, bool) {
        (self.holds >> at & 1 == 1, self.comes >> at & 1 == 1)
    }
}

impl Clock {
    /// The clocks for which the operator holds, and all of them after a moment or a gap.
    fn step_all<const GAP: bool>(self, clocks: &mut [u32], bits: Bits) -> u64 {
        let mut counting = 0;
        if bits.is_plain() {
            let least = if self.within { 1 } else { self.most };
            for (at, clock) in clocks.iter().enumerate() {
                counting |= u64::from(*clock >= least) << at;
            }
            return counting;
        }
        for (at, clock) in clocks.iter_mut().enumerate() {
            let (holds, comes) = bits.of(at);
            let now = self.now(*clock, holds, comes);
            *clock = if holds || !GAP { now } else { 0 };
            counting |= u64::from(self.counts(now)) << at;
        }
        counting
    }

    /// The least room of all.
    fn room_of_all(self, clocks: &[u32], bits: Bits) -> Option<u32> {
        if bits.is_plain() {
            return self.room_of_plain(clocks);
        }
        let rooms = clocks.iter().enumerate().map(|(at, &clock)| {
            let (holds, comes) = bits.of(at);
            self.room(clock, holds, comes)
        });
        rooms.flatten().min()
    }

    /// The least room of clocks that run by themselves. One less is kept on the way, so that none
    /// is the most.
    fn room_of_plain(self, clocks: &[u32]) -> Option<u32> {
        let least = if self.within {
            let rooms = clocks.iter().map(|clock| clock.wrapping_sub(1));
            rooms.fold(u32::MAX, u32::min)
        } else {
            let room = |clock: u32| (self.most - clock).wrapping_sub(1);
            let rooms = clocks.iter().map(|&clock| match clock {
                0 => u32::MAX,
                _ => room(clock),
            });
            rooms.fold(u32::MAX, u32::min)
        };
        (least != u32::MAX).then(|| least + 1)
    }

    /// Lets the last half-moment before a moment go by on all. Whether one of them turned: see
    /// [`Clock::turned`].
    fn arrive_all(self, clocks: &mut [u32]) -> bool {
        let turns = if self.within {
            clocks
                .iter()
                .fold(false, |turns, &clock| turns | (1..=2).contains(&clock))
        } else {
            let last = self.most - 1;
            clocks
                .iter()
                .fold(false, |turns, &clock| turns | (clock == last && clock != 0))
        };
        self.age_all(clocks, 1);
        turns
    }

    /// Lets half-moments go by on all.
    fn age_all(self, clocks: &mut [u32], half_moments: u32) {
        if self.within {
            for clock in clocks {
                *clock = clock.saturating_sub(half_moments);
            }
        } else {
            for clock in clocks {
                *clock = self.aged(*clock, half_moments);
            }
        }
    }

    /// Lets half-moments go by in which all stays as it is; `stands` says which stand still, bit k
    /// for the k-th.
    fn drift_all(self, clocks: &mut [u32], stands: u128, half_moments: u32) {
        if stands == 0 {
            return self.age_all(clocks, half_moments);
        }
        for (at, clock) in clocks.iter_mut().enumerate() {
            if stands >> at & 1 == 0 {
                *clock = self.aged(*clock, half_moments);
            }
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
        self.step_set_window::<GAP>(kind, kind.sets(values), watch)
    }

    /// The same by the sets: what holds, and what comes.
    pub(crate) fn step_set_window<const GAP: bool>(
        &self,
        kind: SetClock,
        sets: [Halves; 2],
        watch: &mut Watch,
    ) -> Halves {
        let (all, mut found) = (Halves::all(self.slots), Halves::NONE);
        for (half, places) in kind.parts(self.slots) {
            let bits = Bits::of_part(sets, half, places.len());
            let clocks = &mut watch.set_clocks[places];
            let counting = kind.clock.step_all::<GAP>(clocks, bits);
            kind.put(&mut found, half, counting, all);
        }
        found
    }

    /// How many half-moments it takes until a half-slot comes into a window or leaves it, if all
    /// stays as it is. See [`Clock::room`].
    pub(crate) fn set_room(&self, kind: SetClock, sets: [Halves; 2], watch: &Watch) -> Option<u32> {
        let parts = kind.parts(self.slots).filter_map(|(half, places)| {
            let bits = Bits::of_part(sets, half, places.len());
            kind.clock.room_of_all(&watch.set_clocks[places], bits)
        });
        parts.min()
    }

    /// The clocks of a window over sets that stand still while all stays as it is: bit n for the
    /// n-th of all. See [`Clock::stands`].
    pub(crate) fn set_stands(&self, kind: SetClock, sets: [Halves; 2]) -> u128 {
        kind.parts(self.slots).fold(0, |found, (half, places)| {
            let bits = Bits::of_part(sets, half, places.len());
            let stands = if kind.clock.within {
                bits.comes
            } else {
                !bits.holds
            };
            found | u128::from(stands & bits.all()) << places.start
        })
    }

    /// Lets half-moments go by in which all stays as it is; `stands` says which clocks of all stand
    /// still.
    pub(crate) fn set_drift(
        &self,
        kind: SetClock,
        stands: u128,
        watch: &mut Watch,
        half_moments: u32,
    ) {
        let places = kind.places(self.slots);
        let mask = (1 << places.len()) - 1;
        let stands = stands >> places.start & mask;
        kind.clock
            .drift_all(&mut watch.set_clocks[places], stands, half_moments);
    }

    /// Lets half-moments go by on all clocks of sets.
    pub(crate) fn set_age(&self, watch: &mut Watch, half_moments: u32) {
        for &kind in &self.set_clocks {
            let clocks = &mut watch.set_clocks[kind.places(self.slots)];
            kind.clock.age_all(clocks, half_moments);
        }
    }

    /// Lets the last half-moment before a moment go by on all clocks of sets. Whether one of them
    /// turned: see [`Clock::turned`].
    pub(crate) fn set_arrive(&self, watch: &mut Watch) -> bool {
        let mut turns = false;
        for &kind in &self.set_clocks {
            turns |= kind
                .clock
                .arrive_all(&mut watch.set_clocks[kind.places(self.slots)]);
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
