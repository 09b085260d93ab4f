//! What stays on the graphics side from frame to frame: buffers, the picture last drawn.

use super::load::{Group, Instance, load};
use super::look::{Look, ground};
use super::pipelines::{DEPTH, PICTURE, Pipelines, layout};
use crate::frame::Frame;
use crate::kit::Kit;
use bevy::color::LinearRgba;
use bevy::ecs::resource::Resource;
use bevy::render::render_resource::{
    BindGroup, BindGroupEntry, BindGroupLayout, Buffer, BufferDescriptor, BufferInitDescriptor,
    BufferUsages, CommandEncoder, Extent3d, IndexFormat, LoadOp, Operations,
    RenderPassColorAttachment, RenderPassDepthStencilAttachment, RenderPassDescriptor,
    RenderPipeline, StoreOp, TextureDescriptor, TextureDimension, TextureFormat, TextureUsages,
    TextureView, TextureViewDescriptor,
};
use bevy::render::renderer::{RenderDevice, RenderQueue};
use core::ops::Range;
use std::sync::Arc;

/// A kit on the graphics side.
struct Loaded {
    kit: Arc<Kit>,
    solid: Buffer,
    ink: Buffer,
    indices: Buffer,
}

/// The picture last drawn.
struct Canvas {
    view: TextureView,
    /// The same as the wall has it, where it is hung.
    seen: TextureView,
    depth: TextureView,
    size: [u32; 2],
    /// Of which frame; none when it must be drawn anew.
    shows: Option<Frame>,
}

/// Everything that is kept from frame to frame.
#[derive(Resource, Default)]
pub(super) struct Easel {
    loaded: Option<Loaded>,
    canvas: Option<Canvas>,
    pipelines: Option<Pipelines>,
    bound: Option<(BindGroupLayout, Buffer, BindGroup)>,
    instances: Option<(Buffer, usize)>,
}

/// What draws.
pub(super) struct Tools<'a> {
    pub(super) device: &'a RenderDevice,
    pub(super) queue: &'a RenderQueue,
}

impl Easel {
    /// The picture of a frame. It is drawn only when it is not the one that is there.
    pub(super) fn picture(
        &mut self,
        tools: &Tools,
        frame: &Frame,
        kit: &Arc<Kit>,
        encoder: &mut CommandEncoder,
    ) -> Option<&TextureView> {
        self.load(tools.device, kit);
        self.bind(tools.device);
        self.stretch(tools, frame);
        let fresh = self.canvas.as_ref()?.shows.as_ref() == Some(frame);
        if !fresh {
            let (instances, groups) = load(frame, kit);
            self.place(tools, &instances);
            self.draw(tools.queue, frame, &groups, encoder)?;
            self.canvas.as_mut()?.shows = Some(frame.clone());
        }
        Some(&self.canvas.as_ref()?.seen)
    }

    fn load(&mut self, device: &RenderDevice, kit: &Arc<Kit>) {
        if self
            .loaded
            .as_ref()
            .is_some_and(|loaded| Arc::ptr_eq(&loaded.kit, kit))
        {
            return;
        }
        let buffer = |label, contents: &[u8], usage| {
            // A buffer without content cannot be bound.
            let contents = if contents.is_empty() {
                &[0; 64]
            } else {
                contents
            };
            device.create_buffer_with_data(&BufferInitDescriptor {
                label: Some(label),
                contents,
                usage,
            })
        };
        self.loaded = Some(Loaded {
            kit: Arc::clone(kit),
            solid: buffer(
                "faces",
                bytemuck::cast_slice(&kit.solid),
                BufferUsages::VERTEX,
            ),
            ink: buffer("ink", bytemuck::cast_slice(&kit.ink), BufferUsages::VERTEX),
            indices: buffer(
                "indices",
                bytemuck::cast_slice(&kit.indices),
                BufferUsages::INDEX,
            ),
        });
        if let Some(canvas) = &mut self.canvas {
            canvas.shows = None;
        }
    }

    fn bind(&mut self, device: &RenderDevice) {
        self.bound.get_or_insert_with(|| {
            let layout = layout(device);
            let buffer = device.create_buffer(&BufferDescriptor {
                label: Some("look"),
                size: size_of::<Look>() as u64,
                usage: BufferUsages::UNIFORM | BufferUsages::COPY_DST,
                mapped_at_creation: false,
            });
            let entry = BindGroupEntry {
                binding: 0,
                resource: buffer.as_entire_binding(),
            };
            let group = device.create_bind_group("look", &layout, &[entry]);
            (layout, buffer, group)
        });
        if let (None, Some((layout, ..))) = (&self.pipelines, &self.bound) {
            self.pipelines = Some(Pipelines::new(device, layout));
        }
    }

    /// A canvas of the frame's size.
    fn stretch(&mut self, tools: &Tools, frame: &Frame) {
        let size = [frame.area.width, frame.area.height];
        if self
            .canvas
            .as_ref()
            .is_some_and(|canvas| canvas.size == size)
        {
            return;
        }
        let texture = |label, format: TextureFormat, usage| {
            tools.device.create_texture(&TextureDescriptor {
                label: Some(label),
                size: Extent3d {
                    width: size[0],
                    height: size[1],
                    depth_or_array_layers: 1,
                },
                mip_level_count: 1,
                sample_count: 1,
                dimension: TextureDimension::D2,
                format,
                usage: usage | TextureUsages::RENDER_ATTACHMENT,
                view_formats: &[format.add_srgb_suffix()],
            })
        };
        let picture = texture("hall", PICTURE, TextureUsages::TEXTURE_BINDING);
        let depth = texture("depth of the hall", DEPTH, TextureUsages::empty());
        let whole = TextureViewDescriptor::default();
        self.canvas = Some(Canvas {
            view: picture.create_view(&whole),
            // The shader encodes its colours itself: whoever looks must decode them.
            seen: picture.create_view(&TextureViewDescriptor {
                format: Some(PICTURE.add_srgb_suffix()),
                usage: Some(TextureUsages::TEXTURE_BINDING),
                ..whole.clone()
            }),
            depth: depth.create_view(&whole),
            size,
            shows: None,
        });
    }

    /// Instances into their buffer, which grows by doubling.
    fn place(&mut self, tools: &Tools, instances: &[Instance]) {
        let room = self.instances.as_ref().map_or(0, |(_, room)| *room);
        if room < instances.len().max(1) {
            let room = instances.len().next_power_of_two().max(64);
            let buffer = tools.device.create_buffer(&BufferDescriptor {
                label: Some("pieces"),
                size: (room * size_of::<Instance>()) as u64,
                usage: BufferUsages::VERTEX | BufferUsages::COPY_DST,
                mapped_at_creation: false,
            });
            self.instances = Some((buffer, room));
        }
        if let Some((buffer, _)) = &self.instances {
            tools
                .queue
                .write_buffer(buffer, 0, bytemuck::cast_slice(instances));
        }
    }

    fn draw(
        &self,
        queue: &RenderQueue,
        frame: &Frame,
        groups: &[Group],
        encoder: &mut CommandEncoder,
    ) -> Option<()> {
        let (canvas, loaded) = (self.canvas.as_ref()?, self.loaded.as_ref()?);
        let pipelines = self.pipelines.as_ref()?;
        let ((_, look, group), (instances, _)) = (self.bound.as_ref()?, self.instances.as_ref()?);
        let look_now = Look::of(frame, loaded.kit.middle);
        queue.write_buffer(look, 0, bytemuck::bytes_of(&look_now));
        // The bytes as they are: the picture's format decodes nothing.
        let [red, green, blue] = ground(frame);
        let clear = LinearRgba::rgb(red, green, blue).into();
        let mut pass = encoder.begin_render_pass(&RenderPassDescriptor {
            label: Some("hall"),
            color_attachments: &[Some(RenderPassColorAttachment {
                view: &canvas.view,
                depth_slice: None,
                resolve_target: None,
                ops: Operations {
                    load: LoadOp::Clear(clear),
                    store: StoreOp::Store,
                },
            })],
            depth_stencil_attachment: Some(RenderPassDepthStencilAttachment {
                view: &canvas.depth,
                depth_ops: Some(Operations {
                    load: LoadOp::Clear(0.0),
                    store: StoreOp::Discard,
                }),
                stencil_ops: None,
            }),
            timestamp_writes: None,
            occlusion_query_set: None,
            multiview_mask: None,
        });
        pass.set_bind_group(0, Some(&**group), &[]);
        pass.set_index_buffer(*loaded.indices.slice(..), IndexFormat::Uint32);
        pass.set_vertex_buffer(1, *instances.slice(..));
        let mut kind = |pipeline: &RenderPipeline, corners: &Buffer, draws: &[Draw]| {
            pass.set_pipeline(pipeline);
            pass.set_vertex_buffer(0, *corners.slice(..));
            for (indices, instances) in draws {
                pass.draw_indexed(indices.clone(), 0, instances.clone());
            }
        };
        let parts = &loaded.kit.parts;
        let solid = draws(groups.iter(), |at| parts[at].solid.clone());
        if frame.flat {
            kind(&pipelines.flat, &loaded.solid, &solid);
            return Some(());
        }
        let torch = frame.light.torch.is_some();
        let faces = if torch {
            &pipelines.torchlit
        } else {
            &pipelines.solid
        };
        kind(faces, &loaded.solid, &solid);
        let ink = draws(groups.iter(), |at| parts[at].ink.clone());
        kind(&pipelines.ink, &loaded.ink, &ink);
        // Far before near: panes do not hide one another.
        let glass = draws(groups.iter().rev(), |at| parts[at].glass.clone());
        kind(&pipelines.glass, &loaded.solid, &glass);
        Some(())
    }
}

/// Indices and instances of one draw.
type Draw = (Range<u32>, Range<u32>);

fn draws<'a>(
    groups: impl Iterator<Item = &'a Group>,
    indices: impl Fn(usize) -> Range<u32>,
) -> Vec<Draw> {
    let all = groups.map(|group| (indices(group.part), group.instances.clone()));
    all.filter(|(indices, _)| !indices.is_empty()).collect()
}
