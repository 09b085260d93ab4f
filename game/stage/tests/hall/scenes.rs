//! The shipped machine and drill, states of them, and flat pictures of the hall.
use std::collections::BTreeMap;

use bevy::app::App;
use bevy::camera::RenderTarget;
use bevy::math::UVec2;
use rackproof_buffer::{Answer, Button, HalfSlot, Machine, Mode, Question};
use rackproof_drill::{Cause, Hall as Around, Intent, Stand, State, World, file};
use rackproof_files::Problems;
use rackproof_model::{Micrometres, Model};
use rackproof_stage::frame::{Area, Frame};
use rackproof_stage::hall::Hall;
use rackproof_stage::kit::Stage;
use rackproof_stage::pass;
use rackproof_stage::still::{Picture, Still};

const MACHINE: &str = include_str!("../../../../assets/machines/alder-16.ron");
const SECOND: &str = include_str!("../../../../assets/machines/rowan-40.ron");
const DRILL: &str = include_str!("../../../../scenarios/changeover/left-inside.ron");
const SECOND_DRILL: &str = include_str!("../../../../scenarios/changeover/left-inside-rowan.ron");

/// The shipped machine and what stands around it.
pub(crate) fn machine() -> (Machine, Around) {
    read("alder-16.ron", MACHINE)
}

/// The second machine.
pub(crate) fn second_machine() -> (Machine, Around) {
    read("rowan-40.ron", SECOND)
}

fn read(name: &str, text: &str) -> (Machine, Around) {
    let problems = Problems::new();
    let read = file::read_machine(problems.for_file(name, text));
    read.expect("the shipped machine has no problem")
}

/// The drill on the second machine, its first variant.
pub(crate) fn second_world() -> World {
    world_in(&read("rowan-40.ron", SECOND), SECOND_DRILL)
}

/// The first drill's first variant on this machine.
pub(crate) fn world_of(machine: &(Machine, Around)) -> World {
    world_in(machine, DRILL)
}

pub(crate) fn world_in(machine: &(Machine, Around), drill: &str) -> World {
    let problems = Problems::new();
    let file = problems.for_file("drill.ron", drill);
    let drill = file::read_drill(file, |_| Ok(machine)).expect("the shipped drill has no problem");
    World::new(machine.0.clone(), machine.1.clone(), drill, 0)
}

/// The first drill's first variant.
pub(crate) fn world() -> World {
    world_of(&machine())
}

/// The same world, its eyes at the hatch lowered and those at the mouths raised by millimetres:
/// wrong on purpose.
pub(crate) fn eye_lowered(at_hatch: i32, at_mouths: i32) -> World {
    let mut machine = machine();
    let sight = &mut machine.1.sight;
    let lowered = |eyes: &mut [[Micrometres; 3]; 2], by: i32| {
        for eye in eyes {
            eye[2] -= Micrometres::from_millimetres(by);
        }
    };
    lowered(&mut sight.hatch_eyes, at_hatch);
    lowered(&mut sight.mouth_eyes, at_mouths);
    world_of(&machine)
}

/// An empty rack with each slot that the product uses at the belts in turn, from slot 1: a
/// clear-out that asks. The rails stand at the width of the product.
pub(crate) fn at_slots(world: &World, product: u8) -> Vec<State> {
    let idle = [Button::Stop, Button::Mode(Mode::Changeover), Button::Reset];
    let mut state = after(world, empty(world), &presses(&idle));
    if state.machine.loaded() != product {
        let load = [
            Button::Choose(product),
            Button::Load,
            Button::Start,
            Button::Start,
        ];
        state = after(world, state, &presses(&load));
        state = after(world, state, &presses(&idle));
    }
    state = after(world, state, &presses(&[Button::ClearOut, Button::Start]));
    let mut found: Vec<State> = Vec::new();
    // It asks once for a slot, or once for each of its places.
    while let Some(Question::Answer(slot) | Question::AnswerHalf(HalfSlot { slot, .. })) =
        state.machine.question()
    {
        assert_eq!(state.machine.slot_at_belts(), Some(slot));
        let last = found.last().and_then(|state| state.machine.slot_at_belts());
        if last != Some(slot) {
            found.push(state);
        }
        state = after(world, state, &presses(&[Button::Answer(Answer::SeenEmpty)]));
    }
    let machine = world.machine();
    let used = (0..machine.slots()).filter(|&slot| machine.uses(product, slot));
    assert_eq!(found.len(), used.count(), "{:?}", state.machine.unit());
    found
}

/// Presses on the panel, one after the other.
pub(crate) fn presses(buttons: &[Button]) -> Vec<Intent> {
    buttons.iter().copied().map(Intent::Press).collect()
}

/// A state with an empty rack.
pub(crate) fn empty(world: &World) -> State {
    let mut state = world.start();
    for (at, _) in world.start().machine.rack.iter() {
        state.machine.take_from_rack(at);
    }
    state
}

/// Does intents one after the other, on offer or not, and lets the machine come to rest.
pub(crate) fn after(world: &World, state: State, intents: &[Intent]) -> State {
    let mut state = state;
    for &intent in intents {
        world.act(&mut state, Cause::Did(intent), &mut |_| {});
        while let Some(next) = world.next_event(&state) {
            world.advance(&mut state, next, &mut |_| {});
        }
    }
    state
}

/// Somebody at the open hatch with a lit torch, the axes without power.
pub(crate) fn leaning(world: &World, state: State) -> State {
    let intents = [
        Intent::Walk(Stand::Isolator),
        Intent::IsolatorOff,
        Intent::LockOn,
        Intent::Walk(Stand::Hatch),
        Intent::OpenHatch,
        Intent::Torch(true),
    ];
    after(world, state, &intents)
}

/// A painter of frames of one size without a window.
pub(crate) struct Painter {
    still: Still,
    size: UVec2,
}

impl Painter {
    /// One for this hall. A run of the gate has a driver.
    pub(crate) fn new(hall: &Hall, width: u32, height: u32) -> Painter {
        let size = UVec2::new(width, height);
        let kit = hall.kit();
        let build = |app: &mut App, target: RenderTarget| {
            pass::plugin(app);
            app.insert_resource(Stage(kit));
            app.world_mut().spawn((pass::eye(), target));
        };
        let still = Still::new(size, build).expect("a driver: mesa-vulkan-drivers is enough");
        Painter { still, size }
    }

    /// The whole picture.
    pub(crate) fn area(&self) -> Area {
        Area {
            x: 0,
            y: 0,
            width: self.size.x,
            height: self.size.y,
        }
    }

    /// A frame as a picture.
    pub(crate) fn paint(&mut self, frame: Frame) -> Picture {
        self.still.app().insert_resource(frame);
        self.still.draw().expect("the driver is still there")
    }
}

/// How many pixels each mark has in a flat picture.
pub(crate) fn marks(picture: &Picture) -> BTreeMap<u32, u32> {
    let mut counts = BTreeMap::new();
    for pixel in picture.bytes.chunks_exact(4) {
        let five = |byte: u8| u32::from(byte.saturating_add(2)) / 8;
        let mark = five(pixel[0]) << 10 | five(pixel[1]) << 5 | five(pixel[2]);
        *counts.entry(mark).or_insert(0) += 1;
    }
    counts
}
