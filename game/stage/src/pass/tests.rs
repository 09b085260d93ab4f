//! What comes out on the picture. They need a driver and say which package has one.

mod kept;

use super::{eye, plugin};
use crate::frame::{Arch, Area, Bow, Frame, Light, Piece, ShapeId, Shot, Torch};
use crate::kit::{Kit, Stage};
use crate::shape::{Paint, Shape};
use crate::still::{Picture, Still};
use crate::tokens::Colour;
use bevy::app::App;
use bevy::camera::RenderTarget;
use bevy::math::{Affine3A, UVec2, Vec3};
use bevy::render::render_resource::TextureFormat;
use std::sync::Arc;

const DRIVER: &str = "no driver that draws: install the Debian package mesa-vulkan-drivers";
const WHITE: Paint = Paint::matt(Colour([230, 230, 230]));
const SIZE: UVec2 = UVec2::new(100, 80);
/// The hall within the picture. It shows 4 m by 3 m at the distance of y = 0: 20 px a metre.
const AREA: Area = Area {
    x: 7,
    y: 5,
    width: 80,
    height: 60,
};
const SQUARE: ShapeId = ShapeId(0);
const BLOCK: ShapeId = ShapeId(1);
const UPRIGHT: ShapeId = ShapeId(2);
const PANE: ShapeId = ShapeId(3);
const UPRIGHT_ALONG: ShapeId = ShapeId(4);

/// A square of 1 m that looks to the eye; a block of 1 m with ink; a plate upright along y,
/// and one along x.
fn shapes() -> Vec<Shape> {
    let half = Vec3::splat(0.5);
    let corners = |y: f32| {
        [[-0.5, -0.5], [0.5, -0.5], [0.5, 0.5], [-0.5, 0.5]].map(|[x, z]| Vec3::new(x, y, z))
    };
    let plate = |along: Vec3| Shape::new().sheet(Vec3::ZERO, along, Vec3::Z * 0.5, [16, 1], WHITE);
    vec![
        Shape::new().quad(corners(0.0), WHITE),
        Shape::new().block(-half, half, WHITE),
        plate(Vec3::Y),
        Shape::new().glass(corners(-0.7), Colour([0, 0, 0]), 0.9),
        plate(Vec3::X),
    ]
}

fn build(app: &mut App, target: RenderTarget) {
    let kit = Kit::bake(shapes(), &[]);
    app.add_plugins(plugin)
        .insert_resource(Stage(Arc::new(kit)));
    app.world_mut().spawn((eye(), target));
}

fn booth() -> Still {
    Still::new(SIZE, build).expect(DRIVER)
}

fn shot() -> Shot {
    let (eye, aim) = (Vec3::new(0.0, -3.0, 1.0), Vec3::Z);
    Shot {
        eye,
        aim,
        fov_y: 2.0 * 0.5_f32.atan(),
    }
}

fn at(shape: ShapeId, place: Vec3, mark: u32) -> Piece {
    Piece {
        mark,
        ..Piece::new(shape, Affine3A::from_translation(place))
    }
}

fn frame(pieces: Vec<Piece>) -> Frame {
    Frame {
        pieces,
        shot: shot(),
        light: Light::DAY,
        area: AREA,
        flat: false,
    }
}

fn flat(pieces: Vec<Piece>) -> Frame {
    Frame {
        flat: true,
        ..frame(pieces)
    }
}

fn draw(still: &mut Still, frame: Frame) -> Picture {
    still.app().insert_resource(frame);
    still.draw().expect("a picture")
}

fn count(picture: &Picture, mark: u32) -> usize {
    let all = (0..picture.size.y).flat_map(|y| (0..picture.size.x).map(move |x| (x, y)));
    all.filter(|&(x, y)| in_area(x, y) && picture.mark(x, y) == mark)
        .count()
}

fn in_area(x: u32, y: u32) -> bool {
    (AREA.x..AREA.x + AREA.width).contains(&x) && (AREA.y..AREA.y + AREA.height).contains(&y)
}

fn grey(picture: &Picture, x: u32, y: u32) -> u32 {
    picture.pixel(x, y).map(u32::from).iter().sum()
}

#[test]
fn a_known_square_has_the_pixels_worked_out_by_hand() {
    let mut still = booth();
    let picture = draw(&mut still, flat(vec![at(SQUARE, Vec3::Z, 4321)]));
    assert_eq!(count(&picture, 4321), 20 * 20);
    assert_eq!(count(&picture, 0), 80 * 60 - 20 * 20);
    // Its corners: the area's middle is at (47, 35).
    for (x, y, mark) in [
        (37, 25, 4321),
        (56, 44, 4321),
        (36, 25, 0),
        (57, 44, 0),
        (56, 45, 0),
    ] {
        assert_eq!(picture.mark(x, y), mark, "{x} {y}");
    }
    // Half a metre to the right and twice as far away: 10 px high, 5 px aside.
    let picture = draw(
        &mut still,
        flat(vec![at(SQUARE, Vec3::new(0.5, 3.0, 1.0), 7)]),
    );
    assert_eq!(count(&picture, 7), 10 * 10);
    assert_eq!(
        [
            picture.mark(47, 35),
            picture.mark(56, 39),
            picture.mark(57, 39)
        ],
        [7, 7, 0]
    );
}

#[test]
fn nearer_hides_farther_in_any_order() {
    let mut still = booth();
    let near = at(SQUARE, Vec3::new(0.0, -1.5, 1.0), 1);
    let far = at(SQUARE, Vec3::new(0.5, 0.0, 1.0), 2);
    for pieces in [vec![near, far], vec![far, near]] {
        let picture = draw(&mut still, flat(pieces));
        // The near one is 40 px wide; of the far one 0 to 1 m, 20 px, half of its breadth stays.
        assert_eq!([count(&picture, 1), count(&picture, 2)], [40 * 40, 0]);
    }
    let far = at(SQUARE, Vec3::new(1.0, 0.0, 1.0), 2);
    let picture = draw(&mut still, flat(vec![far, near]));
    assert_eq!([count(&picture, 1), count(&picture, 2)], [40 * 40, 10 * 20]);
}

#[test]
fn every_mark_comes_back() {
    let mut still = booth();
    for mark in [1, 31, 32, 1023, 1024, 12345, 32767] {
        let picture = draw(&mut still, flat(vec![at(SQUARE, Vec3::Z, mark)]));
        assert_eq!(count(&picture, mark), 400, "{mark}");
    }
}

#[test]
fn the_same_frame_gives_the_same_bytes() {
    let mut still = booth();
    let one = frame(vec![at(BLOCK, Vec3::Z, 0)]);
    let other = frame(vec![at(BLOCK, Vec3::new(0.3, 0.2, 1.0), 0)]);
    let first = draw(&mut still, one.clone());
    let unchanged = draw(&mut still, one.clone());
    let between = draw(&mut still, other);
    let again = draw(&mut still, one);
    assert_eq!(first, unchanged);
    assert_ne!(first, between);
    assert_eq!(first, again);
}

#[test]
fn ink_darkens_edges_and_glass_what_is_behind_it() {
    let mut still = booth();
    let picture = draw(&mut still, frame(vec![at(BLOCK, Vec3::Z, 0)]));
    // The front of the block is at y = -0.5: 24 px wide and high.
    let (inside, edge) = (grey(&picture, 47, 35), grey(&picture, 35, 35));
    assert!(inside > 500 && edge < inside / 2, "{inside} {edge}");
    let picture = draw(
        &mut still,
        frame(vec![at(BLOCK, Vec3::Z, 0), at(PANE, Vec3::Z, 0)]),
    );
    let behind = grey(&picture, 47, 35);
    assert!(behind < inside / 2, "{inside} {behind}");
}

#[test]
fn the_torch_brightens_what_it_is_aimed_at() {
    let mut still = booth();
    let torch = Torch {
        from: shot().eye,
        towards: Vec3::new(-0.3, 0.0, 1.0),
        half_angle: 0.06,
    };
    let mut lit = frame(vec![at(SQUARE, Vec3::Z, 0)]);
    let day = draw(&mut still, lit.clone());
    lit.light = Light::by_torch(torch);
    let by_torch = draw(&mut still, lit.clone());
    lit.light.torch = None;
    let dim = draw(&mut still, lit);
    let greys = |x: u32| [&day, &dim, &by_torch].map(|picture| grey(picture, x, 35));
    // 0.3 m left of the middle is 6 px left of it; as far to the right the torch does not reach.
    let [day, dim, aimed] = greys(41);
    assert!(
        dim * 5 < day * 4 && aimed * 10 > dim * 11,
        "{day} {dim} {aimed}"
    );
    let [_, dim, aside] = greys(53);
    assert_eq!(dim, aside);
}

/// Upper ends of the picture of an upright plate with this bow, at its ends and in its middle.
fn tops(still: &mut Still, shape: ShapeId, bow: Bow) -> [u32; 3] {
    let is_along = shape == UPRIGHT_ALONG;
    let [eye, aim] = if is_along {
        [[0.5, -3.0, 1.0], [0.5, 0.0, 1.0]]
    } else {
        [[-3.0, 0.5, 1.0], [0.0, 0.5, 1.0]]
    };
    let shot = Shot {
        eye: Vec3::from_array(eye),
        aim: Vec3::from_array(aim),
        ..shot()
    };
    let piece = Piece {
        bow,
        ..at(shape, Vec3::Z, 5)
    };
    let picture = draw(
        still,
        Frame {
            shot,
            ..flat(vec![piece])
        },
    );
    // The plate is 20 px long.
    [38, 47, 56].map(|x| {
        let top = (0..SIZE.y).find(|&y| in_area(x, y) && picture.mark(x, y) == 5);
        top.expect("the plate")
    })
}

#[test]
fn a_bow_lifts_the_middle_by_its_rise() {
    let mut still = booth();
    let arch = Arch {
        rise: 0.25,
        span: 1.0,
    };
    let across = Bow {
        across: arch,
        ..Bow::NONE
    };
    let along = Bow {
        along: arch,
        ..Bow::NONE
    };
    let flat = [25; 3];
    for (shape, bow, other) in [(UPRIGHT, across, along), (UPRIGHT_ALONG, along, across)] {
        assert_eq!(tops(&mut still, shape, Bow::NONE), flat);
        // Where the other arch begins it lifts nothing.
        assert_eq!(tops(&mut still, shape, other), flat);
        let [left, middle, right] = tops(&mut still, shape, bow);
        assert_eq!(middle, 20, "0.25 m are 5 px");
        assert!(left > 22 && right > 22, "{left} {right}");
    }
}

#[test]
fn with_nothing_to_draw_it_draws_nothing() {
    let mut still = booth();
    let empty = still.draw().expect("a picture");
    let whole = flat(vec![at(SQUARE, Vec3::Z, 9)]);
    assert_ne!(draw(&mut still, whole.clone()), empty);
    for area in [
        Area::default(),
        Area { x: 500, ..AREA },
        Area { width: 0, ..AREA },
    ] {
        let picture = draw(
            &mut still,
            Frame {
                area,
                ..whole.clone()
            },
        );
        assert_eq!(picture, empty, "{area:?}");
    }
    draw(&mut still, whole.clone());
    still.app().world_mut().remove_resource::<Frame>();
    assert_eq!(still.draw().expect("a picture"), empty);
    still.app().world_mut().remove_resource::<Stage>();
    assert_eq!(draw(&mut still, whole), empty);
}

#[test]
fn the_area_may_change_and_reach_over_the_rim() {
    let mut still = booth();
    let square = flat(vec![at(SQUARE, Vec3::Z, 9)]);
    let moved = Area {
        x: 60,
        y: 40,
        ..AREA
    };
    let picture = draw(
        &mut still,
        Frame {
            area: moved,
            ..square.clone()
        },
    );
    // Its middle would be (100, 70): the square's left half is in the picture.
    let marks = [(90, 60), (99, 79), (89, 60), (90, 59)].map(|(x, y)| picture.mark(x, y));
    assert_eq!(marks, [9, 9, 0, 0]);
    let small = Area {
        width: 40,
        height: 30,
        ..AREA
    };
    let picture = draw(
        &mut still,
        Frame {
            area: small,
            ..square.clone()
        },
    );
    assert_eq!(count(&picture, 9), 10 * 10);
    assert_eq!(count(&draw(&mut still, square), 9), 20 * 20);
}

#[test]
fn the_target_may_have_another_format() {
    let mut still = Still::in_format(SIZE, TextureFormat::Bgra8UnormSrgb, build).expect(DRIVER);
    let picture = draw(&mut still, flat(vec![at(SQUARE, Vec3::Z, 1)]));
    assert_eq!(count(&picture, 1 << 10), 400, "red and blue are swapped");
}
