//! The search: breadth first, with exact keys.

use std::ops::ControlFlow;

use rackproof_model::{
    Model,
    key::{Key, KeyWriter},
};

use crate::{
    batch::Batch,
    congruence::{Checker, Difference, Incongruence},
    exploration::{End, Exploration, Tally},
    graph::Graph,
    moves::{Move, Successors},
    nodes::{Landing, Node, Nodes},
    settings::Settings,
    witness::Witness,
};

/// How far a search has come.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Progress {
    /// Number of states found.
    pub states: usize,
    /// Number of those from which everything was tried.
    pub expanded: usize,
    /// Number of steps tried.
    pub steps: u64,
    /// How many steps the states that are expanded now are away from the starts.
    pub depth: usize,
}

/// Explores what can be reached from `starts`.
///
/// From each state it tries every stride of the person, every chance of the environment, and
/// waiting for the next event. Where an interval begins, it also waits for both sides of each
/// critical instant, and for one moment inside each part between them; at such a moment it tries
/// every act. What an act then begins is cut up anew.
///
/// `flags` says for a state, as its key reads back, what the caller wants to know: each of the 64
/// bits means what the caller says. It may depend on nothing but the state's class.
pub fn explore<'m, M: Model>(
    model: &'m M,
    starts: &[M::State],
    settings: &Settings,
    flags: impl Fn(&M::State) -> u64,
) -> Exploration<'m, M> {
    explore_watched(
        model,
        starts,
        settings,
        flags,
        |_| ControlFlow::Continue(()),
    )
}

/// Explores like [`explore`], and calls `watch` at the start and after each
/// [`watch_every`](Settings::watch_every) states that were expanded; the search ends if it breaks.
pub fn explore_watched<'m, M: Model>(
    model: &'m M,
    starts: &[M::State],
    settings: &Settings,
    flags: impl Fn(&M::State) -> u64,
    mut watch: impl FnMut(Progress) -> ControlFlow<()>,
) -> Exploration<'m, M> {
    let mut search = Search {
        model,
        settings,
        flags,
        nodes: Nodes::new(settings.states_most),
        tally: Tally::new(),
        graph: settings.steps_kept.then(Graph::default),
        writer: KeyWriter::new(),
        batch: Batch::default(),
        alike: Vec::new(),
        loops: 0,
        checker: Checker::new(settings.persons),
        steps: 0,
        reached: 0,
        checked: 0,
        end: End::Complete,
        broken: None,
    };
    let mut walk = Walk::default();
    let planted = search.plant(starts);
    // To be there from the start is no step.
    search.steps = 0;
    if let Some(graph) = &mut search.graph {
        graph.forget_starts();
    }
    walk.last_root = search.nodes.last();
    walk.level_ends = walk.last_root;
    if planted.is_continue() {
        search.run(&mut walk, &mut watch);
    }
    search.report(starts, walk)
}

/// Where the search stands in its queue, which is the nodes in their order.
#[derive(Default)]
struct Walk {
    last_root: Option<Node>,
    /// The last node of the level that is expanded now.
    level_ends: Option<Node>,
    expanded: usize,
    depth: usize,
    dead_ends: usize,
    first_dead_end: Option<Node>,
}

struct Search<'m, 's, M: Model, F> {
    model: &'m M,
    settings: &'s Settings,
    flags: F,
    nodes: Nodes,
    tally: Tally,
    graph: Option<Graph>,
    writer: KeyWriter,
    batch: Batch,
    /// Others of the class that is expanded now.
    alike: Vec<M::State>,
    /// How many steps of the state that is expanded now stay in its class.
    loops: u64,
    checker: Checker<M::Cause>,
    steps: u64,
    reached: u64,
    checked: u64,
    end: End,
    broken: Option<Broken<M::Cause>>,
}

/// The state that is expanded now.
struct Here<'k> {
    node: Node,
    key: &'k [u8],
    between: bool,
}

/// A failed check.
struct Broken<C> {
    /// As [`Nodes::land`] was given it.
    parent: u32,
    /// The last move; `None` if it is a start that failed.
    taken: Option<Move<C>>,
    key: Key,
    difference: Difference,
}

impl<'m, M: Model, F: Fn(&M::State) -> u64> Search<'m, '_, M, F> {
    fn plant(&mut self, starts: &[M::State]) -> ControlFlow<()> {
        for (number, start) in starts.iter().enumerate() {
            self.reach(number as u32, None, None, (start, false))?;
            self.land(number as u32)?;
        }
        ControlFlow::Continue(())
    }

    fn run(&mut self, walk: &mut Walk, watch: &mut impl FnMut(Progress) -> ControlFlow<()>) {
        let mut successors = Successors::new(self.settings.persons);
        let mut queue = self.nodes.first();
        while let Some(node) = queue {
            if walk
                .expanded
                .is_multiple_of(self.settings.watch_every.max(1))
            {
                let progress = Progress {
                    states: self.nodes.len(),
                    expanded: walk.expanded,
                    steps: self.steps,
                    depth: walk.depth,
                };
                if watch(progress).is_break() {
                    self.end = End::Interrupted;
                    return;
                }
            }
            if self.expand(node, &mut successors, walk).is_break() {
                return;
            }
            walk.expanded += 1;
            if let Some(graph) = &mut self.graph {
                graph.expanded();
            }
            queue = self.nodes.after(node);
            if Some(node) == walk.level_ends && queue.is_some() {
                walk.depth += 1;
                walk.level_ends = self.nodes.last();
            }
        }
    }

    fn expand(
        &mut self,
        node: Node,
        successors: &mut Successors<M::Cause>,
        walk: &mut Walk,
    ) -> ControlFlow<()> {
        if self.nodes.is_pruned(node) {
            return ControlFlow::Continue(());
        }
        let model = self.model;
        let (own, between) = (self.nodes.key(node), self.nodes.entry(node).1);
        let state = model.read_key(&own);
        let here = Here {
            node,
            key: own.as_bytes(),
            between,
        };
        self.loops = 0;
        self.alike.clear();
        model.alike(&state, &mut self.alike);
        let others = self.alike.len();
        for number in 0..=others {
            let state = number.checked_sub(1).map_or(state, |at| self.alike[at]);
            successors.visit(model, &state, between, &mut |taken, child, inside| {
                self.reach(node.number(), Some(&here), Some(taken), (child, inside))
            })?;
        }
        if self.batch.is_empty() && self.loops == 0 {
            walk.dead_ends += 1;
            walk.first_dead_end.get_or_insert(node);
        }
        self.land(node.number())
    }

    /// Adds a state that was reached by the move `taken`, if by any, to those that are to land. A
    /// step that stays where it began has landed. Breaks if its congruence is checked and fails.
    fn reach(
        &mut self,
        parent: u32,
        here: Option<&Here<'_>>,
        taken: Option<&Move<M::Cause>>,
        (state, between): (&M::State, bool),
    ) -> ControlFlow<()> {
        self.writer.clear();
        self.model.write_key(state, &mut self.writer);
        let key = self.writer.finish();
        let chosen = matches!(taken, Some(Move::Chance(_)));
        match here.filter(|here| here.between == between && here.key == key) {
            Some(here) => {
                self.loops += 1;
                self.steps += 1;
                if let Some(graph) = &mut self.graph {
                    graph.step_to(here.node, chosen);
                }
            }
            None => self.batch.push(key, between, chosen),
        }
        let due = self.settings.congruence.is_due(self.reached);
        self.reached += 1;
        if !due {
            return ControlFlow::Continue(());
        }
        self.checked += 1;
        let key = Key::from_bytes(key);
        let reached = (state, between, &key);
        let checker = &mut self.checker;
        let found = checker.compare(self.model, self.settings, &self.flags, reached);
        let Some(difference) = found else {
            return ControlFlow::Continue(());
        };
        self.end = End::Incongruent;
        self.broken = Some(Broken {
            parent,
            taken: taken.copied(),
            key,
            difference,
        });
        ControlFlow::Break(())
    }

    /// Records all states of the batch, which were reached from one parent, and empties it. Breaks
    /// if that ends the search.
    fn land(&mut self, parent: u32) -> ControlFlow<()> {
        self.nodes.fetch(self.batch.hashes());
        for (hash, key, between, chosen) in self.batch.iter() {
            self.steps += 1;
            let landing = self.nodes.land(hash, key, between, parent);
            if let (Some(graph), Landing::New(node) | Landing::Known(node)) =
                (&mut self.graph, landing)
            {
                graph.step_to(node, chosen);
            }
            match landing {
                Landing::Known(_) => (),
                Landing::NoRoom => {
                    self.end = End::BoundReached;
                    return ControlFlow::Break(());
                }
                Landing::New(node) => {
                    let state = self.model.read_key(&Key::from_bytes(key));
                    let flags = (self.flags)(&state);
                    self.tally.add(node, flags);
                    if flags & self.settings.prune != 0 {
                        self.nodes.prune(node);
                    }
                    let until = self.settings.until;
                    if until != 0 && self.tally.seen & until == until {
                        self.end = End::AllSeen;
                        return ControlFlow::Break(());
                    }
                }
            }
        }
        self.batch.clear();
        ControlFlow::Continue(())
    }

    fn report(self, starts: &[M::State], walk: Walk) -> Exploration<'m, M> {
        // A search that ended early may have found some of the next level.
        let deeper = usize::from(self.nodes.last() > walk.level_ends);
        let mut exploration = Exploration {
            end: self.end,
            states: self.nodes.len(),
            expanded: walk.expanded,
            steps: self.steps,
            depth: walk.depth + deeper,
            memory: self.nodes.memory() + self.graph.as_ref().map_or(0, Graph::memory),
            dead_ends: walk.dead_ends,
            first_dead_end: walk.first_dead_end,
            checked: self.checked,
            incongruence: None,
            model: self.model,
            persons: self.settings.persons,
            starts: starts.to_vec(),
            last_root: walk.last_root,
            nodes: self.nodes,
            tally: self.tally,
            graph: self.graph,
        };
        exploration.incongruence = self.broken.map(|broken| Incongruence {
            witness: match broken.taken {
                None => Witness {
                    start: broken.parent as usize,
                    steps: Vec::new(),
                    moves: 0,
                    strayed: None,
                },
                taken => {
                    let mut witness = exploration.witness_to(Node::from_number(broken.parent));
                    witness.push(taken);
                    witness
                }
            },
            key: broken.key,
            difference: broken.difference,
        });
        exploration
    }
}
