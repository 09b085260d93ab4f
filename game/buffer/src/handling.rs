//! What hands do to boards, and boards to hands.

use rackproof_model::Micrometres;

use crate::{
    Board, BoardFault, Condition, HalfSlot, Harm, HarmKind, Hear, Machine, Outcome, Place, State,
};

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

    /// A board in a half-slot was pushed under, or against, a tall part by so much.
    pub fn strike_tall_part(
        &self,
        s: &mut State,
        at: HalfSlot,
        overlap: Micrometres,
        hear: &mut Hear,
    ) {
        let Some(mut board) = s.rack.get(at) else {
            return;
        };
        if overlap.0 <= 0 || board.condition >= Condition::Collided {
            return;
        }
        board.worsen(Condition::Collided);
        s.rack.set(at, board);
        hear(Outcome::Harmed(Harm {
            kind: HarmKind::TallPartStruck,
            board: Some(board.kind),
            place: Some(Place::Slot(at)),
            number: overlap.0,
            limit: 0,
        }));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Half, sample};

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

    #[test]
    fn a_board_pushed_under_a_tall_part_is_struck_once() {
        let machine = sample::machine();
        let (mut s, mut harms) = (machine.at_rest(sample::WREN), Vec::new());
        let at = HalfSlot {
            slot: 4,
            half: Half::Infeed,
        };
        s.rack.set(at, Board::good(sample::WREN));
        for overlap in [0, 3_000, 3_000] {
            machine.strike_tall_part(&mut s, at, Micrometres(overlap), &mut |outcome| {
                harms.push(outcome);
            });
        }
        let [Outcome::Harmed(harm)] = harms[..] else {
            panic!("{harms:?}");
        };
        assert_eq!((harm.kind, harm.number), (HarmKind::TallPartStruck, 3_000));
    }
}
