//! What differs between two pictures of the screens: triangle by triangle.

use super::{patches::Patches, strokes::Strokes, triangles::Triangle};

/// Marks what must be painted anew to come from an old picture of the screens to a new one of the
/// same size.
pub(super) fn mark_changed(old: &Strokes, new: &Strokes, patches: &mut Patches) {
    let [before, after] = [old, new].map(Strokes::count);
    let fewer = before.min(after);
    let same = |(one, other): &(Triangle<'_>, Triangle<'_>)| one.is_painted_as(other);
    let first = old.triangles().zip(new.triangles());
    let first = first.take_while(same).count();
    let last = old.triangles().rev().zip(new.triangles().rev());
    let last = last.take(fewer - first).take_while(same).count();
    let [olds, news] = [(old, before), (new, after)]
        .map(|(strokes, count)| strokes.triangles().skip(first).take(count - last - first));
    if before == after {
        // One by one: what changed here and there is not all that lies between.
        for (old, new) in olds.zip(news) {
            if !old.is_painted_as(&new) {
                patches.mark(&old.area());
                patches.mark(&new.area());
            }
        }
    } else {
        olds.chain(news)
            .for_each(|triangle| patches.mark(&triangle.area()));
    }
}

#[cfg(test)]
mod tests {
    use egui::{ClippedPrimitive, Color32, Mesh, Rect, epaint::Primitive, pos2, vec2};

    use super::*;
    use crate::paint::patches::Squares;

    /// One square face of 10 px in a picture of 320 by 64 px: where, and how bright.
    type Face = (f32, u8);

    fn strokes(faces: &[Face], clip: f32) -> Strokes {
        let mut mesh = Mesh::default();
        for (left, grey) in faces {
            let rect = Rect::from_min_size(pos2(*left, 5.0), vec2(10.0, 10.0));
            mesh.add_colored_rect(rect, Color32::from_gray(*grey));
        }
        let job = ClippedPrimitive {
            clip_rect: Rect::from_min_max(pos2(0.0, 0.0), pos2(clip, 64.0)),
            primitive: Primitive::Mesh(mesh),
        };
        let mut strokes = Strokes::default();
        strokes.of(&[job], 1.0, [320, 64]);
        strokes
    }

    /// The columns of squares that are painted anew.
    fn columns(old: &Strokes, new: &Strokes) -> Vec<u32> {
        let mut patches = Patches::default();
        patches.turn_to([320, 64]);
        mark_changed(old, new, &mut patches);
        let patches = patches.of(Squares::Changed);
        let columns = patches.iter().flat_map(|patch| {
            assert_eq!((patch.y, patch.height), (0, 32), "{patch:?}");
            patch.x / 32..(patch.x + patch.width) / 32
        });
        columns.collect()
    }

    #[test]
    fn what_changed_is_painted_anew_where_it_was_and_where_it_is() {
        let (a, b, c) = ((10.0, 9), (105.0, 9), (300.0, 9));
        let (moved, brighter) = ((170.0, 9), (105.0, 8));
        let cases: [(&[Face], &[Face], &[u32]); 10] = [
            (&[a, b, c], &[a, b, c], &[]),
            (&[a, b, c], &[a, moved, c], &[3, 5]),
            (&[a, b, c], &[a, brighter, c], &[3]),
            // More or fewer: what lies between the same beginning and the same end.
            (&[a, b, c], &[a, c], &[3]),
            (&[a, c], &[a, b, c], &[3]),
            (&[a, b], &[a, b, c], &[9]),
            (&[], &[a], &[0]),
            (&[a], &[], &[0]),
            (&[a, b], &[b, a], &[0, 3]),
            // Here and there.
            (&[a, b, c], &[(11.0, 9), b, (301.0, 9)], &[0, 9]),
        ];
        for (old, new, expected) in cases {
            let [old, new] = [old, new].map(|faces| strokes(faces, 320.0));
            assert_eq!(columns(&old, &new), expected);
        }
        // The same face twice is as many faces, though the same beginning and end overlap.
        let [once, twice] = [&[a][..], &[a, a]].map(|faces| strokes(faces, 320.0));
        assert_eq!(columns(&once, &twice), [0]);
    }

    #[test]
    fn what_is_cut_off_elsewhere_is_painted_anew_as_far_as_it_shows() {
        let faces = [(10.0, 9), (105.0, 9), (300.0, 9)];
        let [narrow, wide] = [110.0, 320.0].map(|clip| strokes(&faces, clip));
        assert_eq!(columns(&narrow, &wide), [0, 3, 9]);
    }
}
