//! How time passes in the machine: from event to event, never past one.

use rackproof_model::{Instants, Micrometres, Micros};

use crate::{Axis, Hear, Machine, Motion, State, UnitState};

impl Machine {
    /// Time to the next event, or `None` if nothing happens by itself.
    pub fn next_event(&self, s: &State) -> Option<Micros> {
        let timers = [
            s.hold_left,
            s.ready_open_left,
            s.available_open_left,
            s.stored.arrival_left,
            s.service.confirm_left,
        ];
        let mut next = self.sink_next(s);
        for left in &timers {
            if left.0 > 0 {
                next = sooner(next, Some(*left));
            }
        }
        // Mostly an axis rests: then nothing else is asked of it.
        if !s.lift.is_rest() {
            next = sooner(next, self.lift_next(s));
        }
        if !s.rails.is_rest() {
            next = sooner(next, self.rails_next(s));
        }
        if !s.belts.is_rest() {
            next = sooner(next, self.belts_next(s));
        }
        next
    }

    /// Adds the moments before the next event at which a stop comes out otherwise.
    pub fn critical_instants(&self, s: &State, out: &mut Instants) {
        let Some(next) = self.next_event(s) else {
            return;
        };
        let mut found = |at: Micros| {
            if at.0 > 0 && at < next {
                out.push(at);
            }
        };
        self.lift_critical(s, &mut found);
        self.rails_critical(s, &mut found);
        self.belts_critical(s, &mut found);
    }

    /// Lets `span` pass, at most to the next event, and does what is due then.
    pub fn advance(&self, s: &mut State, span: Micros, hear: &mut Hear) {
        debug_assert!(
            self.next_event(s).is_none_or(|next| span <= next),
            "an event was passed"
        );
        if s.moves() {
            s.lift.pass(span);
            s.rails.pass(span);
            s.belts.pass(span);
        }
        self.sink_on(s, span);
        let held = s.hold_left.0 > 0;
        let awaited = s.service.confirm_left.0 > 0;
        for timer in [
            &mut s.hold_left,
            &mut s.ready_open_left,
            &mut s.available_open_left,
            &mut s.stored.arrival_left,
            &mut s.service.confirm_left,
        ] {
            timer.0 = timer.0.saturating_sub(span.0);
        }
        if held && s.hold_left.0 == 0 {
            self.declare_empty(s, hear);
        }
        if awaited && s.service.confirm_left.0 == 0 {
            self.not_confirmed(s, hear);
        }
        self.settle(s, hear);
    }

    /// Does all that is due now, in a fixed order, until nothing is.
    pub(crate) fn settle(&self, s: &mut State, hear: &mut Hear) {
        while !s.lift.is_rest() && self.lift_due(s, hear)
            || !s.rails.is_rest() && self.rails_due(s, hear)
            || !s.belts.is_rest() && self.belts_due(s, hear)
            || self.brake_due(s, hear)
            || self.came_to_rest(s, hear)
            || s.phase.waits_for_signals() && self.signals_due(s, hear)
        {}
        self.note_alarms(s);
    }

    /// An acting state that waits for the axes to come to rest is done when they have.
    fn came_to_rest(&self, s: &mut State, hear: &mut Hear) -> bool {
        let waits = matches!(
            s.unit,
            UnitState::Stopping
                | UnitState::Aborting
                | UnitState::Holding
                | UnitState::Suspending
                | UnitState::Completing
        );
        if !waits || s.moves() {
            return false;
        }
        self.unit_done(s, hear);
        true
    }
}

/// The sooner of two moments, where there is one.
fn sooner(one: Option<Micros>, other: Option<Micros>) -> Option<Micros> {
    match (one, other) {
        (Some(one), Some(other)) => Some(one.min(other)),
        (one, other) => one.or(other),
    }
}

/// Calls `found` with the last moment from now at which a stop still ends before `mark` is reached.
/// A stop's way grows with time until the ramp down, so that a bisection finds it.
pub(crate) fn last_stop_before(
    motion: &Motion,
    axis: &Axis,
    mark: Micrometres,
    found: &mut dyn FnMut(Micros),
) {
    let passes = |after: u32| {
        let mut later = *motion;
        later.pass(Micros(after));
        let end = later.covered(axis).0.abs() + later.stopping_way(axis).0;
        end >= mark.0.abs()
    };
    let same_way = (motion.way().0 < 0) == (mark.0 < 0);
    let left = motion.left().0;
    if !same_way || mark.0.abs() > motion.way().0.abs() || left == 0 || passes(0) {
        return;
    }
    let (mut early, mut late) = (0, left);
    while late - early > 1 {
        let middle = early + (late - early) / 2;
        if passes(middle) {
            late = middle
        } else {
            early = middle
        }
    }
    found(Micros(early));
}
