//! The leanest queue that `nexosim` can be: one model that schedules itself, no ports.

use std::{
    error::Error,
    sync::{
        Arc,
        atomic::{AtomicU64, Ordering},
    },
    time::{Duration, Instant},
};

use nexosim::{
    model::{Context, Model, schedulable},
    simulation::{Mailbox, SimInit},
    time::MonotonicTime,
};
use serde::{Deserialize, Serialize};

use crate::{RATE, ROOM, Ran, WORK, times::Times};

fn no_times() -> Times {
    Times::of(0)
}

/// Source, buffer and server in one.
#[derive(Serialize, Deserialize)]
pub(crate) struct Queue {
    #[serde(skip, default = "no_times")]
    times: Times,
    #[serde(skip)]
    lost_at_end: Arc<AtomicU64>,
    boards: u64,
    came: u64,
    lost: u64,
    inside: u8,
}

#[Model]
impl Queue {
    #[nexosim(init)]
    async fn init(&mut self, cx: &Context<Self>) {
        self.wait_for_board(cx);
    }

    fn wait_for_board(&mut self, cx: &Context<Self>) {
        let gap = span(&mut self.times, WORK / RATE);
        let asked = cx.schedule_event(gap, schedulable!(Self::board_comes), ());
        asked.expect("the moment is ahead");
    }

    fn work(&mut self, cx: &Context<Self>) {
        let work = span(&mut self.times, WORK);
        let asked = cx.schedule_event(work, schedulable!(Self::board_is_made), ());
        asked.expect("the moment is ahead");
    }

    #[nexosim(schedulable)]
    async fn board_comes(&mut self, _: (), cx: &Context<Self>) {
        self.came += 1;
        if self.inside == ROOM {
            self.lost += 1;
        } else {
            self.inside += 1;
            if self.inside == 1 {
                self.work(cx);
            }
        }
        if self.came < self.boards {
            self.wait_for_board(cx);
        } else {
            self.lost_at_end.store(self.lost, Ordering::Relaxed);
        }
    }

    #[nexosim(schedulable)]
    async fn board_is_made(&mut self, _: (), cx: &Context<Self>) {
        self.inside -= 1;
        if self.inside > 0 {
            self.work(cx);
        }
    }
}

/// An exponential span with this mean in seconds, at least the least that can be scheduled.
pub(crate) fn span(times: &mut Times, mean: f64) -> Duration {
    Duration::from_micros(times.exponential(mean * 1e6).max(1))
}

pub(crate) fn run(boards: u64, seed: u64) -> Result<Ran, Box<dyn Error>> {
    let lost_at_end = Arc::new(AtomicU64::new(0));
    let queue = Queue {
        times: Times::of(seed),
        lost_at_end: lost_at_end.clone(),
        boards,
        came: 0,
        lost: 0,
        inside: 0,
    };
    let bench = SimInit::with_num_threads(1).add_model(queue, Mailbox::new(), "queue");
    let mut simulation = bench.init(MonotonicTime::EPOCH)?;
    let begun = Instant::now();
    simulation.run()?;
    let seconds = begun.elapsed().as_secs_f64();
    let lost = lost_at_end.load(Ordering::Relaxed);
    Ok(Ran {
        units: boards,
        counted: lost,
        // Each comes, and all but the lost are made.
        events: 2 * boards - lost,
        seconds,
    })
}
