//! All moments of an attempt, so that any of them can be shown, or gone on from.

use rackproof_grade::{Judged, JudgedState};
use rackproof_model::{Micros, Model};

use crate::{Attempt, Done, Heard};

/// An attempt with its states: one after each cause and each event.
#[derive(Clone, Debug)]
pub struct History {
    judged: Judged,
    states: Vec<(u64, JudgedState)>,
    /// For each doing, which of the states it was done in.
    before: Vec<usize>,
    done: Vec<Done>,
    heard: Vec<Heard>,
    end: u64,
}

/// Something that did not change for a while.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Span<T> {
    /// From when, in µs since the start.
    pub from: u64,
    /// Until when, in µs since the start.
    pub to: u64,
    /// What.
    pub what: T,
}

impl History {
    /// The history of an attempt so far.
    pub fn of(attempt: &Attempt) -> History {
        let judged = attempt.judged().clone();
        let mut history = History {
            states: vec![(0, judged.start())],
            before: Vec::new(),
            judged,
            done: attempt.done().to_vec(),
            heard: attempt.heard().to_vec(),
            end: attempt.at(),
        };
        for done in attempt.done() {
            history.pass(done.at);
            history.before.push(history.states.len() - 1);
            let mut state = history.last().1;
            history.judged.act(&mut state, done.cause, &mut |_| {});
            history.states.push((done.at, state));
        }
        history.pass(attempt.at());
        history
    }

    fn last(&self) -> &(u64, JudgedState) {
        let last = self.states.len() - 1;
        &self.states[last]
    }

    /// Lets time pass until `to`, from event to event.
    fn pass(&mut self, to: u64) {
        loop {
            let (at, mut state) = *self.last();
            if at >= to {
                return;
            }
            let left = Micros(u32::try_from(to - at).unwrap_or(u32::MAX));
            let part = self.judged.next_event(&state).unwrap_or(left).min(left);
            // Nothing that happens at this very moment is passed over.
            let part = part.max(Micros(u32::from(part == Micros(0))));
            self.judged.advance(&mut state, part, &mut |_| {});
            self.states.push((at + u64::from(part.0), state));
        }
    }

    /// The world with its rules.
    pub fn judged(&self) -> &Judged {
        &self.judged
    }

    /// How long the attempt took so far, in µs.
    pub fn end(&self) -> u64 {
        self.end
    }

    /// What was done until a moment, what was done at it included.
    pub fn done_until(&self, at: u64) -> &[Done] {
        let count = self.done.partition_point(|done| done.at <= at);
        &self.done[..count]
    }

    /// What was heard until a moment, what was heard at it included.
    pub fn heard_until(&self, at: u64) -> &[Heard] {
        let count = self.heard.partition_point(|heard| heard.at <= at);
        &self.heard[..count]
    }

    /// The state at a moment, after all that happened at it. The last one after the end.
    pub fn state_at(&self, at: u64) -> JudgedState {
        let at = at.min(self.end);
        let count = self.states.partition_point(|(then, _)| *then <= at);
        let (then, mut state) = self.states[count.saturating_sub(1)];
        let left = Micros(u32::try_from(at - then).unwrap_or(u32::MAX));
        if left > Micros(0) {
            self.judged.advance(&mut state, left, &mut |_| {});
        }
        state
    }

    /// The state right before a doing, by its number from 0: after all that happened at its moment
    /// until then. `None` if there is no such doing.
    pub fn before_doing(&self, number: usize) -> Option<&JudgedState> {
        let (_, state) = &self.states[*self.before.get(number)?];
        Some(state)
    }

    /// The moment of the cause or event after this one, or the end.
    pub fn after(&self, at: u64) -> u64 {
        let next = self.states.partition_point(|(then, _)| *then <= at);
        self.states.get(next).map_or(self.end, |(then, _)| *then)
    }

    /// The moment of the cause or event before this one, or the start.
    pub fn before(&self, at: u64) -> u64 {
        let count = self.states.partition_point(|(then, _)| *then < at);
        self.states[..count].last().map_or(0, |(then, _)| *then)
    }

    /// What a state says, over the whole time: spans in which it stays the same.
    pub fn spans<T: PartialEq>(&self, mut of: impl FnMut(&JudgedState) -> T) -> Vec<Span<T>> {
        let mut spans: Vec<Span<T>> = Vec::new();
        for (at, state) in &self.states {
            let what = of(state);
            match spans.last_mut() {
                Some(last) if last.what == what => continue,
                // Changed again at the same moment: only the last one was ever to be seen.
                Some(last) if last.from == *at => last.what = what,
                Some(last) => {
                    last.to = *at;
                    spans.push(Span {
                        from: *at,
                        to: self.end,
                        what,
                    });
                }
                None => spans.push(Span {
                    from: 0,
                    to: self.end,
                    what,
                }),
            }
        }
        spans
    }

    /// A new attempt that did the same until a moment, and goes on from there.
    pub fn take_over(&self, at: u64) -> Attempt {
        let mut attempt = Attempt::new(self.judged.clone());
        for done in self.done_until(at) {
            attempt.wait(done.at - attempt.at());
            // It was possible once, so it is possible again.
            let again = attempt.do_at_once(done.cause);
            debug_assert_eq!(again, Ok(()));
        }
        attempt.wait(at.min(self.end) - attempt.at());
        attempt.with_neighbour()
    }
}

#[cfg(test)]
mod tests {
    use rackproof_drill::Cause;
    use rackproof_grade::GuideRun;

    use super::*;
    use crate::sample;

    /// The guide's attempt at the first variant.
    fn attempt() -> Attempt {
        let exercise = sample::exercise();
        let judged = exercise.judged(0).expect("a drill has a variant");
        let run = GuideRun::play(&judged, &exercise.procedure, 0).expect("the guide finishes");
        let mut attempt = Attempt::new(judged);
        for (since, cause) in run.causes {
            attempt.wait(u64::from(since.0));
            attempt
                .do_at_once(cause)
                .expect("the guide does what is on offer");
        }
        attempt
    }

    #[test]
    fn every_moment_is_the_one_that_was() {
        let whole = attempt();
        let history = History::of(&whole);
        assert_eq!(history.end(), whole.at());
        assert_eq!(history.state_at(u64::MAX), *whole.state());
        // Anywhere, also between two events: as an attempt that does the same and waits.
        let mut compared = 0;
        for part in 0..40 {
            let at = whole.at() * part / 40 + part * 7;
            let again = history.take_over(at);
            assert_eq!(again.at(), at.min(whole.at()));
            assert_eq!(history.state_at(at), *again.state(), "at {at}");
            assert_eq!(history.done_until(at), again.done());
            assert_eq!(history.heard_until(at), again.heard());
            compared += 1;
        }
        assert_eq!(compared, 40);
    }

    #[test]
    fn before_each_doing_all_was_as_it_was_then() {
        let whole = attempt();
        let history = History::of(&whole);
        let mut again = Attempt::new(whole.judged().clone());
        for (number, done) in whole.done().iter().enumerate() {
            again.wait(done.at - again.at());
            assert_eq!(history.before_doing(number), Some(again.state()));
            again.do_at_once(done.cause).expect("it was possible once");
            assert_ne!(history.before_doing(number), Some(again.state()));
        }
        assert!(whole.done().len() > 40);
        assert_eq!(history.before_doing(whole.done().len()), None);
    }

    #[test]
    fn events_are_walked_both_ways_and_spans_cover_the_whole_time() {
        let history = History::of(&attempt());
        let (mut at, mut steps) = (0, vec![0]);
        while at < history.end() {
            at = history.after(at);
            steps.push(at);
        }
        let mut back = vec![at];
        while at > 0 {
            at = history.before(at);
            back.push(at);
        }
        back.reverse();
        assert_eq!(steps, back);
        let spans = history.spans(|state| state.world.machine.unit());
        assert!(spans.len() > 5);
        assert_eq!(spans.first().map(|span| span.from), Some(0));
        assert_eq!(spans.last().map(|span| span.to), Some(history.end()));
        for pair in spans.windows(2) {
            assert_eq!(pair[0].to, pair[1].from);
            assert_ne!(pair[0].what, pair[1].what);
        }
    }

    #[test]
    fn whoever_takes_over_can_do_something_else() {
        let whole = attempt();
        let history = History::of(&whole);
        let mut other = history.take_over(whole.at() / 2);
        let first = other.offers()[0];
        other.do_intent(first).expect("it is on offer");
        assert_eq!(
            other.done().last().map(|done| done.cause),
            Some(Cause::Did(first))
        );
        assert!(other.at() >= whole.at() / 2);
    }
}
