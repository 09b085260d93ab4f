//! What is beyond our contacts: whether the neighbours do what their signals say.
//!
//! The controller reads contacts alone. Whether a board truly comes when Board Available is closed,
//! and whether anybody takes one when Machine Ready is closed, is truth that it cannot know.
//! Source of the signals: IPC-SMEMA-9851, closed means yes; that a jumper or a stuck contact says
//! yes for nobody is common practice.

use rackproof_model::key::Coder;

use crate::{Hear, Machine, Side, State};

/// The truth about the neighbours, where their signals may say otherwise.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Beyond {
    /// Upstream's Board Available is closed, a board there or not.
    pub(crate) claims: bool,
    /// The machine downstream does not run its belts for a board.
    pub(crate) stands: bool,
}

impl Beyond {
    /// The fields in a key.
    pub(crate) fn code(&mut self, coder: &mut impl Coder) {
        coder.flag(&mut self.claims);
        coder.flag(&mut self.stands);
    }
}

impl Machine {
    /// The same machine between neighbours whose signals may say what is not so. Costs two bits in
    /// a key.
    #[must_use]
    pub fn with_neighbours(self) -> Machine {
        Machine {
            neighbours: true,
            ..self
        }
    }

    /// Upstream's Board Available is closed from now on whatever it has, or follows its boards
    /// again.
    pub fn upstream_claims(&self, s: &mut State, claims: bool, hear: &mut Hear) {
        s.beyond.claims = claims;
        s.upstream_fresh |= !self.signal_read(s, Side::Infeed);
        self.settle(s, hear);
    }

    /// Whether the machine downstream takes no board, whatever its signal says. A run of the belts
    /// that began before goes on as it began.
    pub fn downstream_stands(&self, s: &mut State, stands: bool) {
        s.beyond.stands = stands;
    }

    /// Whether a hand-over runs at a side: the belts move for it, and its board is not yet wholly
    /// on the one who takes it.
    pub fn hands_over(&self, s: &State, side: Side) -> bool {
        let purpose = s.runners.purpose;
        !s.belts.is_rest()
            && match side {
                Side::Infeed => purpose.takes_in() && !s.runners.entered,
                Side::Outfeed => purpose.sends(),
            }
    }
}
