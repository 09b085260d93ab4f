//! How time passes in the machine: from event to event, never past one.

use rackproof_model::{Instants, Micrometres, Micros};

use crate::{Axis, Hear, Listener, Machine, Motion, Phase, State, UnitState};

impl Machine {
    /// Time to the next event, or `None` if nothing happens by itself.
    #[inline]
    pub fn next_event(&self, s: &State) -> Option<Micros> {
        let timer = s.next_timer();
        // Mostly nothing moves. Then nothing else is asked.
        if !self.waits_smoothly(s) && (s.moves() || s.faults.sink.is_some()) {
            return sooner(timer, self.next_of_axes(s));
        }
        timer
    }

    #[inline(never)] // keeps the frame of `next_event` small
    fn next_of_axes(&self, s: &State) -> Option<Micros> {
        let mut next = s.faults.sink.and_then(|_| self.sink_next(s));
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
    #[inline]
    pub fn advance(&self, s: &mut State, span: Micros, hear: &mut (impl Listener + ?Sized)) {
        debug_assert!(
            self.next_event(s).is_none_or(|next| span <= next),
            "an event was passed"
        );
        // Mostly nothing but a signal that is open lets time run.
        if !self.is_quiet(s) {
            return self.advance_all(s, span, hear);
        }
        let ready = runs_out(&mut s.ready_open_left, span);
        let available = runs_out(&mut s.available_open_left, span);
        // Nothing moved, no timer ran out, nothing is wrong: then nothing can be due, for whatever
        // else changes a state settles it by itself.
        if ready || available {
            self.settle(s, hear);
        }
    }

    /// Lets time pass to the next event, at most so long, and does what is due then. How long it
    /// was.
    #[inline]
    pub fn advance_at_most(
        &self,
        s: &mut State,
        most: Micros,
        hear: &mut (impl Listener + ?Sized),
    ) -> Micros {
        if !self.is_quiet(s) {
            let span = self.next_event(s).map_or(most, |next| next.min(most));
            self.advance_all(s, span, hear);
            return span;
        }
        // Mostly nothing but a signal that is open lets time run. Less one, one that does not run
        // comes last of all.
        let [ready, available] = [s.ready_open_left, s.available_open_left];
        let [ready, available] = [ready.0.wrapping_sub(1), available.0.wrapping_sub(1)];
        let first = ready.min(available);
        let span = if first < most.0 {
            Micros(first + 1)
        } else {
            most
        };
        s.ready_open_left.0 = s.ready_open_left.0.saturating_sub(span.0);
        s.available_open_left.0 = s.available_open_left.0.saturating_sub(span.0);
        if first < span.0 {
            self.settle(s, hear);
        }
        span
    }

    /// The same, where an axis moves, something is wrong, or somebody is waited for.
    #[inline(never)] // keeps the frame of `advance` small
    fn advance_all(&self, s: &mut State, span: Micros, hear: &mut (impl Listener + ?Sized)) {
        let mut due = s.is_unsound();
        if s.moves() {
            s.lift.pass(span);
            s.rails.pass(span);
            s.belts.pass(span);
            due = true;
        }
        if s.faults.sink.is_some() {
            self.sink_on(s, span);
        }
        due |= runs_out(&mut s.ready_open_left, span);
        due |= runs_out(&mut s.available_open_left, span);
        if s.waits() {
            due |= self.pass_waiting(s, span, &mut |outcome| hear(outcome));
        }
        if due {
            self.settle(s, hear);
        }
    }

    /// Lets the timers run on that seldom run. True if one ran out.
    #[inline(never)] // keeps the frame of `advance` small
    fn pass_waiting(&self, s: &mut State, span: Micros, hear: &mut Hear) -> bool {
        let declared = runs_out(&mut s.hold_left, span);
        let unconfirmed = runs_out(&mut s.service.confirm_left, span);
        let arrival = runs_out(&mut s.arrival_left, span);
        if declared {
            self.declare_empty(s, hear);
        }
        if unconfirmed {
            self.not_confirmed(s, hear);
        }
        declared || unconfirmed || arrival
    }

    /// Whether nothing but a signal that is open lets time run.
    #[inline]
    fn is_quiet(&self, s: &State) -> bool {
        self.waits_smoothly(s) || !(s.moves() || s.is_unsound() || s.waits())
    }

    /// Does all that is due now, in a fixed order, until nothing is.
    #[inline(never)] // keeps those small that ask for it
    pub(crate) fn settle(&self, s: &mut State, hear: &mut (impl Listener + ?Sized)) {
        if !self.works_smoothly(s) {
            self.settle_oddly(s, hear);
        } else if s.phase == Phase::Waiting {
            self.settle_at_slot(s, hear);
        } else {
            self.go_on_smoothly(s, hear, None);
        }
    }

    #[inline(never)] // keeps the frame of `settle` small
    pub(crate) fn settle_oddly(&self, s: &mut State, hear: &mut (impl Listener + ?Sized)) {
        self.settle_all(s, &mut |outcome| hear(outcome));
    }

    /// The same, whatever is odd.
    #[inline(never)] // keeps the frame of `settle` small
    pub(crate) fn settle_all(&self, s: &mut State, hear: &mut Hear) {
        // Faults come and go by what others do, never by what is due.
        let unsound = s.is_unsound();
        while s.moves() && self.motion_due(s, hear)
            || unsound && self.brake_due(s, hear)
            || self.control_due(s, hear)
        {}
        self.note_alarms(s);
    }

    /// What the controller does by itself: at work it goes by the signals, on the way to rest it
    /// waits for the axes.
    #[inline]
    fn control_due(&self, s: &mut State, hear: &mut Hear) -> bool {
        if s.unit == UnitState::Execute {
            self.signals_due(s, hear)
        } else {
            self.came_to_rest(s, hear)
        }
    }

    #[inline]
    fn motion_due(&self, s: &mut State, hear: &mut Hear) -> bool {
        !s.lift.is_rest() && self.lift_due(s, hear)
            || !s.rails.is_rest() && self.rails_due(s, hear)
            || !s.belts.is_rest() && self.belts_due(s, hear)
    }

    /// An acting state that waits for the axes to come to rest is done when they have.
    #[inline]
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

/// The time left of the timers in use that runs out first. Nought means that one does not run.
#[inline]
fn first_to_run_out<const N: usize>(timers: [Micros; N]) -> Option<Micros> {
    // Less one, one that does not run comes last of all.
    let less_one = timers.map(|left| left.0.wrapping_sub(1)).into_iter().min();
    let left = less_one.map(|less_one| Micros(less_one.wrapping_add(1)));
    left.filter(|left| left.0 > 0)
}

impl State {
    /// Whether a person or a sensor is waited for: one of the timers that seldom run does.
    #[inline]
    pub(crate) fn waits(&self) -> bool {
        self.hold_left.0 | self.arrival_left.0 | self.service.confirm_left.0 != 0
    }

    /// The time until the next timer runs out.
    #[inline]
    pub(crate) fn next_timer(&self) -> Option<Micros> {
        let signals = first_to_run_out([self.ready_open_left, self.available_open_left]);
        if !self.waits() {
            return signals;
        }
        let waiting = [self.hold_left, self.arrival_left, self.service.confirm_left];
        sooner(signals, first_to_run_out(waiting))
    }
}

/// Lets a timer run on. True if it ran out in this span.
#[inline]
fn runs_out(timer: &mut Micros, span: Micros) -> bool {
    let ran = timer.0 > 0;
    timer.0 = timer.0.saturating_sub(span.0);
    ran && timer.0 == 0
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
