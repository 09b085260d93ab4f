//! What somebody sees of a neighbour who stands at its side.

use rackproof_buffer::Side;

use crate::{
    Available, Cue, Ready, State, Works, World,
    neighbours::{FailedLine, Mark},
};

impl World {
    /// Calls `cue` with all that is seen of a neighbour that its signal does not tell.
    pub(crate) fn look_at_neighbour(&self, s: &State, side: Side, cue: &mut dyn FnMut(Cue)) {
        let works = match side {
            Side::Infeed => self.upstream().map(|one| one.works),
            Side::Outfeed => self.downstream_now(s).map(|one| one.works),
        };
        let box_there = self.has_test_box(side);
        let stands = works == Some(Works::Stopped) || s.next_door.has(Mark::Dropped(side));
        if stands && !box_there {
            cue(Cue::NeighbourStands(side));
        }
        if box_there {
            cue(Cue::TestBox(side));
        }
        let ours = s.machine.width(self.machine());
        if self.has_old_rails(s, side) && self.start_width() != ours {
            cue(Cue::OtherWidth(side));
        }
        match side {
            Side::Infeed => self.look_upstream(s, cue),
            Side::Outfeed => self.look_downstream(s, cue),
        }
    }

    fn has_test_box(&self, side: Side) -> bool {
        match side {
            Side::Infeed => self
                .upstream()
                .is_some_and(|one| one.available == Available::TestBox),
            Side::Outfeed => self
                .downstream()
                .is_some_and(|one| one.ready == Ready::TestBox),
        }
    }

    fn look_upstream(&self, s: &State, cue: &mut dyn FnMut(Cue)) {
        let Some(upstream) = self.upstream() else {
            return;
        };
        match upstream.available {
            Available::Jumper => cue(Cue::Jumper(Side::Infeed)),
            Available::ByHand => cue(Cue::FedByHand),
            Available::AtExit | Available::WhenReady | Available::TestBox => {}
        }
        let failed = s.next_door.has(Mark::AtExit) && self.next_has_failed(s);
        if failed {
            cue(Cue::FailedLampLit);
        }
        let open = !s.machine.neighbour_signal(Side::Infeed);
        let waits = failed && upstream.failed_line == FailedLine::Either
            || upstream.available == Available::WhenReady;
        if s.next_door.has(Mark::AtExit) && open && waits {
            cue(Cue::BoardWaitsUpstream);
        }
    }

    fn look_downstream(&self, s: &State, cue: &mut dyn FnMut(Cue)) {
        let Some(downstream) = self.downstream_now(s) else {
            return;
        };
        match downstream.ready {
            Ready::Jumper => cue(Cue::Jumper(Side::Outfeed)),
            Ready::Design => cue(Cue::TakesAlways),
            Ready::Room | Ready::OnOffer | Ready::TestBox => {}
        }
        if downstream.chatters {
            cue(Cue::LampFlickers);
        }
    }
}
