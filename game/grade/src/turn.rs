//! What a circuit found at one moment or in one gap, as far as time that passes has to know of it.

use rackproof_buffer::Halves;

use crate::{Program, Watch, formula::Values, set_clocks::SetClock, watch::Clock};

/// What was found at a half-moment: how long it stays so, and what becomes of the clocks meanwhile.
pub(crate) trait Found {
    /// How many half-moments it takes until an operator with a window comes out otherwise, if all
    /// its arguments stay as they are. `None`: it never does. `watch` is the memory after it.
    fn room(&self, program: &Program, watch: &Watch) -> Option<u32>;

    /// Lets half-moments go by in which all arguments stay as they are.
    fn drift(&self, program: &Program, watch: &mut Watch, half_moments: u32);
}

impl Found for Values<'_> {
    fn room(&self, program: &Program, watch: &Watch) -> Option<u32> {
        let clocks = program.clocks.iter().zip(&watch.clocks);
        let changes = clocks.filter_map(|(kind, &clock)| {
            kind.room(clock, self.truth(kind.holds), self.truth(kind.comes))
        });
        let sets = program.set_clocks.iter();
        let sets = sets.filter_map(|&kind| program.set_room(kind, kind.sets(self), watch));
        changes.chain(sets).min()
    }

    fn drift(&self, program: &Program, watch: &mut Watch, half_moments: u32) {
        for (kind, clock) in program.clocks.iter().zip(&mut watch.clocks) {
            if !kind.stands(self.truth(kind.holds), self.truth(kind.comes)) {
                *clock = kind.aged(*clock, half_moments);
            }
        }
        for &kind in &program.set_clocks {
            let stands = program.set_stands(kind, kind.sets(self));
            program.set_drift(kind, stands, watch, half_moments);
        }
    }
}

/// What a circuit found.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Turn {
    /// The mask of rules that do not hold.
    pub(crate) fails: u64,
    /// The least room of all windows, one less; [`u32::MAX`] if there is none.
    room: u32,
    /// The clocks that stand still while all stays as it is, bit n for the n-th.
    stands: u64,
    /// The same for the clocks of sets.
    set_stands: u128,
}

impl Default for Turn {
    fn default() -> Turn {
        Turn {
            fails: 0,
            room: u32::MAX,
            stands: 0,
            set_stands: 0,
        }
    }
}

impl Turn {
    /// Takes up a window whose clock runs by itself and is not nought.
    #[inline]
    pub(crate) fn run(&mut self, kind: Clock, clock: u32) {
        self.narrow(kind.room(clock, true, false));
    }

    /// Takes up a window, after its step.
    #[inline]
    pub(crate) fn take(
        &mut self,
        kind: Clock,
        place: u8,
        clock: u32,
        (holds, comes): (bool, bool),
    ) {
        self.narrow(kind.room(clock, holds, comes));
        self.stands |= u64::from(kind.stands(holds, comes)) << place;
    }

    /// Takes up a window over sets, after its step: what holds, and what comes.
    pub(crate) fn take_set(
        &mut self,
        program: &Program,
        kind: SetClock,
        sets: [Halves; 2],
        watch: &Watch,
    ) {
        self.narrow(program.set_room(kind, sets, watch));
        self.set_stands |= program.set_stands(kind, sets);
    }

    fn narrow(&mut self, room: Option<u32>) {
        // A room is one half-moment at least.
        self.room = self.room.min(room.map_or(u32::MAX, |room| room - 1));
    }
}

impl Found for Turn {
    fn room(&self, _: &Program, _: &Watch) -> Option<u32> {
        (self.room != u32::MAX).then(|| self.room + 1)
    }

    fn drift(&self, program: &Program, watch: &mut Watch, half_moments: u32) {
        if half_moments == 0 {
            return;
        }
        let clocks = program.clocks.iter().zip(&mut watch.clocks);
        for (place, (kind, clock)) in clocks.enumerate() {
            if *clock != 0 && self.stands >> place & 1 == 0 {
                *clock = kind.aged(*clock, half_moments);
            }
        }
        for &kind in &program.set_clocks {
            program.set_drift(kind, self.set_stands, watch, half_moments);
        }
    }
}

/// A clock of a set has its bit in a mask.
const _: () = assert!(crate::limits::SET_CLOCKS_MOST <= u128::BITS as usize);
