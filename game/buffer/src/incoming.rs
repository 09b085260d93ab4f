//! The board from the machine upstream, from its offer until it lies wholly on our belts.

use crate::{Board, Hear, Listener, Machine, Outcome, Side, State};

impl Machine {
    /// The board that comes when both signals of the infeed are closed.
    pub(crate) fn incoming(&self, s: &State) -> Option<Board> {
        s.upstream_board
            .filter(|board| self.upstream_gives(s) && self.goes_between_rails(s, *board))
    }

    /// The incoming board has left the machine upstream.
    pub(crate) fn board_entered(&self, s: &mut State, hear: &mut (impl Listener + ?Sized)) {
        s.upstream_board = None;
        s.upstream_fresh = !self.signal_read(s, Side::Infeed);
        hear(Outcome::BoardEntered);
        self.falls_as_it_comes(s, hear);
    }

    /// The belts stop now: a board that is still coming in stays where it came from, or is ours.
    #[inline]
    pub(crate) fn part_from_upstream(&self, s: &mut State, hear: &mut Hear) {
        let comes = s.runners.purpose.takes_in() && !s.runners.entered;
        if comes && s.belts.is_run() {
            self.stop_coming(s, hear);
        }
    }

    #[inline(never)] // mostly the board has come wholly in before
    fn stop_coming(&self, s: &mut State, hear: &mut Hear) {
        s.runners.entered = true;
        if self.stays_upstream(s) {
            s.runners.drop_last();
            s.upstream_fresh = true;
        } else {
            // A board that bridges the two machines counts as ours: our belt holds it.
            self.board_entered(s, hear);
        }
    }

    /// Whether a stop now leaves the incoming board in the machine upstream: it does not reach our
    /// belt, or another board still lies there.
    fn stays_upstream(&self, s: &State) -> bool {
        let axis = &self.parts.axes.belts;
        let end = (s.belts.covered(axis) + s.belts.stopping_way(axis)).0;
        let end = self.board_way(s, end);
        let before = s
            .runners
            .list()
            .get((s.runners.len as usize).wrapping_sub(2));
        let belt_taken = before.is_some_and(|before| before.start + end <= -self.parts.gap.0);
        end == 0 || belt_taken
    }
}
