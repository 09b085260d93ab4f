//! The two questions: a loop, and slots in any order.

use rackproof_alignment::{Event, Label, Task, Tasks};

/// Twelve steps, over and over; 60 events, every fifth of them another step than it should be.
pub(crate) fn rounds() -> (Tasks, Vec<Event>) {
    let task = Task::Repeat {
        body: Box::new(Task::Sequence((0..12).map(Task::Step).collect())),
        between: None,
    };
    let step = |at: u16| if at % 5 == 4 { at * 7 % 12 } else { at % 12 };
    let trace = (0..60).map(|at| Event::of(Label::plain(step(at))));
    (Tasks::new(&task).expect("it is a task"), trace.collect())
}

/// A frame with 20 slots inside it, two steps each, in any order. Each third slot is answered
/// before it is looked at, each seventh is not looked at, and one step of the frame is late.
pub(crate) fn slots() -> (Tasks, Vec<Event>) {
    let each = Task::ForEach {
        instances: (0..20).collect(),
        body: Box::new(Task::Sequence(vec![Task::Step(2), Task::Step(3)])),
    };
    let step = Task::Step;
    let task = Task::Sequence(vec![step(0), step(1), each, step(4), step(5), step(6)]);
    let mut trace = vec![Label::plain(0)];
    for slot in (0..20).map(|at| at * 7 % 20) {
        match slot {
            slot if slot % 7 == 6 => trace.push(Label::of(3, slot)),
            slot if slot % 3 == 2 => trace.extend([Label::of(3, slot), Label::of(2, slot)]),
            slot => trace.extend([Label::of(2, slot), Label::of(3, slot)]),
        }
    }
    trace.extend([4, 1, 5, 6].map(Label::plain));
    let tasks = Tasks::new(&task).expect("it is a task");
    (tasks, trace.into_iter().map(Event::of).collect())
}
