//! What a task allows, and what was done.

use crate::{Problem, problem::DEPTH_MOST};

/// The name of a step, as numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Label {
    /// Which step.
    pub step: u16,
    /// For which instance, if it is done for each.
    pub instance: Option<u16>,
}

impl Label {
    /// A step that is not done for an instance.
    pub const fn plain(step: u16) -> Label {
        Label {
            step,
            instance: None,
        }
    }

    /// A step that is done for an instance.
    pub const fn of(step: u16, instance: u16) -> Label {
        Label {
            step,
            instance: Some(instance),
        }
    }
}

/// Something that was done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Event {
    /// What.
    pub label: Label,
    /// What it costs if it is not needed, 0 to [`Event::WEIGHT_MOST`]: 1 as a rule, 0 for a
    /// repeat that does no harm.
    pub weight: u32,
}

impl Event {
    /// The greatest weight.
    pub const WEIGHT_MOST: u32 = 1_000;

    /// An event that costs 1 if it is not needed.
    pub const fn of(label: Label) -> Event {
        Event { label, weight: 1 }
    }
}

/// What a task allows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Task {
    /// One step. Inside [`Task::ForEach`]: the step of the instance.
    Step(u16),
    /// All, one after another. With no part: nothing is to be done.
    Sequence(Vec<Task>),
    /// All, in any order, also one between the steps of another. No two parts may have a label in
    /// common.
    AnyOrder(Vec<Task>),
    /// One of them.
    Choice(Vec<Task>),
    /// It or nothing.
    Optional(Box<Task>),
    /// Once or more often.
    Repeat {
        /// What is repeated.
        body: Box<Task>,
        /// What comes between two of them.
        between: Option<Box<Task>>,
    },
    /// The same for each instance, the instances in any order, also one between the steps of
    /// another. Not inside another of its kind.
    ForEach {
        /// The instances, none twice.
        instances: Vec<u16>,
        /// What is done for each.
        body: Box<Task>,
    },
}

impl Task {
    /// How many blocks there are in it: places where parts stand in any order. What is done for
    /// each instance is one of its own, but not right inside another.
    pub(crate) fn blocks(&self, depth: usize) -> Result<usize, Problem> {
        if depth == DEPTH_MOST {
            return Err(Problem::TooDeep);
        }
        let inside = |part: &Task| part.blocks(depth + 1);
        let all = |parts: &[Task]| parts.iter().map(inside).sum::<Result<usize, Problem>>();
        match self {
            Task::Step(_) => Ok(0),
            Task::Sequence(parts) | Task::Choice(parts) => all(parts),
            Task::Optional(part) => inside(part),
            Task::Repeat { body, between } => {
                let between = between.as_deref().map_or(Ok(0), inside)?;
                Ok(inside(body)? + between)
            }
            Task::ForEach { body, .. } => Ok(1 + inside(body)?),
            Task::AnyOrder(parts) => {
                let own = |part: &&Task| matches!(part, Task::ForEach { .. });
                Ok(1 + all(parts)? - parts.iter().filter(own).count())
            }
        }
    }
}
