//! From egui's meshes to strokes: runs of triangles for one brush, in egui's order.

use core::ops::Range;

use egui::{
    ClippedPrimitive, Mesh, Pos2, Rect, TextureId,
    epaint::{Primitive, Vertex, WHITE_UV},
};
use rackproof_stage::frame::Area;

/// An opaque triangle of at least so many px² is worth a change of the brush.
const LARGE: f32 = 400.0;

/// Triangles that are painted at once.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Stroke {
    /// Whether nothing shines through, and no texture is needed.
    pub(super) opaque: bool,
    pub(super) indices: Range<u32>,
    pub(super) texture: TextureId,
    /// What may be painted on, in px.
    pub(super) clip: Area,
}

/// All strokes of a picture with their corners. Kept, so that no memory is taken anew.
#[derive(Default, PartialEq)]
pub(super) struct Strokes {
    pub(super) corners: Vec<Vertex>,
    pub(super) indices: Vec<u32>,
    strokes: Vec<Stroke>,
    /// Physical pixels a point.
    pub(super) scale: f32,
}

impl Strokes {
    /// Those of a page of this size in px, so many of them a point.
    pub(super) fn of(&mut self, jobs: &[ClippedPrimitive], scale: f32, size: [u32; 2]) {
        self.corners.clear();
        self.indices.clear();
        self.strokes.clear();
        self.scale = scale;
        for job in jobs {
            // Nobody asks to be called back.
            let Primitive::Mesh(mesh) = &job.primitive else {
                continue;
            };
            let clip = clip_of(job.clip_rect, scale, size);
            if !clip.is_empty() {
                self.add(mesh, clip);
            }
        }
    }

    /// The strokes, first to last.
    pub(super) fn each(&self) -> &[Stroke] {
        &self.strokes
    }

    fn add(&mut self, mesh: &Mesh, clip: Area) {
        let base = self.corners.len() as u32;
        self.corners.extend_from_slice(&mesh.vertices);
        let large = LARGE / (self.scale * self.scale);
        // A new mesh begins a new stroke: it may have another texture.
        let mut opaque = None;
        for triangle in mesh.indices.chunks_exact(3) {
            let corners = triangle
                .iter()
                .filter_map(|at| mesh.vertices.get(*at as usize));
            let now = brush(corners, large, opaque);
            if opaque != Some(now) {
                let at = self.indices.len() as u32;
                self.strokes.push(Stroke {
                    opaque: now,
                    indices: at..at,
                    texture: mesh.texture_id,
                    clip,
                });
                opaque = Some(now);
            }
            self.indices.extend(triangle.iter().map(|at| at + base));
            if let Some(stroke) = self.strokes.last_mut() {
                stroke.indices.end += 3;
            }
        }
    }
}

/// Whether the flat brush paints this triangle. A small opaque one takes the brush that is at hand.
fn brush<'v>(corners: impl Iterator<Item = &'v Vertex>, large: f32, at_hand: Option<bool>) -> bool {
    let mut places = [Pos2::ZERO; 3];
    for (place, corner) in places.iter_mut().zip(corners) {
        if corner.uv != WHITE_UV || corner.color.a() < u8::MAX {
            return false;
        }
        *place = corner.pos;
    }
    surface(places) >= large || at_hand.unwrap_or(true)
}

/// What a triangle covers, in square points.
fn surface([first, second, third]: [Pos2; 3]) -> f32 {
    let (one, other) = (second - first, third - first);
    (one.x * other.y - one.y * other.x).abs() / 2.0
}

fn clip_of(rect: Rect, scale: f32, size: [u32; 2]) -> Area {
    let pixel = |value: f32, most: u32| ((value * scale).round().max(0.0) as u32).min(most);
    let [width, height] = size;
    let (x, y) = (pixel(rect.min.x, width), pixel(rect.min.y, height));
    let (right, bottom) = (pixel(rect.max.x, width), pixel(rect.max.y, height));
    Area {
        x,
        y,
        width: right.saturating_sub(x),
        height: bottom.saturating_sub(y),
    }
}

#[cfg(test)]
mod tests {
    use egui::{Color32, pos2, vec2};

    use super::*;

    const WHITE: Color32 = Color32::WHITE;

    /// One job of rectangles: left edge, side, colour, and whether a letter is on it.
    fn job(faces: &[(f32, f32, Color32, bool)]) -> ClippedPrimitive {
        let mut mesh = Mesh::default();
        for (left, side, colour, letter) in faces {
            let rect = Rect::from_min_size(pos2(*left, 0.0), vec2(*side, *side));
            let texels = Rect::from_min_max(pos2(0.0, 0.0), pos2(0.5, 0.5));
            if *letter {
                mesh.add_rect_with_uv(rect, texels, *colour);
            } else {
                mesh.add_colored_rect(rect, *colour);
            }
        }
        ClippedPrimitive {
            clip_rect: Rect::from_min_max(pos2(-5.0, 10.4), pos2(90.0, 500.0)),
            primitive: Primitive::Mesh(mesh),
        }
    }

    fn strokes(jobs: &[ClippedPrimitive], scale: f32) -> Vec<(bool, Range<u32>)> {
        let mut strokes = Strokes::default();
        strokes.of(jobs, scale, [100, 80]);
        let all = strokes.each().iter();
        all.map(|stroke| (stroke.opaque, stroke.indices.clone()))
            .collect()
    }

    #[test]
    fn only_large_faces_through_which_nothing_shines_change_to_the_flat_brush() {
        let large = (0.0, 40.0, WHITE, false);
        let small = (0.0, 4.0, WHITE, false);
        let letter = (0.0, 40.0, WHITE, true);
        let dim = (0.0, 40.0, Color32::from_white_alpha(254), false);
        let cases: [(&[_], &[_]); 7] = [
            (&[large], &[(true, 0..6)]),
            (&[letter], &[(false, 0..6)]),
            (&[dim], &[(false, 0..6)]),
            // A small one takes the brush that is at hand.
            (&[small, letter], &[(true, 0..6), (false, 6..12)]),
            (&[letter, small, letter], &[(false, 0..18)]),
            (
                &[letter, large, small, letter],
                &[(false, 0..6), (true, 6..18), (false, 18..24)],
            ),
            (&[large, large], &[(true, 0..12)]),
        ];
        for (faces, expected) in cases {
            assert_eq!(strokes(&[job(faces)], 1.0), expected, "{faces:?}");
        }
        // What is large is a matter of pixels, not of points.
        let faces = [letter, (0.0, 20.0, WHITE, false)];
        assert_eq!(strokes(&[job(&faces)], 1.0).len(), 1);
        assert_eq!(strokes(&[job(&faces)], 2.0).len(), 2);
    }

    #[test]
    fn each_mesh_has_its_own_corners_and_what_lies_outside_is_left_out() {
        let one = job(&[(0.0, 40.0, WHITE, false)]);
        let mut outside = one.clone();
        outside.clip_rect = Rect::from_min_max(pos2(0.0, 300.0), pos2(50.0, 400.0));
        let mut strokes = Strokes::default();
        strokes.of(&[one.clone(), outside, one], 1.0, [100, 80]);
        assert_eq!(strokes.corners.len(), 8);
        assert_eq!(
            strokes.indices.get(6..),
            strokes
                .indices
                .get(..6)
                .map(|first| { first.iter().map(|at| at + 4).collect::<Vec<_>>() })
                .as_deref()
        );
        let clip = Area {
            x: 0,
            y: 10,
            width: 90,
            height: 70,
        };
        let clips: Vec<_> = strokes.each().iter().map(|stroke| stroke.clip).collect();
        assert_eq!(clips, [clip; 2]);
        // Nothing of the picture before is left.
        strokes.of(&[], 1.0, [100, 80]);
        assert!(strokes.each().is_empty());
        assert!(strokes.corners.is_empty() && strokes.indices.is_empty());
    }
}
