//! The triangles of the screens, one by one: which pixels each touches, and whether two are painted
//! alike.

use egui::{Pos2, Rect, epaint::Vertex};
use rackproof_stage::frame::Area;

use super::strokes::{Stroke, Strokes};

/// One triangle of a stroke.
#[derive(Clone, Copy)]
pub(super) struct Triangle<'s> {
    pub(super) stroke: &'s Stroke,
    pub(super) indices: [u32; 3],
    pub(super) corners: [Vertex; 3],
    scale: f32,
}

impl Triangle<'_> {
    /// Whether it and another one give the same pixels.
    pub(super) fn is_painted_as(&self, other: &Triangle<'_>) -> bool {
        let with = |stroke: &Stroke| (stroke.opaque, stroke.texture, stroke.clip);
        self.corners == other.corners
            && with(self.stroke) == with(other.stroke)
            && self.scale == other.scale
    }

    /// The pixels that it touches at most.
    pub(super) fn area(&self) -> Area {
        let places = self.corners.map(|corner| corner.pos);
        let rect = Rect::from_points(&places);
        let [x, y] = [rect.min.x, rect.min.y].map(|edge| self.pixel(edge, f32::floor));
        let [right, bottom] = [rect.max.x, rect.max.y].map(|edge| self.pixel(edge, f32::ceil));
        let area = Area {
            x,
            y,
            width: right.saturating_sub(x),
            height: bottom.saturating_sub(y),
        };
        area.overlap(&self.stroke.clip)
    }

    /// Its corners, in px.
    pub(super) fn places(&self) -> [Pos2; 3] {
        self.corners
            .map(|corner| Pos2::new(corner.pos.x * self.scale, corner.pos.y * self.scale))
    }

    fn pixel(&self, edge: f32, round: fn(f32) -> f32) -> u32 {
        round(edge * self.scale).max(0.0) as u32
    }
}

impl Strokes {
    /// How many triangles there are.
    pub(super) fn count(&self) -> usize {
        self.indices.len() / 3
    }

    /// The triangles, first to last.
    pub(super) fn triangles(&self) -> impl DoubleEndedIterator<Item = Triangle<'_>> {
        self.each().iter().flat_map(|stroke| self.of_stroke(stroke))
    }

    /// The triangles of one stroke.
    pub(super) fn of_stroke<'s>(
        &'s self,
        stroke: &'s Stroke,
    ) -> impl DoubleEndedIterator<Item = Triangle<'s>> {
        let indices = stroke.indices.start as usize..stroke.indices.end as usize;
        let (threes, _) = self.indices.get(indices).unwrap_or_default().as_chunks();
        let corner = |at: u32| self.corners.get(at as usize).copied().unwrap_or_default();
        threes.iter().map(move |indices| Triangle {
            stroke,
            indices: *indices,
            corners: indices.map(corner),
            scale: self.scale,
        })
    }
}
