//! The search: breadth first, with exact keys.

use std::ops::ControlFlow;

use rackproof_model::{
    Model,
    key::{Key, KeyWriter},
};

use crate::{
    batch::Keys,
    congruence::{Checker, Incongruence},
    exploration::{End, Exploration, Tally},
    graph::Graph,
    hands::{Hands, OneHand},
    nodes::{Landing, Node, Nodes, hash_of},
    settings::Settings,
    share::{Broken, Followed, Share},
    witness::Witness,
};

/// One hand takes so few states at a time that what follows them stays close at hand.
const STATES_AT_ONCE: usize = 8;
/// With more hands a share has so many states, and each hand so many shares: to call a hand costs
/// as much as some states do, and none should wait long for the others.
const STATES_OF_SHARE: usize = 64;
const SHARES_OF_HAND: usize = 4;

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
pub fn explore<'m, M>(
    model: &'m M,
    starts: &[M::State],
    settings: &Settings,
    flags: impl Fn(&M::State) -> u64 + Sync,
) -> Exploration<'m, M>
where
    M: Model<State: Send, Cause: Send> + Sync,
{
    let watch = |_| ControlFlow::Continue(());
    explore_by(&OneHand, (model, starts), settings, flags, watch)
}

/// Explores a model from its starts like [`explore`], by these hands, and calls `watch` at the
/// start and after each [`watch_every`](Settings::watch_every) states that were expanded; the
/// search ends if it breaks.
pub fn explore_by<'m, M>(
    hands: &impl Hands,
    (model, starts): (&'m M, &[M::State]),
    settings: &Settings,
    flags: impl Fn(&M::State) -> u64 + Sync,
    mut watch: impl FnMut(Progress) -> ControlFlow<()>,
) -> Exploration<'m, M>
where
    M: Model<State: Send, Cause: Send> + Sync,
{
    let mut search = Search {
        model,
        settings,
        flags: &flags,
        nodes: Nodes::new(settings.states_most),
        tally: Tally::new(),
        graph: settings.steps_kept.then(Graph::default),
        steps: 0,
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
        search.run(hands, &mut walk, &mut watch);
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
    flags: &'s F,
    nodes: Nodes,
    tally: Tally,
    graph: Option<Graph>,
    steps: u64,
    checked: u64,
    end: End,
    broken: Option<(u32, Broken<M::Cause>)>,
}

/// The part of the queue that has been handed out.
#[derive(Default)]
struct Queue {
    last: Option<Node>,
    handed_out: u64,
}

impl Queue {
    /// Hands out the next states that are known: the shares that got some.
    fn hand_out<'s, M: Model>(
        &mut self,
        nodes: &Nodes,
        shares: &'s mut [Share<M>],
        of_share: usize,
    ) -> &'s mut [Share<M>] {
        let mut used = 0;
        for share in &mut *shares {
            share.clear();
            while share.len() < of_share {
                let next = match self.last {
                    None => nodes.first(),
                    Some(last) => nodes.after(last),
                };
                let Some(node) = next else { break };
                let pruned = nodes.is_pruned(node);
                share.add(self.handed_out, node, nodes.entry(node), pruned);
                self.last = Some(node);
                self.handed_out += 1;
            }
            used += usize::from(share.len() > 0);
        }
        &mut shares[..used]
    }
}

impl<'m, M: Model, F: Fn(&M::State) -> u64> Search<'m, '_, M, F> {
    fn plant(&mut self, starts: &[M::State]) -> ControlFlow<()> {
        let mut writer = KeyWriter::new();
        for (number, start) in starts.iter().enumerate() {
            let parent = number as u32;
            writer.clear();
            self.model.write_key(start, &mut writer);
            let key = Key::from_bytes(writer.finish());
            if self.settings.congruence.is_due(0, u64::from(parent)) {
                self.checked += 1;
                let mut checker = Checker::new(self.settings.persons);
                let reached = (start, false, &key);
                let found = checker.compare(self.model, self.settings, self.flags, reached);
                if let Some(difference) = found {
                    let taken = None;
                    self.end = End::Incongruent;
                    self.broken = Some((
                        parent,
                        Broken {
                            taken,
                            key,
                            difference,
                        },
                    ));
                    return ControlFlow::Break(());
                }
            }
            let hash = hash_of(key.as_bytes(), false);
            self.land_one((hash, key.as_bytes(), false, false), parent)?;
        }
        ControlFlow::Continue(())
    }

    /// Records what follows the states of the shares before while the next ones are worked out.
    fn run(
        &mut self,
        hands: &impl Hands,
        walk: &mut Walk,
        watch: &mut impl FnMut(Progress) -> ControlFlow<()>,
    ) where
        M: Sync,
        M::State: Send,
        M::Cause: Send,
        F: Sync,
    {
        let (model, settings, flags) = (self.model, self.settings, self.flags);
        let mut queue = Queue::default();
        let (mut now, mut before): (Vec<Share<M>>, Vec<Share<M>>) = Default::default();
        let mut recorded_next = 0;
        loop {
            let (shares, states) = match hands.count() {
                0 | 1 => (1, STATES_AT_ONCE),
                count => (count * SHARES_OF_HAND, STATES_OF_SHARE),
            };
            now.resize_with(now.len().max(shares), || Share::new(settings.persons));
            let given = queue.hand_out(&self.nodes, &mut now[..shares], states);
            let used = given.len();
            if used + recorded_next == 0 {
                return;
            }
            let mut end = ControlFlow::Continue(());
            let work = |share: &mut Share<M>| share.follow(model, settings, flags);
            let meanwhile = || end = self.record(&mut before[..recorded_next], walk, watch);
            hands.each(given, work, meanwhile);
            if end.is_break() {
                return;
            }
            recorded_next = used;
            std::mem::swap(&mut now, &mut before);
        }
    }

    /// Records what follows the states of these shares, in the order of the queue. Breaks if that
    /// ends the search.
    fn record(
        &mut self,
        shares: &mut [Share<M>],
        walk: &mut Walk,
        watch: &mut impl FnMut(Progress) -> ControlFlow<()>,
    ) -> ControlFlow<()> {
        for share in shares {
            let mut keys = share.batch.keys();
            for followed in share.followed.drain(..) {
                let every = self.settings.watch_every.max(1);
                if walk.expanded.is_multiple_of(every) {
                    let progress = Progress {
                        states: self.nodes.len(),
                        expanded: walk.expanded,
                        steps: self.steps,
                        depth: walk.depth,
                    };
                    if watch(progress).is_break() {
                        self.end = End::Interrupted;
                        return ControlFlow::Break(());
                    }
                }
                let own = keys.split_off(followed.keys);
                self.record_one(followed, own, walk)?;
            }
        }
        ControlFlow::Continue(())
    }

    fn record_one(
        &mut self,
        followed: Followed<M::Cause>,
        keys: Keys<'_>,
        walk: &mut Walk,
    ) -> ControlFlow<()> {
        let task = followed.task;
        self.checked += followed.checked;
        self.steps += followed.loops;
        if let Some(broken) = followed.broken {
            self.end = End::Incongruent;
            self.broken = Some((task.node.number(), broken));
            return ControlFlow::Break(());
        }
        if let Some(graph) = &mut self.graph
            && followed.chosen_loop
        {
            graph.step_to(task.node, true);
        }
        if followed.keys == 0 && followed.loops == 0 && !task.pruned {
            walk.dead_ends += 1;
            walk.first_dead_end.get_or_insert(task.node);
        }
        self.nodes.fetch(keys.hashes());
        for key in keys {
            self.land_one(key, task.node.number())?;
        }
        walk.expanded += 1;
        if let Some(graph) = &mut self.graph {
            graph.expanded();
        }
        let more = self.nodes.after(task.node).is_some();
        if Some(task.node) == walk.level_ends && more {
            walk.depth += 1;
            walk.level_ends = self.nodes.last();
        }
        ControlFlow::Continue(())
    }

    /// Records a state that was reached from a parent: its hash, its key, whether it lies between
    /// two events, and whether the environment chose it. Breaks if that ends the search.
    fn land_one(
        &mut self,
        (hash, key, between, chosen): (u64, &[u8], bool, bool),
        parent: u32,
    ) -> ControlFlow<()> {
        self.steps += 1;
        let landing = self.nodes.land(hash, key, between, parent);
        if let (Some(graph), Landing::New(node) | Landing::Known(node)) = (&mut self.graph, landing)
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
                if let Some(graph) = &mut self.graph {
                    graph.found(flags);
                }
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
        exploration.incongruence = self.broken.map(|(parent, broken)| Incongruence {
            witness: match broken.taken {
                None => Witness {
                    start: parent as usize,
                    steps: Vec::new(),
                    moves: 0,
                    strayed: None,
                },
                taken => {
                    let mut witness = exploration.witness_to(Node::from_number(parent));
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
