//! Draws the [`Frame`] with the kit of the [`Stage`] into what the full-window camera of [`eye`]
//! shows, before what is painted over it. Without a frame or a stage it shows black.
//!
//! The hall is drawn into a picture of its own, and only when the frame has changed; each frame
//! of the window gets that picture hung into it, by [`plugin`] or by whoever paints over it. It
//! goes straight to what is shown: the engine's picture in between would cost a driver on a
//! processor one more pass over all pixels.

mod backdrop;
mod easel;
mod hand;
mod hang;
mod load;
mod look;
mod pipelines;
mod sheet;
#[cfg(test)]
mod tests;

use crate::frame::{Area, Frame};
use crate::kit::{Kit, Stage};
use bevy::app::App;
use bevy::camera::{Camera, Camera2d, CameraOutputMode};
use bevy::color::LinearRgba;
use bevy::core_pipeline::{Core2d, Core2dSystems};
use bevy::ecs::prelude::*;
use bevy::render::camera::ExtractedCamera;
use bevy::render::render_resource::RenderPassDescriptor;
use bevy::render::renderer::{RenderContext, RenderDevice, RenderQueue, ViewQuery};
use bevy::render::view::{Msaa, ViewTarget};
use bevy::render::{Extract, ExtractSchedule, Render, RenderApp, RenderSystems};
pub use easel::Easel;
use easel::Tools;
pub use hang::{Painting, Wall};
use std::sync::Arc;

/// Frame and kit, as the graphics side has them.
#[derive(Resource, Default)]
struct Wanted {
    frame: Option<Frame>,
    kit: Option<Arc<Kit>>,
}

/// When the hall is drawn, in the schedule `Core2d`. Whoever hangs it comes after this.
#[derive(SystemSet, Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Drawn;

/// Parts of what is shown that are painted over: there the hall need not be drawn.
#[derive(Resource, Clone, Debug, Default, PartialEq, Eq)]
pub struct Hidden(pub Vec<Area>);

/// The camera of the pass, but for its target.
pub fn eye() -> impl Bundle {
    (Camera2d, Camera::default(), Msaa::Off)
}

/// Adds the pass: the hall is drawn, and hung into what is shown.
pub fn plugin(app: &mut App) {
    drawing(app);
    if let Some(render) = app.get_sub_app_mut(RenderApp) {
        render
            .init_resource::<Wall>()
            .add_systems(Core2d, hang.in_set(Core2dSystems::MainPass).after(Drawn));
    }
}

/// Adds the drawing alone. Who paints what is shown hangs the [`Easel`]'s picture.
pub fn drawing(app: &mut App) {
    if let Some(render) = app.get_sub_app_mut(RenderApp) {
        render
            .init_resource::<Easel>()
            .init_resource::<Wanted>()
            .init_resource::<Hidden>()
            .add_systems(ExtractSchedule, extract)
            .add_systems(Render, keep_out.in_set(RenderSystems::Queue))
            .add_systems(Core2d, draw.in_set(Core2dSystems::MainPass).in_set(Drawn));
    }
}

/// What is shown is made ready by now for all who write to it. Keeps the engine from writing its
/// own picture over ours.
fn keep_out(mut cameras: Query<&mut ExtractedCamera>) {
    for mut camera in &mut cameras {
        camera.output_mode = CameraOutputMode::Skip;
    }
}

fn extract(
    frame: Extract<Option<Res<Frame>>>,
    stage: Extract<Option<Res<Stage>>>,
    mut wanted: ResMut<Wanted>,
) {
    match frame.as_ref() {
        Some(frame) if wanted.frame.as_ref() == Some(&**frame) => {}
        Some(frame) => wanted.frame = Some(Frame::clone(frame)),
        None => wanted.frame = None,
    }
    wanted.kit = stage.as_ref().map(|stage| Arc::clone(&stage.0));
}

/// The hall, in a picture of its own.
fn draw(
    view: ViewQuery<&ViewTarget>,
    wanted: Res<Wanted>,
    hidden: Res<Hidden>,
    mut easel: ResMut<Easel>,
    device: Res<RenderDevice>,
    queue: Res<RenderQueue>,
    mut context: RenderContext,
) {
    let room = view.into_inner().main_texture().size();
    let shown = |frame: &&Frame| {
        let area = frame.area;
        !area.is_empty() && area.x < room.width && area.y < room.height
    };
    let tools = Tools {
        device: &device,
        queue: &queue,
    };
    match (wanted.frame.as_ref().filter(shown), &wanted.kit) {
        (Some(frame), Some(kit)) => {
            easel.hide(frame, &hidden.0);
            easel.take_up(&tools, (frame, kit), context.command_encoder());
        }
        _ => easel.leave(),
    }
}

/// The hall's picture, in what is shown.
fn hang(
    view: ViewQuery<&ViewTarget>,
    easel: Res<Easel>,
    mut wall: ResMut<Wall>,
    device: Res<RenderDevice>,
    queue: Res<RenderQueue>,
    mut context: RenderContext,
) {
    let target = view.into_inner();
    let Some(format) = target.out_texture_view_format() else {
        return;
    };
    let painting = easel.painting();
    wall.turn_to((&device, &queue), format, painting.as_ref());
    let room = target.main_texture().size();
    let whole = Area {
        width: room.width,
        height: room.height,
        ..Area::default()
    };
    let encoder = context.command_encoder();
    let mut pass = encoder.begin_render_pass(&RenderPassDescriptor {
        label: Some("hung"),
        color_attachments: &[target.out_texture_color_attachment(Some(LinearRgba::BLACK))],
        ..RenderPassDescriptor::default()
    });
    wall.hang(&whole, &mut pass);
}
