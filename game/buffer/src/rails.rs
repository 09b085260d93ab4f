//! The rails: their moves, and what they do to boards between them.

use rackproof_model::{Micrometres, Micros};

use crate::{
    AxisName, Board, Condition, FirstZero, Harm, HarmKind, Hear, Machine, Motion, Outcome, Place,
    Side, State,
};

impl Machine {
    /// The width at which the rails have their zero, in µm.
    pub fn zero_width(&self) -> Micrometres {
        match self.parts.behaviours.rails_zero {
            FirstZero::Closing => self.parts.width_least,
            FirstZero::Opening => self.parts.width_most,
        }
    }

    /// The width that the loaded product asks for, in µm: its board's as it was loaded, whatever
    /// was saved since, with the side play in force.
    pub fn wanted_width(&self, s: &State) -> Micrometres {
        s.loaded_width + self.play_in_force(s)
    }

    pub(crate) fn send_rails(&self, s: &mut State, to: Micrometres, hear: &mut Hear) {
        let way = to - s.width_from;
        s.faults.stall_at = self.rails_stall(s, to);
        s.rails = Motion::begin(&self.parts.axes.rails, way);
        if way.0 != 0 {
            hear(Outcome::Started(AxisName::Rails));
        }
    }

    pub(crate) fn brake_rails(&self, s: &mut State) {
        if s.rails.is_run() {
            s.width_from = s.width(self);
            s.rails = s.rails.brake(&self.parts.axes.rails);
        }
    }

    /// Ways from here at which the rails reach a limit of some board between them.
    fn rails_marks(&self, s: &State) -> impl Iterator<Item = Micrometres> + use<> {
        let closing = s.rails.way().0 < 0;
        let mut marks = [None; 3];
        let mut keep = |mark: Micrometres, at: usize| {
            let nearer = |old: Micrometres| {
                if closing {
                    old.max(mark)
                } else {
                    old.min(mark)
                }
            };
            marks[at] = Some(marks[at].map_or(mark, nearer));
        };
        each_board(s, &mut |board, _| {
            let press = self.press_limits(board.kind);
            if closing && board.condition < Condition::Overstrained {
                keep(press.overstrained_at, 0);
            }
            if closing && board.condition < press.gone {
                keep(press.gone_at, 1);
            }
            if !closing && board.condition <= Condition::Overstrained {
                keep(press.dropped_over + Micrometres(1), 2);
            }
        });
        let from = s.width_from;
        let limits = marks.into_iter().flatten().map(|mark| mark - from);
        let mut ways = [None; 4];
        for (way, limit) in ways.iter_mut().zip(limits) {
            *way = Some(limit).filter(|&limit| !Machine::beyond_stall(s, limit));
        }
        ways[3] = self.stall_mark(s);
        ways.into_iter().flatten()
    }

    /// Time until the moving rails reach a width, or `None` if they never do or are past it.
    pub fn time_to_width(&self, s: &State, width: Micrometres) -> Option<Micros> {
        let way = width - s.width_from;
        if Machine::beyond_stall(s, way) {
            return None;
        }
        s.rails.time_to(&self.parts.axes.rails, way)
    }

    /// Time to the rails' next event.
    pub(crate) fn rails_next(&self, s: &State) -> Option<Micros> {
        if s.rails.is_rest() {
            return None;
        }
        let axis = &self.parts.axes.rails;
        let marks = self
            .rails_marks(s)
            .filter_map(|way| s.rails.time_to(axis, way));
        marks.chain([s.rails.left()]).min()
    }

    /// Moments before the next event up to which a stop still ends short of a limit.
    pub(crate) fn rails_critical(&self, s: &State, found: &mut dyn FnMut(Micros)) {
        if s.rails.is_run() {
            for mark in self.rails_marks(s) {
                crate::time::last_stop_before(&s.rails, &self.parts.axes.rails, mark, found);
            }
        }
    }

    /// Does what is due for the rails. True if something was.
    #[inline(never)] // keeps the frame of `settle` small
    pub(crate) fn rails_due(&self, s: &mut State, hear: &mut Hear) -> bool {
        if s.rails.is_rest() {
            return false;
        }
        let width = s.width(self);
        self.press_boards(s, width, hear);
        self.hum_if_stalled(s, width, hear);
        if s.rails.left() > Micros(0) {
            return false;
        }
        let moved = s.rails.way().0 != 0;
        let target = s.width_from + s.rails.way();
        self.count_steps(s, width, target);
        s.width_from = if s.rails.is_run() {
            width
        } else {
            self.width_class(width)
        };
        s.rails = Motion::default();
        if moved {
            hear(Outcome::Stopped(AxisName::Rails));
        }
        self.rails_arrived(s, hear);
        true
    }

    /// The class of a place at which rails came to rest that were stopped on their way. The step
    /// count is lost then, and the only way on is by the zero, so that nothing but the limits of
    /// boards can tell one place from another: the widest place short of the next limit stands for
    /// all of its class.
    pub(crate) fn width_class(&self, width: Micrometres) -> Micrometres {
        let strips = self.faults.iter().flat_map(|fault| match *fault {
            crate::Fault::Debris { from, to } => [Some(from), Some(to - Micrometres(1))],
            _ => [None; 2],
        });
        let limits = (0..self.parts.kinds.len() as u8).flat_map(|kind| {
            let press = self.press_limits(kind);
            let own = self.parts.kinds[kind as usize].width;
            [
                press.gone_at,
                press.overstrained_at,
                own - Micrometres(1),
                press.dropped_over,
            ]
        });
        let limits = limits.chain(strips.flatten());
        let wider = limits.filter(|limit| *limit >= width).min();
        wider.unwrap_or(self.parts.width_most)
    }

    /// What a width does to the boards between the rails.
    fn press_boards(&self, s: &mut State, width: Micrometres, hear: &mut Hear) {
        each_board_mut(s, &mut |board, place| {
            self.press_board(board, place, width, hear)
        });
    }

    /// What a width does to one board.
    pub(crate) fn press_board(
        &self,
        board: &mut Board,
        place: Place,
        width: Micrometres,
        hear: &mut Hear,
    ) {
        let press = self.press_limits(board.kind);
        let kind = &self.parts.kinds[board.kind as usize];
        let gone_kind = if press.gone == Condition::Broken {
            HarmKind::Broken
        } else {
            HarmKind::SprungOut
        };
        let clearance = (width - kind.width).0;
        let gone_number = press.gone_number.max(match press.gone {
            Condition::Broken => press.gone_number,
            _ => -clearance,
        });
        let limit = kind.strain_limit.0 as i32;
        let stages = [
            (
                width <= press.overstrained_at,
                Condition::Overstrained,
                HarmKind::Overstrained,
                limit,
                limit,
            ),
            (
                width <= press.gone_at,
                press.gone,
                gone_kind,
                gone_number,
                press.gone_number,
            ),
            (
                width > press.dropped_over,
                Condition::Dropped,
                HarmKind::Dropped,
                clearance,
                self.parts.ledge.0,
            ),
        ];
        for (reached, condition, kind, number, limit) in stages {
            // A board that has left its ledges does not fall from them again.
            let on_ledges = condition != Condition::Dropped || !board.condition.shows();
            if reached && on_ledges && board.condition < condition {
                board.worsen(condition);
                let (board, place) = (Some(board.kind), Some(place));
                hear(Outcome::Harmed(Harm {
                    kind,
                    board,
                    place,
                    number,
                    limit,
                }));
            }
        }
    }
}

/// Calls `found` with every board that is between the rails: rack, mouths and both belts.
fn each_board(s: &State, found: &mut dyn FnMut(Board, Place)) {
    for (at, board) in s.rack.iter() {
        found(board, Place::Slot(at));
    }
    for (mouth, side) in s.mouths.iter().zip([Side::Infeed, Side::Outfeed]) {
        if let Some(board) = mouth {
            found(*board, Place::Mouth(side));
        }
    }
    if let Some(board) = s.infeed_belt {
        found(board, Place::Belt(Side::Infeed));
    }
    for board in s.outfeed_belt.iter().flatten() {
        found(*board, Place::Belt(Side::Outfeed));
    }
}

fn each_board_mut(s: &mut State, change: &mut dyn FnMut(&mut Board, Place)) {
    for at in s.rack.present().iter() {
        if let Some(mut board) = s.rack.get(at) {
            change(&mut board, Place::Slot(at));
            s.rack.set(at, board);
        }
    }
    for (mouth, side) in s.mouths.iter_mut().zip([Side::Infeed, Side::Outfeed]) {
        if let Some(board) = mouth {
            change(board, Place::Mouth(side));
        }
    }
    if let Some(board) = &mut s.infeed_belt {
        change(board, Place::Belt(Side::Infeed));
    }
    for board in s.outfeed_belt.iter_mut().flatten() {
        change(board, Place::Belt(Side::Outfeed));
    }
}
