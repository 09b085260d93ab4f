//! Pictures for counting pixels: the test that compares what is drawn with what the core says is
//! seen reads them.

use bevy::math::{Affine3A, Vec3};
use rackproof_buffer::{Half, HalfSlot};

use super::seen::{Drawn, Lies};
use super::{Hall, Scene};
use crate::frame::{Area, Frame, Piece};

/// Marks of boards in the rack begin here; see [`slot_mark`].
const SLOTS: u32 = 1;
/// Marks of boards on belts, one after the other.
const BELTS: u32 = 200;
/// Mark of the board in the hand.
const HAND: u32 = 300;
/// Marks of the patches; see [`patch_mark`].
const PATCHES: u32 = 1000;
/// Sample points of a half-slot.
pub const POINTS: u32 = 4;

/// Which boards a picture for counting has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Filter {
    /// Those that the frame for the person has.
    AsDrawn,
    /// Every board of the rack, seen or not: only geometry and darkness hide one.
    Off,
}

/// Patches round the sample points by which the core tells that a half is seen empty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Patches {
    /// Half of a patch's side along the flow and across it, in metres.
    pub half: [f32; 2],
    /// How far across the points lie, from the fixed rail, in metres.
    pub across: [f32; 2],
}

/// The mark of the board in a half-slot.
pub fn slot_mark(at: HalfSlot) -> u32 {
    SLOTS + u32::from(at.slot) * 2 + at.half as u32
}

/// The mark of the patch round a sample point, 0 to 3, of a half-slot.
pub fn patch_mark(at: HalfSlot, point: u32) -> u32 {
    PATCHES + (u32::from(at.slot) * 2 + at.half as u32) * POINTS + point
}

/// The mark of the n-th board on belts.
pub fn belt_mark(number: u32) -> u32 {
    BELTS + number
}

impl Hall {
    /// A flat picture with the marks of this module.
    pub fn count_frame(
        &self,
        scene: &Scene,
        area: Area,
        filter: Filter,
        patches: Option<Patches>,
    ) -> Frame {
        let mut pieces = self.pieces(scene);
        let drawn = self.boards_drawn(scene);
        let mut on_belts = BELTS;
        for drawn in drawn
            .iter()
            .filter(|drawn| filter == Filter::AsDrawn || !matches!(drawn.at, Lies::Slot(_)))
        {
            let mark = match drawn.at {
                Lies::Slot(at) => slot_mark(at),
                Lies::Hand => HAND,
                Lies::Belts(_) => {
                    on_belts += 1;
                    on_belts - 1
                }
            };
            pieces.push(Piece {
                mark,
                ..self.board_piece(scene, drawn)
            });
        }
        if filter == Filter::Off {
            for (at, board) in scene.state.machine.rack.iter() {
                let drawn = Drawn {
                    board,
                    at: Lies::Slot(at),
                };
                let piece = self.board_piece(scene, &drawn);
                pieces.push(Piece {
                    mark: slot_mark(at),
                    ..piece
                });
            }
        }
        pieces.extend(
            patches
                .iter()
                .flat_map(|patches| self.patches(scene, patches)),
        );
        Frame {
            pieces,
            shot: self.shot(scene.gaze, scene.state),
            light: self.light(scene),
            area,
            flat: true,
        }
    }

    /// Patches in every half-slot without a board.
    fn patches(&self, scene: &Scene, patches: &Patches) -> Vec<Piece> {
        let rack = self.rack_origin(scene.state);
        let free = (0..self.figures.slots)
            .flat_map(|slot| Half::BOTH.map(|half| HalfSlot { slot, half }))
            .filter(|&at| scene.state.machine.rack.get(at).is_none());
        let quarter = self.figures.length / 8.0;
        let mut pieces = Vec::new();
        for at in free {
            for point in 0..POINTS {
                let along = quarter * (1 + 2 * (point % 2)) as f32;
                let across = patches.across[(point / 2) as usize];
                let place = self.figures.slot_corner(at) + Vec3::new(along, across, 0.0);
                let size = Vec3::new(patches.half[0] * 2.0, patches.half[1] * 2.0, 1.0);
                let place = Affine3A::from_translation(rack + place) * Affine3A::from_scale(size);
                let mark = patch_mark(at, point);
                pieces.push(Piece {
                    mark,
                    ..Piece::new(self.models.probe, place)
                });
            }
        }
        pieces
    }
}
