//! The shapes drawn by us.
//!
//! Pencil is believed, ink is seen or true, blank is unknown. Arrows and ticks are drawn: the
//! faces have none. Each function draws one shape in the middle of its rectangle and takes no
//! input; the word beside it and the accessible name are the caller's.

mod carried;
mod lines;
mod plate;
mod signs;
mod slots;
mod standing;
mod unit;

pub use carried::{cord, empty_hand, key_switch, padlock, shoe, torch};
pub(crate) use lines::around;
pub use lines::{dashed_line, dashed_rect, dotted_line, dotted_rect, hatch};
pub(crate) use plate::capital_middle;
pub use plate::{Inks, centred_text};
pub use signs::{
    AlarmFace, Priority, alarm, arrowhead, differs, finding, hand_tick, harm, in_order, must_act,
    speech, tick,
};
pub use slots::{Pencil, SeenHalf, ink_half, ink_slot, pencil_slot, tick_box};
pub use standing::{contact, footprints, logo, standing_place};
pub use unit::unit_state;
