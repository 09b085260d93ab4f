//! What must be there before anything can be drawn.

use rackproof_stage::still::has_driver;

use crate::platform::has_display;

/// What is missing for a window or a picture.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Missing {
    /// A display that a window can be opened on.
    Display,
    /// A driver that draws.
    Driver,
    /// A picture, though there is a driver: it gave none.
    Picture,
    /// The window, which was closed before the end.
    Window,
    /// Something else, in the words of whoever met it.
    Other(String),
}

/// Whether a window can be opened.
pub(crate) fn check_window() -> Result<(), Missing> {
    if has_display() {
        check_driver()
    } else {
        Err(Missing::Display)
    }
}

/// Whether a picture can be drawn.
fn check_driver() -> Result<(), Missing> {
    if has_driver() {
        Ok(())
    } else {
        Err(Missing::Driver)
    }
}
