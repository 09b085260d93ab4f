//! From costs to ways: what all ways of least cost have, and the one that is shown.

use crate::{
    Label,
    facts::{Fact, Facts},
    frame::Place,
    run::Run,
    sweep::{How, Sweep},
};

/// One move of an alignment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Move {
    /// The event of this number does a step.
    Done(usize),
    /// The event of this number is not needed.
    NotNeeded(usize),
    /// A step that was not done.
    Missing {
        /// Its label.
        label: Label,
        /// The number of the event that it belongs before, at the earliest. The number of events
        /// if it belongs after all.
        before: usize,
    },
}

impl Run<'_> {
    fn event_done(&self, at: usize, facts: &mut Facts) {
        let number = self.given.number(self.event(at).label);
        facts.add(&self.given, Fact::Done(number));
        facts.add(&self.given, Fact::DoneAt(self.events[at]));
    }

    fn event_not_needed(&self, at: usize, facts: &mut Facts) {
        let event = self.event(at);
        if event.weight > 0 {
            facts.add(&self.given, Fact::NotNeeded(self.given.number(event.label)));
        }
        facts.add(&self.given, Fact::NotNeededAt(self.events[at]));
    }

    /// The facts of all ways of least cost through a span.
    pub(crate) fn facts(&mut self, from: usize, to: usize) -> Facts {
        if let Some(block) = self.frame.lone_block() {
            return self.block_facts(block, from, to);
        }
        if let Some(known) = self.known.get(&(from, to)) {
            return known.clone();
        }
        let sweep = self.sweep(from, to);
        let facts = self.facts_of(&sweep);
        self.known.insert((from, to), facts.clone());
        facts
    }

    /// The same, with the costs at hand. Cells of least cost are taken in an order in which each
    /// comes after those that lead to it: a move takes an event or costs something.
    fn facts_of(&mut self, sweep: &Sweep) -> Facts {
        let width = self.width();
        let mut cells: Vec<Option<Facts>> = vec![None; sweep.forward.len()];
        cells[0] = Some(self.given.nothing());
        let mut order = Vec::with_capacity(width);
        for column in 0..=sweep.to - sweep.from {
            order.clear();
            order.extend((0..width).filter(|&place| sweep.is_near(self.cell(column, place))));
            order.sort_by_key(|&place| sweep.forward[self.cell(column, place)]);
            for &place in &order {
                let cell = self.cell(column, place);
                if cell > 0 {
                    cells[cell] = self.cell_facts(sweep, column, place, &cells);
                }
            }
        }
        let ends = (0..width).filter(|&place| self.frame.last[place]);
        let ends = ends.map(|place| self.cell(sweep.to - sweep.from, place));
        let mut found = None;
        for end in ends.filter(|&end| sweep.forward[end] == sweep.cost()) {
            join(&mut found, cells[end].as_ref());
        }
        found.unwrap_or_else(|| self.given.nothing())
    }

    /// The facts of all ways of least cost to a cell.
    fn cell_facts(
        &mut self,
        sweep: &Sweep,
        column: usize,
        place: usize,
        cells: &[Option<Facts>],
    ) -> Option<Facts> {
        let mut found = None;
        for last in self.last_moves(sweep, (column, place)) {
            let mut facts = None;
            for cell in self.before(sweep, place, last) {
                join(&mut facts, cells[cell].as_ref());
            }
            let Some(mut facts) = facts else {
                continue;
            };
            let at = sweep.from + last.column;
            match (last.how, self.frame.places[place]) {
                (How::NotNeeded, _) => self.event_not_needed(at, &mut facts),
                (How::Done, _) => self.event_done(at, &mut facts),
                (How::Through(block), _) => {
                    facts.follow(&self.block_facts(block, at, sweep.from + column));
                }
                (How::Missing, Place::Step(step)) => {
                    let number = self.given.number(self.label(step));
                    facts.add(&self.given, Fact::Missing(number));
                }
                (How::Missing, _) => {}
            }
            join(&mut found, Some(&facts));
        }
        found
    }

    fn block_facts(&mut self, block: usize, from: usize, to: usize) -> Facts {
        let mut facts = self.given.nothing();
        for at in from..to {
            if self.blocks[block].foreign[at] {
                self.event_not_needed(at, &mut facts);
            }
        }
        for part in &mut self.blocks[block].parts {
            let (from, to) = (part.upto[from], part.upto[to]);
            facts.follow(&part.run.facts(from, to));
        }
        facts
    }

    /// The way that is shown. Of several of least cost: at each moment what is done, then a block
    /// with as many of its events as it takes, then what is missing, then what is not needed; and
    /// the place that comes first in the task.
    pub(crate) fn walk(&self, from: usize, to: usize, moves: &mut Vec<Move>) {
        if let Some(block) = self.frame.lone_block() {
            return self.walk_lone_block(block, from, to, moves);
        }
        let sweep = self.sweep(from, to);
        let (mut column, mut place) = (0, 0);
        let end = to - from;
        let left = |column, place| sweep.left(self.cell(column, place));
        while column < end || !self.frame.last[place] {
            let Some(cost) = left(column, place) else {
                debug_assert!(false, "a way of least cost goes on");
                return;
            };
            let at = from + column;
            let after = &self.frame.after[place];
            let done =
                |next: &&usize| self.fits(at, **next) && left(column + 1, **next) == Some(cost);
            if at < to
                && let Some(&next) = after.iter().find(done)
            {
                moves.push(Move::Done(self.events[at]));
                (column, place) = (column + 1, next);
                continue;
            }
            if let Some((block, next, to)) = self.block_ahead(&sweep, column, place) {
                self.walk_block(block, at, to, moves);
                (column, place) = (to - from, next);
                continue;
            }
            let missing = after
                .iter()
                .find_map(|&next| match self.frame.places[next] {
                    Place::Step(step) if left(column, next).map(|cost| cost + 1) == Some(cost) => {
                        Some((step, next))
                    }
                    _ => None,
                });
            if let Some((step, next)) = missing {
                let label = self.label(step);
                let before = self.events.get(at).copied();
                let before = before.unwrap_or(self.given.trace.len());
                moves.push(Move::Missing { label, before });
                place = next;
                continue;
            }
            moves.push(Move::NotNeeded(self.events[at]));
            column += 1;
        }
    }

    /// The same where there is nothing but a block: up to its last event, then what is not needed.
    fn walk_lone_block(&self, block: usize, from: usize, to: usize, moves: &mut Vec<Move>) {
        let foreign = &self.blocks[block].foreign;
        let ends = (from + 1..=to).rev().find(|&to| !foreign[to - 1]);
        let end = ends.unwrap_or(from);
        self.walk_block(block, from, end, moves);
        moves.extend((end..to).map(|at| Move::NotNeeded(self.events[at])));
    }

    /// The block that is next on a way of least cost, its place, and where it ends.
    fn block_ahead(
        &self,
        sweep: &Sweep,
        column: usize,
        place: usize,
    ) -> Option<(usize, usize, usize)> {
        let cost = sweep.left(self.cell(column, place))?;
        let from = sweep.from + column;
        self.frame.after[place].iter().find_map(|&next| {
            let Place::Block(block) = self.frame.places[next] else {
                return None;
            };
            let optional = self.frame.blocks[block].optional;
            let foreign = &self.blocks[block].foreign;
            let mut ends = (from + usize::from(optional)..=sweep.to).rev();
            let to = ends.find(|&to| {
                // What does not belong to the block may do a step after it.
                if to > from && foreign[to - 1] {
                    return false;
                }
                let left = sweep.left(self.cell(to - sweep.from, next));
                left.is_some_and(|left| self.through(block, from, to) + left == cost)
            })?;
            Some((block, next, to))
        })
    }

    fn walk_block(&self, block: usize, from: usize, to: usize, moves: &mut Vec<Move>) {
        let begin = moves.len();
        let foreign = (from..to).filter(|&at| self.blocks[block].foreign[at]);
        moves.extend(foreign.map(|at| Move::NotNeeded(self.events[at])));
        let end = self.events.get(to).copied();
        let end = end.unwrap_or(self.given.trace.len());
        for part in &self.blocks[block].parts {
            let first = moves.len();
            part.run.walk(part.upto[from], part.upto[to], moves);
            // What is missing after the last event of the part still belongs into the block.
            for one in &mut moves[first..] {
                if let Move::Missing { before, .. } = one {
                    *before = end.min(*before);
                }
            }
        }
        moves[begin..].sort_by_key(|one| match *one {
            Move::Missing { before, .. } => (before, 0),
            Move::Done(event) | Move::NotNeeded(event) => (event, 1),
        });
    }
}

/// Adds the facts of other ways, if there are some.
fn join(found: &mut Option<Facts>, others: Option<&Facts>) {
    match (found.as_mut(), others) {
        (Some(found), Some(others)) => found.join(others),
        (None, others) => *found = others.cloned(),
        (Some(_), None) => {}
    }
}
