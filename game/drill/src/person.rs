//! The person: where they stand, what they wear and hold.

use rackproof_buffer::{Board, Side};

/// A standing place.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
#[repr(u8)]
pub enum Stand {
    /// In front of the panel.
    #[default]
    Panel,
    /// At the infeed belt.
    Infeed,
    /// At the outfeed belt.
    Outfeed,
    /// At the hatch.
    Hatch,
    /// At the isolator.
    Isolator,
}

impl Stand {
    /// All standing places with the names that files use.
    pub const ALL: [(&'static str, Stand); 5] = [
        ("Panel", Stand::Panel),
        ("Infeed", Stand::Infeed),
        ("Outfeed", Stand::Outfeed),
        ("Hatch", Stand::Hatch),
        ("Isolator", Stand::Isolator),
    ];

    /// The side of the machine whose neighbour one stands at there.
    pub fn side(self) -> Option<Side> {
        match self {
            Stand::Infeed => Some(Side::Infeed),
            Stand::Outfeed => Some(Side::Outfeed),
            Stand::Panel | Stand::Hatch | Stand::Isolator => None,
        }
    }
}

/// The person's own state.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Person {
    /// Where they stand.
    pub stand: Stand,
    /// Shoe straps tested this shift.
    pub straps_tested: bool,
    /// Torch lit.
    pub torch: bool,
    /// Wrist cord plugged in.
    pub cord: bool,
    /// In gloves against heat.
    pub gloves: bool,
    /// A hand is in the rack.
    pub hand_in: bool,
    /// The board in hand.
    pub board: Option<Board>,
    /// Their lock is on the isolator.
    pub lock_on: bool,
    /// The log is written.
    pub log_written: bool,
    /// They reported the job done.
    pub reported: bool,
}
