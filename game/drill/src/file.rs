//! Machine and drill files, from raw to checked. Text comes in as `&str`; every problem is reported
//! at once, with its place, what was expected and a hint.

pub(crate) mod bounds;
mod drill;
mod faults;
mod finish;
mod left;
mod machine;
mod neighbours;
mod races;
mod time_grid;
mod together;
mod traps;

pub use drill::{NoMachine, read_drill};
pub use machine::read_machine;
