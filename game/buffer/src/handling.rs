//! What hands do to boards, and boards to hands.

use crate::{Board, BoardFault, Condition, Harm, HarmKind, Hear, Machine, Outcome};

/// What the site knows of charge and heat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Handling {
    /// Voltage of a person's body without straps or cord, in V. Nought: nobody looks at charge.
    pub body_volts: u16,
    /// Voltage of a body that is allowed, in V. ANSI/ESD S20.20: under 100 V.
    pub volts_limit: u16,
    /// Temperature in °C up to which a bare hand may hold a board.
    pub burn_degrees: u8,
}

impl Default for Handling {
    /// Nobody looks at charge. 51 °C: the burn threshold of EN ISO 13732-1 for a contact of one
    /// minute with any material, from memory.
    fn default() -> Handling {
        Handling {
            body_volts: 0,
            volts_limit: 100,
            burn_degrees: 51,
        }
    }
}

/// A hand that takes a board.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Hand {
    /// The person's charge can flow off: straps, and at the hatch the cord.
    pub grounded: bool,
    /// In gloves against heat.
    pub gloved: bool,
}

impl Machine {
    /// Temperature of a board in °C, if it is warm.
    pub fn degrees(&self, board: Board) -> Option<u8> {
        match self.odd(board.kind) {
            Some(BoardFault::Warm { degrees, .. }) => Some(degrees),
            _ => None,
        }
    }

    /// A hand takes a board: what that does to either. The board as it is then.
    pub fn take_in_hand(&self, board: Board, hand: Hand, hear: &mut Hear) -> Board {
        let mut board = self.in_hand(board);
        let handling = self.parts.handling;
        let harm = |kind, number: i32, limit: i32| {
            Outcome::Harmed(Harm {
                kind,
                board: Some(board.kind),
                place: None,
                number,
                limit,
            })
        };
        let (volts, most) = (handling.body_volts, handling.volts_limit);
        let charges = !hand.grounded && volts > most && board.condition < Condition::Charged;
        if charges {
            hear(harm(HarmKind::Charged, i32::from(volts), i32::from(most)));
        }
        let hot = self.degrees(board).unwrap_or(0);
        if hot > handling.burn_degrees && !hand.gloved {
            let limit = i32::from(handling.burn_degrees);
            hear(harm(HarmKind::Burned, i32::from(hot), limit));
        }
        if charges {
            board.worsen(Condition::Charged);
        }
        board
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample;

    fn taken(volts: u16, hand: Hand, kind: u8) -> (Board, Vec<(HarmKind, i32, i32)>) {
        let mut parts = sample::parts();
        parts.handling.body_volts = volts;
        let machine = Machine::new(parts).with_faults(crate::faults::sample::faults());
        let mut harms = Vec::new();
        let board = machine.take_in_hand(Board::good(kind), hand, &mut |outcome| {
            if let Outcome::Harmed(harm) = outcome {
                harms.push((harm.kind, harm.number, harm.limit));
            }
        });
        (board, harms)
    }

    /// ANSI/ESD S20.20: less than 100 V on the body. Who is not grounded charges a board, which
    /// then looks as good as before.
    #[test]
    fn a_board_touched_without_straps_is_charged_and_looks_good() {
        let bare = Hand {
            grounded: false,
            gloved: false,
        };
        let grounded = Hand {
            grounded: true,
            ..bare
        };
        let (board, harms) = taken(1_500, bare, sample::WREN);
        assert_eq!(harms, [(HarmKind::Charged, 1_500, 100)]);
        assert_eq!(board.condition, Condition::Charged);
        assert!(!board.condition.shows() && HarmKind::Charged.is_latent());
        assert_eq!(taken(1_500, grounded, sample::WREN).1, []);
        assert_eq!(taken(100, bare, sample::WREN).1, []);
    }

    /// A board of 80 °C against 51 °C (EN ISO 13732-1, one minute, from memory).
    #[test]
    fn a_hot_board_burns_a_bare_hand() {
        let machine = sample::machine().with_faults(crate::faults::sample::faults());
        let warm = machine.odd_kind(13).expect("it is a board's");
        let bare = Hand {
            grounded: true,
            gloved: false,
        };
        let gloved = Hand {
            gloved: true,
            ..bare
        };
        assert_eq!(taken(0, bare, warm).1, [(HarmKind::Burned, 80, 51)]);
        assert_eq!(taken(0, gloved, warm).1, []);
        assert_eq!(taken(0, bare, sample::WREN).1, []);
    }
}
