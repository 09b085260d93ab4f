//! The keys of one state's successors, on their way to the nodes.

use crate::nodes::hash_of;

/// Keys that are to be recorded one after the other.
///
/// Most of what a landing costs is waiting for memory. What they will look at is fetched for all of
/// them at once.
#[derive(Default)]
pub(crate) struct Batch {
    bytes: Vec<u8>,
    entries: Vec<Entry>,
}

struct Entry {
    hash: u64,
    ends: usize,
    between: bool,
    chosen: bool,
}

impl Batch {
    /// Adds a key; `chosen` if the environment brought it about.
    pub(crate) fn push(&mut self, key: &[u8], between: bool, chosen: bool) {
        self.bytes.extend_from_slice(key);
        let hash = hash_of(key, between);
        self.entries.push(Entry {
            hash,
            ends: self.bytes.len(),
            between,
            chosen,
        });
    }

    /// Whether it has no keys.
    pub(crate) fn is_empty(&self) -> bool {
        self.entries.is_empty()
    }

    /// Takes all keys out.
    pub(crate) fn clear(&mut self) {
        self.bytes.clear();
        self.entries.clear();
    }

    /// The hashes of the keys, in the order in which they were added.
    pub(crate) fn hashes(&self) -> impl Iterator<Item = u64> + Clone {
        self.entries.iter().map(|entry| entry.hash)
    }

    /// The keys with their hashes, in the order in which they were added; whether they lie between
    /// two events, and whether the environment chose them.
    pub(crate) fn iter(&self) -> impl Iterator<Item = (u64, &[u8], bool, bool)> {
        let mut from = 0;
        self.entries.iter().map(move |entry| {
            let key = &self.bytes[from..entry.ends];
            from = entry.ends;
            (entry.hash, key, entry.between, entry.chosen)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_batch_gives_back_what_was_put_in() {
        let mut batch = Batch::default();
        for keys in [[(&[1, 2][..], true), (&[][..], false), (&[3][..], false)]; 2] {
            assert!(batch.is_empty());
            keys.iter()
                .for_each(|(key, between)| batch.push(key, *between, !between));
            let expected =
                keys.map(|(key, between)| (hash_of(key, between), key, between, !between));
            assert_eq!(batch.iter().collect::<Vec<_>>(), expected);
            assert!(!batch.is_empty());
            batch.clear();
        }
    }
}
