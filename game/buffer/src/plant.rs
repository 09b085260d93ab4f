//! A machine in production for tests of storing and sending.

use rackproof_model::{Micrometres, Micros, quantity::Percent};

use crate::{
    Board, Button, DrawBack, Half, HalfSlot, HarmKind, Machine, MachineParts, MiddleBeam, Mode,
    Outcome, State, sample,
};

pub(crate) fn mm(millimetres: i32) -> Micrometres {
    Micrometres::from_millimetres(millimetres)
}

/// A middle beam in the middle of the sample's rack.
pub(crate) fn middle_beam() -> MiddleBeam {
    MiddleBeam {
        at: mm(250),
        clearance: mm(5),
        reflectance: Percent(18),
    }
}

/// Two boards in each slot, whatever the product.
pub(crate) fn tandem(parts: &mut MachineParts) {
    parts.storing.middle_beam = Some(middle_beam());
    for product in &mut parts.products {
        product.storing.tandem = true;
    }
}

/// Boards run 15 mm past the mouth before they are sent.
pub(crate) fn draws_back(parts: &mut MachineParts) {
    parts.storing.draw_back = Some(DrawBack {
        past: mm(15),
        reflectance: Percent(18),
    });
}

/// The slot of a board that went straight through.
pub(crate) fn passed(one: Outcome) -> Option<u8> {
    match one {
        Outcome::BoardPassed(slot) => Some(slot),
        _ => None,
    }
}

/// A machine in production, and all that it published.
pub(crate) struct Plant {
    pub(crate) machine: Machine,
    pub(crate) state: State,
    pub(crate) heard: Vec<Outcome>,
    pub(crate) clock: u64,
    /// Steps so far, so that a test that waits for ever ends.
    steps: u32,
}

impl Plant {
    pub(crate) fn of(change: impl FnOnce(&mut MachineParts)) -> Plant {
        let mut parts = sample::parts();
        change(&mut parts);
        let machine = Machine::new(parts);
        Plant {
            state: machine.at_rest(sample::WREN),
            machine,
            heard: Vec::new(),
            clock: 0,
            steps: 0,
        }
    }

    pub(crate) fn running(change: impl FnOnce(&mut MachineParts)) -> Plant {
        let mut plant = Plant::of(change);
        plant.press(Button::Reset);
        plant.press(Button::Start);
        plant
    }

    pub(crate) fn press(&mut self, button: Button) {
        let heard = &mut self.heard;
        self.machine
            .press(&mut self.state, button, &mut |one| heard.push(one));
    }

    /// Presses one after the other, and lets the machine come to rest each time.
    pub(crate) fn press_all(&mut self, buttons: &[Button]) {
        for button in buttons {
            self.press(*button);
            self.settle();
        }
    }

    /// A changeover to a product, as far as it goes without an answer.
    pub(crate) fn change_over(&mut self, product: u8) {
        let mode = Button::Mode(Mode::Changeover);
        self.press_all(&[mode, Button::Reset, Button::Choose(product), Button::Load]);
        self.press_all(&[Button::Start]);
    }

    /// Lets so long pass, event by event.
    pub(crate) fn wait(&mut self, span: Micros) {
        let until = self.clock + u64::from(span.0);
        while let Some(next) = self.machine.next_event(&self.state) {
            let left = (until - self.clock) as u32;
            let heard = &mut self.heard;
            let part = next.min(Micros(left));
            self.machine
                .advance(&mut self.state, part, &mut |one| heard.push(one));
            self.clock += u64::from(part.0);
            if part.0 == left {
                return;
            }
        }
    }

    pub(crate) fn step(&mut self) -> bool {
        self.steps += 1;
        assert!(self.steps < 100_000, "waited for ever");
        let Some(next) = self.machine.next_event(&self.state) else {
            return false;
        };
        self.clock += u64::from(next.0);
        let heard = &mut self.heard;
        self.machine
            .advance(&mut self.state, next, &mut |one| heard.push(one));
        true
    }

    pub(crate) fn settle(&mut self) {
        while self.step() {}
    }

    pub(crate) fn offer(&mut self, kind: u8) {
        let heard = &mut self.heard;
        let board = Some(Board::good(kind));
        self.machine
            .upstream_signal(&mut self.state, board, &mut |one| heard.push(one));
    }

    pub(crate) fn call(&mut self, ready: bool) {
        let heard = &mut self.heard;
        self.machine
            .downstream_signal(&mut self.state, ready, &mut |one| heard.push(one));
    }

    /// Takes boards in, each when the one before is stored.
    pub(crate) fn fill(&mut self, boards: u32) {
        for _ in 0..boards {
            self.offer(sample::WREN);
            self.settle();
        }
    }

    /// Sends one board: closes and opens the signal of the machine downstream.
    pub(crate) fn send(&mut self) {
        self.call(true);
        self.settle();
        self.call(false);
    }

    pub(crate) fn stored(&self) -> Vec<u8> {
        self.slots(|one| match one {
            Outcome::BoardStored(slot) => Some(slot),
            _ => None,
        })
    }

    pub(crate) fn sent(&self) -> Vec<u8> {
        self.slots(|one| match one {
            Outcome::BoardSent(slot) => Some(slot),
            _ => None,
        })
    }

    pub(crate) fn slots(&self, which: impl Fn(Outcome) -> Option<u8>) -> Vec<u8> {
        self.heard.iter().copied().filter_map(which).collect()
    }

    pub(crate) fn harms(&self) -> Vec<(HarmKind, i32, i32)> {
        let harm = |one: &Outcome| match one {
            Outcome::Harmed(harm) => Some((harm.kind, harm.number, harm.limit)),
            _ => None,
        };
        self.heard.iter().filter_map(harm).collect()
    }

    pub(crate) fn has(&self, slot: u8, half: Half) -> bool {
        self.state.rack.get(HalfSlot { slot, half }).is_some()
    }
}
