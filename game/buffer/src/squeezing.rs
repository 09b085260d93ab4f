//! The size of the rack is not special: what slots that are empty and alike come to does not hang
//! on how many of them there are.
//!
//! A *run* is a row of such slots. Within it stands the *block*: the slots that the lift stands at
//! or moves between, and the slot that the controller is about. What lies below and above the block
//! falls into *stretches* of slots of which the same is believed and known. Two states are of one
//! class if they have the same stretches in the same order, however long each is. The member that
//! stands for the class has each stretch as short as it may be, and one of them takes what is left
//! over.
//!
//! How long a stretch is counts where it is gone through slot by slot. Slots that a clear-out left
//! behind as not sure are counted one by one; of those that it still has ahead, one is not many.
//! With many ahead, all that can follow is what follows the member with the most ahead, and the
//! member with the fewest.

use rackproof_model::{Micrometres, Micros};

use crate::{LiftPlace, Machine, Motion, Phase, SLOTS_MOST, State, Task, halves::slots_mask};

/// So many slots ahead of a clear-out are many.
const MANY: u8 = 2;

/// Which member of its class a state is to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Member {
    /// The one that stands for all.
    First,
    /// Of a clear-out that has many slots ahead, the one with the fewest of them.
    NearTheEnd,
}

/// How slots change places: only empty ones do, and only within their run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Squeeze {
    /// The stretches of the run, the lowest first.
    stretches: [Stretch; SLOTS_MOST],
    count: usize,
    /// By how many slots lift and controller move up.
    up: i32,
}

impl Squeeze {
    /// A mask of slots after the change.
    pub fn mask(&self, mask: u64) -> u64 {
        let stretches = &self.stretches[..self.count];
        let first = stretches[0].at;
        let (mut at, mut found) = (u32::from(first), 0);
        for stretch in stretches {
            let slots = slots_mask(stretch.least) << at;
            let old = mask >> stretch.at;
            // Of slots that are alike one speaks for all.
            let new = if stretch.elastic {
                0_u64.wrapping_sub(old & 1)
            } else {
                old << at
            };
            found |= new & slots;
            at += u32::from(stretch.least);
        }
        let run = slots_mask(at as u8) & !slots_mask(first);
        mask & !run | found
    }
}

/// A stretch on its way to its new length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Stretch {
    /// Its lowest slot, and its length.
    at: u8,
    len: u8,
    /// Its new length.
    least: u8,
    /// It is ahead of a clear-out, and long.
    many: bool,
    /// It may be longer or shorter than it is.
    elastic: bool,
}

impl Machine {
    /// How the slots of a state change places so that it becomes this member of its class. `None`
    /// if it is that one already, or the only one. `frames` tells slots apart for good, `columns`
    /// are masks of evidence.
    pub fn squeeze(
        &self,
        s: &State,
        frames: u64,
        columns: &[u64],
        member: Member,
    ) -> Option<Squeeze> {
        let (low, high) = self.block(s)?;
        let (first, last) = self.run_around(s, frames, low, high)?;
        let scans = s.task == Task::ClearOut && s.phase != Phase::Rest;
        // Bit n: of slot n and the next not the same is believed and known.
        let parts = columns.iter().chain([&s.map.unknown]);
        let parts = parts.fold(0, |parts, mask| parts | (mask ^ mask >> 1));
        let mut found = [Stretch::exact(low, high + 1 - low); SLOTS_MOST];
        let (mut count, mut block, mut at) = (0, 0, first);
        while at <= last {
            let ends = if at == low {
                block = count;
                high + 1
            } else {
                let stops = if at < low { low } else { last + 1 };
                stops.min(at + 1 + (parts >> at).trailing_zeros() as u8)
            };
            let unsure = scans && s.map.unknown >> at & 1 == 1;
            found[count] = match at {
                _ if at == low => Stretch::exact(at, ends - at),
                _ if unsure && at == high + 1 => Stretch::ahead(at, ends - at),
                _ if unsure => Stretch::exact(at, ends - at),
                _ => Stretch::elastic(at, ends - at),
            };
            count += 1;
            at = ends;
        }
        place(found, count, block, member)
    }

    /// Of a sweep that passes alike slots at full speed, the member that is furthest and can still
    /// stop below the last of them: on it goes as all others do, only sooner. A stop takes all of
    /// them equally far, and what it leaves below and above is counted as some: the member must
    /// have some of both too. One that stood nearer to the end would come to rest with nothing
    /// above. True if the state was another.
    pub fn sweep_on(&self, s: &mut State, frames: u64, columns: &[u64]) -> bool {
        if s.phase != Phase::Sweeping || !s.lift.is_run() || s.slot == 0 {
            return false;
        }
        let same = |mask: u64, slot: u8| mask >> slot & 1 == mask >> s.slot & 1;
        let alike =
            |slot: u8| same(s.map.unknown, slot) && columns.iter().all(|&mask| same(mask, slot));
        let Some((first, last)) = self.run_around(s, frames, s.slot - 1, s.slot) else {
            return false;
        };
        let passed = |slot: u8| self.passes_at(s, slot);
        let pitch_time = |slot: u8| passed(slot)?.checked_sub(passed(slot - 1)?);
        let Some(step) = pitch_time(s.slot) else {
            return false;
        };
        // At full speed all pitches take the same time.
        let steady = |slot: u8| pitch_time(slot) == Some(step) && alike(slot) && alike(slot - 1);
        let behind = passed(s.slot - 1).is_some_and(|at| at <= s.lift.elapsed().0);
        if !behind || s.slot < first + 2 || !steady(s.slot - 1) {
            return false;
        }
        let stop = s.lift.stopping_way(&self.parts.axes.lift).0.abs();
        let runs_on = (stop + self.parts.pitch.0 - 1) / self.parts.pitch.0;
        // The slots that a stop may reach, and one above them.
        let stops_within = |slot: u8| {
            let above = i32::from(slot) + runs_on + 1;
            above <= i32::from(last) && (slot + 1..=above as u8).all(alike)
        };
        let to = (s.slot..last)
            .take_while(|&slot| steady(slot) && steady(slot + 1) && stops_within(slot))
            .last();
        let Some(to) = to.filter(|&to| to > s.slot) else {
            return false;
        };
        s.lift.pass(Micros(step * u32::from(to - s.slot)));
        s.slot = to;
        true
    }

    /// Of a long move that has just begun in a run of slots that are all alike, the member that
    /// began where all would stand at rest. True if the state was another.
    pub fn begin_alike(&self, s: &mut State, frames: u64, columns: &[u64]) -> bool {
        let way = s.lift.way().0;
        let long = way.abs() > self.parts.pitch.0;
        let begins = s.lift.is_run() && s.lift.elapsed().0 == 0 && s.phase != Phase::Sweeping;
        if !long || !begins {
            return false;
        }
        let mut rest = State {
            lift: Motion::default(),
            phase: Phase::Rest,
            ..*s
        };
        let Some(squeeze) = self.squeeze(&rest, frames, columns, Member::First) else {
            return false;
        };
        let masks = columns.iter().chain([&s.map.unknown]);
        if masks.into_iter().any(|&mask| squeeze.mask(mask) != mask) {
            return false;
        }
        self.change_places(&mut rest, &squeeze);
        let target = s.lift_from.0 + way;
        let new_way = target - rest.lift_from.0;
        if new_way.signum() != way.signum() || new_way.abs() <= self.parts.pitch.0 {
            return false;
        }
        (s.lift_place, s.lift_from) = (rest.lift_place, rest.lift_from);
        s.lift = Motion::begin(&self.parts.axes.lift, Micrometres(new_way));
        true
    }

    /// How long after its beginning the lift's motion passes a slot, in µs.
    fn passes_at(&self, s: &State, slot: u8) -> Option<u32> {
        let axis = &self.parts.axes.lift;
        let way = self.height(LiftPlace::At(slot)) - s.lift_from;
        Some(Motion::begin(axis, s.lift.way()).time_to(axis, way)?.0)
    }

    /// Does it to a state.
    pub fn change_places(&self, s: &mut State, squeeze: &Squeeze) {
        let moved = |slot: u8| (i32::from(slot) + squeeze.up) as u8;
        s.map.unknown = squeeze.mask(s.map.unknown);
        s.lift_place = match s.lift_place {
            LiftPlace::At(slot) => LiftPlace::At(moved(slot)),
            LiftPlace::Above(slot) => LiftPlace::Above(moved(slot)),
            other => other,
        };
        if !matches!(s.lift_place, LiftPlace::Reference | LiftPlace::BelowFirst) {
            s.lift_from.0 += squeeze.up * self.parts.pitch.0;
        }
        if s.phase != Phase::Rest {
            s.slot = moved(s.slot);
        }
    }

    /// Where a motion began counts, once it is braked, only for what boards across the mouths come
    /// to.
    pub fn forget_beginning(&self, s: &mut State) {
        if !s.lift.is_rest() && !s.lift.is_run() && s.mouths == [None; 2] {
            s.lift_place = self.place_at(s.lift_from);
        }
    }

    /// The lowest and the highest slot of the block. `None` if it reaches below the first slot, or
    /// if there is none.
    fn block(&self, s: &State) -> Option<(u8, u8)> {
        let ends_here = s.lift == Motion::RUNS_OUT;
        let way = if ends_here { 0 } else { s.lift.way().0 };
        let (from, to) = (s.lift_from.0, s.lift_from.0 + way);
        let begun = self.height(s.lift_place).0;
        let (least, most) = (from.min(to).min(begun), from.max(to).max(begun));
        let above = least - self.parts.reference_below.0;
        if above < 0 {
            return None;
        }
        let pitch = self.parts.pitch.0;
        let low = (above / pitch) as u8;
        let high = (most - self.parts.reference_below.0 + pitch - 1) / pitch;
        let high = (high as u8).min(self.parts.slots - 1);
        Some(if s.phase == Phase::Rest {
            (low, high)
        } else {
            (low.min(s.slot), high.max(s.slot))
        })
    }

    /// The run around the block, if it lies in one.
    fn run_around(&self, s: &State, frames: u64, low: u8, high: u8) -> Option<(u8, u8)> {
        let present = s.rack.present();
        let taken = present.infeed | present.outfeed | s.map.full;
        // A board that runs out of a slot may come to lie in it again.
        if !s.runners.list().is_empty() {
            return None;
        }
        // Slots that are not as the block's lowest one is.
        let unlike = |mask: u64| mask ^ 0_u64.wrapping_sub(mask >> low & 1);
        let used = &self.used[..self.parts.products.len()];
        let others = used.iter().fold(taken | unlike(frames), |others, &used| {
            others | unlike(used)
        });
        let within = slots_mask(high + 1) & !slots_mask(low);
        if others & within != 0 {
            return None;
        }
        let first = 64 - (others & slots_mask(low)).leading_zeros() as u8;
        let above = others >> high >> 1;
        let last = self.parts.slots - 1;
        Some((
            first,
            last.min(high.saturating_add(above.trailing_zeros() as u8)),
        ))
    }
}

impl Stretch {
    fn exact(at: u8, len: u8) -> Stretch {
        Stretch {
            at,
            len,
            least: len,
            many: false,
            elastic: false,
        }
    }

    fn elastic(at: u8, len: u8) -> Stretch {
        Stretch {
            least: 1,
            elastic: true,
            ..Stretch::exact(at, len)
        }
    }

    fn ahead(at: u8, len: u8) -> Stretch {
        let many = len >= MANY;
        Stretch {
            least: len.min(MANY),
            many,
            elastic: many,
            ..Stretch::exact(at, len)
        }
    }
}

/// Where the slots of these stretches come to stand. `block` is the number of the block.
fn place(
    mut found: [Stretch; SLOTS_MOST],
    count: usize,
    block: usize,
    member: Member,
) -> Option<Squeeze> {
    let stretches = &mut found[..count];
    let ahead = stretches.iter().position(|stretch| stretch.many);
    let other = stretches
        .iter()
        .position(|stretch| stretch.elastic && !stretch.many);
    let takes_rest = match member {
        Member::First => ahead.or(other)?,
        Member::NearTheEnd => ahead.and(other)?,
    };
    let first = stretches[0].at;
    let whole: u8 = stretches.iter().map(|stretch| stretch.len).sum();
    let least: u8 = stretches.iter().map(|stretch| stretch.least).sum();
    stretches[takes_rest].least += whole - least;
    if stretches.iter().all(|stretch| stretch.least == stretch.len) {
        return None;
    }
    let below: u8 = stretches[..block].iter().map(|one| one.least).sum();
    let up = i32::from(first + below) - i32::from(stretches[block].at);
    Some(Squeeze {
        stretches: found,
        count,
        up,
    })
}

#[cfg(test)]
#[path = "squeezing_tests.rs"]
mod tests;
