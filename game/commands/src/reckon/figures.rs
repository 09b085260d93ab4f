//! The answers, in numbers.

use rackproof_buffer::{Capacity, ClearOutByBelt, ClearOutByHand, Drain, Machine, Motion, Sending};
use rackproof_model::{Micrometres, Micros};

use super::{
    asked::{Asked, Changeover},
    person::{self, Share},
};

const SECONDS: u64 = 1_000_000;
const MINUTE: u64 = 60 * SECONDS;
/// A day, in µs.
pub(super) const DAY: u64 = 1_440 * MINUTE;

/// When draining begins so that it ends with the changeover.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Begin {
    /// So long from now, in µs.
    Within(u64),
    /// At this time of day, in µs since midnight; true: of the day before.
    At(u64, bool),
    /// It is too late: so many boards will still be inside.
    Late(u8),
}

/// All answers. Times in µs.
pub(super) struct Figures {
    pub(super) capacity: Capacity,
    pub(super) drain: Drain,
    pub(super) begin: Option<Begin>,
    pub(super) belt: ClearOutByBelt,
    pub(super) belt_person: Share,
    pub(super) hand: ClearOutByHand,
    pub(super) hand_person: Share,
    /// From the highest slot, where a clear-out by belt ends, back to the lowest.
    pub(super) back_to_sweep: Micros,
}

impl Figures {
    /// Reckons all that is asked.
    pub(super) fn of(asked: &Asked) -> Figures {
        let (machine, product) = (&asked.machine, asked.product);
        let capacity = machine.capacity(product);
        let takt = asked.takt.unwrap_or(Micros(0));
        let from = machine.waits_at(product, asked.boards);
        let drain = machine.drain(product, asked.boards, from, takt);
        let changeover = asked.changeover;
        Figures {
            begin: changeover.map(|changeover| begin(&drain, changeover)),
            drain,
            belt: belt(machine, product, asked.boards, from),
            belt_person: person::by_belt(machine, &asked.hall),
            hand: machine.clear_out_by_hand(product, asked.next, from),
            hand_person: person::by_hand(&asked.hall),
            back_to_sweep: back_to_sweep(machine, &capacity),
            capacity,
        }
    }

    /// How many boards but the last wait for the takt, and how long the others take in all.
    pub(super) fn waiting(&self) -> (u64, u64) {
        let before = self.drain.sendings.split_last().map(|(_, before)| before);
        let (mut waiting, mut slower) = (0, 0);
        for one in before.unwrap_or_default() {
            if one.cycle() < self.drain.takt {
                waiting += 1;
            } else {
                slower += u64::from(one.cycle().0);
            }
        }
        (waiting, slower)
    }

    /// The boards that take the machine the shortest and the longest.
    pub(super) fn ends(&self) -> Option<[Sending; 2]> {
        let all = self.drain.sendings.iter().copied();
        let quickest = all.clone().min_by_key(Sending::cycle)?;
        Some([quickest, all.max_by_key(Sending::cycle)?])
    }

    /// Whole minutes before the changeover at which draining begins.
    pub(super) fn minutes_before(&self) -> u64 {
        self.drain.time().div_ceil(MINUTE)
    }

    pub(super) fn belt_time(&self) -> u64 {
        let belt = &self.belt;
        belt.time() + self.belt_person.time(belt.boards, belt.slots)
    }

    /// The machine's share of a clear-out by hand, without the changeover.
    pub(super) fn hand_machine(&self) -> u64 {
        u64::from(self.hand.declare.0) + u64::from(self.hand.reference.0)
    }

    pub(super) fn hand_time(&self) -> u64 {
        let boards = self.drain.sendings.len() as u8;
        self.hand_machine() + self.hand_person.time(boards, 0)
    }

    /// The changeover after a clear-out by hand.
    pub(super) fn changeover_after_hand(&self) -> u64 {
        self.hand.time() - self.hand_machine()
    }

    /// The changeover after a clear-out by belt.
    pub(super) fn changeover_after_belt(&self) -> u64 {
        let way = u64::from(self.hand.to_sweep.0);
        self.changeover_after_hand() - way + u64::from(self.back_to_sweep.0)
    }
}

/// The machine's share by belt. All slots are visited; boards come from those that hold some.
fn belt(machine: &Machine, product: u8, boards: u8, from: u8) -> ClearOutByBelt {
    let full = machine.clear_out_by_belt(product, from);
    let pairs = if full.pairs > 0 { boards / 2 } else { 0 };
    ClearOutByBelt {
        boards,
        pairs,
        ..full
    }
}

fn back_to_sweep(machine: &Machine, capacity: &Capacity) -> Micros {
    let highest = i32::from(capacity.used.saturating_sub(1)) * i32::from(capacity.interval);
    let way = Micrometres(highest * machine.parts().pitch.0);
    Motion::begin(&machine.parts().axes.lift, way).left()
}

/// When draining begins.
fn begin(drain: &Drain, changeover: Changeover) -> Begin {
    let time = drain.time();
    match changeover {
        Changeover::At(minute) => {
            let at = u64::from(minute) * MINUTE;
            Begin::At((at + DAY - time % DAY) % DAY, time > at)
        }
        Changeover::Within(minutes) => {
            let until = u64::from(minutes) * MINUTE;
            match until.checked_sub(time) {
                Some(left) => Begin::Within(left),
                None => Begin::Late(inside_after(drain, until)),
            }
        }
    }
}

/// How many boards are still inside so long after draining began, in µs.
fn inside_after(drain: &Drain, time: u64) -> u8 {
    let mut begun = 0;
    let mut left = 0;
    for one in &drain.sendings {
        if begun + u64::from(one.until_left().0) <= time {
            left += 1;
        }
        begun += u64::from(one.cycle().max(drain.takt).0);
    }
    drain.sendings.len() as u8 - left
}

#[cfg(test)]
pub(in crate::reckon) mod figures_tests;
