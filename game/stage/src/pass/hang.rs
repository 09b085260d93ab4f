//! Hangs the hall's picture into the picture of the window.

use crate::frame::Area;
use bevy::ecs::resource::Resource;
use bevy::render::render_resource::{
    BindGroupEntry, BindGroupLayout, BindGroupLayoutEntry, BindingResource, BindingType, Buffer,
    BufferBindingType, BufferDescriptor, BufferUsages, ColorTargetState, ColorWrites,
    MultisampleState, PipelineCompilationOptions, PipelineLayoutDescriptor, PrimitiveState,
    RawFragmentState, RawRenderPipelineDescriptor, RawVertexState, RenderPipeline,
    ShaderModuleDescriptor, ShaderSource, ShaderStages, TextureFormat, TextureSampleType,
    TextureView, TextureViewDimension,
};
use bevy::render::renderer::{RenderDevice, RenderQueue};

/// What hangs pictures, for one format of the window.
struct Nail {
    format: TextureFormat,
    pipeline: RenderPipeline,
    layout: BindGroupLayout,
    place: Buffer,
}

/// What hangs pictures, once it is known into what.
#[derive(Resource, Default)]
pub(super) struct Wall(Option<Nail>);

impl Wall {
    /// Hangs a picture at its area, of which `size` is inside of the window.
    pub(super) fn hang(
        &mut self,
        (device, queue): (&RenderDevice, &RenderQueue),
        format: TextureFormat,
        picture: &TextureView,
        (area, size): (Area, [u32; 2]),
        pass: &mut wgpu::RenderPass<'_>,
    ) {
        let nail = match self.0.take() {
            Some(nail) if nail.format == format => nail,
            _ => Nail::new(device, format),
        };
        let nail = self.0.insert(nail);
        queue.write_buffer(&nail.place, 0, bytemuck::bytes_of(&[area.x, area.y, 0, 0]));
        let entries = [
            BindGroupEntry {
                binding: 0,
                resource: BindingResource::TextureView(picture),
            },
            BindGroupEntry {
                binding: 1,
                resource: nail.place.as_entire_binding(),
            },
        ];
        let group = device.create_bind_group("hung", &nail.layout, &entries);
        pass.set_pipeline(&nail.pipeline);
        pass.set_bind_group(0, Some(&*group), &[]);
        pass.set_scissor_rect(area.x, area.y, size[0], size[1]);
        pass.draw(0..3, 0..1);
    }
}

impl Nail {
    fn new(device: &RenderDevice, format: TextureFormat) -> Nail {
        let module = device.create_and_validate_shader_module(ShaderModuleDescriptor {
            label: Some("hang"),
            source: ShaderSource::Wgsl(include_str!("hang.wgsl").into()),
        });
        let layout = layout(device);
        let whole = device.create_pipeline_layout(&PipelineLayoutDescriptor {
            label: Some("hang"),
            bind_group_layouts: &[Some(&layout)],
            immediate_size: 0,
        });
        let pipeline = device.create_render_pipeline(&RawRenderPipelineDescriptor {
            label: Some("hang"),
            layout: Some(&whole),
            vertex: RawVertexState {
                module: &module,
                entry_point: Some("whole"),
                compilation_options: PipelineCompilationOptions::default(),
                buffers: &[],
            },
            primitive: PrimitiveState::default(),
            depth_stencil: None,
            multisample: MultisampleState::default(),
            fragment: Some(RawFragmentState {
                module: &module,
                entry_point: Some("hung"),
                compilation_options: PipelineCompilationOptions::default(),
                targets: &[Some(ColorTargetState {
                    format,
                    blend: None,
                    write_mask: ColorWrites::ALL,
                })],
            }),
            multiview_mask: None,
            cache: None,
        });
        let place = device.create_buffer(&BufferDescriptor {
            label: Some("place"),
            size: size_of::<[u32; 4]>() as u64,
            usage: BufferUsages::UNIFORM | BufferUsages::COPY_DST,
            mapped_at_creation: false,
        });
        Nail {
            format,
            pipeline,
            layout,
            place,
        }
    }
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
