//! What hides the hall for certain: opaque faces without dents.

use egui::{Pos2, Rect, Vec2, pos2};
use rackproof_stage::frame::Area;

use super::strokes::Strokes;

/// A face that is smaller than so many px across hides nothing that is worth looking for.
const SMALL: f32 = 32.0;

/// An opaque face without dents, in px.
pub(super) struct Cover {
    corners: Vec<Pos2>,
    /// What it is cut off at.
    clip: Area,
}

impl Cover {
    /// Whether nothing of an area can be seen.
    pub(super) fn hides(&self, area: &Area) -> bool {
        let [right, bottom] = area.end().map(|edge| edge as f32);
        let (left, top) = (area.x as f32, area.y as f32);
        let corners = [
            pos2(left, top),
            pos2(right, top),
            pos2(left, bottom),
            pos2(right, bottom),
        ];
        self.clip.holds(area) && corners.into_iter().all(|corner| self.holds(corner))
    }

    /// An upright one.
    #[cfg(test)]
    pub(super) fn upright(area: Area) -> Cover {
        let [right, bottom] = area.end().map(|edge| edge as f32);
        let (left, top) = (area.x as f32, area.y as f32);
        let corners = [[left, top], [right, top], [right, bottom], [left, bottom]];
        Cover {
            corners: corners.map(Pos2::from).to_vec(),
            clip: area,
        }
    }

    fn holds(&self, place: Pos2) -> bool {
        let mut sides = edges(&self.corners).map(|(from, way)| turn(way, place - from));
        sides.all(|side| side >= 0.0)
    }

    /// The face of a fan of triangles, if it has no dent and is large.
    fn of(mut corners: Vec<Pos2>, clip: Area) -> Option<Cover> {
        let rect = Rect::from_points(&corners);
        if rect.width().min(rect.height()) < SMALL {
            return None;
        }
        let turns = |corners: &[Pos2]| -> Vec<f32> {
            let ways: Vec<Vec2> = edges(corners).map(|(_, way)| way).collect();
            let next = ways.iter().cycle().skip(1);
            ways.iter()
                .zip(next)
                .map(|(one, next)| turn(*one, *next))
                .collect()
        };
        let first = turns(&corners);
        if first.iter().all(|turn| *turn <= 0.0) {
            corners.reverse();
        } else if first.iter().any(|turn| *turn < 0.0) {
            return None;
        }
        Some(Cover { corners, clip })
    }
}

/// All that hides what is under the screens.
pub(super) fn covers(strokes: &Strokes) -> Vec<Cover> {
    let mut covers = Vec::new();
    for stroke in strokes.each().iter().filter(|stroke| stroke.opaque) {
        let mut fan: Vec<Pos2> = Vec::new();
        let mut last: Option<[u32; 3]> = None;
        for triangle in strokes.of_stroke(stroke) {
            // As egui fills a face: each triangle has the pivot in its middle, and begins where
            // the one before ended.
            let [from, pivot, _] = triangle.indices;
            let goes_on = last.is_some_and(|last| last[1..] == [pivot, from]);
            let [first, middle, end] = triangle.places();
            if goes_on {
                fan.push(end);
            } else {
                covers.extend(Cover::of(std::mem::take(&mut fan), stroke.clip));
                fan.extend([middle, first, end]);
            }
            last = Some(triangle.indices);
        }
        covers.extend(Cover::of(fan, stroke.clip));
    }
    covers
}

/// The edges of a face: where each begins, and where it leads.
fn edges(corners: &[Pos2]) -> impl Iterator<Item = (Pos2, Vec2)> {
    let next = corners.iter().cycle().skip(1);
    corners
        .iter()
        .zip(next)
        .map(|(from, to)| (*from, *to - *from))
}

/// More than nought where the second way turns to the right of the first, seen on a page.
fn turn(one: Vec2, other: Vec2) -> f32 {
    one.x * other.y - one.y * other.x
}

#[cfg(test)]
mod tests {
    use egui::{
        ClippedPrimitive, Color32, Mesh, Shape, Stroke,
        epaint::{PathShape, Primitive, TessellationOptions, Tessellator},
    };

    use super::*;

    const WHITE: Color32 = Color32::WHITE;

    /// The covers of shapes as egui makes triangles of them, cut off at 200 by 100 px.
    fn covers_of(shapes: Vec<Shape>) -> Vec<Cover> {
        let mut mesh = Mesh::default();
        let mut tessellator =
            Tessellator::new(1.0, TessellationOptions::default(), [1, 1], Vec::new());
        for shape in shapes {
            tessellator.tessellate_shape(shape, &mut mesh);
        }
        let clip_rect = Rect::from_min_max(Pos2::ZERO, pos2(200.0, 100.0));
        let primitive = Primitive::Mesh(mesh);
        let mut strokes = Strokes::default();
        let jobs = [ClippedPrimitive {
            clip_rect,
            primitive,
        }];
        strokes.of(&jobs, 1.0, [300, 300]);
        covers(&strokes)
    }

    fn face(corners: &[[f32; 2]], fill: Color32) -> Shape {
        let corners = corners.iter().copied().map(Pos2::from).collect();
        Shape::Path(PathShape::convex_polygon(corners, fill, Stroke::NONE))
    }

    fn rectangle(left: f32, right: f32, fill: Color32) -> Shape {
        let rect = Rect::from_min_max(pos2(left, 10.0), pos2(right, 150.0));
        Shape::rect_filled(rect, 0.0, fill)
    }

    /// Whether any of them hides 10 by 10 px with the left upper corner there.
    fn hides(covers: &[Cover], x: u32, y: u32) -> bool {
        let area = Area {
            x,
            y,
            width: 10,
            height: 10,
        };
        covers.iter().any(|cover| cover.hides(&area))
    }

    #[test]
    fn an_opaque_face_hides_what_lies_within_its_edges() {
        let dim = Color32::from_white_alpha(200);
        let notched = [
            [10.0, 10.0],
            [90.0, 10.0],
            [90.0, 80.0],
            [50.0, 80.0],
            [10.0, 40.0],
        ];
        // The shapes, and whether places are hidden: in the middle, at the left lower corner, at
        // the left edge, below what it is cut off at.
        let cases: [(Vec<Shape>, [bool; 4]); 7] = [
            (vec![], [false; 4]),
            (
                vec![rectangle(10.0, 90.0, WHITE)],
                [true, true, false, false],
            ),
            (vec![rectangle(10.0, 90.0, dim)], [false; 4]),
            (vec![face(&notched, WHITE)], [true, false, false, false]),
            // Two that meet within a place: neither hides it alone.
            (
                vec![rectangle(10.0, 55.0, WHITE), rectangle(55.0, 90.0, WHITE)],
                [false, true, false, false],
            ),
            // What is painted before and after does not matter.
            (
                vec![
                    rectangle(100.0, 110.0, WHITE),
                    rectangle(10.0, 90.0, WHITE),
                    rectangle(20.0, 30.0, dim),
                ],
                [true, true, false, false],
            ),
            (vec![rectangle(10.0, 40.0, WHITE)], [false; 4]),
        ];
        for (number, (shapes, expected)) in cases.into_iter().enumerate() {
            let covers = covers_of(shapes);
            let places = [(50, 50), (12, 75), (5, 50), (50, 95)];
            assert_eq!(
                places.map(|(x, y)| hides(&covers, x, y)),
                expected,
                "{number}"
            );
        }
    }

    #[test]
    fn a_face_with_a_dent_hides_nothing() {
        let corners = [[10.0, 10.0], [90.0, 10.0], [40.0, 40.0], [10.0, 90.0]];
        let corners = corners.map(Pos2::from).to_vec();
        let clip = Area {
            width: 200,
            height: 100,
            ..Area::default()
        };
        assert!(Cover::of(corners.clone(), clip).is_none());
        let mut without = corners;
        without.remove(2);
        assert!(Cover::of(without, clip).is_some());
    }
}
