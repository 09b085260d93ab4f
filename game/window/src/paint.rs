//! Paints the screens over the hall, straight into what is shown.
//!
//! On a processor without graphics most of a page's time went into mixing colours that nothing
//! shines through, and into one more picture in between. So opaque faces have a brush of their own,
//! and there is no picture in between.

mod brushes;
mod letters;
mod strokes;

use bevy::{
    app::App,
    color::LinearRgba,
    core_pipeline::{Core2d, Core2dSystems},
    ecs::{
        resource::Resource,
        schedule::IntoScheduleConfigs,
        system::{Res, ResMut},
    },
    render::{
        ExtractSchedule, MainWorld, RenderApp,
        render_resource::RenderPassDescriptor,
        render_resource::{Buffer, BufferDescriptor, BufferUsages, IndexFormat, TextureFormat},
        renderer::{RenderContext, RenderDevice, RenderQueue, ViewQuery},
        view::ViewTarget,
    },
};
use bevy_egui::{EguiOutput, EguiRenderOutput};
use rackproof_stage::pass::Hung;

use brushes::{Brushes, Page};
use letters::{Changes, Letters};
use strokes::Strokes;

/// What egui gave last.
#[derive(Resource, Default)]
struct Screens {
    jobs: Vec<egui::ClippedPrimitive>,
    /// All changes of textures since the last picture.
    changes: Changes,
    /// Physical pixels a point.
    scale: f32,
}

/// What stays from picture to picture.
#[derive(Resource, Default)]
struct Painter {
    brushes: Option<Brushes>,
    letters: Letters,
    strokes: Strokes,
    corners: Option<Buffer>,
    indices: Option<Buffer>,
}

/// Adds the painting. It needs a camera of `rackproof_stage::pass::eye` with egui's context.
pub(super) fn plugin(app: &mut App) {
    if let Some(render) = app.get_sub_app_mut(RenderApp) {
        render
            .init_resource::<Screens>()
            .init_resource::<Painter>()
            .add_systems(ExtractSchedule, extract)
            .add_systems(Core2d, paint.in_set(Core2dSystems::MainPass).after(Hung));
    }
}

fn extract(mut main: ResMut<MainWorld>, mut screens: ResMut<Screens>) {
    let mut contexts = main.query::<(&mut EguiRenderOutput, &EguiOutput)>();
    for (mut output, with) in contexts.iter_mut(&mut main) {
        let new = std::mem::take(&mut *output);
        screens.jobs = new.paint_jobs;
        screens.changes.add(new.textures_delta);
        screens.scale = with.pixels_per_point;
    }
}

fn paint(
    view: ViewQuery<&ViewTarget>,
    (mut screens, mut painter): (ResMut<Screens>, ResMut<Painter>),
    device: Res<RenderDevice>,
    queue: Res<RenderQueue>,
    mut context: RenderContext,
) {
    let target = view.into_inner();
    let Some(format) = target.out_texture_view_format() else {
        return;
    };
    let room = target.main_texture().size();
    let size = [room.width, room.height];
    let painter = &mut *painter;
    painter.prepare(&device, &queue, format, &mut screens, size);
    let mut pass = context
        .command_encoder()
        .begin_render_pass(&RenderPassDescriptor {
            label: Some("screens"),
            color_attachments: &[target.out_texture_color_attachment(Some(LinearRgba::BLACK))],
            ..RenderPassDescriptor::default()
        });
    painter.paint(&mut pass);
}

impl Painter {
    fn prepare(
        &mut self,
        device: &RenderDevice,
        queue: &RenderQueue,
        format: TextureFormat,
        screens: &mut Screens,
        size: [u32; 2],
    ) {
        let brushes = match self.brushes.take() {
            Some(brushes) if brushes.format == format => brushes,
            _ => {
                self.letters.unbind();
                Brushes::new(device, format)
            }
        };
        let changes = std::mem::take(&mut screens.changes);
        self.letters
            .change(device, queue, &brushes.letters, changes);
        brushes.turn_to(queue, &Page::of(size, screens.scale));
        self.brushes = Some(brushes);
        self.strokes.of(&screens.jobs, screens.scale, size);
        let (corners, indices) = self.strokes.bytes();
        fill(
            device,
            queue,
            &mut self.corners,
            corners,
            BufferUsages::VERTEX,
        );
        fill(
            device,
            queue,
            &mut self.indices,
            indices,
            BufferUsages::INDEX,
        );
    }

    fn paint(&self, pass: &mut wgpu::RenderPass<'_>) {
        let (Some(brushes), Some(corners), Some(indices)) =
            (&self.brushes, &self.corners, &self.indices)
        else {
            return;
        };
        pass.set_bind_group(0, Some(&*brushes.page), &[]);
        pass.set_vertex_buffer(0, *corners.slice(..));
        pass.set_index_buffer(*indices.slice(..), IndexFormat::Uint32);
        for stroke in self.strokes.each() {
            let Some(letters) = self.letters.bound(stroke.texture) else {
                continue;
            };
            let [x, y, width, height] = stroke.clip;
            pass.set_pipeline(if stroke.opaque {
                &brushes.flat
            } else {
                &brushes.over
            });
            pass.set_bind_group(1, Some(&**letters), &[]);
            pass.set_scissor_rect(x, y, width, height);
            pass.draw_indexed(stroke.indices.clone(), 0, 0..1);
        }
    }
}

/// Bytes into a buffer, which grows by doubling.
fn fill(
    device: &RenderDevice,
    queue: &RenderQueue,
    buffer: &mut Option<Buffer>,
    bytes: &[u8],
    usage: BufferUsages,
) {
    let needed = bytes.len() as u64;
    if buffer.as_ref().is_none_or(|buffer| buffer.size() < needed) {
        *buffer = Some(device.create_buffer(&BufferDescriptor {
            label: Some("screens"),
            size: needed.next_power_of_two().max(1 << 16),
            usage: usage | BufferUsages::COPY_DST,
            mapped_at_creation: false,
        }));
    }
    if let Some(buffer) = buffer {
        queue.write_buffer(buffer, 0, bytes);
    }
}
