//! How each kind of triangle is drawn.

use super::load::Instance;
use super::look::Look;
use crate::kit::{InkVertex, SolidVertex};
use bevy::render::render_resource::{
    BindGroupLayout, BindGroupLayoutEntry, BindingType, BlendState, BufferBindingType,
    ColorTargetState, ColorWrites, CompareFunction, DepthStencilState, Face, FrontFace,
    MultisampleState, PipelineCompilationOptions, PipelineLayout, PipelineLayoutDescriptor,
    PrimitiveState, RawFragmentState, RawRenderPipelineDescriptor, RawVertexBufferLayout,
    RawVertexState, RenderPipeline, ShaderModule, ShaderModuleDescriptor, ShaderSource,
    ShaderStages, TextureFormat, VertexAttribute, VertexFormat, VertexStepMode,
};
use bevy::render::renderer::RenderDevice;

/// Format of the depth picture; depth is reversed.
pub(super) const DEPTH: TextureFormat = TextureFormat::Depth32Float;

/// Format of the picture. Its colours are encoded already: the format decodes nothing.
pub(super) const PICTURE: TextureFormat = TextureFormat::Rgba8Unorm;

/// One pipeline for each kind of triangle.
pub(super) struct Pipelines {
    pub(super) solid: RenderPipeline,
    pub(super) torchlit: RenderPipeline,
    pub(super) ink: RenderPipeline,
    pub(super) glass: RenderPipeline,
    pub(super) flat: RenderPipeline,
    /// Depth alone, of parts that nobody will see.
    pub(super) blind: RenderPipeline,
}

/// What differs between them.
struct Sort<'a> {
    entries: [&'a str; 2],
    buffers: &'a [RawVertexBufferLayout<'a>],
    /// Mixed over what is there, from both sides, without depth of its own.
    over: bool,
    writes: ColorWrites,
}

/// The only thing bound: the look of the frame.
pub(super) fn layout(device: &RenderDevice) -> BindGroupLayout {
    let size = core::num::NonZeroU64::new(size_of::<Look>() as u64);
    let entry = BindGroupLayoutEntry {
        binding: 0,
        visibility: ShaderStages::VERTEX_FRAGMENT,
        ty: BindingType::Buffer {
            ty: BufferBindingType::Uniform,
            has_dynamic_offset: false,
            min_binding_size: size,
        },
        count: None,
    };
    device.create_bind_group_layout("hall", &[entry])
}

impl Pipelines {
    pub(super) fn new(device: &RenderDevice, layout: &BindGroupLayout) -> Pipelines {
        let module = device.create_and_validate_shader_module(ShaderModuleDescriptor {
            label: Some("hall"),
            source: ShaderSource::Wgsl(include_str!("hall.wgsl").into()),
        });
        let layout = device.create_pipeline_layout(&PipelineLayoutDescriptor {
            label: Some("hall"),
            bind_group_layouts: &[Some(layout)],
            immediate_size: 0,
        });
        let [corner, end, piece, edges] =
            [&CORNER[..], &END[..], &PIECE[..], &EDGES[..]].map(attributes);
        let pieces = buffer(size_of::<Instance>(), VertexStepMode::Instance, &piece);
        let faces = buffer(size_of::<SolidVertex>(), VertexStepMode::Vertex, &corner);
        let strokes = buffer(size_of::<InkVertex>(), VertexStepMode::Vertex, &end);
        let blinds = buffer(size_of::<[f32; 4]>(), VertexStepMode::Instance, &edges);
        let make = |entries, buffers: &[RawVertexBufferLayout<'_>], over| {
            let writes = ColorWrites::ALL;
            let sort = Sort {
                entries,
                buffers,
                over,
                writes,
            };
            pipeline(device, &module, &layout, &sort)
        };
        let (faces, strokes) = ([faces, pieces.clone()], [strokes, pieces]);
        let blind = Sort {
            entries: ["blind", "blind_pixel"],
            buffers: &[blinds],
            over: false,
            writes: ColorWrites::empty(),
        };
        Pipelines {
            solid: make(["solid", "solid_pixel"], &faces, false),
            torchlit: make(["torchlit", "torchlit_pixel"], &faces, false),
            ink: make(["ink", "ink_pixel"], &strokes, true),
            glass: make(["glass", "glass_pixel"], &faces, true),
            flat: make(["mark", "glass_pixel"], &faces, false),
            blind: pipeline(device, &module, &layout, &blind),
        }
    }
}

/// As `Corner`, `End` and `Piece` in the shader.
const CORNER: [(u32, VertexFormat); 4] = [
    (0, VertexFormat::Float32x3),
    (1, VertexFormat::Snorm8x4),
    (2, VertexFormat::Unorm8x4),
    (3, VertexFormat::Unorm8x4),
];
const END: [(u32, VertexFormat); 5] = [
    (0, VertexFormat::Float32x3),
    (1, VertexFormat::Float32x3),
    (2, VertexFormat::Snorm8x4),
    (3, VertexFormat::Snorm8x4),
    (4, VertexFormat::Unorm8x4),
];
const PIECE: [(u32, VertexFormat); 6] = [
    (8, VertexFormat::Float32x4),
    (9, VertexFormat::Float32x4),
    (10, VertexFormat::Float32x4),
    (11, VertexFormat::Unorm8x4),
    (12, VertexFormat::Float32x4),
    (13, VertexFormat::Uint32),
];

/// As `edges` in the shader.
const EDGES: [(u32, VertexFormat); 1] = [(0, VertexFormat::Float32x4)];

fn buffer(
    stride: usize,
    step_mode: VertexStepMode,
    attributes: &[VertexAttribute],
) -> RawVertexBufferLayout<'_> {
    RawVertexBufferLayout {
        array_stride: stride as u64,
        step_mode,
        attributes,
    }
}

/// One after another, without gaps.
fn attributes(formats: &[(u32, VertexFormat)]) -> Vec<VertexAttribute> {
    let mut offset = 0;
    let next = formats.iter().map(|(shader_location, format)| {
        let attribute = VertexAttribute {
            format: *format,
            offset,
            shader_location: *shader_location,
        };
        offset += format.size();
        attribute
    });
    next.collect()
}

fn pipeline(
    device: &RenderDevice,
    module: &ShaderModule,
    layout: &PipelineLayout,
    sort: &Sort,
) -> RenderPipeline {
    let [vertex, fragment] = sort.entries;
    device.create_render_pipeline(&RawRenderPipelineDescriptor {
        label: Some(vertex),
        layout: Some(layout),
        vertex: RawVertexState {
            module,
            entry_point: Some(vertex),
            compilation_options: PipelineCompilationOptions::default(),
            buffers: sort.buffers,
        },
        primitive: PrimitiveState {
            front_face: FrontFace::Ccw,
            cull_mode: (!sort.over).then_some(Face::Back),
            ..PrimitiveState::default()
        },
        depth_stencil: Some(DepthStencilState {
            format: DEPTH,
            depth_write_enabled: Some(!sort.over),
            depth_compare: Some(CompareFunction::GreaterEqual),
            stencil: Default::default(),
            bias: Default::default(),
        }),
        multisample: MultisampleState::default(),
        fragment: Some(RawFragmentState {
            module,
            entry_point: Some(fragment),
            compilation_options: PipelineCompilationOptions::default(),
            targets: &[Some(ColorTargetState {
                format: PICTURE,
                blend: sort.over.then_some(BlendState::ALPHA_BLENDING),
                write_mask: sort.writes,
            })],
        }),
        multiview_mask: None,
        cache: None,
    })
}
