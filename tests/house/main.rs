//! The rules of the house, as tests: who may know whom, whose code is taken in, tidiness, and that
//! the map is true.
//!
//! Each check is a function over plain data that returns complaints. One test feeds it the real
//! house and expects none; another feeds it something wrong and expects the complaint, so that a
//! check which can no longer fail is noticed.

mod dependency_tree;
mod licences;
mod listing;
mod map;
mod metadata;
mod purity;
mod tidy;
