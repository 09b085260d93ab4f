//! The boards that run on the belts, and what the belts run for.

use rackproof_model::key::Coder;

use crate::{Board, Condition};

/// Most boards that run at once.
pub(crate) const RUNNERS_MOST: usize = 7;

/// What the belts run for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Purpose {
    /// A board comes from upstream into the slot.
    #[default]
    TakeIn,
    /// The slot is run out onto the outfeed belt.
    RunOut,
    /// The first board goes to the machine downstream.
    Send,
    /// A board comes from upstream and goes to the machine downstream.
    Through,
    /// The slot's boards run a little past the outfeed mouth.
    RunPast,
    /// They are drawn back: the belts run backwards.
    DrawBack,
}

impl Purpose {
    /// All purposes, each at the place of its number.
    const ALL: [Purpose; 6] = [
        Purpose::TakeIn,
        Purpose::RunOut,
        Purpose::Send,
        Purpose::Through,
        Purpose::RunPast,
        Purpose::DrawBack,
    ];

    /// Whether a board comes from upstream.
    pub(crate) fn takes_in(self) -> bool {
        matches!(self, Purpose::TakeIn | Purpose::Through)
    }

    /// Whether the first board leaves for the machine downstream.
    pub(crate) fn sends(self) -> bool {
        matches!(self, Purpose::Send | Purpose::Through)
    }
}

/// A board that runs on the belts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Runner {
    pub(crate) board: Board,
    /// Its leading edge when this motion began.
    pub(crate) start: i32,
}

/// What stands where none runs, so that equal runners are equal in all places.
const FREE: Runner = Runner {
    board: Board {
        kind: 0,
        condition: Condition::Good,
    },
    start: 0,
};

/// The boards that run, the one farthest along the flow first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Runners {
    items: [Runner; RUNNERS_MOST],
    pub(crate) len: u8,
    pub(crate) purpose: Purpose,
    /// No board is coming in any more: the last runner lies wholly on our belts.
    pub(crate) entered: bool,
}

impl Default for Runners {
    fn default() -> Runners {
        Runners::running_for(Purpose::TakeIn)
    }
}

impl Runners {
    /// None, on belts that run for this.
    #[inline]
    pub(crate) fn running_for(purpose: Purpose) -> Runners {
        Runners {
            items: [FREE; RUNNERS_MOST],
            len: 0,
            purpose,
            entered: false,
        }
    }

    #[inline]
    pub(crate) fn push(&mut self, board: Board, start: i32) {
        debug_assert!(
            (self.len as usize) < RUNNERS_MOST,
            "too many boards on the belts"
        );
        self.items[self.len as usize] = Runner { board, start };
        self.len += 1;
    }

    /// One runs alone, where none ran.
    #[inline]
    pub(crate) fn begin_alone(&mut self, purpose: Purpose, board: Board, start: i32) {
        debug_assert!(*self == Runners::default(), "another runs");
        self.items[0] = Runner { board, start };
        (self.len, self.purpose) = (1, purpose);
    }

    /// The one that ran alone runs no more.
    #[inline]
    pub(crate) fn end_alone(&mut self) {
        self.items[0] = FREE;
        (self.len, self.purpose, self.entered) = (0, Purpose::TakeIn, false);
    }

    /// The one farthest along has left.
    #[inline]
    pub(crate) fn drop_first(&mut self) {
        // Mostly it ran alone.
        if self.len > 1 {
            self.items.copy_within(1..self.len as usize, 0);
        }
        self.drop_last();
    }

    /// The one farthest back runs no more.
    #[inline]
    pub(crate) fn drop_last(&mut self) {
        self.len -= 1;
        self.items[self.len as usize] = FREE;
    }

    #[inline]
    pub(crate) fn list(&self) -> &[Runner] {
        &self.items[..self.len as usize]
    }

    /// The same, to be changed.
    #[inline]
    pub(crate) fn list_mut(&mut self) -> &mut [Runner] {
        &mut self.items[..self.len as usize]
    }

    /// The runner farthest along.
    #[inline]
    pub(crate) fn first(&self) -> Option<Runner> {
        (self.len > 0).then_some(self.items[0])
    }

    /// The runner farthest back.
    #[inline]
    pub(crate) fn last(&self) -> Option<Runner> {
        let at = (self.len as usize).checked_sub(1)?;
        Some(self.items[at])
    }

    /// A runner by its number.
    pub(crate) fn get_mut(&mut self, at: usize) -> Option<&mut Runner> {
        self.list_mut().get_mut(at)
    }

    /// Begins the way back from where the runners are now.
    pub(crate) fn turn_back(&mut self, leads: impl IntoIterator<Item = i32>) {
        self.purpose = Purpose::DrawBack;
        self.begin_at(leads);
    }

    /// The motion that begins now begins with the leading edges at these places.
    pub(crate) fn begin_at(&mut self, leads: impl IntoIterator<Item = i32>) {
        for (runner, lead) in self.list_mut().iter_mut().zip(leads) {
            runner.start = lead;
        }
    }

    /// The same for one that runs alone.
    #[inline]
    pub(crate) fn begin_lone_at(&mut self, lead: i32) {
        self.items[0].start = lead;
    }

    /// How many run, without one that is still leaving the machine upstream.
    #[cfg(test)]
    pub(crate) fn boards_inside(&self) -> usize {
        let leaving = self.len > 0 && self.purpose.takes_in() && !self.entered;
        self.len as usize - usize::from(leaving)
    }

    /// The fields in a key.
    pub(crate) fn code(&mut self, coder: &mut impl Coder) {
        coder.byte(&mut self.len, 3);
        let mut purpose = self.purpose as u8;
        coder.byte(&mut purpose, 3);
        self.purpose = Purpose::ALL[(purpose as usize).min(Purpose::ALL.len() - 1)];
        coder.flag(&mut self.entered);
        self.items[(self.len as usize).min(RUNNERS_MOST)..].fill(FREE);
        for runner in self.list_mut() {
            let mut board = Some(runner.board);
            crate::coding::code_board(&mut board, coder);
            coder.signed(&mut runner.start);
            runner.board = board.unwrap_or(FREE.board);
        }
    }
}
