//! The task analysis of a procedure, and an attempt laid beside it.
//!
//! A step is completed by what was perceived: its formula becomes true. The analysis says in which
//! orders the steps may be completed. [`Course`] follows an attempt and notes what is completed
//! when; in the end it is aligned with the nearest way that the analysis allows.

mod course;
mod critical;
mod reading;

#[cfg(test)]
mod tests;

use std::collections::BTreeSet;

use rackproof_alignment::{Label, Move, Problem, Task, Tasks};
use rackproof_buffer::HarmKind;
use rackproof_files::Place;

use crate::{formula::At, prepared::Prepared};

pub(crate) use course::Course;
pub(crate) use reading::Written;

/// A step of the analysis.
#[derive(Clone, Debug)]
pub struct Completion {
    /// Its name; its text is `step-NAME`.
    pub name: String,
    /// Whether it is done for each slot.
    pub each: bool,
    /// Whether doing it more than once does no harm, so that the repeats weigh nothing.
    pub harmless: bool,
    /// Whether it is done by looks: its condition asks what was seen.
    pub by_looks: bool,
    /// What makes it critical: who misses it breaks such a rule, or harms. None: it is not.
    pub critical: Vec<Backing>,
    /// Where its condition stands in its file.
    pub(crate) when: Place,
    pub(crate) root: At,
}

/// What stands behind a critical step.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Backing {
    /// The stop rule of this name.
    Rule(String),
    /// A harm of this kind.
    Harm(HarmKind),
}

/// A task analysis, compiled.
#[derive(Clone, Debug)]
pub struct Analysis {
    /// The steps.
    pub steps: Vec<Completion>,
    task: Part,
    conditions: Vec<Condition>,
    pub(crate) prepared: Prepared,
    /// For each way: the steps that are in it and nowhere else.
    own: Vec<Vec<usize>>,
}

/// When a part is asked for.
#[derive(Clone, Copy, Debug)]
struct Condition {
    /// Whether it is asked of each slot.
    each: bool,
    root: At,
}

/// A part of the analysis. Steps, conditions and ways by number.
#[derive(Clone, Debug)]
enum Part {
    Step(usize),
    Sequence(Vec<Part>),
    AnyOrder(Vec<Part>),
    OneOf(Vec<Part>),
    Optional(Box<Part>),
    Repeat(Box<Part>),
    ForEachSlot(Box<Part>),
    When(usize, Box<Part>),
    Way(usize, Box<Part>),
}

impl Part {
    /// The parts right inside it.
    fn inside(&self) -> &[Part] {
        match self {
            Part::Step(_) => &[],
            Part::Sequence(parts) | Part::AnyOrder(parts) | Part::OneOf(parts) => parts,
            Part::Optional(part)
            | Part::Repeat(part)
            | Part::ForEachSlot(part)
            | Part::When(_, part)
            | Part::Way(_, part) => std::slice::from_ref(part),
        }
    }

    /// Calls `found` with each part in it and in the way that it is in, if it is in one.
    fn visit(&self, way: Option<usize>, found: &mut dyn FnMut(&Part, Option<usize>)) {
        found(self, way);
        let way = match self {
            Part::Way(way, _) => Some(*way),
            _ => way,
        };
        for part in self.inside() {
            part.visit(way, found);
        }
    }
}

impl Part {
    /// Calls `found` with each part in it, and whether the nearest part around it that has several
    /// has them in a sequence.
    fn visit_around(&self, around: Option<bool>, found: &mut dyn FnMut(&Part, bool)) {
        found(self, around.unwrap_or(false));
        let around = match self {
            Part::Sequence(parts) if parts.len() > 1 => Some(true),
            Part::AnyOrder(_) | Part::ForEachSlot(_) => Some(false),
            _ => around,
        };
        for part in self.inside() {
            part.visit_around(around, found);
        }
    }
}

/// What is known of the conditions: a yes or no, and for slots a mask.
#[derive(Clone, Copy, Debug, Default)]
struct Held {
    at_all: bool,
    slots: u64,
}

/// What is known of the conditions of a task.
#[derive(Clone, Copy)]
enum Conditions<'h> {
    /// Which held.
    Held(&'h [Held]),
    /// All held, and yet they part the slots into as many groups as they can.
    Largest,
}

impl Conditions<'_> {
    fn holds(self, condition: usize, slot: Option<u16>) -> bool {
        match (self, slot) {
            (Conditions::Held(held), Some(slot)) => held[condition].slots >> slot & 1 == 1,
            (Conditions::Held(held), None) => held[condition].at_all,
            (Conditions::Largest, _) => true,
        }
    }

    /// Into how many groups the conditions of a part may part the slots. `None`: their tasks say.
    fn groups(self, part: &Part) -> Option<usize> {
        let mut most = 1_usize;
        part.visit(None, &mut |part, _| {
            if matches!(part, Part::When(..)) {
                most = most.saturating_mul(2);
            }
        });
        matches!(self, Conditions::Largest).then_some(most)
    }
}

impl Analysis {
    /// Whether a step has its place in an order: what stands right around it is a sequence.
    pub fn is_ordered(&self, step: usize) -> bool {
        let mut ordered = false;
        self.task.visit_around(None, &mut |part, around| {
            if matches!(part, Part::Step(known) if *known == step) {
                ordered |= around;
            }
        });
        ordered
    }

    /// The task that an attempt is laid beside, when it is known which conditions held.
    fn task(&self, held: &[Held]) -> Task {
        self.part(&self.task, Conditions::Held(held), None)
    }

    fn part(&self, part: &Part, held: Conditions<'_>, slot: Option<u16>) -> Task {
        let all = |parts: &[Part]| parts.iter().map(|one| self.part(one, held, slot)).collect();
        let boxed = |part: &Part| Box::new(self.part(part, held, slot));
        match part {
            Part::Step(step) => Task::Step(*step as u16),
            Part::Sequence(parts) => Task::Sequence(all(parts)),
            Part::AnyOrder(parts) => Task::AnyOrder(all(parts)),
            Part::OneOf(parts) => Task::Choice(all(parts)),
            Part::Optional(part) => Task::Optional(boxed(part)),
            Part::Repeat(part) => Task::Repeat {
                body: boxed(part),
                between: None,
            },
            Part::When(condition, part) if held.holds(*condition, slot) => {
                self.part(part, held, slot)
            }
            Part::When(..) => Task::Sequence(Vec::new()),
            Part::Way(_, part) => self.part(part, held, slot),
            Part::ForEachSlot(part) => self.for_each_slot(part, held),
        }
    }

    /// Slots of which the same conditions held have the same task, and are one part.
    fn for_each_slot(&self, part: &Part, held: Conditions<'_>) -> Task {
        let mut groups: Vec<(Task, Vec<u16>)> = Vec::new();
        let apart = held.groups(part);
        for slot in 0..u16::from(self.prepared.program.slots) {
            let task = self.part(part, held, Some(slot));
            let group = match apart {
                None => groups.iter().position(|(known, _)| *known == task),
                Some(most) => Some(usize::from(slot) % most).filter(|at| *at < groups.len()),
            };
            match group {
                Some(group) => groups[group].1.push(slot),
                None => groups.push((task, vec![slot])),
            }
        }
        let each = |(task, instances)| Task::ForEach {
            instances,
            body: Box::new(task),
        };
        Task::AnyOrder(groups.into_iter().map(each).collect())
    }

    /// The largest task that any attempt can be laid beside: if it can be aligned, all others can.
    fn whole(&self) -> Result<Tasks, Problem> {
        Tasks::new(&self.part(&self.task, Conditions::Largest, None))
    }

    /// The way of which most of its own steps are in a row of moves: the first of several.
    fn way_of(&self, moves: &[Move], label: impl Fn(usize) -> Label) -> usize {
        let steps = moves.iter().filter_map(|one| match *one {
            Move::Done(event) => Some(label(event)),
            Move::Missing { label, .. } => Some(label),
            Move::NotNeeded(_) => None,
        });
        let steps: Vec<usize> = steps.map(|label| usize::from(label.step)).collect();
        let own = |way: &usize| {
            let own = &self.own[*way];
            steps.iter().filter(|step| own.contains(step)).count()
        };
        let ways = (0..self.own.len()).rev();
        ways.max_by_key(own).unwrap_or(0)
    }

    /// For each way, the steps that stand in it and nowhere else.
    fn own_steps(task: &Part, ways: usize) -> Vec<Vec<usize>> {
        let mut places: Vec<(usize, Option<usize>)> = Vec::new();
        task.visit(None, &mut |part, way| {
            if let Part::Step(step) = part {
                places.push((*step, way));
            }
        });
        let own = |way: usize| {
            let steps: BTreeSet<usize> = places.iter().map(|(step, _)| *step).collect();
            let is_own = |step: &usize| {
                let mut of = places.iter().filter(|(known, _)| known == step);
                of.all(|(_, known)| *known == Some(way))
            };
            steps.into_iter().filter(is_own).collect()
        };
        (0..ways).map(own).collect()
    }
}
