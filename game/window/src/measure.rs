//! What the window costs: its first picture, a picture while everything moves, and standing still.

mod moving;
mod resting;

use std::{
    sync::{
        Arc,
        atomic::{AtomicU32, Ordering},
    },
    time::{Duration, Instant},
};

use bevy::{
    app::{AppExit, Last, Update},
    ecs::{
        message::MessageWriter,
        resource::Resource,
        schedule::IntoScheduleConfigs,
        system::{Res, ResMut},
    },
    winit::{EventLoopProxyWrapper, UpdateMode, WinitSettings},
};
use rackproof_library::Loaded;
use rackproof_panel::{Preferences, Way, Wish};
use rackproof_words::Words;
use resting::Resting;

use crate::{
    Missing,
    app::Open,
    missing, platform,
    screens::{Asked, show_page},
    session::Session,
    window_app,
};

/// Pictures that are drawn before anything is measured: pipelines are made, buffers grow.
const WARM: u32 = 30;

/// Pictures that are measured while everything moves.
const PICTURES: u32 = 300;

/// Pictures that a new page is given to settle: opening a page is not standing still.
const SETTLING: u32 = 30;

/// How often a drill is begun again. What is told is the middle one: a single one says little.
const AGAIN: usize = 9;

/// Name and value of each figure.
type Figures = Vec<(&'static str, String)>;

/// What is being measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Part {
    Opening,
    Warming(u32),
    Moving(u32),
    Settling(u32),
    StillCourse,
    Opened(u32),
    StillDrill,
    Again,
    Shown(u32),
    Done,
}

#[derive(Resource)]
struct Measurement {
    part: Part,
    opened: Instant,
    since: Instant,
    spent: Option<Duration>,
    pictures: u32,
    drawn: Arc<AtomicU32>,
    resting: Resting,
    again: Vec<Duration>,
    figures: Figures,
}

/// Opens a window on a drill in which everything moves, then nothing. It lasts about two minutes.
///
/// # Errors
/// What is missing.
pub fn measure(drill: Loaded) -> Result<Figures, Missing> {
    let opened = Instant::now();
    missing::check_window()?;
    let folder = platform::own_folder().map_err(|error| Missing::Other(error.to_string()))?;
    let words = Words::english();
    let session = Session::new(
        words,
        (drill, Vec::new()),
        folder.clone(),
        Preferences::default(),
    );
    let mut app = match window_app(session) {
        Ok(app) => app,
        Err(missing) => {
            let _left = std::fs::remove_dir_all(&folder);
            return Err(missing);
        }
    };
    app.insert_resource(Measurement {
        part: Part::Opening,
        opened,
        since: opened,
        spent: None,
        pictures: 0,
        drawn: Arc::default(),
        resting: Resting::default(),
        again: Vec::with_capacity(AGAIN),
        figures: Vec::new(),
    })
    .add_systems(Update, moving::drive)
    .add_systems(Update, press_again.before(show_page))
    .add_systems(Last, count.after(moving::drive));
    let (send, receive) = std::sync::mpsc::channel();
    app.add_systems(Last, move |measurement: Res<Measurement>| {
        if measurement.part == Part::Done {
            // Whoever listens has gone only if the program ends.
            let _gone = send.send(measurement.figures.clone());
        }
    });
    app.run();
    let _left = std::fs::remove_dir_all(&folder);
    receive.try_iter().last().ok_or(Missing::Window)
}

/// Begins the drill again, as a key would: it is asked for before the page is run.
fn press_again(mut asked: ResMut<Asked>, mut measurement: ResMut<Measurement>) {
    if measurement.part == Part::Again && measurement.pictures == 0 {
        measurement.opened = Instant::now();
        asked.wishes.push(Wish::Again);
    }
}

fn count(
    mut measurement: ResMut<Measurement>,
    mut open: ResMut<Open>,
    mut settings: ResMut<WinitSettings>,
    proxy: Res<EventLoopProxyWrapper>,
    mut exits: MessageWriter<AppExit>,
) {
    let measurement = &mut *measurement;
    measurement.pictures += 1;
    measurement.drawn.fetch_add(1, Ordering::Relaxed);
    let passed = measurement.since.elapsed();
    let next = match measurement.part {
        // The second picture is asked for when the first one is on the screen.
        Part::Opening if measurement.pictures < 2 => Part::Opening,
        Part::Opening => {
            let first = measurement.opened.elapsed().as_secs_f64();
            measurement.tell("measured-first", format!("{first:.2} s"));
            Part::Warming(0)
        }
        Part::Warming(WARM) => Part::Moving(0),
        Part::Warming(number) => Part::Warming(number + 1),
        Part::Moving(PICTURES) => {
            measurement.tell_moving(passed);
            open.0.wish(Wish::Leave);
            Part::Settling(0)
        }
        Part::Moving(number) => Part::Moving(number + 1),
        Part::Settling(SETTLING) => Part::StillCourse,
        Part::Settling(number) => Part::Settling(number + 1),
        Part::StillCourse if measurement.resting.told().is_none() => Part::StillCourse,
        Part::StillCourse => {
            measurement.tell_still("measured-course");
            open.0.wish(Wish::Begin(Way::Practice));
            Part::Opened(0)
        }
        Part::Opened(SETTLING) => Part::StillDrill,
        Part::Opened(number) => Part::Opened(number + 1),
        Part::StillDrill if measurement.resting.told().is_none() => Part::StillDrill,
        Part::StillDrill => {
            measurement.tell_still("measured-drill");
            Part::Again
        }
        // As with the opening.
        Part::Again if measurement.pictures < 2 => Part::Again,
        Part::Again => {
            measurement.again.push(measurement.opened.elapsed());
            Part::Shown(0)
        }
        Part::Shown(WARM) if measurement.again.len() < AGAIN => Part::Again,
        Part::Shown(WARM) => {
            measurement.tell_again();
            exits.write(AppExit::Success);
            Part::Done
        }
        Part::Shown(number) => Part::Shown(number + 1),
        Part::Done => Part::Done,
    };
    let same = std::mem::discriminant(&next) == std::mem::discriminant(&measurement.part);
    measurement.part = next;
    if !same {
        measurement.since = Instant::now();
        measurement.spent = platform::cpu_time();
        measurement.pictures = 0;
    }
    match next {
        Part::StillCourse | Part::StillDrill if !same => {
            measurement.resting = Resting::begin(Arc::clone(&measurement.drawn), &proxy);
        }
        // A window that rests does as it would by itself.
        Part::StillCourse | Part::StillDrill | Part::Done => {}
        _ => {
            settings.focused_mode = UpdateMode::Continuous;
            settings.unfocused_mode = UpdateMode::Continuous;
        }
    }
}

impl Measurement {
    fn tell(&mut self, id: &'static str, value: String) {
        self.figures.push((id, value));
    }

    fn spent(&self) -> Option<Duration> {
        Some(platform::cpu_time()?.saturating_sub(self.spent?))
    }

    fn tell_moving(&mut self, passed: Duration) {
        let spent = match self.spent() {
            Some(spent) => {
                let each = spent.as_secs_f64() * 1_000.0 / f64::from(PICTURES);
                format!("{each:.1} ms")
            }
            None => "-".to_owned(),
        };
        self.tell("measured-picture", spent);
        let rate = f64::from(PICTURES) / passed.as_secs_f64();
        self.tell("measured-rate", format!("{rate:.1}"));
    }

    fn tell_again(&mut self) {
        self.again.sort_unstable();
        let milliseconds = |again: &Duration| again.as_secs_f64() * 1_000.0;
        if let (Some(middle), Some(longest)) = (self.again.get(AGAIN / 2), self.again.last()) {
            let (middle, longest) = (milliseconds(middle), milliseconds(longest));
            self.tell("measured-again", format!("{middle:.0} ms, {longest:.0} ms"));
        }
    }

    fn tell_still(&mut self, id: &'static str) {
        let told = self.resting.told();
        self.figures.extend(told.map(|told| (id, told)));
    }
}
