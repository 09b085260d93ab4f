//! The shortest safe way on with the truth known: what a search answers, and how it is asked. Who
//! searches is not known here, as nothing here knows the explorer.

use std::ops::ControlFlow;

use rackproof_grade::Grade;

use crate::{Attempt, Exercise, WhatIf};

/// What a search for the shortest safe way on found. The neighbours choose nothing by themselves in
/// it.
#[derive(Clone, Debug)]
pub enum Shortest {
    /// A way on: no other has fewer of the search's steps. So many states were looked at.
    Found(Box<WhatIf>, usize),
    /// All was looked at, so many states, and no safe way on is left.
    None(usize),
    /// So many states were looked at, which is the most, and none was found. There may be one.
    Bound(usize),
    /// A way was found that cannot be played at a person's pace. So many states were looked at.
    Strayed(usize),
    /// It was broken off after so many states.
    BrokenOff(usize),
}

/// Searches from a moment of an attempt, in µs since the start, right after so many of its doings.
/// The grade is that of the attempt; the watch hears now and then how many states there are, and
/// may break the search off.
pub type SearchShortest = fn(
    (&Attempt, &Exercise, &Grade),
    (u64, usize),
    &mut dyn FnMut(usize) -> ControlFlow<()>,
) -> Shortest;
