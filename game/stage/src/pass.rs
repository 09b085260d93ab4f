//! Draws the [`Frame`] with the kit of the [`Stage`] into the main pass of the full-window
//! [`Camera2d`], before what is painted over it. Without a frame or a stage it draws nothing.
//!
//! The hall is drawn into a picture of its own, and only when the frame has changed; each frame
//! of the window gets a copy of that picture.

mod easel;
mod load;
mod look;
mod pipelines;
#[cfg(test)]
mod tests;

use crate::frame::Frame;
use crate::kit::{Kit, Stage};
use bevy::app::App;
use bevy::camera::{Camera2d, CameraMainTextureUsages};
use bevy::core_pipeline::{Core2d, Core2dSystems};
use bevy::ecs::prelude::*;
use bevy::render::render_resource::{
    CommandEncoder, Extent3d, Origin3d, RenderPassDescriptor, TexelCopyTextureInfo, Texture,
    TextureAspect, TextureUsages,
};
use bevy::render::renderer::{RenderContext, RenderDevice, RenderQueue, ViewQuery};
use bevy::render::view::ViewTarget;
use bevy::render::{Extract, ExtractSchedule, RenderApp};
use easel::{Easel, Tools};
use std::sync::Arc;

/// Frame and kit, as the graphics side has them.
#[derive(Resource, Default)]
struct Wanted {
    frame: Option<Frame>,
    kit: Option<Arc<Kit>>,
}

/// Adds the pass. Cameras must be spawned after it.
pub fn plugin(app: &mut App) {
    let usages = || CameraMainTextureUsages::default().with(TextureUsages::COPY_DST);
    app.register_required_components_with::<Camera2d, CameraMainTextureUsages>(usages);
    if let Some(render) = app.get_sub_app_mut(RenderApp) {
        render
            .init_resource::<Easel>()
            .init_resource::<Wanted>()
            .add_systems(ExtractSchedule, extract)
            .add_systems(Core2d, draw.in_set(Core2dSystems::MainPass));
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

fn draw(
    view: ViewQuery<&ViewTarget>,
    wanted: Res<Wanted>,
    mut easel: ResMut<Easel>,
    device: Res<RenderDevice>,
    queue: Res<RenderQueue>,
    mut context: RenderContext,
) {
    let target = view.into_inner();
    let (Some(frame), Some(kit)) = (&wanted.frame, &wanted.kit) else {
        return;
    };
    let room = target.main_texture().size();
    let area = frame.area;
    if area.is_empty() || area.x >= room.width || area.y >= room.height {
        return;
    }
    // The shader encodes its colours itself; the copy is of bytes.
    let format = target.main_texture_format().remove_srgb_suffix();
    let tools = Tools {
        device: &device,
        queue: &queue,
        format,
    };
    let encoder = context.command_encoder();
    let Some(picture) = easel.picture(&tools, frame, kit, encoder) else {
        return;
    };
    // Whoever draws first clears the target; a copy does not count as drawing.
    drop(encoder.begin_render_pass(&RenderPassDescriptor {
        label: Some("ground"),
        color_attachments: &[Some(target.get_color_attachment())],
        ..RenderPassDescriptor::default()
    }));
    // An area that is larger than the target, as while a window shrinks, loses its rims.
    let size = Extent3d {
        width: area.width.min(room.width - area.x),
        height: area.height.min(room.height - area.y),
        depth_or_array_layers: 1,
    };
    copy(
        encoder,
        picture,
        target.main_texture(),
        Origin3d {
            x: area.x,
            y: area.y,
            z: 0,
        },
        size,
    );
}

fn copy(encoder: &mut CommandEncoder, from: &Texture, to: &Texture, at: Origin3d, size: Extent3d) {
    let whole = |texture, origin| TexelCopyTextureInfo {
        texture,
        mip_level: 0,
        origin,
        aspect: TextureAspect::All,
    };
    encoder.copy_texture_to_texture(whole(from, Origin3d::ZERO), whole(to, at), size);
}
