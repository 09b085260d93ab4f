//! Boards that are not as their kind is. Such a board counts as a kind of its own, so that beams,
//! rails and eyes meet its true measures; its name stays that of its kind.

use rackproof_model::Micrometres;

use crate::{Board, BoardKind, HalfSlot, Machine, State, runners::Runner};

/// Where a board is that is found to be odd.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum BoardPlace {
    /// In a half of a slot.
    Slot(HalfSlot),
    /// On the infeed belt.
    InfeedBelt,
    /// Still upstream.
    Upstream,
}

/// What is odd about a board.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BoardFault {
    /// It comes warm, and has grown.
    Warm {
        /// Its temperature in °C.
        degrees: u8,
        /// How much wider it is.
        grown: Micrometres,
    },
    /// It is bowed: its middle stands so far off a plane along its length.
    Bowed(Micrometres),
    /// It lies askew and takes so much more width. Straight again once it was taken in hand.
    Askew(Micrometres),
    /// It lies turned by 90 degrees: its length lies across the flow.
    Turned,
}

/// Bow that boards with surface-mounted parts may have, in hundredths of a hundredth of the length.
/// Source: IPC-A-610, 10.2.7: 0.75 %.
const BOW_MOST: i64 = 75;

impl BoardFault {
    pub(crate) fn applied_to(self, kind: BoardKind) -> BoardKind {
        let more = match self {
            BoardFault::Warm { grown, .. } => grown,
            BoardFault::Bowed(_) => Micrometres(0),
            BoardFault::Askew(more) => more,
            BoardFault::Turned => {
                return BoardKind {
                    length: kind.width,
                    width: kind.length,
                    ..kind
                };
            }
        };
        BoardKind {
            width: kind.width + more,
            ..kind
        }
    }
}

impl Machine {
    /// What is odd about boards of a kind; `None` for kinds of the machine's file.
    pub fn odd(&self, kind: u8) -> Option<BoardFault> {
        let odd = self.odds.get(kind as usize).copied().flatten();
        odd.map(|(_, odd)| odd)
    }

    /// The kind of the machine's file that a board of `kind` is.
    pub fn base_kind(&self, kind: u8) -> u8 {
        let odd = self.odds.get(kind as usize).copied().flatten();
        odd.map_or(kind, |(base, _)| base)
    }

    /// The kind that boards become by the fault with this number, if it is one of a board.
    pub fn odd_kind(&self, number: u8) -> Option<u8> {
        let boards = |fault: &&crate::Fault| matches!(fault, crate::Fault::Board { .. });
        let before = self.faults[..number as usize].iter().filter(boards).count();
        let own = self.odds.iter().take_while(|odd| odd.is_none()).count();
        boards(&&self.faults[number as usize]).then_some((own + before) as u8)
    }

    /// A board that was taken in hand lies askew no more.
    pub fn in_hand(&self, board: Board) -> Board {
        match self.odd(board.kind) {
            Some(BoardFault::Askew(_)) => Board {
                kind: self.base_kind(board.kind),
                ..board
            },
            _ => board,
        }
    }

    /// The board at a place, if it is of `kind`, becomes odd by the fault with this number.
    pub(crate) fn make_odd(&self, s: &mut State, place: BoardPlace, kind: u8, number: u8) {
        let Some(becomes) = self.odd_kind(number) else {
            return;
        };
        let change = |board: Board| Board {
            kind: if board.kind == kind {
                becomes
            } else {
                board.kind
            },
            ..board
        };
        match place {
            BoardPlace::Slot(at) => {
                if let Some(board) = s.rack.get(at) {
                    s.rack.set(at, change(board));
                }
            }
            BoardPlace::InfeedBelt => s.infeed_belt = s.infeed_belt.map(change),
            BoardPlace::Upstream => {
                let comes = s.belts.is_run() && s.runners.purpose.takes_in();
                if !comes {
                    s.upstream_board = s.upstream_board.map(change);
                }
            }
        }
    }

    /// Whether boards of a kind jam where a mouth or a divider leads them: askew, or bowed more
    /// than boards may be.
    pub fn jams(&self, kind: u8) -> bool {
        match self.odd(kind) {
            Some(BoardFault::Askew(_)) => true,
            Some(BoardFault::Bowed(bow)) => {
                let length = i64::from(self.parts.kinds[kind as usize].length.0);
                i64::from(bow.0) * 10_000 > BOW_MOST * length
            }
            _ => false,
        }
    }

    /// Where a board that jams comes to rest at the latest: across the infeed mouth, or where it
    /// lies already.
    #[inline]
    pub(crate) fn jam_stop(&self, runner: Runner) -> Option<i32> {
        // Mostly no board is odd.
        if self.odds.is_empty() {
            return None;
        }
        self.jam_stop_of_odd(runner)
    }

    #[cold]
    fn jam_stop_of_odd(&self, runner: Runner) -> Option<i32> {
        if !self.jams(runner.board.kind) {
            return None;
        }
        let across = self.mouth_leads(self.length(runner.board))[0];
        Some(across.max(runner.start))
    }
}
