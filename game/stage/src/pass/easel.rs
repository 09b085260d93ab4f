//! What stays on the graphics side from frame to frame: buffers, the picture last drawn.

use super::backdrop::{Backdrop, Plan, plan};
use super::hand::{Hand, blind};
use super::hang::Painting;
use super::load::{Instance, load};
use super::look::{Look, ground};
use super::pipelines::{Pipelines, layout};
use super::sheet::Sheet;
use crate::frame::{Area, Frame};
use crate::kit::Kit;
use bevy::ecs::resource::Resource;
use bevy::render::render_resource::{
    BindGroup, BindGroupEntry, BindGroupLayout, Buffer, BufferDescriptor, BufferInitDescriptor,
    BufferUsages, CommandEncoder, TextureView,
};
use bevy::render::renderer::{RenderDevice, RenderQueue};
use std::sync::Arc;

/// A kit on the graphics side.
pub(super) struct Loaded {
    pub(super) kit: Arc<Kit>,
    pub(super) solid: Buffer,
    pub(super) ink: Buffer,
    pub(super) indices: Buffer,
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
pub struct Easel {
    loaded: Option<Loaded>,
    canvas: Option<Canvas>,
    pipelines: Option<Pipelines>,
    bound: Option<(BindGroupLayout, Buffer, BindGroup)>,
    instances: Option<(Buffer, usize)>,
    /// Parts of the picture that nobody sees, within it.
    hidden: Vec<Area>,
    blinds: Option<Buffer>,
    /// Where the picture belongs, if it is wanted.
    wanted: Option<Area>,
    drawn: u64,
}

/// What draws.
pub(super) struct Tools<'a> {
    pub(super) device: &'a RenderDevice,
    pub(super) queue: &'a RenderQueue,
}

impl Easel {
    /// The hall as it was drawn last, if it is wanted.
    pub fn painting(&self) -> Option<Painting<'_>> {
        let area = self.wanted?;
        let canvas = self.canvas.as_ref()?;
        Some(Painting {
            view: &canvas.seen,
            area,
            drawn: self.drawn,
        })
    }

    /// Nothing is wanted.
    pub(super) fn leave(&mut self) {
        self.wanted = None;
    }

    /// What nobody will see of a frame. What was hidden before may be seen now.
    pub(super) fn hide(&mut self, frame: &Frame, parts: &[Area]) {
        let area = frame.area;
        let inside = parts.iter().map(|part| part.overlap(&area));
        let inside = inside.filter(|part| !part.is_empty());
        let inside = inside.map(|part| Area {
            x: part.x - area.x,
            y: part.y - area.y,
            ..part
        });
        let hidden: Vec<Area> = inside.collect();
        if hidden == self.hidden {
            return;
        }
        self.hidden = hidden;
        self.blinds = None;
        if let Some(canvas) = &mut self.canvas {
            (canvas.shows, canvas.backdrop) = (None, None);
        }
    }

    /// Makes the picture of a frame. It is drawn only when it is not the one that is there.
    pub(super) fn take_up(
        &mut self,
        tools: &Tools,
        (frame, kit): (&Frame, &Arc<Kit>),
        encoder: &mut CommandEncoder,
    ) {
        self.load(tools.device, kit);
        self.bind(tools.device);
        self.stretch(tools, frame);
        self.wanted = Some(frame.area);
        let shows = self
            .canvas
            .as_ref()
            .and_then(|canvas| canvas.shows.as_ref());
        if shows == Some(frame) {
            return;
        }
        self.drawn += 1;
        self.hang_blinds(tools.device, frame);
        let done = self.draw(tools, (frame, kit), encoder);
        if let (Some(()), Some(canvas)) = (done, &mut self.canvas) {
            canvas.shows = Some(frame.clone());
        }
    }

    /// What is hidden, ready to be drawn before all else.
    fn hang_blinds(&mut self, device: &RenderDevice, frame: &Frame) {
        if self.blinds.is_some() || self.hidden.is_empty() {
            return;
        }
        let blinds: Vec<[f32; 4]> = self.hidden.iter().map(|part| blind(part, frame)).collect();
        self.blinds = Some(device.create_buffer_with_data(&BufferInitDescriptor {
            label: Some("blinds"),
            contents: bytemuck::cast_slice(&blinds),
            usage: BufferUsages::VERTEX,
        }));
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
        self.blinds = None;
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
            blinds: self
                .blinds
                .as_ref()
                .map(|blinds| (blinds, self.hidden.len())),
        };
        let sheet = &canvas.sheet;
        let faces = match plan {
            Plan::Whole => &all,
            Plan::New => {
                let mut pass = sheet.begin(Some(ground(frame)), encoder);
                hand.blinds(&mut pass);
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
        if plan == Plan::Whole {
            hand.blinds(&mut pass);
        }
        hand.faces(faces, &mut pass);
        if !frame.flat {
            hand.ink_and_glass(&all, &mut pass);
        }
        Some(())
    }
}
