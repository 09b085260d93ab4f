//! Boards come at random and are worked on for random times: M/M/1/K with the real machine.
//!
//! Room for K in all: K − 1 slots, and the board that the machine downstream works on. A board that
//! comes while both are full is lost. The machine decides that: it does not close Machine Ready.

use crate::{fast::Fast, times::Times};

/// Mean time of work, in µs: against it the moves take no time.
pub(crate) const WORK: f64 = 1_000.0 * 1e6;

/// What was counted.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Count {
    /// Boards that came.
    pub(crate) came: u64,
    /// Boards that found no room.
    pub(crate) lost: u64,
    /// Boards that were worked on to the end.
    pub(crate) made: u64,
    /// Boards inside, times µs.
    pub(crate) filled: u128,
    /// µs.
    pub(crate) span: u64,
}

/// The line with its two neighbours.
pub(crate) struct Poisson {
    pub(crate) line: Fast,
    times: Times,
    /// Mean time from board to board, in µs.
    gap: f64,
    comes_at: u64,
    made_at: u64,
    /// Boards that wait at the machine upstream, the one on offer among them.
    waiting: u32,
    /// Boards in slots, on the way, and in work.
    inside: u32,
}

impl Poisson {
    /// A line with room for `room` boards in all, to which boards come at `rate` times the speed
    /// of work.
    pub(crate) fn new(rate: f64, room: u8, seed: u64) -> Poisson {
        let mut line = Fast::running(room - 1);
        line.call(true);
        let (mut times, gap) = (Times::of(seed), WORK / rate);
        Poisson {
            line,
            comes_at: times.exponential(gap),
            times,
            gap,
            made_at: u64::MAX,
            waiting: 0,
            inside: 0,
        }
    }

    /// Runs until so many boards came.
    pub(crate) fn run(&mut self, boards: u64) -> Count {
        let mut count = Count::default();
        let begun = self.line.clock;
        while count.came < boards {
            let before = self.line.clock;
            self.line.step(self.comes_at.min(self.made_at));
            let now = self.line.clock;
            count.filled += u128::from(now - before) * u128::from(self.inside);
            if self.line.entered {
                self.waiting -= 1;
                self.inside += 1;
                if self.waiting > 0 {
                    self.line.offer(true);
                }
            }
            if self.line.sent {
                self.line.call(false);
                self.made_at = now + self.times.exponential(WORK);
            }
            if now == self.made_at {
                self.inside -= 1;
                count.made += 1;
                self.made_at = u64::MAX;
                self.line.call(true);
            }
            if now == self.comes_at {
                count.came += 1;
                self.comes_at = now + self.times.exponential(self.gap);
                self.waiting += 1;
                if self.waiting == 1 {
                    self.line.offer(true);
                }
            }
            // Nothing moves, and still the board was not taken: there is no room.
            if self.waiting > 0 && self.line.is_still() {
                count.lost += u64::from(self.waiting);
                self.waiting = 0;
                self.line.offer(false);
            }
        }
        count.span = self.line.clock - begun;
        count
    }
}
