//! What stays on the graphics side from frame to frame: buffers, the picture last drawn.

use super::backdrop::{Backdrop, Plan, plan};
use super::load::{Group, Instance, load};
use super::look::{Look, ground};
use super::pipelines::{Pipelines, layout};
use super::sheet::Sheet;
use crate::frame::Frame;
use crate::kit::Kit;
use bevy::ecs::resource::Resource;
use bevy::render::render_resource::{
    BindGroup, BindGroupEntry, BindGroupLayout, Buffer, BufferDescriptor, BufferInitDescriptor,
    BufferUsages, CommandEncoder, IndexFormat, RenderPipeline, TextureView,
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
    sheet: Sheet,
    seen: TextureView,
    size: [u32; 2],
    backdrop: Option<Backdrop>,
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
            self.draw(tools, (frame, kit), encoder)?;
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
        let sheet = Sheet::new(tools.device, size);
        self.canvas = Some(Canvas {
            seen: sheet.seen(),
            sheet,
            size,
            backdrop: None,
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
        &mut self,
        tools: &Tools,
        (frame, kit): (&Frame, &Kit),
        encoder: &mut CommandEncoder,
    ) -> Option<()> {
        let canvas = self.canvas.as_ref()?;
        let kept = canvas.backdrop.as_ref().map(|backdrop| &backdrop.shows);
        let (plan, rest) = plan(canvas.shows.as_ref(), kept, frame);
        let rests = |at: usize| rest.rests.get(at).is_some_and(|rests| *rests);
        let mut instances = Vec::with_capacity(2 * frame.pieces.len());
        let all = load((frame, kit), |_| true, &mut instances);
        let moving = load((frame, kit), |at| !rests(at), &mut instances);
        let resting = load((frame, kit), rests, &mut instances);
        self.place(tools, &instances);
        let canvas = self.canvas.as_mut()?;
        let (_, look, group) = self.bound.as_ref()?;
        let now = Look::of(frame, kit.middle);
        tools.queue.write_buffer(look, 0, bytemuck::bytes_of(&now));
        let hand = Hand {
            frame,
            loaded: self.loaded.as_ref()?,
            pipelines: self.pipelines.as_ref()?,
            look: group,
            instances: &self.instances.as_ref()?.0,
        };
        let sheet = &canvas.sheet;
        let faces = match plan {
            Plan::Whole => &all,
            Plan::New => {
                let mut pass = sheet.begin(Some(ground(frame)), encoder);
                hand.faces(&resting, &mut pass);
                drop(pass);
                let old = canvas.backdrop.take().map(|backdrop| backdrop.sheet);
                let new = old.unwrap_or_else(|| Sheet::new(tools.device, canvas.size));
                sheet.copy_onto(&new, encoder);
                canvas.backdrop = Some(Backdrop {
                    sheet: new,
                    shows: rest,
                });
                &moving
            }
            Plan::Kept => {
                let backdrop = canvas.backdrop.as_ref()?;
                backdrop.sheet.copy_onto(sheet, encoder);
                &moving
            }
        };
        let ground = (plan == Plan::Whole).then(|| ground(frame));
        let mut pass = sheet.begin(ground, encoder);
        hand.faces(faces, &mut pass);
        if !frame.flat {
            hand.ink_and_glass(&all, &mut pass);
        }
        Some(())
    }
}

/// What draws groups of pieces.
struct Hand<'a> {
    frame: &'a Frame,
    loaded: &'a Loaded,
    pipelines: &'a Pipelines,
    look: &'a BindGroup,
    instances: &'a Buffer,
}

impl Hand<'_> {
    fn faces(&self, groups: &[Group], pass: &mut wgpu::RenderPass<'_>) {
        let parts = &self.loaded.kit.parts;
        let solid = draws(groups.iter(), |at| parts[at].solid.clone());
        let pipeline = match (self.frame.flat, self.frame.light.torch) {
            (true, _) => &self.pipelines.flat,
            (false, Some(_)) => &self.pipelines.torchlit,
            (false, None) => &self.pipelines.solid,
        };
        self.kind(pipeline, &self.loaded.solid, &solid, pass);
    }

    fn ink_and_glass(&self, groups: &[Group], pass: &mut wgpu::RenderPass<'_>) {
        let parts = &self.loaded.kit.parts;
        let ink = draws(groups.iter(), |at| parts[at].ink.clone());
        self.kind(&self.pipelines.ink, &self.loaded.ink, &ink, pass);
        // Far before near: panes do not hide one another.
        let glass = draws(groups.iter().rev(), |at| parts[at].glass.clone());
        self.kind(&self.pipelines.glass, &self.loaded.solid, &glass, pass);
    }

    fn kind(
        &self,
        pipeline: &RenderPipeline,
        corners: &Buffer,
        draws: &[Draw],
        pass: &mut wgpu::RenderPass<'_>,
    ) {
        pass.set_pipeline(pipeline);
        pass.set_bind_group(0, Some(&**self.look), &[]);
        pass.set_index_buffer(*self.loaded.indices.slice(..), IndexFormat::Uint32);
        pass.set_vertex_buffer(0, *corners.slice(..));
        pass.set_vertex_buffer(1, *self.instances.slice(..));
        for (indices, instances) in draws {
            pass.draw_indexed(indices.clone(), 0, instances.clone());
        }
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
