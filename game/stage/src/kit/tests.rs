//! Light on a floor with a table.

use super::*;
use crate::shape::Paint;
use crate::tokens::Colour;

const GREY: Paint = Paint::matt(Colour([200, 200, 200]));

fn table() -> Vec<Shape> {
    let [a, c] = [Vec3::new(-2.0, -2.0, 0.0), Vec3::new(2.0, 2.0, 0.0)];
    let floor = Shape::new().quad(
        [a, Vec3::new(c.x, a.y, 0.0), c, Vec3::new(a.x, c.y, 0.0)],
        GREY,
    );
    let top = Shape::new().block(Vec3::new(-0.5, -0.5, 0.3), Vec3::new(0.5, 0.5, 0.35), GREY);
    vec![floor, top]
}

fn still() -> [(ShapeId, Affine3A); 2] {
    [0, 1].map(|shape| (ShapeId(shape), Affine3A::IDENTITY))
}

/// Sky seen on the floor near a place.
fn sky(kit: &Kit, place: [f32; 2]) -> u8 {
    let place = Vec2::from_array(place);
    let far = |vertex: &&SolidVertex| {
        let at = Vec3::from_array(vertex.position);
        at.z + at.truncate().distance(place)
    };
    let nearest = kit.solid.iter().min_by(|a, b| far(a).total_cmp(&far(b)));
    nearest.expect("a vertex").light[0]
}

#[test]
fn under_a_table_the_floor_is_dark_and_cut_finely() {
    let kit = Kit::bake(table(), &still());
    let bare = Kit::bake(table(), &still()[..1]);
    let [under, open] = [[0.0, 0.0], [1.9, 1.9]].map(|place| sky(&kit, place));
    assert!(under < 130 && open > 240, "{under} {open}");
    assert!(sky(&bare, [0.0, 0.0]) > 250);
    let floor = |kit: &Kit| kit.parts[0].solid.len() / 3;
    assert!(
        floor(&kit) > 3 * floor(&bare),
        "{} {}",
        floor(&kit),
        floor(&bare)
    );
    assert!(floor(&kit) < 3000, "{}", floor(&kit));
}

#[test]
fn a_cut_face_keeps_its_extent() {
    let kit = Kit::bake(table(), &still());
    let corners = &kit.parts[0].solid;
    let indices = &kit.indices[corners.start as usize..corners.end as usize];
    let point = |index: u32| Vec3::from_array(kit.solid[index as usize].position);
    let areas = indices.chunks(3).map(|t| {
        let [a, b, c] = [t[0], t[1], t[2]].map(point);
        let area = (b - a).cross(c - a) * 0.5;
        assert!(area.z > 0.0, "looks up");
        area.z
    });
    let whole: f32 = areas.sum();
    assert!((whole - 16.0).abs() < 1e-2, "{whole}");
}

#[test]
fn baking_twice_gives_the_same() {
    assert_eq!(Kit::bake(table(), &still()), Kit::bake(table(), &still()));
}
