//! The memory of a program: bits, sets of half-slots, clocks. Plain data, and of one size whatever
//! happens.

use rackproof_buffer::Halves;
use rackproof_model::key::Coder;

use crate::{
    Program,
    formula::{At, Operator, SetAtom},
    limits::{BITS_MOST, CLOCKS_MOST, SET_CLOCKS_MOST, SETS_MOST},
};

/// Slots of the largest rack. Rules that fit there fit every rack.
pub(crate) const LARGEST_RACK: u32 = 40;

/// The memory of a program. Plain data.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Watch {
    bits: [u64; BITS_MOST / 64],
    pub(crate) sets: [Halves; SETS_MOST],
    /// Half-moments, see [`Clock`].
    pub(crate) clocks: [u32; CLOCKS_MOST],
    /// Those of windows over sets, see `set_clocks`.
    pub(crate) set_clocks: [u32; SET_CLOCKS_MOST],
}

impl Default for Watch {
    fn default() -> Watch {
        Watch {
            bits: [0; BITS_MOST / 64],
            sets: [Halves::NONE; SETS_MOST],
            clocks: [0; CLOCKS_MOST],
            set_clocks: [0; SET_CLOCKS_MOST],
        }
    }
}

/// How a clock of the memory runs. It counts half-moments (see `time`) and stops at its ceiling,
/// so that equal futures have equal clocks. Nought means: no witness, or none any more.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Clock {
    /// Window `[0, b]`: how long the newest witness still counts. Else window `[a, ∞)`: how long
    /// ago the oldest one was, and one more.
    pub(crate) within: bool,
    /// Its ceiling: twice the window, and one.
    pub(crate) most: u32,
    /// The arguments of its Since: what holds, and what came.
    pub(crate) holds: At,
    pub(crate) comes: At,
}

impl Clock {
    /// The clock after so many half-moments in which nothing came.
    pub(crate) fn aged(self, clock: u32, half_moments: u32) -> u32 {
        match (self.within, clock) {
            (true, _) => clock.saturating_sub(half_moments),
            (false, 0) => 0,
            (false, _) => clock.saturating_add(half_moments).min(self.most),
        }
    }

    /// The clock at a moment, after the time before it went by: `holds` and `comes` are the two
    /// arguments of Since.
    pub(crate) fn now(self, clock: u32, holds: bool, comes: bool) -> u32 {
        let begun = if self.within { self.most } else { 1 };
        let goes_on = holds && clock > 0;
        match (comes, self.within) {
            (true, true) => begun,
            (true, false) if !goes_on => begun,
            _ if goes_on => clock,
            _ => 0,
        }
    }

    /// Whether the operator holds.
    pub(crate) fn counts(self, clock: u32) -> bool {
        if self.within {
            clock > 0
        } else {
            clock == self.most
        }
    }

    /// How many half-moments it takes until the operator comes out otherwise, if its arguments stay
    /// as they are. `None`: it never does.
    pub(crate) fn room(self, clock: u32, holds: bool, comes: bool) -> Option<u32> {
        let runs = holds && clock > 0;
        match self.within {
            true if runs && !comes => Some(clock),
            false if runs && clock < self.most => Some(self.most - clock),
            _ => None,
        }
    }

    /// Whether it stands still while its arguments stay as they are.
    pub(crate) fn stands(self, holds: bool, comes: bool) -> bool {
        if self.within { comes } else { !holds }
    }

    /// Whether a window `[a, ∞)` is full now and was not before, or a window `[0, b]` ends now, or
    /// ended right before if its witness was in a gap.
    pub(crate) fn turned(self, before: u32, now: u32) -> bool {
        let turned = if self.within {
            now <= 1
        } else {
            now == self.most
        };
        before != now && turned
    }

    /// How many bits it needs in a key.
    pub(crate) fn width(self) -> u32 {
        u32::BITS - self.most.leading_zeros()
    }
}

impl Watch {
    pub(crate) fn bit(&self, place: u8) -> bool {
        self.bits[place as usize / 64] >> (place % 64) & 1 == 1
    }

    /// The first 64 bits.
    pub(crate) fn first_bits(&self) -> u64 {
        self.bits[0]
    }

    /// Puts them in the place of the first 64.
    pub(crate) fn keep_first_bits(&mut self, bits: u64) {
        self.bits[0] = bits;
    }

    pub(crate) fn keep(&mut self, place: u8, truth: bool) {
        let word = &mut self.bits[place as usize / 64];
        *word = *word & !(1 << (place % 64)) | u64::from(truth) << (place % 64);
    }
}

impl Program {
    /// Lets so many half-moments go by on all clocks.
    pub(crate) fn age(&self, watch: &mut Watch, half_moments: u32) {
        for (kind, clock) in self.clocks.iter().zip(&mut watch.clocks) {
            if *clock != 0 {
                *clock = kind.aged(*clock, half_moments);
            }
        }
        self.set_age(watch, half_moments);
    }

    /// How many bits the memory needs in a key, in the largest rack, without clocks of sets.
    pub(crate) fn memory_bits(&self) -> u32 {
        let clocks: u32 = self.clocks.iter().map(|clock| clock.width()).sum();
        u32::from(self.bits) + u32::from(self.sets) * 2 * LARGEST_RACK + clocks
    }

    /// The memory's fields in a key.
    pub fn code(&self, watch: &mut Watch, coder: &mut impl Coder) {
        let mut left = u32::from(self.bits);
        for word in &mut watch.bits {
            coder.mask(word, left.min(64));
            left = left.saturating_sub(64);
        }
        for set in watch.sets.iter_mut().take(self.sets as usize) {
            coder.mask(&mut set.infeed, u32::from(self.slots));
            coder.mask(&mut set.outfeed, u32::from(self.slots));
        }
        for (kind, clock) in self.clocks.iter().zip(&mut watch.clocks) {
            coder.word(clock, kind.width());
        }
        self.code_set_clocks(watch, coder);
    }

    /// The sets that count only when they are whole, or at the slot at the belts: nothing but Every
    /// and AtBelts reads them. For each: its place in memory, and what fills it.
    pub(crate) fn whole_sets(&self) -> Vec<(u8, SetAtom)> {
        let places = 0..self.operators.len();
        let whole = places.filter(|&at| self.reads_parts_of(at).is_none());
        whole.filter_map(|at| self.gathered(at)).collect()
    }

    /// If an operator gathers what comes of one atom: its place in memory, and the atom.
    pub(crate) fn gathered(&self, at: usize) -> Option<(u8, SetAtom)> {
        match self.operators[at] {
            Operator::SetSince(_, fill, place) => match self.operators[fill as usize] {
                Operator::Set(atom) => Some((place, atom)),
                _ => None,
            },
            _ => None,
        }
    }

    /// The first operator that reads more of this one than whether it is whole, or what it says of
    /// the slot at the belts.
    pub(crate) fn reads_parts_of(&self, at: usize) -> Option<usize> {
        self.operators.iter().position(|operator| match *operator {
            Operator::Every(_) | Operator::AtBelts(_) => false,
            other => {
                let mut reads = false;
                other.arguments(self, &mut |argument| reads |= argument as usize == at);
                reads
            }
        })
    }

    /// Whether a set of the memory is whole.
    pub(crate) fn is_whole(&self, watch: &Watch, place: u8) -> bool {
        self.is_whole_with(watch, place, Halves::NONE)
    }

    /// Whether a set of the memory is whole together with `more`.
    pub(crate) fn is_whole_with(&self, watch: &Watch, place: u8, more: Halves) -> bool {
        let set = watch.sets[place as usize].union(more);
        Halves::all(self.slots).without(set).is_empty()
    }

    /// Keeps of a set of the memory only what is in `only`.
    pub(crate) fn restrict(watch: &mut Watch, place: u8, only: Halves) {
        let set = &mut watch.sets[place as usize];
        *set = set.intersection(only);
    }
}
