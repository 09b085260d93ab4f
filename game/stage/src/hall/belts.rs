//! The infeed and the outfeed: a table on legs, a fixed and a moving rail with a belt at each, and
//! a hood from the cover to the table's end. What lies on a belt is seen at the hood's open end
//! alone, by somebody who bends down there.

use super::draft::Draft;
use super::figures::{BELT_HEIGHT, Figures};
use crate::tokens;

/// A rail is so thick and so deep below the belts.
const RAIL: f32 = 0.025;
const RAIL_BELOW: f32 = 0.055;
/// A belt is so wide.
const BELT: f32 = 0.008;
/// The hood's inside height above the belts.
const HOOD: f32 = 0.10;
const SHEET: f32 = 0.003;
/// From the rails out to the hood.
const BESIDE: f32 = 0.05;

/// x from and to of a hood: from the side cover to the table's end.
pub(crate) fn hood_span(figures: &Figures, side: usize) -> [f32; 2] {
    let ([begin, end], covers) = (figures.belt(side), figures.covers());
    if side == 0 {
        [begin, covers[0]]
    } else {
        [covers[1], end]
    }
}

/// The table with the fixed rail.
pub(crate) fn table(draft: &mut Draft, figures: &Figures, side: usize) {
    let [begin, end] = figures.belt(side);
    let top = BELT_HEIGHT;
    rail(draft, [begin, end], -RAIL, figures.lip);
    draft.block([begin, 0.0, top - 0.012], [end, BELT, top], tokens::RUBBER);
    // A pan under the boards: nobody looks past a belt into the slots below.
    let pan = [begin, 0.002, top - 0.045];
    draft.block(
        pan,
        [end, figures.widest + BESIDE, top - 0.040],
        tokens::SIDE,
    );
    let [from, to] = hood_span(figures, side);
    let (near, far) = (-RAIL - 0.012, figures.widest + BESIDE);
    let outer = if side == 0 { from + 0.05 } else { to - 0.09 };
    for y in [near, far - 0.04] {
        draft.profile(
            [outer, y, 0.02],
            [outer + 0.04, y + 0.04, top - RAIL_BELOW],
            tokens::SIDE,
        );
        draft.rod(
            [outer + 0.02, y + 0.02, 0.0],
            [outer + 0.02, y + 0.02, 0.02],
            0.022,
            tokens::INK,
        );
    }
    let (low, high) = (0.22, 0.26);
    draft.profile(
        [outer, near + 0.04, low],
        [outer + 0.04, far - 0.04, high],
        tokens::SIDE,
    );
    let under = top - RAIL_BELOW;
    for y in [near, far - 0.04] {
        draft.profile([from, y, under - 0.03], [to, y + 0.04, under], tokens::SIDE);
    }
}

/// The moving rail with its belt, at width nought: of either table.
pub(crate) fn moving_rail(figures: &Figures, side: usize) -> Draft {
    let mut draft = Draft::new();
    let [begin, end] = figures.belt(side);
    rail(&mut draft, [begin, end], 0.0, figures.lip);
    let top = BELT_HEIGHT;
    draft.block([begin, -BELT, top - 0.012], [end, 0.0, top], tokens::RUBBER);
    draft
}

fn rail(draft: &mut Draft, [begin, end]: [f32; 2], y: f32, lip: f32) {
    let (low, high) = (BELT_HEIGHT - RAIL_BELOW, BELT_HEIGHT + lip);
    draft.profile([begin, y, low], [end, y + RAIL, high], tokens::SIDE);
}

/// A hood of sheet, with a dark apron on the cover above the mouth: the torch does not dazzle.
pub(crate) fn hood(figures: &Figures, side: usize) -> Draft {
    let mut draft = Draft::new();
    let ([from, to], [near, far], [low, high]) = hood_walls(figures, side);
    let cover = figures.covers()[side];
    let [front, back] = if side == 0 {
        [cover - 0.004, cover]
    } else {
        [cover, cover + 0.004]
    };
    let mouth = BELT_HEIGHT + figures.mouth_height(side) + 0.0002;
    draft.block([front, near, mouth], [back, far, high], tokens::BEZEL);
    draft.block([from, near, high], [to, far, high + SHEET], tokens::TOP);
    draft.block([from, near, low], [to, near + SHEET, high], tokens::FRONT);
    draft.block([from, far - SHEET, low], [to, far, high], tokens::FRONT);
    draft
}

/// The same hood as clear glass, for debrief and trainer.
pub(crate) fn clear_hood(figures: &Figures, side: usize) -> Draft {
    let mut draft = Draft::new();
    let ([from, to], [near, far], [low, high]) = hood_walls(figures, side);
    let (colour, covers) = (tokens::CLEAR, tokens::CLEAR_COVERS);
    let wall = |y: f32| [[from, y, low], [to, y, low], [to, y, high], [from, y, high]];
    let roof = [
        [from, near, high],
        [to, near, high],
        [to, far, high],
        [from, far, high],
    ];
    for corners in [wall(near), wall(far), roof] {
        draft.glass(corners, colour, covers);
    }
    let edges = [
        ([from, near, high], [to, near, high]),
        ([from, far, high], [to, far, high]),
    ];
    for (from, to) in edges {
        draft.line(from, to, true);
    }
    draft
}

/// x, y and z from and to of a hood.
pub(crate) fn hood_walls(figures: &Figures, side: usize) -> ([f32; 2], [f32; 2], [f32; 2]) {
    let beside = [-RAIL - 0.012, figures.widest + BESIDE];
    let height = [BELT_HEIGHT - RAIL_BELOW, BELT_HEIGHT + HOOD];
    (hood_span(figures, side), beside, height)
}

/// The beams at the mouths and the end beam: lines of light, drawn only when everything is shown.
pub(crate) fn beams(figures: &Figures) -> Draft {
    let mut draft = Draft::new();
    for (from, to) in figures.beams {
        let height = |point: bevy::math::Vec3| [point.x, point.y, point.z + BELT_HEIGHT];
        draft.light(height(from), height(to), tokens::RED);
    }
    for (x, high) in upright(figures) {
        let z = BELT_HEIGHT;
        draft.light([x, 0.03, z + high], [x, 0.03, z], tokens::RED);
    }
    draft
}

/// Beams that stand upright: where, x, and from how high above the belts. The end beam, and what
/// the machine has besides.
fn upright(figures: &Figures) -> impl Iterator<Item = (f32, f32)> + '_ {
    let [_, end] = figures.belt(1);
    let end = (end - figures.end_beam_before, 0.06);
    let more = figures.upright_beams.iter();
    std::iter::once(end).chain(more.map(|&x| (x, figures.pitch.min(0.02))))
}

/// Half of a beam's sensor, and how high it is: at a mouth, and at the end of the outfeed belt.
const SENSORS: [([f32; 2], f32); 3] = [
    ([0.004, 0.003], 0.006),
    ([0.004, 0.003], 0.006),
    ([0.010, 0.010], 0.030),
];

/// The sensor of a beam by its number, standing on the origin.
pub(crate) fn sensor(number: usize) -> Draft {
    let mut draft = Draft::new();
    let ([x, y], high) = SENSORS[number];
    draft.block([-x, -y, 0.0], [x, y, high], tokens::BEZEL);
    draft
}

/// A film on its lens, which lies below: it runs up the sides.
pub(crate) fn film(number: usize) -> Draft {
    let mut draft = Draft::new();
    let ([x, y], high) = SENSORS[number];
    let (more, up) = (0.0006, high * 0.55);
    draft.quiet_block(
        [-x - more, -y - more, -more],
        [x + more, y + more, up],
        tokens::SHEET,
    );
    for share in [-0.5, 0.3] {
        for face in [-x - more, x + more] {
            draft.stroke(
                [face, y * share, up * 0.2],
                [face, y * share + y * 0.3, up * 0.8],
                0.0003,
            );
        }
    }
    draft
}

/// The lamp of a sensor, lit, low on three of its sides.
pub(crate) fn beam_lamp(number: usize) -> Draft {
    let mut draft = Draft::new();
    let ([x, y], high) = SENSORS[number];
    let (size, z, out) = (x * 0.45, high * 0.3, x * 0.1);
    let mut lamp = |from: [f32; 3], to: [f32; 3]| {
        draft.glowing_rod(from, to, size, tokens::YELLOW);
    };
    lamp([-x, 0.0, z], [-x - out, 0.0, z]);
    lamp([x, 0.0, z], [x + out, 0.0, z]);
    lamp([0.0, y, z], [0.0, y + out, z]);
    draft
}
