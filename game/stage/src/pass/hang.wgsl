// Hangs a picture where it belongs: pixel for pixel. Beside it there is black.

@group(0) @binding(0) var picture: texture_2d<f32>;
@group(0) @binding(1) var<uniform> place: vec4<u32>; // left and upper edge in px; not used

// One triangle that covers everything: a scissor says which part of it is wanted.
@vertex
fn whole(@builtin(vertex_index) corner: u32) -> @builtin(position) vec4<f32> {
    let at = vec2(f32((corner << 1u) & 2u), f32(corner & 2u));
    return vec4(at * 2.0 - 1.0, 0.0, 1.0);
}

@fragment
fn hung(@builtin(position) at: vec4<f32>) -> @location(0) vec4<f32> {
    return textureLoad(picture, vec2<u32>(at.xy) - place.xy, 0);
}

@fragment
fn black() -> @location(0) vec4<f32> {
    return vec4(0.0, 0.0, 0.0, 1.0);
}
