//! The commands of the program: arguments to results.
//!
//! Each command is one small module: its arguments, and a `run` that writes what it has to say and
//! answers with an [`Exit`]. All words come from the message files.

mod arguments;
mod check;
pub mod display;
mod figure;
mod grade;
mod lines;
mod machine;
mod measure;
mod names;
mod open;
mod picture;
mod play;
mod problems;
mod prove;
mod reason;
mod reckon;
mod sheet;
mod shortest;
mod tour;

use std::{
    ffi::OsString,
    io::{self, BufRead, Write},
};

use rackproof_words::Words;

use display::Display;

/// How a command ended: the program's exit code.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
pub enum Exit {
    /// Done, and the answer is yes: 0.
    Done = 0,
    /// Done, and the answer is no: a problem, a failed grade: 1.
    No = 1,
    /// The command was used wrongly: 2.
    WrongUse = 2,
}

impl Exit {
    /// The code for the system.
    pub fn code(self) -> u8 {
        self as u8
    }

    /// The worse of two.
    pub(crate) fn and(self, other: Exit) -> Exit {
        if other.code() > self.code() {
            other
        } else {
            self
        }
    }
}

/// Runs the program. `arguments` begin with the program's own name; `input` is what the person
/// types. `display` draws the hall, if the program was built with it.
pub fn run(
    arguments: impl IntoIterator<Item = OsString>,
    input: &mut dyn BufRead,
    out: &mut dyn Write,
    display: Option<&dyn Display>,
) -> Exit {
    let words = Words::english();
    let chosen = match arguments::parse(arguments, &words) {
        Ok(chosen) => chosen,
        Err(error) => {
            let told = write!(out, "{error}").and_then(|()| out.flush());
            let wrong = error.use_stderr() || told.is_err();
            return if wrong { Exit::WrongUse } else { Exit::Done };
        }
    };
    let done = match chosen {
        arguments::Chosen::Open(arguments) => open::run(&arguments, display, input, out, &words),
        arguments::Chosen::Picture(arguments) => picture::run(&arguments, display, out, &words),
        arguments::Chosen::Tour(arguments) => tour::run(&arguments, display, out, &words),
        arguments::Chosen::Measure => measure::run(display, out, &words),
        arguments::Chosen::Check(arguments) => check::run(&arguments, out, &words),
        arguments::Chosen::Machine(arguments) => machine::run(&arguments, input, out, &words),
        arguments::Chosen::Play(arguments) => play::run(&arguments, input, out, &words),
        arguments::Chosen::Grade(arguments) => grade::run(&arguments, out, &words),
        arguments::Chosen::Prove(arguments) => prove::run(&arguments, out, &words),
        arguments::Chosen::Reckon(arguments) => reckon::run(&arguments, out, &words),
        arguments::Chosen::Sheet(arguments) => sheet::run(&arguments, out, &words),
    };
    // Nobody listens any more: the answer did not arrive.
    done.and_then(|exit| out.flush().map(|()| exit))
        .unwrap_or(Exit::No)
}

/// What a command gives: its exit, or that nobody listens to it.
pub(crate) type Answer = io::Result<Exit>;
