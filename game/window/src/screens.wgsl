// The screens, in place of the shader that comes with bevy_egui: a colour is decoded once a corner,
// not twice a pixel. A texel holds its cover in both; the product of two powers is the power of the
// product, so that text looks the same.

struct Transform {
    scale: vec2<f32>,
    translation: vec2<f32>,
}

struct VertexInput {
    @location(0) position: vec2<f32>,
    @location(1) uv: vec2<f32>,
    @location(2) color: vec4<f32>,
}

struct VertexOutput {
    @builtin(position) position: vec4<f32>,
    @location(0) color: vec4<f32>,
    @location(1) uv: vec2<f32>,
}

@group(0) @binding(0) var<uniform> transform: Transform;
@group(1) @binding(0) var image_texture: texture_2d<f32>;
@group(1) @binding(1) var image_sampler: sampler;

// 0-1 linear from 0-1 sRGB (IEC 61966-2-1).
fn linear(srgb: vec3<f32>) -> vec3<f32> {
    let lower = srgb / 12.92;
    let higher = pow((srgb + 0.055) / 1.055, vec3<f32>(2.4));
    return select(higher, lower, srgb < vec3<f32>(0.04045));
}

@vertex
fn vs_main(in: VertexInput) -> VertexOutput {
    let position = in.position * transform.scale + transform.translation;
    let color = vec4<f32>(linear(in.color.rgb), in.color.a);
    return VertexOutput(vec4<f32>(position, 0.0, 1.0), color, in.uv);
}

@fragment
fn fs_main(in: VertexOutput) -> @location(0) vec4<f32> {
    // Letters stand on whole pixels: one texel a pixel is all that is needed.
    let texel = in.uv * vec2<f32>(textureDimensions(image_texture));
    return textureLoad(image_texture, vec2<i32>(texel), 0) * in.color;
}
