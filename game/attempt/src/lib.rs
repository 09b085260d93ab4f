//! Comes with its part of the first drill.
