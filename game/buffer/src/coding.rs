//! The machine's fields in a key. Written and read by one description; what cannot matter any more
//! is left out.

use rackproof_model::{Micrometres, Micros, key::Coder};

use crate::{
    Board, Condition, LiftPlace, Machine, Mode, Phase, SLOTS_MOST, Scope, SlotMap, State, Task,
    UnitState, motion, runners::Runners,
};

pub(crate) fn code_board(board: &mut Option<Board>, coder: &mut impl Coder) {
    let mut present = board.is_some();
    coder.flag(&mut present);
    if !present {
        *board = None;
        return;
    }
    let Board {
        mut kind,
        condition,
    } = board.unwrap_or(Board::good(0));
    let mut condition = condition as u8;
    coder.byte(&mut kind, 3);
    coder.byte(&mut condition, 3);
    *board = Some(Board {
        kind,
        condition: Condition::from_number(condition),
    });
}

fn code_lift_place(place: &mut LiftPlace, coder: &mut impl Coder) {
    let mut number = match *place {
        LiftPlace::Reference => 0,
        LiftPlace::BelowFirst => 1,
        LiftPlace::At(slot) => 2 + 2 * slot,
        LiftPlace::Above(slot) => 3 + 2 * slot,
    };
    coder.byte(&mut number, 7);
    *place = match number {
        0 => LiftPlace::Reference,
        1 => LiftPlace::BelowFirst,
        even if even % 2 == 0 => LiftPlace::At((even - 2) / 2),
        odd => LiftPlace::Above((odd - 3) / 2),
    };
}

impl Machine {
    /// Puts back what a person sees to right before it is needed: the key (unless the declare
    /// button is held), the chosen product, and the mode while it may be changed and no task hangs
    /// on it. Rails that were stopped on their way stand somewhere in their class. Which slots are
    /// unknown matters outside a clear-out for no more than what the next one asks about: nothing
    /// else starts while one is.
    pub fn forget_preparations(&self, s: &mut State) {
        // Where a finish asks for the exact place, or the confirmation of a width.
        let asked_for = s.width_from == self.wanted_width(s)
            || self
                .parts
                .products
                .iter()
                .any(|it| self.rails_for(it.width) == s.width_from);
        if s.rails.is_rest() && !s.width_known && !asked_for {
            s.width_from = self.width_class(s.width_from);
        }
        let seen = matches!(s.phase, Phase::SweepSaw | Phase::AskSeen);
        if s.map.unknown != 0 && s.task != Task::ClearOut && !seen {
            s.map.unknown = self.unknown_alike(s);
        }
        s.key_turned &= s.hold_left.0 > 0;
        s.chosen = s.loaded;
        if s.powered && s.unit.lets_mode_change() && s.task == Task::None {
            s.mode = Mode::Changeover;
        }
    }

    /// Codes a state. Alarms, texts that only the panel shows, and edits that nobody can save are
    /// not in the key: no rule, trap or finish asks for them.
    pub fn code(&self, s: &mut State, coder: &mut impl Coder) {
        self.code_boards(s, coder);
        self.code_motions(s, coder);
        coder.flags([
            &mut s.powered,
            &mut s.emergency,
            &mut s.hatch_open,
            &mut s.propped,
            &mut s.key_turned,
        ]);
        if self.faults.is_empty() {
            s.faults = crate::Faults {
                // Nobody may take the board of this run, though nothing is wrong with us.
                blocked: s.faults.blocked && self.neighbouring.is_some(),
                ..crate::Faults::default()
            };
            if self.neighbouring.is_some() {
                coder.flag(&mut s.faults.blocked);
            }
        } else {
            s.faults.code(coder);
        }
        self.code_belief(s, coder);
        self.code_products(s, coder);
        self.code_signals(s, coder);
        coder.word(&mut s.hold_left.0, 32);
        self.code_alarms(s, coder);
    }

    fn code_boards(&self, s: &mut State, coder: &mut impl Coder) {
        s.rack.code(self.parts.slots, coder);
        code_board(&mut s.infeed_belt, coder);
        for board in s.mouths.iter_mut().chain(&mut s.outfeed_belt) {
            code_board(board, coder);
        }
    }

    fn code_motions(&self, s: &mut State, coder: &mut impl Coder) {
        code_lift_place(&mut s.lift_place, coder);
        motion::code(&mut s.lift, coder);
        if s.lift.is_rest() {
            s.lift_from = self.height(s.lift_place);
        } else {
            coder.signed(&mut s.lift_from.0);
        }
        coder.signed(&mut s.width_from.0);
        motion::code(&mut s.rails, coder);
        motion::code(&mut s.belts, coder);
        if s.belts.is_rest() {
            s.runners = Runners::default();
        } else {
            s.runners.code(coder);
        }
    }

    fn code_belief(&self, s: &mut State, coder: &mut impl Coder) {
        let slots = u32::from(self.parts.slots);
        s.map = SlotMap {
            full: s.map.full,
            unknown: s.map.unknown,
            ..SlotMap::default()
        };
        coder.mask(&mut s.map.full, slots);
        coder.mask(&mut s.map.unknown, slots);
        let full = s.map.full;
        s.stored.code(self, full, coder);
        if self.parts.storing.arrival_time_out.0 > 0 {
            coder.word(&mut s.arrival_left.0, 32);
        } else {
            s.arrival_left = Micros(0);
        }
        coder.byte(&mut s.order_len, 6);
        let (ordered, free) = s.order.split_at_mut((s.order_len as usize).min(SLOTS_MOST));
        for slot in ordered {
            coder.byte(slot, 6);
        }
        free.fill(0);
        let (mut unit, mut phase) = (s.unit as u8, s.phase as u8);
        coder.byte(&mut unit, 5);
        coder.byte(&mut phase, 5);
        s.unit = UnitState::from_number(unit);
        s.phase = Phase::ALL[(phase as usize).min(Phase::ALL.len() - 1)];
        self.code_mode(&mut s.mode, coder);
        let mut task = s.task as u8;
        coder.byte(&mut task, 2);
        s.task = [Task::None, Task::Changeover, Task::ClearOut, Task::None][task as usize & 3];
        if s.phase == Phase::Rest {
            s.slot = 0;
        } else {
            coder.byte(&mut s.slot, 6);
        }
        coder.flags([&mut s.referenced, &mut s.width_known]);
    }

    /// Mode Manual takes a bit only where there is one.
    fn code_mode(&self, mode: &mut Mode, coder: &mut impl Coder) {
        let mut changeover = *mode == Mode::Changeover;
        coder.flag(&mut changeover);
        let mut manual = *mode == Mode::Manual;
        if self.parts.service.manual_mode && !changeover {
            coder.flag(&mut manual);
        } else {
            manual = false;
        }
        *mode = match (changeover, manual) {
            (true, _) => Mode::Changeover,
            (false, true) => Mode::Manual,
            (false, false) => Mode::Production,
        };
    }

    fn code_products(&self, s: &mut State, coder: &mut impl Coder) {
        coder.byte(&mut s.chosen, 3);
        coder.byte(&mut s.loaded, 3);
        let stored = self.parts.products.iter().map(|product| product.width);
        let saved = !stored.eq(s.widths.iter().copied().take(self.parts.products.len()));
        let mut changed = saved || self.is_set_otherwise(s) || self.stored_otherwise(s);
        coder.flag(&mut changed);
        for (at, width) in s.widths.iter_mut().enumerate() {
            let stored = self
                .parts
                .products
                .get(at)
                .map_or(Micrometres(0), |product| product.width);
            if changed {
                coder.signed(&mut width.0)
            } else {
                *width = stored
            }
        }
        let mut editing = s.edited.is_some();
        coder.flag(&mut editing);
        let mut width = s.edited.unwrap_or_default();
        if editing {
            coder.signed(&mut width.0);
        }
        s.edited = editing.then_some(width);
        self.code_service(s, changed, coder);
        self.code_loaded(s, changed, coder);
    }

    /// What was loaded is what is stored under that number, unless that was saved since.
    fn code_loaded(&self, s: &mut State, changed: bool, coder: &mut impl Coder) {
        let mut otherwise = changed && self.stored_otherwise(s);
        if changed {
            coder.flag(&mut otherwise);
        }
        if !otherwise {
            return self.load_figures(s);
        }
        coder.signed(&mut s.loaded_width.0);
        match self.parts.service.side_play_scope {
            Scope::Machine => s.service.loaded_play = self.plain_play(),
            Scope::Product => coder.short(&mut s.service.loaded_play, 16),
        }
    }

    fn code_signals(&self, s: &mut State, coder: &mut impl Coder) {
        code_board(&mut s.upstream_board, coder);
        coder.flags([
            &mut s.machine_ready,
            &mut s.board_available,
            &mut s.downstream_ready,
            &mut s.upstream_fresh,
            &mut s.downstream_fresh,
        ]);
        if let Some(neighbouring) = self.neighbouring {
            s.beyond.code(neighbouring, coder);
        } else {
            s.beyond = crate::beyond::Beyond::default();
        }
        coder.word(&mut s.ready_open_left.0, 32);
        coder.word(&mut s.available_open_left.0, 32);
    }
}
