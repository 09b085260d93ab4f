//! Production: boards are stored and sent, first in first out, with both handshakes of
//! IPC-SMEMA-9851.

use rackproof_model::Micros;

use crate::{
    Board, Harm, HarmKind, Hear, LiftPlace, Machine, Outcome, Phase, Place, ReadyRule, Side, State,
    UnitState, transport::Purpose,
};

impl Machine {
    /// The machine upstream closes Board Available with `board` on offer, or opens it.
    pub fn upstream_signal(&self, s: &mut State, board: Option<Board>, hear: &mut Hear) {
        s.upstream_board = board;
        s.upstream_fresh |= board.is_none();
        self.settle(s, hear);
    }

    /// The machine downstream closes or opens Machine Ready.
    pub fn downstream_signal(&self, s: &mut State, ready: bool, hear: &mut Hear) {
        s.downstream_ready = ready;
        s.downstream_fresh |= !ready;
        self.settle(s, hear);
    }

    fn set_machine_ready(&self, s: &mut State, closed: bool, hear: &mut Hear) {
        if s.machine_ready != closed {
            s.machine_ready = closed;
            hear(Outcome::MachineReady(closed));
            if !closed {
                s.ready_open_left = self.parts.signal_open;
            }
        }
    }

    pub(crate) fn set_board_available(&self, s: &mut State, closed: bool, hear: &mut Hear) {
        if s.board_available != closed {
            s.board_available = closed;
            hear(Outcome::BoardAvailable(closed));
            if !closed {
                s.available_open_left = self.parts.signal_open;
            }
        }
    }

    pub(crate) fn open_signals(&self, s: &mut State, hear: &mut Hear) {
        self.set_machine_ready(s, false, hear);
        self.set_board_available(s, false, hear);
    }

    fn wants_to_send(&self, s: &State) -> bool {
        s.board_available && s.order_len > 0 && downstream_counts_as_ready(s)
    }

    /// Goes to the lowest free slot, or waits where it is if there is none.
    pub(crate) fn produce(&self, s: &mut State, hear: &mut Hear) {
        let free = self.all_slots(s) & !(s.map.full | s.map.unknown);
        if free == 0 {
            s.phase = Phase::Waiting;
            return;
        }
        s.slot = free.trailing_zeros() as u8;
        if s.slot_at_belts() == Some(s.slot) {
            s.phase = Phase::Waiting;
        } else {
            s.phase = Phase::Seeking;
            self.send_lift(s, LiftPlace::At(s.slot), hear);
        }
    }

    /// Closes, opens and answers signals while it waits at a slot. True if something changed.
    pub(crate) fn signals_due(&self, s: &mut State, hear: &mut Hear) -> bool {
        if s.unit != UnitState::Execute || s.phase != Phase::Waiting {
            return false;
        }
        if s.order_len > 0 && !s.board_available && s.available_open_left == Micros(0) {
            self.set_board_available(s, true, hear);
            return true;
        }
        let taken = s.map.full | s.map.unknown;
        let room = taken >> s.slot & 1 == 0 && s.slot_at_belts() == Some(s.slot);
        let offered = s.upstream_board.is_some();
        let wanted = room
            && match self.parts.behaviours.machine_ready {
                ReadyRule::Room => true,
                ReadyRule::OnOffer => offered,
            };
        if wanted && !s.machine_ready && s.ready_open_left == Micros(0) {
            self.set_machine_ready(s, true, hear);
            return true;
        }
        if s.machine_ready && s.upstream_fresh && offered {
            s.upstream_fresh = false;
            s.phase = Phase::TakingIn;
            self.run_belts(s, Purpose::TakeIn, s.upstream_board, hear);
            return true;
        }
        if self.wants_to_send(s) {
            self.set_machine_ready(s, false, hear);
            s.phase = Phase::ToSend;
            s.slot = s.order[0];
            self.send_lift(s, LiftPlace::At(s.slot), hear);
            return true;
        }
        false
    }

    /// The lift stands at the slot that production asked for.
    pub(crate) fn production_indexed(&self, s: &mut State, hear: &mut Hear) {
        if s.phase == Phase::Seeking {
            s.phase = Phase::Waiting;
        } else if self.wants_to_send(s) {
            s.downstream_fresh = false;
            s.phase = Phase::Sending;
            self.run_belts(s, Purpose::Send, None, hear);
        } else {
            // The machine downstream opened its signal before anything moved.
            self.produce(s, hear);
        }
    }

    /// The incoming board has left the machine upstream.
    pub(crate) fn board_entered(&self, s: &mut State, hear: &mut Hear) {
        s.upstream_board = None;
        s.upstream_fresh = true;
        hear(Outcome::BoardEntered);
    }

    /// The belts that took a board in came to rest.
    pub(crate) fn taken_in(&self, s: &mut State, hear: &mut Hear) {
        let slot = s.slot;
        let arrived = crate::Half::BOTH.into_iter().any(|half| {
            let board = s.rack.get(crate::HalfSlot { slot, half });
            board.is_some_and(|board| self.infeed_sees >> board.kind & 1 == 1)
        });
        self.set_machine_ready(s, false, hear);
        if !arrived {
            return self.not_arrived(s, hear);
        }
        s.map.full |= 1 << slot;
        s.map.said_empty &= !(1 << slot);
        s.map.said_taken &= !(1 << slot);
        s.order[s.order_len as usize] = slot;
        s.order_len += 1;
        hear(Outcome::BoardStored(slot));
        self.produce(s, hear);
    }

    /// The first runner is over the end. With downstream's signal switched off nobody asked
    /// whether there is room: onto a machine that is not ready, the board is pushed against what
    /// stands there, over its whole length.
    pub(crate) fn pushed_out(&self, s: &mut State, hear: &mut Hear) {
        let unasked = s.phase == Phase::Sending && !s.service.settings.signals;
        let Some(runner) = s.runners.list().next() else {
            return;
        };
        if !unasked || s.downstream_ready {
            return;
        }
        hear(Outcome::Harmed(Harm {
            kind: HarmKind::Collided,
            board: Some(runner.board.kind),
            place: Some(Place::Belt(Side::Outfeed)),
            number: self.length(runner.board),
            limit: 0,
        }));
    }

    /// The belts that sent a board came to rest.
    pub(crate) fn sent(&self, s: &mut State, sent: bool, hear: &mut Hear) {
        self.set_board_available(s, false, hear);
        if !sent {
            return self.not_arrived(s, hear);
        }
        let slot = s.slot;
        s.map.full &= !(1 << slot);
        s.order.copy_within(1.., 0);
        s.order_len -= 1;
        hear(Outcome::BoardSent(slot));
        self.produce(s, hear);
    }
}

/// Whether downstream's signal counts as closed: a signal that is switched off always does.
fn downstream_counts_as_ready(s: &State) -> bool {
    !s.service.settings.signals || (s.downstream_ready && s.downstream_fresh)
}
