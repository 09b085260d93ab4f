//! Solid bodies: boxes, extruded profiles, cylinders, plates of any outline.

use super::{Edge, Face, Paint, Shape, Stroke};
use crate::tokens;
use bevy::math::Vec3;

/// Sides that meet at a flatter angle than this (its cosine) belong to one round body.
const ROUND: f32 = 0.7;

impl Shape {
    /// A box with ink edges.
    pub fn block(self, from: Vec3, to: Vec3, paint: Paint) -> Shape {
        let (low, high) = (from.min(to), from.max(to));
        let floor = [
            low,
            Vec3::new(high.x, low.y, low.z),
            Vec3::new(high.x, high.y, low.z),
            Vec3::new(low.x, high.y, low.z),
        ];
        self.shade(low, high)
            .slab(&floor, Vec3::Z * (high.z - low.z), paint)
    }

    /// A box of an extruded profile: two thin grooves along each of its four long faces.
    pub fn profile(self, from: Vec3, to: Vec3, paint: Paint) -> Shape {
        let (low, high) = (from.min(to), from.max(to));
        let size = high - low;
        let along = if size.x >= size.y && size.x >= size.z {
            0
        } else if size.y >= size.z {
            1
        } else {
            2
        };
        let mut shape = self.block(low, high, paint);
        for (face, other) in [
            ((along + 1) % 3, (along + 2) % 3),
            ((along + 2) % 3, (along + 1) % 3),
        ] {
            for part in [0.38, 0.62] {
                for (height, sign) in [(low, -1.0), (high, 1.0)] {
                    let mut a = low;
                    a[other] = low[other] + size[other] * part;
                    a[face] = height[face];
                    let mut b = a;
                    b[along] = high[along];
                    let mut normal = Vec3::ZERO;
                    normal[face] = sign;
                    shape = shape.line_on(a, b, normal, true);
                }
            }
        }
        shape
    }

    /// A cylinder from one middle to the other.
    pub fn prism(self, from: Vec3, to: Vec3, radius: f32, sides: u32, paint: Paint) -> Shape {
        let axis = to - from;
        let way = axis.normalize_or_zero();
        let (right, up) = way.any_orthonormal_pair();
        let sides = sides.max(3);
        let outline: Vec<Vec3> = (0..sides)
            .map(|at| {
                let turn = core::f32::consts::TAU * at as f32 / sides as f32;
                from + (right * turn.cos() + up * turn.sin()) * radius
            })
            .collect();
        let reach = Vec3::ONE - way.abs();
        let half = reach * radius * 0.8;
        let (low, high) = (from.min(to), from.max(to));
        self.shade(low - half, high + half)
            .slab(&outline, axis, paint)
    }

    /// A plate of any convex outline, as thick as `rise`, which the outline turns round
    /// counter-clockwise. Where its sides meet at a flat angle it is round there. It takes no
    /// light from others; add `shade` where it should.
    pub fn slab(mut self, outline: &[Vec3], rise: Vec3, paint: Paint) -> Shape {
        let count = outline.len();
        if count < 3 {
            return self;
        }
        let up = rise.normalize_or_zero();
        let flat: Vec<Vec3> = (0..count)
            .map(|at| {
                (outline[(at + 1) % count] - outline[at])
                    .cross(up)
                    .normalize_or_zero()
            })
            .collect();
        let before = |at: usize| (at + count - 1) % count;
        let round = |at: usize| flat[at].dot(flat[before(at)]) > ROUND;
        for at in 0..count {
            let next = (at + 1) % count;
            let soft = |corner: usize| {
                if round(corner) {
                    (flat[corner] + flat[before(corner)]).normalize_or_zero()
                } else {
                    flat[at]
                }
            };
            let (a, b) = (outline[at], outline[next]);
            let (first, last) = (soft(at), soft(next));
            self.faces.push(Face {
                corners: [a, b, b + rise, a + rise],
                normals: [first, last, last, first],
                paint,
                cells: [1, 1],
            });
            self.crease([a, b], [flat[at], -up], Stroke::Crease);
            self.crease([a + rise, b + rise], [flat[at], up], Stroke::Crease);
            let stroke = if round(at) {
                Stroke::Round
            } else {
                Stroke::Crease
            };
            self.crease([a, a + rise], [flat[before(at)], flat[at]], stroke);
        }
        self.caps(outline, rise, paint);
        self
    }

    /// Both ends of a slab, in quads, the last of them perhaps a triangle.
    fn caps(&mut self, outline: &[Vec3], rise: Vec3, paint: Paint) {
        let last = outline.len() - 1;
        for at in (1..last).step_by(2) {
            let (a, b, c) = (outline[0], outline[at], outline[at + 1]);
            let d = outline[(at + 2).min(last)];
            self.face([a + rise, b + rise, c + rise, d + rise], paint, [1, 1]);
            let below = if d == c { [a, c, b, b] } else { [a, d, c, b] };
            self.face(below, paint, [1, 1]);
        }
    }

    fn crease(&mut self, ends: [Vec3; 2], normals: [Vec3; 2], stroke: Stroke) {
        self.edges.push(Edge {
            ends,
            normals,
            stroke,
            colour: tokens::INK,
        });
    }
}
