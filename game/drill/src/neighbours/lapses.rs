//! What a neighbour should not do and does: once, at a board that the drill names or by choice.

use rackproof_buffer::Side;
use rackproof_model::Micros;

use crate::{
    Chance, State, Works, World,
    act::Hear,
    neighbours::{Lapse, Mark},
};

impl World {
    /// When a neighbour drops a hand-over, and which of its boards is on its way.
    fn drops(&self, s: &State, side: Side) -> (Lapse, u8) {
        match side {
            Side::Infeed => self.upstream().map_or((Lapse::Never, 0), |one| {
                (one.drops, one.boards - s.next_door.stock)
            }),
            Side::Outfeed => self
                .downstream()
                .map_or((Lapse::Never, 0), |one| (one.drops, s.next_door.came + 1)),
        }
    }

    /// Sets the clock of a lapse when its hand-over begins, and lets those happen whose time it is.
    pub(super) fn lapses_answer(&self, s: &mut State, hear: &mut Hear) {
        for side in [Side::Infeed, Side::Outfeed] {
            let runs = self.machine().hands_over(&s.machine, side);
            let waits = s.next_door.drop_left > Micros(0);
            if !runs {
                if waits && s.next_door.drops_side() == side {
                    s.next_door.drop_left = Micros(0);
                }
                continue;
            }
            let (lapse, number) = self.drops(s, side);
            if let Lapse::Board(board, after) = lapse
                && board == number
                && !s.next_door.has(Mark::HasDropped(side))
                && !waits
            {
                s.next_door.drop_left = after;
                let behind = side == Side::Outfeed;
                s.next_door.set(Mark::DropsBehind, behind);
            }
            if side == Side::Infeed && s.next_door.has(Mark::Dropped(side)) {
                self.with_machine(s, hear, |world, machine, tell| {
                    world.machine().upstream_drops(machine, tell);
                });
            }
        }
        self.second_board_comes(s, hear);
    }

    /// A second board on one closing lies on our belt as soon as that rests.
    fn second_board_comes(&self, s: &mut State, hear: &mut Hear) {
        if !s.next_door.has(Mark::Pushes) || !s.machine.motions()[2].is_rest() {
            return;
        }
        s.next_door.set(Mark::Pushes, false);
        if let Some(board) = s.leftover {
            self.lay_on_belt(s, board, hear);
        }
    }

    /// A board is on its way from upstream: does the next one come right behind it?
    pub(crate) fn note_two_at_once(&self, s: &mut State) {
        let number = self
            .upstream()
            .map_or(0, |one| one.boards - s.next_door.stock);
        let lapse = self.upstream().map(|one| one.two_at_once);
        if matches!(lapse, Some(Lapse::Board(board, _)) if board == number) {
            self.pushes_two(s);
        }
    }

    fn pushes_two(&self, s: &mut State) {
        if !s.next_door.has(Mark::Pushed) && s.next_door.stock > 0 {
            s.next_door.set(Mark::Pushes, true);
            s.next_door.set(Mark::Pushed, true);
        }
    }

    /// Adds what neighbours could choose now that do as they like.
    pub(crate) fn neighbours_choose(&self, s: &State, out: &mut Vec<Chance>) {
        if self
            .downstream()
            .is_some_and(|one| one.works == Works::Chance)
            && s.next_door.has(Mark::Busy)
        {
            out.push(Chance::DownstreamMakesRoom);
        }
        let drops = [
            (Side::Infeed, Chance::UpstreamDrops),
            (Side::Outfeed, Chance::DownstreamDrops),
        ];
        for (side, chance) in drops {
            let may =
                self.drops(s, side).0 == Lapse::Chance && !s.next_door.has(Mark::HasDropped(side));
            if may && self.machine().hands_over(&s.machine, side) {
                out.push(chance);
            }
        }
        let two = self.upstream().map(|one| one.two_at_once);
        let comes = self.machine().hands_over(&s.machine, Side::Infeed);
        if two == Some(Lapse::Chance)
            && comes
            && !s.next_door.has(Mark::Pushed)
            && s.next_door.stock > 0
        {
            out.push(Chance::UpstreamGivesTwo);
        }
    }

    /// Adds what neighbours may choose at some time, by what the drill says of them. That one with
    /// a board left over may offer it goes without saying.
    pub(crate) fn neighbours_may_choose(&self, out: &mut Vec<Chance>) {
        let neighbours = &self.drill().neighbours;
        let (upstream, downstream) = (self.upstream(), self.downstream());
        let by_chance = |lapse: Option<Lapse>| lapse == Some(Lapse::Chance);
        let chances = [
            (
                neighbours.lays_by_hand && neighbours.leftover.is_some(),
                Chance::UpstreamLaysBoard,
            ),
            (
                upstream.is_some_and(|one| one.works == Works::Chance),
                Chance::UpstreamOffersBoard,
            ),
            (
                downstream.is_some_and(|one| one.works == Works::Chance),
                Chance::DownstreamMakesRoom,
            ),
            (
                by_chance(upstream.map(|one| one.drops)),
                Chance::UpstreamDrops,
            ),
            (
                by_chance(downstream.map(|one| one.drops)),
                Chance::DownstreamDrops,
            ),
            (
                by_chance(upstream.map(|one| one.two_at_once)),
                Chance::UpstreamGivesTwo,
            ),
        ];
        let may = chances.into_iter().filter(|(may, _)| *may);
        out.extend(may.map(|(_, chance)| chance));
    }

    /// Does what a neighbour chose. False if that is not one of theirs alone.
    pub(crate) fn neighbour_chose(&self, s: &mut State, chance: Chance) -> bool {
        let drops = |s: &mut State, side: Side| {
            s.next_door.set(Mark::Dropped(side), true);
            s.next_door.set(Mark::HasDropped(side), true);
        };
        match chance {
            Chance::DownstreamMakesRoom => s.next_door.set(Mark::Busy, false),
            Chance::UpstreamDrops => drops(s, Side::Infeed),
            Chance::DownstreamDrops => drops(s, Side::Outfeed),
            Chance::UpstreamGivesTwo => self.pushes_two(s),
            Chance::UpstreamOffersBoard if self.upstream().is_some() => {
                s.next_door.set(Mark::AtExit, s.leftover.is_some());
            }
            Chance::UpstreamOffersBoard | Chance::UpstreamLaysBoard | Chance::FaultComes(_) => {
                return false;
            }
        }
        true
    }

    /// Whether upstream may bring its next board to its exit now, by choice.
    pub(crate) fn may_bring_board(&self, s: &State) -> bool {
        let by_choice = self
            .upstream()
            .is_some_and(|one| one.works == Works::Chance);
        by_choice && !s.next_door.has(Mark::AtExit) && s.leftover.is_some() && !s.upstream_held
    }
}
