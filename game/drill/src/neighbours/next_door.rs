//! What changes about the neighbours, in twenty bytes.

use rackproof_buffer::Side;
use rackproof_model::Micros;

/// Something that is so at a neighbour, or has been.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Mark {
    /// The next board stands at upstream's exit.
    AtExit,
    /// Who feeds by hand presses the button.
    Presses,
    /// A second board comes right behind the one that is handed over.
    Pushes,
    /// Upstream gave two boards on one closing.
    Pushed,
    /// Downstream has no room.
    Busy,
    /// A board has left us and has not yet come to its stop: downstream's signal is still closed.
    Arriving,
    /// The clock of a lapse is downstream's.
    DropsBehind,
    /// Its signal opened in the middle of a hand-over, and it stands until it is let go.
    Dropped(Side),
    /// That has happened.
    HasDropped(Side),
    /// Its rails were changed over.
    Changed(Side),
    /// The people downstream were asked, and looked at their machine.
    Looked,
    /// They made it run again.
    Runs,
    /// What did not belong in its plug was taken out.
    PlugClear(Side),
}

impl Mark {
    fn bit(self) -> u32 {
        let number = match self {
            Mark::AtExit => 0,
            Mark::Presses => 1,
            Mark::Pushes => 2,
            Mark::Pushed => 3,
            Mark::Busy => 4,
            Mark::Arriving => 5,
            Mark::DropsBehind => 6,
            Mark::Dropped(side) => 7 + side as u32,
            Mark::HasDropped(side) => 9 + side as u32,
            Mark::Changed(side) => 11 + side as u32,
            Mark::Looked => 13,
            Mark::Runs => 14,
            Mark::PlugClear(side) => 15 + side as u32,
        };
        1 << number
    }
}

/// What the neighbours are about.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct NextDoor {
    /// What is so, by [`Mark::bit`].
    marks: u32,
    /// Boards that upstream has behind the one that comes next.
    pub(crate) stock: u8,
    /// Boards that downstream has had. Counts only where a lapse waits for one.
    pub(super) came: u8,
    /// Time until upstream has its next board at its exit, while it works at one.
    pub(super) exit_left: Micros,
    /// Time until downstream has room, while it works at a board.
    pub(super) room_left: Micros,
    /// Time until the hand-over that runs is dropped. One at a time.
    pub(super) drop_left: Micros,
}

impl NextDoor {
    pub(super) fn has(&self, mark: Mark) -> bool {
        self.marks & mark.bit() != 0
    }

    pub(super) fn set(&mut self, mark: Mark, holds: bool) {
        self.marks &= !mark.bit();
        self.marks |= if holds { mark.bit() } else { 0 };
    }

    /// Whose lapse the clock is for.
    pub(super) fn drops_side(&self) -> Side {
        if self.has(Mark::DropsBehind) {
            Side::Outfeed
        } else {
            Side::Infeed
        }
    }
}
