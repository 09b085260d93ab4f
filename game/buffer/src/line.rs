//! Two neighbours that do as they please, and the rules of the hand-over between them and us.
//!
//! Source of the rules: IPC-SMEMA-9851, section on the transfer of one board, as quoted in a
//! technical article: both signals closed at the instant at which a transfer starts; each signal
//! open for at least 50 ms before its next closing; one board for one closing of both.

use std::collections::VecDeque;

use rackproof_model::Micros;

use crate::{
    AxisName, Board, Button, Machine, MachineParts, Order, Outcome, Phase, ReadyRule, State,
    deeds::Chance, sample,
};

const OPEN: u64 = 50_000;

/// A signal as its partner sees it.
#[derive(Clone, Copy, Default)]
struct Signal {
    closed: bool,
    since: u64,
    /// It was open since the last transfer began.
    fresh: bool,
}

impl Signal {
    fn set(&mut self, closed: bool, now: u64) {
        self.fresh |= !closed;
        self.closed = closed;
        self.since = now;
    }
}

/// The line: the machine between two neighbours.
pub(crate) struct Line {
    pub(crate) machine: Machine,
    pub(crate) state: State,
    chance: Chance,
    /// Whether time passes in pieces.
    pieces: Option<Chance>,
    clock: u64,
    /// When each neighbour next does something.
    next: [u64; 2],
    upstream: Signal,
    downstream: Signal,
    ready: Signal,
    available: Signal,
    /// What must be stored: slots in the order of filling, each with its boards, the first one
    /// first.
    stored: Vec<(u8, VecDeque<u8>)>,
    /// The kind of board on offer, and of the one that came last.
    offered: u8,
    coming: u8,
    /// How many boards of each kind are inside.
    kinds: [i32; 4],
    pub(crate) passed: u32,
    pub(crate) pairs: u32,
    pub(crate) drawn_back: u32,
    entered: u32,
    pub(crate) left: u32,
    pub(crate) withdrawn: u32,
    /// The machine downstream opens its signal long after it has the board.
    lazy: bool,
    pub(crate) told: Vec<(u64, Outcome)>,
}

impl Line {
    pub(crate) fn new(seed: u64, (rule, change): Setting, pieces: bool) -> Line {
        let mut parts = sample::parts();
        parts.behaviours.machine_ready = rule;
        parts.slots = 5;
        change(&mut parts);
        let machine = Machine::new(parts);
        let open = Signal {
            fresh: true,
            ..Signal::default()
        };
        let mut line = Line {
            state: machine.at_rest(sample::WREN),
            machine,
            chance: Chance(seed),
            pieces: pieces.then_some(Chance(!seed)),
            clock: 0,
            next: [0; 2],
            upstream: open,
            downstream: open,
            ready: open,
            available: open,
            stored: Vec::new(),
            offered: 0,
            coming: 0,
            kinds: [0; 4],
            passed: 0,
            pairs: 0,
            drawn_back: 0,
            entered: 0,
            left: 0,
            withdrawn: 0,
            lazy: false,
            told: Vec::new(),
        };
        for button in [Button::Reset, Button::Start] {
            line.doing(|machine, s, hear| machine.press(s, button, hear));
        }
        line
    }

    pub(crate) fn run(&mut self, until: u64) {
        while self.clock < until {
            let event = self
                .machine
                .next_event(&self.state)
                .map(|next| self.clock + u64::from(next.0));
            let neighbour = self.next[0].min(self.next[1]).min(until);
            let to = event.map_or(neighbour, |event| event.min(neighbour));
            self.pass(to - self.clock);
            for at in 0..2 {
                if self.next[at] <= self.clock {
                    self.next[at] = self.clock + self.pause(at);
                    [Line::upstream_acts, Line::downstream_acts][at](self);
                }
            }
        }
    }

    /// Mostly seconds; sometimes so short that signals meet at one instant. Where boards may go
    /// straight through, the machine upstream is slow, so that the rack is often empty.
    fn pause(&mut self, at: usize) -> u64 {
        let through = self.machine.order_in_force(&self.state) == Order::StraightThrough;
        let longest = if through && at == 0 {
            60_000_000
        } else {
            20_000_000
        };
        let most = [OPEN as u32, 1_000_000, 3_000_000, longest][self.chance.below(4) as usize];
        OPEN + u64::from(self.chance.below(most))
    }

    fn pass(&mut self, span: u64) {
        let mut left = span as u32;
        loop {
            let piece = match &mut self.pieces {
                Some(chance) if left > 0 => chance.below(left) + 1,
                _ => left,
            };
            self.clock += u64::from(piece);
            self.doing(|machine, s, hear| machine.advance(s, Micros(piece), hear));
            left -= piece;
            if left == 0 {
                return;
            }
        }
    }

    /// Offers a board, or takes the offer back before both signals were closed.
    fn upstream_acts(&mut self) {
        let taking = matches!(self.state.phase, Phase::TakingIn | Phase::PassingThrough);
        if taking && !self.upstream.fresh {
            return;
        }
        let offers = self.state.upstream_board.is_none();
        self.withdrawn += u32::from(!offers);
        self.upstream.set(offers, self.clock);
        let kind = [sample::WREN, sample::HERON][self.chance.below(2) as usize];
        let board = offers.then_some(Board::good(kind));
        self.doing(|machine, s, hear| machine.upstream_signal(s, board, hear));
    }

    fn downstream_acts(&mut self) {
        let sending = matches!(self.state.phase, Phase::Sending | Phase::PassingThrough);
        if !sending {
            self.downstream_closes(!self.downstream.closed);
        }
    }

    fn downstream_closes(&mut self, closed: bool) {
        self.downstream.set(closed, self.clock);
        self.doing(|machine, s, hear| machine.downstream_signal(s, closed, hear));
    }

    fn doing(&mut self, act: impl FnOnce(&Machine, &mut State, &mut dyn FnMut(Outcome))) {
        let mut heard = Vec::new();
        if let Some(board) = self.state.upstream_board {
            self.offered = board.kind;
        }
        act(&self.machine, &mut self.state, &mut |outcome| {
            heard.push(outcome)
        });
        for outcome in heard {
            self.told.push((self.clock, outcome));
            self.note(outcome);
        }
        self.check();
    }

    fn note(&mut self, outcome: Outcome) {
        let now = self.clock;
        match outcome {
            Outcome::MachineReady(closed) => {
                assert!(
                    !closed || self.ready.since == 0 || now - self.ready.since >= OPEN,
                    "ready"
                );
                self.ready.set(closed, now);
            }
            Outcome::BoardAvailable(closed) => {
                let open = now - self.available.since;
                assert!(
                    !closed || self.available.since == 0 || open >= OPEN,
                    "available"
                );
                self.available.set(closed, now);
            }
            Outcome::Started(AxisName::Belts) => self.note_start(),
            Outcome::BoardEntered => {
                assert!(self.ready.closed, "ready opened before the board arrived");
                // The board has left the machine upstream, which opens its signal.
                self.upstream.set(false, now);
                self.next[0] = now + self.pause(0);
                self.entered += 1;
                self.coming = self.offered;
                self.kinds[self.coming as usize] += 1;
            }
            Outcome::BoardStored(slot) => self.note_stored(slot),
            Outcome::BoardSent(slot) => self.note_sent(slot),
            Outcome::BoardPassed(slot) => {
                assert!(self.stored.is_empty(), "slot {slot}: overtaken");
                self.note_left(self.coming);
                self.passed += 1;
            }
            Outcome::BoardRanPast(_) => self.drawn_back += 1,
            Outcome::Harmed(harm) => panic!("{harm:?}"),
            Outcome::Alarmed(alarm) => panic!("{alarm:?}"),
            _ => {}
        }
    }

    fn note_stored(&mut self, slot: u8) {
        match self.stored.last_mut() {
            Some((last, boards)) if *last == slot => {
                boards.push_back(self.coming);
                self.pairs += 1;
                assert_eq!(boards.len(), 2, "three boards in slot {slot}");
            }
            _ => self.stored.push((slot, VecDeque::from([self.coming]))),
        }
    }

    /// The board that the order asks for has left, and no other.
    fn note_sent(&mut self, slot: u8) {
        let last_first = self.machine.order_in_force(&self.state) == Order::LastInFirstOut;
        let at = if last_first { self.stored.len() - 1 } else { 0 };
        assert_eq!(self.stored[at].0, slot, "out of order");
        let kind = self.stored[at].1.pop_front().expect("a board is there");
        if self.stored[at].1.is_empty() {
            self.stored.remove(at);
        }
        self.note_left(kind);
    }

    fn note_left(&mut self, kind: u8) {
        self.kinds[kind as usize] -= 1;
        self.left += 1;
        self.lazy = self.chance.below(2) == 0;
    }

    /// The belts start: both signals of that side are closed, and were open since the last time.
    fn note_start(&mut self) {
        let (takes, sends) = match self.state.phase {
            Phase::TakingIn => (true, false),
            Phase::Sending => (false, true),
            Phase::PassingThrough => (true, true),
            // Within the machine: no neighbour has a part in it.
            Phase::RunningPast => (false, false),
            other => panic!("belts start in {other:?}"),
        };
        let upstream = (&mut self.upstream, &mut self.ready);
        let downstream = (&mut self.downstream, &mut self.available);
        for (takes_part, (theirs, ours)) in [(takes, upstream), (sends, downstream)] {
            if !takes_part {
                continue;
            }
            assert!(theirs.closed && ours.closed, "belts without both signals");
            assert!(theirs.fresh && ours.fresh, "a second board for one closing");
            theirs.fresh = false;
            ours.fresh = false;
        }
    }

    fn check(&mut self) {
        let s = &self.state;
        let through = s.phase == Phase::PassingThrough;
        let in_taking = through || s.phase == Phase::TakingIn;
        let in_sending = through || s.phase == Phase::Sending;
        assert!(
            !in_taking || s.machine_ready,
            "ready opened before the board arrived"
        );
        assert!(
            !in_sending || s.board_available,
            "available opened before the board left"
        );
        if s.machine_ready {
            assert!(
                s.lift.is_rest() && s.rails.is_rest(),
                "ready while an axis moves"
            );
            assert_eq!(s.slot_at_belts(), Some(s.slot), "ready away from the slot");
            let there = self.stored.iter().position(|(slot, _)| *slot == s.slot);
            let second = there.is_some_and(|at| {
                self.machine.stores_pairs(s)
                    && at + 1 == self.stored.len()
                    && self.stored[at].1.len() == 1
            });
            assert!(there.is_none() || second, "ready at a taken slot");
            let used = self.machine.used_slots(s);
            assert!(used >> s.slot & 1 == 1, "ready at a slot that is not used");
        }
        let inside = s.rack.present().len() + s.runners.boards_inside() as u32;
        assert_eq!(self.entered - self.left, inside, "boards");
        assert_eq!(
            kinds_inside(s),
            self.kinds,
            "another board left than should"
        );
        assert!(s.mouths == [None; 2] && s.infeed_belt.is_none());
        // The machine downstream opens its signal when it has the board, or takes its time.
        if !in_sending && !self.downstream.fresh && !self.lazy {
            self.next[1] = self.clock + self.pause(1);
            self.downstream_closes(false);
        }
    }
}

/// How many boards of each kind are inside.
fn kinds_inside(s: &State) -> [i32; 4] {
    let mut kinds = [0; 4];
    let running = s.runners.list().iter().take(s.runners.boards_inside());
    let lying = s.rack.iter().map(|(_, board)| board);
    for board in lying.chain(running.map(|runner| runner.board)) {
        kinds[board.kind as usize] += 1;
    }
    kinds
}

/// When Machine Ready closes, and what else is set.
pub(crate) type Setting = (ReadyRule, fn(&mut MachineParts));
