//! The neighbours' fields in a key.

use rackproof_buffer::Side;
use rackproof_model::{Micros, key::Coder};

use crate::{
    Available, Downstream, Ready, State, Upstream, World,
    neighbours::{Lapse, Mark, NextDoor, RailsWidth},
};

/// Fields on their way into a key or out of it. What is not coded stays as it is by default.
struct Fields<'f, C> {
    old: NextDoor,
    next: NextDoor,
    coder: &'f mut C,
}

impl<C: Coder> Fields<'_, C> {
    fn mark(&mut self, mark: Mark) {
        let mut holds = self.old.has(mark);
        self.coder.flag(&mut holds);
        self.next.set(mark, holds);
    }

    fn upstream(&mut self, upstream: Upstream) {
        self.next.stock = self.old.stock;
        self.coder.byte(&mut self.next.stock, 6);
        self.mark(Mark::AtExit);
        if upstream.works.by_clock() {
            self.next.exit_left = self.old.exit_left;
            self.coder.word(&mut self.next.exit_left.0, 32);
        }
        if upstream.available == Available::ByHand {
            self.mark(Mark::Presses);
        }
        if matches!(upstream.available, Available::Jumper | Available::TestBox) {
            self.mark(Mark::PlugClear(Side::Infeed));
        }
        if upstream.two_at_once != Lapse::Never {
            self.mark(Mark::Pushes);
            self.mark(Mark::Pushed);
        }
        self.side(Side::Infeed, upstream.drops, upstream.rails);
    }

    fn downstream(&mut self, downstream: Downstream) {
        self.mark(Mark::Busy);
        if downstream.mends {
            self.mark(Mark::Looked);
            self.mark(Mark::Runs);
        }
        if matches!(downstream.ready, Ready::Jumper | Ready::TestBox) {
            self.mark(Mark::PlugClear(Side::Outfeed));
        }
        if downstream.works.by_clock() {
            self.next.room_left = self.old.room_left;
            self.coder.word(&mut self.next.room_left.0, 32);
        }
        if downstream.opens_late.0 > 0 {
            self.mark(Mark::Arriving);
        }
        if matches!(downstream.drops, Lapse::Board(..)) {
            self.next.came = self.old.came;
            self.coder.byte(&mut self.next.came, 6);
        }
        self.side(Side::Outfeed, downstream.drops, downstream.rails);
    }

    fn side(&mut self, side: Side, drops: Lapse, rails: RailsWidth) {
        if drops != Lapse::Never {
            self.mark(Mark::Dropped(side));
            self.mark(Mark::HasDropped(side));
        }
        if rails == RailsWidth::Old {
            self.mark(Mark::Changed(side));
        }
    }

    /// The clock of a lapse, which mostly stands: one bit then.
    fn drop_left(&mut self) {
        let mut runs = self.old.drop_left > Micros(0);
        self.coder.flag(&mut runs);
        if runs {
            self.next.drop_left = self.old.drop_left;
            self.coder.word(&mut self.next.drop_left.0, 32);
            self.mark(Mark::DropsBehind);
        }
    }
}

impl World {
    /// The neighbours' fields: none where they do nothing by themselves, and of each quirk only
    /// where the drill has it.
    pub(crate) fn code_neighbours(&self, s: &mut State, coder: &mut impl Coder) {
        let mut fields = Fields {
            old: s.next_door,
            next: NextDoor::default(),
            coder,
        };
        let (upstream, downstream) = (self.upstream(), self.downstream());
        if let Some(upstream) = upstream {
            fields.upstream(upstream);
        }
        if let Some(downstream) = downstream {
            fields.downstream(downstream);
        }
        let at_a_board = |lapse: Option<Lapse>| matches!(lapse, Some(Lapse::Board(..)));
        if at_a_board(upstream.map(|one| one.drops)) || at_a_board(downstream.map(|one| one.drops))
        {
            fields.drop_left();
        }
        s.next_door = fields.next;
    }
}
