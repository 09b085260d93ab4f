//! What truly is in the rack: who lies where as bit masks, what lies there as a byte a place, so
//! that a state of 40 slots with two boards a slot stays small and a board is found at once.

use rackproof_model::key::Coder;

use crate::{Board, Condition, HalfSlot, Halves, KINDS_MOST, SLOTS_MOST};

/// The boards in the slots. A board lies in one half of a slot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rack {
    present: Halves,
    /// Kind and condition of what lies in each half, see [`pack`]; nought where nothing lies, so
    /// that equal racks are equal byte for byte.
    boards: [[u8; 2]; SLOTS_MOST],
}

impl Default for Rack {
    fn default() -> Rack {
        Rack {
            present: Halves::NONE,
            boards: [[0; 2]; SLOTS_MOST],
        }
    }
}

/// Three bits for the kind, then three for the condition.
#[inline]
fn pack(board: Board) -> u8 {
    board.kind | (board.condition as u8) << 3
}

#[inline]
fn unpack(byte: u8) -> Board {
    Board {
        kind: byte & 7,
        condition: Condition::from_number(byte >> 3),
    }
}

impl Rack {
    /// Where boards are.
    #[inline]
    pub fn present(&self) -> Halves {
        self.present
    }

    /// The board in a half-slot.
    #[inline]
    pub fn get(&self, at: HalfSlot) -> Option<Board> {
        let there = self.present.contains(at);
        there.then(|| unpack(self.boards[at.slot as usize][at.half as usize]))
    }

    /// What is in a half-slot as a number below 128, another one for each that there may be; nought
    /// for nothing.
    #[inline]
    pub(crate) fn byte(&self, at: HalfSlot) -> u8 {
        let board = self.boards[at.slot as usize][at.half as usize];
        u8::from(self.present.contains(at)) << 6 | board
    }

    /// Puts a board into a half-slot, in place of what is there.
    #[inline]
    pub fn set(&mut self, at: HalfSlot, board: Board) {
        self.present.insert(at);
        self.boards[at.slot as usize][at.half as usize] = pack(board);
    }

    /// Takes the board out of a half-slot.
    #[inline]
    pub fn take(&mut self, at: HalfSlot) -> Option<Board> {
        let board = self.get(at)?;
        self.present.remove(at);
        self.boards[at.slot as usize][at.half as usize] = 0;
        Some(board)
    }

    /// Where boards of each kind are.
    pub fn by_kind(&self) -> [Halves; KINDS_MOST] {
        let mut found = [Halves::NONE; KINDS_MOST];
        for (at, board) in self.iter() {
            found[board.kind as usize].insert(at);
        }
        found
    }

    /// The boards with their places, from the lowest slot up.
    pub fn iter(&self) -> impl Iterator<Item = (HalfSlot, Board)> + '_ {
        self.present
            .iter()
            .filter_map(|at| self.get(at).map(|board| (at, board)))
    }

    /// The fields in a key: who is there, then six bits for each board.
    pub(crate) fn code(&mut self, slots: u8, coder: &mut impl Coder) {
        let Halves {
            mut infeed,
            mut outfeed,
        } = self.present;
        coder.mask(&mut infeed, u32::from(slots));
        coder.mask(&mut outfeed, u32::from(slots));
        let there = Halves { infeed, outfeed };
        // What is not there any more is wiped out: a key that is read says it anew.
        for gone in self.present.without(there).iter() {
            self.take(gone);
        }
        self.present = there;
        for at in there.iter() {
            coder.byte(&mut self.boards[at.slot as usize][at.half as usize], 6);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Half;

    #[test]
    fn a_board_comes_out_as_it_went_in() {
        let mut rack = Rack::default();
        for condition in Condition::ALL {
            for kind in 0..8 {
                let at = HalfSlot {
                    slot: 39,
                    half: Half::Outfeed,
                };
                let board = Board { kind, condition };
                rack.set(at, board);
                assert_eq!(rack.get(at), Some(board));
                let by_kind = rack.by_kind();
                assert!(by_kind[kind as usize].contains(at));
                assert_eq!(by_kind.iter().map(Halves::len).sum::<u32>(), 1);
                assert_eq!(rack.take(at), Some(board));
                assert_eq!(rack, Rack::default());
            }
        }
    }
}
