//! The guide's card beside a running attempt: looked up anew when something may have changed it.

use rackproof_attempt::{Ahead, Attempt, Exercise, Outlook, outlook};

/// What was looked up last, and after how much.
#[derive(Default)]
pub(super) struct NextStep {
    outlook: Outlook,
    looked: Option<Looked>,
}

/// When it was looked up.
#[derive(Clone, Copy, PartialEq, Eq)]
struct Looked {
    at: u64,
    done: usize,
    heard: usize,
}

impl NextStep {
    /// The next step.
    pub(super) fn ahead(&self) -> Option<&Ahead> {
        self.outlook.ahead.as_ref()
    }

    /// When it may be another though nobody does anything, in µs since the start.
    pub(super) fn holds_until(&self) -> Option<u64> {
        let holds = u64::from(self.outlook.holds?.0);
        Some(self.looked?.at + holds)
    }

    /// Looks it up if something was done or heard since, or if its time is over. Not all that is
    /// done is heard: a torch that is lit, a walk, a lock.
    pub(super) fn keep_up(&mut self, attempt: &Attempt, exercise: &Exercise) {
        let now = Looked::of(attempt);
        let stale = self.looked.is_none_or(|then| {
            let over = self.holds_until().is_some_and(|to| now.at >= to);
            (then.done, then.heard) != (now.done, now.heard) || over
        });
        if stale {
            self.look(attempt, exercise);
        }
    }

    /// Looks it up.
    pub(super) fn look(&mut self, attempt: &Attempt, exercise: &Exercise) {
        self.outlook = outlook(attempt, exercise);
        self.looked = Some(Looked::of(attempt));
    }
}

impl Looked {
    fn of(attempt: &Attempt) -> Looked {
        Looked {
            at: attempt.at(),
            done: attempt.done().len(),
            heard: attempt.heard().len(),
        }
    }
}
