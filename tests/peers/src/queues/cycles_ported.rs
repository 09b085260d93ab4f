//! The Bernoulli line as `nexosim` is meant to be used: two machines and a buffer, each a model,
//! with ports that ask and answer.

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
    ports::UniRequestor,
    simulation::{Mailbox, SimInit},
    time::MonotonicTime,
};
use serde::{Deserialize, Serialize};

use crate::{BUFFER, CYCLE, Ran, UP, times::Times};

fn no_times() -> Times {
    Times::of(0)
}

/// One of the two machines: asks the buffer in each cycle in which it is up.
#[derive(Serialize, Deserialize)]
pub(crate) struct Machine {
    asks: UniRequestor<(), bool>,
    #[serde(skip, default = "no_times")]
    times: Times,
    up: f64,
    begins: Duration,
}

#[Model]
impl Machine {
    #[nexosim(init)]
    async fn init(&mut self, cx: &Context<Self>) {
        let works = schedulable!(Self::works);
        let asked = cx.schedule_periodic_event(self.begins, CYCLE, works, ());
        asked.expect("the moment is ahead");
    }

    #[nexosim(schedulable)]
    async fn works(&mut self) {
        if self.times.share() <= self.up {
            self.asks.send(()).await;
        }
    }
}

#[derive(Serialize, Deserialize)]
pub(crate) struct Buffer {
    #[serde(skip)]
    made: Arc<AtomicU64>,
    level: u8,
}

#[Model]
impl Buffer {
    pub(crate) async fn put(&mut self) -> bool {
        let room = self.level < BUFFER;
        self.level += u8::from(room);
        room
    }

    pub(crate) async fn take(&mut self) -> bool {
        let there = self.level > 0;
        self.level -= u8::from(there);
        self.made.fetch_add(u64::from(there), Ordering::Relaxed);
        there
    }
}

pub(crate) fn run(cycles: u64, seed: u64) -> Result<Ran, Box<dyn Error>> {
    let made = Arc::new(AtomicU64::new(0));
    let buffer = Buffer {
        made: made.clone(),
        level: 0,
    };
    let buffer_box = Mailbox::new();
    let first = Machine {
        asks: UniRequestor::new(Buffer::put, &buffer_box),
        times: Times::of(seed),
        up: UP[0],
        begins: CYCLE,
    };
    let second = Machine {
        asks: UniRequestor::new(Buffer::take, &buffer_box),
        times: Times::of(!seed),
        up: UP[1],
        begins: CYCLE / 2,
    };
    let bench = SimInit::with_num_threads(1)
        .add_model(first, Mailbox::new(), "first")
        .add_model(buffer, buffer_box, "buffer")
        .add_model(second, Mailbox::new(), "second");
    let mut simulation = bench.init(MonotonicTime::EPOCH)?;
    let end = CYCLE * u32::try_from(cycles)?;
    let begun = Instant::now();
    simulation.step_until(end)?;
    let seconds = begun.elapsed().as_secs_f64();
    // Each machine once a cycle, and the buffer as often as one is up.
    let asked = (UP[0] + UP[1]) * cycles as f64;
    Ok(Ran {
        units: cycles,
        counted: made.load(Ordering::Relaxed),
        events: 2 * cycles + asked.round() as u64,
        seconds,
    })
}
