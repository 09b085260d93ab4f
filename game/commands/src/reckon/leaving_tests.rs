//! What is reckoned against the machine itself, which fills its rack and empties it.

use rackproof_buffer::{Board, Button, Machine, Outcome, Phase, Side, State};
use rackproof_library::machines;
use rackproof_model::Micros;

use crate::reckon::figures::figures_tests::machine_of;

/// Machines of ours with changes in their files: orders, tandem, intervals, draw-back, release.
pub(in crate::reckon) fn cases() -> Vec<(String, Machine)> {
    let changes: &[(&str, &str, &str)] = &[
        ("alder-16", "slots: 16", "slots: 16"),
        ("alder-16", "priority: Filling", "priority: Emptying"),
        ("alder-16", "order_scope: Product", "order_scope: Machine"),
        (
            "alder-16",
            "order: FirstInFirstOut",
            "order_scope: Machine, order: LastInFirstOut",
        ),
        ("rowan-40", "slots: 40", "slots: 40"),
        ("rowan-40", "order_scope: Machine", "order_scope: Product"),
        ("rowan-40", "slots: 40", "slots: 7"),
        (
            "rowan-40",
            "release_interval_s: 6.0",
            "release_interval_s: 0.0",
        ),
    ];
    let texts = machines();
    let case = |&(name, from, to): &(&str, &str, &str)| {
        let text = texts.iter().find(|text| text.file.contains(name));
        let mut text = text.expect("it is ours").text.clone();
        assert!(text.contains(from), "{name} has no {from}");
        if to.contains("order_scope") && to.contains("order:") {
            text = text.replace("order_scope: Product,", "");
        }
        let (machine, _) = machine_of(&text.replacen(from, to, 1));
        (format!("{name}: {to}"), machine)
    };
    changes.iter().map(case).collect()
}

/// A machine that runs, and when.
pub(in crate::reckon) struct Line<'m> {
    pub(in crate::reckon) machine: &'m Machine,
    pub(in crate::reckon) state: State,
    /// In µs since it began.
    pub(in crate::reckon) clock: u64,
    pub(in crate::reckon) heard: Vec<Outcome>,
}

impl Line<'_> {
    /// A machine in production that took in so many boards, one after the other, and rests.
    pub(in crate::reckon) fn filled(machine: &Machine, product: u8, boards: u8) -> Line<'_> {
        let mut line = Line {
            machine,
            state: machine.at_rest(product),
            clock: 0,
            heard: Vec::new(),
        };
        line.press(Button::Reset);
        line.press(Button::Start);
        let kind = machine.parts().products[usize::from(product)].kind;
        for _ in 0..boards {
            let board = Some(Board::good(kind));
            machine.upstream_signal(&mut line.state, board, &mut |_| {});
            line.settle();
            machine.upstream_signal(&mut line.state, None, &mut |_| {});
        }
        line.settle();
        let inside = line.state.rack.present().len();
        assert_eq!(inside, u32::from(boards), "they are all inside");
        (line.clock, line.heard) = (0, Vec::new());
        line
    }

    pub(in crate::reckon) fn press(&mut self, button: Button) {
        let heard = &mut self.heard;
        self.machine
            .press(&mut self.state, button, &mut |one| heard.push(one));
    }

    /// Lets the machine's next event come. False if nothing happens by itself.
    pub(in crate::reckon) fn step(&mut self) -> bool {
        let Some(next) = self.machine.next_event(&self.state) else {
            return false;
        };
        self.pass(next);
        true
    }

    fn pass(&mut self, span: Micros) {
        let heard = &mut self.heard;
        self.machine
            .advance(&mut self.state, span, &mut |one| heard.push(one));
        self.clock += u64::from(span.0);
    }

    pub(in crate::reckon) fn settle(&mut self) {
        for _ in 0..10_000 {
            if !self.step() {
                return;
            }
        }
        panic!("it never rests");
    }

    /// Lets time pass until `until`, in µs since it began.
    fn pass_until(&mut self, until: u64) {
        while self.clock < until {
            let left = Micros((until - self.clock) as u32);
            let own = self.machine.next_event(&self.state);
            self.pass(own.map_or(left, |own| own.min(left)));
        }
    }

    /// Lets the machine's own events come until one of these was heard.
    fn step_until(&mut self, wanted: impl Fn(&Outcome) -> bool) {
        let before = self.heard.len();
        while !self.heard[before..].iter().any(&wanted) {
            assert!(self.step(), "stuck in {:?}", self.state.phase());
        }
    }

    fn call(&mut self, ready: bool) {
        let heard = &mut self.heard;
        self.machine
            .downstream_signal(&mut self.state, ready, &mut |one| heard.push(one));
    }

    /// Downstream asks for a board each `takt` at the earliest. When each board left, in µs.
    fn emptied(&mut self, boards: u8, takt: u64) -> Vec<u64> {
        let mut left = Vec::new();
        let mut due = 0;
        while left.len() < usize::from(boards) {
            // Until the takt is over; the machine may need longer for its own signal.
            while self.clock < due || !self.state.board_available() {
                let own = self.machine.next_event(&self.state);
                let until = due.saturating_sub(self.clock);
                let until = (until > 0).then_some(Micros(until as u32));
                let span = own.into_iter().chain(until).min();
                self.pass(span.expect("it offers a board at last"));
            }
            self.call(true);
            due = self.clock + takt;
            assert_ne!(self.state.phase(), Phase::Waiting, "it begins at once");
            self.step_until(|one| matches!(one, Outcome::BoardSent(_)));
            left.push(self.clock);
            self.call(false);
        }
        left
    }
}

/// Numbers of boards that differ in how the last slots are filled.
fn some_boards(most: u8) -> Vec<u8> {
    let mut boards = vec![1, 2, 3, most / 2, most / 2 + 1, most - 1, most];
    boards.dedup();
    boards
}

#[test]
fn a_rack_is_emptied_in_the_time_that_is_reckoned() {
    for (name, machine) in cases() {
        for product in 0..machine.parts().products.len() as u8 {
            for boards in some_boards(machine.capacity(product).boards) {
                for takt in [0, 9_000_000, 30_000_000] {
                    let case = format!("{name}, product {product}, {boards} boards, takt {takt}");
                    let mut line = Line::filled(&machine, product, boards);
                    let at = machine.waits_at(product, boards);
                    assert_eq!(line.state.slot_at_belts(), Some(at), "{case}");
                    let left = line.emptied(boards, u64::from(takt));
                    let reckoned = machine.drain(product, boards, at, Micros(takt));
                    assert_eq!(left.last(), Some(&reckoned.time()), "{case}");
                    assert!(line.state.rack.present().is_empty(), "{case}");
                    assert!(!line.state.neighbour_signal(Side::Infeed), "{case}");
                }
            }
        }
    }
}

/// Little's law, L = λ · W (any textbook of queues), on the machine itself: as many boards come in
/// as leave, one each takt. What is told, boards · takt, is W with a rack that is never a board
/// short; the machine is one short from the board that left until the next is stored.
#[test]
fn a_board_stays_as_long_as_littles_law_says() {
    const TAKT: u64 = 30_000_000;
    let (_, machine) = cases().swap_remove(0);
    let boards = 12;
    let mut line = Line::filled(&machine, 0, boards);
    let (mut stored, mut left, mut short) = (vec![0; usize::from(boards)], Vec::new(), 0);
    let rounds = 4 * u64::from(boards);
    for round in 1..=rounds {
        line.pass_until(round * TAKT);
        line.call(true);
        line.step_until(|one| matches!(one, Outcome::BoardSent(_)));
        left.push(line.clock);
        line.call(false);
        let board = Some(Board::good(0));
        machine.upstream_signal(&mut line.state, board, &mut |_| {});
        line.step_until(|one| matches!(one, Outcome::BoardStored(_)));
        stored.push(line.clock);
        short += line.clock - left[left.len() - 1];
        machine.upstream_signal(&mut line.state, None, &mut |_| {});
    }
    // First in, first out: the n-th that was stored is the n-th that leaves.
    let stays: Vec<u64> = left
        .iter()
        .zip(&stored)
        .map(|(left, stored)| left - stored)
        .collect();
    let steady = &stays[usize::from(boards)..];
    let mean = steady.iter().sum::<u64>() as f64 / steady.len() as f64;
    let inside = f64::from(boards) - short as f64 / (rounds * TAKT) as f64;
    assert!(
        (mean / (inside * TAKT as f64) - 1.0).abs() < 0.005,
        "{mean} {inside}"
    );
    let told = u64::from(boards) * TAKT;
    assert!(
        mean < told as f64 && told as f64 - mean < TAKT as f64,
        "{mean}"
    );
}
