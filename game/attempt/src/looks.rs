//! What was looked at since the looks became void: from signs alone. In an exam the person keeps
//! that in mind, or on the tick sheet.

use rackproof_buffer::{Halves, Side};
use rackproof_drill::{Outcome, Sign, Told, VoidCause};
use rackproof_grade::JudgedOutcome;

use crate::Heard;

/// Looks that count now.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Looks {
    /// When the looks became void last, in µs, and by what. `None`: never yet.
    pub voided: Option<(u64, VoidCause)>,
    /// Seen empty.
    pub empty: Halves,
    /// Seen with a board.
    pub boards: Halves,
    /// Seen before, and void now: nobody has looked there again.
    pub lost: Halves,
    /// Belt seen empty, infeed first.
    pub belts: [bool; 2],
    /// Mouth seen free, infeed first.
    pub mouths: [bool; 2],
    upstream_holds: bool,
}

fn place(side: Side) -> usize {
    usize::from(side == Side::Outfeed)
}

impl Looks {
    /// The looks that count after all that was heard.
    pub fn of(heard: &[Heard]) -> Looks {
        let mut looks = Looks::default();
        looks.hear(heard);
        looks
    }

    /// Takes in what was heard since.
    pub fn hear(&mut self, heard: &[Heard]) {
        for one in heard {
            if let JudgedOutcome::World(Outcome::Sign(sign)) = &one.outcome {
                self.take(one.at, sign);
            }
        }
    }

    /// Takes in one sign.
    pub fn take(&mut self, at: u64, sign: &Sign) {
        match *sign {
            Sign::LooksVoided(by) => {
                *self = Looks {
                    voided: Some((at, by)),
                    lost: self.lost.union(self.empty).union(self.boards),
                    upstream_holds: self.upstream_holds,
                    ..Looks::default()
                };
            }
            Sign::Looked { empty, boards } => {
                self.empty = self.empty.union(empty);
                self.boards = self.boards.union(boards);
                self.lost = self.lost.without(empty).without(boards);
            }
            // The infeed belt counts only while upstream holds.
            Sign::SawBelt(side, boards) => {
                let counts = side == Side::Outfeed || self.upstream_holds;
                self.belts[place(side)] = boards == 0 && counts;
            }
            Sign::SawMouth(side, taken) => self.mouths[place(side)] = !taken,
            Sign::BoardLaid => self.belts[place(Side::Infeed)] = false,
            Sign::Told(Told::UpstreamHolds) => self.upstream_holds = true,
            Sign::Told(Told::UpstreamGoesOn) => self.upstream_holds = false,
            _ => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_voided_look_is_lost_until_somebody_looks_again() {
        let halves = |infeed, outfeed| Halves { infeed, outfeed };
        let looked = Sign::Looked {
            empty: halves(0b11, 0),
            boards: halves(0b100, 0),
        };
        let mut looks = Looks::default();
        looks.take(1, &looked);
        assert_eq!((looks.lost, looks.voided), (Halves::NONE, None));
        looks.take(2, &Sign::LooksVoided(VoidCause::HandEntered));
        assert_eq!(looks.voided, Some((2, VoidCause::HandEntered)));
        assert_eq!((looks.empty, looks.lost), (Halves::NONE, halves(0b111, 0)));
        looks.take(
            3,
            &Sign::Looked {
                empty: halves(0b101, 0),
                boards: Halves::NONE,
            },
        );
        assert_eq!(
            (looks.empty, looks.lost),
            (halves(0b101, 0), halves(0b10, 0))
        );
    }
}
