//! The share of one hand: some states of the queue, and what follows each of them.
//!
//! A share is worked out by itself. It reads the model and writes its own lists only, so that
//! shares can be worked out side by side while what was found before is recorded.

use std::ops::ControlFlow;

use rackproof_model::{
    Model,
    key::{Key, KeyWriter},
};

use crate::{
    batch::Batch,
    congruence::{Checker, Difference},
    moves::{Move, Successors},
    nodes::Node,
    settings::Settings,
};

/// A state of the queue.
#[derive(Clone, Copy)]
pub(crate) struct Task {
    /// Its node.
    pub(crate) node: Node,
    /// How many states stand before it in the queue.
    pub(crate) number: u64,
    /// Whether it lies between two events.
    pub(crate) between: bool,
    /// Whether nothing is to be tried from it.
    pub(crate) pruned: bool,
    /// Where its key ends among those of the share.
    ends: usize,
}

/// What follows one state of the share, beside the keys in the batch.
pub(crate) struct Followed<C> {
    /// Whose successors these are.
    pub(crate) task: Task,
    /// How many keys of the batch are its own.
    pub(crate) keys: usize,
    /// How many steps stay in the class.
    pub(crate) loops: u64,
    /// Whether the environment chose one of these.
    pub(crate) chosen_loop: bool,
    /// How many landings were checked.
    pub(crate) checked: u64,
    /// The check that failed: then what follows is not complete.
    pub(crate) broken: Option<Broken<C>>,
}

/// A failed check.
pub(crate) struct Broken<C> {
    /// The last move; `None` if it is a start that failed.
    pub(crate) taken: Option<Move<C>>,
    pub(crate) key: Key,
    pub(crate) difference: Difference,
}

/// Some states of the queue, and what follows them.
pub(crate) struct Share<M: Model> {
    tasks: Vec<Task>,
    /// Keys of the tasks.
    keys: Vec<u8>,
    /// Keys of what follows.
    pub(crate) batch: Batch,
    pub(crate) followed: Vec<Followed<M::Cause>>,
    successors: Successors<M::Cause>,
    writer: KeyWriter,
    /// Others of the class that is expanded now.
    alike: Vec<M::State>,
    checker: Checker<M::Cause>,
}

impl<M: Model> Share<M> {
    /// A share of nothing. The person acts only if `persons`.
    pub(crate) fn new(persons: bool) -> Share<M> {
        Share {
            tasks: Vec::new(),
            keys: Vec::new(),
            batch: Batch::default(),
            followed: Vec::new(),
            successors: Successors::new(persons),
            writer: KeyWriter::new(),
            alike: Vec::new(),
            checker: Checker::new(persons),
        }
    }

    /// Forgets all states and what follows them.
    pub(crate) fn clear(&mut self) {
        self.tasks.clear();
        self.keys.clear();
        self.batch.clear();
        self.followed.clear();
    }

    /// How many states it has.
    pub(crate) fn len(&self) -> usize {
        self.tasks.len()
    }

    /// Adds the state with number `number` of the queue: its node, its key, and whether it lies
    /// between two events.
    pub(crate) fn add(&mut self, number: u64, node: Node, entry: (&[u8], bool), pruned: bool) {
        self.keys.extend_from_slice(entry.0);
        self.tasks.push(Task {
            node,
            number,
            between: entry.1,
            pruned,
            ends: self.keys.len(),
        });
    }

    /// Works out what follows each state, up to a check that fails.
    pub(crate) fn follow(
        &mut self,
        model: &M,
        settings: &Settings,
        flags: &impl Fn(&M::State) -> u64,
    ) {
        let mut from = 0;
        for at in 0..self.tasks.len() {
            let task = self.tasks[at];
            let own = Key::from_bytes(&self.keys[from..task.ends]);
            from = task.ends;
            let before = self.batch.len();
            let mut followed = Followed::new(task);
            if !task.pruned {
                let found = &mut followed;
                let _ = self.follow_one(model, settings, flags, (&own, found));
            }
            followed.keys = self.batch.len() - before;
            let failed = followed.broken.is_some();
            self.followed.push(followed);
            if failed {
                return;
            }
        }
    }

    fn follow_one(
        &mut self,
        model: &M,
        settings: &Settings,
        flags: &impl Fn(&M::State) -> u64,
        (own, followed): (&Key, &mut Followed<M::Cause>),
    ) -> ControlFlow<()> {
        let Share {
            batch,
            successors,
            writer,
            alike,
            checker,
            ..
        } = self;
        let state = model.read_key(own);
        let task = followed.task;
        let mut step = 0;
        let mut landed = |taken: &Move<M::Cause>, child: &mut M::State, inside: bool| {
            let chosen = matches!(taken, Move::Chance(_));
            let due = settings.congruence.is_due(task.number, step);
            step += 1;
            let alike = !due && task.between == inside && model.same_class(&state, child);
            writer.clear();
            let key = if alike {
                own.as_bytes()
            } else if due {
                model.write_key(child, writer);
                writer.finish()
            } else {
                model.write_last_key(child, writer);
                writer.finish()
            };
            if task.between == inside && own.as_bytes() == key {
                followed.loops += 1;
                followed.chosen_loop |= chosen;
            } else {
                batch.push(key, inside, chosen);
            }
            if !due {
                return ControlFlow::Continue(());
            }
            followed.checked += 1;
            let key = Key::from_bytes(key);
            let found = checker.compare(model, settings, flags, (&*child, inside, &key));
            let Some(difference) = found else {
                return ControlFlow::Continue(());
            };
            followed.broken = Some(Broken {
                taken: Some(*taken),
                key,
                difference,
            });
            ControlFlow::Break(())
        };
        successors.visit(model, &state, task.between, &mut landed)?;
        alike.clear();
        model.alike(&state, alike);
        for other in alike.iter() {
            successors.visit(model, other, task.between, &mut landed)?;
        }
        ControlFlow::Continue(())
    }
}

impl<C> Followed<C> {
    fn new(task: Task) -> Followed<C> {
        Followed {
            task,
            keys: 0,
            loops: 0,
            chosen_loop: false,
            checked: 0,
            broken: None,
        }
    }
}
