//! The queue as `nexosim` is meant to be used: source, buffer and server, each a model, with ports.

use std::{
    error::Error,
    sync::{
        Arc,
        atomic::{AtomicU64, Ordering},
    },
    time::Instant,
};

use nexosim::{
    model::{Context, Model, schedulable},
    ports::Output,
    simulation::{Mailbox, SimInit},
    time::MonotonicTime,
};
use serde::{Deserialize, Serialize};

use crate::{RATE, ROOM, Ran, WORK, lean::span, times::Times};

fn no_times() -> Times {
    Times::of(0)
}

#[derive(Serialize, Deserialize)]
pub(crate) struct Source {
    board: Output<()>,
    #[serde(skip, default = "no_times")]
    times: Times,
    left: u64,
}

#[Model]
impl Source {
    #[nexosim(init)]
    async fn init(&mut self, cx: &Context<Self>) {
        self.wait_for_board(cx);
    }

    fn wait_for_board(&mut self, cx: &Context<Self>) {
        let gap = span(&mut self.times, WORK / RATE);
        let asked = cx.schedule_event(gap, schedulable!(Self::board_comes), ());
        asked.expect("the moment is ahead");
    }

    #[nexosim(schedulable)]
    async fn board_comes(&mut self, _: (), cx: &Context<Self>) {
        self.board.send(()).await;
        self.left -= 1;
        if self.left > 0 {
            self.wait_for_board(cx);
        }
    }
}

#[derive(Serialize, Deserialize)]
pub(crate) struct Buffer {
    board: Output<()>,
    #[serde(skip)]
    lost: Arc<AtomicU64>,
    inside: u8,
}

#[Model]
impl Buffer {
    pub(crate) async fn offered(&mut self) {
        if self.inside == ROOM {
            self.lost.fetch_add(1, Ordering::Relaxed);
            return;
        }
        self.inside += 1;
        if self.inside == 1 {
            self.board.send(()).await;
        }
    }

    pub(crate) async fn called(&mut self) {
        self.inside -= 1;
        if self.inside > 0 {
            self.board.send(()).await;
        }
    }
}

#[derive(Serialize, Deserialize)]
pub(crate) struct Server {
    ready: Output<()>,
    #[serde(skip, default = "no_times")]
    times: Times,
}

#[Model]
impl Server {
    pub(crate) async fn take(&mut self, _: (), cx: &Context<Self>) {
        let work = span(&mut self.times, WORK);
        let asked = cx.schedule_event(work, schedulable!(Self::board_is_made), ());
        asked.expect("the moment is ahead");
    }

    #[nexosim(schedulable)]
    async fn board_is_made(&mut self) {
        self.ready.send(()).await;
    }
}

pub(crate) fn run(boards: u64, seed: u64) -> Result<Ran, Box<dyn Error>> {
    let lost = Arc::new(AtomicU64::new(0));
    let mut source = Source {
        board: Output::default(),
        times: Times::of(seed),
        left: boards,
    };
    let mut buffer = Buffer {
        board: Output::default(),
        lost: lost.clone(),
        inside: 0,
    };
    let mut server = Server {
        ready: Output::default(),
        times: Times::of(!seed),
    };
    let (source_box, buffer_box, server_box) = (Mailbox::new(), Mailbox::new(), Mailbox::new());
    source.board.connect(Buffer::offered, &buffer_box);
    buffer.board.connect(Server::take, &server_box);
    server.ready.connect(Buffer::called, &buffer_box);
    let bench = SimInit::with_num_threads(1)
        .add_model(source, source_box, "source")
        .add_model(buffer, buffer_box, "buffer")
        .add_model(server, server_box, "server");
    let mut simulation = bench.init(MonotonicTime::EPOCH)?;
    let begun = Instant::now();
    simulation.run()?;
    let seconds = begun.elapsed().as_secs_f64();
    let lost = lost.load(Ordering::Relaxed);
    Ok(Ran {
        units: boards,
        counted: lost,
        // Each comes and is offered; all but the lost are taken, made, and called for.
        events: 2 * boards + 3 * (boards - lost),
        seconds,
    })
}
