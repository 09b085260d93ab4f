//! The hall round the machine: floor, wall, marking, where the neighbours stand, the trays beside
//! the panel, and the numbered standing places.

use rackproof_drill::{Stand, Tray};

use super::draft::Draft;
use super::figures::Figures;
use crate::tokens;

/// The wall stands so far behind the fixed rail.
const WALL_Y: f32 = 1.9;
/// Half of the floor's size.
const FLOOR: f32 = 6.0;
/// Between our table and a neighbour's: IPC-SMEMA-9851, at most 9.5 mm.
const BRIDGE: f32 = 0.009;
/// A neighbour's table is open so far; its body begins there.
const OPEN: f32 = 0.42;
/// Radius of a standing place.
const DISC: f32 = 0.13;

/// Standing places in the order of the flow, as they are numbered on the floor.
pub(crate) const IN_ORDER: [Stand; 5] = [
    Stand::Infeed,
    Stand::Hatch,
    Stand::Isolator,
    Stand::Panel,
    Stand::Outfeed,
];

/// Middle of a standing place on the floor.
pub(crate) fn disc_at(stand: Stand) -> [f32; 2] {
    match stand {
        Stand::Infeed => [-0.52, -0.62],
        Stand::Hatch => [0.12, -0.80],
        Stand::Isolator => [0.50, -0.80],
        Stand::Panel => [0.88, -0.86],
        Stand::Outfeed => [1.25, -0.62],
    }
}

/// Floor, wall and marking.
pub(crate) fn room(draft: &mut Draft) {
    let (f, y) = (FLOOR, WALL_Y);
    draft.quad(
        [[-f, -f, 0.0], [f, -f, 0.0], [f, y, 0.0], [-f, y, 0.0]],
        tokens::FLOOR,
    );
    draft.quad(
        [[-f, y, 0.0], [f, y, 0.0], [f, y, 3.2], [-f, y, 3.2]],
        tokens::WALL,
    );
    draft.block([-f, y - 0.015, 0.0], [f, y - 0.001, 0.10], tokens::SIDE);
    for x in [-2.6, -1.3, 0.0, 1.3, 2.6] {
        draft.line([x, y - 0.002, 0.10], [x, y - 0.002, 3.2], true);
    }
    // The lane along the line, and the field before the hatch.
    flat(draft, [-f, -1.42], [f, -1.36], 0.001, tokens::MARKING);
    let (from, to, wide) = ([-0.15, -1.05], [0.70, -0.42], 0.03);
    flat(draft, from, [to[0], from[1] + wide], 0.001, tokens::MARKING);
    flat(draft, [from[0], to[1] - wide], to, 0.001, tokens::MARKING);
    flat(draft, from, [from[0] + wide, to[1]], 0.001, tokens::MARKING);
    flat(draft, [to[0] - wide, from[1]], to, 0.001, tokens::MARKING);
}

fn flat(draft: &mut Draft, from: [f32; 2], to: [f32; 2], z: f32, colour: tokens::Colour) {
    let corner = |x: f32, y: f32| [x, y, z];
    draft.quad(
        [
            corner(from[0], from[1]),
            corner(to[0], from[1]),
            corner(to[0], to[1]),
            corner(from[0], to[1]),
        ],
        colour,
    );
}

/// x of a neighbour's table: where it meets ours, and where its body begins.
pub(crate) fn neighbour_span(figures: &Figures, side: usize) -> [f32; 2] {
    let ours = figures.belt(side);
    if side == 0 {
        let meets = ours[0] - BRIDGE;
        [meets - OPEN, meets]
    } else {
        let meets = ours[1] + BRIDGE;
        [meets, meets + OPEN]
    }
}

/// Corner and corner of a neighbour's body.
pub(crate) fn neighbour_body(figures: &Figures, side: usize) -> ([f32; 3], [f32; 3]) {
    let [from, to] = neighbour_span(figures, side);
    let y = [-0.30, figures.widest + 0.30];
    let x = if side == 0 {
        [from - 1.1, from]
    } else {
        [to, to + 1.1]
    };
    ([x[0], y[0], 0.10], [x[1], y[1], 1.36])
}

/// Corner and corner of a tray.
pub(crate) fn tray_box(tray: Tray) -> ([f32; 3], [f32; 3]) {
    let x = match tray {
        Tray::Good => 1.52,
        Tray::Quarantine => 1.78,
        Tray::Scrap => 2.04,
    };
    ([x, -0.62, 0.66], [x + 0.23, -0.38, 0.74])
}

/// The three trays on a trolley, each with its sign: a tick, a question mark, a cross.
pub(crate) fn trays(draft: &mut Draft) {
    let (first, last) = (tray_box(Tray::Good).0, tray_box(Tray::Scrap).1);
    let (x0, x1, y0, y1, z) = (
        first[0] - 0.02,
        last[0] + 0.02,
        first[1] - 0.02,
        last[1] + 0.02,
        first[2],
    );
    draft.block([x0, y0, z - 0.03], [x1, y1, z], tokens::TOP);
    draft.block(
        [x0 + 0.02, y0 + 0.02, 0.20],
        [x1 - 0.02, y1 - 0.02, 0.22],
        tokens::SIDE,
    );
    for x in [x0, x1 - 0.03] {
        for y in [y0, y1 - 0.03] {
            draft.block([x, y, 0.05], [x + 0.03, y + 0.03, z - 0.03], tokens::SIDE);
            draft.block([x, y, 0.0], [x + 0.03, y + 0.03, 0.05], tokens::INK);
        }
    }
    for tray in [Tray::Good, Tray::Quarantine, Tray::Scrap] {
        let (from, to) = tray_box(tray);
        draft.block(from, [to[0], to[1], from[2] + 0.006], tokens::SIDE);
        let wall = 0.006;
        draft.block(from, [to[0], from[1] + wall, to[2]], tokens::FRONT);
        draft.block([from[0], to[1] - wall, from[2]], to, tokens::FRONT);
        draft.block(from, [from[0] + wall, to[1], to[2]], tokens::FRONT);
        draft.block([to[0] - wall, from[1], from[2]], to, tokens::FRONT);
        let middle = (from[0] + to[0]) / 2.0;
        let strokes = match tray {
            Tray::Good => TICK,
            Tray::Quarantine => QUESTION,
            Tray::Scrap => CROSS,
        };
        for stroke in strokes {
            let at = |[x, z]: [f32; 2]| {
                [
                    middle + x * 0.05,
                    from[1] - 0.002,
                    from[2] + 0.04 + z * 0.05,
                ]
            };
            draft.stroke(at(stroke[0]), at(stroke[1]), 0.006);
        }
    }
}

/// A sign made of strokes, each from and to, in a square of size 1 round the origin.
type Strokes = &'static [[[f32; 2]; 2]];
const TICK: Strokes = &[[[-0.4, 0.0], [-0.1, -0.35]], [[-0.1, -0.35], [0.45, 0.4]]];
const CROSS: Strokes = &[[[-0.4, -0.4], [0.4, 0.4]], [[-0.4, 0.4], [0.4, -0.4]]];
const QUESTION: Strokes = &[
    [[-0.3, 0.3], [0.0, 0.45]],
    [[0.0, 0.45], [0.3, 0.25]],
    [[0.3, 0.25], [0.0, 0.0]],
    [[0.0, 0.0], [0.0, -0.18]],
    [[0.0, -0.36], [0.0, -0.46]],
];
const FIGURES: [Strokes; 5] = [
    &[
        [[-0.2, 0.25], [0.05, 0.5]],
        [[0.05, 0.5], [0.05, -0.5]],
        [[-0.2, -0.5], [0.3, -0.5]],
    ],
    &[
        [[-0.3, 0.35], [0.0, 0.5]],
        [[0.0, 0.5], [0.3, 0.25]],
        [[0.3, 0.25], [-0.3, -0.5]],
        [[-0.3, -0.5], [0.3, -0.5]],
    ],
    &[
        [[-0.3, 0.5], [0.3, 0.5]],
        [[0.3, 0.5], [0.0, 0.1]],
        [[0.0, 0.1], [0.3, -0.2]],
        [[0.3, -0.2], [0.0, -0.5]],
        [[0.0, -0.5], [-0.3, -0.4]],
    ],
    &[
        [[0.15, -0.5], [0.15, 0.5]],
        [[0.15, 0.5], [-0.3, -0.15]],
        [[-0.3, -0.15], [0.35, -0.15]],
    ],
    &[
        [[0.3, 0.5], [-0.25, 0.5]],
        [[-0.25, 0.5], [-0.28, 0.08]],
        [[-0.28, 0.08], [0.3, 0.0]],
        [[0.3, 0.0], [0.25, -0.42]],
        [[0.25, -0.42], [-0.3, -0.5]],
    ],
];

/// A standing place with its number, round the origin: where nobody stands.
pub(crate) fn disc(number: usize) -> Draft {
    let mut draft = plate();
    for stroke in FIGURES[number] {
        let at = |[x, y]: [f32; 2]| [x * 0.13, y * 0.13, 0.0075];
        draft.stroke(at(stroke[0]), at(stroke[1]), 0.016);
    }
    draft
}

/// The standing place where the person stands: two footprints.
pub(crate) fn my_disc() -> Draft {
    let mut draft = plate();
    for x in [-0.042, 0.042] {
        draft.rod([x, 0.035, 0.006], [x, 0.035, 0.0075], 0.026, tokens::INK);
        draft.rod([x, -0.045, 0.006], [x, -0.045, 0.0075], 0.018, tokens::INK);
        draft.stroke([x, 0.03, 0.0075], [x, -0.01, 0.0075], 0.034);
    }
    draft
}

fn plate() -> Draft {
    let mut draft = Draft::new();
    draft.rod([0.0, 0.0, 0.0], [0.0, 0.0, 0.004], DISC, tokens::INK);
    draft.rod(
        [0.0, 0.0, 0.0],
        [0.0, 0.0, 0.006],
        DISC - 0.010,
        tokens::SHEET,
    );
    draft
}

/// Radius of a standing place.
pub(crate) fn disc_radius() -> f32 {
    DISC
}
