//! Boards: what kinds there are, and what state one is in.

use rackproof_model::{
    Micrometres,
    quantity::{Microstrain, Percent},
};

/// A rectangle cut out of a board, measured from its trailing edge and from its edge at the fixed
/// rail, in µm.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cutout {
    /// From the trailing edge to the near side.
    pub along_from: Micrometres,
    /// From the trailing edge to the far side.
    pub along_to: Micrometres,
    /// From the edge at the fixed rail to the near side.
    pub across_from: Micrometres,
    /// From the edge at the fixed rail to the far side.
    pub across_to: Micrometres,
}

/// One type of board: what geometry, light and load can tell of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BoardKind {
    /// Along the flow, in µm.
    pub length: Micrometres,
    /// Across the flow, in µm.
    pub width: Micrometres,
    /// In µm.
    pub thickness: Micrometres,
    /// Height of its tallest part above its upper side, in µm.
    pub above: Micrometres,
    /// How far its parts hang below its underside, in µm.
    pub below: Micrometres,
    /// How much light comes back from its surface, in hundredths.
    pub reflectance: Percent,
    /// A routed window, if it has one.
    pub cutout: Option<Cutout>,
    /// Strain over which its joints crack though it looks good, in µε.
    pub strain_limit: Microstrain,
    /// Strain at which it breaks, in µε.
    pub strain_break: Microstrain,
}

/// What has become of a board. The order is that of getting worse.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
#[repr(u8)]
pub enum Condition {
    /// As it should be.
    #[default]
    Good,
    /// Touched by somebody who carried a charge. It looks good; a part of it may fail later.
    Charged,
    /// Bent beyond its strain limit. It springs back and looks good; its joints are cracked.
    Overstrained,
    /// Pressed out of its ledges.
    SprungOut,
    /// Broken.
    Broken,
    /// Fallen off a ledge.
    Dropped,
    /// Cut through by the lift at a mouth.
    Sheared,
    /// Run into another board.
    Collided,
}

impl Condition {
    /// All conditions, each at the place of its number.
    pub const ALL: [Condition; 8] = [
        Condition::Good,
        Condition::Charged,
        Condition::Overstrained,
        Condition::SprungOut,
        Condition::Broken,
        Condition::Dropped,
        Condition::Sheared,
        Condition::Collided,
    ];

    /// Whether anybody who looks at the board sees that it is damaged. Overstrain cannot be seen.
    pub fn shows(self) -> bool {
        self > Condition::Overstrained
    }

    /// The condition with this number. Numbers above the last give the last.
    pub(crate) fn from_number(number: u8) -> Condition {
        Condition::ALL[(number as usize).min(Condition::ALL.len() - 1)]
    }
}

/// One board: its kind (a number into [`crate::Machine::kinds`]) and its condition.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Board {
    /// Number of its kind, 0 to 7.
    pub kind: u8,
    /// What has become of it.
    pub condition: Condition,
}

impl Board {
    /// A good board of a kind.
    pub fn good(kind: u8) -> Board {
        Board {
            kind,
            condition: Condition::Good,
        }
    }

    /// Makes its condition `condition`, unless it is worse already.
    pub(crate) fn worsen(&mut self, condition: Condition) {
        self.condition = self.condition.max(condition);
    }
}
