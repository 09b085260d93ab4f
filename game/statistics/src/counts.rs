//! Whole numbers that must not be mixed up.

/// How many attempts there were.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Trials(pub u32);

impl Trials {
    /// The most attempts that one proportion may have. Up to here the intervals were compared
    /// with those of another program.
    pub const MOST: Trials = Trials(10_000);
}

/// How many of the attempts came out well.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Successes(pub u32);

/// How many ratings fell into one cell of a table.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Ratings(pub u32);
