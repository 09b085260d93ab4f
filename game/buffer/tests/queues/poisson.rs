//! Boards come at random and are worked on for random times: M/M/1/K with the real machine.
//!
//! Room for K in all: K − 1 slots, and the board that the machine downstream works on. A board that
//! comes while both are full is lost. The machine decides that: it does not close Machine Ready.

use crate::{
    fast::{Fast, Moves},
    times::Times,
};

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
    pub(crate) filled: u64,
    /// µs.
    pub(crate) span: u64,
}

/// The line with its two neighbours.
pub(crate) struct Poisson<const COUNTED: bool> {
    pub(crate) line: Fast<COUNTED>,
    times: Times,
    /// Mean time from board to board, in µs.
    gap: f64,
    comes_at: u64,
    made_at: u64,
    /// Boards that wait at the machine upstream, the one on offer among them.
    waiting: u32,
    /// Boards in slots, on the way, and in work.
    inside: u32,
    /// When boards left, less when boards came in, all in one sum: it wraps around.
    spent: u64,
}

impl<const COUNTED: bool> Poisson<COUNTED> {
    /// A line with room for `room` boards in all, to which boards come at `rate` times the speed
    /// of work.
    pub(crate) fn new(rate: f64, room: u8, moves: Moves, seed: u64) -> Poisson<COUNTED> {
        let mut line = Fast::running(room - 1, moves);
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
            spent: 0,
        }
    }

    /// What boards spent inside until now, in µs: it wraps around.
    fn spent(&self) -> u64 {
        let until_now = u64::from(self.inside).wrapping_mul(self.line.clock);
        self.spent.wrapping_add(until_now)
    }

    /// Runs until so many boards came.
    pub(crate) fn run(&mut self, boards: u64) -> Count {
        let mut count = Count::default();
        let (begun, spent) = (self.line.clock, self.spent());
        while count.came < boards {
            self.line.step(self.comes_at.min(self.made_at));
            let now = self.line.clock;
            self.follow();
            if now == self.made_at {
                self.inside -= 1;
                self.spent = self.spent.wrapping_add(now);
                count.made += 1;
                self.made_at = u64::MAX;
                self.line.call(true);
                self.follow();
            }
            if now == self.comes_at {
                count.came += 1;
                self.comes_at = now + self.times.exponential(self.gap);
                self.waiting += 1;
                if self.waiting == 1 {
                    self.line.offer(true);
                    self.follow();
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
        count.filled = self.spent().wrapping_sub(spent);
        count
    }

    /// The neighbours do what follows from what they saw, until they see nothing new: what they do
    /// may be answered at the same instant.
    #[inline]
    fn follow(&mut self) {
        while self.line.is_seen() {
            self.follow_once();
        }
    }

    fn follow_once(&mut self) {
        let [entered, sent] = self.line.take_seen();
        if entered {
            self.waiting -= 1;
            self.inside += 1;
            self.spent = self.spent.wrapping_sub(self.line.clock);
            if self.waiting > 0 {
                self.line.offer(true);
            }
        }
        if sent {
            self.line.call(false);
            self.made_at = self.line.clock + self.times.exponential(WORK);
        }
    }
}
