//! What somebody sees of a neighbour who stands at its side.

use rackproof_buffer::{Board, Question, Side};
use rackproof_model::Micrometres;

use crate::{
    Available, Cue, Ready, Stand, State, Works, World,
    neighbours::{FailedLine, Mark},
};

/// The lamps of the two signals at a side, as somebody sees them who stands there.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct SignalLamps {
    /// At our end of the cable: the neighbour's signal, and ours.
    pub ours: [bool; 2],
    /// At the neighbour's end: its signal, and ours.
    pub theirs: [bool; 2],
}

impl Cue {
    /// Whether it is as large as a machine: it is seen from every standing place.
    fn is_seen_from_afar(self) -> bool {
        matches!(
            self,
            Cue::TakesAlways | Cue::TestBox(_) | Cue::NoMachine(_) | Cue::FedByHand
        )
    }
}

impl World {
    /// What somebody who stands upright at a place sees of both neighbours, without a look: all of
    /// the one at whose side they stand, and of the other what is as large as a machine.
    pub fn cues_around(&self, s: &State, stand: Stand) -> Vec<Cue> {
        let mut seen = Vec::new();
        for side in [Side::Infeed, Side::Outfeed] {
            let near = stand.side() == Some(side);
            let mut found = |cue: Cue| {
                if near || cue.is_seen_from_afar() {
                    seen.push(cue);
                }
            };
            if self.has_neighbours() {
                self.look_at_neighbour(s, side, &mut found);
            }
            self.look_at_lamps(s, side, &mut found);
        }
        seen
    }

    /// The lamps of the signals at a side now. They are told apart by who stands there.
    pub fn signal_lamps(&self, s: &State, side: Side) -> SignalLamps {
        let (machine, own) = (self.machine(), s.machine.own_signal(side));
        SignalLamps {
            ours: [machine.signal_read(&s.machine, side), own],
            theirs: [
                s.machine.neighbour_signal(side),
                machine.signal_given(&s.machine, side),
            ],
        }
    }

    /// The board that stands at upstream's exit. It is seen by who stands at the infeed.
    pub fn board_at_exit(&self, s: &State) -> Option<Board> {
        let comes = self.machine().hands_over(&s.machine, Side::Infeed);
        let machine = self.upstream().is_some() && !self.has_no_machine(Side::Infeed);
        let stands = machine && s.next_door.has(Mark::AtExit) && !comes;
        s.leftover.filter(|_| stands)
    }

    /// The width of a neighbour's rails: ours, unless they were not changed over. It is seen by who
    /// stands there.
    pub fn neighbour_width(&self, s: &State, side: Side) -> Micrometres {
        if self.has_old_rails(s, side) {
            self.start_width()
        } else {
            s.machine.width(self.machine())
        }
    }

    /// Calls `cue` with all that is seen of a neighbour that its signal does not tell.
    pub(crate) fn look_at_neighbour(&self, s: &State, side: Side, cue: &mut dyn FnMut(Cue)) {
        let works = match side {
            Side::Infeed => self.upstream().map(|one| one.works),
            Side::Outfeed => self.downstream_now(s).map(|one| one.works),
        };
        let nobody = self.has_no_machine(side);
        let stands = works == Some(Works::Stopped) || s.next_door.has(Mark::Dropped(side));
        if stands && !nobody {
            cue(Cue::NeighbourStands(side));
        }
        if nobody && s.next_door.has(Mark::PlugClear(side)) {
            cue(Cue::NoMachine(side));
        } else if nobody {
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

    /// Whether no machine stands at a side: a test box was left in its place.
    fn has_no_machine(&self, side: Side) -> bool {
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
        let Some(upstream) = self.upstream_now(s) else {
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
        if self.stands_against_rails(s) {
            cue(Cue::StandsAgainstRails);
        }
    }

    /// Whether the board at upstream's exit was sent and did not come, because our rails stand
    /// nearer than it is wide.
    fn stands_against_rails(&self, s: &State) -> bool {
        let sent = matches!(s.machine.question(), Some(Question::Arrival(_)));
        let board = self.board_at_exit(s).filter(|_| sent);
        board.is_some_and(|board| !self.machine().goes_between_rails(&s.machine, board))
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
