//! The lamps of the hall, as the bake and the pass both need them.

use bevy::math::{Vec2, Vec3};

/// Towards the big lamp; not quite of length 1.
pub(crate) const SUN: Vec3 = Vec3::new(-0.40, -0.52, 0.755);
/// What the big lamp gives to a face that looks at it.
pub(crate) const SUN_GIVES: f32 = 0.52;
/// What faces get from above, and from below.
pub(crate) const SKY_GIVES: f32 = 0.64;
pub(crate) const GROUND_GIVES: f32 = 0.36;
/// The hall fades to paper between these distances from its middle, in metres.
pub(crate) const FADE: [f32; 2] = [2.6, 6.2];

/// How much of a place is paper, 0 to 1, `middle` and place as seen from above.
pub(crate) fn faded(place: Vec3, middle: Vec2) -> f32 {
    let far = place.truncate().distance(middle);
    let part = ((far - FADE[0]) / (FADE[1] - FADE[0])).clamp(0.0, 1.0);
    part * part * (3.0 - 2.0 * part)
}
