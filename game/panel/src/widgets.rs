//! What can be pressed or read. Each has an accessible name and a role.
//!
//! All text is given by the caller, who has it from the locale files. Everything that can be
//! pressed answers to a click and, with the focus, to Enter and Space, and shows the focus ring.

mod button;
mod cards;
mod focus;
mod hold;
mod keycap;
mod rows;
mod says;

pub use button::{ACTION, ButtonLook, KeyButton, OPERATOR, key_button};
pub use cards::{exam_card, mode_tag, teaching_card};
pub use focus::{Pressable, focus_ring, press_area};
pub use hold::{Hold, hold_button};
pub use keycap::{key_cap, key_cap_size, key_hint, key_row, paint_key_cap};
pub use rows::{Face, RowLook, dotted_box, label_value_row};
pub use says::{Piece, body, flow, head, note, paragraph, say, title};

#[cfg(test)]
#[path = "widgets/widget_tests.rs"]
mod widget_tests;
