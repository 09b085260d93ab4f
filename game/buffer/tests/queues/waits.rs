//! How long boards wait, first in first out and last in first out: M/M/1/K with the real machine,
//! its moves nought. Which board is sent is the controller's own doing; a board is known by its
//! slot.

use rackproof_buffer::{Board, Machine, Order, Outcome, State};
use rackproof_model::Micros;

use crate::{
    fast::{self, Moves, SPAN_MOST},
    poisson::WORK,
    times::Times,
};

/// The line, and when each board that lies in it came.
pub(crate) struct Waits {
    machine: Machine,
    state: State,
    clock: u64,
    times: Times,
    /// Mean time from board to board, in µs.
    gap: f64,
    comes_at: u64,
    made_at: u64,
    /// Boards that wait at the machine upstream, the one on offer among them.
    offered: u32,
    /// When the board in each slot came, in µs.
    came_at: Vec<u64>,
    heard: Vec<Outcome>,
    sum: Sum,
}

/// What the boards that left had waited, in mean times of work.
#[derive(Clone, Copy, Debug, Default)]
struct Sum {
    boards: f64,
    waits: f64,
    squares: f64,
}

impl Waits {
    /// A line with room for `room` boards in all, to which boards come at `rate` times the speed
    /// of work, and that leave in this order.
    pub(crate) fn new(rate: f64, room: u8, order: Order, seed: u64) -> Waits {
        let machine = fast::machine(room - 1, Moves::Nought, order);
        let state = fast::started(&machine);
        let (mut times, gap) = (Times::of(seed), WORK / rate);
        let mut line = Waits {
            machine,
            state,
            clock: 0,
            comes_at: times.exponential(gap),
            times,
            gap,
            made_at: u64::MAX,
            offered: 0,
            came_at: vec![0; usize::from(room) - 1],
            heard: Vec::new(),
            sum: Sum::default(),
        };
        line.call(true);
        line
    }

    /// Runs until so many boards left. Mean of their waits, and of the squares of their waits.
    pub(crate) fn run(&mut self, boards: u32) -> [f64; 2] {
        self.sum = Sum::default();
        while self.sum.boards < f64::from(boards) {
            self.step();
            let now = self.clock;
            if now == self.made_at {
                self.made_at = u64::MAX;
                self.call(true);
            }
            if now == self.comes_at {
                self.comes_at = now + self.times.exponential(self.gap);
                self.offered += 1;
                self.offer(self.offered == 1);
            }
            // Nothing moves, and still the board was not taken: there is no room, and it is lost.
            if self.offered > 0 && self.machine.next_event(&self.state).is_none() {
                self.offered = 0;
                self.machine
                    .upstream_signal(&mut self.state, None, &mut |_| {});
            }
        }
        [self.sum.waits, self.sum.squares].map(|sum| sum / self.sum.boards)
    }

    /// To the next thing that happens.
    fn step(&mut self) {
        let left = self.comes_at.min(self.made_at) - self.clock;
        let left = Micros(left.min(SPAN_MOST) as u32);
        let heard = &mut self.heard;
        let hear = &mut |outcome| heard.push(outcome);
        let span = self.machine.advance_at_most(&mut self.state, left, hear);
        self.clock += u64::from(span.0);
        self.follow();
    }

    fn offer(&mut self, is_new: bool) {
        if is_new {
            let heard = &mut self.heard;
            let hear = &mut |outcome| heard.push(outcome);
            let board = Some(Board::good(0));
            self.machine.upstream_signal(&mut self.state, board, hear);
            self.follow();
        }
    }

    fn call(&mut self, ready: bool) {
        let heard = &mut self.heard;
        let hear = &mut |outcome| heard.push(outcome);
        self.machine.downstream_signal(&mut self.state, ready, hear);
        self.follow();
    }

    /// The neighbours do what follows from what they saw.
    fn follow(&mut self) {
        for outcome in std::mem::take(&mut self.heard) {
            match outcome {
                Outcome::BoardEntered => {
                    self.offered -= 1;
                    self.offer(self.offered > 0);
                }
                Outcome::BoardStored(slot) => self.came_at[usize::from(slot)] = self.clock,
                Outcome::BoardSent(slot) => {
                    let waited = (self.clock - self.came_at[usize::from(slot)]) as f64 / WORK;
                    self.sum.boards += 1.0;
                    self.sum.waits += waited;
                    self.sum.squares += waited * waited;
                    self.made_at = self.clock + self.times.exponential(WORK);
                    self.call(false);
                }
                _ => {}
            }
        }
    }
}
