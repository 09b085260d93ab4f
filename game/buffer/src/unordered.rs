//! The order of slots is forgotten: which of the slots holds what does not count, only how many
//! hold it. The lowest slot is kept apart, and so are those that hands reach from under the lift.
//!
//! A state stands for all in which the slots of a *run* have changed places. With their order goes
//! all that hangs on it: how far the lift has to go, and where it stands when it is stopped on its
//! way. That merges states that do not behave alike, so that what follows the class is what follows
//! any of its [members](Machine::in_other_orders). It is an over-approximation: what can be done on
//! the machine as it is can be done here, and perhaps more.

use crate::{
    Condition, Half, HalfSlot, LiftPlace, Machine, Motion, Phase, Rack, SLOTS_MOST, State,
};

/// The lift stands at the slot, or began to move there.
const LIFT_HERE: u32 = 1 << 31;
/// The controller is about the slot.
const PHASE_HERE: u32 = 1 << 30;
/// Most masks of evidence that tell slots apart.
pub(crate) const COLUMNS_MOST: usize = 12;

/// How slots change places.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shuffle {
    /// For each slot: the one whose content comes to it.
    from: [u8; SLOTS_MOST],
}

/// What tells the slots of a state apart: a word each, and where runs begin.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Ranks {
    words: [u32; SLOTS_MOST],
    /// Slots that cannot change places with the one below, bit k for slot k.
    begins: u64,
    slots: u8,
}

impl Shuffle {
    fn none() -> Shuffle {
        Shuffle {
            from: std::array::from_fn(|slot| slot as u8),
        }
    }

    /// A mask of slots after the change.
    pub fn mask(&self, mask: u64) -> u64 {
        let slots = self.from.iter().enumerate();
        slots.fold(0, |found, (slot, &from)| found | (mask >> from & 1) << slot)
    }

    /// Where a slot comes to.
    fn to(&self, slot: u8) -> u8 {
        let found = self.from.iter().position(|&from| from == slot);
        found.map_or(slot, |at| at as u8)
    }

    /// Brings these slots to the beginning of their run, in this order.
    fn lead(&mut self, ranks: &Ranks, leaders: &[u8]) {
        let Some(&first) = leaders.first() else {
            return;
        };
        let (low, high) = ranks.run(first);
        let others = (low..high).filter(|slot| !leaders.contains(slot));
        let order = leaders.iter().copied().chain(others);
        for (place, slot) in (low..high).zip(order) {
            self.from[usize::from(place)] = slot;
        }
    }

    /// Brings a slot to the end of its run.
    fn trail(&mut self, ranks: &Ranks, slot: u8) {
        let (low, high) = ranks.run(slot);
        let others = (low..high).filter(|&other| other != slot);
        for (place, from) in (low..high).zip(others.chain([slot])) {
            self.from[usize::from(place)] = from;
        }
    }
}

impl Ranks {
    /// The run of a slot: its lowest slot, and the one above its highest.
    pub(crate) fn run(&self, slot: u8) -> (u8, u8) {
        let begins = |at: &u8| self.begins >> at & 1 == 1;
        let low = (0..=slot).rev().find(begins).unwrap_or(0);
        let high = (slot + 1..self.slots).find(begins).unwrap_or(self.slots);
        (low, high)
    }

    /// All runs, the lowest first.
    fn runs(&self) -> impl Iterator<Item = (u8, u8)> + '_ {
        let lows = (0..self.slots).filter(|low| self.begins >> low & 1 == 1);
        lows.map(|low| self.run(low))
    }

    /// One slot of each sort among those of a run that are in a mask. The slot of the lift, and
    /// that of the controller, is a sort of its own.
    fn sorts(&self, (low, high): (u8, u8), mask: u64) -> impl Iterator<Item = u8> + '_ {
        let word = |slot: u8| self.words[usize::from(slot)];
        let is_in = move |slot: &u8| mask >> slot & 1 == 1;
        let first =
            move |slot: &u8| !(low..*slot).any(|other| is_in(&other) && word(other) == word(*slot));
        (low..high).filter(is_in).filter(first)
    }

    /// The slots of each run in one order, whatever it was.
    fn shuffle(&self) -> Option<Shuffle> {
        let mut shuffle = Shuffle::none();
        let mut moved = false;
        let word = |from: u8| self.words[usize::from(from)];
        for at in 1..usize::from(self.slots) {
            let mut here = at;
            while self.begins >> here & 1 == 0
                && word(shuffle.from[here - 1]) < word(shuffle.from[here])
            {
                shuffle.from.swap(here - 1, here);
                moved = true;
                here -= 1;
            }
        }
        moved.then_some(shuffle)
    }
}

impl Machine {
    /// Whether no slot but the lowest is anything special: each product uses each of them, one
    /// board a slot is stored, no parts meet those of another slot, and nothing is wrong with one.
    pub fn has_alike_slots(&self) -> bool {
        let all = self.parts.slots_at(1);
        let used = &self.used[..self.parts.products.len()];
        used.iter().all(|&used| used == all)
            && self.parts.storing.middle_beam.is_none()
            && !self.parts_may_meet()
            && self.faults.is_empty()
    }

    /// Puts the member that stands for its class in the place of a state, and says how the slots
    /// changed places for it. Slots below `apart` are runs of their own; `columns` are masks of
    /// evidence, at most [`COLUMNS_MOST`].
    pub fn put_in_order(&self, s: &mut State, apart: u8, columns: &[u64]) -> Option<Shuffle> {
        let shuffle = self.ranks(s, apart, columns).shuffle();
        if let Some(shuffle) = &shuffle {
            self.shuffle_slots(s, shuffle);
        } else if self.way_counts(s) {
            self.shuffle_way(s, &Shuffle::none());
        }
        let ordered = usize::from(s.order_len).min(SLOTS_MOST);
        s.order[..ordered].sort_unstable();
        self.forget_ways(s);
        shuffle
    }

    /// What tells slots apart. During a sweep those that it passed are runs of their own.
    pub(crate) fn ranks(&self, s: &State, apart: u8, columns: &[u64]) -> Ranks {
        debug_assert!(columns.len() <= COLUMNS_MOST, "too many columns");
        let slots = self.parts.slots;
        let mut ranks = Ranks {
            words: [0; SLOTS_MOST],
            begins: 1 | 1 << 1 | 1 << apart,
            slots,
        };
        if s.phase == Phase::Sweeping {
            ranks.begins |= 1 << s.slot;
        }
        let ordered = s.order[..usize::from(s.order_len).min(SLOTS_MOST)].iter();
        let queued = ordered.fold(0_u64, |mask, slot| mask | 1 << slot);
        let (lift, phase) = (self.lift_mark(s), self.phase_mark(s));
        let masks = [s.map.full, s.map.unknown, queued];
        for slot in 0..slots {
            let bytes = Half::BOTH.map(|half| u32::from(s.rack.byte(HalfSlot { slot, half })));
            let word = masks.iter().chain(columns);
            let word = word.fold(bytes[0] << 7 | bytes[1], |word, mask| {
                word << 1 | (mask >> slot & 1) as u32
            });
            ranks.words[usize::from(slot)] = word;
        }
        // Of two that lie in one run the lower one comes first while the lift goes from one to the
        // other: up or down.
        let goes_down = self.way_counts(s) && matches!((lift, phase), (Some(a), Some(b)) if b < a);
        let [of_lift, of_phase] = if goes_down {
            [PHASE_HERE, LIFT_HERE]
        } else {
            [LIFT_HERE, PHASE_HERE]
        };
        for (mark, at) in [(of_lift, lift), (of_phase, phase)] {
            if let Some(at) = at {
                ranks.words[usize::from(at)] |= mark;
            }
        }
        ranks
    }

    /// The slot at which the lift stands, or the one where it began if that counts.
    fn lift_mark(&self, s: &State) -> Option<u8> {
        match s.lift_place {
            LiftPlace::At(slot) if s.lift.is_rest() || self.way_counts(s) => Some(slot),
            _ => None,
        }
    }

    /// The slot that the controller is about, where it is one that changes places.
    fn phase_mark(&self, s: &State) -> Option<u8> {
        let fixed = matches!(
            s.phase,
            Phase::Rest
                | Phase::Referencing
                | Phase::ToSweep
                | Phase::Sweeping
                | Phase::AskRails
                | Phase::RailsToZero
                | Phase::RailsToWidth
                | Phase::AwaitWidth
                | Phase::AskConfirmation
        );
        (!fixed).then_some(s.slot)
    }

    /// Whether the lift moves with a board across a mouth that it has not cut.
    fn cuts_yet(&self, s: &State) -> bool {
        let whole = |board: &crate::Board| board.condition < Condition::Sheared;
        let moves = !s.lift.is_rest() && s.phase != Phase::Sweeping;
        moves && s.mouths.iter().flatten().any(whole)
    }

    /// Whether it counts where the lift began to move: when a stop leaves it there, and when it may
    /// yet cut a board.
    fn way_counts(&self, s: &State) -> bool {
        let stays = s.phase != Phase::Sweeping && self.stays_if_stopped(s);
        stays || self.cuts_yet(s)
    }

    /// Whether a lift that is stopped, or was, has not moved at all since it began: not one µm.
    fn stays_if_stopped(&self, s: &State) -> bool {
        let axis = &self.parts.axes.lift;
        !s.lift.is_rest()
            && s.lift_from == self.height(s.lift_place)
            && s.lift.covered(axis).0 == 0
            && s.lift.brake(axis).way().0 == 0
    }

    /// Lets the slots of a state change places; lift and controller go with theirs.
    fn shuffle_slots(&self, s: &mut State, shuffle: &Shuffle) {
        let mut rack = Rack::default();
        for slot in 0..self.parts.slots {
            let from = shuffle.from[usize::from(slot)];
            for half in Half::BOTH {
                if let Some(board) = s.rack.get(HalfSlot { slot: from, half }) {
                    rack.set(HalfSlot { slot, half }, board);
                }
            }
        }
        s.rack = rack;
        let map = &mut s.map;
        for mask in [
            &mut map.full,
            &mut map.unknown,
            &mut map.said_empty,
            &mut map.said_taken,
        ] {
            *mask = shuffle.mask(*mask);
        }
        let ordered = usize::from(s.order_len).min(SLOTS_MOST);
        for slot in &mut s.order[..ordered] {
            *slot = shuffle.to(*slot);
        }
        if self.way_counts(s) {
            self.shuffle_way(s, shuffle);
        } else if let (Some(at), true) = (self.lift_mark(s), s.lift.is_rest()) {
            s.lift_place = LiftPlace::At(shuffle.to(at));
            s.lift_from = self.height(s.lift_place);
        }
        if let Some(at) = self.phase_mark(s) {
            s.slot = shuffle.to(at);
        }
    }

    /// A way of the lift after its ends changed places, as far on it as it was: a board across a
    /// mouth is cut long before the next slot.
    fn shuffle_way(&self, s: &mut State, shuffle: &Shuffle) {
        let target = self.place_at(s.lift_from + s.lift.way());
        let braked = s.lift_from - self.height(s.lift_place);
        let up = s.lift.way().0 > 0;
        let moved = |place: LiftPlace| match place {
            LiftPlace::At(slot) => LiftPlace::At(shuffle.to(slot)),
            other => other,
        };
        let to = moved(target);
        s.lift_place = match (s.lift_place, to) {
            (LiftPlace::Above(_), LiftPlace::At(to)) if s.lift.is_run() => {
                LiftPlace::Above(if up { to.saturating_sub(1) } else { to })
            }
            (LiftPlace::Above(_), _) => LiftPlace::Above(0),
            (place, _) => moved(place),
        };
        s.lift_from = self.height(s.lift_place) + braked;
        if s.lift.is_run() {
            let elapsed = s.lift.elapsed();
            s.lift = Motion::begin(&self.parts.axes.lift, self.height(to) - s.lift_from);
            s.lift.pass(elapsed.min(s.lift.left()));
        }
    }

    /// Forgets how far the lift goes and, unless a signal's time runs beside it, how far it has
    /// come. What is braked comes to rest between two slots, or wherever a member says.
    fn forget_ways(&self, s: &mut State) {
        if s.lift.is_rest() {
            if matches!(s.lift_place, LiftPlace::Above(_)) {
                s.lift_place = LiftPlace::Above(0);
                s.lift_from = self.height(s.lift_place);
            }
        } else if s.phase == Phase::Sweeping {
            self.forget_since_slot(s);
        } else if self.way_counts(s) {
            // How long the way is was forgotten when its ends were put in order.
        } else if !s.lift.is_run() {
            self.stop_at(s, LiftPlace::Above(0));
        } else {
            // The slot that it goes to may have changed places.
            let to = match self.phase_mark(s) {
                Some(slot) => LiftPlace::At(slot),
                None => self.place_at(s.lift_from + s.lift.way()),
            };
            self.come_from_next(s, to);
        }
    }
}

mod members;
mod moves;

#[cfg(test)]
#[path = "unordered_tests.rs"]
mod tests;
