//! What the controller's beams tell it, faults and all.

use rackproof_model::Micrometres;

use super::{BeamFault, BeamName, Fault};
use crate::{Beam, Board, Defect, Half, HalfSlot, Machine, State};

impl Beam {
    /// The same beam with its spot elsewhere.
    fn moved(self, along: Micrometres, across: Micrometres) -> Beam {
        let [x, y, z] = self.origin;
        let [aim_x, aim_y, aim_z] = self.aim;
        Beam {
            origin: [x + along, y + across, z],
            aim: [aim_x + along, aim_y + across, aim_z],
            ..self
        }
    }
}

impl Machine {
    /// What is wrong with a beam now.
    #[inline]
    pub fn beam_fault(&self, s: &State, beam: BeamName) -> Option<BeamFault> {
        if s.faults.present == 0 {
            return None;
        }
        self.beam_fault_present(s, beam)
    }

    #[cold]
    fn beam_fault_present(&self, s: &State, beam: BeamName) -> Option<BeamFault> {
        self.present(s).find_map(|fault| match fault {
            Fault::Beam(name, wrong) if name == beam => Some(wrong),
            _ => None,
        })
    }

    /// Whether the beams at the mouths see something in the slot at belt height.
    pub(crate) fn mouths_see(&self, s: &State, slot: u8) -> bool {
        if self.has(Defect::SweepBlind) {
            return false;
        }
        let boards = || {
            let board = |half| {
                s.rack
                    .get(HalfSlot { slot, half })
                    .map(|board| (half, board))
            };
            Half::BOTH.into_iter().filter_map(board)
        };
        if s.faults.present == 0 {
            return boards().any(|(half, board)| self.sweep_sees(board.kind, half));
        }
        let names = [BeamName::InfeedMouth, BeamName::OutfeedMouth];
        names.into_iter().enumerate().any(|(at, name)| {
            let beam = match self.beam_fault(s, name) {
                None => self.parts.mouth_beams[at],
                Some(BeamFault::Nothing) => return false,
                Some(BeamFault::Always) => return true,
                Some(BeamFault::Elsewhere { along, across }) => {
                    self.parts.mouth_beams[at].moved(along, across)
                }
            };
            boards().any(|(half, board)| {
                let kind = &self.parts.kinds[board.kind as usize];
                beam.sees_at_rest(kind, self.rest_leads(), half)
            })
        })
    }

    /// Whether the infeed beam saw a board run into its place, where this one now lies, or none.
    #[inline]
    pub(crate) fn saw_arrival(&self, s: &State, board: Option<Board>) -> bool {
        if s.faults.present == 0 {
            return board.is_some_and(|board| self.infeed_sees >> board.kind & 1 == 1);
        }
        self.saw_arrival_faulty(s, board)
    }

    #[cold]
    fn saw_arrival_faulty(&self, s: &State, board: Option<Board>) -> bool {
        let fault = self.beam_fault(s, BeamName::InfeedMouth);
        if fault == Some(BeamFault::Always) {
            return true;
        }
        let Some(board) = board else {
            return false;
        };
        match fault {
            Some(BeamFault::Nothing) => false,
            Some(BeamFault::Elsewhere { along, across }) => {
                let beam = self.parts.mouth_beams[0].moved(along, across);
                beam.sees_running(&self.parts.kinds[board.kind as usize])
            }
            _ => self.infeed_sees >> board.kind & 1 == 1,
        }
    }

    /// Whether the end beam sees a board of `kind` that is at it.
    pub(crate) fn end_sees(&self, s: &State, kind: u8) -> bool {
        match self.beam_fault(s, BeamName::End) {
            None => self.end_beam_sees(kind),
            Some(BeamFault::Always) => true,
            Some(_) => false,
        }
    }

    /// Whether the end beam is broken before the belts run out.
    pub(crate) fn end_is_broken(&self, s: &State) -> bool {
        self.beam_fault(s, BeamName::End) == Some(BeamFault::Always)
            || s.outfeed_belt[0].is_some_and(|board| self.end_sees(s, board.kind))
    }
}
