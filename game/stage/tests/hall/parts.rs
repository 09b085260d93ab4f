//! Parts are where they are seen, can be touched, and follow the core's state.

use crate::scenes::{after, at_slots, empty, leaning, presses, world};
use bevy::math::Vec3;
use rackproof_buffer::{Board, Button, Condition, Half, HalfSlot, Mode, bow_at_shortening};
use rackproof_drill::{Cause, Intent, Stand, State, World};
use rackproof_model::{Micrometres, Micros, Model};
use rackproof_stage::frame::{Area, Frame};
use rackproof_stage::hall::{Gaze, Hall, Part, Scene, Shows, Turn, View};

const AREA: Area = Area {
    x: 0,
    y: 0,
    width: 824,
    height: 556,
};

fn scene<'s>(world: &'s World, state: &'s State, view: View) -> Scene<'s> {
    Scene {
        world,
        state,
        gaze: view.into(),
        shows: Shows::Seen,
    }
}

/// What is met by the ray through the middle of a part, if that is in the picture.
fn through_middle(hall: &Hall, scene: &Scene, part: Part) -> Option<Option<Part>> {
    let shot = hall.shot(scene.gaze, scene.state);
    let place = hall.place_of(scene, part)?;
    let point = shot.project(AREA, place)?;
    let inside = point.cmpge(bevy::math::Vec2::ZERO).all()
        && point.x < AREA.width as f32
        && point.y < AREA.height as f32;
    inside.then(|| {
        let (origin, direction) = shot.ray(AREA, point);
        hall.touch(scene, origin, direction)
    })
}

#[test]
fn each_part_can_be_touched_from_some_view() {
    let world = world();
    let hall = Hall::new(&world);
    let state = world.start();
    for part in Part::ALL {
        let met: Vec<(View, Option<Part>)> = View::ALL
            .into_iter()
            .filter_map(|view| {
                Some((
                    view,
                    through_middle(&hall, &scene(&world, &state, view), part)?,
                ))
            })
            .collect();
        // The hatch stands before the rack until it is opened.
        let wanted = if part == Part::Rack {
            Part::Hatch
        } else {
            part
        };
        assert!(
            met.iter().any(|(_, met)| *met == Some(wanted)),
            "{part:?}: {met:?}"
        );
    }
    let open = leaning(&world, state);
    let through = through_middle(
        &hall,
        &scene(&world, &open, View::Stand(Stand::Hatch)),
        Part::Rack,
    );
    assert_eq!(through, Some(Some(Part::Rack)));
}

#[test]
fn each_slot_can_be_touched_when_leaning_in() {
    let world = world();
    let hall = Hall::new(&world);
    let state = leaning(&world, at_slots(&world, 0)[3]);
    for half in Half::BOTH {
        let scene = scene(&world, &state, View::Lean(half));
        for slot in 0..world.machine().slots() {
            let part = Part::Slot(HalfSlot { slot, half });
            assert!(hall.parts(&scene).contains(&part));
            let found = touched_over(&hall, &scene, part);
            assert!(found, "{part:?}");
        }
    }
    assert!(
        !hall
            .parts(&scene(&world, &state, View::Overview))
            .iter()
            .any(is_slot)
    );
}

fn is_slot(part: &Part) -> bool {
    matches!(part, Part::Slot(_))
}

/// Whether some pixel of the picture touches a part.
fn touched_over(hall: &Hall, scene: &Scene, part: Part) -> bool {
    let shot = hall.shot(scene.gaze, scene.state);
    (0..AREA.height).step_by(3).any(|y| {
        (0..AREA.width).step_by(24).any(|x| {
            let (origin, direction) = shot.ray(AREA, bevy::math::Vec2::new(x as f32, y as f32));
            hall.touch(scene, origin, direction) == Some(part)
        })
    })
}

#[test]
fn a_board_that_is_seen_is_touched_where_it_is_seen() {
    let world = world();
    let hall = Hall::new(&world);
    let mut state = leaning(&world, at_slots(&world, 0)[3]);
    let at = HalfSlot {
        slot: 4,
        half: Half::Infeed,
    };
    state.machine.rack.set(at, Board::good(0));
    let scene = scene(&world, &state, View::Lean(Half::Infeed));
    let met = through_middle(&hall, &scene, Part::Slot(at));
    assert_eq!(met, Some(Some(Part::Slot(at))));
    // The same pixel without the board is the opening of a slot above.
    let shot = hall.shot(scene.gaze, scene.state);
    let place = hall.place_of(&scene, Part::Slot(at)).expect("it is there");
    let (origin, direction) = shot.ray(AREA, shot.project(AREA, place).expect("in the picture"));
    let mut gone = state;
    gone.machine.take_from_rack(at);
    let gone = Scene {
        state: &gone,
        ..scene
    };
    let met = hall.touch(&gone, origin, direction);
    let above = met.filter(is_slot).is_some_and(|met| met > Part::Slot(at));
    assert!(above, "{met:?}");
}

fn frame(hall: &Hall, world: &World, state: &State) -> Frame {
    hall.frame(&scene(world, state, View::Stand(Stand::Hatch)), AREA)
}

/// By how much the pieces of one frame stand elsewhere in another of as many pieces.
fn moves(from: &Frame, to: &Frame) -> Vec<Vec3> {
    assert_eq!(from.pieces.len(), to.pieces.len());
    let pairs = from.pieces.iter().zip(&to.pieces);
    let moves = pairs.map(|(from, to)| Vec3::from(to.place.translation - from.place.translation));
    moves.filter(|way| way.length() > 0.0).collect()
}

#[test]
fn equal_states_have_equal_frames() {
    let world = world();
    let hall = Hall::new(&world);
    let state = world.start();
    let mut other = state;
    assert_eq!(frame(&hall, &world, &state), frame(&hall, &world, &other));
    other.person.lock_on = true;
    assert_ne!(frame(&hall, &world, &state), frame(&hall, &world, &other));
}

#[test]
fn the_rack_stands_where_the_core_has_the_lift() {
    let world = world();
    let hall = Hall::new(&world);
    let at_slots = at_slots(&world, 0);
    let frames = [0, 5].map(|slot| frame(&hall, &world, &at_slots[slot]));
    let moved = moves(&frames[0], &frames[1]);
    let pitch = world.machine().parts().pitch.0 as f32 * 1e-6;
    assert!(
        moved.len() >= 3,
        "rack, its moving side and the carriage: {moved:?}"
    );
    for way in moved {
        assert!(
            (way - Vec3::new(0.0, 0.0, -5.0 * pitch)).length() < 1e-5,
            "{way}"
        );
    }
}

#[test]
fn lift_and_rails_are_drawn_on_their_way() {
    let world = world();
    let hall = Hall::new(&world);
    let buttons = [
        Button::Mode(Mode::Changeover),
        Button::Reset,
        Button::Choose(1),
        Button::Load,
        Button::Start,
    ];
    let mut state = after(&world, empty(&world), &presses(&buttons));
    let before = (
        frame(&hall, &world, &state),
        state.machine.width(world.machine()),
    );
    world.act(
        &mut state,
        Cause::Did(Intent::Press(Button::Start)),
        &mut |_| {},
    );
    world.advance(&mut state, Micros(500_000), &mut |_| {});
    let width = state.machine.width(world.machine());
    let way = (width - before.1).0 as f32 * 1e-6;
    assert!(way < -0.005, "the rails are on their way to zero: {way}");
    let moved = moves(&before.0, &frame(&hall, &world, &state));
    assert_eq!(
        moved.len(),
        3,
        "the rack's moving side and both belts': {moved:?}"
    );
    for moved in moved {
        assert!(
            (moved - Vec3::new(0.0, way, 0.0)).length() < 1e-5,
            "{moved}"
        );
    }
}

/// The debrief's picture with one board in the rack.
fn debrief(hall: &Hall, world: &World, state: &State, board: Board) -> Frame {
    let mut state = *state;
    let half = Half::Outfeed;
    state.machine.rack.set(HalfSlot { slot: 6, half }, board);
    let gaze = View::CloseBy.into();
    let shows = Shows::All;
    let scene = Scene {
        world,
        state: &state,
        gaze,
        shows,
    };
    hall.frame(&scene, AREA)
}

#[test]
fn damage_shows_and_overstrain_does_not() {
    let world = world();
    let hall = Hall::new(&world);
    let state = empty(&world);
    let of = |condition| debrief(&hall, &world, &state, Board { kind: 0, condition });
    let good = of(Condition::Good);
    for condition in Condition::ALL {
        assert_eq!(of(condition) == good, !condition.shows(), "{condition:?}");
    }
}

/// The rails on their way to zero, stopped where a board is pressed by 0.4 mm.
#[test]
fn a_pressed_board_is_drawn_with_its_true_rise() {
    let world = world();
    let machine = world.machine();
    let hall = Hall::new(&world);
    let buttons = [
        Button::Mode(Mode::Changeover),
        Button::Reset,
        Button::Choose(1),
        Button::Load,
        Button::Start,
    ];
    let mut state = after(&world, empty(&world), &presses(&buttons));
    let press = Cause::Did(Intent::Press(Button::Start));
    world.act(&mut state, press, &mut |_| {});
    let kind = &machine.kinds()[0];
    let width = kind.width - Micrometres(400);
    let span = machine
        .time_to_width(&state.machine, width)
        .expect("the rails close");
    world.advance(&mut state, span, &mut |_| {});
    let short = kind.width - state.machine.width(machine);
    assert!((400..=410).contains(&short.0), "{short:?}");
    let bow = bow_at_shortening(kind.width, kind.thickness, short).expect("it stays in its slot");
    let frame = debrief(&hall, &world, &state, Board::good(0));
    let bowed: Vec<f32> = frame
        .pieces
        .iter()
        .map(|piece| piece.bow.across.rise)
        .collect();
    let risen: Vec<&f32> = bowed.iter().filter(|&&rise| rise > 0.0).collect();
    assert_eq!(risen.len(), 1, "one board");
    assert!((risen[0] - bow.rise.0 as f32 * 1e-6).abs() < 1e-6 && *risen[0] > 0.004);
}

#[test]
fn on_the_way_between_views_no_board_is_drawn() {
    let world = world();
    let hall = Hall::new(&world);
    let mut state = leaning(&world, at_slots(&world, 0)[3]);
    let still = |state: &State| {
        let scene = scene(&world, state, View::Lean(Half::Infeed));
        hall.frame(&scene, AREA).pieces.len()
    };
    let without = still(&state);
    state.machine.rack.set(
        HalfSlot {
            slot: 4,
            half: Half::Infeed,
        },
        Board::good(0),
    );
    assert_eq!(still(&state), without + 1);
    let from = Some((View::Stand(Stand::Hatch), Turn::default(), 0.9));
    let gaze = Gaze {
        from,
        ..View::Lean(Half::Infeed).into()
    };
    let moving = Scene {
        gaze,
        ..scene(&world, &state, View::Lean(Half::Infeed))
    };
    let dark = usize::from(world.machine().slots());
    assert_eq!(hall.frame(&moving, AREA).pieces.len(), without + dark);
}
