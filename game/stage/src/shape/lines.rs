//! Lines that are drawn: on faces and in the air.

use super::{Edge, Shape, Stroke};
use crate::tokens::{self, Colour};
use bevy::math::Vec3;

impl Shape {
    /// A thin ink line in the air, seen from everywhere; `faint` for cover joints far away.
    pub fn line(self, a: Vec3, b: Vec3, faint: bool) -> Shape {
        let stroke = if faint { Stroke::Faint } else { Stroke::Drawn };
        self.stroke(a, b, Vec3::ZERO, stroke, tokens::INK)
    }

    /// A thin line on a face: seen only from the side that the normal points to.
    pub fn line_on(self, a: Vec3, b: Vec3, normal: Vec3, faint: bool) -> Shape {
        let stroke = if faint { Stroke::Faint } else { Stroke::Drawn };
        self.stroke(a, b, normal.normalize_or_zero(), stroke, tokens::INK)
    }

    /// A thin line of another colour, such as a beam of light.
    pub fn line_in(self, a: Vec3, b: Vec3, colour: Colour) -> Shape {
        self.stroke(a, b, Vec3::ZERO, Stroke::Drawn, colour)
    }

    /// Thick ink all round a face, such as the edge of a pane.
    pub fn outline(mut self, corners: [Vec3; 4]) -> Shape {
        for at in 0..4 {
            self.broken_edge(corners[at], corners[(at + 1) % 4], 1, Stroke::Crease);
        }
        self
    }

    /// A dashed line in the air; dashes and gaps are about `dash` metres long.
    pub fn dashes(mut self, a: Vec3, b: Vec3, dash: f32) -> Shape {
        let steps = ((a.distance(b) / dash.max(1e-3)) as u32 | 1).min(999);
        for at in (0..steps).step_by(2) {
            let part = |at: u32| a.lerp(b, at as f32 / steps as f32);
            self = self.line(part(at), part(at + 1), false);
        }
        self
    }

    fn stroke(mut self, a: Vec3, b: Vec3, normal: Vec3, stroke: Stroke, colour: Colour) -> Shape {
        self.edges.push(Edge {
            ends: [a, b],
            normals: [normal; 2],
            stroke,
            colour,
        });
        self
    }
}
