//! The real machine in production, so small and so quick that its moves take next to no time.
//!
//! Its axes are as fast as a machine file may say, its boards a tenth of a millimetre long. What is
//! left of a hand-over is some tens of microseconds, and 50 ms for which each signal stays open.

use rackproof_buffer::{
    Axes, Axis, Beam, BeamSort, Behaviours, Board, BoardKind, Button, FirstZero, Handling, Machine,
    MachineParts, Mistrust, Outcome, Product, ProductStoring, ReadyRule, ServiceParts, State,
    Storing,
};
use rackproof_model::{
    Micrometres, Micros,
    quantity::{MicrometresPerSecond, Microstrain, MillimetresPerSecondSquared, Percent},
};

/// Longest span that is given to the machine at once, in µs: it counts in 32 bits.
const SPAN_MOST: u64 = 4_000_000_000;

/// One metre a second, two g.
const FAST: Axis = Axis {
    speed: MicrometresPerSecond(1_000_000),
    acceleration: MillimetresPerSecondSquared(20_000),
    braking: MillimetresPerSecondSquared(20_000),
};

/// A beam that sees every board. Only its light counts in production.
const BEAM: Beam = Beam {
    sort: BeamSort::Through,
    origin: [Micrometres(100), Micrometres(50_000), Micrometres(5_000)],
    aim: [Micrometres(100), Micrometres(50_000), Micrometres(0)],
    range: Micrometres(10_000),
    reflectance: Percent(0),
};

/// The machine with so many slots.
fn machine(slots: u8) -> Machine {
    let wren = BoardKind {
        length: Micrometres(100),
        width: Micrometres(160_000),
        thickness: Micrometres(1_000),
        above: Micrometres(0),
        below: Micrometres(0),
        reflectance: Percent(45),
        cutout: None,
        strain_limit: Microstrain(1_000),
        strain_break: Microstrain(15_000),
    };
    Machine::new(MachineParts {
        slots,
        pitch: Micrometres(1_100),
        rack_length: Micrometres(300),
        gap: Micrometres(10),
        infeed_length: Micrometres(150),
        outfeed_length: Micrometres(250),
        rest_clearance: Micrometres(10),
        ledge: Micrometres(3_000),
        width_least: Micrometres(50_000),
        width_most: Micrometres(300_000),
        side_play: Micrometres(800),
        reference_below: Micrometres(1_100),
        end_beam_before: Micrometres(20),
        mouth_bent_after: Micrometres(500),
        mouth_sheared_after: Micrometres(3_000),
        axes: Axes {
            lift: FAST,
            rails: FAST,
            belts: FAST,
        },
        mouth_beams: [BEAM; 2],
        end_beam_reflectance: Percent(18),
        signal_open: Micros::from_millis(50),
        declare_hold: Micros::from_seconds(2),
        behaviours: Behaviours {
            machine_ready: ReadyRule::Room,
            rails_zero: FirstZero::Closing,
            sweep_seen: Mistrust::FromThereUp,
            rails_asked: true,
            runs_after_changeover: false,
            whole_cycle_if_same: true,
        },
        storing: Storing::PLAIN,
        handling: Handling::default(),
        service: ServiceParts::PLAIN,
        kinds: vec![wren],
        products: vec![Product {
            kind: 0,
            width: Micrometres(160_000),
            length: Micrometres(100),
            storing: ProductStoring::PLAIN,
        }],
    })
}

/// The machine, its clock, and what its neighbours saw of it in the last step.
pub(crate) struct Fast {
    machine: Machine,
    state: State,
    /// What comes next by itself, once it was asked for.
    next: Option<Option<Micros>>,
    /// In µs since the beginning.
    pub(crate) clock: u64,
    /// Events of the machine itself, and signals of its neighbours.
    pub(crate) events: u64,
    /// A board came in from the machine upstream in the last step.
    pub(crate) entered: bool,
    /// A board left for the machine downstream in the last step.
    pub(crate) sent: bool,
}

impl Fast {
    /// The machine with so many slots, running and empty.
    pub(crate) fn running(slots: u8) -> Fast {
        let machine = machine(slots);
        let mut state = machine.at_rest(0);
        for button in [Button::Reset, Button::Start] {
            machine.press(&mut state, button, &mut |_| {});
        }
        Fast {
            machine,
            state,
            next: None,
            clock: 0,
            events: 0,
            entered: false,
            sent: false,
        }
    }

    /// Lets time pass to the machine's next event, at most until `until`.
    pub(crate) fn step(&mut self, until: u64) {
        let left = (until - self.clock).min(SPAN_MOST) as u32;
        let own = self.next_event();
        let span = own.map_or(left, |own| own.0.min(left));
        self.events += u64::from(own.is_some_and(|own| own.0 == span));
        (self.entered, self.sent) = (false, false);
        let mut hear = |outcome: Outcome| match outcome {
            Outcome::BoardEntered => self.entered = true,
            Outcome::BoardSent(_) => self.sent = true,
            _ => {}
        };
        self.machine
            .advance(&mut self.state, Micros(span), &mut hear);
        self.next = None;
        self.clock += u64::from(span);
    }

    fn next_event(&mut self) -> Option<Micros> {
        *self
            .next
            .get_or_insert_with(|| self.machine.next_event(&self.state))
    }

    /// Whether nothing happens by itself any more.
    pub(crate) fn is_still(&mut self) -> bool {
        self.next_event().is_none()
    }

    /// The machine upstream offers a board, or takes the offer back.
    pub(crate) fn offer(&mut self, offered: bool) {
        self.events += 1;
        self.next = None;
        let board = offered.then_some(Board::good(0));
        self.machine
            .upstream_signal(&mut self.state, board, &mut |_| {});
    }

    /// The machine downstream closes or opens its Machine Ready.
    pub(crate) fn call(&mut self, ready: bool) {
        self.events += 1;
        self.next = None;
        self.machine
            .downstream_signal(&mut self.state, ready, &mut |_| {});
    }
}

/// What a neighbour that only waits and looks can tell.
impl Fast {
    /// Lets time pass until `until`. Whether a board came in, and whether one left.
    pub(crate) fn wait(&mut self, until: u64) -> [bool; 2] {
        let mut seen = [false; 2];
        while self.clock < until {
            self.step(until);
            seen = [seen[0] | self.entered, seen[1] | self.sent];
        }
        seen
    }

    /// Our Machine Ready and our Board Available.
    pub(crate) fn signals(&self) -> [bool; 2] {
        [self.state.machine_ready(), self.state.board_available()]
    }

    /// How many boards lie in the rack.
    pub(crate) fn level(&self) -> u32 {
        self.state.rack.present().len()
    }
}
