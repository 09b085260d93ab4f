//! The program: arguments in, exit code out, nothing else.

use std::{io, process::ExitCode};

fn main() -> ExitCode {
    let (input, out) = (io::stdin(), io::stdout());
    let arguments = std::env::args_os();
    let exit = rackproof_commands::run(arguments, &mut input.lock(), &mut out.lock(), None);
    ExitCode::from(exit.code())
}
