//! Two neighbours that do as they please, and the rules of the hand-over between them and us.
//!
//! Source of the rules: IPC-SMEMA-9851, section on the transfer of one board, as quoted in a
//! technical article: both signals closed at the instant at which a transfer starts; each signal
//! open for at least 50 ms before its next closing; one board for one closing of both.

use std::collections::VecDeque;

use proptest::prelude::*;
use rackproof_model::Micros;

use crate::{
    AxisName, Board, Button, Machine, Outcome, Phase, ReadyRule, State, deeds::Chance, sample,
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
struct Line {
    machine: Machine,
    state: State,
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
    stored: VecDeque<u8>,
    entered: u32,
    left: u32,
    withdrawn: u32,
    /// The machine downstream opens its signal long after it has the board.
    lazy: bool,
    told: Vec<(u64, Outcome)>,
}

impl Line {
    fn new(seed: u64, rule: ReadyRule, pieces: bool) -> Line {
        let mut parts = sample::parts();
        parts.behaviours.machine_ready = rule;
        parts.slots = 5;
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
            stored: VecDeque::new(),
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

    fn run(&mut self, until: u64) {
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
                    self.next[at] = self.clock + self.pause();
                    [Line::upstream_acts, Line::downstream_acts][at](self);
                }
            }
        }
    }

    /// Mostly seconds; sometimes so short that signals meet at one instant.
    fn pause(&mut self) -> u64 {
        let most = [OPEN as u32, 1_000_000, 3_000_000, 20_000_000][self.chance.below(4) as usize];
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
        if self.state.phase == Phase::TakingIn && !self.upstream.fresh {
            return;
        }
        let offers = self.state.upstream_board.is_none();
        self.withdrawn += u32::from(!offers);
        self.upstream.set(offers, self.clock);
        let board = offers.then_some(Board::good(sample::WREN));
        self.doing(|machine, s, hear| machine.upstream_signal(s, board, hear));
    }

    fn downstream_acts(&mut self) {
        if self.state.phase != Phase::Sending {
            self.downstream_closes(!self.downstream.closed);
        }
    }

    fn downstream_closes(&mut self, closed: bool) {
        self.downstream.set(closed, self.clock);
        self.doing(|machine, s, hear| machine.downstream_signal(s, closed, hear));
    }

    fn doing(&mut self, act: impl FnOnce(&Machine, &mut State, &mut dyn FnMut(Outcome))) {
        let mut heard = Vec::new();
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
                self.next[0] = now + self.pause();
                self.entered += 1;
            }
            Outcome::BoardStored(slot) => self.stored.push_back(slot),
            Outcome::BoardSent(slot) => {
                assert_eq!(self.stored.pop_front(), Some(slot), "first in, first out");
                self.left += 1;
                self.lazy = self.chance.below(2) == 0;
            }
            Outcome::Harmed(harm) => panic!("{harm:?}"),
            Outcome::Alarmed(alarm) => panic!("{alarm:?}"),
            _ => {}
        }
    }

    /// The belts start: both signals of that side are closed, and were open since the last time.
    fn note_start(&mut self) {
        let (theirs, ours) = match self.state.phase {
            Phase::TakingIn => (&mut self.upstream, &mut self.ready),
            Phase::Sending => (&mut self.downstream, &mut self.available),
            other => panic!("belts start in {other:?}"),
        };
        assert!(
            theirs.closed && ours.closed,
            "belts start without both signals"
        );
        assert!(theirs.fresh && ours.fresh, "a second board for one closing");
        theirs.fresh = false;
        ours.fresh = false;
    }

    fn check(&mut self) {
        let s = &self.state;
        let (in_taking, in_sending) = (s.phase == Phase::TakingIn, s.phase == Phase::Sending);
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
            assert_eq!(
                (s.map.full | s.map.unknown) >> s.slot & 1,
                0,
                "ready at a taken slot"
            );
        }
        let inside = s.rack.present().len() + s.runners.boards_inside() as u32;
        assert_eq!(self.entered - self.left, inside, "boards");
        assert!(s.mouths == [None; 2] && s.infeed_belt.is_none());
        // The machine downstream opens its signal when it has the board, or takes its time.
        if s.phase != Phase::Sending && !self.downstream.fresh && !self.lazy {
            self.next[1] = self.clock + self.pause();
            self.downstream_closes(false);
        }
    }
}

const RULES: [ReadyRule; 2] = [ReadyRule::Room, ReadyRule::OnOffer];

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None,
        ..ProptestConfig::default() })]

    #[test]
    fn any_two_neighbours_hand_over_by_the_rules(seed: u64, on_offer: bool) {
        let rule = RULES[usize::from(on_offer)];
        let mut whole = Line::new(seed, rule, false);
        let mut pieces = Line::new(seed, rule, true);
        whole.run(600_000_000);
        pieces.run(600_000_000);
        prop_assert_eq!(whole.state, pieces.state);
        prop_assert_eq!(whole.told, pieces.told);
    }
}

#[test]
fn a_long_day_between_two_neighbours() {
    for (seed, rule) in (0..8).zip(RULES.into_iter().cycle()) {
        let mut line = Line::new(seed, rule, false);
        line.run(8 * 3_600_000_000);
        assert!(line.left > 300, "{} boards left", line.left);
        assert!(line.withdrawn > 20, "{} offers withdrawn", line.withdrawn);
    }
}
