//! All shapes of one machine's hall, made once.

use bevy::math::Affine3A;
use rackproof_buffer::{BoardFault, Machine, Side};
use rackproof_drill::World;

use super::board::{self, Form};
use super::cabinet::{self, Cabinet};
use super::draft::Draft;
use super::figures::Figures;
use super::{belts, fittings, neighbours, rack, room};
use crate::frame::ShapeId;
use crate::kit::Kit;
use crate::shape::Shape;
use crate::tokens;

/// Numbers of the shapes of a neighbour, and of what may stand in its place.
#[derive(Clone, Copy, Debug)]
pub(crate) struct NeighbourModels {
    pub(crate) table: ShapeId,
    pub(crate) rail: ShapeId,
    pub(crate) hood: ShapeId,
    pub(crate) clear_hood: ShapeId,
    pub(crate) body: ShapeId,
    pub(crate) link: ShapeId,
    pub(crate) person: ShapeId,
    pub(crate) jumper: ShapeId,
    pub(crate) test_box: ShapeId,
    pub(crate) cap: ShapeId,
}

/// Numbers of the shapes.
#[derive(Clone, Debug)]
pub(crate) struct Models {
    pub(crate) still: ShapeId,
    pub(crate) hoods: [ShapeId; 2],
    pub(crate) clear_hoods: [ShapeId; 2],
    pub(crate) hatch_frame: ShapeId,
    pub(crate) tinted_pane: ShapeId,
    pub(crate) clear_pane: ShapeId,
    pub(crate) rack_fixed: ShapeId,
    pub(crate) rack_moving: ShapeId,
    pub(crate) carriage: ShapeId,
    pub(crate) darkness: ShapeId,
    pub(crate) rails: [ShapeId; 2],
    pub(crate) beams: ShapeId,
    pub(crate) panel: ShapeId,
    pub(crate) screen: ShapeId,
    pub(crate) screen_lines: ShapeId,
    pub(crate) stop_plate: ShapeId,
    pub(crate) stop_button: ShapeId,
    pub(crate) key: ShapeId,
    pub(crate) isolator_plate: ShapeId,
    pub(crate) isolator_handle: ShapeId,
    pub(crate) lock: ShapeId,
    pub(crate) prop: ShapeId,
    pub(crate) cord_hung: ShapeId,
    pub(crate) cord_worn: ShapeId,
    pub(crate) lamps: [ShapeId; 2],
    pub(crate) discs: [ShapeId; 5],
    pub(crate) my_disc: ShapeId,
    pub(crate) neighbours: [NeighbourModels; 2],
    /// Out and lit.
    pub(crate) signal_lamps: [ShapeId; 2],
    pub(crate) flicker: ShapeId,
    pub(crate) strip: ShapeId,
    /// By the number of the beam, as are films and lamps.
    pub(crate) sensors: [ShapeId; 3],
    pub(crate) films: [ShapeId; 3],
    pub(crate) beam_lamps: [ShapeId; 3],
    pub(crate) probe: ShapeId,
    /// Kind by form.
    pub(crate) boards: Vec<[ShapeId; 3]>,
}

/// Collects shapes and hands out their numbers.
#[derive(Default)]
struct Shelf(Vec<Shape>);

impl Shelf {
    fn put(&mut self, draft: Draft) -> ShapeId {
        let id = ShapeId(self.0.len() as u16);
        self.0.push(draft.finish());
        id
    }
}

/// The shapes of a world's hall and what they are drawn from.
pub(crate) fn make(world: &World, figures: &Figures) -> (Models, Kit) {
    let mut shelf = Shelf::default();
    let models = on_shelf(&mut shelf, world, figures);
    let still = [(models.still, Affine3A::IDENTITY)];
    let kit = Kit::bake(shelf.0, &still);
    (models, kit)
}

fn on_shelf(shelf: &mut Shelf, world: &World, figures: &Figures) -> Models {
    let column_y = Cabinet::of(figures).y[1] - 0.10;
    Models {
        still: shelf.put(still(figures)),
        hoods: [0, 1].map(|side| shelf.put(belts::hood(figures, side))),
        clear_hoods: [0, 1].map(|side| shelf.put(belts::clear_hood(figures, side))),
        hatch_frame: shelf.put(cabinet::hatch_frame(figures)),
        tinted_pane: shelf.put(cabinet::hatch_pane(figures, true)),
        clear_pane: shelf.put(cabinet::hatch_pane(figures, false)),
        rack_fixed: shelf.put(rack::fixed_side(figures)),
        rack_moving: shelf.put(rack::moving_side(figures)),
        carriage: shelf.put(rack::carriage(figures, column_y)),
        darkness: shelf.put(rack::darkness(figures)),
        rails: [0, 1].map(|side| shelf.put(belts::moving_rail(figures, side))),
        beams: shelf.put(belts::beams(figures)),
        panel: shelf.put(fittings::panel()),
        screen: shelf.put(fittings::screen()),
        screen_lines: shelf.put(fittings::screen_lines()),
        stop_plate: shelf.put(fittings::stop_plate()),
        stop_button: shelf.put(fittings::stop_button()),
        key: shelf.put(fittings::key()),
        isolator_plate: shelf.put(fittings::isolator_plate()),
        isolator_handle: shelf.put(fittings::isolator_handle()),
        lock: shelf.put(fittings::lock()),
        prop: shelf.put(fittings::prop()),
        cord_hung: shelf.put(fittings::cord_hung(figures)),
        cord_worn: shelf.put(fittings::cord_worn(figures)),
        lamps: [false, true].map(|lit| shelf.put(fittings::lamp(lit))),
        discs: [0, 1, 2, 3, 4].map(|number| shelf.put(room::disc(number))),
        my_disc: shelf.put(room::my_disc()),
        neighbours: [Side::Infeed, Side::Outfeed].map(|side| neighbour(shelf, figures, side)),
        signal_lamps: [false, true].map(|lit| shelf.put(neighbours::signal_lamp(lit))),
        flicker: shelf.put(neighbours::flicker()),
        strip: shelf.put(rack::strip(figures)),
        sensors: [0, 1, 2].map(|number| shelf.put(belts::sensor(number))),
        films: [0, 1, 2].map(|number| shelf.put(belts::film(number))),
        beam_lamps: [0, 1, 2].map(|number| shelf.put(belts::beam_lamp(number))),
        probe: shelf.put(probe()),
        boards: boards(shelf, world.machine(), &world.hall().kind_names),
    }
}

/// Everything that never moves, in one shape.
fn still(figures: &Figures) -> Draft {
    let mut draft = Draft::new();
    room::room(&mut draft);
    for side in 0..2 {
        belts::table(&mut draft, figures, side);
    }
    for side in [Side::Infeed, Side::Outfeed] {
        neighbours::signals(&mut draft, figures, side);
    }
    room::trays(&mut draft);
    cabinet::cabinet(&mut draft, figures);
    fittings::still(&mut draft, figures);
    draft
}

fn neighbour(shelf: &mut Shelf, figures: &Figures, side: Side) -> NeighbourModels {
    NeighbourModels {
        table: shelf.put(neighbours::table(figures, side)),
        rail: shelf.put(neighbours::rail(figures, side)),
        hood: shelf.put(neighbours::hood(figures, side)),
        clear_hood: shelf.put(neighbours::clear_hood(figures, side)),
        body: shelf.put(neighbours::body(figures, side)),
        link: shelf.put(neighbours::link(figures, side)),
        person: shelf.put(neighbours::person(figures)),
        jumper: shelf.put(neighbours::jumper(figures, side)),
        test_box: shelf.put(neighbours::test_box(figures, side)),
        cap: shelf.put(neighbours::cap(figures, side)),
    }
}

fn boards(shelf: &mut Shelf, machine: &Machine, names: &[String]) -> Vec<[ShapeId; 3]> {
    let kinds = machine.kinds().iter().enumerate();
    kinds
        .map(|(number, kind)| {
            // A board that is odd keeps the colour of its kind.
            let base = usize::from(machine.base_kind(number as u8));
            let colour = tokens::board(names.get(base).map_or("", String::as_str));
            let bowed = matches!(machine.odd(number as u8), Some(BoardFault::Bowed(_)));
            Form::ALL.map(|form| shelf.put(board::board(kind, colour, form, bowed)))
        })
        .collect()
}

/// A patch round a sample point, for the test that compares sight and picture: a square of 1 m.
fn probe() -> Draft {
    let mut draft = Draft::new();
    let corner = |x: f32, y: f32| [x, y, 0.0];
    draft.quad(
        [
            corner(-0.5, -0.5),
            corner(0.5, -0.5),
            corner(0.5, 0.5),
            corner(-0.5, 0.5),
        ],
        tokens::TORCHLIGHT,
    );
    draft
}
