//! What is open, and what becomes of each wish. Nothing here draws, and nothing here reads a
//! clock: what was done in an attempt is the same whether a picture of it was drawn or not.

mod attempts;
mod begin;
mod drills;
mod exam;
mod moment;
mod next_step;
mod play;
mod review;
mod shelf;
mod watch;
mod ways;
mod wishes;

#[cfg(test)]
mod attempts_tests;
#[cfg(test)]
mod session_tests;
#[cfg(test)]
mod time_tests;
#[cfg(test)]
mod ways_tests;

use std::{
    io,
    path::{Path, PathBuf},
};

use rackproof_attempt::{Exercise, SearchShortest};
use rackproof_drill::Aim;
use rackproof_library::{Loaded, shown};
use rackproof_panel::{Over, PanelPage, Preferences, STRETCHES, Setting, Way, Wish};
use rackproof_words::{Arg, Words};

pub use attempts::name_of;
pub use drills::OpenDrill;
pub use moment::Moment;
pub use play::{Play, played_as, way_of};
pub use review::Review;
pub use shelf::{Became, KeptAttempt};
pub use watch::Watch;

use shelf::Shelf;
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
    /// At least one; `drill` is the number of one of them.
    drills: Vec<OpenDrill>,
    drill: usize,
    folder: PathBuf,
    shelf: Shelf,
    /// Real time that was too short to be a µs of the drill's, in µs.
    left_over: u64,
    /// Who searches the shortest way on, if somebody does.
    search: Option<SearchShortest>,
}

/// How far the view turns at most, in degrees to a side, and up or down.
const TURN_MOST: (f32, f32) = (50.0, 25.0);

impl Session {
    /// A session that shows the course with these drills, the first one chosen. Attempts are kept
    /// in `folder`.
    pub fn new(
        words: Words,
        (first, others): (Loaded, Vec<Loaded>),
        folder: PathBuf,
        preferences: Preferences,
    ) -> Session {
        let mut shelf = Shelf::default();
        let loaded = std::iter::once(first).chain(others);
        let drills = loaded.map(|one| OpenDrill::new(one, &folder, &mut shelf));
        let drills = drills.collect();
        Session {
            folder,
            shelf,
            ..Session::of_drills(words, drills, Screen::Course, preferences)
        }
    }

    /// The same with somebody who searches the shortest safe way on, for the debrief.
    #[must_use]
    pub fn searched_by(self, search: SearchShortest) -> Session {
        Session {
            search: Some(search),
            ..self
        }
    }

    /// A session that shows one thing, for pictures. Nothing can be begun in it.
    pub fn of_screen(
        words: Words,
        exercise: Exercise,
        screen: Screen,
        preferences: Preferences,
    ) -> Session {
        let drills = vec![OpenDrill::of_picture(exercise)];
        Session::of_drills(words, drills, screen, preferences)
    }

    fn of_drills(
        words: Words,
        drills: Vec<OpenDrill>,
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
            drills,
            drill: 0,
            folder: PathBuf::new(),
            shelf: Shelf::default(),
            left_over: 0,
            search: None,
        }
    }

    /// The chosen drill, ready to run.
    pub fn exercise(&self) -> &Exercise {
        &self.drill().exercise
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

    /// How long the page stays as it is though nobody does anything and nothing moves, in µs.
    /// `None`: as long as nobody does anything.
    pub fn stays_for(&self) -> Option<u64> {
        match &self.screen {
            Screen::Play(play) => {
                let stays = play.stays_for()?;
                let real = stays.saturating_mul(u64::from(self.stretched(play)));
                // What was left over may come from a longer stretch.
                Some(real.saturating_sub(self.left_over))
            }
            _ => None,
        }
    }

    /// How many times as long everything takes now. What takes long is shown faster anyway, a
    /// button that must be held asks no longer a grip, and in an exam time is what it is.
    fn stretched(&self, play: &Play) -> u32 {
        let held = play.attempt().state().world.machine.hold_left().0 > 0;
        if play.way() == Way::Exam || play.doing().is_some() || held {
            1
        } else {
            self.preferences.stretch.max(1)
        }
    }

    /// How much of the drill's time passes in so much real time. What is left over counts next
    /// time, so that many small pieces are as long as one large one.
    fn slowed(&mut self, real: u64) -> u64 {
        let Screen::Play(play) = &self.screen else {
            return real;
        };
        let stretch = u64::from(self.stretched(play));
        let whole = real.saturating_add(std::mem::take(&mut self.left_over));
        self.left_over = whole % stretch;
        whole / stretch
    }

    /// Lets real time pass, in µs.
    pub fn pass(&mut self, real: u64) {
        let real = self.slowed(real);
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
        self.hear_search();
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
            Wish::ChooseDrill(number) => self.choose_drill(number),
            Wish::Point(_) => {}
            Wish::OpenAttempt(number) => self.open_attempt(number),
            Wish::Begin(way) => self.begin(way, self.variant),
            Wish::Again => self.again(),
            Wish::Leave => self.leave(),
            Wish::Quit => self.quits = true,
            Wish::Set(setting) => self.set(setting),
            Wish::WayOn => self.way_on(),
            Wish::WaysOn => self.ways_on(),
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
            let stands = matches!(
                over,
                Some(Over::Help | Over::Settings | Over::Pause | Over::WayOn)
            );
            play.stand_still(stands);
        }
        if let Screen::Review(review) = &mut self.screen
            && over != Some(Over::WaysOn)
        {
            review.forget_ways();
        }
    }

    fn set(&mut self, setting: Setting) {
        let preferences = &mut self.preferences;
        match setting {
            Setting::Scale(scale) => {
                preferences.scale = scale.clamp(0.9, 2.0);
                preferences.own_scale = true;
            }
            Setting::LessMotion(is) => preferences.less_motion = is,
            Setting::NoLetters(is) => preferences.no_letters = is,
            Setting::PressTwice(is) => preferences.press_twice = is,
            Setting::Stretch(times) if STRETCHES.contains(&times) => preferences.stretch = times,
            Setting::Stretch(_) => return,
            Setting::PlainWords(is) => {
                preferences.plain_words = is;
                self.speak();
            }
        }
        self.keeps = true;
    }

    fn leave(&mut self) {
        let drill = &mut self.drills[self.drill];
        let (id, material) = (&drill.exercise.drill.id, drill.material.as_ref());
        drill.attempts = self.shelf.attempts_of(&self.folder, id, material);
        self.show(Screen::Course);
    }

    fn show(&mut self, screen: Screen) {
        self.screen = screen;
        self.over = None;
        self.page = PanelPage::default();
        self.turn = (0.0, 0.0);
        self.trouble = None;
        self.left_over = 0;
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
            Ok((exercise, attempt, notes)) => {
                let how = (way, variant);
                let review = Review::new(exercise, &attempt, (path, &notes), how, &self.words);
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
