//! What a machine holds and how long its work takes, reckoned from the axes' closed forms without
//! running anything. Each sum is given with its parts, so that a formula can be shown.
//!
//! Source of the drain behind a takt: n · max(index + transfer, takt), with the true way of the
//! lift for each board. The tests run the machine itself and compare to the microsecond.

use rackproof_model::{Micrometres, Micros};

use crate::{Axis, LiftPlace, Machine, Motion};

/// How much fits in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Capacity {
    /// Slots of the rack.
    pub slots: u8,
    /// Every so many is used.
    pub interval: u8,
    /// Slots that are used: ⌈slots / interval⌉.
    pub used: u8,
    /// Boards in one slot: 1 or 2.
    pub boards_in_slot: u8,
    /// Boards in all: used · boards in one slot.
    pub boards: u8,
}

/// One board sent, in its parts. The lift goes back to where the next board would be stored.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sending {
    /// The slot that it leaves, from 0.
    pub slot: u8,
    /// The lift's way to that slot.
    pub index: Micros,
    /// A little past the mouth and back, where the machine does so.
    pub draw_back: Micros,
    /// The belts, until the board has left.
    pub transfer: Micros,
    /// The lift's way back.
    pub back: Micros,
    /// Wait until Board Available may close again, beyond the way back.
    pub signal: Micros,
}

impl Sending {
    /// Until the board has left.
    pub fn until_left(&self) -> Micros {
        self.index + self.draw_back + self.transfer
    }

    /// Until the next one can begin.
    pub fn cycle(&self) -> Micros {
        self.until_left() + self.back + self.signal
    }
}

/// A rack emptied behind a takt.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Drain {
    /// The boards, in the order in which they leave.
    pub sendings: Vec<Sending>,
    /// Time between two calls of the machine downstream.
    pub takt: Micros,
}

impl Drain {
    /// From the first call until the last board has left, in µs: the sum of max(cycle, takt), and
    /// of the last board only until it has left.
    pub fn time(&self) -> u64 {
        let Some((last, before)) = self.sendings.split_last() else {
            return 0;
        };
        let each = before.iter().map(|one| one.cycle().max(self.takt));
        each.map(|time| u64::from(time.0)).sum::<u64>() + u64::from(last.until_left().0)
    }
}

/// The machine's share of a clear-out by belt: what it does between a person's answers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ClearOutByBelt {
    /// Slots that are visited and answered for.
    pub slots: u8,
    /// Boards that come to the end beam.
    pub boards: u8,
    /// All ways of the lift together, in µs.
    pub index: u64,
    /// The belts run out once in each slot, with nothing arriving.
    pub run_out: Micros,
    /// Until a board from the outfeed half stands at the end of the outfeed belt.
    pub first_board: Micros,
    /// Until one from the infeed half does, where a slot holds two.
    pub second_board: Micros,
    /// How many slots hold two.
    pub pairs: u8,
}

impl ClearOutByBelt {
    /// In all, in µs.
    pub fn time(&self) -> u64 {
        let times = |count: u8, time: Micros| u64::from(count) * u64::from(time.0);
        self.index
            + times(self.slots, self.run_out)
            + times(self.boards - self.pairs, self.first_board)
            + times(self.pairs, self.second_board)
    }
}

/// The machine's share of a clear-out by hand: what it does once every board is out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ClearOutByHand {
    /// The declare button is held.
    pub declare: Micros,
    /// The lift runs to its reference.
    pub reference: Micros,
    /// From there to the lowest slot.
    pub to_sweep: Micros,
    /// The sweep.
    pub sweep: Micros,
    /// The rails to their zero.
    pub rails_to_zero: Micros,
    /// The rails to the new width.
    pub rails_to_width: Micros,
}

impl ClearOutByHand {
    /// In all, in µs.
    pub fn time(&self) -> u64 {
        [
            self.declare,
            self.reference,
            self.to_sweep,
            self.sweep,
            self.rails_to_zero,
            self.rails_to_width,
        ]
        .map(|part| u64::from(part.0))
        .iter()
        .sum()
    }
}

fn move_time(axis: &Axis, way: Micrometres) -> Micros {
    Motion::begin(axis, way).left()
}

impl Machine {
    /// How much of a product fits in.
    pub fn capacity(&self, product: u8) -> Capacity {
        let storing = self.parts.products[product as usize].storing;
        let used = self.used[product as usize].count_ones() as u8;
        let pairs = storing.tandem && self.parts.storing.middle_beam.is_some();
        let boards_in_slot = 1 + u8::from(pairs);
        Capacity {
            slots: self.parts.slots,
            interval: storing.interval,
            used,
            boards_in_slot,
            boards: used * boards_in_slot,
        }
    }

    /// The slots that a product uses, from the lowest.
    pub(crate) fn slots_of(&self, product: u8) -> Vec<u8> {
        let used = self.used[product as usize];
        (0..self.parts.slots)
            .filter(|slot| used >> slot & 1 == 1)
            .collect()
    }

    pub(crate) fn lift_time(&self, from: LiftPlace, to: LiftPlace) -> Micros {
        move_time(&self.parts.axes.lift, self.height(to) - self.height(from))
    }

    /// The machine's share of a clear-out by belt of a rack full of a product, begun in Idle with
    /// the lift at `from`.
    pub fn clear_out_by_belt(&self, product: u8, from: u8) -> ClearOutByBelt {
        let capacity = self.capacity(product);
        let mut at = from;
        let mut index = 0;
        for slot in self.slots_of(product) {
            index += u64::from(self.lift_time(LiftPlace::At(at), LiftPlace::At(slot)).0);
            at = slot;
        }
        let kind = self.parts.products[product as usize].kind;
        let belts = &self.parts.axes.belts;
        let [infeed_rest, outfeed_rest] = self.rest_leads().map(|lead| lead.0);
        let run = Motion::begin(belts, Micrometres(self.outfeed_end() - infeed_rest));
        let beam = self.outfeed_end() - self.parts.end_beam_before.0;
        let to_beam = |lead: i32| {
            let mut motion = run;
            let time = motion
                .time_to(belts, Micrometres(beam - lead))
                .unwrap_or_default();
            motion.pass(time);
            let ran_on = motion.covered(belts) + motion.stopping_way(belts);
            (time + motion.brake(belts).left(), ran_on.0)
        };
        let (first_board, came) = to_beam(outfeed_rest);
        let pairs = if capacity.boards_in_slot == 2 {
            capacity.used
        } else {
            0
        };
        // The second board of a slot has come along on the first one's way, to its place there.
        let second = self.rest_of(kind, infeed_rest + came);
        ClearOutByBelt {
            slots: capacity.used,
            boards: capacity.boards,
            index,
            run_out: run.left(),
            first_board,
            second_board: to_beam(second).0,
            pairs,
        }
    }

    /// The machine's share of a clear-out by hand and the changeover behind it, from one product to
    /// another. The lift stands at `from`; the rails stand at the old product's width.
    pub fn clear_out_by_hand(&self, old: u8, new: u8, from: u8) -> ClearOutByHand {
        let lift = |from, to| self.lift_time(from, to);
        let slots = self.slots_of(new);
        let highest = slots.last().copied().unwrap_or(0);
        let width = |product: u8| self.rails_for(self.parts.products[product as usize].width);
        let rails = |way| move_time(&self.parts.axes.rails, way);
        let (zero, lowest) = (self.zero_width(), LiftPlace::At(0));
        ClearOutByHand {
            declare: self.parts.declare_hold,
            reference: lift(LiftPlace::At(from), LiftPlace::Reference),
            to_sweep: lift(LiftPlace::Reference, lowest),
            sweep: lift(lowest, LiftPlace::At(highest)),
            rails_to_zero: rails(zero - width(old)),
            rails_to_width: rails(width(new) - zero),
        }
    }
}
