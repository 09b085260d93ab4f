//! Shortest ways through one span of a frame.

use crate::{
    Event,
    frame::Place,
    run::{FAR, Run},
};

/// The least costs of one span, from its beginning to each cell, and which cells a way of least
/// cost passes. A cell is a number of events and the place that was done last.
pub(crate) struct Sweep {
    pub(crate) from: usize,
    pub(crate) to: usize,
    pub(crate) forward: Vec<u32>,
    /// The least cost of standing right before the place of a cell.
    enter: Vec<u32>,
    near: Vec<bool>,
    cost: u32,
}

/// The last move of a way of least cost to a cell.
#[derive(Clone, Copy)]
pub(crate) struct Last {
    /// How many events come before the move.
    pub(crate) column: usize,
    /// What the way costs before it.
    pub(crate) cost: u32,
    pub(crate) how: How,
}

#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum How {
    /// An event that is not needed: the place stays.
    NotNeeded,
    /// An event that does the step.
    Done,
    /// The step, missing.
    Missing,
    /// The block of this number.
    Through(usize),
}

impl Run<'_> {
    /// The least costs from the beginning of a span to each cell.
    pub(crate) fn forward(&self, from: usize, to: usize) -> Sweep {
        let width = self.width();
        let mut sweep = Sweep {
            from,
            to,
            forward: vec![FAR; (to - from + 1) * width],
            enter: vec![FAR; (to - from + 1) * width],
            near: Vec::new(),
            cost: FAR,
        };
        sweep.forward[0] = 0;
        let mut begins = vec![Vec::new(); self.blocks.len()];
        for column in 0..=to - from {
            if column > 0 {
                self.take_event(&mut sweep, column, &mut begins);
            }
            let cells = column * width..(column + 1) * width;
            let costs = &mut sweep.forward[cells.clone()];
            self.frame.pass_alone(costs, &mut sweep.enter[cells]);
        }
        sweep
    }

    /// Fills a column from those before it. `begins` are, for each block, the columns in which it
    /// may begin and that no other makes needless.
    fn take_event(&self, sweep: &mut Sweep, column: usize, begins: &mut [Vec<usize>]) {
        let (width, at) = (self.width(), sweep.from + column - 1);
        let Event { label, weight } = *self.event(at);
        for place in 0..width {
            let left = (column - 1) * width + place;
            let mut least = sweep.forward[left] + weight;
            match self.frame.places[place] {
                Place::Step(step) if self.label(step) == label => {
                    least = least.min(sweep.enter[left]);
                }
                // An event that is none of the block adds its weight, wherever the block began; by
                // itself it is no block: it is just as little needed before one.
                Place::Block(block) if !self.blocks[block].foreign[at] => {
                    self.may_begin(sweep, (column - 1, place), &mut begins[block]);
                    for &begin in &begins[block] {
                        let through = self.through(block, sweep.from + begin, at + 1);
                        least = least.min(sweep.enter[begin * width + place] + through);
                    }
                }
                _ => {}
            }
            sweep.forward[column * width + place] = least.min(FAR);
        }
    }

    /// Adds a column to those in which a block may begin: one with an event of the block next.
    /// If an earlier one, with all events in between not needed, costs no more, it will do.
    fn may_begin(&self, sweep: &Sweep, (column, place): (usize, usize), begins: &mut Vec<usize>) {
        let cost = |column: usize| sweep.enter[column * self.width() + place];
        let between = |begin: usize| -> u32 {
            let events = sweep.from + begin..sweep.from + column;
            events.map(|at| self.event(at).weight).sum()
        };
        let will_do = |&begin: &usize| cost(begin) + between(begin) <= cost(column);
        if cost(column) < FAR && !begins.last().is_some_and(will_do) {
            begins.push(column);
        }
    }

    /// The last moves of all ways of least cost to a cell, each with what comes before it.
    pub(crate) fn last_moves(&self, sweep: &Sweep, (column, place): (usize, usize)) -> Vec<Last> {
        let width = self.width();
        let cost = sweep.forward[column * width + place];
        let mut found = Vec::new();
        let mut add = |column, cost, how| found.push(Last { column, cost, how });
        if column > 0 {
            let at = sweep.from + column - 1;
            let left = (column - 1) * width + place;
            let weight = self.event(at).weight;
            if sweep.forward[left] + weight == cost {
                add(column - 1, cost - weight, How::NotNeeded);
            }
            if self.fits(at, place) && sweep.enter[left] == cost {
                add(column - 1, cost, How::Done);
            }
        }
        match self.frame.places[place] {
            Place::Step(_) if sweep.enter[column * width + place] + 1 == cost => {
                add(column, cost - 1, How::Missing);
            }
            Place::Block(block) => {
                let optional = self.frame.blocks[block].optional;
                for begin in 0..=column {
                    let enter = sweep.enter[begin * width + place];
                    if enter > cost || (begin == column && optional) {
                        continue;
                    }
                    let (from, to) = (sweep.from + begin, sweep.from + column);
                    if enter + self.through(block, from, to) == cost {
                        add(begin, enter, How::Through(block));
                    }
                }
            }
            _ => {}
        }
        found
    }

    /// The cells right before a move.
    pub(crate) fn before(&self, sweep: &Sweep, place: usize, last: Last) -> Vec<usize> {
        if last.how == How::NotNeeded {
            return vec![self.cell(last.column, place)];
        }
        let cells = self.frame.before[place].iter();
        let cells = cells.map(|&before| self.cell(last.column, before));
        cells
            .filter(|&cell| sweep.forward[cell] == last.cost)
            .collect()
    }
}

impl Sweep {
    /// The shortest ways through a span.
    pub(crate) fn of(run: &Run<'_>, from: usize, to: usize) -> Sweep {
        let mut sweep = run.forward(from, to);
        let width = run.width();
        let ends = (0..width).filter(|&place| run.frame.last[place]);
        let ends: Vec<usize> = ends.map(|place| run.cell(to - from, place)).collect();
        let costs = ends.iter().map(|&cell| sweep.forward[cell]);
        sweep.cost = costs.min().unwrap_or(FAR);
        sweep.near = vec![false; sweep.forward.len()];
        let mut open = ends;
        open.retain(|&cell| sweep.forward[cell] == sweep.cost);
        while let Some(cell) = open.pop() {
            if !std::mem::replace(&mut sweep.near[cell], true) {
                let place = cell % width;
                for last in run.last_moves(&sweep, (cell / width, place)) {
                    open.extend(run.before(&sweep, place, last));
                }
            }
        }
        sweep
    }

    /// The least cost of the span.
    pub(crate) fn cost(&self) -> u32 {
        self.cost
    }

    /// Whether a way of least cost passes a cell.
    pub(crate) fn is_near(&self, cell: usize) -> bool {
        self.near[cell]
    }

    /// The least cost from a cell to the end, if a way of least cost passes it.
    pub(crate) fn left(&self, cell: usize) -> Option<u32> {
        self.near[cell].then(|| self.cost - self.forward[cell])
    }
}
