//! What draws the hall, seen from here. The program gives it, or has none.

use std::path::Path;

use rackproof_attempt::{Attempt, Exercise, Note, PlayedAs};
use rackproof_library::Loaded;

pub use rackproof_attempt::SearchShortest;

/// What is missing for a picture.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Missing {
    /// A display that a window can be opened on.
    Display,
    /// A driver that draws: Vulkan, or what the system has in its place.
    Driver,
    /// A picture, though there is a driver: it gave none.
    Picture,
    /// The window, which was closed before the end.
    Window,
    /// Something else, in the words of whoever met it.
    Other(String),
}

/// Which page a picture is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Page {
    /// The drill, as the person saw it.
    Seen,
    /// The debrief: what was true.
    Debrief,
}

/// What a picture is to show.
#[derive(Clone, Copy, Debug)]
pub struct Picture<'p> {
    /// What the attempt was made from.
    pub exercise: &'p Exercise,
    /// The attempt.
    pub attempt: &'p Attempt,
    /// What was noted in it.
    pub notes: &'p [Note],
    /// How it was played.
    pub mode: PlayedAs,
    /// The moment, in µs since the start.
    pub at: u64,
    /// The page.
    pub page: Page,
    /// Width and height in pixels.
    pub size: [u32; 2],
}

/// One figure of a measurement: the id of what it is, and its value in words of figures.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// The id of its name.
    pub id: &'static str,
    /// The value with its unit.
    pub value: String,
}

/// Draws the hall and its screens.
pub trait Display {
    /// Opens the window on these drills, the first one chosen, and returns when it is closed. With
    /// `attempt` it begins with the debrief of that attempt at the first drill. `search` finds the
    /// shortest way on for the debrief.
    ///
    /// # Errors
    /// What is missing. Nothing was opened then.
    fn open(
        &self,
        drills: (Loaded, Vec<Loaded>),
        attempt: Option<&Path>,
        search: SearchShortest,
    ) -> Result<(), Missing>;

    /// Draws pictures without a window, each as the bytes of a PNG file.
    ///
    /// # Errors
    /// What is missing.
    fn pictures(&self, wanted: &[Picture<'_>]) -> Result<Vec<Vec<u8>>, Missing>;

    /// Opens a window in which everything moves, then nothing, and says what that took.
    ///
    /// # Errors
    /// What is missing.
    fn measure(&self, drill: Loaded) -> Result<Vec<Figure>, Missing>;
}
