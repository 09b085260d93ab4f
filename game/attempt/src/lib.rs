//! One go at one drill in real time: its material, its pace, its journal on disk.
//!
//! - [`Material`] is the texts that an attempt rests on, with their hashes; [`Exercise`] is what
//!   they say, ready to run.

mod material;

pub use material::{Exercise, Material, Text, hash_of};
