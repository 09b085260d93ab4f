//! Time that passes over formulas.
//!
//! Time is dense. At a moment, a whole microsecond of the attempt, something may be done and signs
//! may come: one observation or several in their order. Between two moments lies a gap, an open
//! span in which nothing is done, no sign comes, and all that is known stays as it was. So a
//! formula is true or false for a whole gap, whatever the windows: windows are whole microseconds.
//! Moments and gaps are counted together as half-moments: gap, moment, gap, moment.
//!
//! Where this differs from a logic over samples, such as observations alone:
//!
//! - what is done or heard is false right after, so that `Historically(Did(Stop))` ends in the gap;
//! - `Since(a, b)` of two that hand over at one instant (b until then, a from then on) is false: no
//!   moment of b is followed by a alone. Over samples it is true;
//! - `[0, b]` is over right after its last microsecond, though nothing comes then.
//!
//! `Previously` speaks of observations, and a gap is none.
//!
//! An observation that can tell a program nothing (nothing that it asks for was done, came or
//! changed) is none: what it would have seen, the gap after it shows.
//!
//! A program whose memory no gap can change, and whose rules no gap can break, lets time pass
//! unwatched: see `known`. The shipped rules are of this kind.

use rackproof_model::Micros;

use crate::{Observation, Program, Watch, formula::Values, turn::Found};

impl Program {
    /// Lets `span` pass, up to the moment at its end, but not that moment itself: its clocks have
    /// been set on, and an observation of it comes next. `evaluate` is asked at the first
    /// half-moment and at each at which something can come out otherwise. They are counted from 1,
    /// so that gaps are odd. Whether the moment at the end has to be looked at even if nothing
    /// comes.
    pub(crate) fn pass<F: Found>(
        &self,
        watch: &mut Watch,
        span: Micros,
        evaluate: &mut impl FnMut(&mut Watch, u64) -> F,
    ) -> bool {
        if span == Micros(0) {
            return false;
        }
        let last = 2 * u64::from(span.0) - 1;
        let mut now = 1;
        while now <= last {
            self.age(watch, 1);
            let found = evaluate(watch, now);
            let left = last - now;
            let free = found
                .room(self, watch)
                .map_or(left, |room| u64::from(room - 1).min(left));
            // An even number, so that the last one skipped is of the sort that was evaluated.
            let skipped = free & !1;
            let drifts = u32::try_from(skipped).unwrap_or(u32::MAX);
            found.drift(self, watch, drifts);
            now += skipped + 1;
        }
        self.arrive(watch)
    }

    /// Lets the last half-moment before a moment go by. Whether that moment has to be looked at
    /// even if nothing comes: see [`Clock::turned`](crate::watch::Clock::turned).
    fn arrive(&self, watch: &mut Watch) -> bool {
        let mut turns = false;
        for (kind, clock) in self.clocks.iter().zip(&mut watch.clocks) {
            let before = *clock;
            if before != 0 {
                *clock = kind.aged(before, 1);
                turns |= kind.turned(before, *clock);
            }
        }
        self.set_arrive(watch) | turns
    }

    /// The time until an operator with a window comes out otherwise if nothing happens. `broke`
    /// looks at the gap that follows at once: if it finds fault there, that counts too.
    pub(crate) fn next_change<F: Found>(
        &self,
        mut watch: Watch,
        evaluate: &mut impl FnMut(&mut Watch, u64) -> F,
        broke: &mut impl FnMut(&F) -> bool,
    ) -> Option<Micros> {
        self.age(&mut watch, 1);
        let found = evaluate(&mut watch, 1);
        if broke(&found) {
            return Some(Micros(1));
        }
        // Half-moment 1 is the gap that follows. What is seen in a gap is known at its end.
        let room = u64::from(found.room(self, &watch)?);
        Some(Micros((room + 1).div_ceil(2) as u32))
    }

    /// Lets `span` pass in which only `quiet` is to be seen, and then looks at its last moment.
    pub(crate) fn pass_quietly(
        &self,
        watch: &mut Watch,
        span: Micros,
        quiet: &Observation,
    ) -> bool {
        self.pass(watch, span, &mut |watch, now| {
            self.at_half_moment(watch, quiet, now)
        })
    }

    /// The values at a half-moment: a gap if it is odd.
    pub(crate) fn at_half_moment(
        &self,
        watch: &mut Watch,
        quiet: &Observation,
        now: u64,
    ) -> Values<'_> {
        if now % 2 == 1 {
            self.at_moment::<true>(watch, quiet)
        } else {
            self.at_moment::<false>(watch, quiet)
        }
    }

    /// The time until an operator with a window comes out otherwise while only `quiet` is to be
    /// seen.
    pub(crate) fn next_quiet_change(&self, watch: Watch, quiet: &Observation) -> Option<Micros> {
        if !self.has_windows() {
            return None;
        }
        let evaluate = &mut |watch: &mut Watch, now| self.at_half_moment(watch, quiet, now);
        self.next_change(watch, evaluate, &mut |_| false)
    }
}
