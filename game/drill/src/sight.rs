//! What can be seen from where: geometry in whole numbers, as tables made when the machine is read.
//!
//! The frame is that of the rack: x along the flow from its infeed end, y from the fixed rail away
//! from the hatch, z up from slot 1. The hatch is in the long side, at y below nought. Whoever
//! leans in bends with the rack, so that eye points are given in its frame.
//!
//! A half-slot has sample points in the plane in which boards lie. A board is seen if one of the
//! points on it is seen; a half is *seen empty* only if all of its points are seen and none shows a
//! board.

use rackproof_buffer::{Half, HalfSlot, Halves, KINDS_MOST, Machine, Rack};
use rackproof_model::Micrometres;

/// Sample points along a half of a slot.
const ALONG: usize = 2;
/// Sample points across.
const ACROSS: usize = 2;
/// Sample points of a half.
const POINTS: usize = ALONG * ACROSS;

/// A point in the rack's frame, in µm.
pub type Point = [Micrometres; 3];

/// What the machine file says about eyes, light and what stands in the way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sight {
    /// Eye when leaning to the infeed side, and to the outfeed side; z counts from slot 1.
    pub hatch_eyes: [Point; 2],
    /// Eye at the infeed mouth and at the outfeed mouth; z counts from the slot at the belts.
    pub mouth_eyes: [Point; 2],
    /// How far across the sample points lie, from the fixed rail.
    pub across: [Micrometres; ACROSS],
    /// Half of the torch's width for each metre of distance, in µm.
    pub torch_spread: Micrometres,
    /// Posts of the hatch frame at `post_at`: from x to x.
    pub posts: Vec<(Micrometres, Micrometres)>,
    /// Where the posts stand, y. Below nought.
    pub post_at: Micrometres,
    /// How high the fixed rail stands above the plane of the boards.
    pub rail_height: Micrometres,
    /// How far behind the hatch's glass the light of the hall reaches, if the glass is clear.
    /// Through tinted glass nothing is seen.
    pub clear_glass: Option<Micrometres>,
}

impl Sight {
    /// Where a look through the hatch tests a half of a slot: along the flow from the rack's infeed
    /// end, and from the fixed rail, in µm.
    pub(crate) fn tested(&self, machine: &Machine, half: Half) -> [[Micrometres; 2]; 2] {
        let geometry = Geometry {
            machine,
            sight: self,
        };
        let points = geometry.points(half, 0);
        let along = std::array::from_fn(|number| Micrometres(points[number][0] as i32));
        [along, self.across]
    }

    /// Whether one of these places lies on a board of `kind` that rests in the half.
    pub(crate) fn tells_of(&self, machine: &Machine, kind: u8, half: Half) -> bool {
        let geometry = Geometry {
            machine,
            sight: self,
        };
        geometry.covers(kind, half).contains(&true)
    }
}

/// By what light somebody looks into the rack.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Light {
    /// The torch, turned to the aimed half.
    Torch,
    /// What there is, as far behind the glass as this.
    Hall(Micrometres),
}

/// A sample point as seen with one aim: whether anything fixed hides it, and which boards would.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
struct Ray {
    open: bool,
    /// For each kind of board: where one would hide the point.
    hidden_by: [Halves; KINDS_MOST],
}

/// One half-slot with one aim.
type Rays = [Ray; POINTS];

/// What one aim shows.
#[derive(Clone, Debug)]
struct View {
    /// Slot by half.
    rays: Vec<[Rays; 2]>,
    /// Half-slots of which nothing fixed hides a point.
    free: Halves,
    /// Slot by half by kind: half-slots of which a board there hides a point.
    hides: Vec<[[Halves; KINDS_MOST]; 2]>,
}

impl View {
    fn new(rays: Vec<[Rays; 2]>) -> View {
        let mut free = Halves::NONE;
        let mut hides = vec![[[Halves::NONE; KINDS_MOST]; 2]; rays.len()];
        for (slot, halves) in rays.iter().enumerate() {
            for (half, points) in Half::BOTH.into_iter().zip(halves) {
                let slot = slot as u8;
                let at = HalfSlot { slot, half };
                if points.iter().all(|ray| ray.open) {
                    free.insert(at);
                }
                for (kind, by) in points
                    .iter()
                    .flat_map(|ray| ray.hidden_by.iter().enumerate())
                {
                    for other in by.iter() {
                        hides[other.slot as usize][other.half as usize][kind].insert(at);
                    }
                }
            }
        }
        View { rays, free, hides }
    }
}

/// The tables of one machine.
#[derive(Clone, Debug)]
pub struct SightTable {
    /// Aim by aim.
    hatch: [View; 2],
    /// The same by the light of the hall, where the hatch has clear glass.
    glass: Option<[View; 2]>,
    /// Whether every point of a half of the slot at the belts is free, from either mouth.
    mouth: [[bool; 2]; 2],
    /// For each kind, half and point: whether a board there covers the point.
    covers: Vec<[[bool; POINTS]; 2]>,
}

impl SightTable {
    /// The tables of a machine.
    pub fn new(machine: &Machine, sight: &Sight) -> SightTable {
        let slots = machine.slots();
        let geometry = Geometry { machine, sight };
        let rays_by = |light: Light| {
            Half::BOTH.map(|aim| {
                let of_half = |slot, half| geometry.rays(aim, HalfSlot { slot, half }, light);
                let of_slot = |slot| Half::BOTH.map(|half| of_half(slot, half));
                View::new((0..slots).map(of_slot).collect())
            })
        };
        let hatch = rays_by(Light::Torch);
        let glass = sight.clear_glass.map(|reach| rays_by(Light::Hall(reach)));
        let mouth = sight
            .mouth_eyes
            .map(|eye| Half::BOTH.map(|half| geometry.free(eye, half)));
        let covers = (0..machine.kinds().len() as u8)
            .map(|kind| Half::BOTH.map(|half| geometry.covers(kind, half)))
            .collect();
        SightTable {
            hatch,
            glass,
            mouth,
            covers,
        }
    }

    /// A look through the open hatch with the torch lit, leaning to one side: half-slots seen
    /// empty, and half-slots in which a board is seen.
    pub fn through_hatch(&self, lean: Half, rack: &Rack) -> (Halves, Halves) {
        self.look(&self.hatch[lean as usize], rack)
    }

    /// The same without the torch, by what light there is. `None` where the glass is tinted.
    pub fn through_glass(&self, lean: Half, rack: &Rack) -> Option<(Halves, Halves)> {
        let glass = self.glass.as_ref()?;
        Some(self.look(&glass[lean as usize], rack))
    }

    /// A half is seen empty if nothing hides a point of it. So the boards alone are gone through,
    /// however many slots there are.
    fn look(&self, view: &View, rack: &Rack) -> (Halves, Halves) {
        let present = rack.by_kind();
        let (mut empty, mut boards) = (view.free.without(rack.present()), Halves::NONE);
        for (at, board) in rack.iter() {
            let (slot, half) = (at.slot as usize, at.half as usize);
            empty = empty.without(view.hides[slot][half][board.kind as usize]);
            let shown = |ray: &Ray| ray.open && !hidden(ray, &present);
            let rays = view.rays[slot][half].iter();
            let covers = &self.covers[board.kind as usize][half];
            if rays.zip(covers).any(|(ray, &on)| on && shown(ray)) {
                boards.insert(at);
            }
        }
        (empty, boards)
    }

    /// A look through a mouth (infeed: 0, outfeed: 1) at the slot at the belts, with the torch lit.
    pub fn through_mouth(&self, mouth: usize, slot: u8, rack: &Rack) -> (Halves, Halves) {
        let (mut empty, mut boards) = (Halves::NONE, Halves::NONE);
        for half in Half::BOTH {
            let at = HalfSlot { slot, half };
            if self.mouth[mouth][half as usize] {
                let set = if rack.get(at).is_some() {
                    &mut boards
                } else {
                    &mut empty
                };
                set.insert(at);
            }
        }
        (empty, boards)
    }
}

fn hidden(ray: &Ray, present: &[Halves; KINDS_MOST]) -> bool {
    ray.hidden_by
        .iter()
        .zip(present)
        .any(|(by, boards)| !by.intersection(*boards).is_empty())
}

struct Geometry<'g> {
    machine: &'g Machine,
    sight: &'g Sight,
}

impl Geometry<'_> {
    fn half_length(&self) -> i64 {
        i64::from(self.machine.parts().rack_length.0) / 2
    }

    /// Sample points of a half at height `z`: along by across.
    fn points(&self, half: Half, z: i64) -> [[i64; 3]; POINTS] {
        let (begin, length) = (self.half_length() * half as i64, self.half_length());
        std::array::from_fn(|number| {
            let along = 2 * (number % ALONG) as i64 + 1;
            let across = self.sight.across[number / ALONG];
            [
                begin + length * along / (2 * ALONG as i64),
                i64::from(across.0),
                z,
            ]
        })
    }

    fn slot_height(&self, slot: u8) -> i64 {
        i64::from(self.machine.parts().pitch.0) * i64::from(slot)
    }

    /// x from, x to and width of a board of `kind` at rest in a half.
    fn outline(&self, kind: u8, half: Half) -> (i64, i64, i64) {
        let lead = i64::from(self.machine.rest_leads()[half as usize].0);
        let board = &self.machine.kinds()[kind as usize];
        (
            lead - i64::from(board.length.0),
            lead,
            i64::from(board.width.0),
        )
    }

    fn on_board(&self, kind: u8, half: Half, x: i64, y: i64) -> bool {
        let (from, to, width) = self.outline(kind, half);
        let cutout = self.machine.kinds()[kind as usize].cutout;
        let in_window = cutout.is_some_and(|cutout| {
            (i64::from(cutout.along_from.0)..i64::from(cutout.along_to.0)).contains(&(x - from))
                && (i64::from(cutout.across_from.0)..i64::from(cutout.across_to.0)).contains(&y)
        });
        (from..to).contains(&x) && (0..width).contains(&y) && !in_window
    }

    fn covers(&self, kind: u8, half: Half) -> [bool; POINTS] {
        self.points(half, 0)
            .map(|[x, y, _]| self.on_board(kind, half, x, y))
    }

    fn rays(&self, aim: Half, at: HalfSlot, light: Light) -> Rays {
        let eye = self.sight.hatch_eyes[aim as usize].map(|place| i64::from(place.0));
        let centre = self.half_length() * (2 * aim as i64 + 1) / 2;
        let points = self.points(at.half, self.slot_height(at.slot));
        points.map(|point| {
            let lit = match light {
                Light::Torch => self.lit(eye, point, centre),
                Light::Hall(reach) => {
                    point[1] - i64::from(self.sight.post_at.0) <= i64::from(reach.0)
                }
            };
            self.ray(eye, point, at.slot, lit)
        })
    }

    /// From the eye through the hatch to a point of a slot.
    fn ray(&self, eye: [i64; 3], point: [i64; 3], slot: u8, lit: bool) -> Ray {
        let mut ray = Ray {
            open: lit,
            ..Ray::default()
        };
        let post_x = at_y(eye, point, i64::from(self.sight.post_at.0)).map(|place| place[0]);
        let behind_post = post_x.is_some_and(|x| {
            let within = |&(from, to): &(Micrometres, Micrometres)| {
                (i64::from(from.0)..=i64::from(to.0)).contains(&x)
            };
            self.sight.posts.iter().any(within)
        });
        // The fixed rail of this slot, at y = 0, from the boards' plane up.
        let rail = at_y(eye, point, 0).is_some_and(|place| {
            (0..i64::from(self.sight.rail_height.0)).contains(&(place[2] - point[2]))
        });
        ray.open &= !behind_post && !rail;
        for other in (0..self.machine.slots()).filter(|&other| other != slot) {
            let Some([x, y, _]) = at_z(eye, point, self.slot_height(other)) else {
                continue;
            };
            for half in Half::BOTH {
                for kind in 0..self.machine.kinds().len() as u8 {
                    if self.on_board(kind, half, x, y) {
                        ray.hidden_by[kind as usize].insert(HalfSlot { slot: other, half });
                    }
                }
            }
        }
        ray
    }

    /// Whether the torch, held at the eye and turned to the aimed half, lights the point.
    fn lit(&self, eye: [i64; 3], point: [i64; 3], centre: i64) -> bool {
        let square = |from: [i64; 3]| {
            (0..3)
                .map(|axis| (point[axis] - from[axis]).pow(2))
                .sum::<i64>()
        };
        let distance = square(eye).isqrt();
        (point[0] - centre).abs() * 1_000_000 <= distance * i64::from(self.sight.torch_spread.0)
    }

    /// Whether the whole half of the slot at the belts is free from an eye at a mouth: the line
    /// must pass under the slot above while it is inside the rack.
    fn free(&self, eye: Point, half: Half) -> bool {
        let eye = eye.map(|place| i64::from(place.0));
        let pitch = i64::from(self.machine.parts().pitch.0);
        let length = 2 * self.half_length();
        self.points(half, 0).into_iter().all(|point| {
            let entry = if eye[0] < 0 { 0 } else { length };
            let share = (entry - point[0]).abs();
            let whole = (eye[0] - point[0]).abs();
            whole > 0 && eye[2] * share / whole < pitch
        })
    }
}

/// Where the line from eye to point passes through the plane y = `y`, strictly between them.
fn at_y(eye: [i64; 3], point: [i64; 3], y: i64) -> Option<[i64; 3]> {
    between(eye, point, 1, y)
}

fn at_z(eye: [i64; 3], point: [i64; 3], z: i64) -> Option<[i64; 3]> {
    between(eye, point, 2, z)
}

fn between(eye: [i64; 3], point: [i64; 3], axis: usize, value: i64) -> Option<[i64; 3]> {
    let whole = eye[axis] - point[axis];
    let part = value - point[axis];
    if whole == 0 || part == 0 || (part < 0) != (whole < 0) || part.abs() >= whole.abs() {
        return None;
    }
    Some(std::array::from_fn(|other| {
        point[other] + (eye[other] - point[other]) * part / whole
    }))
}

#[cfg(test)]
mod sight_tests;
