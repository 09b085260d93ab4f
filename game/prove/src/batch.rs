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

    /// How many keys it has.
    pub(crate) fn len(&self) -> usize {
        self.entries.len()
    }

    /// Takes all keys out.
    pub(crate) fn clear(&mut self) {
        self.bytes.clear();
        self.entries.clear();
    }

    /// The keys in the order in which they were added.
    pub(crate) fn keys(&self) -> Keys<'_> {
        Keys {
            bytes: &self.bytes,
            entries: &self.entries,
            from: 0,
        }
    }
}

/// Some keys of a batch. Each comes with its hash, whether it lies between two events, and whether
/// the environment chose it.
pub(crate) struct Keys<'b> {
    bytes: &'b [u8],
    entries: &'b [Entry],
    from: usize,
}

impl<'b> Keys<'b> {
    /// Takes the next so many keys out of these.
    pub(crate) fn split_off(&mut self, count: usize) -> Keys<'b> {
        let (entries, rest) = self.entries.split_at(count);
        let taken = Keys { entries, ..*self };
        self.from = entries.last().map_or(self.from, |entry| entry.ends);
        self.entries = rest;
        taken
    }

    /// Their hashes.
    pub(crate) fn hashes(&self) -> impl Iterator<Item = u64> + Clone + use<'b> {
        self.entries.iter().map(|entry| entry.hash)
    }
}

impl<'b> Iterator for Keys<'b> {
    type Item = (u64, &'b [u8], bool, bool);

    fn next(&mut self) -> Option<Self::Item> {
        let (entry, rest) = self.entries.split_first()?;
        let key = &self.bytes[self.from..entry.ends];
        self.entries = rest;
        self.from = entry.ends;
        Some((entry.hash, key, entry.between, entry.chosen))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_batch_gives_back_what_was_put_in() {
        let mut batch = Batch::default();
        for keys in [[(&[1, 2][..], true), (&[][..], false), (&[3][..], false)]; 2] {
            keys.iter()
                .for_each(|(key, between)| batch.push(key, *between, !between));
            let expected =
                keys.map(|(key, between)| (hash_of(key, between), key, between, !between));
            assert_eq!(batch.keys().collect::<Vec<_>>(), expected);
            for count in 0..=3 {
                let mut rest = batch.keys();
                let taken: Vec<_> = rest.split_off(count).collect();
                assert_eq!(taken, expected[..count]);
                assert_eq!(rest.collect::<Vec<_>>(), expected[count..]);
            }
            assert_eq!(batch.len(), 3);
            batch.clear();
        }
    }
}
