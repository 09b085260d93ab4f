//! Costs. One frame beside the events that bear its labels: the least cost of each span of them,
//! part by part from the inside out. A span is worked out when it is asked for: most never are.

use std::{
    cell::{Cell, OnceCell},
    collections::BTreeMap,
    rc::Rc,
};

use crate::{
    Event, Label,
    facts::Facts,
    frame::{Block, Frame, Place},
    sweep::Sweep,
};

/// A cost that no way has. Some of them can be added up.
pub(crate) const FAR: u32 = u32::MAX / 8;
/// A cost that nobody asked for yet.
const UNKNOWN: u32 = u32::MAX;

/// What all runs read.
#[derive(Clone, Copy)]
pub(crate) struct Given<'t> {
    pub(crate) trace: &'t [Event],
    /// Every label of task and trace, sorted.
    pub(crate) labels: &'t [Label],
}

/// A frame beside its events.
pub(crate) struct Run<'t> {
    pub(crate) given: Given<'t>,
    pub(crate) frame: &'t Frame,
    instance: Option<u16>,
    /// The events that bear a label of the frame, by number. Of the whole task: all.
    pub(crate) events: Vec<usize>,
    pub(crate) blocks: Vec<BlockRun<'t>>,
    /// The least cost of each span of events: a row for each beginning, from its end on.
    rows: Vec<OnceCell<Vec<u32>>>,
    /// What is known of the spans that were asked for, by beginning and end.
    pub(crate) known: BTreeMap<(usize, usize), Facts>,
    /// All events in one go: asked for more than once.
    whole: OnceCell<Rc<Sweep>>,
}

/// A block beside the events of its frame.
pub(crate) struct BlockRun<'t> {
    pub(crate) parts: Vec<PartRun<'t>>,
    /// The least cost of each span of the frame's events, a row for each beginning.
    rows: Vec<OnceCell<Vec<Cell<u32>>>>,
    /// Which events of the frame bear no label of the block.
    pub(crate) foreign: Vec<bool>,
    /// What those among the first so many events weigh.
    foreign_upto: Vec<u32>,
}

/// One part of a block.
pub(crate) struct PartRun<'t> {
    pub(crate) run: Run<'t>,
    /// How many of its events are among the first so many of the frame.
    pub(crate) upto: Vec<usize>,
}

impl<'t> Run<'t> {
    /// The whole task beside the whole trace.
    pub(crate) fn whole(given: Given<'t>, frame: &'t Frame) -> Run<'t> {
        Run::new(given, frame, None, (0..given.trace.len()).collect())
    }

    fn new(
        given: Given<'t>,
        frame: &'t Frame,
        instance: Option<u16>,
        events: Vec<usize>,
    ) -> Run<'t> {
        let blocks = frame.blocks.iter();
        let blocks = blocks.map(|block| BlockRun::new(given, block, instance, &events));
        Run {
            given,
            frame,
            instance,
            blocks: blocks.collect(),
            rows: vec![OnceCell::new(); events.len() + 1],
            events,
            known: BTreeMap::new(),
            whole: OnceCell::new(),
        }
    }

    /// The least cost of a span.
    pub(crate) fn cost(&self, from: usize, to: usize) -> u32 {
        if let Some(block) = self.frame.lone_block() {
            return self.through(block, from, to);
        }
        if from == to {
            return self.frame.shortest;
        }
        self.rows[from].get_or_init(|| self.row(from))[to - from]
    }

    fn row(&self, from: usize) -> Vec<u32> {
        let end = self.events.len();
        if from == 0 {
            return self.ends(&self.sweep(0, end).forward);
        }
        self.ends(&self.forward(from, end).forward)
    }

    /// The least cost of each column in which the frame may end.
    fn ends(&self, forward: &[u32]) -> Vec<u32> {
        let column = |cells: &[u32]| {
            let ends = cells.iter().zip(&self.frame.last);
            let ends = ends.filter(|(_, last)| **last).map(|(cost, _)| *cost);
            ends.min().unwrap_or(FAR)
        };
        forward.chunks(self.width()).map(column).collect()
    }

    /// The shortest ways through a span.
    pub(crate) fn sweep(&self, from: usize, to: usize) -> Rc<Sweep> {
        let work_out = || Rc::new(Sweep::of(self, from, to));
        if (from, to) == (0, self.events.len()) {
            Rc::clone(self.whole.get_or_init(work_out))
        } else {
            work_out()
        }
    }

    /// How many places the frame has.
    pub(crate) fn width(&self) -> usize {
        self.frame.places.len()
    }

    /// The number of a cell.
    pub(crate) fn cell(&self, column: usize, place: usize) -> usize {
        column * self.width() + place
    }

    pub(crate) fn event(&self, at: usize) -> &Event {
        &self.given.trace[self.events[at]]
    }

    pub(crate) fn label(&self, step: u16) -> Label {
        Label {
            step,
            instance: self.instance,
        }
    }

    /// Whether this event does the step at this place.
    pub(crate) fn fits(&self, at: usize, place: usize) -> bool {
        matches!(self.frame.places[place],
            Place::Step(step) if self.event(at).label == self.label(step))
    }

    /// The least cost of a block with these events.
    pub(crate) fn through(&self, block: usize, from: usize, to: usize) -> u32 {
        if from == to {
            return self.frame.blocks[block].shortest;
        }
        self.blocks[block].cost(from, to)
    }
}

impl<'t> BlockRun<'t> {
    fn new(
        given: Given<'t>,
        block: &'t Block,
        instance: Option<u16>,
        events: &[usize],
    ) -> BlockRun<'t> {
        let mut parts = Vec::new();
        let mut foreign = vec![true; events.len()];
        for branch in &block.branches {
            let frame = &branch.frame;
            let own = frame.own_events(given.trace, events, branch.instances.as_deref(), instance);
            for (instance, own) in own {
                let mut upto = Vec::with_capacity(events.len() + 1);
                for (count, at) in own.iter().enumerate() {
                    foreign[*at] = false;
                    upto.resize(at + 1, count);
                }
                upto.resize(events.len() + 1, own.len());
                let own = own.into_iter().map(|at| events[at]).collect();
                let run = Run::new(given, frame, instance, own);
                parts.push(PartRun { run, upto });
            }
        }
        let weights = events
            .iter()
            .zip(&foreign)
            .scan(0, |sum, (event, foreign)| {
                *sum += given.trace[*event].weight * u32::from(*foreign);
                Some(*sum)
            });
        BlockRun {
            parts,
            rows: vec![OnceCell::new(); events.len() + 1],
            foreign_upto: std::iter::once(0).chain(weights).collect(),
            foreign,
        }
    }

    fn cost(&self, from: usize, to: usize) -> u32 {
        let unknown = || vec![Cell::new(UNKNOWN); self.foreign_upto.len() - from];
        let known = &self.rows[from].get_or_init(unknown)[to - from];
        if known.get() == UNKNOWN {
            let parts = self.parts.iter();
            let costs = parts.map(|part| part.run.cost(part.upto[from], part.upto[to]));
            let foreign = self.foreign_upto[to] - self.foreign_upto[from];
            known.set(foreign + costs.sum::<u32>());
        }
        known.get()
    }
}

impl Frame {
    /// Which of these events bear a label of this frame, for each instance.
    fn own_events(
        &self,
        trace: &[Event],
        events: &[usize],
        instances: Option<&[u16]>,
        outer: Option<u16>,
    ) -> Vec<(Option<u16>, Vec<usize>)> {
        let mut found: Vec<(Option<u16>, Vec<usize>)> = match instances {
            None => vec![(outer, Vec::new())],
            Some(instances) => {
                let of = |one: &u16| (Some(*one), Vec::new());
                instances.iter().map(of).collect()
            }
        };
        for (at, event) in events.iter().enumerate() {
            let label = trace[*event].label;
            let part = match (instances, label.instance) {
                (Some(instances), Some(instance)) => instances.binary_search(&instance).ok(),
                (Some(_), None) => None,
                (None, _) => Some(0),
            };
            // Inside an instance, and only there, the labels of a frame name no instance.
            let inside = instances.is_some() || outer.is_some();
            let known = if inside {
                Label::plain(label.step)
            } else {
                label
            };
            if let Some(part) = part
                && self.labels.binary_search(&known).is_ok()
            {
                found[part].1.push(at);
            }
        }
        found
    }
}
