//! Draws the [`Frame`] with the kit of the [`Stage`] into what the full-window camera of [`eye`]
//! shows, before what is painted over it. Without a frame or a stage it shows black.
//!
//! The hall is drawn into a picture of its own, and only when the frame has changed; each frame
//! of the window gets that picture hung into it. It goes straight to what is shown: the engine's
//! picture in between would cost a driver on a processor one more pass over all pixels.

mod backdrop;
mod easel;
mod hang;
mod load;
mod look;
mod pipelines;
mod sheet;
#[cfg(test)]
mod tests;

use crate::frame::Frame;
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
use easel::{Easel, Tools};
use hang::Wall;
use std::sync::Arc;

/// Frame and kit, as the graphics side has them.
#[derive(Resource, Default)]
struct Wanted {
    frame: Option<Frame>,
    kit: Option<Arc<Kit>>,
}

/// When the hall hangs in what is shown, in the schedule `Core2d`. Whoever paints over it comes
/// after this.
#[derive(SystemSet, Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Hung;

/// The camera of the pass, but for its target.
pub fn eye() -> impl Bundle {
    (Camera2d, Camera::default(), Msaa::Off)
}

/// Adds the pass.
pub fn plugin(app: &mut App) {
    if let Some(render) = app.get_sub_app_mut(RenderApp) {
        render
            .init_resource::<Easel>()
            .init_resource::<Wall>()
            .init_resource::<Wanted>()
            .add_systems(ExtractSchedule, extract)
            .add_systems(Render, keep_out.in_set(RenderSystems::Queue))
            .add_systems(Core2d, draw.in_set(Core2dSystems::MainPass).in_set(Hung));
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

/// The hall, in what is shown.
fn draw(
    view: ViewQuery<&ViewTarget>,
    wanted: Res<Wanted>,
    (mut easel, mut wall): (ResMut<Easel>, ResMut<Wall>),
    device: Res<RenderDevice>,
    queue: Res<RenderQueue>,
    mut context: RenderContext,
) {
    let target = view.into_inner();
    let Some(format) = target.out_texture_view_format() else {
        return;
    };
    let room = target.main_texture().size();
    let shown = |frame: &&Frame| {
        let area = frame.area;
        !area.is_empty() && area.x < room.width && area.y < room.height
    };
    let encoder = context.command_encoder();
    let tools = Tools {
        device: &device,
        queue: &queue,
    };
    let hung = match (wanted.frame.as_ref().filter(shown), &wanted.kit) {
        (Some(frame), Some(kit)) => easel
            .picture(&tools, frame, kit, encoder)
            .map(|picture| (picture, frame.area)),
        _ => None,
    };
    let mut pass = encoder.begin_render_pass(&RenderPassDescriptor {
        label: Some("ground"),
        color_attachments: &[target.out_texture_color_attachment(Some(LinearRgba::BLACK))],
        ..RenderPassDescriptor::default()
    });
    if let Some((picture, area)) = hung {
        // An area that is larger than the target, as while a window shrinks, loses its rims.
        let size = [
            area.width.min(room.width - area.x),
            area.height.min(room.height - area.y),
        ];
        wall.hang((&device, &queue), format, picture, (area, size), &mut pass);
    }
}
