//! The real machine in production, its moves next to nought, or nought.
//!
//! Next to nought: its axes are as fast as a machine file may say, its boards a tenth of a
//! millimetre long. What is left of a hand-over is some tens of microseconds, and 50 ms for which
//! each signal stays open. With moves of nought only the latter is left: the controller goes
//! through the same phases and says the same, all at one instant.

use rackproof_buffer::{
    Axes, Axis, Beam, BeamSort, Behaviours, Board, BoardKind, Button, FirstZero, Handling, Machine,
    MachineParts, Mistrust, Order, Outcome, Product, ProductStoring, ReadyRule, ServiceParts,
    State, Storing,
};
use rackproof_model::{
    Micrometres, Micros,
    quantity::{MicrometresPerSecond, Microstrain, MillimetresPerSecondSquared, Percent},
};

/// Longest span that is given to the machine at once, in µs: it counts in 32 bits.
pub(crate) const SPAN_MOST: u64 = 4_000_000_000;

/// No time at which anything comes: longer than the longest span.
const NEVER: u32 = u32::MAX;

/// One metre a second, two g.
const FAST: Axis = Axis {
    speed: MicrometresPerSecond(1_000_000),
    acceleration: MillimetresPerSecondSquared(20_000),
    braking: MillimetresPerSecondSquared(20_000),
    jerk: None,
};

/// How long moves take.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Moves {
    /// Some tens of microseconds.
    NextToNought,
    /// No time.
    Nought,
}

/// A beam that sees every board. Only its light counts in production.
const BEAM: Beam = Beam {
    sort: BeamSort::Through,
    origin: [Micrometres(100), Micrometres(50_000), Micrometres(5_000)],
    aim: [Micrometres(100), Micrometres(50_000), Micrometres(0)],
    range: Micrometres(10_000),
    reflectance: Percent(0),
};

/// The machine with so many slots, from which boards leave in this order.
pub(crate) fn machine(slots: u8, moves: Moves, order: Order) -> Machine {
    let axis = match moves {
        Moves::NextToNought => FAST,
        Moves::Nought => Axis::AT_ONCE,
    };
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
            lift: axis,
            rails: axis,
            belts: axis,
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
        storing: Storing {
            order,
            ..Storing::PLAIN
        },
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

/// The machine running and empty.
pub(crate) fn started(machine: &Machine) -> State {
    let mut state = machine.at_rest(0);
    for button in [Button::Reset, Button::Start] {
        machine.press(&mut state, button, &mut |_| {});
    }
    state
}

/// The machine, its clock, and what its neighbours saw of it. Events are counted only where
/// somebody asks for their number: what is timed does not pay for that, as in the programs beside
/// it.
pub(crate) struct Fast<const COUNTED: bool> {
    machine: Machine,
    state: State,
    /// In µs since the beginning.
    pub(crate) clock: u64,
    /// Signals of the neighbours, and moments at which the machine did something by itself.
    instants: u64,
    moves: Moves,
    seen: Seen,
}

/// What the neighbours saw.
#[derive(Clone, Copy, Default)]
struct Seen {
    /// Since they last looked: [`ENTERED`], [`SENT`].
    news: u8,
    /// Moves that ended, and boards that were wholly in, since the beginning.
    ended: u32,
}

/// A board came in from the machine upstream.
const ENTERED: u8 = 1;
/// A board left for the machine downstream.
const SENT: u8 = 2;

impl Seen {
    /// The neighbours listen.
    #[inline(always)]
    fn hearing<const COUNTED: bool>(&mut self) -> impl FnMut(Outcome) {
        move |outcome| match outcome {
            Outcome::Stopped(_) => self.ended += u32::from(COUNTED),
            Outcome::BoardEntered => {
                self.news |= ENTERED;
                self.ended += u32::from(COUNTED);
            }
            Outcome::BoardSent(_) => self.news |= SENT,
            _ => {}
        }
    }
}

impl<const COUNTED: bool> Fast<COUNTED> {
    /// The machine with so many slots, running and empty.
    pub(crate) fn running(slots: u8, moves: Moves) -> Fast<COUNTED> {
        let machine = machine(slots, moves, Storing::PLAIN.order);
        Fast {
            state: started(&machine),
            machine,
            clock: 0,
            instants: 0,
            moves,
            seen: Seen::default(),
        }
    }

    /// Lets time pass to the machine's next event, at most until `until`.
    #[inline(always)]
    pub(crate) fn step(&mut self, until: u64) {
        let left = (until - self.clock).min(SPAN_MOST) as u32;
        if COUNTED {
            self.instants += u64::from(self.next_event() <= left);
        }
        let hear = &mut self.seen.hearing::<COUNTED>();
        let span = self
            .machine
            .advance_at_most(&mut self.state, Micros(left), hear);
        self.clock += u64::from(span.0);
    }

    /// When something comes next by itself, or [`NEVER`].
    #[inline(always)]
    fn next_event(&self) -> u32 {
        let next = self.machine.next_event(&self.state);
        next.map_or(NEVER, |next| next.0)
    }

    /// Whether nothing happens by itself any more.
    pub(crate) fn is_still(&self) -> bool {
        self.next_event() == NEVER
    }

    /// Whether the neighbours saw anything since they last looked.
    pub(crate) fn is_seen(&self) -> bool {
        self.seen.news != 0
    }

    /// Whether a board came in, and whether one left, since this was last asked.
    pub(crate) fn take_seen(&mut self) -> [bool; 2] {
        let news = std::mem::take(&mut self.seen.news);
        [ENTERED, SENT].map(|which| news & which != 0)
    }

    /// How many events there were: signals of the neighbours, timers of the machine that ran out,
    /// moves that ended, and boards that crossed into it. With moves that take time each of the
    /// machine's own has a moment of its own (but for two timers that run out at once, which count
    /// as one); with moves of nought many come at one moment, and count all the same.
    pub(crate) fn events(&self) -> u64 {
        match self.moves {
            Moves::NextToNought => self.instants,
            Moves::Nought => self.instants + u64::from(self.seen.ended),
        }
    }

    /// At how many moments there were any, each signal of a neighbour counted as one.
    pub(crate) fn instants(&self) -> u64 {
        self.instants
    }

    /// The machine upstream offers a board, or takes the offer back.
    pub(crate) fn offer(&mut self, offered: bool) {
        self.instants += u64::from(COUNTED);
        let board = offered.then_some(Board::good(0));
        self.machine
            .upstream_signal(&mut self.state, board, &mut self.seen.hearing::<COUNTED>());
    }

    /// The machine downstream closes or opens its Machine Ready.
    pub(crate) fn call(&mut self, ready: bool) {
        self.instants += u64::from(COUNTED);
        self.machine
            .downstream_signal(&mut self.state, ready, &mut self.seen.hearing::<COUNTED>());
    }
}

/// What a neighbour that only waits and looks can tell.
impl<const COUNTED: bool> Fast<COUNTED> {
    /// Lets time pass until `until`. Whether a board came in, and whether one left, since the
    /// neighbours last looked.
    #[inline(always)]
    pub(crate) fn wait(&mut self, until: u64) -> [bool; 2] {
        while self.clock < until {
            self.step(until);
        }
        self.take_seen()
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
