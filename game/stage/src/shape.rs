//! Rigid parts: faces, ink edges, glass, and the boxes that take light from others.

mod lines;
mod solids;

use crate::tokens::{self, Colour};
use bevy::math::Vec3;

/// What a face looks like.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Paint {
    /// Its colour in full light.
    pub colour: Colour,
    /// 0 lit by the hall to 1 shining by itself.
    pub glow: f32,
}

impl Paint {
    /// Lit by the hall.
    pub const fn matt(colour: Colour) -> Paint {
        Paint { colour, glow: 0.0 }
    }

    /// Shining by itself.
    pub const fn shining(colour: Colour) -> Paint {
        Paint { colour, glow: 1.0 }
    }
}

/// How an edge is inked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Stroke {
    /// Where two faces meet: an outline where one of them looks away, else a thin line.
    Crease,
    /// Between two faces of a round body: drawn as an outline only.
    Round,
    /// A thin line on a face, or in the air.
    Drawn,
    /// A fainter thin line.
    Faint,
}

/// An ink line between two faces. Both normals zero: seen from everywhere.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Edge {
    pub(crate) ends: [Vec3; 2],
    pub(crate) normals: [Vec3; 2],
    pub(crate) stroke: Stroke,
    pub(crate) colour: Colour,
}

/// A flat face of three (the last corner twice) or four corners, counter-clockwise from outside.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Face {
    pub(crate) corners: [Vec3; 4],
    pub(crate) normals: [Vec3; 4],
    pub(crate) paint: Paint,
    /// Into so many cells along its first and second side at least.
    pub(crate) cells: [u32; 2],
}

/// A pane. `covers` is how much of what is behind it it hides, 0 to 1.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Pane {
    pub(crate) corners: [Vec3; 4],
    pub(crate) colour: Colour,
    pub(crate) covers: f32,
}

/// One rigid part in its own frame, in metres. Built by chaining.
#[derive(Clone, Debug, Default)]
pub struct Shape {
    pub(crate) faces: Vec<Face>,
    pub(crate) edges: Vec<Edge>,
    pub(crate) panes: Vec<Pane>,
    /// Boxes that take light from others: corner and far corner.
    pub(crate) boxes: Vec<[Vec3; 2]>,
}

impl Shape {
    /// Nothing yet.
    pub fn new() -> Shape {
        Shape::default()
    }

    /// A flat face without ink. Corners run counter-clockwise as seen from its bright side.
    pub fn quad(mut self, corners: [Vec3; 4], paint: Paint) -> Shape {
        self.face(corners, paint, [1, 1]);
        self
    }

    /// A thin plate that is seen from both sides, with ink round it, cut into cells so that it
    /// can bow. `along` and `across` are its two sides; along x across y looks up.
    pub fn sheet(
        mut self,
        corner: Vec3,
        along: Vec3,
        across: Vec3,
        cells: [u32; 2],
        paint: Paint,
    ) -> Shape {
        let far = corner + along + across;
        let corners = [corner, corner + along, far, corner + across];
        self.face(corners, paint, cells);
        let back = [corner, corner + across, far, corner + along];
        self.face(back, paint, [cells[1], cells[0]]);
        for side in 0..4 {
            let (a, b) = (corners[side], corners[(side + 1) % 4]);
            self.broken_edge(a, b, cells[side % 2], Stroke::Crease);
        }
        self
    }

    /// A pane, seen from both sides. `alpha` is how much it covers, 0 to 1.
    pub fn glass(mut self, corners: [Vec3; 4], colour: Colour, alpha: f32) -> Shape {
        self.panes.push(Pane {
            corners,
            colour,
            covers: alpha.clamp(0.0, 1.0),
        });
        self
    }

    /// A box that takes light from others and is not drawn.
    pub fn shade(mut self, from: Vec3, to: Vec3) -> Shape {
        self.boxes.push([from.min(to), from.max(to)]);
        self
    }

    fn face(&mut self, corners: [Vec3; 4], paint: Paint, cells: [u32; 2]) {
        let normal = facing(&corners);
        self.faces.push(Face {
            corners,
            normals: [normal; 4],
            paint,
            cells,
        });
    }

    /// An edge in pieces, so that it can follow a bow; an outline from everywhere.
    fn broken_edge(&mut self, a: Vec3, b: Vec3, pieces: u32, stroke: Stroke) {
        let pieces = pieces.max(1);
        for at in 0..pieces {
            let part = |at: u32| a.lerp(b, at as f32 / pieces as f32);
            let ends = [part(at), part(at + 1)];
            self.edges.push(Edge {
                ends,
                normals: [Vec3::ZERO; 2],
                stroke,
                colour: tokens::INK,
            });
        }
    }
}

/// The normal of a face whose corners run counter-clockwise; z for one without extent.
fn facing(corners: &[Vec3; 4]) -> Vec3 {
    let [a, b, c, d] = *corners;
    (c - a).cross(d - b).try_normalize().unwrap_or(Vec3::Z)
}
