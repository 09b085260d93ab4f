//! The program: arguments in, exit code out. Only here do commands and window meet.

#[cfg(feature = "window")]
mod display;

use std::{io, process::ExitCode};

use rackproof_commands::display::Display;

/// What draws, if the program was built with it.
fn display() -> Option<&'static dyn Display> {
    #[cfg(feature = "window")]
    return Some(&display::Hall);
    #[cfg(not(feature = "window"))]
    None
}

fn main() -> ExitCode {
    let (input, out) = (io::stdin(), io::stdout());
    let arguments = std::env::args_os();
    let exit = rackproof_commands::run(arguments, &mut input.lock(), &mut out.lock(), display());
    ExitCode::from(exit.code())
}
