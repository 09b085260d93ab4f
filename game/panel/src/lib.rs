//! Every screen of the trainee's window, in egui alone: no engine, no file, no clock.
//!
//! A page is a function `(&View, &mut Ui, &mut Vec<Wish>)`. It shows what the view says and appends
//! what the person asks for; the window does it, or refuses.
//!
//! - [`drill_page`] is the drill: top bar, cards, tick sheet, person bar, operator panel.
//! - [`course_page`] is the course with its drills.
//! - [`debrief_page`] is the verdict with its evidence and the timeline.
//!
//! Pencil is believed, ink is seen or true, blank is unknown. Grey is the machine, plum is the
//! teaching, other colour is abnormal.

mod course_page;
mod debrief_page;
mod drill_page;
pub mod fonts;
pub mod keys;
pub mod marks;
mod operator;
mod over;
pub mod tokens;
mod view;
pub mod widgets;
mod wish;

pub use course_page::{AttemptRow, CourseDrill, CourseView, Ending, Tried, course_page};
pub use debrief_page::{BoardsThen, DebriefView, Gap, Timeline, UnitThen, debrief_page};
pub use drill_page::drill_page;
pub use operator::operator_panel;
pub use view::{Around, Doing, DrillView, PartRow, Preferences, STRETCHES, Watching};
pub use wish::{Over, PanelPage, Setting, Way, Wish};
