//! Production: boards are stored and sent, with both handshakes of IPC-SMEMA-9851.

use rackproof_model::Micros;

use crate::{
    Board, Half, HalfSlot, Harm, HarmKind, Hear, LiftPlace, Listener, Machine, Outcome, Phase,
    Place, Priority, ReadyRule, Side, State, runners::Purpose,
};

/// What the controller begins by the signals, once nothing moves.
#[derive(Clone, Copy)]
pub(crate) enum Step {
    /// Both signals of the infeed are closed: a board comes in.
    TakeIn,
    /// Both signals of the outfeed are closed: it goes to the slot that is sent.
    Send,
}

impl Machine {
    /// The machine upstream closes Board Available with `board` on offer, or opens it.
    pub fn upstream_signal(
        &self,
        s: &mut State,
        board: Option<Board>,
        hear: &mut (impl Listener + ?Sized),
    ) {
        s.upstream_board = board;
        s.upstream_fresh |= !self.signal_read(s, Side::Infeed);
        // An offer that is taken back lets nothing begin.
        if board.is_some() {
            self.settle(s, hear);
        }
    }

    /// The machine downstream closes or opens Machine Ready.
    pub fn downstream_signal(
        &self,
        s: &mut State,
        ready: bool,
        hear: &mut (impl Listener + ?Sized),
    ) {
        s.downstream_ready = ready;
        let closed = self.signal_read(s, Side::Outfeed);
        s.downstream_fresh |= !closed;
        // A signal that opens lets nothing begin, but it may stop what runs.
        if (!closed && self.stop_if_dropped(s, hear)) || ready {
            self.settle(s, hear);
        }
    }

    pub(crate) fn set_machine_ready(
        &self,
        s: &mut State,
        closed: bool,
        hear: &mut (impl Listener + ?Sized),
    ) {
        if s.machine_ready != closed {
            s.machine_ready = closed;
            hear(Outcome::MachineReady(closed));
            if !closed {
                s.ready_open_left = self.parts.signal_open;
            }
        }
    }

    pub(crate) fn set_board_available(
        &self,
        s: &mut State,
        closed: bool,
        hear: &mut (impl Listener + ?Sized),
    ) {
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

    /// A board has left: no other is offered for as long as a signal stays open, and not before the
    /// release interval is over.
    pub(crate) fn board_left(&self, s: &mut State, hear: &mut (impl Listener + ?Sized)) {
        self.set_board_available(s, false, hear);
        let release = self.parts.storing.release_interval;
        s.available_open_left = s.available_open_left.max(release);
    }

    /// Whether the machine downstream asks for a board: its signal is closed, and was open since
    /// the last one. With a release interval it need not have been. A signal that is switched off
    /// always counts as closed.
    pub(crate) fn is_called(&self, s: &State) -> bool {
        self.is_called_by(s, self.signal_read(s, Side::Outfeed))
    }

    /// The same, with that signal read as closed or open.
    #[inline]
    pub(crate) fn is_called_by(&self, s: &State, closed: bool) -> bool {
        // Without a branch: a signal is as often open as closed.
        let fresh = s.downstream_fresh | (self.parts.storing.release_interval.0 > 0);
        !s.service.settings.signals | (fresh & closed)
    }

    fn wants_to_send(&self, s: &State) -> bool {
        s.board_available && self.is_called(s) && s.order_len > 0
    }

    /// Goes to the slot for the next board, or waits where it is if there is none.
    pub(crate) fn produce(&self, s: &mut State, hear: &mut Hear) {
        let room = self.next_room(s);
        self.wait_at(s, room, hear);
    }

    /// Goes to a slot to wait there, or waits where it is.
    #[inline]
    pub(crate) fn wait_at(
        &self,
        s: &mut State,
        room: Option<u8>,
        hear: &mut (impl Listener + ?Sized),
    ) {
        s.phase = Phase::Waiting;
        s.slot = room.unwrap_or(s.slot);
        if room.is_some() && s.slot_at_belts() != room {
            s.phase = Phase::Seeking;
            self.send_lift(s, LiftPlace::At(s.slot), hear);
        }
    }

    /// Does what its own and its neighbours' signals ask for next, in Execute. True if anything but
    /// signals came of it.
    #[inline]
    pub(crate) fn signals_due(&self, s: &mut State, hear: &mut Hear) -> bool {
        if s.phase != Phase::Waiting {
            let over = s.phase == Phase::AwaitingArrival && s.arrival_left == Micros(0);
            if over {
                self.not_arrived(s, hear);
            }
            return over;
        }
        let (offered, called) = (self.signal_read(s, Side::Infeed), self.is_called(s));
        let pairs = self.stores_pairs(s);
        match self.next_at_slot(s, [offered, called, pairs], hear) {
            Some(Step::TakeIn) => self.take_in(s, hear),
            Some(Step::Send) => self.go_to_send(s, hear),
            None => return false,
        }
        true
    }

    /// Closes those of its own signals that it may, at a slot, and says what it begins then, if a
    /// board is offered or not, it is called for one or not, and a slot takes two boards or not. A
    /// signal that closes moves nothing: what it lets begin follows at once.
    #[inline]
    pub(crate) fn next_at_slot(
        &self,
        s: &mut State,
        [offered, called, pairs]: [bool; 3],
        hear: &mut (impl Listener + ?Sized),
    ) -> Option<Step> {
        if s.order_len > 0 && !s.board_available && s.available_open_left == Micros(0) {
            self.set_board_available(s, true, hear);
        }
        let sends = s.board_available && called && s.order_len > 0;
        if !s.machine_ready {
            // Once both signals of the infeed are closed the transfer has begun: no priority then.
            if sends && s.service.settings.priority == Priority::Emptying {
                return Some(Step::Send);
            }
            if s.ready_open_left == Micros(0)
                && (offered || self.parts.behaviours.machine_ready == ReadyRule::Room)
                && s.slot_at_belts() == Some(s.slot)
                && self.has_room(s, pairs)
            {
                self.set_machine_ready(s, true, hear);
            }
        }
        if s.machine_ready && offered && s.upstream_fresh {
            return Some(Step::TakeIn);
        }
        sends.then_some(Step::Send)
    }

    /// Both signals of the infeed are closed.
    #[inline(never)] // keeps the frame of `settle` small
    pub(crate) fn take_in(&self, s: &mut State, hear: &mut Hear) {
        if self.goes_through(s) {
            self.pass_through(s, hear);
            return;
        }
        s.upstream_fresh = false;
        s.phase = Phase::TakingIn;
        self.run_belts(s, Purpose::TakeIn, self.incoming(s), hear);
    }

    #[inline]
    pub(crate) fn go_to_send(&self, s: &mut State, hear: &mut (impl Listener + ?Sized)) {
        self.set_machine_ready(s, false, hear);
        s.phase = Phase::ToSend;
        s.slot = self.next_to_send(s);
        self.send_lift(s, LiftPlace::At(s.slot), hear);
    }

    /// The lift stands at the slot that production asked for.
    pub(crate) fn production_indexed(&self, s: &mut State, hear: &mut Hear) {
        if s.phase == Phase::Seeking {
            s.phase = Phase::Waiting;
        } else if self.parts.storing.draw_back.is_some() && self.wants_to_send(s) {
            self.run_past(s, hear);
        } else {
            self.send_if_called(s, hear);
        }
    }

    /// Sends the slot's first board, unless the machine downstream opened its signal meanwhile.
    pub(crate) fn send_if_called(&self, s: &mut State, hear: &mut Hear) {
        if self.wants_to_send(s) {
            s.downstream_fresh = false;
            s.phase = Phase::Sending;
            self.run_belts(s, Purpose::Send, None, hear);
        } else {
            self.produce(s, hear);
        }
    }

    /// The belts that took a board in came to rest.
    pub(crate) fn taken_in(&self, s: &mut State, ran: Micros, hear: &mut Hear) {
        if self.has_arrived(s) {
            self.stored(s, hear);
            self.produce(s, hear);
        } else {
            self.set_machine_ready(s, false, hear);
            self.await_arrival(s, ran, hear);
        }
    }

    /// A board lies in the slot, and the beams saw it.
    #[inline]
    pub(crate) fn stored(&self, s: &mut State, hear: &mut (impl Listener + ?Sized)) {
        self.set_machine_ready(s, false, hear);
        self.note_stored(s, s.slot);
        hear(Outcome::BoardStored(s.slot));
    }

    /// What the beams say of the board that came into the slot. In a slot for two, the first must
    /// have passed the middle beam and left it, the second must not have reached it.
    fn has_arrived(&self, s: &State) -> bool {
        let board = |half| s.rack.get(HalfSlot { slot: s.slot, half });
        let seen = |half: Half| self.saw_arrival(s, board(half));
        let middle = self.parts.storing.middle_beam;
        let Some(beam) = middle.filter(|_| self.stores_pairs(s)) else {
            return Half::BOTH.into_iter().any(seen);
        };
        let kind = |board: Board| &self.parts.kinds[board.kind as usize];
        let shows = |board: Board| kind(board).reflectance >= beam.reflectance;
        let broken = Half::BOTH.into_iter().any(|half| {
            let lead = self.rest_leads()[half as usize];
            let covers = |board: Board| {
                shows(board) && lead - kind(board).length <= beam.at && beam.at < lead
            };
            board(half).is_some_and(covers)
        });
        let half = self.half_to_fill(s, s.slot);
        let passed = half == Half::Infeed || board(half).is_some_and(shows);
        seen(half) && passed && !broken
    }

    /// The first runner is over the end. With downstream's signal switched off nobody asked
    /// whether there is room: onto a machine that is not ready, the board is pushed against what
    /// stands there, over its whole length.
    pub(crate) fn pushed_out(&self, s: &mut State, hear: &mut Hear) {
        let sends = matches!(s.phase, Phase::Sending | Phase::PassingThrough);
        let unasked = sends && !s.service.settings.signals;
        let Some(runner) = s.runners.first() else {
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
    pub(crate) fn sent(&self, s: &mut State, sent: bool, ran: Micros, hear: &mut Hear) {
        if sent {
            self.has_sent(s, hear);
            self.produce(s, hear);
        } else {
            self.board_left(s, hear);
            self.await_arrival(s, ran, hear);
        }
    }

    /// The slot's board has left.
    #[inline]
    pub(crate) fn has_sent(&self, s: &mut State, hear: &mut (impl Listener + ?Sized)) {
        self.board_left(s, hear);
        self.note_sent(s, s.slot);
        hear(Outcome::BoardSent(s.slot));
    }

    /// The belts have run for so long and no board was seen to arrive: it is waited for until the
    /// time-out.
    pub(crate) fn await_arrival(&self, s: &mut State, ran: Micros, hear: &mut Hear) {
        let left = self.parts.storing.arrival_time_out.0.saturating_sub(ran.0);
        if left == 0 {
            return self.not_arrived(s, hear);
        }
        s.arrival_left = Micros(left);
        s.phase = Phase::AwaitingArrival;
    }
}
