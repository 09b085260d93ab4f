//! What the panel shows: belief, never truth.

use rackproof_buffer::{
    Alarms, Button, Colour, KINDS_MOST, Level, Mode, Phase, Question, Service, Side, SlotMap, Task,
    UnitState,
};
use rackproof_model::Micrometres;

use crate::{State, World};

/// The panel as it can be read now.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PanelView {
    /// The unit state.
    pub unit: UnitState,
    /// The mode.
    pub mode: Mode,
    /// The task.
    pub task: Task,
    /// The open question.
    pub question: Option<Question>,
    /// The slot map as believed.
    pub map: SlotMap,
    /// Whether the reference is known.
    pub referenced: bool,
    /// The commanded width of the loaded product, in µm.
    pub width_commanded: Micrometres,
    /// The width by step count, in µm, if it is known.
    pub width_by_count: Option<Micrometres>,
    /// The chosen product.
    pub chosen: u8,
    /// The loaded product.
    pub loaded: u8,
    /// The board width that was loaded, in µm.
    pub loaded_width: Micrometres,
    /// Whether the loaded product was saved otherwise since.
    pub stored_otherwise: bool,
    /// The slot that the lift stands at by step count, from 0.
    pub lift_slot: Option<u8>,
    /// Whether something moves.
    pub moves: bool,
    /// The alarms: states, order, which came first.
    pub alarms: Alarms,
    /// Settings, who saved what, and which slots the shift before answered for.
    pub service: Service,
    /// The width that was typed and not saved, in µm.
    pub edited: Option<Micrometres>,
    /// The stored board width of each product, in µm.
    pub widths: [Micrometres; KINDS_MOST],
    /// At which level the panel is used.
    pub level: Level,
    /// Colours of Start, Stop and Reset now.
    pub colours: [Colour; 3],
    /// What the width sensor measures while the rails rest, in µm, where there is one.
    pub measured: Option<Micrometres>,
    /// Whether a changeover waits for the width sensor.
    pub awaits_width: bool,
    /// Our Machine Ready, our Board Available.
    pub signals: [bool; 2],
    /// Upstream's Board Available, downstream's Machine Ready.
    pub neighbours: [bool; 2],
    /// Whether the emergency stop is latched.
    pub emergency: bool,
    /// Whether the hatch is open.
    pub hatch_open: bool,
}

impl World {
    /// The panel, or `None` while it is dark.
    pub fn panel(&self, s: &State) -> Option<PanelView> {
        let machine = &s.machine;
        machine.powered().then(|| PanelView {
            unit: machine.unit(),
            mode: machine.mode(),
            task: machine.task(),
            question: machine.question(),
            map: machine.map,
            referenced: machine.referenced(),
            width_commanded: self.machine().wanted_width(machine),
            width_by_count: machine.width_by_count(self.machine()),
            chosen: machine.chosen(),
            loaded: machine.loaded(),
            loaded_width: machine.loaded_width(),
            stored_otherwise: self.machine().stored_otherwise(machine),
            lift_slot: machine.slot_at_belts().filter(|_| machine.referenced()),
            moves: machine.moves(),
            alarms: *machine.alarms(),
            service: machine.service,
            edited: machine.edited(),
            widths: std::array::from_fn(|product| machine.stored_width(product as u8)),
            level: if machine.key_turned() {
                Level::Setter
            } else {
                Level::Operator
            },
            colours: [Button::Start, Button::Stop, Button::Reset]
                .map(|button| self.machine().button_colour(machine, button)),
            measured: (self.machine().parts().service.width_sensor
                && machine.motions()[1].is_rest())
            .then(|| machine.width(self.machine())),
            awaits_width: machine.phase() == Phase::AwaitWidth,
            signals: [machine.machine_ready(), machine.board_available()],
            neighbours: [
                self.machine().signal_read(machine, Side::Infeed),
                self.machine().signal_read(machine, Side::Outfeed),
            ],
            emergency: machine.emergency(),
            hatch_open: machine.hatch_open(),
        })
    }
}
