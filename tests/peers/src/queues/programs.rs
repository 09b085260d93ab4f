//! One program at one line: how it is run, and what became of it over the rounds.

use std::{env, error::Error, path::Path, process::Command, time::Instant};

use crate::{
    BUFFER, RATE, ROOM, Ran, UP, cycles,
    fast::{Fast, Moves},
    poisson,
    times::Times,
};

/// M/M/1/K by the real machine.
pub(crate) fn our_queue(boards: u64, moves: Moves, seed: u64) -> Ran {
    let mut line = poisson::Poisson::<false>::new(RATE, ROOM, moves, seed);
    let begun = Instant::now();
    let count = line.run(boards);
    let seconds = begun.elapsed().as_secs_f64();
    // Counted apart, so that counting costs the timed run nothing: so it is with the others.
    let mut again = poisson::Poisson::<true>::new(RATE, ROOM, moves, seed);
    again.run(boards);
    Ran {
        units: count.came,
        counted: count.lost,
        events: again.line.events(),
        seconds,
    }
}

/// The Bernoulli line by the real machine.
pub(crate) fn our_cycles(cycles: u64, moves: Moves, seed: u64) -> Ran {
    let (mut line, mut times) = (Fast::<false>::running(BUFFER, moves), Times::of(seed));
    let begun = Instant::now();
    let shares = cycles::bernoulli(&mut line, &mut times, UP, cycles as u32);
    let seconds = begun.elapsed().as_secs_f64();
    let (mut again, mut times) = (Fast::<true>::running(BUFFER, moves), Times::of(seed));
    cycles::bernoulli(&mut again, &mut times, UP, cycles as u32);
    Ran {
        units: cycles,
        counted: (shares.made * cycles as f64).round() as u64,
        events: again.events(),
        seconds,
    }
}

/// Rounds in one run of Python, which is slow to start.
const SIMPY_ROUNDS: u64 = 10;

/// A line by `simpy`: `poisson`, or `bernoulli` with a process a machine or, as `boards`, a board.
pub(crate) fn simpy(line: &str, units: u64, seed: u64) -> Result<Ran, Box<dyn Error>> {
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("../outside/scripts/queue_simpy.py");
    let figures = [units, SIMPY_ROUNDS, seed * SIMPY_ROUNDS].map(|figure| figure.to_string());
    let arguments = [line.to_owned()].into_iter().chain(figures);
    let output = Command::new(python())
        .arg(script)
        .args(arguments)
        .output()?;
    let text = String::from_utf8(output.stdout)?;
    let words: Vec<&str> = text.split_whitespace().collect();
    let [units, counted, events, seconds] = words[..] else {
        let told = String::from_utf8_lossy(&output.stderr).into_owned();
        return Err(format!("simpy did not answer: {told}").into());
    };
    Ok(Ran {
        units: units.parse()?,
        counted: counted.parse()?,
        events: events.parse()?,
        seconds: seconds.parse()?,
    })
}

/// A Python that has `simpy`: the one that PYTHON names, or that of `tests/outside/scripts/lines`.
fn python() -> String {
    env::var("PYTHON").unwrap_or_else(|_| {
        let home = env::var("HOME").unwrap_or_default();
        let cache = env::var("XDG_CACHE_HOME").unwrap_or_else(|_| format!("{home}/.cache"));
        format!("{cache}/rackproof/venv-lines/bin/python")
    })
}

/// The rounds of one program, and its best one.
pub(crate) struct Rounds {
    pub(crate) name: &'static str,
    units: u64,
    counted: u64,
    events: u64,
    /// Nanoseconds for one board or cycle in the best round.
    least: f64,
}

impl Rounds {
    pub(crate) fn of(name: &'static str) -> Rounds {
        Rounds {
            name,
            units: 0,
            counted: 0,
            events: 0,
            least: f64::INFINITY,
        }
    }

    pub(crate) fn take(&mut self, ran: &Ran) {
        self.units += ran.units;
        self.counted += ran.counted;
        self.events += ran.events;
        self.least = self.least.min(ran.seconds * 1e9 / ran.units as f64);
    }

    /// Nanoseconds for one board or cycle.
    pub(crate) fn each(&self) -> f64 {
        self.least
    }

    /// One row of the table; `first` is what the ratios are to.
    pub(crate) fn row(&self, first: &Rounds) -> String {
        let units = self.units as f64;
        let events = self.events as f64 / units;
        format!(
            "{:42} {:9.1} ns {:7.1} times   {:.5}   {events:5.2} events, {:7.1} ns an event",
            self.name,
            self.least,
            self.least / first.each(),
            self.counted as f64 / units,
            self.least / events,
        )
    }
}
