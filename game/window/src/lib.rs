//! The trainee's window: the hall and the screens joined.
//!
//! - [`open`] opens it and returns when it is closed.
//! - [`pictures`] draws moments of attempts without a window.
//! - [`measure`] says what it costs on this machine.
//! - [`session`] is what is open and what becomes of each wish; it draws nothing and reads no
//!   clock. Closing the window, losing the driver or dropping pictures changes no attempt.

mod app;
mod clock;
mod draw;
mod measure;
mod missing;
mod pages;
mod paint;
mod platform;
mod screens;
pub mod session;
mod settings;
mod shift;
mod sight;
mod still;
mod waker;

use std::{
    any::Any,
    panic::{self, AssertUnwindSafe, catch_unwind},
    path::{Path, PathBuf},
};

use bevy::{
    app::{App, AppExit},
    camera::RenderTarget,
    window::WindowRef,
};
use rackproof_attempt::SearchShortest;
use rackproof_library::Loaded;
use rackproof_phrases::site_words;
use rackproof_words::Words;

pub use measure::measure;
pub use missing::Missing;
pub use still::{Picture, pictures};

use session::Session;

/// Opens the window on these drills, the first one chosen, and returns when it is closed. Attempts
/// are kept in the current folder. With `attempt` it begins with the debrief of that attempt at the
/// first drill. `search` finds the shortest way on for the debrief.
///
/// # Errors
/// What is missing. Nothing was opened then.
pub fn open(
    drills: (Loaded, Vec<Loaded>),
    attempt: Option<&Path>,
    search: SearchShortest,
) -> Result<(), Missing> {
    missing::check_window()?;
    let preferences = settings::kept().unwrap_or_default();
    let site = site_words(&drills.0.exercise.hall, preferences.plain_words);
    let words = site.unwrap_or_else(Words::english);
    let session = Session::new(words, drills, PathBuf::from("."), preferences);
    let mut session = session.searched_by(search);
    if let Some(attempt) = attempt {
        session.debrief(attempt);
    }
    match window_app(session)?.run() {
        AppExit::Success => Ok(()),
        AppExit::Error(code) => Err(Missing::Other(format!("exit code {code}"))),
    }
}

/// What a panic said.
fn reason_of(reason: &(dyn Any + Send)) -> String {
    let said = reason.downcast_ref::<String>().map(String::as_str);
    let said = said.or_else(|| reason.downcast_ref::<&str>().copied());
    said.unwrap_or_default().to_owned()
}

/// The application with its window, not yet running.
///
/// Where a library of the desktop is missing, the engine stops with a panic before it opens
/// anything. Nothing was begun then, so that the terminal can take over.
fn window_app(session: Session) -> Result<App, Missing> {
    // Whoever calls says what is missing, in words: no trace of where the engine stopped.
    let hook = panic::take_hook();
    panic::set_hook(Box::new(|_| {}));
    let made = catch_unwind(AssertUnwindSafe(|| {
        let mut app = App::new();
        app.add_plugins(app::window_plugins(session.words.say("window-title", &[])));
        app::add_trainer(&mut app, session);
        app::add_camera(&mut app, RenderTarget::Window(WindowRef::Primary));
        app
    }));
    panic::set_hook(hook);
    made.map_err(|reason| Missing::Other(reason_of(&*reason)))
}
