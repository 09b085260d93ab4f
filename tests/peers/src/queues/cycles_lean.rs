//! The leanest Bernoulli line that `nexosim` can be: one model with two moments a cycle, no ports.

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

use crate::{BUFFER, CYCLE, Ran, UP, times::Times};

fn no_times() -> Times {
    Times::of(0)
}

/// Both machines and the buffer between them in one.
#[derive(Serialize, Deserialize)]
pub(crate) struct Line {
    #[serde(skip, default = "no_times")]
    times: Times,
    #[serde(skip)]
    made_at_end: Arc<AtomicU64>,
    left: u64,
    made: u64,
    level: u8,
}

#[Model]
impl Line {
    #[nexosim(init)]
    async fn init(&mut self, cx: &Context<Self>) {
        let (first, second) = (schedulable!(Self::first), schedulable!(Self::second));
        for asked in [
            cx.schedule_periodic_event(CYCLE / 2, CYCLE, second, ()),
            cx.schedule_periodic_event(CYCLE, CYCLE, first, ()),
        ] {
            asked.expect("the moment is ahead");
        }
    }

    #[nexosim(schedulable)]
    async fn second(&mut self) {
        if self.times.share() <= UP[1] && self.level > 0 {
            self.level -= 1;
            self.made += 1;
        }
        self.left -= 1;
        if self.left == 0 {
            self.made_at_end.store(self.made, Ordering::Relaxed);
        }
    }

    #[nexosim(schedulable)]
    async fn first(&mut self) {
        if self.times.share() <= UP[0] && self.level < BUFFER {
            self.level += 1;
        }
    }
}

pub(crate) fn run(cycles: u64, seed: u64) -> Result<Ran, Box<dyn Error>> {
    let made = Arc::new(AtomicU64::new(0));
    let line = Line {
        times: Times::of(seed),
        made_at_end: made.clone(),
        left: cycles,
        made: 0,
        level: 0,
    };
    let bench = SimInit::with_num_threads(1).add_model(line, Mailbox::new(), "line");
    let mut simulation = bench.init(MonotonicTime::EPOCH)?;
    let end: Duration = CYCLE * u32::try_from(cycles)?;
    let begun = Instant::now();
    simulation.step_until(end)?;
    Ok(Ran {
        units: cycles,
        counted: made.load(Ordering::Relaxed),
        events: 2 * cycles,
        seconds: begun.elapsed().as_secs_f64(),
    })
}
