//! How triangles of the screens are painted.

use bevy::render::{
    render_resource::{
        BindGroup, BindGroupEntry, BindGroupLayout, BindGroupLayoutEntry, BindingType, BlendState,
        Buffer, BufferBindingType, BufferDescriptor, BufferUsages, ColorTargetState, ColorWrites,
        MultisampleState, PipelineCompilationOptions, PipelineLayout, PipelineLayoutDescriptor,
        PrimitiveState, RawFragmentState, RawRenderPipelineDescriptor, RawVertexBufferLayout,
        RawVertexState, RenderPipeline, ShaderModule, ShaderModuleDescriptor, ShaderSource,
        ShaderStages, TextureFormat, TextureSampleType, TextureViewDimension, VertexAttribute,
        VertexFormat, VertexStepMode,
    },
    renderer::{RenderDevice, RenderQueue},
};

/// As `Page` in the shader.
#[derive(Clone, Copy, Debug, bytemuck::Pod, bytemuck::Zeroable)]
#[repr(C)]
pub(super) struct Page([f32; 4]);

impl Page {
    /// A page of this size in pixels, so many of them a point.
    pub(super) fn of([width, height]: [u32; 2], scale: f32) -> Page {
        let [x, y] = [width, height].map(|length| 2.0 * scale / length as f32);
        Page([x, -y, 0.0, 0.0])
    }
}

/// The brushes for one format of what is shown.
pub(super) struct Brushes {
    pub(super) format: TextureFormat,
    /// Opaque faces.
    pub(super) flat: RenderPipeline,
    /// All else, mixed over what is there.
    pub(super) over: RenderPipeline,
    /// How textures are bound.
    pub(super) letters: BindGroupLayout,
    pub(super) page: BindGroup,
    turned: Buffer,
}

impl Brushes {
    pub(super) fn new(device: &RenderDevice, format: TextureFormat) -> Brushes {
        let module = device.create_and_validate_shader_module(ShaderModuleDescriptor {
            label: Some("screens"),
            source: ShaderSource::Wgsl(include_str!("screens.wgsl").into()),
        });
        let page = device.create_bind_group_layout("page", &[PAGE]);
        let letters = device.create_bind_group_layout("letters", &[LETTERS]);
        let layout = device.create_pipeline_layout(&PipelineLayoutDescriptor {
            label: Some("screens"),
            bind_group_layouts: &[Some(&page), Some(&letters)],
            immediate_size: 0,
        });
        let make = |pixel, blend| pipeline(device, (&module, &layout), format, pixel, blend);
        let turned = device.create_buffer(&BufferDescriptor {
            label: Some("page"),
            size: size_of::<Page>() as u64,
            usage: BufferUsages::UNIFORM | BufferUsages::COPY_DST,
            mapped_at_creation: false,
        });
        let entry = BindGroupEntry {
            binding: 0,
            resource: turned.as_entire_binding(),
        };
        Brushes {
            format,
            flat: make("flat_pixel", None),
            over: make("over_pixel", Some(BlendState::PREMULTIPLIED_ALPHA_BLENDING)),
            page: device.create_bind_group("page", &page, &[entry]),
            letters,
            turned,
        }
    }

    /// The page that is painted next.
    pub(super) fn turn_to(&self, queue: &RenderQueue, page: &Page) {
        queue.write_buffer(&self.turned, 0, bytemuck::bytes_of(page));
    }
}

const PAGE: BindGroupLayoutEntry = BindGroupLayoutEntry {
    binding: 0,
    visibility: ShaderStages::VERTEX,
    ty: BindingType::Buffer {
        ty: BufferBindingType::Uniform,
        has_dynamic_offset: false,
        min_binding_size: None,
    },
    count: None,
};
const LETTERS: BindGroupLayoutEntry = BindGroupLayoutEntry {
    binding: 0,
    visibility: ShaderStages::FRAGMENT,
    ty: BindingType::Texture {
        sample_type: TextureSampleType::Float { filterable: false },
        view_dimension: TextureViewDimension::D2,
        multisampled: false,
    },
    count: None,
};

/// As egui has its corners: place and texel of two floats each, and a colour.
const CORNER: [VertexAttribute; 3] = [
    attribute(0, VertexFormat::Float32x2, 0),
    attribute(1, VertexFormat::Float32x2, 8),
    attribute(2, VertexFormat::Unorm8x4, 16),
];

const fn attribute(shader_location: u32, format: VertexFormat, offset: u64) -> VertexAttribute {
    VertexAttribute {
        format,
        offset,
        shader_location,
    }
}

fn pipeline(
    device: &RenderDevice,
    (module, layout): (&ShaderModule, &PipelineLayout),
    format: TextureFormat,
    pixel: &'static str,
    blend: Option<BlendState>,
) -> RenderPipeline {
    device.create_render_pipeline(&RawRenderPipelineDescriptor {
        label: Some(pixel),
        layout: Some(layout),
        vertex: RawVertexState {
            module,
            entry_point: Some("corner"),
            compilation_options: PipelineCompilationOptions::default(),
            buffers: &[RawVertexBufferLayout {
                array_stride: size_of::<egui::epaint::Vertex>() as u64,
                step_mode: VertexStepMode::Vertex,
                attributes: &CORNER,
            }],
        },
        primitive: PrimitiveState::default(),
        depth_stencil: None,
        multisample: MultisampleState::default(),
        fragment: Some(RawFragmentState {
            module,
            entry_point: Some(pixel),
            compilation_options: PipelineCompilationOptions::default(),
            targets: &[Some(ColorTargetState {
                format,
                blend,
                write_mask: ColorWrites::ALL,
            })],
        }),
        multiview_mask: None,
        cache: None,
    })
}
