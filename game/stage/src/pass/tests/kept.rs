//! What is kept from picture to picture, and what is left out, shows in none.

use super::*;
use crate::pass::Hidden;
use bevy::render::RenderApp;

#[test]
fn what_moves_over_what_rests_is_drawn_as_if_all_were_drawn() {
    let moves = [
        // The block rests behind the pane, the square comes and goes before and behind it.
        (-0.6, 0.0, 0.0),
        (-0.4, 0.0, 0.0),
        (-0.2, 1.0, 0.0),
        (0.1, -1.2, 0.0),
        // Now the pane moves too.
        (-0.9, 1.0, 0.2),
        (-0.8, 1.0, 0.2),
    ];
    let scene = |(x, y, pane): (f32, f32, f32)| {
        let pane = Vec3::new(pane, 0.0, 1.0);
        Frame {
            light: Light::by_torch(Torch {
                from: Vec3::new(0.2, -3.0, 1.2),
                towards: Vec3::Z,
                half_angle: 0.3,
            }),
            ..frame(vec![
                at(BLOCK, Vec3::new(0.2, 0.3, 1.0), 0),
                at(PANE, pane, 0),
                at(SQUARE, Vec3::new(x, y, 1.0), 0),
            ])
        }
    };
    let mut still = booth();
    let mut seen = Vec::new();
    for moved in moves {
        let over = draw(&mut still, scene(moved));
        assert!(over == draw(&mut booth(), scene(moved)), "{moved:?}");
        assert!(!seen.contains(&over), "{moved:?}");
        seen.push(over);
    }
}

#[test]
fn what_is_hidden_is_drawn_once_it_is_seen_again() {
    let scene = |x: f32| {
        frame(vec![
            at(BLOCK, Vec3::new(x, 0.0, 1.0), 0),
            at(PANE, Vec3::Z, 0),
        ])
    };
    // The left half of the hall, and a part that reaches over its rim.
    let left = Area { width: 40, ..AREA };
    let over = Area {
        x: 70,
        y: 50,
        width: 100,
        height: 100,
    };
    let mut still = booth();
    for (x, hidden) in [
        (0.0, vec![left]),
        (0.1, vec![left]),
        (0.2, vec![left, over]),
        (0.2, vec![over]),
        (0.2, vec![]),
        (0.3, vec![]),
    ] {
        let render = still.app().get_sub_app_mut(RenderApp).expect("it draws");
        render.insert_resource(Hidden(hidden.clone()));
        let found = draw(&mut still, scene(x));
        let expected = draw(&mut booth(), scene(x));
        let ground = draw(&mut booth(), frame(Vec::new()));
        let hides = |x: u32, y: u32| {
            let pixel = Area {
                x,
                y,
                width: 1,
                height: 1,
            };
            hidden.iter().any(|part| part.holds(&pixel))
        };
        for (x, y) in (0..SIZE.y).flat_map(|y| (0..SIZE.x).map(move |x| (x, y))) {
            let wanted = if hides(x, y) { &ground } else { &expected };
            assert_eq!(found.pixel(x, y), wanted.pixel(x, y), "{x} {y} {hidden:?}");
        }
    }
}
