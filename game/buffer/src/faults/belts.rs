//! Belts that slip, and boards that the machine downstream does not take.

use rackproof_model::Micrometres;

use super::Fault;
use crate::{Condition, Harm, HarmKind, Hear, Machine, Place, Side, State};

impl Machine {
    /// By how much a run of the belts that begins now slips, in hundredths.
    #[inline]
    pub(crate) fn slip(&self, s: &State) -> u8 {
        if s.faults.present == 0 {
            return 0;
        }
        let slips = self.present(s).map(|fault| match fault {
            Fault::BeltsSlip(slip) => slip,
            _ => 0,
        });
        slips.max().unwrap_or(0)
    }

    /// Whether boards come less far than the belts that run now.
    pub fn belts_slip(&self, s: &State) -> bool {
        !s.belts.is_rest() && s.faults.slip > 0
    }

    /// How far boards come on belts that ran so far.
    #[inline]
    pub(crate) fn board_way(&self, s: &State, belts: i32) -> i32 {
        match s.faults.slip {
            0 => belts,
            slip => (i64::from(belts) * i64::from(100 - slip) / 100) as i32,
        }
    }

    /// How far belts run until boards have come so far.
    pub(crate) fn belt_way(&self, s: &State, boards: i32) -> Micrometres {
        Micrometres(match s.faults.slip {
            0 => boards,
            slip => {
                let way = (i64::from(boards) * 100).div_euclid(i64::from(100 - slip));
                let short = self.board_way(s, way as i32) < boards;
                (way + i64::from(short)).min(i64::from(i32::MAX)) as i32
            }
        })
    }

    /// Whether the first runner has left the outfeed belt.
    pub(crate) fn first_has_left(&self, s: &State) -> bool {
        self.has_left(s, self.leads(s)[0])
    }

    /// Whether there is a first runner, and has left the outfeed belt with its leading edge there.
    pub(crate) fn has_left(&self, s: &State, lead: i32) -> bool {
        let first = s.runners.first();
        first.is_some_and(|first| lead >= self.outfeed_end() + self.length(first.board))
    }

    /// A board that was sent to a machine that stands is driven into it: the first runner, with its
    /// leading edge there.
    pub(crate) fn run_into_downstream(&self, s: &mut State, lead: i32, hear: &mut Hear) {
        let at_end = lead == self.outfeed_end();
        if !s.faults.blocked || !s.runners.purpose.sends() || !at_end {
            return;
        }
        let Some(first) = s.runners.get_mut(0) else {
            return;
        };
        if first.board.condition >= Condition::Collided {
            return;
        }
        first.board.worsen(Condition::Collided);
        let board = first.board;
        hear(crate::Outcome::Harmed(Harm {
            kind: HarmKind::Collided,
            board: Some(board.kind),
            place: Some(Place::Belt(Side::Outfeed)),
            number: self.length(board),
            limit: 0,
        }));
    }
}
