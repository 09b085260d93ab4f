//! What a beam sees follows from geometry and light. Nothing is called invisible.

use rackproof_model::{Micrometres, quantity::Percent};

use crate::{BoardKind, Half};

/// How a beam notices a board.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BeamSort {
    /// One eye: it needs enough light back.
    Reflex,
    /// A pair, sender and receiver: a board that is in the line stops the light, whatever its
    /// surface. Light passes through a window.
    Through,
}

/// A beam: it looks along a line.
///
/// Places are in the frame of the slot at belt height: x along the flow from the rack's infeed end,
/// y from the fixed rail, z up from the board's underside.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Beam {
    /// How it notices a board.
    pub sort: BeamSort,
    /// Where it stands, in µm.
    pub origin: [Micrometres; 3],
    /// A point that it aims at, or where its receiver is, in µm. Lower than the origin.
    pub aim: [Micrometres; 3],
    /// How far it reaches, in µm. A pair reaches its receiver, whatever stands here.
    pub range: Micrometres,
    /// How much light must come back, in hundredths. Nought for a pair.
    pub reflectance: Percent,
}

impl Beam {
    /// Where the line meets the plane in which boards lie, and how long it is until there.
    /// `None` if the beam does not look down, or stands below the boards.
    fn spot(&self) -> Option<(i64, i64, i64)> {
        let [ox, oy, oz] = self.origin.map(|place| i64::from(place.0));
        let [ax, ay, az] = self.aim.map(|place| i64::from(place.0));
        let fall = oz - az;
        if fall <= 0 || oz < 0 {
            return None;
        }
        let x = ox + (ax - ox) * oz / fall;
        let y = oy + (ay - oy) * oz / fall;
        // A line that is all but level meets the plane very far away.
        let square: i128 = [x - ox, y - oy, oz]
            .map(|way| i128::from(way) * i128::from(way))
            .iter()
            .sum();
        Some((x, y, square.isqrt() as i64))
    }

    /// Where it meets the plane of the boards, along the flow and from the fixed rail, and how long
    /// its way is until there, in µm, as far as each can be told. `None` if it does not look down,
    /// or from below.
    pub fn meets_boards(&self) -> Option<[Micrometres; 3]> {
        let (x, y, length) = self.spot()?;
        let told =
            |way: i64| Micrometres(way.clamp(i64::from(i32::MIN), i64::from(i32::MAX)) as i32);
        Some([x, y, length].map(told))
    }

    /// Whether it sees a board of `kind` whose leading edge is at `lead`, in µm.
    pub fn sees(&self, kind: &BoardKind, lead: Micrometres) -> bool {
        let Some((x, y, length)) = self.spot() else {
            return false;
        };
        let along = x - i64::from(lead.0 - kind.length.0);
        let inside = |place: i64, from: i64, to: i64| (from..to).contains(&place);
        let on_outline =
            inside(along, 0, i64::from(kind.length.0)) && inside(y, 0, i64::from(kind.width.0));
        let in_window = kind.cutout.is_some_and(|cutout| {
            inside(
                along,
                i64::from(cutout.along_from.0),
                i64::from(cutout.along_to.0),
            ) && inside(
                y,
                i64::from(cutout.across_from.0),
                i64::from(cutout.across_to.0),
            )
        });
        let reaches = self.sort == BeamSort::Through || length <= i64::from(self.range.0);
        on_outline && !in_window && reaches && self.sees_running(kind)
    }

    /// Whether it sees a board of `kind` at rest in one half of the slot.
    pub(crate) fn sees_at_rest(
        &self,
        kind: &BoardKind,
        rest: [Micrometres; 2],
        half: Half,
    ) -> bool {
        self.sees(kind, rest[half as usize])
    }

    /// Whether it sees some part of a board of `kind` that runs past: its spot lies between the
    /// edges of the board, whose frame then crosses it, and enough light comes back.
    pub(crate) fn sees_running(&self, kind: &BoardKind) -> bool {
        let between = |(_, y, _): (i64, i64, i64)| (0..i64::from(kind.width.0)).contains(&y);
        let lit = self.sort == BeamSort::Through || kind.reflectance >= self.reflectance;
        lit && self.spot().is_some_and(between)
    }
}

#[cfg(test)]
mod tests {
    use crate::{Half, sample};

    #[test]
    fn a_green_board_is_seen_in_its_own_half_only() {
        let machine = sample::machine();
        let (wren, [infeed, outfeed]) = (machine.kinds()[0], machine.mouth_beams());
        let rest = machine.rest_leads();
        assert!(infeed.sees_at_rest(&wren, rest, Half::Infeed));
        assert!(!infeed.sees_at_rest(&wren, rest, Half::Outfeed));
        assert!(outfeed.sees_at_rest(&wren, rest, Half::Outfeed));
        assert!(!outfeed.sees_at_rest(&wren, rest, Half::Infeed));
    }

    #[test]
    fn matt_black_and_a_window_in_the_line_are_not_seen_at_rest() {
        let machine = sample::machine();
        let rest = machine.rest_leads();
        let [infeed, outfeed] = machine.mouth_beams();
        for kind in [sample::RAVEN, sample::HERON] {
            let kind = machine.kinds()[kind as usize];
            assert!(!infeed.sees_at_rest(&kind, rest, Half::Infeed));
            assert!(!outfeed.sees_at_rest(&kind, rest, Half::Outfeed));
        }
    }

    /// Common practice: a pair sees matt black, and looks through a routed window.
    #[test]
    fn a_pair_sees_matt_black_and_looks_through_a_window() {
        let machine = sample::machine();
        let rest = machine.rest_leads();
        let [mut infeed, _] = machine.mouth_beams();
        infeed.sort = super::BeamSort::Through;
        let sees =
            |kind: u8| infeed.sees_at_rest(&machine.kinds()[kind as usize], rest, Half::Infeed);
        assert!(sees(sample::WREN) && sees(sample::RAVEN) && !sees(sample::HERON));
    }

    /// The spot lies 100 mm behind the fixed rail: a board of 100 mm runs past beside it.
    #[test]
    fn a_board_that_is_narrower_than_the_spot_is_far_runs_past_unseen() {
        let machine = sample::machine();
        let (mut wren, [infeed, _]) = (machine.kinds()[0], machine.mouth_beams());
        let [_, across, _] = infeed.meets_boards().expect("it looks down");
        assert!(infeed.sees_running(&wren));
        wren.width = across;
        assert!(!infeed.sees_running(&wren));
        wren.width.0 += 1;
        assert!(infeed.sees_running(&wren));
    }

    #[test]
    fn a_board_out_of_range_is_not_seen() {
        let machine = sample::machine();
        let (wren, [mut infeed, _]) = (machine.kinds()[0], machine.mouth_beams());
        let rest = machine.rest_leads();
        infeed.range = rackproof_model::Micrometres(infeed.range.0 / 3);
        assert!(!infeed.sees_at_rest(&wren, rest, Half::Infeed));
        // A pair reaches its receiver, however far apart the two stand.
        infeed.sort = super::BeamSort::Through;
        assert!(infeed.sees_at_rest(&wren, rest, Half::Infeed));
    }
}
