//! How much of the sky and of the big lamp a point sees past the boxes that stand still.

use super::light::SUN;
use bevy::math::{Affine3A, Vec3};

/// A box this far away takes no sky any more, in metres.
const REACH: f32 = 1.3;
/// Shadows reach so far, in metres.
const SHADOW: f32 = 6.0;
/// Rays to the sky, and to the big lamp.
const SKY_RAYS: u32 = 40;
const SUN_RAYS: u32 = 14;
/// The big lamp's size as a slope: it makes shadows soft.
const SUN_SIZE: f32 = 0.16;
/// Points lie so far off their face, in metres.
const OFF: f32 = 0.004;
/// So many boxes a leaf.
const LEAF: usize = 4;

/// A box that may be turned: its frame's inverse, and its corners there.
#[derive(Clone, Copy, Debug)]
struct Turned {
    home: Affine3A,
    corners: [Vec3; 2],
    bounds: [Vec3; 2],
}

/// A part of the tree: what bounds it, its boxes when it is a leaf, and where to go on when it
/// is missed.
#[derive(Clone, Copy, Debug)]
struct Node {
    bounds: [Vec3; 2],
    first: u32,
    count: u32,
    skip: u32,
}

/// Boxes in a tree.
#[derive(Clone, Debug, Default)]
pub(crate) struct Boxes {
    boxes: Vec<Turned>,
    nodes: Vec<Node>,
}

/// What a point sees, each 0 to 1.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Seen {
    pub(crate) sky: f32,
    pub(crate) sun: f32,
}

impl Boxes {
    pub(crate) fn new(placed: impl Iterator<Item = (Affine3A, [Vec3; 2])>) -> Boxes {
        let turned = placed.map(|(place, corners)| Turned {
            home: place.inverse(),
            corners,
            bounds: bounds(&place, corners),
        });
        let mut tree = Boxes {
            boxes: turned.collect(),
            nodes: Vec::new(),
        };
        if !tree.boxes.is_empty() {
            tree.grow(0, tree.boxes.len());
        }
        tree
    }

    fn grow(&mut self, first: usize, end: usize) {
        let around = self.boxes[first..end]
            .iter()
            .map(|one| one.bounds)
            .reduce(join);
        let around = around.unwrap_or_default();
        let at = self.nodes.len();
        let count = end - first;
        let leaf = count <= LEAF;
        let held = if leaf { count as u32 } else { 0 };
        self.nodes.push(Node {
            bounds: around,
            first: first as u32,
            count: held,
            skip: 0,
        });
        if !leaf {
            let size = around[1] - around[0];
            let axis = size.max_position();
            let key = |one: &Turned| one.bounds[0][axis] + one.bounds[1][axis];
            self.boxes[first..end].sort_by(|a, b| key(a).total_cmp(&key(b)));
            let middle = first + count / 2;
            self.grow(first, middle);
            self.grow(middle, end);
        }
        self.nodes[at].skip = self.nodes.len() as u32;
    }

    /// How far the nearest box is along a ray, up to `limit`. A box around the beginning counts
    /// for nothing.
    fn nearest(&self, from: Vec3, way: Vec3, limit: f32) -> Option<f32> {
        let over = way.recip();
        let mut best = limit;
        let mut at = 0;
        while let Some(node) = self.nodes.get(at) {
            let [enter, leave] = slab(node.bounds, from, over);
            if enter > leave || leave < 0.0 || enter > best {
                at = node.skip as usize;
                continue;
            }
            let first = node.first as usize;
            for one in &self.boxes[first..first + node.count as usize] {
                let [enter, leave] = slab(one.bounds, from, over);
                if enter > leave || leave < 0.0 || enter > best {
                    continue;
                }
                let from = one.home.transform_point3(from);
                let over = one.home.transform_vector3(way).recip();
                let [enter, leave] = slab(one.corners, from, over);
                if enter <= leave && enter > 0.0 && enter < best {
                    best = enter;
                }
            }
            at += 1;
        }
        (best < limit).then_some(best)
    }

    /// What a point of a face sees.
    pub(crate) fn seen(&self, point: Vec3, normal: Vec3) -> Seen {
        let from = point + normal * OFF;
        Seen {
            sky: self.sky(from, normal),
            sun: self.sun(from, normal),
        }
    }

    fn sky(&self, from: Vec3, normal: Vec3) -> f32 {
        let (right, up) = normal.any_orthonormal_pair();
        let mut open = 0.0;
        for ray in 0..SKY_RAYS {
            let (flat, turn) = spread(ray, SKY_RAYS);
            let rise = (1.0 - flat * flat).sqrt();
            let way = right * (flat * turn.cos()) + up * (flat * turn.sin()) + normal * rise;
            open += match self.nearest(from, way, REACH) {
                Some(far) => (far / REACH).powi(2),
                None => 1.0,
            };
        }
        open / SKY_RAYS as f32
    }

    fn sun(&self, from: Vec3, normal: Vec3) -> f32 {
        let sun = SUN.normalize();
        if normal.dot(sun) < -0.1 {
            return 0.0;
        }
        let (right, up) = sun.any_orthonormal_pair();
        let mut lit = 0;
        for ray in 0..SUN_RAYS {
            let (flat, turn) = spread(ray, SUN_RAYS);
            let aside = (right * turn.cos() + up * turn.sin()) * (flat * SUN_SIZE);
            let way = (sun + aside).normalize();
            lit += u32::from(self.nearest(from, way, SHADOW).is_none());
        }
        lit as f32 / SUN_RAYS as f32
    }
}

/// The ray's place on a disc that all rays cover evenly: distance from the middle, and turn.
fn spread(ray: u32, rays: u32) -> (f32, f32) {
    const GOLDEN: f32 = 2.399_963;
    (
        ((ray as f32 + 0.5) / rays as f32).sqrt(),
        ray as f32 * GOLDEN,
    )
}

/// Where a ray enters a box and leaves it.
fn slab([low, high]: [Vec3; 2], from: Vec3, over: Vec3) -> [f32; 2] {
    let (a, b) = ((low - from) * over, (high - from) * over);
    [a.min(b).max_element(), a.max(b).min_element()]
}

fn join(a: [Vec3; 2], b: [Vec3; 2]) -> [Vec3; 2] {
    [a[0].min(b[0]), a[1].max(b[1])]
}

fn bounds(place: &Affine3A, [low, high]: [Vec3; 2]) -> [Vec3; 2] {
    let middle = place.transform_point3((low + high) * 0.5);
    let half = (high - low) * 0.5;
    let turn = place.matrix3;
    let reach = Vec3::from(turn.x_axis).abs() * half.x
        + Vec3::from(turn.y_axis).abs() * half.y
        + Vec3::from(turn.z_axis).abs() * half.z;
    [middle - reach, middle + reach]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_tree_finds_what_each_box_alone_would() {
        let place = |at: u32| {
            let turn = bevy::math::Quat::from_rotation_z(at as f32 * 0.3);
            let at = at as f32;
            Affine3A::from_rotation_translation(
                turn,
                Vec3::new(at, (at * 1.7).sin() * 2.0, at % 3.0),
            )
        };
        let corners = [Vec3::splat(-0.3), Vec3::splat(0.3)];
        let all = Boxes::new((0..30).map(|at| (place(at), corners)));
        let alone: Vec<Boxes> = (0..30)
            .map(|at| Boxes::new(core::iter::once((place(at), corners))))
            .collect();
        let mut hits = 0;
        for ray in 0..200 {
            let (flat, turn) = spread(ray, 200);
            let way = Vec3::new(flat, 0.3 * turn.cos(), 0.3 * turn.sin()).normalize();
            let from = Vec3::new(-1.0, 0.5, 1.0);
            let each = alone.iter().filter_map(|one| one.nearest(from, way, 50.0));
            let best = each.min_by(f32::total_cmp);
            hits += u32::from(best.is_some());
            assert_eq!(all.nearest(from, way, 50.0), best, "ray {ray}");
        }
        assert!(hits > 15, "{hits}");
    }

    #[test]
    fn under_a_roof_it_is_darker() {
        let roof = [Vec3::new(-1.0, -1.0, 0.5), Vec3::new(1.0, 1.0, 0.6)];
        let tree = Boxes::new(core::iter::once((Affine3A::IDENTITY, roof)));
        let under = tree.seen(Vec3::ZERO, Vec3::Z);
        let open = tree.seen(Vec3::new(9.0, 0.0, 0.0), Vec3::Z);
        assert_eq!(open, Seen { sky: 1.0, sun: 1.0 });
        assert!(under.sky < 0.6 && under.sun < 0.1, "{under:?}");
    }
}
