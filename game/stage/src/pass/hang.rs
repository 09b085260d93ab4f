//! Hangs a picture into another one: the hall's into that of the window.

use crate::frame::Area;
use bevy::ecs::resource::Resource;
use bevy::render::render_resource::{
    BindGroup, BindGroupEntry, BindGroupLayout, BindGroupLayoutEntry, BindingResource, BindingType,
    Buffer, BufferBindingType, BufferDescriptor, BufferUsages, ColorTargetState, ColorWrites,
    MultisampleState, PipelineCompilationOptions, PipelineLayout, PipelineLayoutDescriptor,
    PrimitiveState, RawFragmentState, RawRenderPipelineDescriptor, RawVertexState, RenderPipeline,
    ShaderModule, ShaderModuleDescriptor, ShaderSource, ShaderStages, TextureFormat,
    TextureSampleType, TextureView, TextureViewDimension,
};
use bevy::render::renderer::{RenderDevice, RenderQueue};

/// A picture that can be hung.
#[derive(Clone, Copy, Debug)]
pub struct Painting<'p> {
    /// Its pixels.
    pub view: &'p TextureView,
    /// Where it belongs, and how large it is.
    pub area: Area,
    /// How often it was drawn: while this stays, so do its pixels.
    pub drawn: u64,
}

/// What hangs pictures, for one format of what they are hung into.
struct Nail {
    format: TextureFormat,
    hung: RenderPipeline,
    black: RenderPipeline,
    layout: BindGroupLayout,
    place: Buffer,
}

/// Where pictures are hung, once it is known into what.
#[derive(Resource, Default)]
pub struct Wall {
    nail: Option<Nail>,
    /// What hangs, and where.
    hung: Option<(BindGroup, Area)>,
}

impl Wall {
    /// Makes a picture ready to be hung, or none.
    pub fn turn_to(
        &mut self,
        (device, queue): (&RenderDevice, &RenderQueue),
        format: TextureFormat,
        painting: Option<&Painting<'_>>,
    ) {
        let nail = match self.nail.take() {
            Some(nail) if nail.format == format => nail,
            _ => Nail::new(device, format),
        };
        let nail = self.nail.insert(nail);
        self.hung = painting.map(|painting| {
            let Area { x, y, .. } = painting.area;
            queue.write_buffer(&nail.place, 0, bytemuck::bytes_of(&[x, y, 0, 0]));
            let entries = [
                BindGroupEntry {
                    binding: 0,
                    resource: BindingResource::TextureView(painting.view),
                },
                BindGroupEntry {
                    binding: 1,
                    resource: nail.place.as_entire_binding(),
                },
            ];
            let group = device.create_bind_group("hung", &nail.layout, &entries);
            (group, painting.area)
        });
    }

    /// Hangs what was made ready, as far as it is in this part of what is drawn on. The rest of the
    /// part is black.
    pub fn hang(&self, part: &Area, pass: &mut wgpu::RenderPass<'_>) {
        let Some(nail) = &self.nail else { return };
        let inside = self.hung.as_ref().map(|(_, area)| area.overlap(part));
        if inside != Some(*part) {
            draw(&nail.black, part, pass);
        }
        if let (Some(inside), Some((group, _))) = (inside, &self.hung)
            && !inside.is_empty()
        {
            pass.set_bind_group(0, Some(&**group), &[]);
            draw(&nail.hung, &inside, pass);
        }
    }
}

fn draw(pipeline: &RenderPipeline, part: &Area, pass: &mut wgpu::RenderPass<'_>) {
    pass.set_pipeline(pipeline);
    pass.set_scissor_rect(part.x, part.y, part.width, part.height);
    pass.draw(0..3, 0..1);
}

impl Nail {
    fn new(device: &RenderDevice, format: TextureFormat) -> Nail {
        let module = device.create_and_validate_shader_module(ShaderModuleDescriptor {
            label: Some("hang"),
            source: ShaderSource::Wgsl(include_str!("hang.wgsl").into()),
        });
        let layout = layout(device);
        let with = |layouts: &[Option<&wgpu::BindGroupLayout>], pixel| {
            let whole = device.create_pipeline_layout(&PipelineLayoutDescriptor {
                label: Some(pixel),
                bind_group_layouts: layouts,
                immediate_size: 0,
            });
            pipeline(device, (&module, &whole), format, pixel)
        };
        let place = device.create_buffer(&BufferDescriptor {
            label: Some("place"),
            size: size_of::<[u32; 4]>() as u64,
            usage: BufferUsages::UNIFORM | BufferUsages::COPY_DST,
            mapped_at_creation: false,
        });
        Nail {
            format,
            hung: with(&[Some(&layout)], "hung"),
            black: with(&[], "black"),
            layout,
            place,
        }
    }
}

fn pipeline(
    device: &RenderDevice,
    (module, layout): (&ShaderModule, &PipelineLayout),
    format: TextureFormat,
    pixel: &'static str,
) -> RenderPipeline {
    device.create_render_pipeline(&RawRenderPipelineDescriptor {
        label: Some(pixel),
        layout: Some(layout),
        vertex: RawVertexState {
            module,
            entry_point: Some("whole"),
            compilation_options: PipelineCompilationOptions::default(),
            buffers: &[],
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
                blend: None,
                write_mask: ColorWrites::ALL,
            })],
        }),
        multiview_mask: None,
        cache: None,
    })
}

fn layout(device: &RenderDevice) -> BindGroupLayout {
    let entry = |binding, ty| BindGroupLayoutEntry {
        binding,
        visibility: ShaderStages::FRAGMENT,
        ty,
        count: None,
    };
    let picture = BindingType::Texture {
        sample_type: TextureSampleType::Float { filterable: false },
        view_dimension: TextureViewDimension::D2,
        multisampled: false,
    };
    let place = BindingType::Buffer {
        ty: BufferBindingType::Uniform,
        has_dynamic_offset: false,
        min_binding_size: None,
    };
    device.create_bind_group_layout("hang", &[entry(0, picture), entry(1, place)])
}
