//! A short list of moments ahead.

use crate::Micros;

/// How many critical instants a state may name at most.
pub(crate) const INSTANTS_MOST: usize = 48;

/// Moments after now, each before the next event, in any order. Holds at most 48: as many as there
/// are places for seven boards that run at once to come to rest in.
#[derive(Clone, Copy, Debug)]
pub struct Instants {
    items: [Micros; INSTANTS_MOST],
    len: usize,
}

impl Instants {
    /// No moments.
    pub fn new() -> Instants {
        Instants {
            items: [Micros(0); INSTANTS_MOST],
            len: 0,
        }
    }

    /// Adds a moment `after` now.
    ///
    /// A moment that is in the list already is not added again. A full list is a bug of the
    /// model: it stops with an assertion.
    pub fn push(&mut self, after: Micros) {
        if self.as_slice().contains(&after) {
            return;
        }
        assert!(
            self.len < INSTANTS_MOST,
            "a state names too many critical instants"
        );
        self.items[self.len] = after;
        self.len += 1;
    }

    /// The moments, in the order in which they were added.
    pub fn as_slice(&self) -> &[Micros] {
        &self.items[..self.len]
    }

    /// Takes all moments out.
    pub fn clear(&mut self) {
        self.len = 0;
    }
}

impl Default for Instants {
    fn default() -> Instants {
        Instants::new()
    }
}
