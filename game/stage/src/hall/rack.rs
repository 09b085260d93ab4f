//! The rack in its own frame: x and y of the hall, z from slot 1's plane. Its fixed side rides with
//! the lift; its moving side also shifts with the width.

use super::draft::Draft;
use super::figures::Figures;
use crate::tokens;

/// A post is so deep.
const POST: f32 = 0.008;
/// Thickness of a ledge.
const LEDGE: f32 = 0.0008;
/// From slot 1 down to the base, and from the topmost slot's room up to the top.
const BASE_BELOW: f32 = 0.018;
const TOP_ABOVE: f32 = 0.022;
/// Thickness of base and top.
const PLATE: f32 = 0.012;
/// How far the back posts stand behind the moving rail.
const BACK: f32 = 0.04;

/// From the underside of the base to the upper side of the top.
pub(crate) fn heights(figures: &Figures) -> [f32; 2] {
    [-BASE_BELOW - PLATE, figures.stack() + TOP_ABOVE + PLATE]
}

/// Base, top, front posts and the ledges of the fixed side.
pub(crate) fn fixed_side(figures: &Figures) -> Draft {
    let mut draft = Draft::new();
    let [low, high] = heights(figures);
    let (least, most) = ends(figures);
    let back = figures.widest + BACK + 0.05;
    for z in [low, high - PLATE] {
        // Between the ends of the belts, and a bar before them that carries the posts.
        draft.block(
            [0.0, -0.030, z],
            [figures.length, back, z + PLATE],
            tokens::SIDE,
        );
        let bar = figures.posts_at;
        draft.block(
            [least, bar - POST, z],
            [most, -0.030, z + PLATE],
            tokens::SIDE,
        );
    }
    for &(from, to) in &figures.posts {
        let y = figures.posts_at;
        draft.block(
            [from, y - POST / 2.0, low + PLATE],
            [to, y + POST / 2.0, high - PLATE],
            tokens::SIDE,
        );
    }
    screw(&mut draft, figures);
    for slot in 0..figures.slots {
        let z = f32::from(slot) * figures.pitch;
        draft.quiet_block(
            [0.0, -LEDGE, z - LEDGE],
            [figures.length, figures.ledge, z],
            tokens::LEDGE,
        );
        draft.quiet_block(
            [0.0, -LEDGE, z],
            [figures.length, 0.0, z + figures.lip],
            tokens::LEDGE,
        );
        for x in [0.0, figures.length - 0.006] {
            draft.quiet_block(
                [x, figures.posts_at, z - LEDGE],
                [x + 0.006, -LEDGE, z],
                tokens::LEDGE,
            );
        }
    }
    draft
}

/// The end of the rails' screw that stands out before the rack: y from and to, and its height below
/// slot 1. What lies on the screw is drawn there: how far along it lies nobody sees.
const SCREW: [f32; 2] = [-0.16, -0.046];
const SCREW_BELOW: f32 = 0.012;

fn screw(draft: &mut Draft, figures: &Figures) {
    let (x, z) = (figures.length / 2.0, -SCREW_BELOW);
    let [from, to] = SCREW;
    draft.rod([x, from, z], [x, to, z], 0.006, tokens::STEEL);
    let low = heights(figures)[0];
    draft.block(
        [x - 0.018, from - 0.012, low],
        [x + 0.018, from, z + 0.014],
        tokens::SIDE,
    );
    draft.block(
        [x - 0.012, from, low],
        [x + 0.012, to, low + 0.006],
        tokens::SIDE,
    );
}

/// A strip of board on the screw.
pub(crate) fn strip(figures: &Figures) -> Draft {
    let mut draft = Draft::new();
    let (x, z) = (figures.length / 2.0, -SCREW_BELOW + 0.006);
    draft.block(
        [x - 0.045, -0.098, z],
        [x + 0.040, -0.072, z + 0.0016],
        tokens::board("wren"),
    );
    draft
}

/// The ledges of the moving side with its posts, at width nought.
pub(crate) fn moving_side(figures: &Figures) -> Draft {
    let mut draft = Draft::new();
    let [low, high] = heights(figures);
    for &(from, to) in figures
        .posts
        .iter()
        .take(1)
        .chain(figures.posts.iter().skip(1).last())
    {
        // Inside the base, so that they clear the belts.
        let from = from.clamp(0.0, figures.length - 0.02);
        let to = (from + 0.02).max(to.min(figures.length));
        draft.block(
            [from, BACK, low + PLATE],
            [to, BACK + POST, high - PLATE],
            tokens::SIDE,
        );
    }
    for slot in 0..figures.slots {
        let z = f32::from(slot) * figures.pitch;
        draft.quiet_block(
            [0.0, -figures.ledge, z - LEDGE],
            [figures.length, LEDGE, z],
            tokens::LEDGE,
        );
        draft.quiet_block(
            [0.0, 0.0, z],
            [figures.length, LEDGE, z + figures.lip],
            tokens::LEDGE,
        );
        for x in [0.0, figures.length - 0.006] {
            draft.quiet_block([x, LEDGE, z - LEDGE], [x + 0.006, BACK, z], tokens::LEDGE);
        }
    }
    draft
}

/// The carriage that holds the rack to the column: rides with the lift.
pub(crate) fn carriage(figures: &Figures, column_y: f32) -> Draft {
    let mut draft = Draft::new();
    let middle = figures.length / 2.0;
    let [low, _] = heights(figures);
    let back = figures.widest + BACK + 0.05;
    draft.block(
        [middle - 0.13, back, low],
        [middle + 0.13, column_y - 0.012, low + 0.06],
        tokens::SIDE,
    );
    draft.block(
        [middle - 0.12, column_y - 0.024, low],
        [middle + 0.12, column_y - 0.012, low + 0.20],
        tokens::SIDE,
    );
    draft
}

/// A block of darkness that fills a half-slot: what no light reaches, board or none.
pub(crate) fn darkness(figures: &Figures) -> Draft {
    let mut draft = Draft::new();
    draft.dark_block(
        [0.0, 0.0, 0.0],
        [figures.length / 2.0, 1.0, figures.pitch],
        tokens::DARK,
    );
    draft
}

/// x of the outermost posts.
pub(crate) fn ends(figures: &Figures) -> (f32, f32) {
    let ends =
        |(least, most): (f32, f32), &(from, to): &(f32, f32)| (least.min(from), most.max(to));
    figures.posts.iter().fold((0.0, figures.length), ends)
}
