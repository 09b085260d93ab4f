//! Paints the screens over the hall, on a canvas that stays, and hangs that into what is shown.
//!
//! On a processor without graphics most of a page's time went into mixing colours that nothing
//! shines through, and into painting what was there already. So opaque faces have a brush of their
//! own, and only patches in which something changed are painted anew, from the ground up.

mod brushes;
mod canvas;
mod changed;
mod covers;
mod letters;
mod patches;
mod strokes;
mod triangles;
mod work;

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
use rackproof_stage::{
    frame::Area,
    pass::{Drawn, Easel, Hidden, Painting, Wall},
};

use brushes::{Brushes, Page};
use canvas::Canvas;
use changed::mark_changed;
use covers::covers;
use letters::{Changes, Letters};
use patches::{Patches, Squares};
use strokes::Strokes;
use work::{Run, Work};

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
    /// What is painted on the canvas.
    strokes: Strokes,
    /// What each of their triangles touches.
    touched: Vec<Area>,
    /// Where the next ones are made.
    draft: Strokes,
    /// Whether the last ones were others than those before.
    differs: bool,
    corners: Option<Buffer>,
    canvas: Option<Canvas>,
    /// Whether nothing is on the canvas yet.
    is_new: bool,
    patches: Patches,
    /// What is painted on the canvas, and what straight into what is shown.
    works: [(Work, Option<Buffer>); 2],
    /// Where the hall hangs on the canvas, and how often it had been drawn.
    hall: Option<(Area, u64)>,
    /// Behind the screens on the canvas, and where the canvas itself is hung.
    walls: [Wall; 2],
}

/// Adds the painting. It needs the drawing of `rackproof_stage::pass`, and a camera of its `eye`
/// with egui's context.
pub(super) fn plugin(app: &mut App) {
    if let Some(render) = app.get_sub_app_mut(RenderApp) {
        render
            .init_resource::<Screens>()
            .init_resource::<Painter>()
            .add_systems(ExtractSchedule, extract)
            .add_systems(
                Core2d,
                (prepare.before(Drawn), paint.after(Drawn)).in_set(Core2dSystems::MainPass),
            );
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

/// Finds out what changed, before the hall is drawn: it need not be drawn where it is hidden.
fn prepare(
    view: ViewQuery<&ViewTarget>,
    (mut screens, mut painter): (ResMut<Screens>, ResMut<Painter>),
    mut hidden: ResMut<Hidden>,
    device: Res<RenderDevice>,
    queue: Res<RenderQueue>,
) {
    let target = view.into_inner();
    let Some(format) = target.out_texture_view_format() else {
        return;
    };
    let room = target.main_texture().size();
    let tools = (&*device, &*queue);
    painter.stretch(&device, format, [room.width, room.height]);
    if painter.find_changed(tools, &mut screens) {
        hidden.0 = painter.patches.hidden(&covers(&painter.strokes));
    }
}

/// Paints what changed, and hangs the rest.
fn paint(
    view: ViewQuery<&ViewTarget>,
    mut painter: ResMut<Painter>,
    (easel, hidden): (Res<Easel>, Res<Hidden>),
    device: Res<RenderDevice>,
    queue: Res<RenderQueue>,
    mut context: RenderContext,
) {
    let target = view.into_inner();
    let Some(format) = target.out_texture_view_format() else {
        return;
    };
    let tools = (&*device, &*queue);
    let painter = &mut *painter;
    let hall = easel.painting();
    painter.lay_out(tools, hall.as_ref(), &hidden.0);
    painter.walls[0].turn_to(tools, format, hall.as_ref());
    let Some(canvas) = &painter.canvas else {
        return;
    };
    painter.walls[1].turn_to(tools, format, Some(&canvas.painting()));
    let [settled, changed] = &painter.works;
    let encoder = context.command_encoder();
    if !settled.0.is_empty() {
        painter.paint(settled, &mut canvas.begin(encoder));
    }
    let mut pass = encoder.begin_render_pass(&RenderPassDescriptor {
        label: Some("shown"),
        color_attachments: &[target.out_texture_color_attachment(Some(LinearRgba::BLACK))],
        ..RenderPassDescriptor::default()
    });
    for patch in painter.patches.of(Squares::Kept) {
        painter.walls[1].hang(&patch, &mut pass);
    }
    painter.paint(changed, &mut pass);
}

impl Painter {
    /// A canvas and brushes for what is shown.
    fn stretch(&mut self, device: &RenderDevice, format: TextureFormat, size: [u32; 2]) {
        let fits = |canvas: &Canvas| canvas.format == format && canvas.size == size;
        if self.canvas.as_ref().is_some_and(fits) {
            return;
        }
        let has = |brushes: &Brushes| brushes.format == format;
        if !self.brushes.as_ref().is_some_and(has) {
            self.letters.unbind();
            self.brushes = Some(Brushes::new(device, format));
        }
        self.canvas = Some(Canvas::new(device, format, size));
        self.is_new = true;
    }

    /// Finds what changed of the screens. `true` if there was anything.
    fn find_changed(
        &mut self,
        tools: (&RenderDevice, &RenderQueue),
        screens: &mut Screens,
    ) -> bool {
        let (Some(brushes), Some(canvas)) = (&self.brushes, &self.canvas) else {
            return false;
        };
        self.patches.turn_to(canvas.size);
        let changes = std::mem::take(&mut screens.changes);
        if std::mem::take(&mut self.is_new) || changes.replace() {
            self.patches.mark_all();
        }
        self.letters.change(tools, &brushes.letters, changes);
        brushes.turn_to(tools.1, &Page::of(canvas.size, screens.scale));
        self.draft.of(&screens.jobs, screens.scale, canvas.size);
        self.differs = self.draft != self.strokes;
        if self.differs {
            mark_changed(&self.strokes, &self.draft, &mut self.patches);
            std::mem::swap(&mut self.strokes, &mut self.draft);
            self.touched.clear();
            let areas = self.strokes.triangles().map(|triangle| triangle.area());
            self.touched.extend(areas);
            let corners = bytemuck::cast_slice(&self.strokes.corners);
            fill(tools, &mut self.corners, corners, BufferUsages::VERTEX);
        }
        self.differs
    }

    /// Lays out what is painted: what changed of the screens, and the hall where it can be seen.
    fn lay_out(
        &mut self,
        tools: (&RenderDevice, &RenderQueue),
        hall: Option<&Painting<'_>>,
        hidden: &[Area],
    ) {
        let hall = hall.map(|painting| (painting.area, painting.drawn));
        let before = std::mem::replace(&mut self.hall, hall);
        if before != hall {
            for (area, _) in [before, hall].into_iter().flatten() {
                self.patches.mark_beside(&area, hidden);
            }
        }
        let squares = [Squares::Settled, Squares::Changed];
        for (which, (work, indices)) in squares.into_iter().zip(&mut self.works) {
            let patches = self.patches.of(which);
            if self.differs || !work.is_of(&patches) {
                work.lay_out(&patches, &self.strokes, &self.touched);
                let bytes = bytemuck::cast_slice(work.indices());
                fill(tools, indices, bytes, BufferUsages::INDEX);
            }
        }
    }

    /// Paints patches, each from the ground up.
    fn paint(&self, (work, indices): &(Work, Option<Buffer>), pass: &mut wgpu::RenderPass<'_>) {
        for (patch, runs) in work.patches() {
            self.walls[0].hang(patch, pass);
            self.paint_runs(runs, indices.as_ref(), pass);
        }
    }

    fn paint_runs(&self, runs: &[Run], indices: Option<&Buffer>, pass: &mut wgpu::RenderPass<'_>) {
        let (Some(brushes), Some(corners), Some(indices)) = (&self.brushes, &self.corners, indices)
        else {
            return;
        };
        pass.set_bind_group(0, Some(&*brushes.page), &[]);
        pass.set_vertex_buffer(0, *corners.slice(..));
        pass.set_index_buffer(*indices.slice(..), IndexFormat::Uint32);
        for run in runs {
            let Some(letters) = self.letters.bound(run.texture) else {
                continue;
            };
            pass.set_pipeline(if run.opaque {
                &brushes.flat
            } else {
                &brushes.over
            });
            pass.set_bind_group(1, Some(&**letters), &[]);
            pass.set_scissor_rect(run.clip.x, run.clip.y, run.clip.width, run.clip.height);
            pass.draw_indexed(run.indices.clone(), 0, 0..1);
        }
    }
}

/// Bytes into a buffer, which grows by doubling.
fn fill(
    (device, queue): (&RenderDevice, &RenderQueue),
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

#[cfg(test)]
mod tests;
