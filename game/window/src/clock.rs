//! Real time, for the window alone: how much of it passed, and when the next picture is due.

use std::time::{Duration, Instant};

/// Between two pictures while something moves: 30 a second are enough for eyes, and spare half of
/// an office machine.
pub(crate) const PICTURE: Duration = Duration::from_millis(33);

/// Between two pictures while a mark alternates.
const HALF: Duration = Duration::from_millis(500);

/// So much later than something happens by itself it is shown: several things that follow each
/// other at once are one picture.
const LATE: Duration = Duration::from_millis(100);

/// While nothing changes by itself.
pub(crate) const STILL: Duration = Duration::from_secs(3_600);

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

/// When the next picture is due though nobody does anything. `stays` is how long the page stays as
/// it is by itself, `asked` is when the page wants the next picture.
pub(crate) fn due(moves: bool, stays: Option<Duration>, asked: Duration) -> Duration {
    if moves {
        return PICTURE;
    }
    if !at_once(asked) && asked <= HALF {
        return HALF;
    }
    // What happens by itself is there when the picture begins, and a little later is soon enough.
    stays.map_or(STILL, |stays| {
        stays.max(PICTURE).saturating_add(LATE).min(STILL)
    })
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
        let minute = Some(Duration::from_secs(60));
        let cases = [
            ((true, minute, never), PICTURE),
            ((true, None, half), PICTURE),
            ((false, minute, never), Duration::from_millis(60_100)),
            ((false, None, never), STILL),
            ((false, minute, half), half),
            ((false, None, half), half),
            // At once is asked for by itself.
            ((false, None, Duration::ZERO), STILL),
            // What happens by itself is shown a little later, and is no motion.
            ((false, Some(Duration::ZERO), never), PICTURE + LATE),
            ((false, Some(half), never), half + LATE),
            ((false, Some(Duration::MAX), never), STILL),
        ];
        for ((moves, stays, asked), expected) in cases {
            assert_eq!(
                due(moves, stays, asked),
                expected,
                "{moves} {stays:?} {asked:?}"
            );
        }
    }
}
