//! What an intent or a chance does to the world.

use rackproof_buffer::{self as buffer, Board, HalfSlot, Halves, Side};
use rackproof_model::Micros;

use crate::{
    Aim, Cause, Chance, Cue, Fact, Intent, Outcome, Sign, Stand, State, Told, Tray, VoidCause,
    World, sign::lean_half,
};

/// Who listens to the world.
pub(crate) type Hear<'h> = dyn FnMut(Outcome) + 'h;

impl World {
    /// Does a cause that is on offer, or among the chances.
    pub(crate) fn do_cause(&self, s: &mut State, cause: Cause, hear: &mut Hear) {
        if self.waits_for_signs(s) {
            self.and_faults(s, hear, &mut |s, hear| self.do_at_once(s, cause, hear));
        } else {
            self.do_at_once(s, cause, hear);
        }
        if s.person.hand_in {
            self.guard_hand(s, s.machine.moves(), hear);
            self.guard_under_lift(s, self.machine().sinking_speed(&s.machine), hear);
        }
    }

    #[inline]
    fn do_at_once(&self, s: &mut State, cause: Cause, hear: &mut Hear) {
        match cause {
            Cause::Did(intent) => self.do_intent(s, intent, hear),
            Cause::Chose(chance) => self.do_chance(s, chance, hear),
        }
        self.neighbours_answer(s, hear);
        self.faults_on_cause(s, cause, hear);
    }

    /// Lets time pass, at most to the next event.
    pub(crate) fn pass(&self, s: &mut State, span: Micros, hear: &mut Hear) {
        let moved = s.machine.moves();
        let sinking = self.machine().sinking_speed(&s.machine);
        self.and_faults(s, hear, &mut |s, hear| {
            // First: what a board that comes or goes now sets does not run yet.
            self.neighbours_pass(s, span);
            self.with_machine(s, hear, |world, machine, tell| {
                world.machine().advance(machine, span, tell);
            });
            self.neighbours_answer(s, hear);
            self.faults_pass(s, span, hear);
        });
        self.guard_hand(s, moved || s.machine.moves(), hear);
        let sinks = self.machine().sinking_speed(&s.machine);
        self.guard_under_lift(s, sinking.max(sinks), hear);
    }

    fn do_intent(&self, s: &mut State, intent: Intent, hear: &mut Hear) {
        let machine = self.machine();
        match intent {
            Intent::Walk(stand) => s.person.stand = stand,
            Intent::TestStraps => {
                s.person.straps_tested = true;
                hear(Outcome::Sign(Sign::StrapsTested));
            }
            Intent::Torch(lit) => s.person.torch = lit,
            Intent::Look(aim) => self.look(s, aim, hear),
            Intent::OpenHatch => self.with_machine(s, hear, |world, machine, tell| {
                world.machine().open_hatch(machine, tell);
            }),
            Intent::ShutHatch => machine.shut_hatch(&mut s.machine),
            Intent::PlugCord => s.person.cord = true,
            Intent::UnplugCord => s.person.cord = false,
            Intent::SetProp | Intent::RemoveProp => {
                let set = intent == Intent::SetProp;
                self.with_machine(s, hear, |world, machine, tell| {
                    world.machine().set_prop(machine, set, tell);
                });
            }
            Intent::WearGloves => s.person.gloves = true,
            Intent::WipeLenses => {
                let wiped = machine.wipe_lenses(&mut s.machine, side_of(s.person.stand));
                hear(Outcome::Sign(Sign::Cue(Cue::LensesWiped(wiped))));
            }
            Intent::ClearScrew => {
                let cleared = machine.clear_screw(&mut s.machine);
                hear(Outcome::Sign(Sign::Cue(Cue::ScrewCleared(cleared))));
            }
            Intent::ClearPlug => self.clear_plug(s, side_of(s.person.stand), hear),
            Intent::IsolatorOff | Intent::IsolatorOn => {
                let on = intent == Intent::IsolatorOn;
                self.with_machine(s, hear, |world, machine, tell| {
                    world.machine().turn_isolator(machine, on, tell);
                });
            }
            Intent::LockOn => s.person.lock_on = true,
            Intent::LockOff => s.person.lock_on = false,
            Intent::TryStart => hear(Outcome::Sign(Sign::NothingStarted)),
            Intent::PressEmergency => self.with_machine(s, hear, |world, machine, tell| {
                world.machine().press_emergency(machine, tell);
            }),
            Intent::ReleaseEmergency => machine.release_emergency(&mut s.machine),
            Intent::KeyIn => machine.turn_key(&mut s.machine, true),
            Intent::KeyOut => machine.turn_key(&mut s.machine, false),
            Intent::Press(button) => self.with_machine(s, hear, |world, machine, tell| {
                world.machine().press(machine, button, tell);
            }),
            Intent::HandIn
            | Intent::HandOut
            | Intent::Take(_)
            | Intent::PutIn(_)
            | Intent::TakeFromBelt
            | Intent::TakeFromMouth
            | Intent::PutDown(_) => self.handle(s, intent, hear),
            Intent::AskUpstreamHold
            | Intent::LetUpstreamGo
            | Intent::AskDownstreamHold
            | Intent::LetDownstreamGo
            | Intent::CallLead => self.talk(s, intent, hear),
            Intent::WriteLog => s.person.log_written = true,
            Intent::Report => {
                let held = self.unfinished(s).next().is_none();
                s.finish_held = held;
                s.person.reported = true;
            }
        }
    }

    /// Hands and boards.
    fn handle(&self, s: &mut State, intent: Intent, hear: &mut Hear) {
        match intent {
            Intent::HandIn => {
                s.person.hand_in = true;
                hear(Outcome::Sign(Sign::HandEntered));
                hear(Outcome::Sign(Sign::LooksVoided(VoidCause::HandEntered)));
            }
            Intent::HandOut => s.person.hand_in = false,
            Intent::Take(at) => {
                let board = s.machine.take_from_rack(at);
                if let Some(board) = board {
                    hear(Outcome::Fact(Fact::BoardTaken(at, board.kind)));
                }
                self.take_in_hand(s, board, hear);
            }
            Intent::PutIn(at) => self.put_in(s, at, hear),
            Intent::TakeFromBelt | Intent::TakeFromMouth => self.take_at_side(s, intent, hear),
            Intent::PutDown(tray) => put_down(s, tray, hear),
            _ => {}
        }
    }

    fn put_in(&self, s: &mut State, at: HalfSlot, hear: &mut Hear) {
        let Some(board) = s.person.board else { return };
        let mut fitted = false;
        self.with_machine(s, hear, |world, machine, tell| {
            fitted = world.machine().put_in_rack(machine, at, board, tell);
        });
        if fitted {
            s.person.board = None;
            hear(Outcome::Fact(Fact::BoardPutIn(at, board.kind)));
        } else {
            hear(Outcome::Sign(Sign::NoRoom(at)));
        }
    }

    fn take_at_side(&self, s: &mut State, intent: Intent, hear: &mut Hear) {
        let side = side_of(s.person.stand);
        let [_, _, belts] = s.machine.motions();
        let reaches_in = intent == Intent::TakeFromMouth;
        if !belts.is_rest() || (reaches_in && s.machine.moves()) {
            return self.injure(s, hear);
        }
        let board = if reaches_in {
            self.machine().take_from_mouth(&mut s.machine, side)
        } else {
            self.machine().take_from_belt(&mut s.machine, side)
        };
        self.take_in_hand(s, board, hear);
    }

    /// Whether a board would be in hand after taking one off the belt, or out of the mouth, at a
    /// standing place.
    pub(crate) fn would_take(&self, s: &State, stand: Stand, intent: Intent) -> bool {
        let (machine, side) = (&s.machine, side_of(stand));
        let [_, _, belts] = machine.motions();
        if s.person.board.is_some() {
            return true;
        }
        if intent == Intent::TakeFromMouth {
            return !machine.moves() && machine.mouths[side as usize].is_some();
        }
        belts.is_rest()
            && match side {
                Side::Infeed => machine.infeed_belt.is_some(),
                Side::Outfeed => machine.outfeed_belt != [None; 2],
            }
    }

    fn talk(&self, s: &mut State, intent: Intent, hear: &mut Hear) {
        let told = match intent {
            Intent::AskUpstreamHold => {
                s.upstream_held = true;
                if self.drill().neighbours.upstream.is_none() {
                    self.with_machine(s, hear, |world, machine, tell| {
                        world.machine().upstream_signal(machine, None, tell);
                    });
                }
                Told::UpstreamHolds
            }
            Intent::LetUpstreamGo => {
                s.upstream_held = false;
                self.neighbour_goes_on(s, Side::Infeed, hear);
                hear(Outcome::Sign(Sign::LooksVoided(VoidCause::UpstreamLetGo)));
                Told::UpstreamGoesOn
            }
            Intent::AskDownstreamHold => {
                s.downstream_held = true;
                let more = self.mend_downstream(s, intent);
                more.unwrap_or(Told::DownstreamHolds)
            }
            Intent::LetDownstreamGo => {
                s.downstream_held = false;
                self.mend_downstream(s, intent);
                self.neighbour_goes_on(s, Side::Outfeed, hear);
                Told::DownstreamGoesOn
            }
            _ => Told::LeadKnows,
        };
        if self.drill().neighbours.downstream.is_none() {
            let ready = self.drill().neighbours.downstream_ready && !s.downstream_held;
            self.with_machine(s, hear, |world, machine, tell| {
                world.machine().downstream_signal(machine, ready, tell);
            });
        }
        hear(Outcome::Sign(Sign::Told(told)));
    }

    /// What of the rack can be seen now from where the person stands, with this aim: half-slots
    /// seen empty, and half-slots in which a board is seen. `None` without light, or at a mouth
    /// with no slot at the belts. Clear glass lets through the light of the hall, and the torch. A
    /// look tells just this, and a picture may show no other board.
    pub fn seen(&self, s: &State, aim: Aim) -> Option<(Halves, Halves)> {
        let (rack, torch) = (&s.machine.rack, s.person.torch);
        match lean_half(aim) {
            Some(half) if torch => Some(self.sight().through_hatch(half, rack)),
            Some(half) => self.sight().through_glass(half, rack),
            None if !torch => None,
            None => {
                let mouth = side_of(s.person.stand) as usize;
                let slot = s.machine.slot_at_belts()?;
                Some(self.sight().through_mouth(mouth, slot, rack))
            }
        }
    }

    pub(crate) fn look(&self, s: &State, aim: Aim, hear: &mut Hear) {
        if aim == Aim::Mouth {
            self.look_at_belt(s, hear);
        }
        match self.seen(s, aim) {
            Some((empty, boards)) => {
                hear(Outcome::Sign(Sign::Looked { empty, boards }));
                for at in boards.iter() {
                    if let Some(Board { kind, condition }) = s.machine.rack.get(at) {
                        let damaged = condition.shows();
                        hear(Outcome::Sign(Sign::SawBoard { at, kind, damaged }));
                    }
                }
            }
            None if !s.person.torch => hear(Outcome::Sign(Sign::Dark)),
            None => {}
        }
        self.look_for_cues(s, aim, hear);
    }

    /// The belt and the mouth stand in the light of the hall.
    fn look_at_belt(&self, s: &State, hear: &mut Hear) {
        let side = side_of(s.person.stand);
        let machine = &s.machine;
        let boards = match side {
            Side::Infeed => usize::from(machine.infeed_belt.is_some()),
            Side::Outfeed => machine.outfeed_belt.iter().flatten().count(),
        };
        // While belts run, a board may be anywhere between belt and slot: that is no free mouth.
        let runs = !machine.motions()[2].is_rest();
        let across = machine.mouths[side as usize].is_some() || runs;
        hear(Outcome::Sign(Sign::SawBelt(
            side,
            boards as u8 + u8::from(runs),
        )));
        hear(Outcome::Sign(Sign::SawMouth(side, across)));
    }

    fn do_chance(&self, s: &mut State, chance: Chance, hear: &mut Hear) {
        match chance {
            Chance::FaultComes(number) => return self.fault_comes(s, number, hear),
            _ if self.neighbour_chose(s, chance) => return,
            _ => {}
        }
        let Some(board) = s.leftover else { return };
        match chance {
            Chance::FaultComes(_)
            | Chance::DownstreamMakesRoom
            | Chance::UpstreamDrops
            | Chance::DownstreamDrops
            | Chance::UpstreamGivesTwo => {}
            Chance::UpstreamLaysBoard => self.lay_on_belt(s, board, hear),
            // By a contact that stays closed it takes us to be ready, and its belts push.
            Chance::UpstreamOffersBoard if !s.machine.machine_ready() => {
                self.lay_on_belt(s, board, hear);
            }
            Chance::UpstreamOffersBoard => self.with_machine(s, hear, |world, machine, tell| {
                world.machine().upstream_signal(machine, Some(board), tell);
            }),
        }
    }

    pub(crate) fn lay_on_belt(&self, s: &mut State, board: Board, hear: &mut Hear) {
        let mut laid = false;
        self.with_machine(s, hear, |world, machine, tell| {
            laid = world.machine().lay_on_infeed_belt(machine, board, tell);
        });
        if laid {
            self.board_gone_upstream(s);
            hear(Outcome::Fact(Fact::BoardLaid(board.kind)));
            if s.person.stand == Stand::Infeed {
                hear(Outcome::Sign(Sign::BoardLaid));
            }
        }
    }
}

pub(crate) fn side_of(stand: Stand) -> Side {
    if stand == Stand::Infeed {
        Side::Infeed
    } else {
        Side::Outfeed
    }
}

fn put_down(s: &mut State, _tray: Tray, hear: &mut Hear) {
    if let Some(board) = s.person.board.take() {
        let good = board.condition == buffer::Condition::Good;
        hear(Outcome::Fact(Fact::BoardPutDown {
            kind: board.kind,
            good,
        }));
    }
}
