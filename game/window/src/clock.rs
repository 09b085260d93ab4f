//! Real time, for the window alone: how much of it passed, and when the next picture is due.

use std::time::{Duration, Instant};

/// Between two pictures while something moves: 30 a second are enough for eyes, and spare half of
/// an office machine.
const PICTURE: Duration = Duration::from_millis(33);

/// Between two pictures while a mark alternates.
const HALF: Duration = Duration::from_millis(500);

/// Between two pictures while only a clock on the page goes on: whoever acts sees it anew at once.
const TICK: Duration = Duration::from_secs(5);

/// While nothing changes by itself.
const STILL: Duration = Duration::from_secs(3_600);

/// Real time since the picture before.
#[derive(Debug)]
pub(crate) struct Clock {
    begun: Instant,
    last: Instant,
}

impl Clock {
    /// A clock that begins now.
    pub(crate) fn new() -> Clock {
        let now = Instant::now();
        Clock {
            begun: now,
            last: now,
        }
    }

    /// Real time since it was asked last.
    pub(crate) fn passed(&mut self) -> Duration {
        let now = Instant::now();
        let passed = now - self.last;
        self.last = now;
        passed
    }

    /// Real time since the begin, in s.
    pub(crate) fn seconds(&self) -> f64 {
        (self.last - self.begun).as_secs_f64()
    }
}

/// When the next picture is due though nobody does anything. `asked` is when the page wants it.
pub(crate) fn due(moves: bool, ticks: bool, asked: Duration) -> Duration {
    match (moves, ticks) {
        (true, _) => PICTURE,
        (false, _) if !at_once(asked) && asked <= HALF => HALF,
        (false, true) => TICK,
        (false, false) => STILL,
    }
}

/// Whether a page wants the next picture at once.
pub(crate) fn at_once(asked: Duration) -> bool {
    asked < PICTURE
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_is_drawn_while_nothing_changes() {
        let never = Duration::MAX;
        let half = Duration::from_millis(500);
        let cases = [
            ((true, true, never), PICTURE),
            ((true, false, half), PICTURE),
            ((false, true, never), TICK),
            ((false, false, never), STILL),
            ((false, true, half), half),
            ((false, false, half), half),
            // At once is asked for by itself.
            ((false, false, Duration::ZERO), STILL),
            ((false, true, Duration::from_secs(60)), TICK),
        ];
        for ((moves, ticks, asked), expected) in cases {
            assert_eq!(
                due(moves, ticks, asked),
                expected,
                "{moves} {ticks} {asked:?}"
            );
        }
    }
}
