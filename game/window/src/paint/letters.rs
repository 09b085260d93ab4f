//! The textures that egui paints with: its letters.

use std::collections::BTreeMap;

use bevy::render::{
    render_resource::{
        BindGroup, BindGroupEntry, BindGroupLayout, BindingResource, Extent3d, Origin3d,
        TexelCopyBufferLayout, TexelCopyTextureInfo, Texture, TextureAspect, TextureDescriptor,
        TextureDimension, TextureFormat, TextureUsages, TextureViewDescriptor,
    },
    renderer::{RenderDevice, RenderQueue},
};
use egui::{ImageData, TextureId, epaint::ImageDelta};

/// What egui changes. Pictures that are left out, as of a hidden window, lose none of it.
#[derive(Default)]
pub(super) struct Changes {
    set: Vec<(TextureId, ImageDelta)>,
    free: Vec<TextureId>,
}

impl Changes {
    /// Whether a texture that was painted with becomes another one. Letters that are added to a
    /// texture change none that are there.
    pub(super) fn replace(&self) -> bool {
        self.set.iter().any(|(_, delta)| delta.pos.is_none())
    }

    pub(super) fn add(&mut self, mut delta: egui::TexturesDelta) {
        // Only changes of the same texture have an order.
        let set = std::mem::take(&mut delta.set).into_iter();
        self.set
            .extend(set.flat_map(|(id, deltas)| deltas.into_iter().map(move |delta| (id, delta))));
        self.free.extend(std::mem::take(&mut delta.free));
    }
}

/// All textures, as they are now.
#[derive(Default)]
pub(super) struct Letters {
    sheets: BTreeMap<TextureId, Sheet>,
    /// The picture that is painted now may still need them: they go with the next one.
    leaving: Vec<TextureId>,
}

struct Sheet {
    texture: Texture,
    /// Made when it is first painted with.
    bound: Option<BindGroup>,
}

impl Letters {
    /// What egui changed since the last picture.
    pub(super) fn change(
        &mut self,
        (device, queue): (&RenderDevice, &RenderQueue),
        layout: &BindGroupLayout,
        changes: Changes,
    ) {
        for id in self.leaving.drain(..) {
            self.sheets.remove(&id);
        }
        for (id, delta) in &changes.set {
            if delta.pos.is_none() {
                let texture = texture(device, delta);
                self.sheets.insert(
                    *id,
                    Sheet {
                        texture,
                        bound: None,
                    },
                );
            }
            if let Some(sheet) = self.sheets.get(id) {
                write(queue, &sheet.texture, delta);
            }
        }
        self.leaving.extend(changes.free);
        for sheet in self.sheets.values_mut() {
            sheet.bound.get_or_insert_with(|| {
                let view = sheet.texture.create_view(&TextureViewDescriptor::default());
                let entry = BindGroupEntry {
                    binding: 0,
                    resource: BindingResource::TextureView(&view),
                };
                device.create_bind_group("letters", layout, &[entry])
            });
        }
    }

    /// What they were bound to is gone.
    pub(super) fn unbind(&mut self) {
        for sheet in self.sheets.values_mut() {
            sheet.bound = None;
        }
    }

    /// A texture, to be painted with.
    pub(super) fn bound(&self, id: TextureId) -> Option<&BindGroup> {
        self.sheets.get(&id)?.bound.as_ref()
    }
}

fn extent(delta: &ImageDelta) -> Extent3d {
    let [width, height] = delta.image.size();
    Extent3d {
        width: width as u32,
        height: height as u32,
        depth_or_array_layers: 1,
    }
}

fn texture(device: &RenderDevice, delta: &ImageDelta) -> Texture {
    device.create_texture(&TextureDescriptor {
        label: Some("letters"),
        size: extent(delta),
        mip_level_count: 1,
        sample_count: 1,
        dimension: TextureDimension::D2,
        format: TextureFormat::Rgba8UnormSrgb,
        usage: TextureUsages::TEXTURE_BINDING | TextureUsages::COPY_DST,
        view_formats: &[],
    })
}

fn write(queue: &RenderQueue, texture: &Texture, delta: &ImageDelta) {
    let [x, y] = delta.pos.unwrap_or_default();
    let ImageData::Color(image) = &delta.image;
    let size = extent(delta);
    queue.write_texture(
        TexelCopyTextureInfo {
            texture,
            mip_level: 0,
            origin: Origin3d {
                x: x as u32,
                y: y as u32,
                z: 0,
            },
            aspect: TextureAspect::All,
        },
        bytemuck::cast_slice(&image.pixels),
        TexelCopyBufferLayout {
            offset: 0,
            bytes_per_row: Some(4 * size.width),
            rows_per_image: None,
        },
        size,
    );
}

#[cfg(test)]
mod tests {
    use egui::{Color32, ColorImage, TextureOptions};

    use super::*;

    #[test]
    fn letters_that_are_added_replace_nothing() {
        let image = || ColorImage::filled([2, 2], Color32::WHITE);
        let options = TextureOptions::NEAREST;
        let added = ImageDelta::partial([4, 4], image(), options);
        let whole = ImageDelta::full(image(), options);
        let cases = [
            (vec![], false),
            (vec![added.clone()], false),
            (vec![added, whole], true),
        ];
        for (deltas, expected) in cases {
            let set = deltas
                .into_iter()
                .map(|delta| (TextureId::default(), delta));
            let changes = Changes {
                set: set.collect(),
                ..Changes::default()
            };
            assert_eq!(changes.replace(), expected);
        }
    }
}
