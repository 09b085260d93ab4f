//! One measure of the margins along an attempt: how far each formula is from coming out otherwise.

use rackproof_buffer::{HalfSlot, Halves};
use rackproof_drill::Width;

use super::{
    Spare,
    degree::{Degree, Ground, since},
    layout::Layout,
};
use crate::{
    Observation, Program,
    formula::{At, Operator, Values, Wider},
    watch::Clock,
};

/// A measure along an attempt.
#[derive(Clone, Debug)]
pub(super) struct Track<'r> {
    program: &'r Program,
    layout: &'r Layout,
    /// For each lane: its margin now.
    now: Vec<Degree>,
    /// For each lane of what remembers without a window: the margin that it carries on.
    carried: Vec<Degree>,
    /// For each lane of what has a window: when its witness was, in half-moments.
    witnesses: Vec<Option<u64>>,
}

/// A moment for a track.
#[derive(Clone, Copy, Debug)]
pub(super) struct Present<'p> {
    pub(super) values: &'p Values<'p>,
    pub(super) seen: &'p Observation,
    /// Half-moments since the start.
    pub(super) now: u64,
    /// Whether it is no observation, but time that passes.
    pub(super) quiet: bool,
}

impl<'r> Track<'r> {
    pub(super) fn new(program: &'r Program, layout: &'r Layout) -> Track<'r> {
        let mut carried = vec![Degree::far(false); layout.count];
        for &(at, lane) in &layout.moved {
            if matches!(program.operators[at as usize], Operator::Historically(..)) {
                carried[lane] = Degree::far(true);
            }
        }
        Track {
            program,
            layout,
            now: vec![Degree::far(false); layout.count],
            carried,
            witnesses: vec![None; layout.count],
        }
    }

    /// Works out all margins of a moment or, in a `GAP`, of a gap.
    pub(super) fn take<const GAP: bool>(&mut self, present: Present<'_>) {
        for number in 0..self.layout.moved.len() {
            let (at, lane) = self.layout.moved[number];
            let operator = self.program.operators[at as usize];
            if operator.is_set() {
                self.set::<GAP>(operator, lane, present);
            } else {
                self.now[lane] = self.truth::<GAP>(operator, lane, present);
            }
        }
    }

    /// By how much a formula holds, if its margin is not far.
    pub(super) fn spare(&self, at: At) -> Option<Spare> {
        self.now[self.layout.lanes[at as usize]?].spare()
    }

    /// By how much a formula is missed, or which width of it could not be read, if that is so.
    pub(super) fn missed(&self, at: At) -> Option<Result<Spare, Width>> {
        self.now[self.layout.lanes[at as usize]?].missed()
    }

    /// The margin of a yes or no.
    fn of(&self, at: At, values: &Values<'_>) -> Degree {
        match self.layout.lanes[at as usize] {
            Some(lane) => self.now[lane],
            None => Degree::far(values.truth(at)),
        }
    }

    /// The margin of a half-slot in a set.
    fn of_half(&self, at: At, half: HalfSlot, values: &Values<'_>) -> Degree {
        match self.layout.lanes[at as usize] {
            Some(lane) => self.now[lane + self.program.lane(half)],
            None => Degree::far(values.set(at).contains(half)),
        }
    }

    /// Whether a formula is true by its margin, for a test.
    #[cfg(test)]
    pub(super) fn is_true(&self, at: At) -> Option<bool> {
        let lane = self.layout.lanes[at as usize]?;
        Some(self.now[lane].amount > 0)
    }

    fn truth<const GAP: bool>(
        &mut self,
        operator: Operator,
        lane: usize,
        present: Present<'_>,
    ) -> Degree {
        let values = present.values;
        let of = |at: At| self.of(at, values);
        let all = |at: At, among: Halves| {
            let halves = among.iter().map(|half| self.of_half(at, half, values));
            halves.fold(Degree::far(true), Degree::less)
        };
        let old = self.carried[lane];
        let (now, carried) = match operator {
            Operator::Not(a) => return of(a).turned(),
            Operator::And(a, b) => return of(a).less(of(b)),
            Operator::Or(a, b) => return of(a).greater(of(b)),
            Operator::Every(a) => return all(a, Halves::all(self.program.slots)),
            Operator::Some(a) => {
                let halves = Halves::all(self.program.slots).iter();
                let degrees = halves.map(|half| self.of_half(a, half, values));
                return degrees.fold(Degree::far(false), Degree::greater);
            }
            Operator::AtBelts(a) => {
                let belts = present.seen.at_belts();
                return if belts.is_empty() {
                    Degree::far(false)
                } else {
                    all(a, belts)
                };
            }
            Operator::Compares(place) => return self.compared(place, present.seen),
            Operator::Within(_, _, place) | Operator::Ago(_, _, place) => {
                let kind = self.program.clocks[usize::from(place)];
                let (holds, comes) = (values.truth(kind.holds), values.truth(kind.comes));
                return self.witnessed::<GAP>(kind, lane, (holds, comes), present.now);
            }
            Operator::Previously(a, _) => (old, if present.quiet { old } else { of(a) }),
            Operator::Once(a, _) => (old.greater(of(a)), old.greater(of(a))),
            Operator::Historically(a, _) => (old.less(of(a)), old.less(of(a))),
            Operator::Since(a, b, _) => since::<GAP>(of(a), of(b), old),
            // Nothing else has a margin.
            _ => return Degree::far(false),
        };
        self.carried[lane] = carried.carried();
        now
    }

    fn compared(&self, place: u8, seen: &Observation) -> Degree {
        match self.program.comparisons[usize::from(place)].reads(seen) {
            Ok(read) => Degree {
                amount: 2 * i64::from(read.spare().0) + 1,
                ground: Ground::Read(read),
            },
            Err(width) => Degree::unread(width),
        }
    }

    fn witnessed<const GAP: bool>(
        &mut self,
        kind: Clock,
        lane: usize,
        (holds, comes): (bool, bool),
        now: u64,
    ) -> Degree {
        let witness = &mut self.witnesses[lane];
        let goes_on = witness.filter(|_| holds);
        let found = if kind.within {
            comes.then_some(now).or(goes_on)
        } else {
            goes_on.or(comes.then_some(now))
        };
        *witness = found.filter(|_| holds || !GAP);
        let Some(then) = found else {
            return Degree::far(false);
        };
        let age = (now - then) as i64;
        let window = i64::from(kind.most - 1);
        let spare = if kind.within {
            window - age
        } else {
            age - window
        };
        Degree {
            amount: 2 * spare + 1,
            ground: Ground::Plain,
        }
    }

    /// The margins of a set, half-slot by half-slot.
    fn set<const GAP: bool>(&mut self, operator: Operator, lane: usize, present: Present<'_>) {
        let all = Halves::all(self.program.slots);
        for half in all.iter() {
            let own = lane + self.program.lane(half);
            self.now[own] = self.half::<GAP>(operator, own, half, present);
        }
    }

    fn half<const GAP: bool>(
        &mut self,
        operator: Operator,
        lane: usize,
        half: HalfSlot,
        present: Present<'_>,
    ) -> Degree {
        let values = present.values;
        let of = |at: At| self.of_half(at, half, values);
        match operator {
            Operator::Spread(a) => self.of(a, values),
            Operator::SetNot(a) => of(a).turned(),
            Operator::SetAnd(a, b) => of(a).less(of(b)),
            Operator::SetOr(a, b) => of(a).greater(of(b)),
            Operator::SetSince(a, b, _) => {
                let (now, carried) = since::<GAP>(of(a), of(b), self.carried[lane]);
                self.carried[lane] = carried.carried();
                now
            }
            Operator::InSetWindow(place) => {
                let kind = self.program.set_clocks[usize::from(place)].clock;
                let is_in = |at: At| values.set(at).contains(half);
                let both = (is_in(kind.holds), is_in(kind.comes));
                self.witnessed::<GAP>(kind, lane, both, present.now)
            }
            Operator::Wider(wider, a) => self.wider(wider, a, half, values),
            _ => Degree::far(false),
        }
    }

    fn wider(&self, wider: Wider, a: At, half: HalfSlot, values: &Values<'_>) -> Degree {
        let among = match wider {
            Wider::WholeSlots | Wider::PartSlots => Halves::slot(half.slot),
            Wider::WholeSides | Wider::PartSides => {
                let mut side = Halves::NONE;
                *side.of_mut(half.half) = Halves::all(self.program.slots).of(half.half);
                side
            }
        };
        let degrees = among.iter().map(|half| self.of_half(a, half, values));
        match wider {
            Wider::WholeSlots | Wider::WholeSides => degrees.fold(Degree::far(true), Degree::less),
            Wider::PartSlots | Wider::PartSides => {
                degrees.fold(Degree::far(false), Degree::greater)
            }
        }
    }
}
