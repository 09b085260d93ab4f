//! The machines before and behind ours, and what may stand in their place: shapes in the frame of
//! the hall. Between them and ours stands the box with the plug of the two signals. Their small
//! lamps are drawn for who stands there, and for nobody else.

use bevy::math::Vec3;
use rackproof_buffer::Side;
use rackproof_drill::Cue;

use super::draft::Draft;
use super::figures::{BELT_HEIGHT, Figures};
use super::room::{neighbour_body, neighbour_span};
use crate::tokens::{self, Colour};

/// The box of the signals: half of its width, its depth, its lowest and highest, y of its front.
const BOX: [f32; 2] = [0.09, 0.05];
const BOX_HIGH: [f32; 2] = [0.70, 0.86];
const BOX_FRONT: f32 = -0.13;
/// How far its middle is from where the tables meet.
const BOX_FROM_MEETING: f32 = 0.14;
/// Height of the plug.
const PLUG: f32 = 0.755;
/// Height of a neighbour's hood above its belts.
const HOOD: f32 = 0.06;
/// A lamp's radius.
const LAMP: f32 = 0.013;

/// A lamp at a side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Lamp {
    /// At our end of the cable: 0 the neighbour's signal, 1 ours.
    Ours(usize),
    /// At the neighbour's end, in the same order.
    Theirs(usize),
    /// For a board that failed its test.
    Failed,
    /// On the neighbour: it stands.
    Stands,
    /// On the neighbour: it runs.
    Runs,
}

impl Lamp {
    /// Its colour when it is lit. Places tell them apart as well: what stands is above.
    pub(crate) fn colour(self) -> Colour {
        match self {
            Lamp::Ours(_) | Lamp::Theirs(_) => tokens::TORCHLIGHT,
            Lamp::Failed => tokens::YELLOW,
            Lamp::Stands => tokens::RED,
            Lamp::Runs => tokens::GREEN,
        }
    }
}

/// Away from our machine along the flow: -1 upstream, 1 downstream.
fn outwards(side: Side) -> f32 {
    match side {
        Side::Infeed => -1.0,
        Side::Outfeed => 1.0,
    }
}

/// Where a neighbour's table meets ours.
fn meeting(figures: &Figures, side: Side) -> f32 {
    let span = neighbour_span(figures, side as usize);
    match side {
        Side::Infeed => span[1],
        Side::Outfeed => span[0],
    }
}

/// Middle of the box of the signals, on its front.
fn box_at(figures: &Figures, side: Side) -> Vec3 {
    let x = meeting(figures, side) + outwards(side) * BOX_FROM_MEETING;
    Vec3::new(x, BOX_FRONT, PLUG)
}

/// Whether something else stands where the machine at a side would.
pub(crate) fn replaces_body(cues: &[Cue], side: Side) -> bool {
    let mut others = vec![Cue::TestBox(side), Cue::NoMachine(side)];
    others.push(match side {
        Side::Infeed => Cue::FedByHand,
        Side::Outfeed => Cue::TakesAlways,
    });
    others.iter().any(|cue| cues.contains(cue))
}

/// Where a lamp is.
pub(crate) fn lamp_at(figures: &Figures, side: Side, lamp: Lamp) -> Vec3 {
    let place = box_at(figures, side);
    let number = |number: usize| number as f32;
    match lamp {
        Lamp::Theirs(at) => place + Vec3::new(-0.05 + 0.05 * number(at), 0.0, 0.07),
        Lamp::Failed => place + Vec3::new(0.05, 0.0, 0.07),
        Lamp::Ours(at) => {
            let x = meeting(figures, side) - outwards(side) * 0.045;
            Vec3::new(x, our_plate()[0], 0.85 - 0.04 * number(at))
        }
        Lamp::Stands | Lamp::Runs => {
            let (from, to) = neighbour_body(figures, side as usize);
            let near = if side == Side::Infeed { to[0] } else { from[0] };
            let lower = if lamp == Lamp::Runs { 0.05 } else { 0.0 };
            Vec3::new(near + outwards(side) * 0.08, from[1] - 0.008, 1.30 - lower)
        }
    }
}

/// y of the front and of the back of the plate with our lamps.
fn our_plate() -> [f32; 2] {
    [-0.066, -0.05]
}

/// Where the leading edge of a board is that upstream has at its exit: at the end of its table, or
/// in the hands of who feeds.
pub(crate) fn exit(figures: &Figures, by_hand: bool) -> Vec3 {
    let x = meeting(figures, Side::Infeed) - 0.02;
    let high = if by_hand { 0.11 } else { 0.0 };
    Vec3::new(x, 0.0, BELT_HEIGHT + high)
}

/// Corner and corner of the box of the signals.
pub(crate) fn signal_box(figures: &Figures, side: Side) -> ([f32; 3], [f32; 3]) {
    let (at, [wide, deep], [low, high]) = (box_at(figures, side), BOX, BOX_HIGH);
    ([at.x - wide, at.y, low], [at.x + wide, at.y + deep, high])
}

/// What always stands at a side: the box of the signals with its socket, and the plate with our
/// lamps.
pub(crate) fn signals(draft: &mut Draft, figures: &Figures, side: Side) {
    let Vec3 { x, y, z } = box_at(figures, side);
    let (deep, low) = (BOX[1], BOX_HIGH[0]);
    draft.rod([x, y + deep, 0.0], [x, y + deep, low], 0.016, tokens::SIDE);
    draft.rod([x, y + deep, 0.0], [x, y + deep, 0.012], 0.05, tokens::SIDE);
    let (from, to) = signal_box(figures, side);
    draft.block(from, to, tokens::PANEL);
    draft.rod([x, y, z], [x, y - 0.006, z], 0.026, tokens::INK);
    draft.rod([x, y - 0.006, z], [x, y - 0.008, z], 0.018, tokens::STEEL);
    let ours = lamp_at(figures, side, Lamp::Ours(0));
    let [front, back] = our_plate();
    draft.block(
        [ours.x - 0.022, front, ours.z - 0.065],
        [ours.x + 0.022, back, ours.z + 0.025],
        tokens::PANEL,
    );
}

/// A neighbour's table without its far rail: it meets ours.
pub(crate) fn table(figures: &Figures, side: Side) -> Draft {
    let mut draft = Draft::new();
    let [from, to] = neighbour_span(figures, side as usize);
    let (top, far) = (BELT_HEIGHT, figures.widest);
    draft.block(
        [from, -0.025, top - 0.10],
        [to, 0.0, top + 0.004],
        tokens::SIDE,
    );
    draft.block([from, 0.0, top - 0.06], [to, far, top - 0.05], tokens::SIDE);
    draft.block([from, 0.0, top - 0.012], [to, 0.008, top], tokens::RUBBER);
    let leg = if side == Side::Infeed {
        to - 0.10
    } else {
        from + 0.06
    };
    draft.profile(
        [leg, 0.10, 0.0],
        [leg + 0.04, 0.14, top - 0.10],
        tokens::SIDE,
    );
    draft
}

/// A neighbour's far rail with its belt, at width nought.
pub(crate) fn rail(figures: &Figures, side: Side) -> Draft {
    let mut draft = Draft::new();
    let ([from, to], top) = (neighbour_span(figures, side as usize), BELT_HEIGHT);
    draft.block(
        [from, 0.0, top - 0.05],
        [to, 0.03, top + 0.004],
        tokens::STEEL,
    );
    draft.block([from, -0.008, top - 0.012], [to, 0.0, top], tokens::RUBBER);
    draft
}

/// y and z from and to of a neighbour's hood.
fn hood_walls(figures: &Figures) -> ([f32; 2], [f32; 2]) {
    let y = [-0.03, figures.widest + 0.04];
    (y, [BELT_HEIGHT - 0.05, BELT_HEIGHT + HOOD])
}

/// A neighbour's hood, as it is seen from afar.
pub(crate) fn hood(figures: &Figures, side: Side) -> Draft {
    let mut draft = Draft::new();
    let [from, to] = neighbour_span(figures, side as usize);
    let ([near, far], [low, high]) = hood_walls(figures);
    draft.block([from, near, low], [to, far, high], tokens::FRONT);
    draft
}

/// The same hood for who stands beside it and looks through.
pub(crate) fn clear_hood(figures: &Figures, side: Side) -> Draft {
    let mut draft = Draft::new();
    let [from, to] = neighbour_span(figures, side as usize);
    let ([near, far], [_, high]) = hood_walls(figures);
    let roof = [
        [from, near, high],
        [to, near, high],
        [to, far, high],
        [from, far, high],
    ];
    draft.glass(roof, tokens::CLEAR, tokens::CLEAR_COVERS);
    for y in [near, far] {
        draft.line([from, y, high], [to, y, high], true);
    }
    draft
}

/// A neighbour's body with its own mouth.
pub(crate) fn body(figures: &Figures, side: Side) -> Draft {
    let mut draft = Draft::new();
    let (low, high) = neighbour_body(figures, side as usize);
    draft.block(low, high, tokens::FRONT);
    draft.block(
        [low[0] + 0.05, low[1] + 0.05, 0.0],
        [high[0] - 0.05, high[1] - 0.05, 0.10],
        tokens::MARKING,
    );
    // Its mouth towards us, a window in its long side, and the plate with its lamps.
    let face = if side == Side::Infeed {
        high[0]
    } else {
        low[0]
    };
    let thick = [face - 0.002, face + 0.002];
    let (top, far) = (BELT_HEIGHT, figures.widest);
    draft.block(
        [thick[0], -0.05, top - 0.10],
        [thick[1], far + 0.06, top + 0.10],
        tokens::TINTED,
    );
    draft.block(
        [low[0] + 0.18, low[1] - 0.003, 0.62],
        [high[0] - 0.18, low[1], 1.20],
        tokens::MARKING,
    );
    let lamp = lamp_at(figures, side, Lamp::Stands);
    draft.block(
        [lamp.x - 0.03, lamp.y, lamp.z - 0.08],
        [lamp.x + 0.03, low[1], lamp.z + 0.03],
        tokens::BEZEL,
    );
    draft
}

/// A plain link in place of a machine: two belts on legs, with nothing that could say no.
pub(crate) fn link(figures: &Figures, side: Side) -> Draft {
    let mut draft = table(figures, side);
    let [from, to] = neighbour_span(figures, side as usize);
    let (ends, top) = ([from, to + 1.1], BELT_HEIGHT);
    for y in [-0.025, figures.widest] {
        draft.block(
            [ends[0], y, top - 0.10],
            [ends[1], y + 0.025, top + 0.004],
            tokens::SIDE,
        );
        draft.block(
            [ends[0], y + 0.002, top - 0.012],
            [ends[1], y + 0.010, top + 0.006],
            tokens::RUBBER,
        );
        for x in [ends[1] - 0.10, ends[1] - 0.70] {
            draft.profile([x, y, 0.0], [x + 0.04, y + 0.025, top - 0.10], tokens::SIDE);
        }
    }
    draft
}

/// Somebody who feeds by hand, in place of a machine: a plain figure at our belt's end.
pub(crate) fn person(figures: &Figures) -> Draft {
    let mut draft = Draft::new();
    let (x, y) = (meeting(figures, Side::Infeed) - 0.46, 0.10);
    let colour = tokens::RUBBER;
    for aside in [-0.09, 0.09] {
        let foot = y + aside;
        draft.rod([x, foot, 0.0], [x, foot, 0.84], 0.065, colour);
        draft.rod([x, foot, 0.03], [x + 0.14, foot, 0.03], 0.04, tokens::INK);
        let shoulder = y + aside * 2.3;
        draft.rod(
            [x, shoulder, 1.38],
            [x + 0.08, shoulder, 1.10],
            0.045,
            colour,
        );
        draft.rod(
            [x + 0.08, shoulder, 1.10],
            [x + 0.32, y + aside * 1.3, BELT_HEIGHT + 0.10],
            0.038,
            colour,
        );
    }
    draft.rod([x, y, 0.80], [x, y, 1.42], 0.15, colour);
    draft.rod([x, y, 1.42], [x, y, 1.50], 0.05, tokens::SIDE);
    draft.rod([x, y, 1.49], [x, y, 1.72], 0.095, tokens::SIDE);
    draft
}

/// A jumper in the socket: a plug without a cable, its two pins joined by a loop of wire.
pub(crate) fn jumper(figures: &Figures, side: Side) -> Draft {
    let mut draft = Draft::new();
    let Vec3 { x, y, z } = box_at(figures, side);
    draft.rod([x, y - 0.006, z], [x, y - 0.045, z], 0.024, tokens::YELLOW);
    let points: Vec<[f32; 3]> = (0..=12u8)
        .map(|step| (f32::from(step) / 12.0 * std::f32::consts::PI).sin_cos())
        .map(|(sin, cos)| [x + 0.016 * cos, y - 0.045 - 0.03 * sin, z - 0.075 * sin])
        .collect();
    for pair in points.windows(2) {
        draft.rod(pair[0], pair[1], 0.005, tokens::RED);
    }
    draft
}

/// A test box that hangs in the socket by its own plug: a small case with two switches.
pub(crate) fn test_box(figures: &Figures, side: Side) -> Draft {
    let mut draft = Draft::new();
    let Vec3 { x, y, z } = box_at(figures, side);
    draft.rod([x, y - 0.006, z], [x, y - 0.035, z], 0.024, tokens::BEZEL);
    draft.rod(
        [x, y - 0.03, z],
        [x, y - 0.05, z - 0.12],
        0.006,
        tokens::INK,
    );
    let (low, high) = (z - 0.26, z - 0.12);
    draft.block(
        [x - 0.055, y - 0.075, low],
        [x + 0.055, y - 0.025, high],
        tokens::YELLOW,
    );
    for aside in [-0.025, 0.025] {
        let at = [x + aside, y - 0.075, low + 0.08];
        draft.rod(at, [at[0], y - 0.082, at[2]], 0.014, tokens::INK);
        draft.rod(
            [at[0], y - 0.080, at[2]],
            [at[0], y - 0.10, at[2] + 0.014],
            0.005,
            tokens::STEEL,
        );
    }
    draft
}

/// The cap on a socket in which nothing hangs.
pub(crate) fn cap(figures: &Figures, side: Side) -> Draft {
    let mut draft = Draft::new();
    let Vec3 { x, y, z } = box_at(figures, side);
    draft.rod([x, y - 0.006, z], [x, y - 0.014, z], 0.027, tokens::SIDE);
    draft
}

/// A small lamp, its face at the origin, towards -y. Lit it shines by itself.
pub(crate) fn signal_lamp(lit: bool) -> Draft {
    let mut draft = Draft::new();
    let (back, front) = ([0.0, 0.0, 0.0], [0.0, -0.008, 0.0]);
    draft.rod(back, [0.0, -0.004, 0.0], LAMP + 0.004, tokens::INK);
    if lit {
        draft.glowing_rod(back, front, LAMP, tokens::TORCHLIGHT);
    } else {
        draft.rod(back, front, LAMP, tokens::LAMP_OUT);
    }
    draft
}

/// Rays round a lamp that flickers.
pub(crate) fn flicker() -> Draft {
    let mut draft = Draft::new();
    for step in 0..8u8 {
        let (sin, cos) = (f32::from(step) * std::f32::consts::TAU / 8.0).sin_cos();
        let at = |far: f32| [far * cos, -0.006, far * sin];
        draft.stroke(at(0.022), at(0.034), 0.005);
    }
    draft
}
