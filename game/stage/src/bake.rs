//! Faces to triangles, with light written into their corners, cut finer where light changes fast.

pub(crate) mod light;
mod sky;

pub(crate) use sky::Boxes;

use crate::kit::{SolidVertex, snorm, unorm};
use crate::shape::Face;
use bevy::math::{Affine3A, Vec2, Vec3};
use bevy::platform::collections::HashMap;
use light::{GROUND_GIVES, SKY_GIVES, SUN, SUN_GIVES, faded};
use sky::Seen;

/// Steps of a face's own two coordinates.
const STEPS: u32 = 1 << 12;
/// Differences of light that are let pass: on great faces, and elsewhere.
const FINE: f32 = 0.016;
const COARSE: f32 = 0.03;
/// A face with a longer side is great, in metres.
const GREAT: f32 = 0.9;
/// Cells are not cut below this, in metres.
const CELL: f32 = 0.05;
/// Light is looked at in steps of about this, in metres.
const LOOK: f32 = 0.16;
/// Faces smaller than this have one light all over, in metres.
const SMALL: f32 = 0.07;

/// Triangles of one face.
#[derive(Clone, Debug, Default)]
pub(crate) struct Mesh {
    pub(crate) vertices: Vec<SolidVertex>,
    pub(crate) indices: Vec<u32>,
}

/// What light falls on a face, and how finely it must be cut.
pub(crate) struct Baker<'a> {
    /// What takes light away.
    pub(crate) boxes: &'a Boxes,
    /// Where the face stands; none for what moves.
    pub(crate) places: &'a [Affine3A],
    /// Middle of the hall, from above.
    pub(crate) middle: Vec2,
}

impl Baker<'_> {
    /// A face in triangles.
    pub(crate) fn mesh(&self, face: &Face) -> Mesh {
        let mut work = Work {
            baker: self,
            face,
            even: even(face),
            known: HashMap::default(),
            mesh: Mesh::default(),
        };
        if face.corners[2] == face.corners[3] {
            let corners = [[0, 0], [STEPS, 0], [STEPS, STEPS]];
            work.mesh.indices = corners.map(|corner| work.index(corner)).to_vec();
            return work.mesh;
        }
        let [across, along] = face.cells.map(|cells| cells.max(1));
        for u in 0..across {
            for v in 0..along {
                let low = [u * STEPS / across, v * STEPS / along];
                let high = [(u + 1) * STEPS / across, (v + 1) * STEPS / along];
                work.cell(low, high);
            }
        }
        work.mesh
    }

    /// Light on a point of the shape: mean of all places where it stands.
    fn seen(&self, point: Vec3, normal: Vec3) -> Seen {
        if self.places.is_empty() {
            return Seen {
                sun: 1.0,
                ..self.boxes.seen(point, normal)
            };
        }
        let mut sum = Seen::default();
        for place in self.places {
            let normal = place.transform_vector3(normal).normalize_or_zero();
            let seen = self.boxes.seen(place.transform_point3(point), normal);
            sum = Seen {
                sky: sum.sky + seen.sky,
                sun: sum.sun + seen.sun,
            };
        }
        let count = self.places.len() as f32;
        Seen {
            sky: sum.sky / count,
            sun: sum.sun / count,
        }
    }

    /// How bright a point comes out; only differences matter.
    fn brightness(&self, seen: Seen, point: Vec3, normal: Vec3) -> f32 {
        let Some(place) = self.places.first() else {
            return seen.sky;
        };
        let normal = place.transform_vector3(normal);
        let sky = GROUND_GIVES + (SKY_GIVES - GROUND_GIVES) * (normal.z * 0.5 + 0.5);
        let sun = normal.dot(SUN.normalize()).max(0.0) * SUN_GIVES;
        let paper = faded(place.transform_point3(point), self.middle);
        (sky * seen.sky + sun * seen.sun) * (1.0 - paper) + paper
    }
}

/// Small faces are evenly lit.
fn even(face: &Face) -> bool {
    let [a, b, c, d] = face.corners;
    a.distance(b).max(c.distance(d)) < SMALL && b.distance(c).max(d.distance(a)) < SMALL
}

struct Work<'a> {
    baker: &'a Baker<'a>,
    face: &'a Face,
    even: bool,
    /// Light and brightness by place; the vertex too once it is used.
    known: HashMap<[u32; 2], (Seen, f32, Option<u32>)>,
    mesh: Mesh,
}

impl Work<'_> {
    fn point(&self, at: [u32; 2]) -> Vec3 {
        mix(&self.face.corners, at)
    }

    fn light(&mut self, at: [u32; 2]) -> (Seen, f32) {
        let at_known = if self.even { [STEPS / 2; 2] } else { at };
        if let Some((seen, brightness, _)) = self.known.get(&at_known) {
            return (*seen, *brightness);
        }
        let normal = mix(&self.face.normals, at_known).normalize_or_zero();
        let point = self.point(at_known);
        // A little inwards, so that the neighbour in a corner does not swallow it.
        let inwards = (self.point([STEPS / 2; 2]) - point).clamp_length_max(0.006);
        let seen = self.baker.seen(point + inwards, normal);
        let brightness = self.baker.brightness(seen, point, normal);
        self.known.insert(at_known, (seen, brightness, None));
        (seen, brightness)
    }

    fn index(&mut self, at: [u32; 2]) -> u32 {
        let (seen, brightness) = self.light(at);
        if let Some((_, _, Some(index))) = self.known.get(&at) {
            return *index;
        }
        let index = self.mesh.vertices.len() as u32;
        let paint = self.face.paint;
        let [red, green, blue] = paint.colour.0;
        self.mesh.vertices.push(SolidVertex {
            position: self.point(at).to_array(),
            normal: snorm(mix(&self.face.normals, at).normalize_or_zero(), 0.0),
            colour: [red, green, blue, unorm(paint.glow)],
            light: [unorm(seen.sky), unorm(seen.sun), 0, 0],
        });
        self.known.insert(at, (seen, brightness, Some(index)));
        index
    }

    fn cell(&mut self, low: [u32; 2], high: [u32; 2]) {
        let cut = self.wrong_ways(low, high);
        let middle = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2];
        match cut {
            [true, true] => {
                for [u, v] in [[0, 0], [1, 0], [0, 1], [1, 1]] {
                    let pick = |side: usize, far: u32| {
                        if far == 0 {
                            [low[side], middle[side]]
                        } else {
                            [middle[side], high[side]]
                        }
                    };
                    let ([a, b], [c, d]) = (pick(0, u), pick(1, v));
                    self.cell([a, c], [b, d]);
                }
            }
            [true, false] => {
                self.cell(low, [middle[0], high[1]]);
                self.cell([middle[0], low[1]], high);
            }
            [false, true] => {
                self.cell(low, [high[0], middle[1]]);
                self.cell([low[0], middle[1]], high);
            }
            [false, false] => self.leaf(low, high),
        }
    }

    /// Whether light along the first and second side is too far from even steps.
    fn wrong_ways(&mut self, low: [u32; 2], high: [u32; 2]) -> [bool; 2] {
        if self.even || self.baker.places.is_empty() {
            return [false, false];
        }
        let corner = self.point(low);
        let size = [
            corner.distance(self.point([high[0], low[1]])),
            corner.distance(self.point([low[0], high[1]])),
        ];
        let room = size.map(|size| size > 2.0 * CELL);
        if room == [false, false] {
            return room;
        }
        let allowed = if size[0].max(size[1]) > GREAT {
            FINE
        } else {
            COARSE
        };
        let looks = size.map(|size| (size / LOOK).ceil().clamp(2.0, 8.0) as u32);
        let at = |step: [u32; 2]| {
            [0, 1].map(|side| low[side] + (high[side] - low[side]) * step[side] / looks[side])
        };
        let ends = [[low[0], low[1]], [high[0], low[1]], high, [low[0], high[1]]];
        let ends = ends.map(|end| self.light(end).1);
        let mut wrong = [0.0_f32; 2];
        for u in 0..=looks[0] {
            for v in 0..=looks[1] {
                let (s, t) = (u as f32 / looks[0] as f32, v as f32 / looks[1] as f32);
                let near = ends[0] + (ends[1] - ends[0]) * s;
                let far = ends[3] + (ends[2] - ends[3]) * s;
                let off = (self.light(at([u, v])).1 - near - (far - near) * t).abs();
                let inside = [u > 0 && u < looks[0], v > 0 && v < looks[1]];
                for side in 0..2 {
                    if inside[side] && (!inside[1 - side] || size[side] * 2.0 > size[1 - side]) {
                        wrong[side] = wrong[side].max(off);
                    }
                }
            }
        }
        [0, 1].map(|side| room[side] && wrong[side] > allowed)
    }

    fn leaf(&mut self, low: [u32; 2], high: [u32; 2]) {
        let ends = [[low[0], low[1]], [high[0], low[1]], high, [low[0], high[1]]];
        let bright = ends.map(|end| self.light(end).1);
        let [a, b, c, d] = ends.map(|end| self.index(end));
        // The diagonal that light changes less along.
        let along = (bright[0] - bright[2]).abs() <= (bright[1] - bright[3]).abs();
        let triangles = if along {
            [a, b, c, a, c, d]
        } else {
            [a, b, d, b, c, d]
        };
        self.mesh.indices.extend(triangles);
    }
}

/// A point between four corners.
fn mix(corners: &[Vec3; 4], at: [u32; 2]) -> Vec3 {
    let [s, t] = at.map(|step| step as f32 / STEPS as f32);
    let [a, b, c, d] = *corners;
    a.lerp(b, s).lerp(d.lerp(c, s), t)
}
