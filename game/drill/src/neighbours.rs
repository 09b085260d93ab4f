//! The neighbours: what each does by itself, and its quirks.
//!
//! A neighbour has truth (whether a board stands at its exit, whether it has room) and a contact
//! that mostly follows it. The machine sees the contact alone; a person who stands there sees more.
//! Source of the signals: IPC-SMEMA-9851; which of the two closes first is free there. Quirks are
//! common practice.

use rackproof_buffer::{Board, Side};
use rackproof_model::{Micros, key::Coder};

use crate::{Cue, State, World, act::Hear};

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
}

/// What the neighbours are about.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct NextDoor {
    /// Boards that upstream has behind the one that comes next.
    pub(crate) stock: u8,
    /// The next board stands at upstream's exit.
    pub(crate) at_exit: bool,
    /// Downstream has no room.
    pub(crate) busy: bool,
    /// Time until upstream has its next board at its exit, while it works at one.
    exit_left: Micros,
    /// Time until downstream has room, while it works at a board.
    room_left: Micros,
    /// The people downstream were asked, and looked at their machine.
    pub(crate) looked: bool,
    /// They made it run again.
    pub(crate) runs: bool,
}

/// Rounds in which contacts answer each other at one moment. More would be a circle.
const ROUNDS: u32 = 8;

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

impl World {
    /// Whether a neighbour does something by itself, or has a quirk.
    pub(crate) fn has_neighbours(&self) -> bool {
        let neighbours = &self.drill().neighbours;
        neighbours.upstream.is_some() || neighbours.downstream.is_some()
    }

    /// Puts the neighbours as the drill begins.
    pub(crate) fn begin_neighbours(&self, s: &mut State) {
        let (upstream, downstream) = (self.upstream(), self.downstream());
        let mut next = NextDoor::default();
        if let Some(upstream) = upstream {
            next.stock = upstream.boards - 1;
            next.exit_left = upstream.works.first();
            next.at_exit = upstream.works.by_clock() && next.exit_left == Micros(0);
        }
        if let Some(downstream) = downstream {
            next.room_left = downstream.works.first();
            next.busy = !downstream.works.by_clock() || next.room_left > Micros(0);
        }
        s.next_door = next;
        self.neighbours_answer(s, &mut |_| {});
    }

    fn upstream(&self) -> Option<Upstream> {
        self.drill().neighbours.upstream
    }

    pub(crate) fn downstream(&self) -> Option<Downstream> {
        self.drill().neighbours.downstream
    }

    /// Time until a neighbour does something by itself.
    pub(crate) fn neighbours_due(&self, s: &State) -> Option<Micros> {
        let left = [s.next_door.exit_left, s.next_door.room_left];
        left.into_iter().filter(|left| left.0 > 0).min()
    }

    /// Whether the clocks of upstream and downstream run.
    pub(crate) fn neighbours_clocks(&self, s: &State) -> [bool; 2] {
        [s.next_door.exit_left, s.next_door.room_left].map(|left| left.0 > 0)
    }

    /// Lets the neighbours' clocks run on.
    pub(crate) fn neighbours_pass(&self, s: &mut State, span: Micros) {
        let next = &mut s.next_door;
        let ends = |left: &mut Micros| {
            let ran = left.0 > 0;
            left.0 = left.0.saturating_sub(span.0);
            ran && left.0 == 0
        };
        if ends(&mut next.exit_left) {
            next.at_exit = s.leftover.is_some();
        }
        if ends(&mut next.room_left) {
            next.busy = false;
        }
    }

    /// Upstream's next board is gone: the one behind it comes next.
    pub(crate) fn board_gone_upstream(&self, s: &mut State) {
        s.leftover = None;
        s.next_door.at_exit = false;
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

    /// A board came to the machine downstream: it works at it.
    pub(crate) fn board_came_downstream(&self, s: &mut State) {
        if let Some(downstream) = self.downstream_now(s)
            && downstream.ready != Ready::Design
        {
            let cycle = downstream.works.cycle();
            s.next_door.busy = !downstream.works.by_clock() || cycle > Micros(0);
            s.next_door.room_left = cycle;
        }
    }

    /// The neighbours' contacts answer what is so now. A contact stays as it is while a board is
    /// handed over: Board Available until it has left, Machine Ready until it has arrived.
    pub(crate) fn neighbours_answer(&self, s: &mut State, hear: &mut Hear) {
        if !self.has_neighbours() {
            return;
        }
        for _ in 0..ROUNDS {
            let before = s.machine;
            self.upstream_answers(s, hear);
            self.downstream_answers(s, hear);
            if s.machine == before {
                return;
            }
        }
    }

    fn upstream_answers(&self, s: &mut State, hear: &mut Hear) {
        let Some(upstream) = self.upstream() else {
            return;
        };
        let machine = self.machine();
        if machine.hands_over(&s.machine, Side::Infeed) {
            return;
        }
        let works = upstream.works != Works::Stopped && !s.upstream_held;
        let offers = works
            && s.next_door.at_exit
            && !self.line_has_changed(s)
            && (upstream.available != Available::WhenReady
                || machine.signal_given(&s.machine, Side::Infeed));
        let offer = s.leftover.filter(|_| offers);
        let claims = upstream.available == Available::Jumper;
        if s.machine.neighbour_signal(Side::Infeed) != (offer.is_some() || claims)
            || s.machine.upstream_board() != offer
        {
            self.with_machine(s, hear, |world, machine, tell| {
                let buffer = world.machine();
                buffer.upstream_signal(machine, offer, tell);
                buffer.upstream_claims(machine, claims, tell);
            });
        }
    }

    fn downstream_answers(&self, s: &mut State, hear: &mut Hear) {
        let Some(downstream) = self.downstream_now(s) else {
            return;
        };
        let machine = self.machine();
        let room = downstream.works != Works::Stopped && !s.next_door.busy && !s.downstream_held;
        let takes = match downstream.ready {
            Ready::Design => downstream.works != Works::Stopped,
            Ready::Room | Ready::OnOffer | Ready::Jumper => room,
        };
        machine.downstream_stands(&mut s.machine, !takes);
        let closed = match downstream.ready {
            Ready::Room => room,
            Ready::OnOffer => room && machine.signal_given(&s.machine, Side::Outfeed),
            Ready::Jumper | Ready::Design => true,
        };
        if s.machine.neighbour_signal(Side::Outfeed) != closed
            && !machine.hands_over(&s.machine, Side::Outfeed)
        {
            self.with_machine(s, hear, |world, machine, tell| {
                world.machine().downstream_signal(machine, closed, tell);
            });
        }
    }

    /// Whether upstream may bring its next board to its exit now, by choice.
    pub(crate) fn may_bring_board(&self, s: &State) -> bool {
        let by_choice = |upstream: Upstream| upstream.works == Works::Chance;
        self.upstream().is_some_and(by_choice) && !s.next_door.at_exit && !s.upstream_held
    }

    /// Whether downstream may have room again now, by choice.
    pub(crate) fn may_have_room(&self, s: &State) -> bool {
        let by_choice = |downstream: Downstream| downstream.works == Works::Chance;
        self.downstream().is_some_and(by_choice) && s.next_door.busy
    }

    /// What somebody sees of a neighbour who stands at its side.
    pub(crate) fn look_at_neighbour(&self, s: &State, side: Side, cue: &mut dyn FnMut(Cue)) {
        let (upstream, downstream) = (self.upstream(), self.downstream_now(s));
        let (works, jumper) = match side {
            Side::Infeed => (
                upstream.map(|one| one.works),
                upstream.is_some_and(|one| one.available == Available::Jumper),
            ),
            Side::Outfeed => (
                downstream.map(|one| one.works),
                downstream.is_some_and(|one| one.ready == Ready::Jumper),
            ),
        };
        if works == Some(Works::Stopped) {
            cue(Cue::NeighbourStands(side));
        }
        if jumper {
            cue(Cue::Jumper(side));
        }
        if side == Side::Outfeed && downstream.is_some_and(|one| one.ready == Ready::Design) {
            cue(Cue::TakesAlways);
        }
        let waits = s.next_door.at_exit && !s.machine.neighbour_signal(Side::Infeed);
        if side == Side::Infeed && waits {
            cue(Cue::BoardWaitsUpstream);
        }
    }

    /// The neighbours' fields in a key: none where they do nothing by themselves.
    pub(crate) fn code_neighbours(&self, s: &mut State, coder: &mut impl Coder) {
        let mut next = NextDoor::default();
        if let Some(upstream) = self.upstream() {
            next.stock = s.next_door.stock;
            coder.byte(&mut next.stock, 6);
            next.at_exit = s.next_door.at_exit;
            coder.flag(&mut next.at_exit);
            if upstream.works.by_clock() {
                next.exit_left = s.next_door.exit_left;
                coder.word(&mut next.exit_left.0, 32);
            }
        }
        if let Some(downstream) = self.downstream() {
            next.busy = s.next_door.busy;
            coder.flag(&mut next.busy);
            if downstream.mends {
                (next.looked, next.runs) = (s.next_door.looked, s.next_door.runs);
                coder.flag(&mut next.looked);
                coder.flag(&mut next.runs);
            }
            if downstream.works.by_clock() {
                next.room_left = s.next_door.room_left;
                coder.word(&mut next.room_left.0, 32);
            }
        }
        s.next_door = next;
    }
}

/// The chances of neighbours that do as they like.
impl World {
    /// Upstream brings its next board to its exit.
    pub(crate) fn bring_board(&self, s: &mut State) {
        s.next_door.at_exit = s.leftover.is_some();
    }

    /// Downstream is done with its board.
    pub(crate) fn make_room(&self, s: &mut State) {
        s.next_door.busy = false;
    }
}
