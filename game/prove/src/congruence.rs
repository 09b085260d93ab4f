//! The check that states with one key behave alike.
//!
//! A search goes on from the state that a key reads back as, and forgets the state that was
//! reached. That is right only if both have the same flags, and the same classes follow both. Each
//! landing that is checked compares just this. Of a class that [`stutters`](Model::stutters) each
//! step of the state that was reached must be a step of those that stand for it, or stay in the
//! class; what stands for it may do more, as others of the class do later. It cannot see that a
//! class is too coarse for the real world if the model behaves alike all the same; only replay
//! does.

use std::ops::ControlFlow;

use rackproof_model::{
    Model,
    key::{Key, KeyWriter},
};

use crate::{
    moves::{Move, Successors},
    settings::Settings,
    witness::Witness,
};

/// Who brings a successor about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum By {
    /// The person, by a stride.
    Person,
    /// The environment, by a chance.
    Environment,
    /// Time alone.
    Time,
}

/// A class that follows a state.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Successor {
    /// Who brings it about.
    pub by: By,
    /// Whether it lies between two events.
    pub between: bool,
    /// Its key.
    pub key: Key,
}

/// How the state that was reached differs from the state that its key reads back as.
#[derive(Clone, Debug, PartialEq, Eq)]
#[expect(
    clippy::large_enum_variant,
    reason = "there is one at most, when a check has failed"
)]
pub enum Difference {
    /// The key reads back as a state whose own key is another one.
    Key {
        /// The key of the state that was read back.
        read: Key,
    },
    /// The flags are not the same.
    Flags {
        /// The flags of the state that was reached.
        reached: u64,
        /// The flags of the state that its key reads back as.
        read: u64,
    },
    /// Not the same classes follow.
    Successors {
        /// Those that follow only the state that was reached.
        reached: Vec<Successor>,
        /// Those that follow only the state that its key reads back as.
        read: Vec<Successor>,
    },
}

/// Two states with one key that do not behave alike: the key forgets what matters.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Incongruence<C> {
    /// The way to the state that was reached.
    pub witness: Witness<C>,
    /// The key of both.
    pub key: Key,
    /// What tells them apart.
    pub difference: Difference,
}

/// Compares states. Kept from landing to landing, so that its lists are allocated once.
pub(crate) struct Checker<C> {
    successors: Successors<C>,
    writer: KeyWriter,
    reached: Classes,
    read: Classes,
}

impl<C: Copy + PartialEq> Checker<C> {
    /// Compares what the search with the same `persons` would list.
    pub(crate) fn new(persons: bool) -> Checker<C> {
        Checker {
            successors: Successors::new(persons),
            writer: KeyWriter::new(),
            reached: Classes::default(),
            read: Classes::default(),
        }
    }

    /// Compares `state` with what its key reads back as.
    pub(crate) fn compare<M: Model<Cause = C>>(
        &mut self,
        model: &M,
        settings: &Settings,
        flags: &impl Fn(&M::State) -> u64,
        (state, between, key): (&M::State, bool, &Key),
    ) -> Option<Difference> {
        let back = model.read_key(key);
        self.writer.clear();
        model.write_key(&back, &mut self.writer);
        let written = self.writer.finish();
        if written != key.as_bytes() {
            return Some(Difference::Key {
                read: Key::from_bytes(written),
            });
        }
        let (reached, read) = (flags(state), flags(&back));
        if reached != read {
            return Some(Difference::Flags { reached, read });
        }
        // Nothing is tried from a pruned state.
        if reached & settings.prune != 0 {
            return None;
        }
        let (successors, writer) = (&mut self.successors, &mut self.writer);
        self.reached
            .list(model, &[*state], between, successors, writer);
        let mut members = vec![back];
        model.alike(&back, &mut members);
        self.read.list(model, &members, between, successors, writer);
        if self.reached == self.read {
            return None;
        }
        let mut more = self.reached.without(&self.read);
        if model.stutters() {
            // What stands for the class may have gone on already, or have yet to go on.
            more.retain(|next| next.between != between || next.key != *key);
            if more.is_empty() {
                return None;
            }
        }
        Some(Difference::Successors {
            reached: more,
            read: self.read.without(&self.reached),
        })
    }
}

/// The classes that follow a state, sorted, each once. The keys stand in `bytes`.
#[derive(Default)]
struct Classes {
    bytes: Vec<u8>,
    entries: Vec<Entry>,
}

#[derive(Clone, Copy)]
struct Entry {
    by: By,
    between: bool,
    from: usize,
    to: usize,
}

impl Entry {
    fn with_key<'b>(&self, bytes: &'b [u8]) -> (By, bool, &'b [u8]) {
        (self.by, self.between, &bytes[self.from..self.to])
    }
}

impl PartialEq for Classes {
    fn eq(&self, other: &Classes) -> bool {
        self.iter().eq(other.iter())
    }
}

impl Classes {
    fn list<M: Model>(
        &mut self,
        model: &M,
        members: &[M::State],
        between: bool,
        successors: &mut Successors<M::Cause>,
        writer: &mut KeyWriter,
    ) {
        self.bytes.clear();
        self.entries.clear();
        let mut landed = |taken: &Move<M::Cause>, child: &mut M::State, between| {
            writer.clear();
            model.write_last_key(child, writer);
            let from = self.bytes.len();
            self.bytes.extend_from_slice(writer.finish());
            let by = match taken {
                Move::Stride(_) => By::Person,
                Move::Chance(_) => By::Environment,
                Move::Wait(_) => By::Time,
            };
            self.entries.push(Entry {
                by,
                between,
                from,
                to: self.bytes.len(),
            });
            ControlFlow::Continue(())
        };
        for state in members {
            let _ = successors.visit(model, state, between, &mut landed);
        }
        let Classes { bytes, entries } = self;
        entries.sort_unstable_by(|a, b| a.with_key(bytes).cmp(&b.with_key(bytes)));
        entries.dedup_by(|a, b| a.with_key(bytes) == b.with_key(bytes));
    }

    fn iter(&self) -> impl Iterator<Item = (By, bool, &[u8])> {
        self.entries.iter().map(|entry| entry.with_key(&self.bytes))
    }

    fn without(&self, other: &Classes) -> Vec<Successor> {
        self.iter()
            .filter(|class| other.iter().all(|known| known != *class))
            .map(|(by, between, key)| Successor {
                by,
                between,
                key: Key::from_bytes(key),
            })
            .collect()
    }
}
