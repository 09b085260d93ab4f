//! Edges as strips of two triangles, which the shader spreads to their width on the screen.

use super::{InkVertex, snorm};
use crate::shape::{Edge, Stroke};
use bevy::math::Vec3;

/// Added to the kind of stroke at an edge's second end.
const FAR_END: u8 = 16;

/// Kinds of stroke as the shader knows them.
fn code(stroke: Stroke) -> u8 {
    match stroke {
        Stroke::Crease => 0,
        Stroke::Round => 1,
        Stroke::Drawn => 2,
        Stroke::Faint => 3,
    }
}

/// Four corners and two triangles.
pub(super) fn add(vertices: &mut Vec<InkVertex>, indices: &mut Vec<u32>, edge: &Edge) {
    let base = vertices.len() as u32;
    let counts = if edge.normals == [Vec3::ZERO; 2] {
        0.0
    } else {
        1.0
    };
    let [red, green, blue] = edge.colour.0;
    for (end, other) in [(0, 1), (1, 0)] {
        for side in [-1.0, 1.0] {
            vertices.push(InkVertex {
                position: edge.ends[end].to_array(),
                other: edge.ends[other].to_array(),
                first: snorm(edge.normals[0], side),
                second: snorm(edge.normals[1], counts),
                colour: [red, green, blue, code(edge.stroke) + FAR_END * end as u8],
            });
        }
    }
    // Seen from the other end the sides are swapped.
    indices.extend([0, 1, 2, 0, 2, 3].map(|corner| base + corner));
}
