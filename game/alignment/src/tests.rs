//! Against a plain search over whole words, and against another aligner.

mod notation;
mod outside;
mod replay;
mod small;
mod tables;
mod whole;

use crate::{Event, Label, Task, Tasks};

/// Steps that are not done for an instance, each an event of weight 1.
fn events(steps: &[u16]) -> Vec<Event> {
    let event = |step: &u16| Event::of(Label::plain(*step));
    steps.iter().map(event).collect()
}

fn prepared(task: &Task) -> Tasks {
    Tasks::new(task).unwrap_or_else(|problem| panic!("{task:?}: {problem:?}"))
}
