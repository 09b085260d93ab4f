//! What an act, and time that passes, tell the monitors.

use rackproof_drill::{Cause, Condition, Conditions, Intent, Outcome, State, Widths};
use rackproof_model::Model;

use super::{Judged, JudgedOutcome, JudgedState};
use crate::{Observation, plan::Plan};

impl Judged {
    pub(super) fn observe(
        &self,
        plan: &Plan,
        state: &mut JudgedState,
        seen: &Observation,
        hear: &mut dyn FnMut(JudgedOutcome),
    ) {
        let fails = plan.failures(&self.rules.program, &mut state.watch, seen);
        self.tell((&mut state.broken, &mut state.failing), fails, hear);
    }

    /// Does an intent. `known` is what the person knows before it, if that was worked out, and then
    /// what they know after it, if that was.
    pub(super) fn do_intent(
        &self,
        state: &mut JudgedState,
        intent: Intent,
        known_now: &mut Option<Conditions>,
        hear: &mut dyn FnMut(JudgedOutcome),
    ) {
        let known_before = known_now.take();
        if self.is_unasked(intent) {
            // Nothing to be known changes by it alone, and nobody asks whether it was done.
            self.after_signs(state, false, hear, |world, tell| {
                self.world
                    .act(world, Cause::Did(intent), &mut |outcome| tell(outcome));
            });
            if matches!(intent, Intent::Walk(_)) && self.world.is_still_between_acts() {
                *known_now = known_before;
            }
            return;
        }
        let known = match known_before {
            Some(known) => self.world.about_to(known, intent),
            None => self.world.conditions(&state.world, Some(intent)),
        };
        let widths = self.widths(&self.after, state);
        if self.asks.before(intent.kind()) {
            let mut before = Observation::before_with(known, &state.world, intent);
            let plan = &self.before[intent.kind() as usize];
            before.read(self.widths(plan, state));
            self.observe(plan, state, &before, hear);
        }
        let mut after = Observation::default();
        self.world
            .act(&mut state.world, Cause::Did(intent), &mut |outcome| {
                after.hear(&outcome);
                hear(JudgedOutcome::World(outcome));
            });
        let known_after = after.settle_without_widths(&self.world, &state.world);
        let changed = known_after.0 ^ known.0;
        *known_now = Some(known_after);
        let read = self.widths(&self.after, state);
        if self.asks.after(&after, changed) || read != widths {
            after.read(read);
            self.observe(&self.after, state, &after, hear);
        }
    }

    /// The widths that can be read, if a plan compares any.
    pub(super) fn widths(&self, plan: &Plan, state: &JudgedState) -> Option<Widths> {
        let reads = plan.reads_widths;
        reads.then(|| self.world.widths(&state.world))
    }

    /// Whether it is a step or a light of which no rule says anything.
    pub(super) fn is_unasked(&self, intent: Intent) -> bool {
        let lit = self.asks.conditions >> Condition::TorchOn as u8 & 1 == 1;
        let moves = match intent {
            Intent::Walk(_) => true,
            Intent::Torch(_) => !lit,
            _ => false,
        };
        moves && !self.asks.before(intent.kind())
    }

    pub(super) fn after_signs(
        &self,
        state: &mut JudgedState,
        looks: bool,
        hear: &mut dyn FnMut(JudgedOutcome),
        work: impl FnOnce(&mut State, &mut dyn FnMut(Outcome)),
    ) {
        let mut after = Observation::default();
        work(&mut state.world, &mut |outcome| {
            after.hear(&outcome);
            hear(JudgedOutcome::World(outcome));
        });
        if after.has_signs() {
            after.settle_without_widths(&self.world, &state.world);
            let read = self.widths(&self.after, state);
            if self.asks.after(&after, u64::MAX) || read.is_some() {
                after.read(read);
                self.observe(&self.after, state, &after, hear);
            }
        } else if looks {
            let seen = self.quiet_observation(state);
            self.observe(&self.quiet, state, &seen, hear);
        }
    }
}
