//! Seen empty is seen empty: a half counts as seen empty just when the picture shows a patch round
//! each of its four sample points.
//!
//! Two tolerances. A patch is a square of 4 mm; if more than some and less than most of it shows,
//! the edge of a board's shadow runs through it, and it is not compared. The core leaves out the
//! ledges of the other slots, which hide stripes of some millimetres: somebody who looks moves
//! their head by three centimetres at most, and so does this test.

use std::collections::BTreeMap;

use crate::scenes::{Painter, at_slots, eye_lowered, leaning, marks, world};
use bevy::math::Vec3;
use rackproof_buffer::{Board, Half, HalfSlot};
use rackproof_drill::{State, World};
use rackproof_stage::frame::{Area, Shot};
use rackproof_stage::hall::{Filter, Hall, POINTS, Patches, Scene, Shows, View, patch_mark};

/// Height of the belts, in metres.
const BELTS: f32 = 0.95;
/// Half of a patch's side, in metres.
const HALF: f32 = 0.002;
/// The head moves up and down by so much, in metres.
const HEAD: [f32; 7] = [0.0, 0.01, -0.01, 0.02, -0.02, 0.03, -0.03];
/// A patch of which less than this share shows is hidden, and one of which more shows is seen.
const SHARES: [f32; 2] = [0.2, 0.5];
/// Patches through which the edge of a shadow runs are at most so many in a hundred.
const EDGES_MOST: u32 = 2;

#[derive(Default)]
struct Counts {
    empty: u32,
    hidden: u32,
    edges: u32,
    wrong: Vec<String>,
}

/// Corners of a patch in the hall.
fn corners(rack: Vec3, at: HalfSlot, point: u32, pitch: f32, across: [f32; 2]) -> [Vec3; 4] {
    let along = 0.0625 * (1 + 2 * (point % 2)) as f32 + 0.25 * at.half as u8 as f32;
    let middle = Vec3::new(
        along,
        across[(point / 2) as usize],
        f32::from(at.slot) * pitch,
    );
    [[-HALF, -HALF], [HALF, -HALF], [HALF, HALF], [-HALF, HALF]]
        .map(|[x, y]| rack + middle + Vec3::new(x, y, 0.0))
}

/// How many pixels a square has in the picture.
fn pixels_of(shot: &Shot, area: Area, corners: [Vec3; 4]) -> f32 {
    let points = corners.map(|corner| shot.project(area, corner).expect("before the eye"));
    let cross = |n: usize| points[n].perp_dot(points[(n + 1) % 4]);
    ((0..4).map(cross).sum::<f32>() / 2.0).abs()
}

struct Trial<'w> {
    core: &'w World,
    world: &'w World,
    hall: Hall,
    painter: Painter,
    counts: Counts,
}

impl Trial<'_> {
    /// For each patch the greatest share of it that shows as the head moves.
    fn shares(&mut self, scene: &Scene) -> BTreeMap<u32, f32> {
        let across = self
            .world
            .hall()
            .sight
            .across
            .map(|place| place.0 as f32 * 1e-6);
        let patches = Patches {
            half: [HALF; 2],
            across,
        };
        let area = self.painter.area();
        let machine = self.world.machine();
        let pitch = machine.parts().pitch.0 as f32 * 1e-6;
        let lift = machine.lift_height(&scene.state.machine);
        let below = (machine.parts().reference_below - lift).0 as f32 * 1e-6;
        let rack = Vec3::Z * (BELTS + below);
        let halves = (0..machine.slots())
            .flat_map(|slot| Half::BOTH.map(|half| HalfSlot { slot, half }))
            .flat_map(|at| (0..POINTS).map(move |point| (at, point)));
        let mut shares = BTreeMap::new();
        for lifted in HEAD {
            let mut frame = self
                .hall
                .count_frame(scene, area, Filter::Off, Some(patches));
            frame.shot.eye.z += lifted;
            let shot = frame.shot;
            let pixels = marks(&self.painter.paint(frame));
            for (at, point) in halves.clone() {
                let mark = patch_mark(at, point);
                let whole = pixels_of(&shot, area, corners(rack, at, point, pitch, across));
                let share = pixels.get(&mark).copied().unwrap_or(0) as f32 / whole;
                let most: &mut f32 = shares.entry(mark).or_default();
                *most = most.max(share);
            }
        }
        shares
    }

    fn compare(&mut self, state: &State, aim: Half) {
        let view = View::Lean(aim);
        let scene = Scene {
            world: self.world,
            state,
            gaze: view.into(),
            shows: Shows::Seen,
        };
        let (_, look) = view.aim().expect("a look");
        let (empty, _) = self.core.seen(state, look).expect("a torch");
        assert_eq!(empty.of(aim.other()), 0, "the other half is dark");
        let shares = self.shares(&scene);
        let of = |at: HalfSlot| [0, 1, 2, 3].map(|point| shares[&patch_mark(at, point)]);
        for at in (0..self.world.machine().slots()).map(|slot| HalfSlot { slot, half: aim }) {
            let dark = of(HalfSlot {
                half: aim.other(),
                ..at
            });
            assert!(
                dark.iter().all(|&share| share < SHARES[0]),
                "{aim:?} {at:?}: {dark:?}"
            );
            if state.machine.rack.get(at).is_none() {
                self.counts.add(aim, at, empty.contains(at), of(at));
            }
        }
    }
}

impl Counts {
    fn add(&mut self, aim: Half, at: HalfSlot, is_empty: bool, shares: [f32; 4]) {
        let least = shares.into_iter().fold(1.0, f32::min);
        if (SHARES[0]..SHARES[1]).contains(&least) {
            self.edges += 1;
            return;
        }
        if is_empty {
            self.empty += 1;
        } else {
            self.hidden += 1;
        }
        if (least >= SHARES[1]) != is_empty {
            self.wrong
                .push(format!("{aim:?} {at:?}: seen empty {is_empty}, {shares:?}"));
        }
    }
}

/// Racks with one board in the aimed half, and with several.
fn trial<'w>(core: &'w World, world: &'w World) -> Counts {
    let hall = Hall::new(world);
    let painter = Painter::new(&hall, 1236, 834);
    let mut trial = Trial {
        core,
        world,
        hall,
        painter,
        counts: Counts::default(),
    };
    let bases = at_slots(world, 0);
    for aim in Half::BOTH {
        for number in 0..14u8 {
            let base = &bases[usize::from(number) % bases.len()];
            let mut state = leaning(world, *base);
            // Wren, heron and raven fit between these rails.
            let kind = [0, 1, 3][usize::from(number % 3)];
            let slots = match number {
                0 => vec![],
                1..=7 => vec![number * 2 + 1],
                _ => vec![number - 6, number - 1, number + 2],
            };
            for slot in slots {
                state
                    .machine
                    .rack
                    .set(HalfSlot { slot, half: aim }, Board::good(kind));
            }
            trial.compare(&state, aim);
        }
    }
    trial.counts
}

#[test]
fn a_half_is_seen_empty_just_when_the_picture_shows_its_points() {
    let world = world();
    let counts = trial(&world, &world);
    let Counts {
        empty,
        hidden,
        edges,
        ref wrong,
    } = counts;
    println!("seen empty {empty}, hidden {hidden}, edges {edges}");
    assert!(
        wrong.is_empty(),
        "{} differ:\n{}",
        wrong.len(),
        wrong.join("\n")
    );
    assert!(
        empty >= 250 && hidden >= 30,
        "{empty} seen empty, {hidden} hidden"
    );
    assert!(
        edges * 100 <= EDGES_MOST * (empty + hidden),
        "{edges} on an edge"
    );
}

#[test]
fn a_lowered_eye_is_found() {
    let world = world();
    let lowered = eye_lowered(200, 0);
    let counts = trial(&lowered, &world);
    assert!(counts.wrong.len() > 10, "{}", counts.wrong.len());
}
