//! What a key of world and monitors holds, and what it forgets.

use rackproof_buffer::{Halves, Member, Question, Task};
use rackproof_drill::{Ending, Mergers};
use rackproof_model::key::Coder;

use crate::{
    Program, Watch,
    formula::SetAtom,
    judged::{Judged, JudgedState},
    limits::SETS_MOST,
};

/// What prepared steps forget of a state where nothing asks for it, beside their preparations.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Forgets {
    /// How a stop of the lift goes on.
    braking: bool,
    /// Which product is loaded.
    loaded: bool,
}

impl Judged {
    /// What may be forgotten with these rules on this machine. Where another clock runs beside the
    /// lift it counts how long a stop takes. Where a page is open widths are typed for the product
    /// that is chosen.
    pub(super) fn forgets_of_prepared(&self) -> Forgets {
        let world = &self.world;
        let sound = !world.has_faults();
        let alike = world.drill().pages.is_empty() && world.machine().stores_alike();
        Forgets {
            braking: sound && !self.clocks_run_beside(),
            loaded: sound && alike && !self.rules.program.asks_for_loaded(),
        }
    }

    /// Forgets of a state what nothing asks of it any more.
    pub(super) fn forget_unasked(&self, state: &mut JudgedState) {
        self.forget_parts(state);
        let (machine, of_machine) = (self.world.machine(), &mut state.world.machine);
        machine.forget_preparations(of_machine);
        if self.forgets.braking {
            machine.forget_braking(of_machine);
        }
        if self.forgets.loaded {
            let next = usize::from(self.world.drill().next);
            let wanted = machine.rails_for(machine.parts().products[next].width);
            machine.forget_loaded(of_machine, wanted);
        }
    }

    /// Evidence that cannot count any more. Looks add up to all slots only if a look through the
    /// hatch shows all of them by itself (an empty rack is seen whole, and a board that hides a
    /// slot keeps its own from being seen empty), so that a part counts only for the slot at the
    /// belts that the panel asks about. Answers add up only within a clear-out that began with the
    /// whole rack.
    pub(super) fn forget_parts(&self, state: &mut JudgedState) {
        let machine = &state.world.machine;
        let asked = matches!(
            machine.question(),
            Some(Question::Answer(_) | Question::AnswerHalf(_))
        );
        let slot = machine.slot_at_belts().filter(|_| asked);
        let only = slot.map_or(Halves::NONE, Halves::slot);
        let answering = machine.task() == Task::ClearOut;
        for &(place, atom) in &self.whole_sets {
            let unknown = machine.map.unknown;
            let open = Halves {
                infeed: unknown,
                outfeed: unknown,
            };
            let keeps = answering
                && atom == SetAtom::Answered
                && self.rules.program.is_whole_with(&state.watch, place, open);
            if !keeps && !self.rules.program.is_whole(&state.watch, place) {
                Program::restrict(&mut state.watch, place, only);
            }
        }
    }

    /// Puts a member of its class in the place of a state. True if it was another.
    pub(super) fn squeeze(&self, state: &mut JudgedState, member: Member) -> bool {
        self.forget_unasked(state);
        let machine = self.world.machine();
        machine.forget_beginning(&mut state.world.machine);
        let (columns, count) = self.columns(state);
        let columns = &columns[..count];
        let frames = (1 << self.world.hall().reached_from_under) - 1;
        let of_machine = &mut state.world.machine;
        if member == Member::First
            && (machine.sweep_on(of_machine, frames, columns)
                || machine.begin_alike(of_machine, frames, columns))
        {
            return true;
        }
        let squeeze = machine.squeeze(&state.world.machine, frames, columns, member);
        let Some(squeeze) = squeeze else {
            return false;
        };
        machine.change_places(&mut state.world.machine, &squeeze);
        self.move_columns(state, &|mask| squeeze.mask(mask));
        true
    }

    /// The evidence as masks of slots, two for each set of the memory, and how many masks there
    /// are.
    pub(super) fn columns(&self, state: &JudgedState) -> ([u64; 2 * SETS_MOST], usize) {
        let sets = usize::from(self.rules.program.sets);
        let mut columns = [0; 2 * SETS_MOST];
        for (masks, set) in columns.chunks_exact_mut(2).zip(&state.watch.sets[..sets]) {
            masks.copy_from_slice(&[set.infeed, set.outfeed]);
        }
        (columns, 2 * sets)
    }

    /// Lets slots change their places in the evidence: `moved` gives each mask anew.
    pub(super) fn move_columns(&self, state: &mut JudgedState, moved: &dyn Fn(u64) -> u64) {
        let sets = usize::from(self.rules.program.sets);
        for set in &mut state.watch.sets[..sets] {
            (set.infeed, set.outfeed) = (moved(set.infeed), moved(set.outfeed));
        }
    }

    /// Whether nothing but the verdict counts any more.
    pub(super) fn is_over(&self, state: &JudgedState) -> bool {
        self.mergers == Mergers::Prepared && (state.world.person.reported || state.broken != 0)
    }

    /// Writes the key of a state of which only the verdict counts: what [`Judged::code`] writes.
    pub(super) fn write_verdict(&self, state: &JudgedState, coder: &mut impl Coder) {
        coder.flag(&mut true);
        let (mut ending, mut broken) = (state.world.ending(), state.broken);
        self.code_verdict((&mut ending, &mut broken), coder);
    }

    fn code_verdict(&self, (ending, broken): (&mut Ending, &mut u64), coder: &mut impl Coder) {
        self.world.code_ending(ending, coder);
        coder.mask(broken, self.rules.list.len() as u32);
    }

    pub(super) fn code(&self, state: &mut JudgedState, coder: &mut impl Coder) {
        if !self.reads.straps {
            state.world.person.straps_tested = false;
        }
        if !self.reads.log {
            state.world.person.log_written = false;
        }
        // After the report nothing happens any more, and after a breach nothing is asked any more:
        // only the verdict counts.
        let prepared = self.mergers == Mergers::Prepared;
        let mut ended = self.is_over(state);
        coder.flag(&mut ended);
        let rules = self.rules.list.len() as u32;
        if ended {
            let (mut ending, mut broken) = (state.world.ending(), state.broken);
            self.code_verdict((&mut ending, &mut broken), coder);
            *state = JudgedState {
                world: self.start.world.ended(ending),
                watch: Watch::default(),
                broken,
                failing: 0,
            };
            return;
        }
        if prepared {
            self.forget_unasked(state);
        }
        self.world.code(&mut state.world, self.mergers, coder);
        self.rules.program.code(&mut state.watch, coder);
        if self.quiet.breakable() != 0 {
            coder.mask(&mut state.failing, rules);
        }
        coder.mask(&mut state.broken, rules);
    }
}

#[cfg(test)]
#[path = "keys_tests.rs"]
mod tests;
