//! The program: arguments in, exit code out, nothing else.
fn main() {}
