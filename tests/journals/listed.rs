//! The journals of `behaviours.rs`, listed.

pub(crate) mod making;
pub(crate) mod panel;
