//! All that changes in the machine. Plain data: no heap, no log, no absolute time.

use rackproof_model::{Micrometres, Micros};

use crate::{
    Alarms, Board, Faults, HalfSlot, KINDS_MOST, Machine, Mode, Motion, Phase, Question, Rack,
    SLOTS_MOST, Service, Side, Task, UnitState, beyond::Beyond, runners::Runners, storing::Stored,
};

/// Where the lift is at rest, as a class: exact places are lost with the reference anyway.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum LiftPlace {
    /// At its reference, below slot 1.
    Reference,
    /// Between the reference and slot 1.
    BelowFirst,
    /// With this slot (from 0) at belt height.
    At(u8),
    /// Between this slot and the next.
    Above(u8),
}

/// What the controller believes about the slots. One bit a slot.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct SlotMap {
    /// Believed to hold a board.
    pub full: u64,
    /// Not known.
    pub unknown: u64,
    /// Said by a person to be empty.
    pub said_empty: u64,
    /// Said by a person to have been taken out.
    pub said_taken: u64,
}

impl SlotMap {
    /// Whether every slot is believed empty.
    pub fn is_empty(&self) -> bool {
        self.full | self.unknown == 0
    }
}

/// The state of the machine.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct State {
    // Truth.
    /// Boards in the slots.
    pub rack: Rack,
    /// The board on the infeed belt.
    pub infeed_belt: Option<Board>,
    /// The boards across the mouths, infeed first.
    pub mouths: [Option<Board>; 2],
    /// The boards on the outfeed belt: the one at its end, and one short of it.
    pub outfeed_belt: [Option<Board>; 2],
    /// Where the lift is, or was when it began to move.
    pub lift_place: LiftPlace,
    /// Where the lift was when this motion began, in µm above its reference.
    pub(crate) lift_from: Micrometres,
    pub(crate) lift: Motion,
    /// Width between the rails when their motion began, or now if they rest, in µm.
    pub(crate) width_from: Micrometres,
    pub(crate) rails: Motion,
    pub(crate) belts: Motion,
    pub(crate) runners: Runners,
    /// Isolator on.
    pub(crate) powered: bool,
    /// Emergency stop latched.
    pub(crate) emergency: bool,
    /// Hatch open.
    pub(crate) hatch_open: bool,
    /// Prop under the lift.
    pub(crate) propped: bool,
    /// Setter's key turned.
    pub(crate) key_turned: bool,
    /// What is wrong.
    pub(crate) faults: Faults,
    // Belief.
    /// The slot map.
    pub map: SlotMap,
    pub(crate) order: [u8; SLOTS_MOST],
    pub(crate) order_len: u8,
    pub(crate) stored: Stored,
    /// Time for which a board is still waited for.
    pub(crate) arrival_left: Micros,
    pub(crate) unit: UnitState,
    pub(crate) mode: Mode,
    pub(crate) task: Task,
    pub(crate) phase: Phase,
    /// The slot that the phase is about.
    pub(crate) slot: u8,
    pub(crate) referenced: bool,
    pub(crate) width_known: bool,
    pub(crate) chosen: u8,
    pub(crate) loaded: u8,
    /// Board width as it was loaded. Saving does not change it.
    pub(crate) loaded_width: Micrometres,
    pub(crate) edited: Option<Micrometres>,
    pub(crate) widths: [Micrometres; KINDS_MOST],
    /// Time for which the declare button is still to be held; nought when it is not held.
    pub(crate) hold_left: Micros,
    /// What became of the alarms.
    pub(crate) alarms: Alarms,
    /// Settings, and what was left behind.
    pub service: Service,
    // Signals.
    pub(crate) machine_ready: bool,
    pub(crate) board_available: bool,
    /// The board that the machine upstream offers while its Board Available is closed.
    pub(crate) upstream_board: Option<Board>,
    pub(crate) downstream_ready: bool,
    /// The neighbour's signal was open since the last hand-over.
    pub(crate) upstream_fresh: bool,
    pub(crate) downstream_fresh: bool,
    pub(crate) ready_open_left: Micros,
    pub(crate) available_open_left: Micros,
    /// Whether the neighbours do what their signals say.
    pub(crate) beyond: Beyond,
}

impl Machine {
    /// The machine switched on, at rest in Stopped and mode Production, referenced, with its
    /// rack believed and truly empty, and product `loaded` loaded.
    pub fn at_rest(&self, loaded: u8) -> State {
        let mut widths = [Micrometres(0); KINDS_MOST];
        for (width, product) in widths.iter_mut().zip(&self.parts.products) {
            *width = product.width;
        }
        State {
            rack: Rack::default(),
            infeed_belt: None,
            mouths: [None; 2],
            outfeed_belt: [None; 2],
            lift_place: LiftPlace::At(0),
            lift_from: self.parts.reference_below,
            lift: Motion::default(),
            width_from: self.rails_for(widths[loaded as usize]),
            rails: Motion::default(),
            belts: Motion::default(),
            runners: Runners::default(),
            powered: true,
            emergency: false,
            hatch_open: false,
            propped: false,
            key_turned: false,
            faults: Faults::default(),
            map: SlotMap::default(),
            order: [0; SLOTS_MOST],
            order_len: 0,
            stored: Stored::default(),
            arrival_left: Micros(0),
            unit: UnitState::Stopped,
            mode: Mode::Production,
            task: Task::None,
            phase: Phase::Rest,
            slot: 0,
            referenced: true,
            width_known: true,
            chosen: loaded,
            loaded,
            loaded_width: widths[loaded as usize],
            edited: None,
            widths,
            hold_left: Micros(0),
            alarms: Alarms::default(),
            service: Service::new(self),
            machine_ready: false,
            board_available: false,
            upstream_board: None,
            downstream_ready: false,
            upstream_fresh: true,
            downstream_fresh: true,
            ready_open_left: Micros(0),
            available_open_left: Micros(0),
            beyond: Beyond::default(),
        }
    }
}

impl State {
    /// The unit state.
    pub fn unit(&self) -> UnitState {
        self.unit
    }

    /// The mode.
    pub fn mode(&self) -> Mode {
        self.mode
    }

    /// The chosen task.
    pub fn task(&self) -> Task {
        self.task
    }

    /// What the controller is about.
    pub fn phase(&self) -> Phase {
        self.phase
    }

    /// Whether the isolator is on.
    pub fn powered(&self) -> bool {
        self.powered
    }

    /// Whether the emergency stop is latched.
    pub fn emergency(&self) -> bool {
        self.emergency
    }

    /// Whether the hatch is open.
    pub fn hatch_open(&self) -> bool {
        self.hatch_open
    }

    /// Whether the prop is under the lift.
    pub fn propped(&self) -> bool {
        self.propped
    }

    /// Whether the setter's key is turned.
    pub fn key_turned(&self) -> bool {
        self.key_turned
    }

    /// Whether the lift knows its reference.
    pub fn referenced(&self) -> bool {
        self.referenced
    }

    /// Whether the controller knows the rails' width.
    pub fn width_known(&self) -> bool {
        self.width_known
    }

    /// The number of the product chosen on the panel.
    pub fn chosen(&self) -> u8 {
        self.chosen
    }

    /// The number of the loaded product.
    pub fn loaded(&self) -> u8 {
        self.loaded
    }

    /// The width that was typed and not yet saved, in µm.
    pub fn edited(&self) -> Option<Micrometres> {
        self.edited
    }

    /// The stored board width of a product, in µm.
    pub fn stored_width(&self, product: u8) -> Micrometres {
        self.widths[product as usize]
    }

    /// The board width that was loaded, in µm: what was stored under that number at that moment.
    pub fn loaded_width(&self) -> Micrometres {
        self.loaded_width
    }

    /// Time for which the declare button is still to be held.
    pub fn hold_left(&self) -> Micros {
        self.hold_left
    }

    /// What became of the alarms.
    pub fn alarms(&self) -> &Alarms {
        &self.alarms
    }

    /// Whether Machine Ready is closed.
    pub fn machine_ready(&self) -> bool {
        self.machine_ready
    }

    /// Whether Board Available is closed.
    pub fn board_available(&self) -> bool {
        self.board_available
    }

    /// Whether our own signal at a side is closed: Machine Ready at the infeed, Board Available at
    /// the outfeed.
    pub fn own_signal(&self, side: Side) -> bool {
        match side {
            Side::Infeed => self.machine_ready,
            Side::Outfeed => self.board_available,
        }
    }

    /// Whether the neighbour's signal at a side is closed.
    pub fn neighbour_signal(&self, side: Side) -> bool {
        match side {
            Side::Infeed => self.upstream_board.is_some() || self.beyond.claims,
            Side::Outfeed => self.downstream_ready,
        }
    }

    /// The board that upstream has ready to give, its signal closed.
    pub fn upstream_board(&self) -> Option<Board> {
        self.upstream_board
    }

    /// What the panel asks now.
    pub fn question(&self) -> Option<Question> {
        if !self.powered || self.unit != UnitState::Held {
            return None;
        }
        match self.phase {
            Phase::AskSeen => Some(Question::Seen(self.slot)),
            Phase::AskRails => Some(Question::Rails),
            Phase::AskTake => Some(Question::Take(self.slot)),
            Phase::AskAnswer => Some(Question::Answer(self.slot)),
            Phase::AskArrival => Some(Question::Arrival(self.slot)),
            Phase::AskHalf => Some(Question::AnswerHalf(HalfSlot {
                slot: self.slot,
                half: self.service.asked,
            })),
            Phase::AskConfirmation => Some(Question::Confirmation),
            _ => None,
        }
    }

    /// Whether two states differ in what mostly tells them apart: a few fields, so that it is soon
    /// said. `false` says nothing.
    pub fn differs_at_a_glance(&self, other: &State) -> bool {
        let glance = |s: &State| {
            let of_unit = [s.unit as u8, s.mode as u8, s.task as u8, s.phase as u8];
            (of_unit, s.powered, s.emergency, s.hatch_open, s.lift_place)
        };
        glance(self) != glance(other)
    }

    /// Whether any axis moves.
    pub fn moves(&self) -> bool {
        !(self.lift.is_rest() && self.rails.is_rest() && self.belts.is_rest())
    }

    /// The motions of lift, rails and belts.
    pub fn motions(&self) -> [Motion; 3] {
        [self.lift, self.rails, self.belts]
    }

    /// The slot at belt height while the lift rests at one.
    pub fn slot_at_belts(&self) -> Option<u8> {
        match self.lift_place {
            LiftPlace::At(slot) if self.lift.is_rest() => Some(slot),
            _ => None,
        }
    }

    /// Takes a board out of the rack. Nobody else may.
    pub fn take_from_rack(&mut self, at: HalfSlot) -> Option<Board> {
        self.rack.take(at)
    }
}
