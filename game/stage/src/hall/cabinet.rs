//! What stands still of the machine: frame of extruded profiles, covers with the mouths in them,
//! feet, lift column; and the hatch.

use super::draft::Draft;
use super::figures::{BELT_HEIGHT, Figures};
use crate::tokens;

/// A profile is so wide.
const PROFILE: f32 = 0.045;
/// The cabinet's front and back, y; its back stands so far behind the widest rails.
const FRONT_Y: f32 = -0.30;
const BEHIND: f32 = 0.28;
/// Height of the underside; the highest sill of the hatch and the lowest top, for small racks.
const UNDER: f32 = 0.12;
const SILL_MOST: f32 = 0.56;
const TOP_LEAST: f32 = 1.62;
/// Room under the rack at its lowest, and over it at its highest.
const ROOM_BELOW: f32 = 0.07;
const ROOM_ABOVE: f32 = 0.10;
/// Thickness of a cover.
const COVER: f32 = 0.003;
/// How far a mouth reaches below the belts, and beside the rails.
const MOUTH_BELOW: f32 = 0.07;
const MOUTH_BESIDE: f32 = 0.045;

/// Places of the cabinet.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Cabinet {
    /// x from, x to, outside.
    pub(crate) x: [f32; 2],
    /// y from, y to, outside.
    pub(crate) y: [f32; 2],
    /// Heights of the hatch: from sill to lintel.
    pub(crate) hatch: [f32; 2],
    pub(crate) top: f32,
}

impl Cabinet {
    /// As high and as deep as the rack needs with any of its slots at the belts.
    pub(crate) fn of(figures: &Figures) -> Cabinet {
        let stack = figures.stack();
        let sill = (BELT_HEIGHT - stack - ROOM_BELOW).min(SILL_MOST);
        let highest = BELT_HEIGHT + figures.reference_below + stack + ROOM_ABOVE;
        let top = highest.max(TOP_LEAST);
        Cabinet {
            x: figures.covers(),
            y: [FRONT_Y, figures.widest + BEHIND],
            hatch: [sill.max(UNDER + 2.0 * PROFILE), top - PROFILE],
            top,
        }
    }

    /// The hatch, shut, without its profiles' depth: corner and corner.
    pub(crate) fn hatch_box(&self) -> ([f32; 3], [f32; 3]) {
        let y = self.y[0];
        let from = [self.x[0] + 0.004, y - 0.022, self.hatch[0] + 0.004];
        (
            from,
            [
                self.x[1] - 0.004,
                y - 0.002,
                self.hatch[1] + PROFILE - 0.004,
            ],
        )
    }
}

/// Everything of the cabinet that stands still and is not clear.
pub(crate) fn cabinet(draft: &mut Draft, figures: &Figures) {
    let cabinet = Cabinet::of(figures);
    frame(draft, &cabinet);
    for (from, to) in [0, 1]
        .into_iter()
        .flat_map(|side| side_plates(figures, side))
    {
        draft.block(from, to, tokens::FRONT);
    }
    for (from, to) in plates(figures) {
        draft.block(from, to, tokens::FRONT);
    }
    column(draft, figures, &cabinet);
}

fn frame(draft: &mut Draft, cabinet: &Cabinet) {
    let ([x0, x1], [y0, y1]) = (cabinet.x, cabinet.y);
    let (sill, top) = (cabinet.hatch[0], cabinet.top);
    for (from, to) in uprights(cabinet) {
        draft.profile(from, to, tokens::SIDE);
        let [x, y] = [from[0] + PROFILE / 2.0, from[1] + PROFILE / 2.0];
        draft.rod([x, y, 0.0], [x, y, 0.025], 0.03, tokens::INK);
        draft.rod([x, y, 0.025], [x, y, UNDER], 0.009, tokens::STEEL);
    }
    for x in [x0, x1 - PROFILE] {
        for z in [UNDER, top - PROFILE] {
            let (from, to) = (
                [x, y0 + PROFILE, z],
                [x + PROFILE, y1 - PROFILE, z + PROFILE],
            );
            draft.profile(from, to, tokens::SIDE);
        }
    }
    for y in [y0, y1 - PROFILE] {
        for z in [UNDER, sill - PROFILE, top - PROFILE] {
            let (from, to) = (
                [x0 + PROFILE, y, z],
                [x1 - PROFILE, y + PROFILE, z + PROFILE],
            );
            draft.profile(from, to, tokens::SIDE);
        }
    }
}

/// The four plates of a side cover round its mouth, so that nothing but the slot at the belts is
/// seen through it: corner and corner.
pub(crate) fn side_plates(figures: &Figures, side: usize) -> [([f32; 3], [f32; 3]); 4] {
    let cabinet = Cabinet::of(figures);
    let x = cabinet.x[side] - COVER / 2.0;
    let [y0, y1] = [cabinet.y[0] + 0.001, cabinet.y[1] - 0.001];
    let mouth_y = [-MOUTH_BESIDE, figures.widest + MOUTH_BESIDE];
    let mouth_z = [
        BELT_HEIGHT - MOUTH_BELOW,
        BELT_HEIGHT + figures.mouth_height(side),
    ];
    let plate = |y: [f32; 2], z: [f32; 2]| ([x, y[0], z[0]], [x + COVER, y[1], z[1]]);
    [
        plate([y0, y1], [UNDER, mouth_z[0]]),
        plate([y0, y1], [mouth_z[1], cabinet.top]),
        plate([y0, mouth_y[0]], mouth_z),
        plate([mouth_y[1], y1], mouth_z),
    ]
}

/// The other plates: back, roof, floor of the inside, lower front.
pub(crate) fn plates(figures: &Figures) -> [([f32; 3], [f32; 3]); 4] {
    let cabinet = Cabinet::of(figures);
    let ([x0, x1], [y0, y1]) = (cabinet.x, cabinet.y);
    let (sill, top) = (cabinet.hatch[0], cabinet.top);
    [
        ([x0, y1 - COVER, UNDER], [x1, y1, top]),
        ([x0, y0, top], [x1, y1, top + 0.012]),
        ([x0, y0, sill - 0.03], [x1, y1, sill - 0.02]),
        (
            [x0 + PROFILE, y0 - 0.002, UNDER + PROFILE],
            [x1 - PROFILE, y0 + 0.004, sill - PROFILE],
        ),
    ]
}

/// The upright profiles at the corners: corner and corner.
pub(crate) fn uprights(cabinet: &Cabinet) -> [([f32; 3], [f32; 3]); 4] {
    let ([x0, x1], [y0, y1]) = (cabinet.x, cabinet.y);
    let upright = |x: f32, y: f32| ([x, y, UNDER], [x + PROFILE, y + PROFILE, cabinet.top]);
    [
        upright(x0, y0),
        upright(x1 - PROFILE, y0),
        upright(x0, y1 - PROFILE),
        upright(x1 - PROFILE, y1 - PROFILE),
    ]
}

/// The lift's column with its two guides and the screw, behind the rack.
fn column(draft: &mut Draft, figures: &Figures, cabinet: &Cabinet) {
    let (middle, y) = (figures.length / 2.0, cabinet.y[1] - 0.10);
    let (low, high) = (cabinet.hatch[0] - 0.02, cabinet.top - 0.02);
    for x in [middle - 0.12, middle + 0.12 - PROFILE] {
        draft.profile([x, y, low], [x + PROFILE, y + 0.06, high], tokens::SIDE);
        draft.block(
            [x + 0.012, y - 0.012, low],
            [x + 0.033, y, high],
            tokens::STEEL,
        );
    }
    draft.rod(
        [middle, y + 0.01, low],
        [middle, y + 0.01, high],
        0.010,
        tokens::STEEL,
    );
    draft.block(
        [middle - 0.04, y - 0.03, high - 0.08],
        [middle + 0.04, y + 0.05, high],
        tokens::BEZEL,
    );
}

/// The hatch's profiles, in its own frame: hinge along z at the origin, its width along x.
pub(crate) fn hatch_frame(figures: &Figures) -> Draft {
    let [x, z] = hatch_size(figures);
    let (y, wide) = ([-0.020, 0.0], 0.04);
    let mut draft = Draft::new();
    draft.block([0.0, y[0], 0.0], [wide, y[1], z], tokens::SIDE);
    draft.block([x - wide, y[0], 0.0], [x, y[1], z], tokens::SIDE);
    draft.block([wide, y[0], 0.0], [x - wide, y[1], wide], tokens::SIDE);
    draft.block([wide, y[0], z - wide], [x - wide, y[1], z], tokens::SIDE);
    // The handle stands out at the side that opens.
    let (at, low) = (x - wide / 2.0, z * 0.42);
    draft.block(
        [at - 0.008, -0.060, low],
        [at + 0.008, -0.045, low + 0.16],
        tokens::INK,
    );
    for end in [low + 0.01, low + 0.13] {
        draft.block(
            [at - 0.006, -0.046, end],
            [at + 0.006, -0.020, end + 0.02],
            tokens::INK,
        );
    }
    draft
}

/// The hatch's pane, in the same frame.
pub(crate) fn hatch_pane(figures: &Figures, tinted: bool) -> Draft {
    let [x, z] = hatch_size(figures);
    let (colour, covers) = if tinted {
        (tokens::TINTED, tokens::TINTED_COVERS)
    } else {
        (tokens::CLEAR, tokens::CLEAR_COVERS)
    };
    let mut draft = Draft::new();
    let corner = |x: f32, z: f32| [x, -0.010, z];
    let (low, right, high) = (0.04, x - 0.04, z - 0.04);
    draft.glass(
        [
            corner(low, low),
            corner(right, low),
            corner(right, high),
            corner(low, high),
        ],
        colour,
        covers,
    );
    draft
}

/// Where the hatch hangs: its hinge, at the infeed side.
pub(crate) fn hatch_hinge(figures: &Figures) -> [f32; 3] {
    let (from, _) = Cabinet::of(figures).hatch_box();
    [from[0], from[1] + 0.020, from[2]]
}

/// Width and height of the hatch.
pub(crate) fn hatch_size(figures: &Figures) -> [f32; 2] {
    let (from, to) = Cabinet::of(figures).hatch_box();
    [to[0] - from[0], to[2] - from[2]]
}
