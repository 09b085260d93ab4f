//! What rests is drawn once: while the eye and the light stay, solid faces that do not move are
//! kept with their depth, and only those that move are drawn again over them.
//!
//! Ink and glass are mixed over what lies behind them, so they are drawn anew each time. The
//! picture is the same as if all of it were drawn.

use super::sheet::Sheet;
use crate::frame::Frame;

/// Faces that rested when it was drawn.
pub(super) struct Backdrop {
    pub(super) sheet: Sheet,
    pub(super) shows: Rest,
}

/// Which pieces of a frame rest.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Rest {
    pub(super) frame: Frame,
    /// For each piece of the frame, whether it rests.
    pub(super) rests: Vec<bool>,
}

/// How a frame is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Plan {
    /// All of it.
    Whole,
    /// A new backdrop first, then what moves.
    New,
    /// The backdrop that is there, then what moves.
    Kept,
}

/// How to draw a frame after the one that was drawn last, and which of its pieces rest. `kept` is
/// what the backdrop shows.
pub(super) fn plan(last: Option<&Frame>, kept: Option<&Rest>, frame: &Frame) -> (Plan, Rest) {
    let rest = |rests| Rest {
        frame: frame.clone(),
        rests,
    };
    if let Some(kept) = kept.filter(|kept| alike(&kept.frame, frame)) {
        let pairs = kept.frame.pieces.iter().zip(&frame.pieces);
        let mut pairs = pairs.zip(&kept.rests);
        if pairs.all(|((old, new), rests)| !rests || old == new) {
            return (Plan::Kept, rest(kept.rests.clone()));
        }
    }
    let Some(last) = last.filter(|last| alike(last, frame)) else {
        return (Plan::Whole, rest(Vec::new()));
    };
    let pairs = last.pieces.iter().zip(&frame.pieces);
    (
        Plan::New,
        rest(pairs.map(|(old, new)| old == new).collect()),
    )
}

/// Whether only pieces may differ. A flat picture is drawn once: nothing of it is kept.
fn alike(old: &Frame, new: &Frame) -> bool {
    let look = |frame: &Frame| (frame.shot, frame.light, frame.area, frame.flat);
    look(old) == look(new) && !new.flat && old.pieces.len() == new.pieces.len()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frame::{Area, Light, Piece, ShapeId, Shot};
    use bevy::math::{Affine3A, Vec3};

    fn frame(places: &[f32], eye: f32) -> Frame {
        let piece = |x: &f32| Piece::new(ShapeId(0), Affine3A::from_translation(Vec3::X * *x));
        Frame {
            pieces: places.iter().map(piece).collect(),
            shot: Shot {
                eye: Vec3::splat(eye),
                aim: Vec3::ZERO,
                fov_y: 1.0,
            },
            light: Light::DAY,
            area: Area::default(),
            flat: false,
        }
    }

    #[test]
    fn a_backdrop_is_kept_until_something_of_it_moves_or_the_eye_does() {
        let steps: [(&[f32], f32, Plan, &[bool]); 8] = [
            (&[1.0, 2.0, 3.0], 1.0, Plan::Whole, &[]),
            (&[1.0, 2.0, 3.1], 1.0, Plan::New, &[true, true, false]),
            (&[1.0, 2.0, 3.2], 1.0, Plan::Kept, &[true, true, false]),
            // What moved before may rest by now: it is drawn again all the same.
            (&[1.0, 2.0, 3.2], 1.0, Plan::Kept, &[true, true, false]),
            (&[1.0, 2.5, 3.2], 1.0, Plan::New, &[true, false, true]),
            (&[1.0, 2.5, 3.2, 4.0], 1.0, Plan::Whole, &[]),
            (&[1.0, 2.5, 3.2, 4.0], 2.0, Plan::Whole, &[]),
            (
                &[1.0, 2.5, 3.2, 4.5],
                2.0,
                Plan::New,
                &[true, true, true, false],
            ),
        ];
        let (mut last, mut kept): (Option<Frame>, Option<Rest>) = (None, None);
        for (at, (places, eye, expected, resting)) in steps.into_iter().enumerate() {
            let frame = frame(places, eye);
            let (found, rest) = plan(last.as_ref(), kept.as_ref(), &frame);
            assert_eq!((found, rest.rests.as_slice()), (expected, resting), "{at}");
            if found == Plan::New {
                kept = Some(rest);
            }
            last = Some(frame);
        }
    }

    #[test]
    fn of_a_flat_picture_nothing_is_kept() {
        let flat = Frame {
            flat: true,
            ..frame(&[1.0], 1.0)
        };
        let rest = Rest {
            frame: flat.clone(),
            rests: vec![true],
        };
        assert_eq!(plan(Some(&flat), Some(&rest), &flat).0, Plan::Whole);
    }
}
