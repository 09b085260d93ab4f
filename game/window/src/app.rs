//! The plugin list, and what happens in each picture.

use std::time::Duration;

use bevy::{
    app::{App, PluginGroup, PostUpdate, Startup, SubApp, Update},
    camera::RenderTarget,
    ecs::{
        component::Component,
        resource::Resource,
        schedule::{IntoScheduleConfigs, Schedules, SingleThreadedExecutor},
        system::{Commands, Query, Res, ResMut},
        world::World,
    },
    log::{Level, LogPlugin},
    math::UVec2,
    render::{RenderApp, pipelined_rendering::PipelinedRenderingPlugin},
    window::{PresentMode, Window, WindowPlugin, WindowResolution},
    winit::{EventLoopProxyWrapper, UpdateMode, WinitSettings, WinitUserEvent},
};
use bevy_egui::{
    EguiContextSettings, EguiGlobalSettings, EguiPlugin, EguiPostUpdateSet, PrimaryEguiContext,
};
use rackproof_stage::{
    frame::Frame,
    hall::{Hall, View},
    kit::Stage,
    pass,
};

use crate::{
    clock::{Clock, PICTURE, STILL, due},
    draw::Pointer,
    paint,
    screens::{Asked, do_wishes, rest, show_anew, show_page},
    session::{Screen, Session},
    sight::{Eyes, Looked, frame_of, looked, turn_of},
    waker::Waker,
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
pub(crate) struct Time(pub(crate) Clock);

/// The one camera.
#[derive(Component)]
pub(crate) struct Eye;

/// All but where the picture goes to.
pub(crate) fn add_trainer(app: &mut App, session: Session) {
    if let Some(theatre) = theatre_of(&session) {
        app.insert_resource(Stage(theatre.hall.kit()));
        app.insert_resource(theatre);
    }
    app.add_plugins((EguiPlugin::default(), pass::drawing, paint::plugin));
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
            pass_time, fit_texts, show_page, do_wishes, set_up, show_anew, aim, plan,
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

/// When the next picture is due. Each change of the mode costs one picture more, so that there are
/// two: while something moves, and while nothing does. In the second a waker keeps the time.
fn plan(
    open: Res<Open>,
    theatre: Option<Res<Theatre>>,
    asked: Res<Asked>,
    settings: Option<ResMut<WinitSettings>>,
    proxy: Option<Res<EventLoopProxyWrapper>>,
    mut waker: bevy::ecs::system::Local<Option<Waker>>,
) {
    let (Some(mut settings), Some(proxy)) = (settings, proxy) else {
        return;
    };
    let eyes = theatre.is_some_and(|theatre| theatre.eyes.move_on());
    let again = if asked.wishes.is_empty() {
        asked.again
    } else {
        Duration::ZERO
    };
    let wait = due(
        open.0.moves() || eyes,
        open.0.stays_for().map(Duration::from_micros),
        again,
    );
    let moves = wait == PICTURE;
    let waker = waker.get_or_insert_with(|| {
        let proxy = (**proxy).clone();
        Waker::new(move || proxy.send_event(WinitUserEvent::WakeUp).is_ok())
    });
    waker.wake_in((!moves && wait < STILL).then_some(wait));
    let mode = UpdateMode::reactive_low_power(if moves { PICTURE } else { STILL });
    if settings.focused_mode != mode {
        settings.focused_mode = mode;
        settings.unfocused_mode = mode;
    }
}
