//! The program: arguments in, exit code out, nothing else.

use std::{io, process::ExitCode};

fn main() -> ExitCode {
    let (input, out) = (io::stdin(), io::stdout());
    let exit = rackproof_commands::run(std::env::args_os(), &mut input.lock(), &mut out.lock());
    ExitCode::from(exit.code())
}
