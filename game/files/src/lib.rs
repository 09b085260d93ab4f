//! Text in RON, read into values that know their place, with every problem reported at once.
//!
//! The way of a file:
//!
//! 1. [`Problems::for_file`] takes a file's name and text and gives a [`Report`].
//! 2. [`read`] turns the text into a [`Value`], a tree in which everything has its [`Place`].
//! 3. [`Fields`] and the methods of [`Report`] ask for typed fields and check each number against
//!    its [`Bound`]. What does not fit becomes a [`Problem`]; reading goes on.
//!    What was asked for is kept, too ([`Problems::asked`]).
//! 4. [`render_plain`] and [`render_snippet`] show a problem to the author of the file.
//!
//! This crate knows no domain: no machine, no drill, no rule. It opens no file and reads no clock.
//! It holds no sentence either: a [`Message`] is an id with arguments, and the caller translates.
//! The `ron` crate stops at its first error and has no places; this reader is why we go without it.
//!
//! ```
//! use rackproof_files::{Bound, Fields, Problems, Report, read};
//!
//! const SLOTS: Bound = Bound::whole("slots", "slots", 1, 200, "places for a board");
//! const WIDTH: Bound = Bound::millimetres("width", 50_000, 508_000, "the width of a board");
//!
//! #[derive(Clone)]
//! enum Order { First, Last }
//!
//! struct Rack { id: String, slots: i64, widths_um: Vec<i32>, order: Order, spare: bool }
//!
//! fn rack(report: Report<'_>) -> Option<Rack> {
//!     let value = read(report)?;
//!     let fields = Fields::of(&value, "Rack", report)?;
//!     // Ask for everything first, so that all problems are found; only then use `?`.
//!     let id = fields.name("id");
//!     let slots = fields.integer("slots", &SLOTS);
//!     let widths_um =
//!         fields.each("widths_mm", |value, report| report.micrometres(value, &WIDTH));
//!     let order = fields.choice("order", &[("First", Order::First), ("Last", Order::Last)]);
//!     let spare = fields.optional("spare", false, |value, report| report.flag(value));
//!     fields.finish();
//!     Some(Rack { id: id?, slots: slots?, widths_um: widths_um?, order: order?, spare: spare? })
//! }
//!
//! let problems = Problems::new();
//! let text = r#"Rack(id: "east-1", slots: 48, widths_mm: [170.8, 250], order: First)"#;
//! let rack = rack(problems.for_file("racks/east-1.ron", text)).filter(|_| problems.is_empty());
//! assert_eq!(rack.map(|rack| rack.widths_um), Some(vec![170_800, 250_000]));
//! ```

mod asked;
mod bound;
mod choice;
mod fields;
pub mod ids;
mod nearest;
mod number;
mod optional;
mod problem;
mod quoted;
mod read;
mod recover;
mod render;
mod report;
mod scan;
mod source;
mod typed;
mod value;

pub use asked::{Asked, LeftOut, What};
pub use bound::Bound;
pub use fields::Fields;
pub use nearest::nearest;
pub use number::Decimal;
pub use problem::{Added, Message, PROBLEMS_MOST, Problem, Problems};
pub use read::{NESTING_MOST, SYNTAX_PROBLEMS_MOST, TEXT_BYTES_MOST, read};
pub use render::{Translate, render_plain, render_snippet};
pub use report::Report;
pub use source::{Place, Source};
pub use typed::{NAME_CHARACTERS_MOST, is_name};
pub use value::{Field, Kind, Record, Value};
