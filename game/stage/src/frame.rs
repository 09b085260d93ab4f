//! What is to be drawn: plain data, compared as a whole, so that an unchanged frame costs nothing.

use crate::tokens::Colour;
use bevy::ecs::resource::Resource;
use bevy::math::{Affine3A, Mat4, Vec2, Vec3, Vec4};

/// Nothing nearer to the eye than this is drawn, in metres.
const NEAR: f32 = 0.03;

/// A shape of the kit, by its place in the list that the kit was baked from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct ShapeId(pub u16);

/// An arch over a piece, in its own frame: z grows by `rise * sin(pi * place / span)`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Arch {
    /// Rise of the middle in metres; 0 is flat.
    pub rise: f32,
    /// Where the arch ends: it spans 0 to this length, in metres, above 0.
    pub span: f32,
}

impl Arch {
    /// Flat.
    pub const NONE: Arch = Arch {
        rise: 0.0,
        span: 1.0,
    };
}

/// How far a piece is lifted in the middle, both ways.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bow {
    /// Over y.
    pub across: Arch,
    /// Over x.
    pub along: Arch,
}

impl Bow {
    /// Flat.
    pub const NONE: Bow = Bow {
        across: Arch::NONE,
        along: Arch::NONE,
    };

    /// How far it lifts at most, in metres.
    pub fn most(self) -> f32 {
        self.across.rise.abs() + self.along.rise.abs()
    }
}

/// A shape at a place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece {
    /// The shape.
    pub shape: ShapeId,
    /// From the shape's frame to the hall's, in metres; it turns and moves, and never mirrors.
    pub place: Affine3A,
    /// In place of the colours of all the shape's faces.
    pub tint: Option<Colour>,
    /// How far it is bowed.
    pub bow: Bow,
    /// Its number in a flat picture, 0 (none) to `MARKS - 1`.
    pub mark: u32,
}

/// Marks are below this number.
pub const MARKS: u32 = 1 << 15;

impl Piece {
    /// A shape at a place, in its own colours, flat, without a mark.
    pub fn new(shape: ShapeId, place: Affine3A) -> Piece {
        Piece {
            shape,
            place,
            tint: None,
            bow: Bow::NONE,
            mark: 0,
        }
    }
}

/// Where the eye is and where it looks; upright is z.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shot {
    /// The eye, in metres.
    pub eye: Vec3,
    /// The point in the middle of the picture, in metres; not the eye, nor straight above or below.
    pub aim: Vec3,
    /// Angle of view from bottom to top, in radians.
    pub fov_y: f32,
}

impl Shot {
    /// From the hall to clip space, depth reversed (near is 1, far is 0). `aspect` is width by
    /// height.
    pub fn view_projection(&self, aspect: f32) -> Mat4 {
        let lens = Mat4::perspective_infinite_reverse_rh(self.fov_y, aspect, NEAR);
        lens * Mat4::look_at_rh(self.eye, self.aim, Vec3::Z)
    }

    /// The ray of sight through a point of the area, in physical pixels of the target (as
    /// `area` is): where it begins, and its direction, of length 1.
    pub fn ray(&self, area: Area, point: Vec2) -> (Vec3, Vec3) {
        let size = Vec2::new(area.width as f32, area.height as f32);
        let inside = (point - Vec2::new(area.x as f32, area.y as f32)) / size;
        let clip = Vec4::new(inside.x * 2.0 - 1.0, 1.0 - inside.y * 2.0, 1.0, 1.0);
        let seen = self.view_projection(area.aspect()).inverse() * clip;
        let near = seen.truncate() / seen.w;
        (self.eye, (near - self.eye).normalize())
    }

    /// Where a point of the hall is drawn, in physical pixels of the target; none when it lies
    /// behind the eye.
    pub fn project(&self, area: Area, point: Vec3) -> Option<Vec2> {
        let clip = self.view_projection(area.aspect()) * point.extend(1.0);
        let flat = Vec2::new(clip.x, -clip.y) / clip.w;
        let size = Vec2::new(area.width as f32, area.height as f32);
        let corner = Vec2::new(area.x as f32, area.y as f32);
        (clip.w > NEAR).then(|| corner + (flat * 0.5 + 0.5) * size)
    }
}

/// A hand torch. It throws no shadow: what it may show is for the caller to say.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Torch {
    /// Where it is held, in metres.
    pub from: Vec3,
    /// The point that it is aimed at, in metres.
    pub towards: Vec3,
    /// Half of the cone's opening, in radians, 0 to 1.5.
    pub half_angle: f32,
}

/// The light of the hall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Light {
    /// The hall's lamps: 0 dark to 1 day.
    pub hall: f32,
    /// The torch, if it is lit.
    pub torch: Option<Torch>,
}

impl Light {
    /// All lamps, no torch.
    pub const DAY: Light = Light {
        hall: 1.0,
        torch: None,
    };

    /// A lit torch in a hall so dim that its cone stands out.
    pub fn by_torch(torch: Torch) -> Light {
        Light {
            hall: 0.34,
            torch: Some(torch),
        }
    }
}

/// A part of the target, in physical pixels from its left upper corner.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Area {
    /// Left edge.
    pub x: u32,
    /// Upper edge.
    pub y: u32,
    /// Width; 0 draws nothing.
    pub width: u32,
    /// Height; 0 draws nothing.
    pub height: u32,
}

impl Area {
    /// Width by height; 1 for an empty area.
    pub fn aspect(&self) -> f32 {
        if self.is_empty() {
            1.0
        } else {
            self.width as f32 / self.height as f32
        }
    }

    /// Whether it has no pixel.
    pub fn is_empty(&self) -> bool {
        self.width == 0 || self.height == 0
    }

    /// What lies in both.
    #[must_use]
    pub fn overlap(&self, other: &Area) -> Area {
        let (x, y) = (self.x.max(other.x), self.y.max(other.y));
        let [right, bottom] = self.end();
        let [other_right, other_bottom] = other.end();
        Area {
            x,
            y,
            width: right.min(other_right).saturating_sub(x),
            height: bottom.min(other_bottom).saturating_sub(y),
        }
    }

    /// Whether all of another one lies in it.
    pub fn holds(&self, other: &Area) -> bool {
        self.overlap(other) == *other
    }

    /// Its right and its lower edge.
    pub fn end(&self) -> [u32; 2] {
        let right = self.x.saturating_add(self.width);
        [right, self.y.saturating_add(self.height)]
    }
}

/// The picture of one moment.
#[derive(Resource, Clone, Debug, PartialEq)]
pub struct Frame {
    /// What is in it, in any order.
    pub pieces: Vec<Piece>,
    /// From where it is seen.
    pub shot: Shot,
    /// In what light.
    pub light: Light,
    /// Where it is drawn.
    pub area: Area,
    /// Each piece in the colour of its mark, without ink, glass and shading: for counting.
    pub flat: bool,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ray_of_a_pixel_goes_through_what_is_drawn_there() {
        let area = Area {
            x: 13,
            y: 40,
            width: 824,
            height: 556,
        };
        let (mut seen, mut hidden) = (0, 0);
        for at in 0..1000_u32 {
            let part = |step: u32| (at.wrapping_mul(step) >> 8) as f32 / (u32::MAX >> 8) as f32;
            let eye = Vec3::new(part(2_654_435_761), -1.0, 1.0 + part(1_597_334_677));
            let shot = Shot {
                eye,
                aim: Vec3::new(0.2, 0.2, 1.0),
                fov_y: 0.4 + part(374_761_393),
            };
            let point = Vec3::new(part(668_265_263), part(2_246_822_519), part(3_266_489_917));
            let Some(pixel) = shot.project(area, point * 4.0 - 1.5) else {
                hidden += 1;
                continue;
            };
            seen += 1;
            let (from, way) = shot.ray(area, pixel);
            let along = (point * 4.0 - 1.5) - from;
            let aside = along.cross(way).length() / along.length();
            assert!(aside < 1e-4 && along.dot(way) > 0.0, "{at}: {aside}");
        }
        assert!(seen > 500 && hidden > 20, "{seen} {hidden}");
    }

    #[test]
    fn the_middle_of_the_area_is_the_aim() {
        let area = Area {
            x: 10,
            y: 20,
            width: 200,
            height: 100,
        };
        let shot = Shot {
            eye: Vec3::new(1.0, -3.0, 2.0),
            aim: Vec3::Z,
            fov_y: 0.7,
        };
        let middle = shot.project(area, Vec3::Z).expect("in front of the eye");
        assert!(middle.distance(Vec2::new(110.0, 70.0)) < 1e-3, "{middle}");
        // Half of the height is the tangent of half of the angle of view.
        let (_, way) = shot.ray(area, Vec2::new(110.0, 20.0));
        let straight = (shot.aim - shot.eye).normalize();
        assert!((way.angle_between(straight) - 0.35).abs() < 1e-3);
    }
}
