//! The neighbours: what each does by itself, and its quirks.
//!
//! A neighbour has truth (whether a board stands at its exit, whether it has room) and a contact
//! that mostly follows it. The machine sees the contact alone; a person who stands there sees more.
//! Source of the signals: IPC-SMEMA-9851; which of the two closes first is free there. Quirks are
//! common practice.

mod answers;
mod coding;
mod lapses;
mod mending;
mod next_door;
mod sights;

use rackproof_buffer::{Board, BoardFault, Neighbouring, Side};
use rackproof_model::{Micrometres, Micros};

pub(crate) use self::next_door::{Mark, NextDoor};
pub use self::sights::SignalLamps;
use crate::{Drill, Fact, Outcome, State, World, act::Hear};

/// How a neighbour works.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Works {
    /// By the clock.
    Every {
        /// From one board to the next: upstream, from a board that left to the next one at the
        /// exit; downstream, from a board that came to room for the next.
        cycle: Micros,
        /// From the start to the first board at the exit, or to the first room.
        first: Micros,
    },
    /// When it likes, or never: the environment's choice.
    Chance,
    /// It stands, whatever its signal says.
    Stopped,
}

/// What closes upstream's Board Available.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Available {
    /// A board at its exit.
    AtExit,
    /// A board at its exit, once our Machine Ready is closed.
    WhenReady,
    /// A jumper: it is always closed.
    Jumper,
    /// A test box in place of a machine: it is always closed, and no board ever comes.
    TestBox,
    /// A person in place of a machine, who lays each board on our belt and presses a button until
    /// the belt runs.
    ByHand,
}

/// What closes downstream's Machine Ready.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ready {
    /// Room for a board.
    Room,
    /// Room for a board, while our Board Available is closed.
    OnOffer,
    /// A jumper: it is always closed.
    Jumper,
    /// The way it is built: an oven or a plain link takes whatever comes, at any time.
    Design,
    /// A test box in place of a machine: it is always closed, and what is sent falls.
    TestBox,
}

/// Which width a neighbour's rails have.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RailsWidth {
    /// Ours, whenever it matters.
    Changed,
    /// That of the drill's start, until somebody asked the neighbour to hold and let it go again.
    Old,
}

/// When a neighbour does what it should not. Once in an attempt.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lapse {
    /// Never.
    Never,
    /// When it likes, or never: the environment's choice.
    Chance,
    /// With its n-th board, from 1, so long after that hand-over began.
    Board(u8, Micros),
}

/// How upstream says that a board failed its test. Source: IPC-SMEMA-9851, Failed Board Available,
/// optional; which of the two is meant differs from line to line (common practice).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FailedLine {
    /// Board Available and Failed Board Available close both.
    Both,
    /// Failed Board Available closes in place of Board Available.
    Either,
}

impl FailedLine {
    /// Both with the names that files use.
    pub const ALL: [(&'static str, FailedLine); 2] =
        [("Both", FailedLine::Both), ("Either", FailedLine::Either)];
}

/// The machine upstream.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Upstream {
    /// How many boards it has in all, 1 to 40. They are of the kind that is left over.
    pub boards: u8,
    /// How it works.
    pub works: Works,
    /// What closes its signal.
    pub available: Available,
    /// Which width its rails have.
    pub rails: RailsWidth,
    /// Which of its boards failed their test, bit n for its board n + 1.
    pub failed: u64,
    /// How it says so.
    pub failed_line: FailedLine,
    /// When its belts stop and its signal opens in the middle of a hand-over.
    pub drops: Lapse,
    /// When it gives two boards on one closing.
    pub two_at_once: Lapse,
}

/// The machine downstream.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Downstream {
    /// How it works.
    pub works: Works,
    /// What closes its signal.
    pub ready: Ready,
    /// Asked in so many words, its people look: a jumper comes out, and told to go on they run.
    /// Without it talk mends nothing.
    pub mends: bool,
    /// Which width its rails have.
    pub rails: RailsWidth,
    /// How long after a board left us its signal opens: the board has come to its stop then. At
    /// most its cycle.
    pub opens_late: Micros,
    /// Its contact chatters: as a board leaves us, it opens for a moment and closes again.
    pub chatters: bool,
    /// When its belts stop and its signal opens in the middle of a hand-over.
    pub drops: Lapse,
}

impl Works {
    fn first(self) -> Micros {
        match self {
            Works::Every { first, .. } => first,
            Works::Chance | Works::Stopped => Micros(0),
        }
    }

    fn cycle(self) -> Micros {
        match self {
            Works::Every { cycle, .. } => cycle,
            Works::Chance | Works::Stopped => Micros(0),
        }
    }

    pub(crate) fn by_clock(self) -> bool {
        matches!(self, Works::Every { .. })
    }
}

impl crate::Neighbours {
    /// Whether one of them works as it likes.
    pub fn chooses_to_work(&self) -> bool {
        let upstream = self.upstream.map(|one| one.works);
        let downstream = self.downstream.map(|one| one.works);
        [upstream, downstream].contains(&Some(Works::Chance))
    }

    /// Whether one of them does something after a time of its own, whatever the buffer does
    /// meanwhile.
    pub fn go_by_the_clock(&self) -> bool {
        let timed = |drops| matches!(drops, Lapse::Board(..));
        let upstream = self
            .upstream
            .is_some_and(|one| one.works.by_clock() || timed(one.drops) || timed(one.two_at_once));
        let downstream = self.downstream.is_some_and(|one| {
            one.works.by_clock() || timed(one.drops) || one.opens_late > Micros(0)
        });
        upstream || downstream
    }
}

/// What never changes about the neighbours of a drill, for the machine; `None` where they do
/// nothing by themselves. `width` is that of the rails at its start.
pub(crate) fn neighbouring(drill: &Drill, width: Micrometres) -> Option<Neighbouring> {
    let neighbours = &drill.neighbours;
    let downstream = neighbours.downstream;
    (neighbours.upstream.is_some() || downstream.is_some()).then(|| Neighbouring {
        nobody_behind: downstream.is_some_and(|one| one.ready == Ready::TestBox),
        old_width: downstream
            .filter(|one| one.rails == RailsWidth::Old)
            .map(|_| width),
    })
}

impl World {
    /// Whether a neighbour does something by itself, or has a quirk.
    pub(crate) fn has_neighbours(&self) -> bool {
        let neighbours = &self.drill().neighbours;
        neighbours.upstream.is_some() || neighbours.downstream.is_some()
    }

    /// Puts the neighbours as the drill begins.
    pub(crate) fn begin_neighbours(&self, s: &mut State) {
        let mut next = NextDoor::default();
        if let Some(upstream) = self.upstream() {
            next.stock = upstream.boards - 1;
            next.exit_left = upstream.works.first();
            next.set(
                Mark::AtExit,
                upstream.works.by_clock() && next.exit_left == Micros(0),
            );
        }
        if let Some(downstream) = self.downstream() {
            next.room_left = downstream.works.first();
            next.set(
                Mark::Busy,
                !downstream.works.by_clock() || next.room_left > Micros(0),
            );
        }
        s.next_door = next;
        self.neighbours_answer(s, &mut |_| {});
    }

    pub(crate) fn upstream(&self) -> Option<Upstream> {
        self.drill().neighbours.upstream
    }

    pub(crate) fn downstream(&self) -> Option<Downstream> {
        self.drill().neighbours.downstream
    }

    /// Time until a neighbour does something by itself.
    pub(crate) fn neighbours_due(&self, s: &State) -> Option<Micros> {
        if !self.has_neighbours() {
            return None;
        }
        let next = &s.next_door;
        let opens = self.still_closed(s).unwrap_or(Micros(0));
        let left = [next.exit_left, next.room_left, opens];
        let left = left.into_iter().chain([next.drop_left]);
        left.filter(|left| left.0 > 0).min()
    }

    /// For how long downstream's signal stays closed though a board has come.
    fn still_closed(&self, s: &State) -> Option<Micros> {
        let downstream = self.downstream()?;
        let open = downstream.works.cycle() - downstream.opens_late;
        let left = s.next_door.room_left.0.saturating_sub(open.0);
        (s.next_door.has(Mark::Arriving) && left > 0).then_some(Micros(left))
    }

    /// Whether the clocks of upstream and downstream run.
    pub(crate) fn neighbours_clocks(&self, s: &State) -> [bool; 2] {
        let next = &s.next_door;
        let drops = |side| next.drop_left.0 > 0 && next.drops_side() == side;
        [
            next.exit_left.0 > 0 || drops(Side::Infeed),
            next.room_left.0 > 0 || drops(Side::Outfeed) || self.still_closed(s).is_some(),
        ]
    }

    /// Lets the neighbours' clocks run on.
    pub(crate) fn neighbours_pass(&self, s: &mut State, span: Micros) {
        if !self.has_neighbours() {
            return;
        }
        let arrives = self.still_closed(s).is_none_or(|left| left <= span);
        let next = &mut s.next_door;
        if arrives {
            next.set(Mark::Arriving, false);
        }
        let ends = |left: &mut Micros| {
            let ran = left.0 > 0;
            left.0 = left.0.saturating_sub(span.0);
            ran && left.0 == 0
        };
        if ends(&mut next.exit_left) {
            next.set(Mark::AtExit, s.leftover.is_some());
        }
        if ends(&mut next.room_left) {
            next.set(Mark::Busy, false);
        }
        if ends(&mut next.drop_left) {
            let side = next.drops_side();
            next.set(Mark::Dropped(side), true);
            next.set(Mark::HasDropped(side), true);
        }
    }

    /// Upstream's next board is ours: the one behind it comes next.
    pub(crate) fn board_gone_upstream(&self, s: &mut State) {
        s.leftover = None;
        s.next_door.set(Mark::AtExit, false);
        s.next_door.exit_left = Micros(0);
        if s.next_door.stock > 0
            && let (Some(kind), Some(upstream)) =
                (self.drill().neighbours.leftover, self.upstream())
        {
            s.next_door.stock -= 1;
            s.leftover = Some(Board::good(kind));
            s.next_door.exit_left = upstream.works.cycle();
        }
    }

    /// A board came from upstream by its belts.
    pub(crate) fn board_came_from_upstream(&self, s: &mut State, hear: &mut Hear) {
        if let (true, Some(board)) = (self.next_has_failed(s), s.leftover) {
            hear(Outcome::Fact(Fact::FailedBoardCame(board.kind)));
        }
        self.board_gone_upstream(s);
    }

    /// A board came to the machine downstream: it works at it.
    pub(crate) fn board_came_downstream(&self, s: &mut State) {
        let Some(downstream) = self.downstream_now(s) else {
            return;
        };
        s.next_door.came = (s.next_door.came + 1).min(63);
        if !matches!(downstream.ready, Ready::Design | Ready::TestBox) {
            let cycle = downstream.works.cycle();
            let works = !downstream.works.by_clock() || cycle > Micros(0);
            s.next_door.set(Mark::Busy, works);
            s.next_door.set(Mark::Arriving, downstream.opens_late.0 > 0);
            s.next_door.room_left = cycle;
        }
    }

    /// Somebody at a neighbour is told to go on, and sees first to what is wrong there.
    pub(crate) fn neighbour_goes_on(&self, s: &mut State, side: Side, hear: &mut Hear) {
        s.next_door.set(Mark::Dropped(side), false);
        s.next_door.set(Mark::Changed(side), true);
        if side == Side::Infeed && self.upstream().is_some() {
            // A board that lies turned is laid straight.
            s.leftover = s.leftover.map(|board| Board {
                kind: match self.machine().odd(board.kind) {
                    Some(BoardFault::Turned) => self.machine().base_kind(board.kind),
                    _ => board.kind,
                },
                ..board
            });
        }
        if side == Side::Infeed
            && s.next_door.has(Mark::AtExit)
            && self.next_has_failed(s)
            && let Some(board) = s.leftover
        {
            hear(Outcome::Fact(Fact::FailedBoardTakenAway(board.kind)));
            self.board_gone_upstream(s);
        }
    }

    /// Whether upstream's next board failed its test.
    fn next_has_failed(&self, s: &State) -> bool {
        let number = |upstream: Upstream| upstream.boards - 1 - s.next_door.stock;
        let failed = |upstream: Upstream| upstream.failed >> number(upstream) & 1 == 1;
        s.leftover.is_some() && self.upstream().is_some_and(failed)
    }

    /// Whether the rails of a neighbour still have their old width.
    fn has_old_rails(&self, s: &State, side: Side) -> bool {
        let rails = match side {
            Side::Infeed => self.upstream().map(|one| one.rails),
            Side::Outfeed => self.downstream().map(|one| one.rails),
        };
        rails == Some(RailsWidth::Old) && !s.next_door.has(Mark::Changed(side))
    }
}
