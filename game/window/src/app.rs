//! The plugin list, and what happens in each picture.

use std::time::Duration;

use bevy::{
    app::{App, AppExit, PluginGroup, PostUpdate, Startup, SubApp, Update},
    camera::RenderTarget,
    ecs::{
        component::Component,
        message::{MessageCursor, MessageWriter, Messages},
        resource::Resource,
        schedule::{IntoScheduleConfigs, Schedules, SingleThreadedExecutor},
        system::{Commands, Query, Res, ResMut},
        world::World,
    },
    input::keyboard::KeyboardInput,
    log::{Level, LogPlugin},
    math::UVec2,
    render::{RenderApp, pipelined_rendering::PipelinedRenderingPlugin},
    window::{PresentMode, RequestRedraw, Window, WindowPlugin, WindowResolution},
    winit::{UpdateMode, WinitSettings},
};
use bevy_egui::{
    EguiContext, EguiContextSettings, EguiFullOutput, EguiGlobalSettings, EguiInput, EguiPlugin,
    EguiPostUpdateSet, PrimaryEguiContext,
};
use rackproof_panel::{Wish, fonts};
use rackproof_stage::{
    frame::{Area, Frame},
    hall::{Hall, View},
    kit::Stage,
    pass,
};

use crate::{
    clock::{Clock, at_once, due},
    draw::{Drawn, Pointer, draw},
    paint,
    session::{Screen, Session},
    shift::Shift,
    sight::{Eyes, Looked, frame_of, looked, turn_of},
};

/// The window's size at first, in logical pixels.
pub(crate) const SIZE: UVec2 = UVec2::new(1280, 720);

/// What is open.
#[derive(Resource)]
pub(crate) struct Open(pub(crate) Session);

/// The hall of the machine, and where it is looked at from.
#[derive(Resource)]
pub(crate) struct Theatre {
    /// The number of the drill whose machine stands in the hall.
    drill: usize,
    pub(crate) hall: Hall,
    pub(crate) eyes: Eyes,
    pub(crate) pointer: Pointer,
}

#[derive(Resource)]
struct Time(Clock);

/// What was asked for in this picture, and when egui wants the next one.
#[derive(Resource, Default)]
struct Asked {
    wishes: Vec<Wish>,
    again: Duration,
    area: Area,
}

/// The one camera.
#[derive(Component)]
pub(crate) struct Eye;

/// All but where the picture goes to.
pub(crate) fn add_trainer(app: &mut App, session: Session) {
    if let Some(theatre) = theatre_of(&session) {
        app.insert_resource(Stage(theatre.hall.kit()));
        app.insert_resource(theatre);
    }
    app.add_plugins((EguiPlugin::default(), pass::plugin, paint::plugin));
    app.insert_resource(EguiGlobalSettings {
        auto_create_primary_context: false,
        ..EguiGlobalSettings::default()
    })
    .insert_resource(Open(session))
    .insert_resource(Time(Clock::new()))
    .init_resource::<Asked>()
    .add_systems(
        Update,
        (
            pass_time, fit_texts, show_page, do_wishes, set_up, aim, plan,
        )
            .chain(),
    )
    .add_systems(PostUpdate, rest.after(EguiPostUpdateSet::ProcessOutput));
    one_after_another(app);
}

/// A picture asks little of many small systems: handing them to other threads costs more than doing
/// them. One after another they also come in the same order each time.
fn one_after_another(app: &mut App) {
    let render = app.get_sub_app_mut(RenderApp).map(SubApp::world_mut);
    if let Some(render) = render {
        for_all_schedules(render);
    }
    for_all_schedules(app.world_mut());
}

fn for_all_schedules(world: &mut World) {
    if let Some(mut schedules) = world.get_resource_mut::<Schedules>() {
        for (_, schedule) in schedules.iter_mut() {
            schedule.set_executor(SingleThreadedExecutor::new());
        }
    }
}

/// The hall of the chosen drill's machine, seen as a whole.
fn theatre_of(session: &Session) -> Option<Theatre> {
    let judged = session.exercise().judged(0)?;
    Some(Theatre {
        drill: session.chosen(),
        hall: Hall::new(judged.world()),
        eyes: Eyes::at(View::Overview),
        pointer: Pointer::default(),
    })
}

/// Another drill may have another machine.
fn set_up(open: Res<Open>, theatre: Option<ResMut<Theatre>>, stage: Option<ResMut<Stage>>) {
    let (Some(mut theatre), Some(mut stage)) = (theatre, stage) else {
        return;
    };
    if theatre.drill == open.0.chosen() {
        return;
    }
    if let Some(new) = theatre_of(&open.0) {
        stage.0 = new.hall.kit();
        *theatre = new;
    }
}

/// The plugins of a real window.
pub(crate) fn window_plugins(title: String) -> impl PluginGroup {
    let window = Window {
        title,
        resolution: WindowResolution::new(SIZE.x, SIZE.y),
        // Pictures are few: none waits for the screen.
        present_mode: PresentMode::AutoNoVsync,
        ..Window::default()
    };
    bevy::DefaultPlugins
        .set(WindowPlugin {
            primary_window: Some(window),
            ..WindowPlugin::default()
        })
        .set(LogPlugin {
            level: Level::ERROR,
            ..LogPlugin::default()
        })
        // Pictures are few, and one thing at a time costs less in all.
        .disable::<PipelinedRenderingPlugin>()
}

/// The camera, with the context of all screens.
pub(crate) fn add_camera(app: &mut App, target: RenderTarget) {
    app.add_systems(Startup, move |mut commands: Commands| {
        commands.spawn((
            pass::eye(),
            target.clone(),
            Eye,
            PrimaryEguiContext,
            EguiContextSettings {
                run_manually: true,
                ..EguiContextSettings::default()
            },
        ));
    });
}

fn pass_time(mut open: ResMut<Open>, mut time: ResMut<Time>) {
    let passed = time.0.passed();
    open.0
        .pass(u64::try_from(passed.as_micros()).unwrap_or(u64::MAX));
}

/// As long as nobody chose a size for texts, it follows that of the window.
fn fit_texts(mut open: ResMut<Open>, windows: Query<&Window>) {
    let Ok(window) = windows.single() else { return };
    let fitting = crate::settings::fitting(window.width(), window.height());
    let now = &open.0.preferences;
    if !now.own_scale && (now.scale - fitting).abs() > 1e-3 {
        open.0.preferences.scale = fitting;
    }
}

/// Runs the page. A pass may run twice: it only adds to the wishes.
fn show_page(
    open: Res<Open>,
    theatre: Option<ResMut<Theatre>>,
    time: Res<Time>,
    mut asked: ResMut<Asked>,
    mut contexts: Query<(&mut EguiContext, &mut EguiInput, &mut EguiFullOutput)>,
    keys: Option<Res<Messages<KeyboardInput>>>,
    mut known: bevy::ecs::system::Local<Known>,
) {
    let Ok((mut context, mut input, mut output)) = contexts.single_mut() else {
        return;
    };
    let context = context.get_mut();
    known.drop_repeated(&mut input.0.events);
    if let Some(keys) = &keys {
        let Known { shift, read, .. } = &mut *known;
        shift.mend(read.read(keys), &mut input.0.events);
    }
    if (context.zoom_factor() - open.0.preferences.scale).abs() > 1e-3 {
        context.set_zoom_factor(open.0.preferences.scale);
    }
    let mut drawn = Drawn::default();
    let mut theatre = theatre;
    let done = context.run_ui(std::mem::take(&mut input.0), |ui| {
        // Faces are there from the second pass on.
        if !fonts::ready(ui.ctx()) {
            return;
        }
        let theatre = theatre.as_deref_mut();
        draw(&open.0, theatre, time.0.seconds(), ui, &mut drawn);
    });
    asked.again = done
        .viewport_output
        .values()
        .map(|output| output.repaint_delay)
        .min()
        .unwrap_or(Duration::MAX);
    asked.area = drawn.area;
    asked.wishes.append(&mut drawn.wishes);
    output.0 = Some(done);
}

/// What the page was told already.
#[derive(Default)]
struct Known {
    modifiers: Option<egui::Modifiers>,
    /// Whether Shift is down, and which keys were read.
    shift: Shift,
    read: MessageCursor<KeyboardInput>,
}

impl Known {
    /// Each picture tells the modifier keys anew, and egui then asks for one more picture: it would
    /// never rest.
    fn drop_repeated(&mut self, events: &mut Vec<egui::Event>) {
        events.retain(|event| match event {
            egui::Event::ModifiersChanged(now) => {
                let new = self.modifiers != Some(*now);
                self.modifiers = Some(*now);
                new
            }
            _ => true,
        });
    }
}

fn do_wishes(mut open: ResMut<Open>, mut asked: ResMut<Asked>, mut exits: MessageWriter<AppExit>) {
    for wish in std::mem::take(&mut asked.wishes) {
        open.0.wish(wish);
        asked.again = Duration::ZERO;
    }
    if std::mem::take(&mut open.0.keeps) {
        crate::settings::keep(&open.0.preferences);
    }
    if open.0.quits {
        exits.write(AppExit::Success);
    }
}

/// What of the hall is drawn now.
fn aim(
    open: Res<Open>,
    theatre: Option<ResMut<Theatre>>,
    asked: Res<Asked>,
    frame: Option<ResMut<Frame>>,
    mut commands: Commands,
    mut clock: bevy::ecs::system::Local<Option<Clock>>,
) {
    let Some(mut theatre) = theatre else { return };
    let seconds = clock.get_or_insert_with(Clock::new).passed().as_secs_f32();
    let first;
    let looked = match looked(&open.0) {
        Some(looked) => looked,
        None => {
            let Some(judged) = open.0.exercise().judged(0) else {
                return;
            };
            first = judged;
            Looked {
                state: first.world().start(),
                world: first.world(),
                view: View::Overview,
                shows: rackproof_stage::hall::Shows::Seen,
            }
        }
    };
    let cuts = open.0.preferences.less_motion || matches!(open.0.screen, Screen::Review(_));
    let turn = turn_of(open.0.turn);
    theatre.eyes.turn_to(looked.view, turn, seconds, cuts);
    let new = frame_of(&theatre.hall, &looked, &theatre.eyes, asked.area);
    match frame {
        Some(mut frame) if *frame != new => *frame = new,
        Some(_) => {}
        None => commands.insert_resource(new),
    }
}

/// When the next picture is due. Each change of the mode costs one picture more, so that only few
/// different ones are used.
fn plan(
    open: Res<Open>,
    theatre: Option<Res<Theatre>>,
    asked: Res<Asked>,
    settings: Option<ResMut<WinitSettings>>,
) {
    let Some(mut settings) = settings else { return };
    let eyes = theatre.is_some_and(|theatre| theatre.eyes.move_on());
    let wait = due(open.0.moves() || eyes, open.0.ticks(), asked.again);
    let mode = UpdateMode::reactive_low_power(wait);
    if settings.focused_mode != mode {
        settings.focused_mode = mode;
        settings.unfocused_mode = mode;
    }
}

/// egui asks for the next picture at once, even if it wants it later: [`plan`] has seen to that.
fn rest(asked: Res<Asked>, mut redraws: ResMut<Messages<RequestRedraw>>) {
    redraws.clear();
    if at_once(asked.again) {
        redraws.write(RequestRedraw);
    }
}
