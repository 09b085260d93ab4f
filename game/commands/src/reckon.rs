//! `reckon PRODUCT`: what a planner asks of a machine. Usable slots, drain, clear-out by belt and
//! by hand, and when draining begins, each with its formula.

mod asked;
mod figures;
mod person;
mod told;

#[cfg(test)]
mod leaving_tests;

use std::io;

use rackproof_words::{Arg, Words};

use self::{
    asked::{Asked, Refused},
    figures::Figures,
};
use crate::{Answer, Exit, lines::wrapped, problems::write_problems, reason::reason};

/// The machine that is reckoned with when none is named.
const MACHINE: &str = "alder-16";

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    #[arg(value_name = "PRODUCT")]
    product: String,
    #[arg(long, value_name = "FILE", default_value = MACHINE)]
    machine: String,
    // A negative figure is a figure out of range, not an argument that nobody knows.
    #[arg(long, value_name = "SECONDS", allow_negative_numbers = true)]
    takt: Option<String>,
    #[arg(long, value_name = "NUMBER", allow_negative_numbers = true)]
    boards: Option<String>,
    #[arg(long, value_name = "PRODUCT")]
    next: Option<String>,
    #[arg(long, value_name = "WHEN", allow_negative_numbers = true)]
    changeover: Option<String>,
    #[arg(long)]
    json: bool,
}

/// Answers.
pub(crate) fn run(arguments: &Arguments, out: &mut dyn io::Write, words: &Words) -> Answer {
    let asked = match Asked::of(arguments, words) {
        Ok(asked) => asked,
        Err(refused) => return refuse(&refused, &arguments.machine, out, words),
    };
    let figures = Figures::of(&asked);
    if arguments.json {
        writeln!(out, "{:#}", told::object(&asked, &figures))?;
    } else {
        told::write_text(&asked, &figures, out, words)?;
    }
    Ok(Exit::Done)
}

fn refuse(refused: &Refused, path: &str, out: &mut dyn io::Write, words: &Words) -> Answer {
    match refused {
        Refused::Unread(error) => {
            let told = [("path", Arg::from(path)), ("reason", reason(error))];
            let said = words.say("file-not-read", &told);
            write!(out, "{}", wrapped("", 0, &said))?;
            Ok(Exit::No)
        }
        Refused::Problems(problems) => {
            write_problems(out, words, problems)?;
            let said = words.say("reckon-file-wrong", &[("path", Arg::from(path))]);
            write!(out, "{}", wrapped("", 0, &said))?;
            Ok(Exit::No)
        }
        Refused::Arguments(wrong) => {
            for said in wrong {
                write!(out, "{}", wrapped("", 0, said))?;
            }
            let nothing = words.say("reckon-nothing", &[]);
            write!(out, "{}", wrapped("", 0, &nothing))?;
            Ok(Exit::WrongUse)
        }
    }
}
