//! A shape in the making, in plain arrays and colours.

use bevy::math::Vec3;

use crate::shape::{Paint, Shape};
use crate::tokens::{self, Colour};

/// Cells of a board across the flow, so that it can bow.
const BOW_CELLS: u32 = 14;
/// Cells along the flow of a board that came bowed.
const BOWED_CELLS: u32 = 10;

/// A shape in the making.
#[derive(Default)]
pub(crate) struct Draft(Shape);

impl Draft {
    pub(crate) fn new() -> Draft {
        Draft::default()
    }

    pub(crate) fn finish(self) -> Shape {
        self.0
    }

    fn add(&mut self, add: impl FnOnce(Shape) -> Shape) {
        self.0 = add(std::mem::take(&mut self.0));
    }

    /// A box with ink edges.
    pub(crate) fn block(&mut self, from: [f32; 3], to: [f32; 3], colour: Colour) {
        self.add(|shape| shape.block(from.into(), to.into(), Paint::matt(colour)));
    }

    /// A box without ink.
    pub(crate) fn quiet_block(&mut self, from: [f32; 3], to: [f32; 3], colour: Colour) {
        self.add(|shape| bare(shape, from, to, Paint::matt(colour)));
    }

    /// A box without ink and light, of one even colour.
    pub(crate) fn dark_block(&mut self, from: [f32; 3], to: [f32; 3], colour: Colour) {
        self.add(|shape| bare(shape, from, to, Paint::shining(colour)));
    }

    /// A box of an extruded profile.
    pub(crate) fn profile(&mut self, from: [f32; 3], to: [f32; 3], colour: Colour) {
        self.add(|shape| shape.profile(from.into(), to.into(), Paint::matt(colour)));
    }

    /// A round rod.
    pub(crate) fn rod(&mut self, from: [f32; 3], to: [f32; 3], radius: f32, colour: Colour) {
        self.round(from, to, radius, Paint::matt(colour));
    }

    /// A round rod that shines.
    pub(crate) fn glowing_rod(
        &mut self,
        from: [f32; 3],
        to: [f32; 3],
        radius: f32,
        colour: Colour,
    ) {
        self.round(from, to, radius, Paint::shining(colour));
    }

    fn round(&mut self, from: [f32; 3], to: [f32; 3], radius: f32, paint: Paint) {
        let sides = if radius > 0.06 {
            32
        } else if radius > 0.012 {
            20
        } else {
            10
        };
        self.add(|shape| shape.prism(from.into(), to.into(), radius, sides, paint));
    }

    /// A flat face.
    pub(crate) fn quad(&mut self, corners: [[f32; 3]; 4], colour: Colour) {
        self.add(|shape| shape.quad(corners.map(Vec3::from), Paint::matt(colour)));
    }

    /// A stroke of ink as thick as `wide`.
    pub(crate) fn stroke(&mut self, from: [f32; 3], to: [f32; 3], wide: f32) {
        let paint = Paint::matt(tokens::INK);
        self.add(|shape| shape.prism(from.into(), to.into(), wide / 2.0, 6, paint));
    }

    /// A pane. `covers`: how much of what is behind it is covered, 0 to 1.
    pub(crate) fn glass(&mut self, corners: [[f32; 3]; 4], colour: Colour, covers: f32) {
        self.add(|shape| shape.glass(corners.map(Vec3::from), colour, covers));
    }

    /// A thin line in the air.
    pub(crate) fn line(&mut self, from: [f32; 3], to: [f32; 3], faint: bool) {
        self.add(|shape| shape.line(from.into(), to.into(), faint));
    }

    /// A beam of light.
    pub(crate) fn light(&mut self, from: [f32; 3], to: [f32; 3], colour: Colour) {
        self.add(|shape| shape.line_in(from.into(), to.into(), colour));
    }

    /// A rectangle of a board that can bow across the flow, and along it if it came `bowed`: from
    /// and to, its upper side `thick` above nought.
    pub(crate) fn board_sheet(
        &mut self,
        [from, to]: [[f32; 2]; 2],
        thick: f32,
        bowed: bool,
        colour: Colour,
    ) {
        let corner = Vec3::new(from[0], from[1], thick);
        let (along, across) = (Vec3::X * (to[0] - from[0]), Vec3::Y * (to[1] - from[1]));
        let paint = Paint::matt(colour);
        let cells = [if bowed { BOWED_CELLS } else { 1 }, BOW_CELLS];
        self.add(|shape| shape.sheet(corner, along, across, cells, paint));
    }
}

/// The six faces of a box.
fn bare(shape: Shape, from: [f32; 3], to: [f32; 3], paint: Paint) -> Shape {
    let corner = |x: usize, y: usize, z: usize| {
        let ends = [from, to];
        Vec3::new(ends[x][0], ends[y][1], ends[z][2])
    };
    let sides = [
        [(0, 0, 1), (1, 0, 1), (1, 1, 1), (0, 1, 1)],
        [(0, 0, 0), (0, 1, 0), (1, 1, 0), (1, 0, 0)],
        [(0, 0, 0), (1, 0, 0), (1, 0, 1), (0, 0, 1)],
        [(0, 1, 0), (0, 1, 1), (1, 1, 1), (1, 1, 0)],
        [(0, 0, 0), (0, 0, 1), (0, 1, 1), (0, 1, 0)],
        [(1, 0, 0), (1, 1, 0), (1, 1, 1), (1, 0, 1)],
    ];
    sides.into_iter().fold(shape, |shape, side| {
        shape.quad(side.map(|(x, y, z)| corner(x, y, z)), paint)
    })
}
