//! Problems of files, as every command prints them.

use std::io::{self, Write};

use rackproof_files::Problem;
use rackproof_phrases::problem_drawn;
use rackproof_words::Words;

/// Writes each problem with its line of the file, and an empty line after it.
pub(crate) fn write_problems(
    out: &mut dyn Write,
    words: &Words,
    problems: &[Problem],
) -> io::Result<()> {
    for problem in problems {
        writeln!(out, "{}\n", problem_drawn(words, problem))?;
    }
    Ok(())
}
