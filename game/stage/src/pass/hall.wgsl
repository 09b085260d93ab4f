// The hall: solid faces, ink, glass, and the flat picture for counting. Metres, z up.
// Colours come in sRGB and are worked on in linear light at the corners, which encode them again:
// between the corners and where ink and glass lie over them the mixing is done on encoded colours,
// because decoding and encoding every pixel costs a software driver a fifth of the frame.

struct Look {
    clip: mat4x4<f32>,
    eye: vec4<f32>,          // the eye; ink's width at 1 m in px
    size: vec4<f32>,         // width and height in px; their inverses
    ink: vec4<f32>,          // outline px, inside px, smallest and largest factor by distance
    sun: vec4<f32>,          // towards the big lamp; what it gives
    sky: vec4<f32>,          // what comes from above, from below; the hall's lamps 0 to 1
    dark: vec4<f32>,         // what no light reaches
    paper: vec4<f32>,        // what the hall fades to
    fade: vec4<f32>,         // middle from above; where fading begins; 1 / its length
    torch_from: vec4<f32>,   // where the torch is; not used
    torch_way: vec4<f32>,    // where it points; cosine of its edge
    torch_colour: vec4<f32>, // its colour; 1 / (cosine of the full beam - cosine of the edge)
}

@group(0) @binding(0) var<uniform> look: Look;

struct Piece {
    @location(8) x: vec4<f32>,
    @location(9) y: vec4<f32>,
    @location(10) z: vec4<f32>,
    @location(11) tint: vec4<f32>, // the last is 1 when it counts
    @location(12) bow: vec4<f32>,  // across: rise, pi / span; along: the same
    @location(13) mark: u32,
}

struct Corner {
    @location(0) position: vec3<f32>,
    @location(1) normal: vec4<f32>,
    @location(2) colour: vec4<f32>, // the last is glow, or what a pane covers
    @location(3) light: vec4<f32>,  // sky seen, big lamp seen
}

fn linear(c: vec3<f32>) -> vec3<f32> {
    return c * (c * (c * 0.305306011 + 0.682171111) + 0.012522878);
}

fn encoded(colour: vec3<f32>) -> vec3<f32> {
    let c = saturate(colour);
    let root = sqrt(c);
    let fourth = sqrt(root);
    let eighth = sqrt(fourth);
    return 0.662002687 * root + 0.684122060 * fourth - 0.323583601 * eighth - 0.022541147 * c;
}

fn bowed(piece: Piece, at: vec3<f32>) -> vec3<f32> {
    let across = piece.bow.x * sin(at.y * piece.bow.y);
    let along = piece.bow.z * sin(at.x * piece.bow.w);
    return vec3(at.xy, at.z + across + along);
}

fn placed(piece: Piece, at: vec3<f32>) -> vec3<f32> {
    let local = vec4(bowed(piece, at), 1.0);
    return vec3(dot(piece.x, local), dot(piece.y, local), dot(piece.z, local));
}

fn turned(piece: Piece, way: vec3<f32>) -> vec3<f32> {
    return vec3(dot(piece.x.xyz, way), dot(piece.y.xyz, way), dot(piece.z.xyz, way));
}

fn faded(at: vec3<f32>) -> f32 {
    return smoothstep(0.0, 1.0, (distance(at.xy, look.fade.xy) - look.fade.z) * look.fade.w);
}

struct Lit {
    base: vec3<f32>,
    colour: vec3<f32>,
    normal: vec3<f32>,
    at: vec3<f32>,
}

fn lit(corner: Corner, piece: Piece) -> Lit {
    let slopes = piece.bow.zx * piece.bow.wy * cos(corner.position.xy * piece.bow.wy);
    var leaning = corner.normal.xyz;
    leaning -= vec3(slopes * leaning.z, 0.0);
    let normal = normalize(turned(piece, leaning));
    let at = placed(piece, corner.position);
    let base = linear(mix(corner.colour.rgb, piece.tint.rgb, piece.tint.a));
    let sky = mix(look.sky.y, look.sky.x, normal.z * 0.5 + 0.5) * corner.light.x;
    let sun = max(dot(normal, look.sun.xyz), 0.0) * look.sun.w * corner.light.y;
    let shade = mix(look.dark.rgb, vec3(1.0), (sky + sun) * look.sky.z);
    let glow = corner.colour.a;
    let colour = mix(base * mix(shade, vec3(1.0), glow), look.paper.rgb, faded(at) * (1.0 - glow));
    return Lit(base, colour, normal, at);
}

// Solid faces by the hall's light alone: all of it is done at the corners.

struct Plain {
    @builtin(position) clip: vec4<f32>,
    @location(0) colour: vec3<f32>,
}

@vertex
fn solid(corner: Corner, piece: Piece) -> Plain {
    let lit = lit(corner, piece);
    return Plain(look.clip * vec4(lit.at, 1.0), encoded(lit.colour));
}

@fragment
fn solid_pixel(in: Plain) -> @location(0) vec4<f32> {
    return vec4(in.colour, 1.0);
}

// Solid faces with the torch on: its cone is cut out pixel by pixel.

const REACH: f32 = 1.4; // m, up to which the beam is full

struct Torchlit {
    @builtin(position) clip: vec4<f32>,
    @location(0) colour: vec3<f32>,
    @location(1) gain: vec3<f32>, // what the full beam adds
    @location(2) from_torch: vec3<f32>,
}

@vertex
fn torchlit(corner: Corner, piece: Piece) -> Torchlit {
    let lit = lit(corner, piece);
    let from_torch = lit.at - look.torch_from.xyz;
    let facing = saturate(dot(normalize(from_torch), lit.normal) * -1.8);
    let colour = encoded(lit.colour);
    // Never darker than the hall's light makes it.
    let gain = max(encoded(lit.base * look.torch_colour.rgb) - colour, vec3(0.0)) * facing;
    return Torchlit(look.clip * vec4(lit.at, 1.0), colour, gain, from_torch);
}

@fragment
fn torchlit_pixel(in: Torchlit) -> @location(0) vec4<f32> {
    let near = inverseSqrt(dot(in.from_torch, in.from_torch));
    let ahead = dot(in.from_torch, look.torch_way.xyz) * near;
    let inside = saturate((ahead - look.torch_way.w) * look.torch_colour.w);
    let strength = inside * inside * (3.0 - 2.0 * inside) * min(near * REACH, 1.0);
    return vec4(in.colour + in.gain * strength, 1.0);
}

// Blinds: nearer than all else, so that nothing behind them is shaded.

@vertex
fn blind(@builtin(vertex_index) corner: u32, @location(0) edges: vec4<f32>) -> @builtin(position) vec4<f32> {
    // Left lower, right lower, right upper; left lower, right upper, left upper.
    let right = corner == 1u || corner == 2u || corner == 4u;
    let upper = corner == 2u || corner == 4u || corner == 5u;
    return vec4(select(edges.x, edges.z, right), select(edges.y, edges.w, upper), 1.0, 1.0);
}

@fragment
fn blind_pixel() -> @location(0) vec4<f32> {
    return vec4(0.0);
}

// Panes.

struct Clear {
    @builtin(position) clip: vec4<f32>,
    @location(0) @interpolate(flat) colour: vec4<f32>,
}

@vertex
fn glass(corner: Corner, piece: Piece) -> Clear {
    let at = placed(piece, corner.position);
    let base = linear(mix(corner.colour.rgb, piece.tint.rgb, piece.tint.a));
    let shade = mix(look.dark.rgb, vec3(1.0), 0.8 * look.sky.z);
    let colour = mix(base * shade, look.paper.rgb, faded(at));
    return Clear(look.clip * vec4(at, 1.0), vec4(encoded(colour), corner.colour.a));
}

@fragment
fn glass_pixel(in: Clear) -> @location(0) vec4<f32> {
    return in.colour;
}

// Ink: a strip along an edge, as wide as its kind and distance ask, soft at its rims.

struct End {
    @location(0) position: vec3<f32>,
    @location(1) other: vec3<f32>,
    @location(2) first: vec4<f32>,  // normal of a face; which side of the strip
    @location(3) second: vec4<f32>, // normal of the other; whether normals count
    @location(4) colour: vec4<f32>, // the last: kind of stroke in 255ths, 16 more at the second end
}

struct Stroke {
    @builtin(position) clip: vec4<f32>,
    @location(0) @interpolate(linear) across: f32,
    @location(1) @interpolate(flat) half: f32,
    @location(2) @interpolate(flat) colour: vec4<f32>,
}

const SOFT: f32 = 0.75; // px
const NEAR: f32 = 0.04; // m

@vertex
fn ink(end: End, piece: Piece) -> Stroke {
    let at = placed(piece, end.position);
    let eye = look.eye.xyz - at;
    let code = end.colour.a * 255.0;
    let far_end = code > 15.5;
    let kind = select(code, code - 16.0, far_end);
    let sees_first = dot(turned(piece, end.first.xyz), eye) > 0.0;
    let sees_second = dot(turned(piece, end.second.xyz), eye) > 0.0;
    let always = end.second.w < 0.5;
    let outline = (always || sees_first != sees_second) && kind < 1.5;
    var here = look.clip * vec4(at, 1.0);
    var there = look.clip * vec4(placed(piece, end.other), 1.0);
    let hidden = !always && !sees_first && !sees_second;
    let inner_round = kind > 0.5 && kind < 1.5 && !outline;
    if hidden || inner_round || max(here.w, there.w) < NEAR {
        return Stroke(vec4(0.0, 0.0, -1.0, 1.0), 0.0, 0.0, vec4(0.0));
    }
    // An end behind the eye moves along the edge to just before it.
    if here.w < NEAR {
        here = mix(here, there, (NEAR - here.w) / (there.w - here.w));
    } else if there.w < NEAR {
        there = mix(there, here, (NEAR - there.w) / (here.w - there.w));
    }
    let run = (there.xy / there.w - here.xy / here.w) * look.size.xy;
    let way = run / max(length(run), 1e-4);
    let factor = clamp(look.eye.w / here.w, look.ink.z, look.ink.w);
    let width = select(look.ink.y, look.ink.x, outline) * factor;
    // A line thinner than a pixel gets paler instead.
    let half = max(width, 1.0) * 0.5;
    let reach = half + SOFT;
    let across = vec2(-way.y, way.x) * end.first.w * reach;
    let along = way * -half * 0.8;
    var strength = select(select(0.62, 0.36, kind > 2.5), 1.0, outline) * min(width, 1.0);
    if always && kind > 1.5 && kind < 2.5 {
        strength = min(width, 1.0);
    }
    here = vec4(here.xy + (across + along) * 2.0 * look.size.zw * here.w, here.z * 1.0009, here.w);
    let colour = mix(linear(end.colour.rgb), look.paper.rgb, faded(at) * 0.8);
    // Seen from the other end, left is right.
    let side = select(end.first.w, -end.first.w, far_end);
    return Stroke(here, side * reach, half, vec4(encoded(colour), strength));
}

@fragment
fn ink_pixel(in: Stroke) -> @location(0) vec4<f32> {
    let inside = saturate((in.half - abs(in.across)) / SOFT + 0.5);
    return vec4(in.colour.rgb, in.colour.a * inside);
}

// The flat picture: five bits of the mark in each colour.

fn channel(mark: u32, shift: u32) -> f32 {
    return f32(((mark >> shift) & 31u) * 8u) / 255.0;
}

@vertex
fn mark(corner: Corner, piece: Piece) -> Clear {
    let at = placed(piece, corner.position);
    let colour = vec3(channel(piece.mark, 10u), channel(piece.mark, 5u), channel(piece.mark, 0u));
    return Clear(look.clip * vec4(at, 1.0), vec4(colour, 1.0));
}
