//! Shortest ways through one span of a frame, forward and backward.

use crate::{
    frame::Place,
    run::{FAR, Run},
};

/// The least costs of one span, from its beginning to each cell and from each cell to its end. A
/// cell is a number of events and the place that was done last.
pub(crate) struct Sweep {
    pub(crate) from: usize,
    pub(crate) to: usize,
    pub(crate) forward: Vec<u32>,
    pub(crate) backward: Vec<u32>,
}

impl Run<'_> {
    pub(crate) fn forward(&self, from: usize, to: usize) -> Vec<u32> {
        let width = self.width();
        let mut costs = vec![FAR; (to - from + 1) * width];
        // The least cost of standing right before each place.
        let mut enter = vec![FAR; costs.len()];
        costs[0] = 0;
        for column in 0..=to - from {
            if column > 0 {
                self.take_event(from, column, &mut costs, &enter);
            }
            let (cells, enters) = (column * width.., column * width..);
            let (cells, enters) = (&mut costs[cells][..width], &mut enter[enters][..width]);
            let mut changed = true;
            while changed {
                changed = false;
                for place in 1..width {
                    let before = self.frame.before[place].iter();
                    let least = before.map(|&place| cells[place]).min().unwrap_or(FAR);
                    enters[place] = least;
                    let cost = least + self.alone(place, from + column);
                    if cost < cells[place] {
                        cells[place] = cost;
                        changed = true;
                    }
                }
            }
        }
        costs
    }

    /// Fills a column from those before it.
    fn take_event(&self, from: usize, column: usize, costs: &mut [u32], enter: &[u32]) {
        let at = from + column - 1;
        let weight = self.event(at).weight;
        for place in 0..self.width() {
            let mut least = costs[self.cell(column - 1, place)] + weight;
            match self.frame.places[place] {
                Place::Step(_) if self.fits(at, place) => {
                    least = least.min(enter[self.cell(column - 1, place)]);
                }
                Place::Block(block) => {
                    for begin in 0..column {
                        let through = self.through(block, from + begin, from + column);
                        least = least.min(enter[self.cell(begin, place)] + through);
                    }
                }
                _ => {}
            }
            costs[self.cell(column, place)] = least.min(FAR);
        }
    }

    fn backward(&self, from: usize, to: usize) -> Vec<u32> {
        let width = self.width();
        let mut costs = vec![FAR; (to - from + 1) * width];
        // The least cost from right before each place.
        let mut enter = vec![FAR; costs.len()];
        for column in (0..=to - from).rev() {
            let at = from + column;
            for place in 0..width {
                let mut least = if at == to && self.frame.last[place] {
                    0
                } else {
                    FAR
                };
                if at < to {
                    least = least.min(self.event(at).weight + costs[self.cell(column + 1, place)]);
                }
                costs[self.cell(column, place)] = least;
            }
            let mut changed = true;
            while changed {
                changed = false;
                // All entries first: an entry that lags behind would hide a way as near.
                for place in 0..width {
                    enter[self.cell(column, place)] =
                        self.enter_back(from, to, (column, place), &costs);
                }
                for place in (0..width).rev() {
                    let here = self.cell(column, place);
                    let after = self.frame.after[place].iter();
                    let least = after.map(|&next| enter[self.cell(column, next)]).min();
                    let least = least.unwrap_or(FAR);
                    if least < costs[here] {
                        costs[here] = least;
                        changed = true;
                    }
                }
            }
        }
        costs
    }

    /// The least cost to the end from right before a place.
    fn enter_back(
        &self,
        from: usize,
        to: usize,
        (column, place): (usize, usize),
        costs: &[u32],
    ) -> u32 {
        let at = from + column;
        let mut least = self.alone(place, at) + costs[self.cell(column, place)];
        match self.frame.places[place] {
            Place::Step(_) if at < to && self.fits(at, place) => {
                least = least.min(costs[self.cell(column + 1, place)]);
            }
            Place::Block(block) => {
                for end in at + 1..=to {
                    let rest = costs[self.cell(end - from, place)];
                    least = least.min(self.through(block, at, end) + rest);
                }
            }
            _ => {}
        }
        least.min(FAR)
    }

    pub(crate) fn sweep(&self, from: usize, to: usize) -> Sweep {
        Sweep {
            from,
            to,
            forward: self.forward(from, to),
            backward: self.backward(from, to),
        }
    }
}

impl Sweep {
    /// The least cost of the span.
    pub(crate) fn cost(&self) -> u32 {
        self.backward[0]
    }

    /// Whether a way of least cost passes a cell.
    pub(crate) fn is_near(&self, cell: usize) -> bool {
        self.forward[cell] + self.backward[cell] == self.cost()
    }
}
