//! All shapes of the hall in one set of buffers, with light baked into what stands still.

mod ink;
#[cfg(test)]
mod tests;

use crate::bake::{Baker, Boxes, Mesh};
use crate::frame::ShapeId;
use crate::shape::{Face, Pane, Shape};
use bevy::ecs::resource::Resource;
use bevy::math::{Affine3A, Vec2, Vec3};
use core::ops::Range;
use core::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Arc, Mutex, PoisonError};

/// Great faces are handed out in pieces of this size, in metres.
const PIECE: f32 = 1.2;
/// The middle of the hall when nobody says otherwise, from above, in metres.
const MIDDLE: Vec2 = Vec2::new(0.2, 0.2);

/// A corner of a face or a pane.
#[derive(Clone, Copy, Debug, PartialEq, bytemuck::Pod, bytemuck::Zeroable)]
#[repr(C)]
pub(crate) struct SolidVertex {
    pub(crate) position: [f32; 3],
    /// -127 to 127; the last is not used.
    pub(crate) normal: [i8; 4],
    /// Red, green, blue; glow of a face, cover of a pane.
    pub(crate) colour: [u8; 4],
    /// Sky seen, big lamp seen; the others are not used.
    pub(crate) light: [u8; 4],
}

/// A corner of the strip that an edge becomes on the screen.
#[derive(Clone, Copy, Debug, PartialEq, bytemuck::Pod, bytemuck::Zeroable)]
#[repr(C)]
pub(crate) struct InkVertex {
    pub(crate) position: [f32; 3],
    /// The edge's other end.
    pub(crate) other: [f32; 3],
    /// Normal of one face; last: which side of the line, -127 or 127.
    pub(crate) first: [i8; 4],
    /// Normal of the other face; last: 127 when normals count.
    pub(crate) second: [i8; 4],
    /// Red, green, blue; kind of stroke.
    pub(crate) colour: [u8; 4],
}

/// A shape's share of the buffers, as ranges of indices, and a ball around it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Part {
    pub(crate) solid: Range<u32>,
    pub(crate) glass: Range<u32>,
    pub(crate) ink: Range<u32>,
    pub(crate) middle: Vec3,
    pub(crate) radius: f32,
}

/// All shapes, ready for drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Kit {
    pub(crate) solid: Vec<SolidVertex>,
    pub(crate) ink: Vec<InkVertex>,
    /// Faces and panes index `solid`, lines index `ink`.
    pub(crate) indices: Vec<u32>,
    pub(crate) parts: Vec<Part>,
    pub(crate) middle: Vec2,
}

/// The kit that frames are drawn from.
#[derive(Resource, Clone)]
pub struct Stage(pub Arc<Kit>);

/// A face to be baked, and for which shape.
struct Job {
    shape: usize,
    face: Face,
}

impl Kit {
    /// Shapes in the order of their ids. Those in `still` get the light of the place, or the
    /// mean of the places, where they stand; the others only what their own boxes leave them.
    pub fn bake(shapes: Vec<Shape>, still: &[(ShapeId, Affine3A)]) -> Kit {
        Kit::bake_around(shapes, still, MIDDLE)
    }

    /// The same, with the point (x and y, in metres) from which the hall fades to paper.
    pub fn bake_around(shapes: Vec<Shape>, still: &[(ShapeId, Affine3A)], middle: Vec2) -> Kit {
        let mut places = vec![Vec::new(); shapes.len()];
        for (shape, place) in still {
            if let Some(places) = places.get_mut(usize::from(shape.0)) {
                places.push(*place);
            }
        }
        let standing = still.iter().filter_map(|(shape, place)| {
            shapes
                .get(usize::from(shape.0))
                .map(|shape| (shape, *place))
        });
        let together =
            Boxes::new(standing.flat_map(|(shape, place)| {
                shape.boxes.iter().map(move |corners| (place, *corners))
            }));
        let own: Vec<Boxes> = shapes
            .iter()
            .map(|shape| {
                Boxes::new(
                    shape
                        .boxes
                        .iter()
                        .map(|corners| (Affine3A::IDENTITY, *corners)),
                )
            })
            .collect();
        let jobs = jobs(&shapes, &places);
        let meshes = in_parallel(&jobs, |job| {
            let places = &places[job.shape];
            let boxes = if places.is_empty() {
                &own[job.shape]
            } else {
                &together
            };
            Baker {
                boxes,
                places,
                middle,
            }
            .mesh(&job.face)
        });
        Kit::gather(&shapes, &jobs, &meshes, middle)
    }

    /// How many triangles of faces, and how many lines, all shapes have once each.
    pub fn size(&self) -> [usize; 2] {
        let faces: u32 = self.parts.iter().map(|part| part.solid.len() as u32).sum();
        [faces as usize / 3, self.ink.len() / 4]
    }

    fn gather(shapes: &[Shape], jobs: &[Job], meshes: &[Mesh], middle: Vec2) -> Kit {
        let (solid, ink, indices, parts) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
        let mut kit = Kit {
            solid,
            ink,
            indices,
            parts,
            middle,
        };
        let mut todo = jobs.iter().zip(meshes).peekable();
        for (at, shape) in shapes.iter().enumerate() {
            let start = kit.indices.len() as u32;
            while let Some((_, mesh)) = todo.next_if(|(job, _)| job.shape == at) {
                let base = kit.solid.len() as u32;
                kit.solid.extend(&mesh.vertices);
                kit.indices
                    .extend(mesh.indices.iter().map(|index| base + index));
            }
            let solid = start..kit.indices.len() as u32;
            for pane in &shape.panes {
                kit.pane(pane);
            }
            let glass = solid.end..kit.indices.len() as u32;
            for edge in &shape.edges {
                ink::add(&mut kit.ink, &mut kit.indices, edge);
            }
            let ink = glass.end..kit.indices.len() as u32;
            let (middle, radius) = ball(shape);
            kit.parts.push(Part {
                solid,
                glass,
                ink,
                middle,
                radius,
            });
        }
        kit
    }

    fn pane(&mut self, pane: &Pane) {
        let [a, b, c, d] = pane.corners;
        let normal = (c - a).cross(d - b).normalize_or_zero();
        let base = self.solid.len() as u32;
        let [red, green, blue] = pane.colour.0;
        self.solid.extend(pane.corners.map(|corner| SolidVertex {
            position: corner.to_array(),
            normal: snorm(normal, 0.0),
            colour: [red, green, blue, unorm(pane.covers)],
            light: [255, 255, 0, 0],
        }));
        self.indices
            .extend([0, 1, 2, 0, 2, 3].map(|corner| base + corner));
    }
}

/// All faces, great ones that stand still in pieces.
fn jobs(shapes: &[Shape], places: &[Vec<Affine3A>]) -> Vec<Job> {
    let mut jobs = Vec::new();
    for (shape, places) in places.iter().enumerate() {
        for face in &shapes[shape].faces {
            let [a, b, c, d] = face.corners;
            let pieces = |size: f32| (size / PIECE).ceil().clamp(1.0, 16.0) as u32;
            let (across, along) = if places.is_empty() || c == d {
                (1, 1)
            } else {
                (pieces(a.distance(b)), pieces(b.distance(c)))
            };
            for u in 0..across {
                for v in 0..along {
                    jobs.push(Job {
                        shape,
                        face: piece_of(face, [u, v], [across, along]),
                    });
                }
            }
        }
    }
    jobs
}

fn piece_of(face: &Face, at: [u32; 2], of: [u32; 2]) -> Face {
    if of == [1, 1] {
        return *face;
    }
    let [s0, t0] = [0, 1].map(|side| at[side] as f32 / of[side] as f32);
    let [s1, t1] = [0, 1].map(|side| (at[side] + 1) as f32 / of[side] as f32);
    let cut = |corners: &[Vec3; 4]| {
        let [a, b, c, d] = *corners;
        [[s0, t0], [s1, t0], [s1, t1], [s0, t1]].map(|[s, t]| a.lerp(b, s).lerp(d.lerp(c, s), t))
    };
    Face {
        corners: cut(&face.corners),
        normals: cut(&face.normals),
        ..*face
    }
}

/// Work shared by two threads; results in the order of the jobs.
fn in_parallel(jobs: &[Job], work: impl Fn(&Job) -> Mesh + Sync) -> Vec<Mesh> {
    let next = AtomicUsize::new(0);
    let done = Mutex::new(vec![Mesh::default(); jobs.len()]);
    let worker = || {
        while let Some((at, job)) = {
            let at = next.fetch_add(1, Ordering::Relaxed);
            jobs.get(at).map(|job| (at, job))
        } {
            let mesh = work(job);
            done.lock().unwrap_or_else(PoisonError::into_inner)[at] = mesh;
        }
    };
    std::thread::scope(|scope| {
        scope.spawn(worker);
        worker();
    });
    done.into_inner().unwrap_or_else(PoisonError::into_inner)
}

/// A ball around a shape.
fn ball(shape: &Shape) -> (Vec3, f32) {
    let faces = shape.faces.iter().flat_map(|face| face.corners);
    let panes = shape.panes.iter().flat_map(|pane| pane.corners);
    let edges = shape.edges.iter().flat_map(|edge| edge.ends);
    let points: Vec<Vec3> = faces.chain(panes).chain(edges).collect();
    let low = points.iter().copied().reduce(Vec3::min).unwrap_or_default();
    let high = points.iter().copied().reduce(Vec3::max).unwrap_or_default();
    let middle = (low + high) * 0.5;
    let far = points
        .iter()
        .map(|point| point.distance(middle))
        .fold(0.0, f32::max);
    (middle, far)
}

/// A direction and one more number, each -1 to 1, in bytes.
pub(crate) fn snorm(way: Vec3, last: f32) -> [i8; 4] {
    let byte = |part: f32| (part.clamp(-1.0, 1.0) * 127.0).round() as i8;
    [byte(way.x), byte(way.y), byte(way.z), byte(last)]
}

/// 0 to 1 in a byte.
pub(crate) fn unorm(part: f32) -> u8 {
    (part.clamp(0.0, 1.0) * 255.0).round() as u8
}
