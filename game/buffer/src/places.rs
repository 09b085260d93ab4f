//! Where boards come to lie when the belts rest, and what hands lay down and take away there. A
//! place at rest is a class: exact places are forgotten.

use crate::{
    Board, Half, HalfSlot, Hear, Machine, Place, Side, State,
    runners::{Runner, Runners},
};

/// Places along the flow, the one farthest back first.
const PLACES: usize = 7;
const INFEED_BELT: usize = 0;
const INFEED_MOUTH: usize = 1;
const INFEED_HALF: usize = 2;
const OUTFEED_HALF: usize = 3;
const OUTFEED_MOUTH: usize = 4;
const SHORT_OF_END: usize = 5;
const AT_END: usize = 6;

impl Machine {
    /// Where the leading edge of a board of a kind counts as being that came to rest at `lead`: its
    /// place stands for all that it may be at.
    pub(crate) fn rest_of(&self, kind: u8, lead: i32) -> i32 {
        let [on_infeed, short_of_end, at_end] = self.belt_leads();
        let [infeed_half, outfeed_half] = self.rest_leads().map(|lead| lead.0);
        let [infeed_mouth, outfeed_mouth] = self.mouth_leads(self.length(Board::good(kind)));
        [
            on_infeed,
            infeed_mouth,
            infeed_half,
            outfeed_half,
            outfeed_mouth,
            short_of_end,
            at_end,
        ][self.place_reached(kind, lead)]
    }

    /// The place in which a board of a kind lies with its leading edge there.
    fn place_reached(&self, kind: u8, lead: i32) -> usize {
        let edges = self.place_edges(kind);
        edges.iter().take_while(|&&edge| lead >= edge).count()
    }

    /// Puts the runners down where their motion has ended: at their starts.
    pub(crate) fn deposit(&self, s: &mut State) {
        let Some(slot) = s.slot_at_belts() else {
            debug_assert!(s.runners.len == 0, "belts ran at no slot");
            return;
        };
        for at in 0..s.runners.list().len() {
            self.lay_down(s, slot, s.runners.list()[at]);
        }
        s.runners = Runners::default();
    }

    /// Lays a runner down where it is, with this slot at the belts.
    #[inline]
    fn lay_down(&self, s: &mut State, slot: u8, runner: Runner) {
        let want = self.place_reached(runner.board.kind, runner.start);
        // Mostly a board comes into a half in which nothing lies.
        if let Some(half) = half_of(want)
            && !s.rack.present().contains(HalfSlot { slot, half })
        {
            s.rack.set(HalfSlot { slot, half }, runner.board);
            return;
        }
        self.lay_among_others(s, slot, want, runner.board);
    }

    #[inline(never)]
    fn lay_among_others(&self, s: &mut State, slot: u8, want: usize, board: Board) {
        let mut places = places_at(s, slot);
        lay(&mut places, want, board);
        put_places(s, slot, places);
    }

    /// Lays a board on the infeed belt by hand. `false` if there is no room or it does not fit
    /// between the rails.
    pub fn lay_on_infeed_belt(&self, s: &mut State, board: Board, hear: &mut Hear) -> bool {
        let width = s.width(self);
        let fits = width >= self.parts.kinds[board.kind as usize].width;
        if s.infeed_belt.is_some() || !s.belts.is_rest() || !fits {
            return false;
        }
        let mut board = board;
        self.press_board(&mut board, Place::Belt(Side::Infeed), width, hear);
        s.infeed_belt = Some(board);
        true
    }

    /// Takes the nearest board off a belt.
    pub fn take_from_belt(&self, s: &mut State, side: Side) -> Option<Board> {
        if !s.belts.is_rest() {
            return None;
        }
        match side {
            Side::Infeed => s.infeed_belt.take(),
            Side::Outfeed => s.outfeed_belt[0]
                .take()
                .or_else(|| s.outfeed_belt[1].take()),
        }
    }

    /// Works a board free that lies across a mouth.
    pub fn take_from_mouth(&self, s: &mut State, side: Side) -> Option<Board> {
        s.belts
            .is_rest()
            .then(|| s.mouths[side as usize].take())
            .flatten()
    }

    /// Puts a board into a half-slot by hand. `false` if one is there, if it does not fit between
    /// the rails or among tall parts, at rest or on the belts, or if the slot's belts run.
    pub fn put_in_rack(&self, s: &mut State, at: HalfSlot, board: Board, hear: &mut Hear) -> bool {
        let width = s.width(self);
        let fits = width >= self.parts.kinds[board.kind as usize].width;
        let runs = !s.belts.is_rest() && s.slot_at_belts() == Some(at.slot);
        let touches = self.touched_at(s, at, board.kind).is_some()
            || self.touches_runners(s, at.slot, board.kind);
        if s.rack.get(at).is_some() || !fits || runs || touches {
            return false;
        }
        let mut board = board;
        self.press_board(&mut board, Place::Slot(at), width, hear);
        s.rack.set(at, board);
        true
    }
}

/// The half of the slot that a place is, if it is one.
fn half_of(place: usize) -> Option<Half> {
    match place {
        INFEED_HALF => Some(Half::Infeed),
        OUTFEED_HALF => Some(Half::Outfeed),
        _ => None,
    }
}

/// What lies in the places along the flow, with this slot at the belts.
fn places_at(s: &State, slot: u8) -> [Option<Board>; PLACES] {
    let [infeed, outfeed] = Half::BOTH.map(|half| s.rack.get(HalfSlot { slot, half }));
    [
        s.infeed_belt,
        s.mouths[0],
        infeed,
        outfeed,
        s.mouths[1],
        s.outfeed_belt[1],
        s.outfeed_belt[0],
    ]
}

/// Puts there what lies in the places now.
fn put_places(s: &mut State, slot: u8, places: [Option<Board>; PLACES]) {
    s.infeed_belt = places[INFEED_BELT];
    s.mouths = [places[INFEED_MOUTH], places[OUTFEED_MOUTH]];
    s.outfeed_belt = [places[AT_END], places[SHORT_OF_END]];
    for (half, place) in [(Half::Infeed, INFEED_HALF), (Half::Outfeed, OUTFEED_HALF)] {
        let at = HalfSlot { slot, half };
        match places[place] {
            Some(board) => s.rack.set(at, board),
            None => drop(s.rack.take(at)),
        }
    }
}

/// Lays a board down in a place, or as near to it as can be if that is taken. Boards come in the
/// order of the flow, the first one first, so that behind the place there is room for those behind.
fn lay(places: &mut [Option<Board>; PLACES], want: usize, board: Board) {
    // The one ahead moves up within the slot, or on the outfeed belt.
    let moves_up = want == INFEED_HALF || want == SHORT_OF_END;
    if moves_up && places[want + 1].is_none() {
        places.swap(want, want + 1);
    }
    if let Some(free) = (0..=want).rev().find(|&at| places[at].is_none()) {
        places[free] = Some(board);
    } else if let Some(free) = (want..PLACES).find(|&at| places[at].is_none()) {
        // Two whole boards on the infeed belt: the first counts as across the mouth.
        places[..=free].rotate_right(1);
        places[0] = Some(board);
    } else {
        debug_assert!(false, "a board has no place");
    }
}

#[cfg(test)]
mod tests {
    use rackproof_model::Micros;

    use super::*;
    use crate::{Button, Outcome, sample};

    /// A machine in production with boards on its infeed belt as told, offered one more.
    fn taking_in(on_belt: Option<Board>) -> (Machine, State) {
        let machine = sample::machine();
        let mut s = machine.at_rest(sample::WREN);
        s.infeed_belt = on_belt;
        for button in [Button::Reset, Button::Start] {
            machine.press(&mut s, button, &mut |_| {});
        }
        machine.upstream_signal(&mut s, Some(Board::good(sample::WREN)), &mut |_| {});
        (machine, s)
    }

    /// Stops after so long, and lets the belts come to rest. Whether a board entered.
    fn stop(machine: &Machine, s: &mut State, after: u32) -> bool {
        let mut entered = false;
        let hear = &mut |outcome| entered |= outcome == Outcome::BoardEntered;
        machine.advance(s, Micros::from_millis(after), hear);
        machine.press(s, Button::Stop, hear);
        while let Some(next) = machine.next_event(s) {
            machine.advance(s, next, hear);
        }
        entered
    }

    #[test]
    fn a_board_that_did_not_move_stays_in_the_machine_upstream() {
        let (machine, mut s) = taking_in(None);
        assert!(!stop(&machine, &mut s, 0));
        assert!(s.upstream_board.is_some() && s.infeed_belt.is_none());
        let (machine, mut s) = taking_in(None);
        assert!(stop(&machine, &mut s, 500));
        assert!(s.upstream_board.is_none() && s.infeed_belt.is_some());
    }

    /// The board on the belt is 10 mm from the gap: after 80 ms the belts have come 1.9 mm, after
    /// 500 ms 56 mm (1/2 a t², then v t).
    #[test]
    fn a_belt_with_a_board_takes_no_other_until_that_one_has_left_it() {
        let raven = Board::good(sample::RAVEN);
        let (machine, mut s) = taking_in(Some(raven));
        assert!(!stop(&machine, &mut s, 80));
        assert_eq!((s.infeed_belt, s.mouths[0]), (Some(raven), None));
        assert!(s.upstream_board.is_some());
        let (machine, mut s) = taking_in(Some(raven));
        assert!(stop(&machine, &mut s, 500));
        let wren = Board::good(sample::WREN);
        assert_eq!((s.infeed_belt, s.mouths[0]), (Some(wren), Some(raven)));
    }

    #[test]
    fn nobody_lays_a_board_into_a_slot_whose_belts_run() {
        let (machine, mut s) = taking_in(None);
        let other = |slot| HalfSlot {
            slot,
            half: Half::Outfeed,
        };
        let board = Board::good(sample::WREN);
        assert!(!machine.put_in_rack(&mut s, other(0), board, &mut |_| {}));
        assert!(machine.put_in_rack(&mut s, other(1), board, &mut |_| {}));
    }

    #[test]
    fn a_board_finds_the_nearest_place_and_none_is_lost() {
        let [a, b] = [0, 1].map(|kind| Some(Board::good(kind)));
        // What lies there, where one more wants to lie, what lies there then.
        let cases = [
            ([None; 7], 3, [None, None, None, b, None, None, None]),
            (
                [None, None, None, a, None, None, None],
                3,
                [None, None, b, a, None, None, None],
            ),
            (
                [None, None, a, None, None, None, None],
                2,
                [None, None, b, a, None, None, None],
            ),
            (
                [None, None, None, None, None, a, None],
                5,
                [None, None, None, None, None, b, a],
            ),
            (
                [None, a, None, None, None, None, None],
                1,
                [b, a, None, None, None, None, None],
            ),
            (
                [a, None, None, None, None, None, None],
                0,
                [b, a, None, None, None, None, None],
            ),
            (
                [a, a, None, None, None, None, None],
                0,
                [b, a, a, None, None, None, None],
            ),
        ];
        for (mut places, want, then) in cases {
            lay(&mut places, want, b.expect("a board"));
            assert_eq!(places, then, "into {want}");
        }
    }
}
