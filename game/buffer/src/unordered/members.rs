//! Which members of a class have to be gone on from, so that together they do all that any does.
//!
//! The order of slots counts where the controller goes from slot to slot: which one comes next. So
//! each sort of slot comes next in some member. And it counts where a lift that was stopped comes
//! to rest.

use super::{Ranks, Shuffle};
use crate::{
    Command, LiftPlace, Machine, Mode, Order, Phase, Question, SLOTS_MOST, State, Task, UnitState,
};

/// The members of one class, as they are found.
struct Members<'m> {
    machine: &'m Machine,
    /// The member that stands for the class.
    first: &'m State,
    ranks: Ranks,
    found: &'m mut dyn FnMut(State, Option<Shuffle>),
}

impl Machine {
    /// Calls `found` with members of the class of `s`, and with how slots changed places for each.
    /// `s` is as [`Machine::put_in_order`] left it: all steps of all members are steps of it and of
    /// these.
    pub fn in_other_orders(
        &self,
        s: &State,
        (apart, columns): (u8, &[u64]),
        found: &mut dyn FnMut(State, Option<Shuffle>),
    ) {
        let sweeps = s.phase == Phase::Sweeping;
        let braked = !s.lift.is_rest() && !s.lift.is_run() && !self.way_counts(s);
        let answers = matches!(
            s.question(),
            Some(Question::Answer(_) | Question::AnswerHalf(_))
        );
        let begins = s.task == Task::ClearOut && may_begin(s);
        let produces = may_produce(s);
        if !(sweeps || braked || answers || begins || produces) {
            return;
        }
        let mut members = Members {
            machine: self,
            first: s,
            ranks: self.ranks(s, apart, columns),
            found,
        };
        if braked {
            return members.stops();
        }
        if sweeps {
            return members.each_leads(members.ranks.run(s.slot), u64::MAX);
        }
        if answers {
            members.next_after_answer();
        }
        if begins {
            members.lowest_of(s.map.unknown);
        }
        if produces {
            members.production();
        }
    }
}

/// Whether a clear-out that is chosen may begin: by Start, or when the reference is found.
fn may_begin(s: &State) -> bool {
    s.unit.after(Command::Start).is_some()
        || s.phase == Phase::Referencing
        || matches!(s.question(), Some(Question::Seen(_)))
}

/// Whether production may choose a slot, and there is more than one sort of them. An empty rack is
/// filled from the lowest slot, which is kept apart.
fn may_produce(s: &State) -> bool {
    let at_work = s.mode == Mode::Production
        && matches!(
            s.unit,
            UnitState::Starting | UnitState::Execute | UnitState::Held | UnitState::Unholding
        );
    let starts = s.unit.after(Command::Start).is_some();
    s.powered && s.map.unknown == 0 && s.map.full != 0 && (at_work || starts)
}

impl Members<'_> {
    fn add(&mut self, shuffle: Shuffle) {
        let mut s = *self.first;
        self.machine.shuffle_slots(&mut s, &shuffle);
        (self.found)(s, Some(shuffle));
    }

    /// One member for each sort of the slots of a run that are in a mask: it is the lowest of them.
    fn each_leads(&mut self, run: (u8, u8), mask: u64) {
        let sorts: Vec<u8> = self.ranks.sorts(run, mask).collect();
        for slot in sorts {
            let mut shuffle = Shuffle::none();
            shuffle.lead(&self.ranks, &[slot]);
            self.add(shuffle);
        }
    }

    /// The lowest slot in a mask: of any sort in the lowest run that has one.
    fn lowest_of(&mut self, mask: u64) {
        let has = |&(low, high): &(u8, u8)| (low..high).any(|slot| mask >> slot & 1 == 1);
        let run = self.ranks.runs().find(has);
        if let Some(run) = run {
            self.each_leads(run, mask);
        }
    }

    /// The next unknown slot above that of which the panel asks, from the lowest again after the
    /// highest: of any sort in its run, or of the next run with an unknown slot. Where no other run
    /// has one, that of its own run may lie above it or, after the highest, below.
    fn next_after_answer(&mut self) {
        let asked = self.first.slot;
        let unknown = self.first.map.unknown & !(1 << asked);
        let own = self.ranks.run(asked);
        let in_own: Vec<u8> = self.ranks.sorts(own, unknown).collect();
        for &slot in &in_own {
            let mut shuffle = Shuffle::none();
            shuffle.lead(&self.ranks, &[asked, slot]);
            self.add(shuffle);
        }
        let runs: Vec<(u8, u8)> = self.ranks.runs().filter(|&run| run != own).collect();
        let above = runs.iter().filter(|run| run.0 > asked);
        let below = runs.iter().filter(|run| run.0 < asked);
        let has = |run: &&(u8, u8)| (run.0..run.1).any(|slot| unknown >> slot & 1 == 1);
        let Some(&run) = above.chain(below).find(has) else {
            for slot in in_own {
                let others = (own.0..own.1).filter(|&other| other != slot && other != asked);
                let order: Vec<u8> = [slot].into_iter().chain(others).chain([asked]).collect();
                let mut shuffle = Shuffle::none();
                shuffle.lead(&self.ranks, &order);
                self.add(shuffle);
            }
            return;
        };
        let sorts: Vec<u8> = self.ranks.sorts(run, unknown).collect();
        for slot in sorts {
            let mut shuffle = Shuffle::none();
            shuffle.trail(&self.ranks, asked);
            shuffle.lead(&self.ranks, &[slot]);
            self.add(shuffle);
        }
    }

    /// Production fills the lowest free slot, and sends the one whose turn it is.
    fn production(&mut self) {
        let s = self.first;
        let free = self.machine.used_slots(s) & !s.map.full;
        self.lowest_of(free);
        let queued = &s.order[..usize::from(s.order_len).min(SLOTS_MOST)];
        let mask = queued.iter().fold(0_u64, |mask, slot| mask | 1 << slot);
        let last = self.machine.order_in_force(s) == Order::LastInFirstOut;
        let runs: Vec<(u8, u8)> = self.ranks.runs().collect();
        for run in runs {
            let sorts: Vec<u8> = self.ranks.sorts(run, mask).collect();
            for slot in sorts {
                let mut member = *s;
                let order = &mut member.order[..queued.len()];
                let at = order.iter().position(|&queued| queued == slot);
                let Some(at) = at else { continue };
                if last {
                    order[at..].rotate_left(1);
                } else {
                    order[..=at].rotate_right(1);
                }
                (self.found)(member, None);
            }
        }
    }

    /// A lift that was stopped comes to rest anywhere.
    fn stops(&mut self) {
        let s = self.first;
        let places = [LiftPlace::Reference, LiftPlace::BelowFirst];
        let runs: Vec<(u8, u8)> = self.ranks.runs().collect();
        let slots = runs.iter().flat_map(|&run| self.ranks.sorts(run, u64::MAX));
        let places = places.into_iter().chain(slots.map(LiftPlace::At));
        for place in places.collect::<Vec<_>>() {
            let mut member = *s;
            self.machine.stop_at(&mut member, place);
            (self.found)(member, None);
        }
    }
}
