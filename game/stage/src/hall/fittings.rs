//! What hands touch: panel on its arm, emergency stops, setter's key, isolator with its lock, prop,
//! bonding stud with the cord, and the light tower. Shapes stand in their own frames.

use bevy::math::{Affine3A, Quat, Vec3};
use rackproof_buffer::{Colour as LampColour, Lamp};

use super::cabinet::Cabinet;
use super::draft::Draft;
use super::figures::Figures;
use crate::tokens::{self, Colour};

/// Half of the panel's width, its height, its depth.
pub(crate) const PANEL: [f32; 3] = [0.19, 0.27, 0.055];
/// The panel faces the person who stands before it.
const PANEL_TURNED: f32 = 0.19;
/// Side of the yellow plate under an emergency stop.
pub(crate) const STOP_PLATE: f32 = 0.075;
/// The emergency stop on the panel, x and z from the panel's middle.
const STOP_ON_PANEL: [f32; 2] = [0.135, -0.08];
/// The key on the panel.
const KEY_ON_PANEL: [f32; 2] = [0.135, 0.075];
/// How far a pressed emergency stop is in.
pub(crate) const PRESSED_IN: f32 = 0.010;
/// How long the prop is in its clips.
pub(crate) const PROP_DRAWN_IN: f32 = 0.34;
/// A lamp of the tower: radius and height.
pub(crate) const LAMP: [f32; 2] = [0.028, 0.055];

/// Lamps of the tower from the top down. The core says which has which colour.
pub(crate) const LAMPS: [Colour; 4] = [
    shown(Lamp::ALL[0]),
    shown(Lamp::ALL[1]),
    shown(Lamp::ALL[2]),
    shown(Lamp::ALL[3]),
];

const fn shown(lamp: Lamp) -> Colour {
    match lamp.colour() {
        LampColour::Red => tokens::RED,
        LampColour::Yellow => tokens::YELLOW,
        LampColour::Blue => tokens::BLUE,
        LampColour::Green => tokens::GREEN,
        // No lamp of the tower has these.
        LampColour::White | LampColour::Grey | LampColour::Black => tokens::LAMP_OUT,
    }
}

/// Where the fittings are.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Places {
    /// The panel's frame: face at y = 0, towards -y, its middle at the origin.
    pub(crate) panel: Affine3A,
    /// The emergency stop's frame on the panel, and at the infeed: plate at y = 0.
    pub(crate) stops: [Affine3A; 2],
    pub(crate) key: Affine3A,
    /// The isolator's plate.
    pub(crate) isolator: Affine3A,
    /// Where the prop hangs while it is not used: its foot.
    pub(crate) prop_rest: [f32; 3],
    /// Where the prop stands under the lift: its foot.
    pub(crate) prop_set: [f32; 3],
    pub(crate) stud: [f32; 3],
    /// Foot of the tower on the roof.
    pub(crate) tower: [f32; 3],
}

impl Places {
    pub(crate) fn of(figures: &Figures) -> Places {
        let cabinet = Cabinet::of(figures);
        let [x0, x1] = cabinet.x;
        let front = cabinet.y[0];
        let panel = Affine3A::from_rotation_translation(
            Quat::from_rotation_z(PANEL_TURNED),
            Vec3::new(x1 + 0.27, front - 0.17, 1.22),
        );
        let on_panel = |[x, z]: [f32; 2]| panel * Affine3A::from_translation(Vec3::new(x, 0.0, z));
        let infeed = figures.belt(0)[0];
        Places {
            panel,
            stops: [
                on_panel(STOP_ON_PANEL),
                Affine3A::from_translation(Vec3::new(infeed + 0.10, -0.075, 0.855)),
            ],
            key: on_panel(KEY_ON_PANEL),
            isolator: Affine3A::from_translation(Vec3::new(x1 - 0.16, front - 0.002, 0.34)),
            prop_rest: [x0 + 0.10, front - 0.022, 0.18],
            prop_set: [figures.length / 2.0, 0.10, cabinet.hatch[0] - 0.02],
            stud: [x0 + 0.15, front, cabinet.hatch[0] - 0.022],
            tower: [x1 - 0.09, cabinet.y[1] - 0.09, cabinet.top + 0.012],
        }
    }
}

/// What of the fittings stands still: the panel's arm, plates, boxes and clips.
pub(crate) fn still(draft: &mut Draft, figures: &Figures) {
    let (places, cabinet) = (Places::of(figures), Cabinet::of(figures));
    let [_, x1] = cabinet.x;
    let (front, at) = (cabinet.y[0], places.panel.translation);
    // From the corner post out, across and down to the panel.
    let (high, y) = (at.z + PANEL[1] / 2.0 + 0.16, at.y + 0.03);
    draft.rod(
        [x1 - 0.02, front - 0.005, high],
        [x1 - 0.02, y, high],
        0.018,
        tokens::SIDE,
    );
    draft.rod([x1 - 0.02, y, high], [at.x, y, high], 0.018, tokens::SIDE);
    draft.rod(
        [at.x, y, high],
        [at.x, y, at.z + PANEL[1] / 2.0],
        0.018,
        tokens::SIDE,
    );
    // The box that carries the infeed's emergency stop.
    let stop = places.stops[1].translation;
    draft.block(
        [stop.x - 0.042, stop.y, stop.z - 0.042],
        [stop.x + 0.042, stop.y + 0.036, stop.z + 0.042],
        tokens::PANEL,
    );
    let [x, y, z] = places.prop_rest;
    for clip in [z + 0.05, z + 0.25] {
        draft.block(
            [x - 0.02, y + 0.006, clip],
            [x + 0.02, y + 0.024, clip + 0.02],
            tokens::BEZEL,
        );
    }
    let [x, y, z] = places.stud;
    draft.rod([x, y - 0.002, z], [x, y - 0.030, z], 0.009, tokens::COPPER);
    draft.rod([x, y - 0.006, z], [x, y - 0.012, z], 0.016, tokens::COPPER);
    let [x, y, z] = places.tower;
    draft.rod([x, y, z], [x, y, z + 0.14], 0.010, tokens::STEEL);
    draft.rod([x, y, z], [x, y, z + 0.012], 0.035, tokens::INK);
}

/// The panel's housing, with a frame for its screen and the row of buttons below.
pub(crate) fn panel() -> Draft {
    let mut draft = Draft::new();
    let [wide, high, deep] = PANEL;
    draft.block(
        [-wide, 0.0, -high / 2.0],
        [wide, deep, high / 2.0],
        tokens::PANEL,
    );
    let ([x0, x1], [z0, z1]) = SCREEN;
    draft.block(
        [x0 - 0.008, -0.003, z0 - 0.008],
        [x1 + 0.008, 0.001, z1 + 0.008],
        tokens::BEZEL,
    );
    for number in 0..4u8 {
        let x = x0 + 0.03 + 0.058 * f32::from(number);
        let colour = [tokens::TOP, tokens::INK, tokens::BLUE, tokens::SCREEN][usize::from(number)];
        draft.rod([x, 0.0, -0.097], [x, -0.008, -0.097], 0.015, tokens::SIDE);
        draft.rod([x, -0.008, -0.097], [x, -0.012, -0.097], 0.012, colour);
    }
    // The lock that takes the setter's key.
    let [x, z] = KEY_ON_PANEL;
    draft.rod([x, 0.0, z], [x, -0.006, z], 0.016, tokens::STEEL);
    draft
}

/// The screen on the panel: x from and to, z from and to.
const SCREEN: ([f32; 2], [f32; 2]) = ([-0.165, 0.075], [-0.060, 0.112]);

/// The screen's ground, for a tint.
pub(crate) fn screen() -> Draft {
    let mut draft = Draft::new();
    let ([x0, x1], [z0, z1]) = SCREEN;
    draft.quad(
        [
            [x0, -0.0035, z0],
            [x1, -0.0035, z0],
            [x1, -0.0035, z1],
            [x0, -0.0035, z1],
        ],
        tokens::SCREEN,
    );
    draft
}

/// What the lit screen has on it, from afar: the slot map on the left, the message on the right.
/// The panel itself is read beside the hall.
pub(crate) fn screen_lines() -> Draft {
    let mut draft = Draft::new();
    let ([x0, x1], [z0, z1]) = SCREEN;
    let mut bar = |x: [f32; 2], z: [f32; 2], colour| {
        let y = -0.004;
        draft.quad(
            [
                [x[0], y, z[0]],
                [x[1], y, z[0]],
                [x[1], y, z[1]],
                [x[0], y, z[1]],
            ],
            colour,
        );
    };
    bar(
        [x0 + 0.012, x1 - 0.012],
        [z1 - 0.030, z1 - 0.012],
        tokens::BEZEL,
    );
    for row in 0..8u8 {
        let z = z0 + 0.012 + 0.014 * f32::from(row);
        bar([x0 + 0.012, x0 + 0.085], [z, z + 0.006], tokens::RUBBER);
    }
    bar(
        [x0 + 0.105, x1 - 0.012],
        [z0 + 0.012, z0 + 0.06],
        tokens::TOP,
    );
    bar(
        [x0 + 0.105, x1 - 0.04],
        [z0 + 0.08, z0 + 0.088],
        tokens::RUBBER,
    );
    bar(
        [x0 + 0.105, x1 - 0.03],
        [z0 + 0.10, z0 + 0.108],
        tokens::RUBBER,
    );
    draft
}

/// The yellow plate of an emergency stop.
pub(crate) fn stop_plate() -> Draft {
    let mut draft = Draft::new();
    let half = STOP_PLATE / 2.0;
    draft.block([-half, -0.004, -half], [half, 0.0, half], tokens::YELLOW);
    draft.rod([0.0, -0.004, 0.0], [0.0, -0.010, 0.0], 0.022, tokens::INK);
    draft
}

/// Its red button, standing out.
pub(crate) fn stop_button() -> Draft {
    let mut draft = Draft::new();
    draft.rod([0.0, 0.0, 0.0], [0.0, -0.024, 0.0], 0.014, tokens::STEEL);
    draft.rod([0.0, -0.022, 0.0], [0.0, -0.036, 0.0], 0.027, tokens::RED);
    draft
}

/// The setter's key in its lock, upright.
pub(crate) fn key() -> Draft {
    let mut draft = Draft::new();
    draft.block(
        [-0.003, -0.030, -0.010],
        [0.003, -0.006, 0.010],
        tokens::STEEL,
    );
    draft.block(
        [-0.003, -0.050, -0.018],
        [0.003, -0.030, 0.018],
        tokens::INK,
    );
    draft
}

/// The isolator's plate with its ring of positions, and a hasp for locks below.
pub(crate) fn isolator_plate() -> Draft {
    let mut draft = Draft::new();
    draft.block([-0.06, -0.006, -0.06], [0.06, 0.0, 0.06], tokens::SHEET);
    draft.rod([0.0, -0.006, 0.0], [0.0, -0.014, 0.0], 0.042, tokens::SIDE);
    draft.stroke([0.0, -0.0065, 0.046], [0.0, -0.0065, 0.056], 0.005);
    let ring: Vec<[f32; 3]> = (0..=8u8)
        .map(|step| (f32::from(step) * std::f32::consts::TAU / 8.0).sin_cos())
        .map(|(sin, cos)| [0.051 + cos * 0.005, -0.0065, sin * 0.005])
        .collect();
    for pair in ring.windows(2) {
        draft.stroke(pair[0], pair[1], 0.003);
    }
    draft.block(
        [-0.012, -0.020, -0.052],
        [0.012, -0.006, -0.044],
        tokens::STEEL,
    );
    draft
}

/// The isolator's handle, upright: on. Turned by a quarter: off.
pub(crate) fn isolator_handle() -> Draft {
    let mut draft = Draft::new();
    draft.block(
        [-0.011, -0.036, -0.036],
        [0.011, -0.014, 0.036],
        tokens::INK,
    );
    draft.block(
        [-0.002, -0.0365, 0.008],
        [0.002, -0.036, 0.034],
        tokens::SHEET,
    );
    draft
}

/// A person's lock, hanging from the hasp.
pub(crate) fn lock() -> Draft {
    let mut draft = Draft::new();
    for x in [-0.012, 0.012] {
        draft.rod(
            [x, -0.020, -0.048],
            [x, -0.020, -0.078],
            0.003,
            tokens::STEEL,
        );
    }
    draft.rod(
        [-0.012, -0.020, -0.047],
        [0.012, -0.020, -0.047],
        0.003,
        tokens::STEEL,
    );
    draft.block(
        [-0.021, -0.032, -0.118],
        [0.021, -0.010, -0.076],
        tokens::COPPER,
    );
    draft.block(
        [-0.003, -0.0325, -0.102],
        [0.003, -0.032, -0.090],
        tokens::INK,
    );
    draft
}

/// The prop, one metre long, for a scale along z.
pub(crate) fn prop() -> Draft {
    let mut draft = Draft::new();
    draft.block([-0.016, -0.016, 0.0], [0.016, 0.016, 1.0], tokens::RUBBER);
    draft
}

/// The wrist cord on its hook below the stud, while nobody wears it.
pub(crate) fn cord_hung(figures: &Figures) -> Draft {
    let [x, y, z] = Places::of(figures).stud;
    let loops: Vec<[f32; 3]> = (0..=16u8)
        .map(|step| (f32::from(step) * std::f32::consts::TAU / 8.0).sin_cos())
        .map(|(sin, cos)| [x + 0.022 * sin, y - 0.016, z - 0.05 + 0.045 * cos])
        .collect();
    cord(&loops)
}

/// The wrist cord from the stud to the wrist of somebody at the hatch.
pub(crate) fn cord_worn(figures: &Figures) -> Draft {
    let [x, y, z] = Places::of(figures).stud;
    let hand = Vec3::new(x + 0.10, y - 0.30, z + 0.42);
    let points: Vec<[f32; 3]> = (0..=10u8)
        .map(|step| f32::from(step) / 10.0)
        .map(|share| {
            let straight = Vec3::new(x, y - 0.02, z).lerp(hand, share);
            (straight - Vec3::Z * 0.9 * share * (1.0 - share)).to_array()
        })
        .collect();
    cord(&points)
}

/// A cord as a row of short rods through these points.
fn cord(points: &[[f32; 3]]) -> Draft {
    let mut draft = Draft::new();
    for pair in points.windows(2) {
        draft.rod(pair[0], pair[1], 0.004, tokens::RUBBER);
    }
    draft
}

/// A lamp of the tower; lit it shines by itself.
pub(crate) fn lamp(lit: bool) -> Draft {
    let mut draft = Draft::new();
    let [radius, high] = LAMP;
    let foot = [0.0, 0.0, 0.0];
    draft.rod(foot, [0.0, 0.0, 0.006], radius + 0.003, tokens::INK);
    if lit {
        draft.glowing_rod([0.0, 0.0, 0.006], [0.0, 0.0, high], radius, tokens::GREEN);
    } else {
        draft.rod(
            [0.0, 0.0, 0.006],
            [0.0, 0.0, high],
            radius,
            tokens::LAMP_OUT,
        );
    }
    draft
}

/// Foot of a lamp, counted from the top.
pub(crate) fn lamp_foot(figures: &Figures, number: usize) -> Vec3 {
    let [x, y, z] = Places::of(figures).tower;
    let below = (LAMPS.len() - 1 - number) as f32;
    Vec3::new(x, y, z + 0.14 + below * LAMP[1])
}
