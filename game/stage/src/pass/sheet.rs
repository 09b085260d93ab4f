//! What is drawn on: a picture with its depth.

use super::pipelines::{DEPTH, PICTURE};
use bevy::color::LinearRgba;
use bevy::render::render_resource::{
    CommandEncoder, Extent3d, LoadOp, Operations, Origin3d, RenderPassColorAttachment,
    RenderPassDepthStencilAttachment, RenderPassDescriptor, StoreOp, TexelCopyTextureInfo, Texture,
    TextureAspect, TextureDescriptor, TextureDimension, TextureFormat, TextureUsages, TextureView,
    TextureViewDescriptor,
};
use bevy::render::renderer::RenderDevice;

/// A picture with its depth.
pub(super) struct Sheet {
    picture: Texture,
    depth: Texture,
    /// The picture and its depth, as they are drawn on.
    drawn: [TextureView; 2],
}

impl Sheet {
    /// An empty one, of this width and height in px.
    pub(super) fn new(device: &RenderDevice, size: [u32; 2]) -> Sheet {
        let texture = |label, format: TextureFormat| {
            device.create_texture(&TextureDescriptor {
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
                usage: TextureUsages::RENDER_ATTACHMENT
                    | TextureUsages::COPY_SRC
                    | TextureUsages::COPY_DST
                    | TextureUsages::TEXTURE_BINDING,
                view_formats: &[format.add_srgb_suffix()],
            })
        };
        let picture = texture("hall", PICTURE);
        let depth = texture("depth of the hall", DEPTH);
        let drawn = [&picture, &depth]
            .map(|texture| texture.create_view(&TextureViewDescriptor::default()));
        Sheet {
            picture,
            depth,
            drawn,
        }
    }

    /// The picture for whoever looks at it. The shader encodes its colours itself: they must be
    /// decoded.
    pub(super) fn seen(&self) -> TextureView {
        self.picture.create_view(&TextureViewDescriptor {
            format: Some(PICTURE.add_srgb_suffix()),
            usage: Some(TextureUsages::TEXTURE_BINDING),
            ..TextureViewDescriptor::default()
        })
    }

    /// Begins to draw on it: on a ground in sRGB, or on what is there.
    pub(super) fn begin<'e>(
        &self,
        ground: Option<[f32; 3]>,
        encoder: &'e mut CommandEncoder,
    ) -> wgpu::RenderPass<'e> {
        let [picture, depth] = &self.drawn;
        // The bytes as they are: the picture's format decodes nothing.
        let colours = ground.map(|[red, green, blue]| LinearRgba::rgb(red, green, blue).into());
        encoder.begin_render_pass(&RenderPassDescriptor {
            label: Some("hall"),
            color_attachments: &[Some(RenderPassColorAttachment {
                view: picture,
                depth_slice: None,
                resolve_target: None,
                ops: Operations {
                    load: colours.map_or(LoadOp::Load, LoadOp::Clear),
                    store: StoreOp::Store,
                },
            })],
            depth_stencil_attachment: Some(RenderPassDepthStencilAttachment {
                view: depth,
                depth_ops: Some(Operations {
                    load: ground.map_or(LoadOp::Load, |_| LoadOp::Clear(0.0)),
                    store: StoreOp::Store,
                }),
                stencil_ops: None,
            }),
            timestamp_writes: None,
            occlusion_query_set: None,
            multiview_mask: None,
        })
    }

    /// Copies all of it onto another one of the same size.
    pub(super) fn copy_onto(&self, other: &Sheet, encoder: &mut CommandEncoder) {
        let whole = |texture| TexelCopyTextureInfo {
            texture,
            mip_level: 0,
            origin: Origin3d::ZERO,
            aspect: TextureAspect::All,
        };
        let pairs: [(&Texture, &Texture); 2] =
            [(&self.picture, &other.picture), (&self.depth, &other.depth)];
        for (from, to) in pairs {
            encoder.copy_texture_to_texture(whole(from), whole(to), from.size());
        }
    }
}
