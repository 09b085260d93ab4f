//! From the pieces of a frame to draws: what is in sight, grouped by shape, near before far.

use crate::frame::{Arch, Bow, Frame, MARKS, Piece};
use crate::kit::Kit;
use bevy::math::{Mat4, Vec3, Vec4};
use core::ops::Range;

/// A piece as the shader wants it.
#[derive(Clone, Copy, Debug, Default, PartialEq, bytemuck::Pod, bytemuck::Zeroable)]
#[repr(C)]
pub(super) struct Instance {
    rows: [[f32; 4]; 3],
    tint: [u8; 4],
    bow: [f32; 4],
    mark: u32,
}

/// Pieces of one shape.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Group {
    /// Index of the shape in the kit.
    pub(super) part: usize,
    /// Its pieces among all instances.
    pub(super) instances: Range<u32>,
    /// Where the first of them counts, as [`depth`] says.
    near: f32,
}

/// What of the chosen pieces is in sight, behind the instances that are there. Groups come near
/// before far, so that what lies behind is seldom shaded.
pub(super) fn load(
    (frame, kit): (&Frame, &Kit),
    chosen: impl Fn(usize) -> bool,
    instances: &mut Vec<Instance>,
) -> Vec<Group> {
    let clip = frame.shot.view_projection(frame.area.aspect());
    let mut seen: Vec<(usize, f32, &Piece)> = Vec::new();
    let all = frame.pieces.iter().enumerate();
    for (_, piece) in all.filter(|(at, _)| chosen(*at)) {
        let part = usize::from(piece.shape.0);
        let Some(shape) = kit.parts.get(part) else {
            continue;
        };
        let middle = piece.place.transform_point3(shape.middle);
        let radius = shape.radius * grown(piece) + piece.bow.most();
        if in_sight(&clip, middle, radius) {
            seen.push((part, depth(middle.distance(frame.shot.eye), radius), piece));
        }
    }
    seen.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let mut groups: Vec<Group> = Vec::new();
    for (part, near, piece) in &seen {
        let at = instances.len() as u32;
        instances.push(instance(piece));
        match groups.last_mut() {
            Some(group) if group.part == *part => group.instances.end = at + 1,
            _ => groups.push(Group {
                part: *part,
                instances: at..at + 1,
                near: *near,
            }),
        }
    }
    groups.sort_by(|a, b| a.near.total_cmp(&b.near));
    groups
}

/// Where a ball counts in the order of drawing, in metres from the eye: by its near side, and by
/// its far side if the eye is in it. So floor and walls, which are around everything, come last.
fn depth(distance: f32, radius: f32) -> f32 {
    if distance > radius {
        distance - radius
    } else {
        distance + radius
    }
}

/// How much longer a piece's place makes things.
fn grown(piece: &Piece) -> f32 {
    let turn = piece.place.matrix3;
    turn.x_axis
        .length()
        .max(turn.y_axis.length())
        .max(turn.z_axis.length())
}

/// Whether a ball reaches into the picture: its five sides have the eye's side inside.
fn in_sight(clip: &Mat4, middle: Vec3, radius: f32) -> bool {
    let row = |at: usize| clip.row(at);
    let sides = [
        row(3) + row(0),
        row(3) - row(0),
        row(3) + row(1),
        row(3) - row(1),
        row(3),
    ];
    sides
        .iter()
        .all(|side: &Vec4| side.dot(middle.extend(1.0)) > -radius * side.truncate().length())
}

fn instance(piece: &Piece) -> Instance {
    let turn = piece.place.matrix3;
    let move_by = piece.place.translation;
    let row = |at: usize| {
        [
            turn.x_axis[at],
            turn.y_axis[at],
            turn.z_axis[at],
            move_by[at],
        ]
    };
    let tint = piece.tint.map_or([0; 4], |tint| {
        let [red, green, blue] = tint.0;
        [red, green, blue, 255]
    });
    let turns = |arch: Arch| core::f32::consts::PI / arch.span.max(1e-3);
    let Bow { across, along } = piece.bow;
    let bow = [across.rise, turns(across), along.rise, turns(along)];
    Instance {
        rows: [row(0), row(1), row(2)],
        tint,
        bow,
        mark: piece.mark % MARKS,
    }
}
