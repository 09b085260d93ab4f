//! The world of one drill and one variant.

use rackproof_buffer::{self as buffer, Board, HarmKind, Machine};
use rackproof_model::Micrometres;

use crate::faults::{FaultClock, FaultPlan};
use crate::neighbours::{NextDoor, neighbouring};
use crate::{Drill, Pace, Person, Plugs, Stand, Variant, sight::Sight, sight::SightTable};

/// What stands around the machine: places, reach, sight, pace.
#[derive(Clone, Debug)]
pub struct Hall {
    /// The machine's name.
    pub name: String,
    /// Names of the kinds of board.
    pub kind_names: Vec<String>,
    /// Names of the products.
    pub product_names: Vec<String>,
    /// Where the panel can be reached from.
    pub panel_reach: Vec<Stand>,
    /// Where an emergency stop can be reached.
    pub emergency_stops: Vec<Stand>,
    /// Slots below this one are reached from under the lift.
    pub reached_from_under: u8,
    /// Eyes, light and what stands in the way.
    pub sight: Sight,
    /// How long doings take.
    pub pace: Pace,
    /// The plugs to the neighbours.
    pub plugs: Plugs,
    /// What the site calls things: ids of messages with its own texts.
    pub site_words: Vec<(String, String)>,
}

/// The constants of one drill in one variant.
#[derive(Clone, Debug)]
pub struct World {
    machine: Machine,
    hall: Hall,
    drill: Drill,
    variant: usize,
    sight: SightTable,
    plan: FaultPlan,
    /// Width between the rails as the drill begins.
    start_width: Micrometres,
}

/// All that changes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct State {
    /// The machine.
    pub machine: buffer::State,
    /// The person.
    pub person: Person,
    /// The board that upstream has left over.
    pub(crate) leftover: Option<Board>,
    /// Upstream said that it holds.
    pub(crate) upstream_held: bool,
    /// Downstream said that it holds.
    pub(crate) downstream_held: bool,
    /// Harms that happened, bit n for the n-th of [`buffer::HarmKind::ALL`].
    pub(crate) harms: u16,
    /// What the neighbours are about.
    pub(crate) next_door: NextDoor,
    /// What has come of the drill's faults.
    pub(crate) faults: FaultClock,
    /// All of the finish held when the job was reported done.
    pub(crate) finish_held: bool,
}

impl State {
    /// Harms that happened, bit n for the n-th of [`buffer::HarmKind::ALL`].
    pub fn harms(&self) -> u16 {
        self.harms
    }

    /// The same state with this harm done, and nothing else changed: to ask what it counts for.
    #[must_use]
    pub fn harmed(&self, kind: HarmKind) -> State {
        State {
            harms: self.harms | 1 << kind as u16,
            ..*self
        }
    }

    /// Whether upstream said that it holds.
    pub fn upstream_held(&self) -> bool {
        self.upstream_held
    }
}

impl World {
    /// The world of one variant of a drill. `variant` must be one of its variants (a bug of the
    /// caller otherwise: it stops with an assertion).
    pub fn new(machine: Machine, hall: Hall, drill: Drill, variant: usize) -> World {
        assert!(
            variant < drill.variants.len(),
            "a drill has no such variant"
        );
        let mut drill = drill;
        if let Some(line) = drill.variants[variant].line {
            drill.neighbours = line;
        }
        let listed = || {
            drill.variants[variant]
                .faults
                .iter()
                .map(|&at| &drill.faults[at])
        };
        let machine = machine.with_faults(listed().map(|fault| fault.what).collect());
        let start_width = width_at_start(&machine, &drill);
        let machine = match neighbouring(&drill, start_width) {
            Some(neighbouring) => machine.with_neighbours(neighbouring),
            None => machine,
        };
        let mut hall = hall;
        for kind in hall.kind_names.len()..machine.kinds().len() {
            // An odd board has the name of its kind.
            let base = machine.base_kind(kind as u8);
            hall.kind_names.push(hall.kind_names[base as usize].clone());
        }
        let sight = SightTable::new(&machine, &hall.sight);
        let plan = FaultPlan::of(listed());
        World {
            machine,
            hall,
            drill,
            variant,
            sight,
            plan,
            start_width,
        }
    }

    /// The machine.
    pub fn machine(&self) -> &Machine {
        &self.machine
    }

    /// What stands around it.
    pub fn hall(&self) -> &Hall {
        &self.hall
    }

    /// The drill.
    pub fn drill(&self) -> &Drill {
        &self.drill
    }

    /// The variant.
    pub fn variant(&self) -> &Variant {
        &self.drill.variants[self.variant]
    }

    pub(crate) fn start_width(&self) -> Micrometres {
        self.start_width
    }

    pub(crate) fn plan(&self) -> &FaultPlan {
        &self.plan
    }

    pub(crate) fn sight(&self) -> &SightTable {
        &self.sight
    }

    /// The state in which an attempt begins.
    pub fn start(&self) -> State {
        let mut machine = self.machine.at_rest(self.drill.start.product);
        let quiet = &mut |_| {};
        self.machine
            .begin_with(&mut machine, &self.drill.start.settings);
        self.machine.press(
            &mut machine,
            buffer::Button::Mode(self.drill.start.mode),
            quiet,
        );
        self.machine
            .downstream_signal(&mut machine, self.drill.neighbours.downstream_ready, quiet);
        for &(at, board) in &self.variant().boards {
            self.machine.put_in_rack(&mut machine, at, board, quiet);
        }
        for &(at, board) in &self.variant().stored {
            self.machine.begin_stored(&mut machine, at, board, quiet);
        }
        if let Some(board) = self.variant().infeed_belt {
            self.machine.lay_on_infeed_belt(&mut machine, board, quiet);
        }
        if let Some(left) = &self.drill.start.left {
            self.machine
                .leave_half_cleared(&mut machine, &left.said, left.asked);
        }
        let mut start = State {
            machine,
            next_door: NextDoor::default(),
            faults: FaultClock::default(),
            person: Person::default(),
            leftover: self.drill.neighbours.leftover.map(Board::good),
            upstream_held: false,
            downstream_held: false,
            harms: 0,
            finish_held: false,
        };
        self.begin_faults(&mut start);
        self.begin_neighbours(&mut start);
        start
    }
}

fn width_at_start(machine: &Machine, drill: &Drill) -> Micrometres {
    let mut state = machine.at_rest(drill.start.product);
    machine.begin_with(&mut state, &drill.start.settings);
    state.width(machine)
}
