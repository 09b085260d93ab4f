//! Tall parts: which boards fit above one another, and what runs into what.
//!
//! The parts of a board stand `above` its upper side and hang `below` its underside. In two slots,
//! one so many pitches above the other, they keep free of each other if thickness + height above of
//! the lower + height below of the upper fit between the two undersides. Source: geometry.

use crate::{
    Board, BoardKind, Condition, Half, HalfSlot, Harm, HarmKind, Hear, KINDS_MOST, Machine,
    MachineParts, Outcome, Place, State, runners::Runner,
};

/// For each kind below and each kind above: up to how many slots apart they touch.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Reach {
    touch: [[u8; KINDS_MOST]; KINDS_MOST],
    /// The greatest of all. Nought: no two boards touch in any slots.
    most: u8,
}

impl Reach {
    pub(crate) fn of(parts: &MachineParts) -> Reach {
        let mut touch = [[0; KINDS_MOST]; KINDS_MOST];
        let mut most = 0;
        for (lower, row) in parts.kinds.iter().zip(&mut touch) {
            for (upper, cell) in parts.kinds.iter().zip(row) {
                let slots = (height_needed(lower, upper) - 1) / parts.pitch.0;
                *cell = slots.clamp(0, i32::from(parts.slots)) as u8;
                most = most.max(*cell);
            }
        }
        Reach { touch, most }
    }

    /// Whether boards in two slots can touch at all.
    #[inline]
    pub(crate) fn parts_may_meet(&self) -> bool {
        self.most > 0
    }
}

/// The height that two boards need, one above the other, from underside to underside, in µm.
fn height_needed(lower: &BoardKind, upper: &BoardKind) -> i32 {
    lower.thickness.0 + lower.above.0 + upper.below.0
}

impl Machine {
    /// Whether there are kinds of board whose parts meet in some slots.
    pub fn parts_may_meet(&self) -> bool {
        self.reach.parts_may_meet()
    }

    /// Whether the parts of two boards meet, each with its place and its kind. They can where they
    /// lie in one half of two slots.
    pub fn parts_meet(&self, one: (HalfSlot, u8), other: (HalfSlot, u8)) -> bool {
        let apart = one.0.slot != other.0.slot && one.0.half == other.0.half;
        apart && self.touch(one.0.slot, one.1, other.0.slot, Board::good(other.1))
    }

    /// The nearest board in another slot, in the same half, that a board of `kind` lying at `at`
    /// would touch.
    pub(crate) fn touched_at(&self, s: &State, at: HalfSlot, kind: u8) -> Option<HalfSlot> {
        self.near(at.slot)
            .map(|slot| HalfSlot { slot, ..at })
            .find(|&other| {
                let board = s.rack.get(other);
                board.is_some_and(|board| self.touch(at.slot, kind, other.slot, board))
            })
    }

    /// Whether a board of `kind` in `slot` would touch one that runs on the belts, wherever it is.
    pub(crate) fn touches_runners(&self, s: &State, slot: u8, kind: u8) -> bool {
        let touch = |at| {
            let mut runners = s.runners.list().iter();
            runners.any(|runner| self.touch(slot, kind, at, runner.board))
        };
        s.slot_at_belts().is_some_and(touch)
    }

    /// Slots in which a board could touch one in `slot`, the nearest first.
    fn near(&self, slot: u8) -> impl Iterator<Item = u8> + use<> {
        let (most, slots) = (self.reach.most, self.parts.slots);
        (1..=most).flat_map(move |apart| {
            let below = slot.checked_sub(apart);
            let above = Some(slot + apart).filter(|&above| above < slots);
            [below, above].into_iter().flatten()
        })
    }

    fn touch(&self, slot: u8, kind: u8, other: u8, board: Board) -> bool {
        let apart = slot.abs_diff(other);
        let (lower, upper) = if slot < other {
            (kind, board.kind)
        } else {
            (board.kind, kind)
        };
        apart <= self.reach.touch[lower as usize][upper as usize]
    }

    /// The first runner whose parts meet those of a board in another slot: its number, that
    /// board's place, and the way until then.
    pub(crate) fn first_struck(&self, s: &State, stops: &[i32]) -> Option<(usize, HalfSlot, i32)> {
        if self.reach.most == 0 {
            return None;
        }
        let slot = s.slot_at_belts()?;
        let mut first: Option<(usize, HalfSlot, i32)> = None;
        for (at, runner) in s.runners.list().iter().enumerate() {
            for other in self.near(slot) {
                for half in Half::BOTH {
                    let other = HalfSlot { slot: other, half };
                    let Some(way) = self.way_until_struck(s, slot, runner, stops[at], other) else {
                        continue;
                    };
                    if first.is_none_or(|(.., nearest)| way < nearest) {
                        first = Some((at, other, way));
                    }
                }
            }
        }
        first
    }

    /// The way of a runner until it is under or over the tail of the board in `other`, if it gets
    /// there and their parts meet.
    fn way_until_struck(
        &self,
        s: &State,
        slot: u8,
        runner: &Runner,
        stop: i32,
        other: HalfSlot,
    ) -> Option<i32> {
        let board = s.rack.get(other)?;
        // What is struck already is not struck again by a board that is.
        let struck = |board: Board| board.condition >= Condition::Collided;
        if struck(runner.board) && struck(board) {
            return None;
        }
        let tail = self.rest_leads()[other.half as usize].0 - self.length(board);
        let meets = self.touch(slot, runner.board.kind, other.slot, board);
        (meets && runner.start <= tail && tail < stop).then_some(tail - runner.start)
    }

    /// A runner has run under or over tall parts.
    pub(crate) fn strike(&self, s: &mut State, at: usize, other: HalfSlot, hear: &mut Hear) {
        let Some(slot) = s.slot_at_belts() else {
            return;
        };
        let Some(runner) = s.runners.get_mut(at) else {
            return;
        };
        runner.board.worsen(Condition::Collided);
        let kind = runner.board.kind;
        self.strike_parts(s, HalfSlot { slot, ..other }, kind, other, hear);
    }

    /// A board of `kind` at `at` has struck the one at `other`.
    fn strike_parts(
        &self,
        s: &mut State,
        at: HalfSlot,
        kind: u8,
        other: HalfSlot,
        hear: &mut Hear,
    ) {
        let Some(mut still) = s.rack.get(other) else {
            return;
        };
        let kinds = [kind, still.kind].map(|kind| &self.parts.kinds[kind as usize]);
        let needed = if at.slot < other.slot {
            height_needed(kinds[0], kinds[1])
        } else {
            height_needed(kinds[1], kinds[0])
        };
        still.worsen(Condition::Collided);
        s.rack.set(other, still);
        hear(Outcome::Harmed(Harm {
            kind: HarmKind::PartsStruck,
            board: Some(kind),
            place: Some(Place::Slot(at)),
            number: needed,
            limit: i32::from(at.slot.abs_diff(other.slot)) * self.parts.pitch.0,
        }));
    }
}
