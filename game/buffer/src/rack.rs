//! What truly is in the rack: kinds and conditions as bit planes, so that a state of 40 slots with
//! two boards a slot stays small.

use rackproof_model::key::Coder;

use crate::{Board, Condition, Half, HalfSlot, Halves};

/// The boards in the slots. A board lies in one half of a slot.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Rack {
    present: Halves,
    kind: [Halves; 3],
    condition: [Halves; 3],
}

impl Rack {
    /// Where boards are.
    pub fn present(&self) -> Halves {
        self.present
    }

    /// The board in a half-slot.
    pub fn get(&self, at: HalfSlot) -> Option<Board> {
        self.present.contains(at).then(|| Board {
            kind: number(&self.kind, at),
            condition: Condition::from_number(number(&self.condition, at)),
        })
    }

    /// Puts a board into a half-slot, in place of what is there.
    pub fn set(&mut self, at: HalfSlot, board: Board) {
        self.present.insert(at);
        write(&mut self.kind, at, board.kind);
        write(&mut self.condition, at, board.condition as u8);
    }

    /// Takes the board out of a half-slot.
    pub fn take(&mut self, at: HalfSlot) -> Option<Board> {
        let board = self.get(at)?;
        self.present.remove(at);
        write(&mut self.kind, at, 0);
        write(&mut self.condition, at, 0);
        Some(board)
    }

    /// Where boards of one kind are.
    pub fn of_kind(&self, kind: u8) -> Halves {
        let mut found = self.present;
        for (bit, plane) in self.kind.iter().enumerate() {
            found = if kind >> bit & 1 == 1 {
                found.intersection(*plane)
            } else {
                found.without(*plane)
            };
        }
        found
    }

    /// The boards with their places, from the lowest slot up.
    pub fn iter(&self) -> impl Iterator<Item = (HalfSlot, Board)> + '_ {
        self.present
            .iter()
            .filter_map(|at| self.get(at).map(|board| (at, board)))
    }

    /// The board nearest to the outfeed in a slot, taken out.
    pub(crate) fn take_first(&mut self, slot: u8) -> Option<(Half, Board)> {
        [Half::Outfeed, Half::Infeed].into_iter().find_map(|half| {
            self.take(HalfSlot { slot, half })
                .map(|board| (half, board))
        })
    }

    /// The fields in a key: who is there, then six bits for each board.
    pub(crate) fn code(&mut self, slots: u8, coder: &mut impl Coder) {
        let (mut infeed, mut outfeed) = (self.present.infeed, self.present.outfeed);
        coder.mask(&mut infeed, u32::from(slots));
        coder.mask(&mut outfeed, u32::from(slots));
        let mut read = Rack::default();
        for at in (Halves { infeed, outfeed }).iter() {
            let mut kind = number(&self.kind, at);
            let mut condition = number(&self.condition, at);
            coder.byte(&mut kind, 3);
            coder.byte(&mut condition, 3);
            read.set(
                at,
                Board {
                    kind,
                    condition: Condition::from_number(condition),
                },
            );
        }
        *self = read;
    }
}

fn number(planes: &[Halves; 3], at: HalfSlot) -> u8 {
    planes.iter().enumerate().fold(0, |sum, (bit, plane)| {
        sum | u8::from(plane.contains(at)) << bit
    })
}

fn write(planes: &mut [Halves; 3], at: HalfSlot, value: u8) {
    for (bit, plane) in planes.iter_mut().enumerate() {
        if value >> bit & 1 == 1 {
            plane.insert(at)
        } else {
            plane.remove(at)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

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
                assert!(rack.of_kind(kind).contains(at));
                assert!(!rack.of_kind((kind + 1) % 8).contains(at));
                assert_eq!(rack.take(at), Some(board));
                assert_eq!(rack, Rack::default());
            }
        }
    }
}
