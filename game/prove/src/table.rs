//! The table that finds nodes by their hash.
//!
//! One word an entry: the node, and 32 bits of its hash. So an entry that is not meant is mostly
//! passed by without looking at its key, and the table grows without looking at any. The first bits
//! are the entry's home, and who finds it taken goes to the next free place behind it.

/// A table of so few places is the smallest.
const BITS_LEAST: u32 = 10;

/// Nodes, found by their hash.
pub(crate) struct Table {
    /// The node and one in the low half, 32 bits of its hash in the high half. 0: free.
    entries: Vec<u64>,
    /// How many bits of the hash are the home.
    bits: u32,
    len: usize,
}

/// The 32 bits that are kept of a hash: all of it counts in them.
fn kept(hash: u64) -> u32 {
    ((hash ^ hash >> 32).wrapping_mul(0x9e37_79b9_7f4a_7c15) >> 32) as u32
}

impl Table {
    /// An empty table.
    pub(crate) fn new() -> Table {
        Table {
            entries: vec![0; 1 << BITS_LEAST],
            bits: BITS_LEAST,
            len: 0,
        }
    }

    /// How many nodes are in.
    pub(crate) fn len(&self) -> usize {
        self.len
    }

    /// Bytes in use.
    pub(crate) fn memory(&self) -> usize {
        size_of_val(&self.entries[..])
    }

    fn home(&self, kept: u32) -> usize {
        (kept >> (u32::BITS - self.bits)) as usize
    }

    /// The word at the home of a hash.
    pub(crate) fn first(&self, hash: u64) -> u64 {
        self.entries[self.home(kept(hash))]
    }

    /// The first node whose hash is likely this one, if there is one.
    pub(crate) fn likely(&self, hash: u64) -> Option<u32> {
        self.find(hash, |_| true)
    }

    /// The node with this hash that `is_meant`, if there is one.
    pub(crate) fn find(&self, hash: u64, is_meant: impl Fn(u32) -> bool) -> Option<u32> {
        let kept = kept(hash);
        let last = self.entries.len() - 1;
        let mut place = self.home(kept);
        loop {
            let entry = self.entries[place];
            if entry == 0 {
                return None;
            }
            let node = entry as u32 - 1;
            if (entry >> 32) as u32 == kept && is_meant(node) {
                return Some(node);
            }
            place = (place + 1) & last;
        }
    }

    /// Puts a node in that is not in yet. It must be less than the greatest number.
    pub(crate) fn insert(&mut self, hash: u64, node: u32) {
        // Two thirds full at most.
        if (self.len + 1) * 3 > self.entries.len() * 2 {
            self.grow();
        }
        self.put(u64::from(kept(hash)) << 32 | u64::from(node + 1));
        self.len += 1;
    }

    fn put(&mut self, entry: u64) {
        let last = self.entries.len() - 1;
        let mut place = self.home((entry >> 32) as u32);
        while self.entries[place] != 0 {
            place = (place + 1) & last;
        }
        self.entries[place] = entry;
    }

    fn grow(&mut self) {
        self.bits += 1;
        let old = std::mem::replace(&mut self.entries, vec![0; 1 << self.bits]);
        old.into_iter()
            .filter(|&entry| entry != 0)
            .for_each(|entry| self.put(entry));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_node_is_found_by_its_hash_and_no_other() {
        let mut table = Table::new();
        let hash = |node: u32| u64::from(node).wrapping_mul(0x2545_f491_4f6c_dd1d);
        for node in 0..20_000 {
            assert_eq!(table.find(hash(node), |_| true), None, "{node}");
            table.insert(hash(node), node);
        }
        for node in 0..20_000 {
            assert_eq!(table.find(hash(node), |at| at == node), Some(node));
            assert_eq!(table.find(hash(node), |at| at != node), None);
        }
        assert_eq!(table.len(), 20_000);
        assert!(table.memory() >= 30_000 * 8);
    }

    #[test]
    fn nodes_with_one_hash_stay_apart() {
        let mut table = Table::new();
        for node in [0, 7, u32::MAX - 1] {
            table.insert(u64::MAX, node);
        }
        for node in [0, 7, u32::MAX - 1] {
            assert_eq!(table.find(u64::MAX, |at| at == node), Some(node));
        }
        assert_eq!(table.find(u64::MAX, |at| at == 1), None);
        assert_eq!(table.likely(u64::MAX), Some(0));
    }
}
