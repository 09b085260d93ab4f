//! What draws: blinds, faces, ink and glass, by the pipelines.

use super::easel::Loaded;
use super::load::Group;
use super::pipelines::Pipelines;
use crate::frame::{Area, Frame};
use bevy::render::render_resource::{BindGroup, Buffer, IndexFormat, RenderPipeline};
use core::ops::Range;

/// What draws groups of pieces.
pub(super) struct Hand<'a> {
    pub(super) frame: &'a Frame,
    pub(super) loaded: &'a Loaded,
    pub(super) pipelines: &'a Pipelines,
    pub(super) look: &'a BindGroup,
    pub(super) instances: &'a Buffer,
    pub(super) blinds: Option<(&'a Buffer, usize)>,
}

impl Hand<'_> {
    /// Hides what nobody will see: nothing is nearer than a blind.
    pub(super) fn blinds(&self, pass: &mut wgpu::RenderPass<'_>) {
        if let Some((blinds, count)) = self.blinds {
            pass.set_pipeline(&self.pipelines.blind);
            pass.set_bind_group(0, Some(&**self.look), &[]);
            pass.set_vertex_buffer(0, *blinds.slice(..));
            pass.draw(0..6, 0..count as u32);
        }
    }

    pub(super) fn faces(&self, groups: &[Group], pass: &mut wgpu::RenderPass<'_>) {
        let parts = &self.loaded.kit.parts;
        let solid = draws(groups.iter(), |at| parts[at].solid.clone());
        let pipeline = match (self.frame.flat, self.frame.light.torch) {
            (true, _) => &self.pipelines.flat,
            (false, Some(_)) => &self.pipelines.torchlit,
            (false, None) => &self.pipelines.solid,
        };
        self.kind(pipeline, &self.loaded.solid, &solid, pass);
    }

    pub(super) fn ink_and_glass(&self, groups: &[Group], pass: &mut wgpu::RenderPass<'_>) {
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

/// A hidden part from -1 to 1: its left, lower, right and upper edge.
pub(super) fn blind(part: &Area, frame: &Frame) -> [f32; 4] {
    let [right, bottom] = part.end();
    let across = |x: u32| 2.0 * x as f32 / frame.area.width as f32 - 1.0;
    let up = |y: u32| 1.0 - 2.0 * y as f32 / frame.area.height as f32;
    [across(part.x), up(bottom), across(right), up(part.y)]
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
