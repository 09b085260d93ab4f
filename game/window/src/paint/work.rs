//! What is to be done for a picture: of each patch the triangles that touch it.

use core::ops::Range;

use egui::TextureId;
use rackproof_stage::frame::Area;

use super::strokes::Strokes;

/// Triangles that are painted at once, within a patch.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Run {
    pub(super) opaque: bool,
    pub(super) texture: TextureId,
    /// What may be painted on, in px.
    pub(super) clip: Area,
    pub(super) indices: Range<u32>,
}

/// All that is painted into one picture.
#[derive(Default)]
pub(super) struct Work {
    /// Each patch with its runs.
    patches: Vec<(Area, Range<usize>)>,
    runs: Vec<Run>,
    indices: Vec<u32>,
}

impl Work {
    /// Lays out what to paint of some patches. What a triangle touches was found before, in the
    /// order of the triangles.
    pub(super) fn lay_out(&mut self, patches: &[Area], strokes: &Strokes, touched: &[Area]) {
        self.patches.clear();
        self.runs.clear();
        self.indices.clear();
        for patch in patches {
            let first = self.runs.len();
            self.lay_out_one(patch, strokes, touched);
            self.patches.push((*patch, first..self.runs.len()));
        }
    }

    fn lay_out_one(&mut self, patch: &Area, strokes: &Strokes, touched: &[Area]) {
        for stroke in strokes.each() {
            let clip = stroke.clip.overlap(patch);
            if clip.is_empty() {
                continue;
            }
            let start = self.indices.len() as u32;
            let numbers = stroke.indices.start as usize / 3..stroke.indices.end as usize / 3;
            for number in numbers {
                let touches = touched
                    .get(number)
                    .is_some_and(|area| !area.overlap(patch).is_empty());
                if touches && let Some(three) = strokes.indices.get(3 * number..3 * number + 3) {
                    self.indices.extend_from_slice(three);
                }
            }
            let indices = start..self.indices.len() as u32;
            if !indices.is_empty() {
                self.runs.push(Run {
                    opaque: stroke.opaque,
                    texture: stroke.texture,
                    clip,
                    indices,
                });
            }
        }
    }

    /// Whether just these patches are laid out.
    pub(super) fn is_of(&self, patches: &[Area]) -> bool {
        patches
            .iter()
            .eq(self.patches.iter().map(|(patch, _)| patch))
    }

    /// Whether nothing is to be done.
    pub(super) fn is_empty(&self) -> bool {
        self.patches.is_empty()
    }

    /// The patches, each with what is painted of it in this order.
    pub(super) fn patches(&self) -> impl Iterator<Item = (&Area, &[Run])> {
        let runs = |runs: &Range<usize>| self.runs.get(runs.clone()).unwrap_or_default();
        self.patches
            .iter()
            .map(move |(patch, of)| (patch, runs(of)))
    }

    /// The corners of all triangles that are painted, in the order of the runs.
    pub(super) fn indices(&self) -> &[u32] {
        &self.indices
    }
}
