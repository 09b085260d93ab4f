//! What could be seen at a moment, and from where: for evidence, whoever stood elsewhere.

use rackproof_buffer::{Halves, Place, Side};

use crate::{Aim, Outcome, Sign, Stand, State, World};

/// A place to stand with an aim for the eyes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Vantage {
    /// Where one stands.
    pub stand: Stand,
    /// Where one looks.
    pub aim: Aim,
}

/// All that a look from one place shows, with the torch lit and, at the hatch, the hatch open.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct InView {
    /// Half-slots that are seen empty.
    pub empty: Halves,
    /// Half-slots in which a board is seen.
    pub boards: Halves,
    /// The belt that is seen, and how many boards are seen on it.
    pub belt: Option<(Side, u8)>,
    /// The mouth that is seen, and whether a board lies across it.
    pub mouth: Option<(Side, bool)>,
}

impl Vantage {
    /// Each look that there is.
    pub const ALL: [Vantage; 4] = [
        Vantage::new(Stand::Hatch, Aim::LeanInfeed),
        Vantage::new(Stand::Hatch, Aim::LeanOutfeed),
        Vantage::new(Stand::Infeed, Aim::Mouth),
        Vantage::new(Stand::Outfeed, Aim::Mouth),
    ];

    const fn new(stand: Stand, aim: Aim) -> Vantage {
        Vantage { stand, aim }
    }
}

impl InView {
    /// Whether a board in this place is seen.
    pub fn shows(&self, place: Place) -> bool {
        match place {
            Place::Slot(at) => self.boards.contains(at),
            Place::Belt(side) => matches!(self.belt, Some((seen, 1..)) if seen == side),
            Place::Mouth(side) => self.mouth == Some((side, true)),
        }
    }

    fn take(&mut self, sign: &Sign) {
        match *sign {
            Sign::Looked { empty, boards } => (self.empty, self.boards) = (empty, boards),
            Sign::SawBelt(side, boards) => self.belt = Some((side, boards)),
            Sign::SawMouth(side, taken) => self.mouth = Some((side, taken)),
            _ => {}
        }
    }
}

impl World {
    /// What a look from there would show now: just what [`World::seen`] and the look itself tell.
    pub fn in_view(&self, s: &State, from: Vantage) -> InView {
        let mut there = *s;
        there.person.stand = from.stand;
        there.person.torch = true;
        let mut view = InView::default();
        self.look(&there, from.aim, &mut |outcome| {
            if let Outcome::Sign(sign) = &outcome {
                view.take(sign);
            }
        });
        view
    }

    /// Where boards are now that nobody holds: in the rack, on the belts, across the mouths.
    pub fn board_places(&self, s: &State) -> Vec<(Place, u8)> {
        let machine = &s.machine;
        let rack = machine
            .rack
            .iter()
            .map(|(at, board)| (Place::Slot(at), board.kind));
        let around = [
            (Place::Belt(Side::Infeed), machine.infeed_belt),
            (Place::Mouth(Side::Infeed), machine.mouths[0]),
            (Place::Mouth(Side::Outfeed), machine.mouths[1]),
            (Place::Belt(Side::Outfeed), machine.outfeed_belt[1]),
            (Place::Belt(Side::Outfeed), machine.outfeed_belt[0]),
        ];
        let around = around
            .into_iter()
            .filter_map(|(place, board)| Some((place, board?.kind)));
        rack.chain(around).collect()
    }
}

#[cfg(test)]
mod tests {
    use rackproof_buffer::{Board, Half, HalfSlot};
    use rackproof_model::Model;

    use super::*;
    use crate::{Cause, Intent, world_tests::sample_world};

    /// Source: the signs of a look that is really done there, by somebody who walks, lights the
    /// torch and opens the hatch.
    #[test]
    fn what_is_in_view_is_what_a_look_from_there_tells() {
        let world = sample_world();
        let mut start = world.start();
        let at = |slot, half| HalfSlot { slot, half };
        for (slot, half, kind) in [(0, Half::Infeed, 3), (5, Half::Outfeed, 0)] {
            start.machine.rack.set(at(slot, half), Board::good(kind));
        }
        start.machine.infeed_belt = Some(Board::good(0));
        start.machine.mouths[1] = Some(Board::good(0));
        let mut seen = 0;
        for from in Vantage::ALL {
            let mut s = start;
            let mut signs = Vec::new();
            let doings = [
                Intent::Torch(true),
                Intent::Walk(Stand::Hatch),
                Intent::OpenHatch,
                Intent::Walk(from.stand),
                Intent::Look(from.aim),
            ];
            for intent in doings {
                signs.clear();
                world.act(&mut s, Cause::Did(intent), &mut |outcome| {
                    signs.push(outcome)
                });
            }
            let mut told = InView::default();
            for sign in &signs {
                if let Outcome::Sign(sign) = sign {
                    told.take(sign);
                }
            }
            // From the start: nobody has walked, and the torch is dark.
            let view = world.in_view(&start, from);
            assert_eq!(view, told, "{from:?}");
            seen += world
                .board_places(&start)
                .iter()
                .filter(|(place, _)| view.shows(*place))
                .count();
        }
        // Two that were laid, the variant's own, belt and mouth.
        assert_eq!(world.board_places(&start).len(), 5);
        assert!(seen >= 5, "each is seen from somewhere: {seen}");
    }
}
