//! What a search found.

use std::ops::ControlFlow;

use rackproof_model::{
    Model,
    key::{Key, KeyWriter},
};

use crate::{
    congruence::Incongruence,
    graph::Graph,
    moves::{Move, Successors},
    nodes::{Node, Nodes},
    witness::{Step, Witness},
};

/// Number of flag bits.
pub(crate) const FLAGS: usize = u64::BITS as usize;

/// Why a search ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum End {
    /// Everything that can be reached was found.
    Complete,
    /// There was one more state than the settings, or the arena's 16 GiB, have room for.
    BoundReached,
    /// The caller's watch ended it.
    Interrupted,
    /// Each flag of `until` was seen.
    AllSeen,
    /// A check failed: two states with one key do not behave alike.
    Incongruent,
}

/// What a search found. Unless it is [`End::Complete`], it is what was known when it ended.
pub struct Exploration<'m, M: Model> {
    /// Why the search ended.
    pub end: End,
    /// Number of states: classes with one key, those between two events counted apart.
    pub states: usize,
    /// Number of states from which everything was tried, or that were pruned.
    pub expanded: usize,
    /// Number of steps from state to state, those to known states included.
    pub steps: u64,
    /// The most steps that a shortest way to a state has; 0 if there are only starts.
    pub depth: usize,
    /// Bytes that the states took, with the table that finds them.
    pub memory: usize,
    /// Number of states that were expanded and have no successor.
    pub dead_ends: usize,
    /// The first of these.
    pub first_dead_end: Option<Node>,
    /// Number of landings whose congruence was checked.
    pub checked: u64,
    /// The check that failed, if one did.
    pub incongruence: Option<Incongruence<M::Cause>>,
    pub(crate) model: &'m M,
    pub(crate) persons: bool,
    pub(crate) starts: Vec<M::State>,
    pub(crate) last_root: Option<Node>,
    pub(crate) nodes: Nodes,
    pub(crate) tally: Tally,
    pub(crate) graph: Option<Graph>,
}

/// How often each flag was seen, and where first.
pub(crate) struct Tally {
    counts: [usize; FLAGS],
    first: [Option<Node>; FLAGS],
    pub(crate) seen: u64,
}

impl Tally {
    pub(crate) fn new() -> Tally {
        Tally {
            counts: [0; FLAGS],
            first: [None; FLAGS],
            seen: 0,
        }
    }

    pub(crate) fn add(&mut self, node: Node, flags: u64) {
        self.seen |= flags;
        let mut rest = flags;
        while rest != 0 {
            let bit = rest.trailing_zeros() as usize;
            rest &= rest - 1;
            self.counts[bit] += 1;
            self.first[bit].get_or_insert(node);
        }
    }
}

impl<M: Model> Exploration<'_, M> {
    /// The flags that were seen.
    pub fn seen(&self) -> u64 {
        self.tally.seen
    }

    /// Number of states with flag number `bit`, from 0 to 63; 0 for another number.
    pub fn count(&self, bit: u32) -> usize {
        self.tally.counts.get(bit as usize).copied().unwrap_or(0)
    }

    /// The first state with flag number `bit`: none is fewer steps away from a start.
    pub fn first(&self, bit: u32) -> Option<Node> {
        self.tally.first.get(bit as usize).copied().flatten()
    }

    /// A shortest way to a state with flag number `bit`, if there is one.
    pub fn witness(&self, bit: u32) -> Option<Witness<M::Cause>> {
        self.first(bit).map(|node| self.witness_to(node))
    }

    /// The nodes in the order in which they were found: those fewer steps away come first.
    pub fn nodes(&self) -> impl Iterator<Item = Node> + '_ {
        std::iter::successors(self.nodes.first(), |&node| self.nodes.after(node))
    }

    /// The nodes with their states, in the same order. Each is read from its key as it is asked
    /// for.
    pub fn states(&self) -> impl Iterator<Item = (Node, M::State)> + '_ {
        self.nodes().map(|node| (node, self.state(node)))
    }

    /// The exact key of a node of this exploration.
    pub fn key(&self, node: Node) -> Key {
        self.nodes.key(node)
    }

    /// The state that a node's key reads back as.
    pub fn state(&self, node: Node) -> M::State {
        self.model.read_key(&self.nodes.key(node))
    }

    /// Whether a node was reached by waiting for a moment inside an interval, with nothing begun
    /// since.
    pub fn is_between(&self, node: Node) -> bool {
        self.nodes.entry(node).1
    }

    /// A shortest way to a node of this exploration.
    ///
    /// It is run from the real start. Where several moves lead to the next class, it takes the
    /// first.
    pub fn witness_to(&self, node: Node) -> Witness<M::Cause> {
        let mut path = vec![node];
        let mut at = node;
        while !self.is_root(at) {
            at = Node::from_number(self.nodes.parent(at));
            path.push(at);
        }
        path.reverse();
        let start = self.nodes.parent(path[0]) as usize;
        let mut successors = Successors::new(self.persons);
        let mut strides = Vec::new();
        let mut state = self.starts[start];
        let mut witness = Witness {
            start,
            steps: Vec::new(),
            moves: 0,
            strayed: None,
        };
        for pair in path.windows(2) {
            let between = self.is_between(pair[0]);
            let mut found = self.step_into(&mut successors, &state, between, pair[1]);
            if found.is_none() && self.model.stutters() {
                let stretched = self.stretch(&mut successors, (state, between), pair, &strides);
                if let Some((moves, end)) = stretched {
                    moves
                        .into_iter()
                        .for_each(|taken| witness.push(Some(taken)));
                    state = end;
                    continue;
                }
            }
            if found.is_none() {
                witness.strayed.get_or_insert(witness.moves);
                found = self.step_into(&mut successors, &self.state(pair[0]), between, pair[1]);
            }
            let (taken, child) = found.unzip();
            if let Some(Move::Stride(stride)) = taken {
                strides.push(stride);
            }
            witness.push(taken);
            state = child.unwrap_or_else(|| self.state(pair[1]));
        }
        witness
    }

    /// The starts are found before all else.
    fn is_root(&self, node: Node) -> bool {
        Some(node) <= self.last_root
    }

    /// The first move from `state` into the class of `node`, and the state that it leads to.
    pub(crate) fn step_into(
        &self,
        successors: &mut Successors<M::Cause>,
        state: &M::State,
        between: bool,
        node: Node,
    ) -> Option<(Move<M::Cause>, M::State)> {
        let mut found = None;
        let mut writer = KeyWriter::new();
        let _ = successors.visit(self.model, state, between, &mut |taken, child, _| {
            writer.clear();
            self.model.write_key(child, &mut writer);
            if writer.finish() != self.nodes.entry(node).0 {
                return ControlFlow::Continue(());
            }
            found = Some((*taken, *child));
            ControlFlow::Break(())
        });
        found
    }
}

impl<C: Copy> Witness<C> {
    /// Spells out one more move.
    pub(crate) fn push(&mut self, taken: Option<Move<C>>) {
        match taken {
            Some(Move::Stride(stride)) => self.steps.extend(stride.causes().map(Step::Did)),
            Some(Move::Chance(cause)) => self.steps.push(Step::Chose(cause)),
            Some(Move::Wait(span)) => self.steps.push(Step::Waited(span)),
            None => (),
        }
        self.moves += 1;
    }
}
