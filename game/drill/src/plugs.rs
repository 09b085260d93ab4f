//! What a site's plugs have where the published sources of IPC-SMEMA-9851 do not agree.

use crate::FailedLine;

/// On which pin of a plug the shield of the cable lies. The sources disagree: SMEMA 1.2 has 14,
/// from memory; an encyclopaedia article has 8.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum ShieldPin {
    /// Pin 14.
    #[default]
    Pin14,
    /// Pin 8.
    Pin8,
}

impl ShieldPin {
    /// Both with the names that files use.
    pub const ALL: [(&'static str, ShieldPin); 2] =
        [("Pin14", ShieldPin::Pin14), ("Pin8", ShieldPin::Pin8)];

    /// Its number.
    pub fn number(self) -> u8 {
        match self {
            ShieldPin::Pin14 => 14,
            ShieldPin::Pin8 => 8,
        }
    }
}

/// The plugs of the line that a machine stands in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Plugs {
    /// Where the shield lies.
    pub shield: ShieldPin,
    /// How upstream says that a board failed its test, unless a drill says otherwise.
    pub failed_board: FailedLine,
}

impl Default for Plugs {
    fn default() -> Plugs {
        Plugs {
            shield: ShieldPin::Pin14,
            failed_board: FailedLine::Both,
        }
    }
}
