//! Time that passes for the monitors, and what they tell.

use rackproof_model::Micros;

use super::{Judged, JudgedOutcome, JudgedState};
use crate::{Observation, Watch, formula::Values};

impl Judged {
    /// Tells of rules that do not hold. Those that time alone can break are told of once, until
    /// they hold again; the others each time that they are put to the test.
    pub(super) fn tell(
        &self,
        (broken, failing): (&mut u64, &mut u64),
        fails: u64,
        hear: &mut dyn FnMut(JudgedOutcome),
    ) {
        let mut told = fails & !*failing;
        *failing = fails & self.breakable;
        *broken |= told;
        while told != 0 {
            hear(JudgedOutcome::Broke(told.trailing_zeros() as u8));
            told &= told - 1;
        }
    }

    /// What is to be seen while time passes.
    pub(super) fn quiet_observation(&self, state: &JudgedState) -> Observation {
        let mut seen = Observation::quiet_without_widths(&self.world, &state.world);
        seen.read(self.widths(&self.quiet, state));
        seen
    }

    /// Lets time pass for the monitors, up to the moment at its end. At that moment the world's
    /// events come first. Whether that moment has to be looked at even if nothing comes.
    pub(super) fn pass(
        &self,
        state: &mut JudgedState,
        span: Micros,
        hear: &mut dyn FnMut(JudgedOutcome),
    ) -> bool {
        if self.quiet.is_idle() {
            return false;
        }
        let (seen, program) = (self.quiet_observation(state), &self.rules.program);
        let JudgedState {
            watch,
            broken,
            failing,
            ..
        } = state;
        let mut tell = |fails| self.tell((broken, failing), fails, hear);
        match self.quiet.quiet_circuits() {
            Some(circuits) => program.pass(watch, span, &mut |watch, now| {
                let turn = circuits[now as usize % 2].step(program, watch, &seen);
                tell(turn.fails);
                turn
            }),
            None => program.pass(watch, span, &mut |watch, now| {
                let values = self.quietly(watch, &seen, now);
                tell(self.quiet.false_roots(&values));
                values
            }),
        }
    }

    fn quietly(&self, watch: &mut Watch, seen: &Observation, now: u64) -> Values<'_> {
        let program = &self.rules.program;
        if now % 2 == 1 {
            self.quiet.step::<true>(program, watch, seen)
        } else {
            self.quiet.step::<false>(program, watch, seen)
        }
    }

    /// The time until a window runs out, or until a rule is broken by nothing but time.
    pub(super) fn next_change(&self, state: &JudgedState) -> Option<Micros> {
        if self.quiet.is_idle() {
            return None;
        }
        let (seen, program) = (self.quiet_observation(state), &self.rules.program);
        match self.quiet.quiet_circuits() {
            Some(circuits) => program.next_change(
                state.watch,
                &mut |watch, now| circuits[now as usize % 2].step(program, watch, &seen),
                &mut |turn| turn.fails & !state.failing != 0,
            ),
            None => program.next_change(
                state.watch,
                &mut |watch, now| self.quietly(watch, &seen, now),
                &mut |values| self.quiet.false_roots(values) & !state.failing != 0,
            ),
        }
    }
}
