//! `measure`: what the window costs on this machine.

use std::io::Write;

use rackproof_files::Problems;
use rackproof_library::{built_in_drill, load};
use rackproof_words::{Arg, Words};

use crate::{Answer, Exit, display::Display, lines::wrapped, open::tell_missing};

/// Opens a window in which everything moves, then nothing, and prints what that took.
pub(crate) fn run(display: Option<&dyn Display>, out: &mut dyn Write, words: &Words) -> Answer {
    let (Some(display), Some(loaded)) = (display, load(built_in_drill(), &Problems::new())) else {
        write!(
            out,
            "{}",
            wrapped("", 0, &words.say("picture-no-window", &[]))
        )?;
        return Ok(Exit::No);
    };
    match display.measure(loaded) {
        Ok(figures) => {
            for figure in figures {
                let value = ("value", Arg::from(figure.value));
                writeln!(out, "{}", words.say(figure.id, &[value]))?;
            }
            Ok(Exit::Done)
        }
        Err(missing) => {
            tell_missing(&missing, out, words)?;
            Ok(Exit::No)
        }
    }
}
