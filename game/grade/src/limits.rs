//! How large formulas may be. Each limit keeps the state small or a step short, and each has its
//! problem: place, what is too much, how much is allowed, what to do.

use rackproof_files::{Bound, Report, Value};

/// Most rules: one bit each in a mask.
pub const RULES_MOST: usize = 64;
/// Most operators of a program.
pub(crate) const OPERATORS_MOST: usize = 512;
/// Most operators over sets.
pub(crate) const SET_OPERATORS_MOST: usize = 24;
/// Most temporal operators over yes or no, without a window.
pub(crate) const BITS_MOST: usize = 128;
/// Most temporal operators over sets.
pub(crate) const SETS_MOST: usize = 6;
/// Most temporal operators with a window: a clock each.
pub(crate) const CLOCKS_MOST: usize = 16;
/// Most clocks of windows over sets: one for each half-slot of the largest rack.
pub(crate) const SET_CLOCKS_MOST: usize = 80;
/// Most comparisons of widths.
pub(crate) const COMPARISONS_MOST: usize = 32;
/// Most bits of memory in all, so that a key stays shorter than the longest one.
pub(crate) const MEMORY_BITS_MOST: u32 = 768;
/// How deep formulas may stand in each other, definitions counted in.
pub(crate) const NESTING_MOST: usize = 64;

/// The length of a window, in µs: half an hour at most. Its half-moments fit 32 bits.
pub(crate) const WINDOW: Bound =
    Bound::seconds("window_s", 100_000, 1_800_000_000, "a window of a formula");
/// The grid of windows, in µs: common practice for times in files of this house.
pub(crate) const GRID: u32 = 100_000;

/// A length that a width is compared with, in µm.
pub(crate) const LENGTH: Bound =
    Bound::millimetres("length_mm", -1_000_000, 2_000_000, "a length in a formula");

/// What there is too much of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Limit {
    Rules,
    Operators,
    SetOperators,
    Bits,
    Sets,
    Clocks,
    SetClocks,
    Comparisons,
    Memory,
    Nesting,
}

impl Limit {
    /// Reports that `value` goes beyond it.
    pub(crate) fn passed(self, value: &Value, report: Report<'_>) {
        let (problem, hint, most) = match self {
            Limit::Rules => ("problem-rules-many", "hint-rules-many", RULES_MOST),
            Limit::Operators => (
                "problem-formula-too-large",
                "hint-formula-too-large",
                OPERATORS_MOST,
            ),
            Limit::SetOperators => (
                "problem-set-operators-many",
                "hint-set-operators-many",
                SET_OPERATORS_MOST,
            ),
            Limit::Bits => ("problem-bits-many", "hint-bits-many", BITS_MOST),
            Limit::Sets => ("problem-sets-many", "hint-sets-many", SETS_MOST),
            Limit::Clocks => ("problem-windows-many", "hint-windows-many", CLOCKS_MOST),
            Limit::SetClocks => (
                "problem-set-windows-many",
                "hint-set-windows-many",
                SET_CLOCKS_MOST,
            ),
            Limit::Comparisons => (
                "problem-comparisons-many",
                "hint-comparisons-many",
                COMPARISONS_MOST,
            ),
            Limit::Memory => (
                "problem-memory-large",
                "hint-memory-large",
                MEMORY_BITS_MOST as usize,
            ),
            Limit::Nesting => ("problem-nesting-deep", "hint-nesting-deep", NESTING_MOST),
        };
        report
            .add(value.place, problem, &[("most", &most)])
            .hint(hint, &[]);
    }
}
