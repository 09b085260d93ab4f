//! Where the boards outside the slots lie or run now: for pictures. Exact while belts run; at rest
//! the place that stands for its class.

use rackproof_model::Micrometres;

use crate::{Board, Machine, Side, State};

/// Where a board outside the slots is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum LyingOn {
    /// At rest on a belt.
    Belt(Side),
    /// At rest across a mouth.
    Mouth(Side),
    /// Running, on whatever lies under it.
    Running,
}

/// A board outside the slots.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lying {
    /// The board.
    pub board: Board,
    /// Its leading edge, in µm from the rack's infeed end along the flow.
    pub lead: Micrometres,
    /// What it lies on.
    pub on: LyingOn,
}

impl Machine {
    /// The boards on belts, across mouths and running, in no order of the flow.
    pub fn lying(&self, s: &State) -> impl Iterator<Item = Lying> + '_ {
        let [infeed, short_of_end, at_end] = self.belt_leads();
        let across = s
            .mouths
            .map(|board| board.map_or(0, |board| self.length(board)));
        let rest = [
            (s.infeed_belt, infeed, LyingOn::Belt(Side::Infeed)),
            (
                s.mouths[0],
                self.mouth_leads(across[0])[0],
                LyingOn::Mouth(Side::Infeed),
            ),
            (
                s.mouths[1],
                self.mouth_leads(across[1])[1],
                LyingOn::Mouth(Side::Outfeed),
            ),
            (
                s.outfeed_belt[1],
                short_of_end,
                LyingOn::Belt(Side::Outfeed),
            ),
            (s.outfeed_belt[0], at_end, LyingOn::Belt(Side::Outfeed)),
        ];
        let running = s.runners;
        let running: Vec<Lying> = running
            .list()
            .iter()
            .zip(self.leads(s))
            .map(|(runner, lead)| lies(runner.board, lead, LyingOn::Running))
            .collect();
        let rest = rest
            .into_iter()
            .filter_map(|(board, lead, on)| board.map(|board| lies(board, lead, on)));
        rest.chain(running)
    }

    /// Leading edges of a board of this length across either mouth.
    pub(crate) fn mouth_leads(&self, length: i32) -> [i32; 2] {
        let gap = self.parts.gap.0;
        [
            (length - gap) / 2,
            self.parts.rack_length.0 + (gap + length) / 2,
        ]
    }
}

fn lies(board: Board, lead: i32, on: LyingOn) -> Lying {
    Lying {
        board,
        lead: Micrometres(lead),
        on,
    }
}

#[cfg(test)]
mod tests {
    use rackproof_model::Micros;

    use super::*;
    use crate::{Button, sample};

    fn leads(machine: &Machine, s: &State) -> Vec<(i32, LyingOn)> {
        machine
            .lying(s)
            .map(|lying| (lying.lead.0, lying.on))
            .collect()
    }

    /// Figures of the sample: gap 9 mm, infeed 400 mm, a wren 180 mm long, rest 10 mm.
    #[test]
    fn a_board_runs_from_where_it_lay() {
        let machine = sample::machine();
        let mut s = machine.at_rest(sample::WREN);
        s.infeed_belt = Some(Board::good(sample::WREN));
        let parts = machine.parts();
        let rest = -parts.gap.0 - parts.rest_clearance.0;
        assert_eq!(leads(&machine, &s), [(rest, LyingOn::Belt(Side::Infeed))]);
        for button in [Button::Reset, Button::Start] {
            machine.press(&mut s, button, &mut |_| {});
        }
        machine.upstream_signal(&mut s, Some(Board::good(sample::WREN)), &mut |_| {});
        let start = -parts.gap.0 - parts.infeed_length.0;
        let running = |way| {
            vec![
                (rest + way, LyingOn::Running),
                (start + way, LyingOn::Running),
            ]
        };
        assert_eq!(leads(&machine, &s), running(0));
        machine.advance(&mut s, Micros::from_millis(500), &mut |_| {});
        let [_, _, belts] = s.motions();
        let way = belts.covered(&parts.axes.belts).0;
        assert!(way > 50_000, "{way}");
        assert_eq!(leads(&machine, &s), running(way));
    }

    #[test]
    fn boards_at_rest_lie_where_their_class_stands() {
        let machine = sample::machine();
        let mut s = machine.at_rest(sample::WREN);
        let board = Some(Board::good(sample::WREN));
        s.mouths = [board; 2];
        s.outfeed_belt = [board; 2];
        let end = machine.outfeed_end();
        let found = leads(&machine, &s);
        let length = machine.kinds()[sample::WREN as usize].length.0;
        let middle = |(lead, _): (i32, LyingOn)| lead - length / 2;
        let parts = machine.parts();
        // The middle of a board across a mouth lies in the middle of the gap, within a µm.
        assert!((middle(found[0]) + parts.gap.0 / 2).abs() <= 1, "{found:?}");
        let gap = parts.rack_length.0 + parts.gap.0 / 2;
        assert!((middle(found[1]) - gap).abs() <= 1, "{found:?}");
        assert_eq!(found[3], (end, LyingOn::Belt(Side::Outfeed)));
        assert_eq!(found[2].0, end - parts.rack_length.0 / 2);
    }
}
