// The screens. A colour is decoded once a corner, not twice a pixel. A texel holds its cover in
// both; the product of two powers is the power of the product, so that text looks as egui means it.

struct Corner {
    @location(0) position: vec2<f32>, // points, from the left upper corner
    @location(1) texel: vec2<f32>,
    @location(2) colour: vec4<f32>,
}

struct Painted {
    @builtin(position) position: vec4<f32>,
    @location(0) colour: vec4<f32>,
    @location(1) texel: vec2<f32>,
}

struct Page {
    scale: vec2<f32>, // from points to the picture's -1 to 1
    empty: vec2<f32>,
}

@group(0) @binding(0) var<uniform> page: Page;
@group(1) @binding(0) var letters: texture_2d<f32>;

// 0-1 linear from 0-1 sRGB (IEC 61966-2-1).
fn linear(srgb: vec3<f32>) -> vec3<f32> {
    let lower = srgb / 12.92;
    let higher = pow((srgb + 0.055) / 1.055, vec3<f32>(2.4));
    return select(higher, lower, srgb < vec3<f32>(0.04045));
}

@vertex
fn corner(in: Corner) -> Painted {
    let position = in.position * page.scale + vec2<f32>(-1.0, 1.0);
    let colour = vec4<f32>(linear(in.colour.rgb), in.colour.a);
    return Painted(vec4<f32>(position, 0.0, 1.0), colour, in.texel);
}

// An opaque face: nothing is read, nothing is mixed.
@fragment
fn flat_pixel(in: Painted) -> @location(0) vec4<f32> {
    return in.colour;
}

// Letters and soft rims, mixed over what is there.
@fragment
fn over_pixel(in: Painted) -> @location(0) vec4<f32> {
    // Letters stand on whole pixels: one texel a pixel is all that is needed.
    let texel = in.texel * vec2<f32>(textureDimensions(letters));
    return textureLoad(letters, vec2<i32>(texel), 0) * in.colour;
}
