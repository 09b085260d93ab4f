//! What is open, and what becomes of each wish. Nothing here draws, and nothing here reads a
//! clock: what was done in an attempt is the same whether a picture of it was drawn or not.

mod attempts;
mod course;
mod exam;
mod moment;
mod next_step;
mod play;
mod review;
mod watch;
mod wishes;

#[cfg(test)]
mod session_tests;

use std::{
    hash::{BuildHasher, Hasher, RandomState},
    io,
    path::{Path, PathBuf},
};

use rackproof_attempt::{Attempt, Exercise, Recorder};
use rackproof_drill::Aim;
use rackproof_library::{Loaded, new_attempt, shown};
use rackproof_panel::{Over, PanelPage, Preferences, Setting, Way, Wish};
use rackproof_words::{Arg, Words};

pub use attempts::{Became, KeptAttempt, attempts_in};
pub use moment::Moment;
pub use play::{Play, played_as};
pub use review::Review;
pub use watch::Watch;

use course::words_of;
use wishes::{wish_of_play, wish_of_review, wish_of_watch};

/// What is shown.
pub enum Screen {
    /// The course with its drills.
    Course,
    /// A drill is played.
    Play(Box<Play>),
    /// A good attempt plays.
    Watch(Box<Watch>),
    /// The debrief of an attempt.
    Review(Box<Review>),
    /// One moment of an attempt, for a picture.
    Moment(Box<Moment>),
}

/// All that the window holds.
pub struct Session {
    /// What everything is called.
    pub words: Words,
    /// What is shown.
    pub screen: Screen,
    /// The operator panel's page.
    pub page: PanelPage,
    /// What lies over the page.
    pub over: Option<Over>,
    /// What the person chose for themselves.
    pub preferences: Preferences,
    /// How far the view is turned, in degrees to the left and up.
    pub turn: (f32, f32),
    /// The variant that was chosen. `None`: any.
    pub variant: Option<usize>,
    /// The reference time of the chosen variant, in µs.
    pub reference: Option<u64>,
    /// What went wrong, in words, until something else is begun.
    pub trouble: Option<String>,
    /// The window is to be closed.
    pub quits: bool,
    /// The preferences changed and are to be kept.
    pub keeps: bool,
    /// The drills of the course. None: nothing is begun.
    drills: Vec<Loaded>,
    /// What was played before, of each drill.
    attempts: Vec<Vec<KeptAttempt>>,
    /// The number of the chosen drill.
    drill: usize,
    exercise: Exercise,
    folder: PathBuf,
}

/// How far the view turns at most, in degrees to a side, and up or down.
const TURN_MOST: (f32, f32) = (50.0, 25.0);

impl Session {
    /// A session that shows a course of one drill. Attempts are kept in `folder`.
    pub fn new(words: Words, loaded: Loaded, folder: PathBuf, preferences: Preferences) -> Session {
        let exercise = loaded.exercise.clone();
        let mut session = Session {
            drills: vec![loaded],
            folder,
            ..Session::of_screen(words, exercise, Screen::Course, preferences)
        };
        session.read_attempts();
        session
    }

    /// A session that shows one thing, for pictures. Nothing can be begun in it.
    pub fn of_screen(
        words: Words,
        exercise: Exercise,
        screen: Screen,
        preferences: Preferences,
    ) -> Session {
        Session {
            words,
            screen,
            page: PanelPage::default(),
            over: None,
            preferences,
            turn: (0.0, 0.0),
            variant: None,
            reference: None,
            trouble: None,
            quits: false,
            keeps: false,
            drills: Vec::new(),
            attempts: Vec::new(),
            drill: 0,
            exercise,
            folder: PathBuf::new(),
        }
    }

    /// The drill that can be begun.
    pub fn exercise(&self) -> &Exercise {
        &self.exercise
    }

    /// Where attempts are kept.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// Whether the next picture differs from this one though nobody does anything.
    pub fn moves(&self) -> bool {
        match &self.screen {
            Screen::Course | Screen::Moment(_) => false,
            Screen::Play(play) => play.moves(),
            Screen::Watch(watch) => watch.plays() && self.over.is_none(),
            Screen::Review(review) => review.plays(),
        }
    }

    /// Whether a clock on the page goes on though nothing moves.
    pub fn ticks(&self) -> bool {
        matches!(&self.screen, Screen::Play(play) if !play.stands_still())
    }

    /// Lets real time pass, in µs.
    pub fn pass(&mut self, real: u64) {
        let done = match &mut self.screen {
            Screen::Course | Screen::Moment(_) => Ok(()),
            Screen::Play(play) => play.pass(real),
            Screen::Watch(watch) => {
                // Behind what lies over the page the attempt stands still.
                if self.over.is_none() {
                    watch.pass(real);
                }
                Ok(())
            }
            Screen::Review(review) => {
                review.pass(real);
                Ok(())
            }
        };
        self.tell(done);
        self.end_if_over();
    }

    /// Does what was asked for, as far as it can be done now.
    pub fn wish(&mut self, wish: Wish) {
        match wish {
            Wish::Page(page) => self.page = page,
            Wish::Over(over) => self.lay_over(Some(over)),
            Wish::CloseOver => self.lay_over(None),
            Wish::Turn(left, up) => {
                self.turn.0 = (self.turn.0 + left).clamp(-TURN_MOST.0, TURN_MOST.0);
                self.turn.1 = (self.turn.1 + up).clamp(-TURN_MOST.1, TURN_MOST.1);
            }
            Wish::TurnBack => self.turn = (0.0, 0.0),
            Wish::ChooseVariant(variant) => self.choose(variant),
            Wish::ChooseDrill(drill) => self.choose_drill(drill),
            Wish::Point(_) => {}
            Wish::Begin(way) => self.begin(way, self.variant),
            Wish::Again => self.again(),
            Wish::Leave => self.leave(),
            Wish::Quit => self.quits = true,
            Wish::Set(setting) => self.set(setting),
            wish => {
                let done = match &mut self.screen {
                    Screen::Course | Screen::Moment(_) => Ok(()),
                    Screen::Play(play) => wish_of_play(play, &wish),
                    Screen::Watch(watch) => {
                        wish_of_watch(watch, &wish);
                        Ok(())
                    }
                    Screen::Review(review) => {
                        wish_of_review(review, &wish);
                        Ok(())
                    }
                };
                if wish == Wish::TakeOver {
                    self.take_over();
                }
                if matches!(wish, Wish::Do(_)) {
                    self.lay_over(None);
                }
                self.tell(done);
            }
        }
        self.end_if_over();
    }

    fn lay_over(&mut self, over: Option<Over>) {
        self.over = over;
        if let Screen::Play(play) = &mut self.screen {
            let stands = matches!(over, Some(Over::Help | Over::Settings | Over::Pause));
            play.stand_still(stands);
        }
    }

    fn set(&mut self, setting: Setting) {
        let preferences = &mut self.preferences;
        match setting {
            Setting::Scale(scale) => preferences.scale = scale.clamp(0.9, 2.0),
            Setting::LessMotion(is) => preferences.less_motion = is,
            Setting::NoLetters(is) => preferences.no_letters = is,
            Setting::PressTwice(is) => preferences.press_twice = is,
            Setting::PlainWords(is) => {
                preferences.plain_words = is;
                self.words = words_of(&self.exercise, *preferences);
            }
        }
        self.keeps = true;
    }

    fn begin(&mut self, way: Way, variant: Option<usize>) {
        if way == Way::Exam
            && let Some(closed) = self.exam_closed()
        {
            self.trouble = Some(closed);
            return;
        }
        let count = self.exercise.drill.variants.len();
        let chosen = variant.filter(|_| way != Way::Exam);
        let variant = chosen.unwrap_or_else(|| drawn(count));
        if way == Way::Watch {
            match Watch::new(self.exercise.clone(), variant) {
                Some(watch) => self.show(Screen::Watch(Box::new(watch))),
                None => self.trouble = Some(self.words.say("window-nothing-to-watch", &[])),
            }
            return;
        }
        let Some(judged) = self.exercise.judged(variant) else {
            return;
        };
        let attempt = Attempt::new(judged).with_neighbour();
        self.play(attempt, self.exercise.clone(), way, variant);
    }

    fn play(&mut self, attempt: Attempt, exercise: Exercise, way: Way, variant: usize) {
        let Some(loaded) = self.loaded() else {
            return;
        };
        let name = self.folder.join(&exercise.drill.id);
        let begun =
            new_attempt(None, &name.to_string_lossy()).and_then(
                |(path, file)| match Recorder::begin(
                    file,
                    &loaded.material,
                    &exercise,
                    variant,
                    played_as(way),
                    &loaded.proof,
                ) {
                    Ok(recorder) => Ok((path, recorder)),
                    Err(error) => Err((path, error)),
                },
            );
        match begun {
            Ok((path, recorder)) => {
                let begins_at = attempt.at();
                let mut play = Play::new(exercise, attempt, recorder, path, (way, variant));
                let noted = match begins_at {
                    0 => Ok(()),
                    at => play.note(format!("TakenOver({at})")),
                };
                self.show(Screen::Play(Box::new(play)));
                self.tell(noted);
            }
            Err((path, error)) => self.unwritten(&path, &error),
        }
    }

    fn again(&mut self) {
        let (way, variant) = match &self.screen {
            Screen::Course | Screen::Moment(_) => return,
            Screen::Play(play) => (play.way(), play.variant()),
            Screen::Watch(watch) => (Way::Watch, watch.variant()),
            Screen::Review(review) => (review.way(), review.variant()),
        };
        // Again is the same variant: no exam is that.
        let way = if way == Way::Exam { Way::Practice } else { way };
        self.begin(way, Some(variant));
    }

    fn take_over(&mut self) {
        let Screen::Review(review) = &self.screen else {
            return;
        };
        let attempt = review.history().take_over(review.at());
        if attempt.is_over() {
            self.trouble = Some(self.words.say("window-nothing-left-to-do", &[]));
            return;
        }
        let (variant, exercise) = (review.variant(), review.exercise().clone());
        self.play(attempt, exercise, Way::Practice, variant);
    }

    fn leave(&mut self) {
        self.read_attempts();
        self.show(Screen::Course);
    }

    fn show(&mut self, screen: Screen) {
        self.screen = screen;
        self.over = None;
        self.page = PanelPage::default();
        self.turn = (0.0, 0.0);
        self.trouble = None;
    }

    /// An attempt that is over is debriefed.
    fn end_if_over(&mut self) {
        if !matches!(&self.screen, Screen::Play(play) if play.attempt().is_over()) {
            return;
        }
        let Screen::Play(play) = std::mem::replace(&mut self.screen, Screen::Course) else {
            return;
        };
        let (path, way, variant) = (play.path().to_owned(), play.way(), play.variant());
        match play.end() {
            Ok((exercise, attempt)) => {
                let review = Review::new(exercise, &attempt, path, (way, variant), &self.words);
                self.show(Screen::Review(Box::new(review)));
            }
            Err(error) => self.unwritten(&path, &error),
        }
    }

    fn tell(&mut self, done: io::Result<()>) {
        if let Err(error) = done {
            let path = match &self.screen {
                Screen::Play(play) => play.path().to_owned(),
                _ => PathBuf::new(),
            };
            self.unwritten(&path, &error);
        }
    }

    fn unwritten(&mut self, path: &Path, error: &io::Error) {
        self.show(Screen::Course);
        let reason = Arg::from(error.to_string());
        let arguments = [("path", Arg::from(shown(path))), ("reason", reason)];
        self.trouble = Some(self.words.say("file-not-written", &arguments));
    }

    /// The aim that the person keeps.
    pub fn aim(&self) -> Option<Aim> {
        match &self.screen {
            Screen::Play(play) => play.aim(),
            Screen::Watch(watch) => watch.aim(),
            Screen::Moment(moment) => moment.aim(),
            Screen::Course | Screen::Review(_) => None,
        }
    }
}

/// Any number below `count`, which is more than nought: which variant it becomes. What was drawn
/// is kept in the attempt, so that nothing rests on how it was drawn.
fn drawn(count: usize) -> usize {
    let number = RandomState::new().build_hasher().finish();
    usize::try_from(number % count.max(1) as u64).unwrap_or(0)
}
