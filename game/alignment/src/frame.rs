//! A task, checked and prepared. A frame is a part of it in which order counts: an automaton whose
//! places are the steps, and the blocks of what stands in any order. It has no silent moves.

use std::collections::BTreeSet;

use crate::{
    Label, Problem, Task,
    problem::{BLOCKS_MOST, DEPTH_MOST, LABELS_MOST, PLACES_MOST},
    run::FAR,
};

/// A task, ready to be laid beside traces.
#[derive(Clone, Debug)]
pub struct Tasks {
    pub(crate) root: Frame,
    /// Every label of it, sorted.
    pub(crate) labels: Vec<Label>,
}

#[derive(Clone, Copy, Debug)]
pub(crate) enum Place {
    /// Where every frame begins.
    Start,
    Step(u16),
    /// The number of a block.
    Block(usize),
}

#[derive(Clone, Debug)]
pub(crate) struct Frame {
    /// The first is the start.
    pub(crate) places: Vec<Place>,
    /// For each place, the places that may come right before it, and right after it.
    pub(crate) before: Vec<Vec<usize>>,
    pub(crate) after: Vec<Vec<usize>>,
    /// Whether the frame may end with this place.
    pub(crate) last: Vec<bool>,
    /// Whether a place may come right after this one that does not stand behind it.
    pub(crate) turns_back: Vec<bool>,
    pub(crate) blocks: Vec<Block>,
    /// The labels of the frame, sorted; for each instance the same if it is one of a kind.
    pub(crate) labels: Vec<Label>,
    /// How many steps a shortest way has.
    pub(crate) shortest: u32,
}

/// What stands in any order.
#[derive(Clone, Debug)]
pub(crate) struct Block {
    pub(crate) branches: Vec<Branch>,
    /// Whether all of it may be left out.
    pub(crate) optional: bool,
    /// How many steps a shortest way through all of it has.
    pub(crate) shortest: u32,
}

#[derive(Clone, Debug)]
pub(crate) struct Branch {
    pub(crate) frame: Frame,
    /// `None`: the instance of what it stands in.
    pub(crate) instances: Option<Vec<u16>>,
}

impl Tasks {
    /// Checks and prepares a task.
    ///
    /// # Errors
    /// The first [`Problem`] of the task.
    pub fn new(task: &Task) -> Result<Tasks, Problem> {
        // First of all: so few blocks keep every sum of costs far from the end of its bits.
        if task.blocks(0)? > BLOCKS_MOST {
            return Err(Problem::TooManyBlocks);
        }
        let root = Frame::of(task, false, 0)?;
        let labels = root.labels.clone();
        Ok(Tasks { root, labels })
    }
}

/// What a part of a task adds to its frame: where it begins and ends, and whether it may be left
/// out.
struct Piece {
    first: Vec<usize>,
    last: Vec<usize>,
    optional: bool,
}

impl Frame {
    fn of(task: &Task, each: bool, depth: usize) -> Result<Frame, Problem> {
        let mut frame = Frame {
            places: Vec::new(),
            before: Vec::new(),
            after: Vec::new(),
            last: Vec::new(),
            turns_back: Vec::new(),
            blocks: Vec::new(),
            labels: Vec::new(),
            shortest: 0,
        };
        frame.place(Place::Start)?;
        let piece = frame.add(task, each, depth)?;
        frame.join(&[0], &piece.first);
        for &place in &piece.last {
            frame.last[place] = true;
        }
        frame.last[0] = piece.optional;
        let turns_back = |(place, after): (usize, &Vec<usize>)| after.iter().any(|&to| to <= place);
        frame.turns_back = frame.after.iter().enumerate().map(turns_back).collect();
        frame.shortest = frame.shortest_way();
        frame.labels.sort_unstable();
        frame.labels.dedup();
        if frame.labels.len() > LABELS_MOST {
            return Err(Problem::TooManyLabels);
        }
        Ok(frame)
    }

    fn optional(&self) -> bool {
        self.last[0]
    }

    fn shortest_way(&self) -> u32 {
        let mut steps = vec![FAR; self.places.len()];
        let mut enter = steps.clone();
        steps[0] = 0;
        self.pass_alone(&mut steps, &mut enter);
        let ends = steps.iter().zip(&self.last).filter(|(_, last)| **last);
        ends.map(|(steps, _)| *steps).min().unwrap_or(FAR)
    }

    /// What it costs to pass a place without an event.
    pub(crate) fn alone(&self, place: usize) -> u32 {
        match self.places[place] {
            Place::Start => FAR,
            Place::Step(_) => 1,
            // To pass nothing is to go round the block.
            Place::Block(block) if self.blocks[block].optional => FAR,
            Place::Block(block) => self.blocks[block].shortest,
        }
    }

    /// Carries the costs of standing at places on to those that can be reached without an event,
    /// and sets the least cost of standing right before each.
    pub(crate) fn pass_alone(&self, costs: &mut [u32], enter: &mut [u32]) {
        let mut again = true;
        while again {
            again = false;
            for place in 1..self.places.len() {
                let before = self.before[place].iter();
                let least = before.map(|&place| costs[place]).min().unwrap_or(FAR);
                enter[place] = least;
                let cost = least + self.alone(place);
                if cost < costs[place] {
                    costs[place] = cost;
                    again |= self.turns_back[place];
                }
            }
        }
    }

    /// The block that is all there is in the frame, once: then a span of the frame is a span of
    /// the block. What is not needed before it or after it is just as little needed in it.
    pub(crate) fn lone_block(&self) -> Option<usize> {
        match self.places[..] {
            [Place::Start, Place::Block(block)] => {
                let once = self.before[1] == [0] && self.last[1];
                let same = self.blocks[block].optional == self.optional();
                (once && same).then_some(block)
            }
            _ => None,
        }
    }

    fn place(&mut self, place: Place) -> Result<usize, Problem> {
        if self.places.len() > PLACES_MOST {
            return Err(Problem::TooManySteps);
        }
        self.places.push(place);
        self.before.push(Vec::new());
        self.after.push(Vec::new());
        self.last.push(false);
        Ok(self.places.len() - 1)
    }

    /// Each of `second` may come right after each of `first`.
    fn join(&mut self, first: &[usize], second: &[usize]) {
        for &from in first {
            for &to in second {
                if !self.after[from].contains(&to) {
                    self.after[from].push(to);
                    self.before[to].push(from);
                }
            }
        }
    }

    fn add(&mut self, task: &Task, each: bool, depth: usize) -> Result<Piece, Problem> {
        if depth == DEPTH_MOST {
            return Err(Problem::TooDeep);
        }
        let depth = depth + 1;
        match task {
            Task::Step(step) => {
                self.labels.push(Label::plain(*step));
                Ok(Piece::one(self.place(Place::Step(*step))?, false))
            }
            Task::Sequence(parts) => {
                let mut whole = Piece::nothing();
                for part in parts {
                    let next = self.add(part, each, depth)?;
                    self.join(&whole.last, &next.first);
                    whole.follow(next);
                }
                Ok(whole)
            }
            Task::Choice(parts) => {
                let mut whole: Option<Piece> = None;
                for part in parts {
                    let next = self.add(part, each, depth)?;
                    match &mut whole {
                        None => whole = Some(next),
                        Some(whole) => whole.or(next),
                    }
                }
                whole.ok_or(Problem::EmptyChoice)
            }
            Task::Optional(part) => Ok(Piece {
                optional: true,
                ..self.add(part, each, depth)?
            }),
            Task::Repeat { body, between } => {
                let body = self.add(body, each, depth)?;
                let between = match between {
                    Some(between) => self.add(between, each, depth)?,
                    None => Piece::nothing(),
                };
                Ok(self.repeat(body, between))
            }
            Task::AnyOrder(parts) => {
                let branches = parts.iter().map(|part| Branch::of(part, each, depth));
                self.block(branches.collect::<Result<_, Problem>>()?)
            }
            Task::ForEach { instances, body } => {
                let branch = Branch::of_each(instances, body, each, depth)?;
                self.block(vec![branch])
            }
        }
    }

    /// The body once or more often, with the other piece between two of them.
    fn repeat(&mut self, mut body: Piece, between: Piece) -> Piece {
        self.join(&body.last, &between.first);
        self.join(&between.last, &body.first);
        if between.optional {
            self.join(&body.last, &body.first);
        }
        if body.optional {
            self.join(&between.last, &between.first);
            body.or(between);
        }
        body
    }

    fn block(&mut self, branches: Vec<Branch>) -> Result<Piece, Problem> {
        let optional = branches.iter().all(Branch::optional);
        let mut known = BTreeSet::new();
        for branch in &branches {
            for label in branch.labels() {
                if !known.insert(label) {
                    return Err(Problem::Shared(label));
                }
                if known.len() > LABELS_MOST {
                    return Err(Problem::TooManyLabels);
                }
            }
        }
        self.labels.extend(known);
        let shortest = branches.iter().map(Branch::shortest).sum();
        self.blocks.push(Block {
            branches,
            optional,
            shortest,
        });
        let place = self.place(Place::Block(self.blocks.len() - 1))?;
        Ok(Piece::one(place, optional))
    }
}

impl Branch {
    /// A part of what stands in any order. What is done for each instance needs no block of its
    /// own there: its instances are parts like the others.
    fn of(part: &Task, each: bool, depth: usize) -> Result<Branch, Problem> {
        if let Task::ForEach { instances, body } = part {
            return Branch::of_each(instances, body, each, depth + 1);
        }
        Ok(Branch {
            frame: Frame::of(part, each, depth)?,
            instances: None,
        })
    }

    fn of_each(
        instances: &[u16],
        body: &Task,
        each: bool,
        depth: usize,
    ) -> Result<Branch, Problem> {
        if each {
            return Err(Problem::EachInEach);
        }
        let mut instances = instances.to_vec();
        instances.sort_unstable();
        Ok(Branch {
            frame: Frame::of(body, true, depth)?,
            instances: Some(instances),
        })
    }

    fn optional(&self) -> bool {
        let instances = self.instances.as_ref();
        instances.is_some_and(Vec::is_empty) || self.frame.optional()
    }

    fn shortest(&self) -> u32 {
        let times = self.instances.as_ref().map_or(1, Vec::len);
        self.frame.shortest * times as u32
    }

    /// Its labels, one after another for each instance.
    fn labels(&self) -> impl Iterator<Item = Label> {
        let once = self.instances.is_none().then_some(None);
        let instances = self.instances.iter().flatten().map(|one| Some(*one));
        once.into_iter().chain(instances).flat_map(|instance| {
            let own = self.frame.labels.iter();
            own.map(move |label| Label {
                instance: instance.or(label.instance),
                ..*label
            })
        })
    }
}

impl Piece {
    fn nothing() -> Piece {
        Piece {
            first: Vec::new(),
            last: Vec::new(),
            optional: true,
        }
    }

    fn one(place: usize, optional: bool) -> Piece {
        Piece {
            first: vec![place],
            last: vec![place],
            optional,
        }
    }

    /// What it is with `next` after it.
    fn follow(&mut self, next: Piece) {
        if self.optional {
            self.first.extend(&next.first);
        }
        if next.optional {
            self.last.extend(&next.last);
        } else {
            self.last = next.last;
        }
        self.optional &= next.optional;
    }

    /// What it is with `other` in its place.
    fn or(&mut self, other: Piece) {
        self.first.extend(&other.first);
        self.last.extend(&other.last);
        self.optional |= other.optional;
    }
}
