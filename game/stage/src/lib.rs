//! The hall with the buffer in it: what stands there, how it is drawn, what a pixel points at.

mod bake;
pub mod frame;
pub mod hall;
pub mod kit;
pub mod pass;
pub mod shape;
pub mod still;
pub mod tokens;
