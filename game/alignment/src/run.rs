//! Costs. One frame beside the events that bear its labels: the least cost of each span of them,
//! part by part from the inside out.

use crate::{
    Event, Label,
    facts::Facts,
    frame::{Block, Frame, Place},
};

/// A cost that no way has. Some of them can be added up.
pub(crate) const FAR: u32 = u32::MAX / 8;

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
    /// The least cost of each span of events. Of the whole task: none, it is asked once.
    costs: Vec<u32>,
    /// What is known of the spans that were asked for.
    pub(crate) known: Vec<Option<Box<Facts>>>,
}

/// A block beside the events of its frame.
pub(crate) struct BlockRun<'t> {
    pub(crate) parts: Vec<PartRun<'t>>,
    /// The least cost of each span of the frame's events.
    costs: Vec<u32>,
    /// Which events of the frame bear no label of the block.
    pub(crate) foreign: Vec<bool>,
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

    fn part(
        given: Given<'t>,
        frame: &'t Frame,
        instance: Option<u16>,
        events: Vec<usize>,
    ) -> Run<'t> {
        let mut run = Run::new(given, frame, instance, events);
        let size = run.events.len() + 1;
        run.costs = vec![FAR; size * size];
        run.known = vec![None; size * size];
        for from in 0..size {
            let forward = run.forward(from, size - 1);
            for to in from..size {
                let cell = |place| forward[run.cell(to - from, place)];
                let ends = (0..run.width()).filter(|&place| frame.last[place]);
                run.costs[from * size + to] = ends.map(cell).min().unwrap_or(FAR);
            }
        }
        run
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
            events,
            costs: Vec::new(),
            known: Vec::new(),
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

    /// The number of a span in what is kept for each.
    pub(crate) fn span(&self, from: usize, to: usize) -> usize {
        from * (self.events.len() + 1) + to
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

    /// What it costs to pass a place without an event, after so many events.
    pub(crate) fn alone(&self, place: usize, at: usize) -> u32 {
        match self.frame.places[place] {
            Place::Start => FAR,
            Place::Step(_) => 1,
            // To pass nothing is to go round the block.
            Place::Block(block) if self.frame.blocks[block].optional => FAR,
            Place::Block(block) => self.through(block, at, at),
        }
    }

    /// The least cost of a block with these events.
    pub(crate) fn through(&self, block: usize, from: usize, to: usize) -> u32 {
        self.blocks[block].costs[self.span(from, to)]
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
        let mut add = |frame: &'t Frame, own: Vec<usize>, instance| {
            let upto = std::iter::once(0).chain(events.iter().scan(0, |count, event| {
                *count += usize::from(own.get(*count) == Some(event));
                Some(*count)
            }));
            parts.push(PartRun {
                upto: upto.collect(),
                run: Run::part(given, frame, instance, own),
            });
        };
        for branch in &block.branches {
            let frame = &branch.frame;
            let own = frame.own_events(given.trace, events, branch.instances.as_deref(), instance);
            for (at, event) in events.iter().enumerate() {
                let is_own = own.iter().any(|(_, own)| own.binary_search(event).is_ok());
                foreign[at] &= !is_own;
            }
            for (instance, own) in own {
                add(frame, own, instance);
            }
        }
        let mut run = BlockRun {
            parts,
            costs: Vec::new(),
            foreign,
        };
        run.costs = run.span_costs(given.trace, events);
        run
    }

    fn span_costs(&self, trace: &[Event], events: &[usize]) -> Vec<u32> {
        let size = events.len() + 1;
        let mut costs = vec![0; size * size];
        for from in 0..size {
            let mut weights = 0;
            for to in from..size {
                if to > from && self.foreign[to - 1] {
                    weights += trace[events[to - 1]].weight;
                }
                costs[from * size + to] = weights;
            }
        }
        for PartRun { run, upto } in &self.parts {
            for from in 0..size {
                let row = &run.costs[run.span(upto[from], 0)..];
                let sums = &mut costs[from * size..][..size];
                for (sum, upto) in sums.iter_mut().zip(upto).skip(from) {
                    *sum += row[*upto];
                }
            }
        }
        costs
    }
}

impl Frame {
    /// The events of each instance that bear a label of this frame.
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
        for &event in events {
            let label = trace[event].label;
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
                found[part].1.push(event);
            }
        }
        found
    }
}
