//! The whole program on journals: each is played to an attempt and graded, and comes out as listed.

mod commands;
mod dialog;
mod outcomes;
mod play;
mod safe_ways;
