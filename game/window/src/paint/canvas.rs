//! What the screens are painted on. It stays from picture to picture, so that only what changed is
//! painted anew.

use bevy::render::{
    render_resource::{
        CommandEncoder, Extent3d, LoadOp, Operations, RenderPassColorAttachment,
        RenderPassDescriptor, StoreOp, TextureDescriptor, TextureDimension, TextureFormat,
        TextureUsages, TextureView, TextureViewDescriptor,
    },
    renderer::RenderDevice,
};
use rackproof_stage::{frame::Area, pass::Painting};

/// A picture that is painted on.
pub(super) struct Canvas {
    pub(super) size: [u32; 2],
    pub(super) format: TextureFormat,
    view: TextureView,
}

impl Canvas {
    /// An empty one, of this width and height in px.
    pub(super) fn new(device: &RenderDevice, format: TextureFormat, size: [u32; 2]) -> Canvas {
        let texture = device.create_texture(&TextureDescriptor {
            label: Some("screens"),
            size: Extent3d {
                width: size[0],
                height: size[1],
                depth_or_array_layers: 1,
            },
            mip_level_count: 1,
            sample_count: 1,
            dimension: TextureDimension::D2,
            format,
            usage: TextureUsages::RENDER_ATTACHMENT | TextureUsages::TEXTURE_BINDING,
            view_formats: &[],
        });
        Canvas {
            size,
            format,
            view: texture.create_view(&TextureViewDescriptor::default()),
        }
    }

    /// All of it.
    pub(super) fn whole(&self) -> Area {
        let [width, height] = self.size;
        Area {
            width,
            height,
            ..Area::default()
        }
    }

    /// What is on it, to be hung.
    pub(super) fn painting(&self) -> Painting<'_> {
        Painting {
            view: &self.view,
            area: self.whole(),
            drawn: 0,
        }
    }

    /// Goes on painting.
    pub(super) fn begin<'e>(&self, encoder: &'e mut CommandEncoder) -> wgpu::RenderPass<'e> {
        encoder.begin_render_pass(&RenderPassDescriptor {
            label: Some("screens"),
            color_attachments: &[Some(RenderPassColorAttachment {
                view: &self.view,
                depth_slice: None,
                resolve_target: None,
                ops: Operations {
                    load: LoadOp::Load,
                    store: StoreOp::Store,
                },
            })],
            ..RenderPassDescriptor::default()
        })
    }
}
