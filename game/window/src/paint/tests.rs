//! Painted in parts as if all were painted. These need a Vulkan driver, as the Debian package
//! mesa-vulkan-drivers brings one.

use std::sync::Arc;

use bevy::{
    app::{App, Startup, Update},
    camera::RenderTarget,
    core_pipeline::Core2d,
    ecs::{
        resource::Resource,
        schedule::IntoScheduleConfigs,
        system::{Commands, Query, Res, ResMut},
    },
    math::{Affine3A, UVec2, Vec3},
    render::RenderApp,
};
use bevy_egui::{
    EguiContext, EguiContextSettings, EguiFullOutput, EguiGlobalSettings, EguiPlugin,
    PrimaryEguiContext,
};
use egui::{Align2, Color32, FontId, RawInput, Rect, Shape, pos2, vec2};
use rackproof_panel::fonts;
use rackproof_stage::{
    frame::{Area, Frame, Light, Piece, ShapeId, Shot},
    kit::{Kit, Stage},
    pass::{self, Drawn, Hidden},
    shape::{Paint, Shape as Body},
    still::{Picture, Still},
    tokens::Colour,
};

use super::{Painter, prepare};

const SIZE: UVec2 = UVec2::new(300, 200);

/// What egui is to paint.
#[derive(Resource, Clone, Default)]
struct Page {
    faces: Vec<(Rect, Color32)>,
    words: Vec<(f32, f32, String)>,
}

fn show(page: Res<Page>, mut contexts: Query<(&mut EguiContext, &mut EguiFullOutput)>) {
    let Ok((mut context, mut output)) = contexts.single_mut() else {
        return;
    };
    let screen = Rect::from_min_size(pos2(0.0, 0.0), vec2(SIZE.x as f32, SIZE.y as f32));
    let input = RawInput {
        screen_rect: Some(screen),
        ..RawInput::default()
    };
    output.0 = Some(context.get_mut().run_ui(input, |ui| {
        if !fonts::ready(ui.ctx()) {
            return;
        }
        for (rect, colour) in &page.faces {
            ui.painter().add(Shape::rect_filled(*rect, 0.0, *colour));
        }
        for (x, y, words) in &page.words {
            let font = FontId::proportional(14.0);
            ui.painter()
                .text(pos2(*x, *y), Align2::LEFT_TOP, words, font, Color32::BLACK);
        }
    }));
}

fn build(app: &mut App, target: RenderTarget) {
    let half = Vec3::splat(0.5);
    let body = Body::new().block(-half, half, Paint::matt(Colour([200, 90, 60])));
    app.add_plugins((EguiPlugin::default(), pass::drawing, super::plugin))
        .insert_resource(EguiGlobalSettings {
            auto_create_primary_context: false,
            ..EguiGlobalSettings::default()
        })
        .insert_resource(Stage(Arc::new(Kit::bake(vec![body], &[]))))
        .init_resource::<Page>()
        .add_systems(Update, show)
        .add_systems(Startup, move |mut commands: Commands| {
            let settings = EguiContextSettings {
                run_manually: true,
                ..EguiContextSettings::default()
            };
            commands.spawn((pass::eye(), target.clone(), PrimaryEguiContext, settings));
        });
}

/// As [`build`], but all is painted anew in each picture, and nothing counts as hidden.
fn build_whole(app: &mut App, target: RenderTarget) {
    build(app, target);
    let render = app.get_sub_app_mut(RenderApp).expect("it draws");
    let anew = |mut painter: ResMut<Painter>| painter.is_new = true;
    let show_all = |mut hidden: ResMut<Hidden>| hidden.0.clear();
    render.add_systems(
        Core2d,
        (anew.before(prepare), show_all.after(prepare).before(Drawn)),
    );
}

fn hall(place: f32, area: Area) -> Frame {
    let at = Affine3A::from_translation(Vec3::new(place, 0.0, 1.0));
    Frame {
        pieces: vec![
            Piece::new(
                ShapeId(0),
                Affine3A::from_translation(Vec3::new(0.0, 2.0, 1.0)),
            ),
            Piece::new(ShapeId(0), at),
        ],
        shot: Shot {
            eye: Vec3::new(0.0, -3.0, 1.0),
            aim: Vec3::Z,
            fov_y: 0.9,
        },
        light: Light::DAY,
        area,
        flat: false,
    }
}

/// Numbers that look like chance: the same in each run.
struct Dice(u64);

impl Dice {
    fn below(&mut self, most: u64) -> u64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % most
    }

    fn face(&mut self) -> (Rect, Color32) {
        let [x, y] = [280, 180].map(|most| self.below(most) as f32 + 0.25 * self.below(4) as f32);
        let size = vec2(self.below(150) as f32, self.below(120) as f32);
        let cover = [255, 255, 120][self.below(3) as usize];
        let [red, green, blue] = [(); 3].map(|()| self.below(256) as u8);
        let colour = Color32::from_rgba_unmultiplied(red, green, blue, cover);
        (Rect::from_min_size(pos2(x, y), size), colour)
    }

    /// Changes a page in one way.
    fn change(&mut self, page: &mut Page, frame: &mut Frame) {
        let any = |count: usize, dice: &mut Dice| dice.below(count.max(1) as u64) as usize;
        match self.below(9) {
            0 | 1 => {
                let (at, face) = (any(page.faces.len() + 1, self), self.face());
                page.faces.insert(at, face);
            }
            2 if !page.faces.is_empty() => {
                let at = any(page.faces.len(), self);
                page.faces.remove(at);
            }
            3 if !page.faces.is_empty() => {
                let (at, face) = (any(page.faces.len(), self), self.face());
                page.faces[at] = face;
            }
            4 => {
                let (x, y) = (self.below(250) as f32, self.below(180) as f32);
                let words = ["empty", "unknown", "full 12", "Wren"][self.below(4) as usize];
                page.words.push((x, y, words.to_owned()));
            }
            5 if !page.words.is_empty() => drop(page.words.remove(0)),
            6 => frame.area.width = 150 + self.below(100) as u32,
            7 | 8 => {
                frame.pieces[1] = hall(self.below(100) as f32 / 50.0 - 1.0, frame.area).pieces[1]
            }
            _ => {}
        }
    }
}

fn draw(still: &mut Still, page: &Page, frame: &Frame) -> Picture {
    still.app().insert_resource(page.clone());
    still.app().insert_resource(frame.clone());
    still.draw().expect("a picture")
}

#[test]
fn what_is_painted_in_parts_looks_as_if_all_were_painted() {
    const DRIVER: &str = "no driver that draws: install the Debian package mesa-vulkan-drivers";
    let mut parts = Still::new(SIZE, build).expect(DRIVER);
    let mut whole = Still::new(SIZE, build_whole).expect(DRIVER);
    let mut dice = Dice(20_261_130);
    let area = Area {
        x: 20,
        y: 10,
        width: 200,
        height: 150,
    };
    let (mut page, mut frame) = (Page::default(), hall(0.0, area));
    let mut seen = Vec::new();
    for step in 0..120 {
        // Sometimes nothing changes, sometimes much.
        for _ in 0..[0, 1, 1, 1, 4][dice.below(5) as usize] {
            dice.change(&mut page, &mut frame);
        }
        let expected = draw(&mut whole, &page, &frame);
        let found = draw(&mut parts, &page, &frame);
        let other = found
            .bytes
            .iter()
            .zip(&expected.bytes)
            .position(|(one, other)| one != other);
        let place = other.map(|at| (at / 4 % SIZE.x as usize, at / 4 / SIZE.x as usize));
        assert_eq!(place, None, "step {step}: the first other pixel");
        if !seen.contains(&found) {
            seen.push(found);
        }
    }
    assert!(
        seen.len() > 60,
        "{} pictures: too little changed",
        seen.len()
    );
}
