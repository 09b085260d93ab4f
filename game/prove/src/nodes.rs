//! The states that were found, each once, in the order in which they were found.
//!
//! All of them stand in one arena of bytes, one record behind the other. A node is the place of
//! its record, so that neither places nor lengths need tables of their own:
//!
//! | bytes | what |
//! | --- | --- |
//! | 4 | the node that it was found from; of a start, the number of the start |
//! | 1 | length of the key |
//! | 1 | bit 0: the state lies between two events; bit 1: nothing is tried from it |
//! | n | the key |
//! | 0–3 | zeros, up to a multiple of four |

use std::hash::Hasher;

use rackproof_model::key::Key;
use rustc_hash::FxHasher;

use crate::table::Table;

const HEAD: usize = 6;
/// Where the bits of a record stand.
const BITS: usize = 5;
const BETWEEN: u8 = 1;
const PRUNED: u8 = 2;
const GRAIN: usize = 4;

/// A state that was found. Its order is the order of finding.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Node(u32);

/// Where a state landed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Landing {
    /// It is new, and recorded now.
    New(Node),
    /// It was known as this.
    Known(Node),
    /// It is new, but there is no room for it.
    NoRoom,
}

/// All nodes.
pub(crate) struct Nodes {
    arena: Vec<u8>,
    found: Table,
    last: Option<Node>,
    states_most: usize,
}

impl Nodes {
    /// No nodes, with room for `states_most`.
    pub(crate) fn new(states_most: usize) -> Nodes {
        Nodes {
            arena: Vec::new(),
            found: Table::new(),
            last: None,
            states_most,
        }
    }

    /// Fetches what [`Nodes::land`] will look at, so that the processor waits for all of it at
    /// once.
    pub(crate) fn fetch(&self, hashes: impl Iterator<Item = u64> + Clone) {
        let places = hashes
            .clone()
            .fold(0, |sum, hash| sum ^ self.found.first(hash));
        let heads = hashes.fold(0, |sum, hash| match self.found.likely(hash) {
            Some(at) => sum ^ self.arena[at as usize * GRAIN + HEAD - 1],
            None => sum,
        });
        std::hint::black_box((places, heads));
    }

    /// Finds the node of this key, or records it with `parent`. `hash` is [`hash_of`] both.
    pub(crate) fn land(&mut self, hash: u64, key: &[u8], between: bool, parent: u32) -> Landing {
        let arena = &self.arena;
        let known = self.found.find(hash, |at| {
            holds(&arena[at as usize * GRAIN..], key, between)
        });
        if let Some(at) = known {
            return Landing::Known(Node(at));
        }
        // The last number of all is no node's: the table stands for nothing with it.
        let next = u32::try_from(self.arena.len() / GRAIN);
        let Some(at) = next.ok().filter(|&at| at < u32::MAX) else {
            return Landing::NoRoom;
        };
        if self.found.len() >= self.states_most {
            return Landing::NoRoom;
        }
        assert!(
            key.len() <= usize::from(u8::MAX),
            "the length of a key does not fit its byte"
        );
        self.arena.extend_from_slice(&parent.to_le_bytes());
        self.arena
            .extend_from_slice(&[key.len() as u8, u8::from(between)]);
        self.arena.extend_from_slice(key);
        self.arena
            .resize(self.arena.len().next_multiple_of(GRAIN), 0);
        self.found.insert(hash, at);
        self.last = Some(Node(at));
        Landing::New(Node(at))
    }

    /// How many there are.
    pub(crate) fn len(&self) -> usize {
        self.found.len()
    }

    /// Bytes in use, records and table. What the allocator keeps in reserve is not counted.
    pub(crate) fn memory(&self) -> usize {
        self.arena.len() + self.found.memory()
    }

    /// The first node, if there is one.
    pub(crate) fn first(&self) -> Option<Node> {
        (!self.arena.is_empty()).then_some(Node(0))
    }

    /// The node that was found last, if there is one.
    pub(crate) fn last(&self) -> Option<Node> {
        self.last
    }

    /// The node that was found next after `node`, if there is one by now.
    pub(crate) fn after(&self, node: Node) -> Option<Node> {
        let next = node.0 as usize * GRAIN + record_len(self.entry(node).0.len());
        (next < self.arena.len()).then_some(Node((next / GRAIN) as u32))
    }

    /// The bytes of a node's key, and whether the node lies between two events.
    pub(crate) fn entry(&self, node: Node) -> (&[u8], bool) {
        entry(&self.arena, node.0)
    }

    /// The key of a node.
    pub(crate) fn key(&self, node: Node) -> Key {
        Key::from_bytes(self.entry(node).0)
    }

    /// From this node nothing is to be tried.
    pub(crate) fn prune(&mut self, node: Node) {
        self.arena[node.0 as usize * GRAIN + BITS] |= PRUNED;
    }

    /// Whether that was said of it.
    pub(crate) fn is_pruned(&self, node: Node) -> bool {
        self.arena[node.0 as usize * GRAIN + BITS] & PRUNED != 0
    }

    /// What [`Nodes::land`] was given as `parent`.
    pub(crate) fn parent(&self, node: Node) -> u32 {
        let at = node.0 as usize * GRAIN;
        let head = &self.arena[at..at + HEAD];
        u32::from_le_bytes([head[0], head[1], head[2], head[3]])
    }
}

impl Node {
    /// The number by which a child names this node as its parent.
    pub(crate) fn number(self) -> u32 {
        self.0
    }

    /// The node that a child named as its parent.
    pub(crate) fn from_number(number: u32) -> Node {
        Node(number)
    }
}

/// Whether this is the record of just this key and bit.
fn holds(record: &[u8], key: &[u8], between: bool) -> bool {
    usize::from(record[4]) == key.len()
        && record[BITS] & BETWEEN == u8::from(between)
        && record[HEAD..HEAD + key.len()] == *key
}

fn record_len(key_len: usize) -> usize {
    (HEAD + key_len).next_multiple_of(GRAIN)
}

fn entry(arena: &[u8], at: u32) -> (&[u8], bool) {
    let record = &arena[at as usize * GRAIN..];
    let key = &record[HEAD..HEAD + usize::from(record[4])];
    (key, record[BITS] & BETWEEN != 0)
}

/// The hash by which [`Nodes::land`] finds an entry.
pub(crate) fn hash_of(key: &[u8], between: bool) -> u64 {
    let mut hasher = FxHasher::default();
    hasher.write(key);
    hasher.write_u8(u8::from(between));
    hasher.finish()
}

#[cfg(test)]
mod tests {
    use super::*;

    impl Nodes {
        fn put(&mut self, key: &[u8], between: bool, parent: u32) -> Landing {
            self.land(hash_of(key, between), key, between, parent)
        }
    }

    #[test]
    fn keys_differ_by_length_by_bytes_and_by_the_bit() {
        let mut nodes = Nodes::new(usize::MAX);
        let entries: [(&[u8], bool); 6] = [
            (&[], false),
            (&[0], false),
            (&[0, 0], false),
            (&[0, 1, 2, 3, 4, 5, 6, 7, 8], false),
            (&[0, 1, 2, 3, 4, 5, 6, 7, 9], false),
            (&[0], true),
        ];
        for (i, (key, between)) in entries.into_iter().enumerate() {
            assert!(
                matches!(nodes.put(key, between, i as u32), Landing::New(_)),
                "{i}"
            );
            assert!(
                matches!(nodes.put(key, between, 99), Landing::Known(_)),
                "{i}"
            );
        }
        let mut at = nodes.first();
        for (i, (key, between)) in entries.into_iter().enumerate() {
            let node = at.expect("each record has one behind it");
            assert_eq!(
                (nodes.entry(node), nodes.parent(node)),
                ((key, between), i as u32)
            );
            at = nodes.after(node);
        }
        assert_eq!((at, nodes.len()), (None, 6));
    }

    #[test]
    fn a_pruned_node_stays_what_it_is() {
        let mut nodes = Nodes::new(usize::MAX);
        for between in [false, true] {
            nodes.put(&[1, 2], between, 7);
            nodes.put(&[1, 3], between, 8);
        }
        let all: Vec<Node> = std::iter::successors(nodes.first(), |&at| nodes.after(at)).collect();
        nodes.prune(all[0]);
        nodes.prune(all[3]);
        let pruned: Vec<bool> = all.iter().map(|&node| nodes.is_pruned(node)).collect();
        assert_eq!(pruned, [true, false, false, true]);
        assert_eq!(nodes.entry(all[0]), (&[1, 2][..], false));
        assert_eq!(nodes.entry(all[3]), (&[1, 3][..], true));
        assert_eq!(nodes.put(&[1, 2], false, 9), Landing::Known(all[0]));
        assert_eq!(nodes.put(&[1, 3], true, 9), Landing::Known(all[3]));
        assert_eq!(nodes.parent(all[3]), 8);
    }

    #[test]
    fn a_record_holds_one_key_whatever_the_hashes_say() {
        let record = [9, 9, 9, 9, 2, 1, 7, 8, 0, 0, 0, 0];
        let cases: [(&[u8], bool, bool); 6] = [
            (&[7, 8], true, true),
            (&[7, 8], false, false),
            (&[7], true, false),
            (&[7, 8, 0], true, false),
            (&[7, 9], true, false),
            (&[], true, false),
        ];
        for (key, between, expected) in cases {
            assert_eq!(holds(&record, key, between), expected, "{key:?}, {between}");
        }
    }

    #[test]
    fn many_keys_stay_apart_while_the_table_grows() {
        let mut nodes = Nodes::new(usize::MAX);
        for round in 0..2 {
            for n in 0..5_000_u32 {
                let landing = nodes.put(&n.to_le_bytes()[..3], n % 2 == 0, n);
                assert_eq!(matches!(landing, Landing::Known(_)), round == 1, "{n}");
            }
        }
        assert_eq!(nodes.len(), 5_000);
        assert!(nodes.memory() >= 5_000 * (12 + 4));
    }

    #[test]
    fn no_more_nodes_than_there_is_room_for() {
        let mut nodes = Nodes::new(1);
        assert!(matches!(nodes.put(&[1], false, 0), Landing::New(_)));
        assert_eq!(nodes.put(&[2], false, 0), Landing::NoRoom);
        assert_eq!(nodes.put(&[1], false, 0), Landing::Known(Node(0)));
    }
}
