//! Everything that is the same for a whole frame, as the shader wants it.

use crate::bake::light::{FADE, GROUND_GIVES, SKY_GIVES, SUN, SUN_GIVES};
use crate::frame::{Area, Frame, Torch};
use crate::tokens::{self, Colour};
use bevy::color::{ColorToComponents, LinearRgba, Srgba};
use bevy::math::{Vec2, Vec3, Vec4};

/// Ink has its width of the tokens this far away, in metres, in an area this high, in px.
const INK_AT: f32 = 2.8;
const INK_HEIGHT: f32 = 620.0;
/// How much thinner and wider ink gets by distance.
const INK_FACTORS: [f32; 2] = [0.5, 1.35];
/// The part of the torch's opening that has its full light.
const TORCH_FULL: f32 = 0.55;

/// As `Look` in the shader.
#[derive(Clone, Copy, Debug, PartialEq, bytemuck::Pod, bytemuck::Zeroable)]
#[repr(C)]
pub(super) struct Look {
    clip: [f32; 16],
    eye: [f32; 4],
    size: [f32; 4],
    ink: [f32; 4],
    sun: [f32; 4],
    sky: [f32; 4],
    dark: [f32; 4],
    paper: [f32; 4],
    fade: [f32; 4],
    torch_from: [f32; 4],
    torch_way: [f32; 4],
    torch_colour: [f32; 4],
}

impl Look {
    pub(super) fn of(frame: &Frame, middle: Vec2) -> Look {
        let Area { width, height, .. } = frame.area;
        let size = Vec2::new(width as f32, height as f32);
        let scale = (size.y / INK_HEIGHT).clamp(0.5, 3.0);
        let hall = frame.light.hall.clamp(0.0, 1.0);
        let mut look = Look {
            clip: frame
                .shot
                .view_projection(frame.area.aspect())
                .to_cols_array(),
            eye: frame.shot.eye.extend(INK_AT).to_array(),
            size: [size.x, size.y, 1.0 / size.x, 1.0 / size.y],
            ink: [
                tokens::OUTLINE_PX * scale,
                tokens::INSIDE_PX * scale,
                INK_FACTORS[0],
                INK_FACTORS[1],
            ],
            sun: SUN.normalize().extend(SUN_GIVES).to_array(),
            sky: [SKY_GIVES, GROUND_GIVES, hall, 0.0],
            dark: linear(tokens::DARK).extend(1.0).to_array(),
            paper: paper(hall).extend(1.0).to_array(),
            fade: [middle.x, middle.y, FADE[0], 1.0 / (FADE[1] - FADE[0])],
            torch_from: [0.0; 4],
            torch_way: [0.0, 0.0, 1.0, 2.0],
            torch_colour: [0.0; 4],
        };
        if let Some(torch) = frame.light.torch {
            look.aim(&torch);
        }
        look
    }

    fn aim(&mut self, torch: &Torch) {
        let way = (torch.towards - torch.from)
            .try_normalize()
            .unwrap_or(Vec3::NEG_Z);
        let angle = torch.half_angle.clamp(0.01, 1.5);
        let (edge, full) = (angle.cos(), (angle * TORCH_FULL).cos());
        self.torch_from = torch.from.extend(0.0).to_array();
        self.torch_way = way.extend(edge).to_array();
        self.torch_colour = linear(tokens::TORCHLIGHT)
            .extend(1.0 / (full - edge).max(1e-4))
            .to_array();
    }
}

/// What is where nothing is drawn, in sRGB.
pub(super) fn ground(frame: &Frame) -> [f32; 3] {
    let paper = paper(frame.light.hall).extend(1.0).to_array();
    let srgb = Srgba::from(LinearRgba::from_f32_array(paper));
    if frame.flat {
        [0.0; 3]
    } else {
        [srgb.red, srgb.green, srgb.blue]
    }
}

/// What the hall fades to, in linear light, by how bright its lamps are.
fn paper(hall: f32) -> Vec3 {
    linear(tokens::WALL) * linear(tokens::DARK).lerp(Vec3::ONE, hall.clamp(0.0, 1.0))
}

/// From sRGB to linear light, each 0 to 1.
fn linear(colour: Colour) -> Vec3 {
    let [red, green, blue] = colour.0;
    let linear = LinearRgba::from(Srgba::rgb_u8(red, green, blue));
    Vec4::from_array(linear.to_f32_array()).truncate()
}
