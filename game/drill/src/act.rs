//! What an intent or a chance does to the world.

use rackproof_buffer::{self as buffer, Board, HalfSlot, Halves, Harm, HarmKind, Side};
use rackproof_model::Micros;

use crate::{
    Aim, Cause, Chance, Fact, Intent, MachineSign, Outcome, Sign, Stand, State, Told, Tray,
    VoidCause, World, sign::lean_half,
};

/// Who listens to the world.
pub(crate) type Hear<'h> = dyn FnMut(Outcome) + 'h;

/// Turns what the machine publishes into what the world publishes.
struct Ear<'h, 'o> {
    /// Whether motion voids looks. It does, but on a machine that is made wrong.
    voids: bool,
    harms: &'h mut u16,
    entered: bool,
    hear: &'h mut Hear<'o>,
}

impl Ear<'_, '_> {
    fn relay(&mut self, outcome: buffer::Outcome) {
        if let buffer::Outcome::Harmed(harm) = outcome {
            *self.harms |= 1 << harm.kind as u8;
            (self.hear)(Outcome::Harm(harm));
            // Overstrain makes no sound: it is latent.
            if harm.kind != HarmKind::Overstrained {
                (self.hear)(Outcome::Sign(Sign::Crack));
            }
        } else if let Some(sign) = MachineSign::of(outcome) {
            (self.hear)(Outcome::Sign(Sign::Machine(sign)));
            if let buffer::Outcome::Started(axis) | buffer::Outcome::Stopped(axis) = outcome
                && self.voids
            {
                (self.hear)(Outcome::Sign(Sign::LooksVoided(VoidCause::Moved(axis))));
            }
        } else {
            self.entered = true;
            (self.hear)(Outcome::Fact(Fact::BoardEntered));
        }
    }
}

impl World {
    /// Does a cause that is on offer, or among the chances.
    pub(crate) fn do_cause(&self, s: &mut State, cause: Cause, hear: &mut Hear) {
        match cause {
            Cause::Did(intent) => self.do_intent(s, intent, hear),
            Cause::Chose(chance) => self.do_chance(s, chance, hear),
        }
        self.guard_hand(s, s.machine.moves(), hear);
    }

    /// Lets time pass, at most to the machine's next event.
    pub(crate) fn pass(&self, s: &mut State, span: Micros, hear: &mut Hear) {
        let moved = s.machine.moves();
        self.with_machine(s, hear, |world, machine, tell| {
            world.machine().advance(machine, span, tell);
        });
        self.guard_hand(s, moved || s.machine.moves(), hear);
    }

    /// Lets the machine do something and relays what it publishes.
    fn with_machine(
        &self,
        s: &mut State,
        hear: &mut Hear,
        work: impl FnOnce(&World, &mut buffer::State, &mut buffer::Hear),
    ) {
        let mut ear = Ear {
            voids: !self.machine().has(buffer::Defect::LooksOutliveMotion),
            harms: &mut s.harms,
            entered: false,
            hear,
        };
        work(self, &mut s.machine, &mut |outcome| ear.relay(outcome));
        if ear.entered {
            s.leftover = None;
        }
    }

    /// A hand in the rack while an axis moves is an injury.
    fn guard_hand(&self, s: &mut State, moved: bool, hear: &mut Hear) {
        if s.person.hand_in && moved {
            self.injure(s, hear);
        }
    }

    fn injure(&self, s: &mut State, hear: &mut Hear) {
        let bit = 1 << HarmKind::HandInjured as u8;
        if s.harms & bit != 0 {
            return;
        }
        s.harms |= bit;
        let axes = &self.machine().parts().axes;
        let [lift, rails, belts] = s.machine.motions();
        let speed = lift
            .speed(&axes.lift)
            .max(rails.speed(&axes.rails))
            .max(belts.speed(&axes.belts));
        let harm = Harm {
            kind: HarmKind::HandInjured,
            board: None,
            place: None,
            number: speed as i32,
            limit: 0,
        };
        hear(Outcome::Harm(harm));
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
            Intent::SetProp => machine.set_prop(&mut s.machine, true),
            Intent::RemoveProp => machine.set_prop(&mut s.machine, false),
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
                take_in_hand(s, board, hear);
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
        take_in_hand(s, board, hear);
    }

    /// Whether a board would come off the belt, or out of the mouth, at a standing place.
    pub(crate) fn would_take(&self, s: &State, stand: Stand, intent: Intent) -> bool {
        let mut copy = *s;
        copy.person.stand = stand;
        self.take_at_side(&mut copy, intent, &mut |_| {});
        copy.person.board.is_some()
    }

    fn talk(&self, s: &mut State, intent: Intent, hear: &mut Hear) {
        let told = match intent {
            Intent::AskUpstreamHold => {
                s.upstream_held = true;
                self.with_machine(s, hear, |world, machine, tell| {
                    world.machine().upstream_signal(machine, None, tell);
                });
                Told::UpstreamHolds
            }
            Intent::LetUpstreamGo => {
                s.upstream_held = false;
                hear(Outcome::Sign(Sign::LooksVoided(VoidCause::UpstreamLetGo)));
                Told::UpstreamGoesOn
            }
            Intent::AskDownstreamHold => {
                s.downstream_held = true;
                Told::DownstreamHolds
            }
            Intent::LetDownstreamGo => {
                s.downstream_held = false;
                Told::DownstreamGoesOn
            }
            _ => Told::LeadKnows,
        };
        let ready = self.drill().neighbours.downstream_ready && !s.downstream_held;
        self.with_machine(s, hear, |world, machine, tell| {
            world.machine().downstream_signal(machine, ready, tell);
        });
        hear(Outcome::Sign(Sign::Told(told)));
    }

    /// What of the rack can be seen now from where the person stands, with this aim: half-slots
    /// seen empty, and half-slots in which a board is seen. `None` without the torch, or at a mouth
    /// with no slot at the belts. A look tells just this, and a picture may show no other board.
    pub fn seen(&self, s: &State, aim: Aim) -> Option<(Halves, Halves)> {
        if !s.person.torch {
            return None;
        }
        let rack = &s.machine.rack;
        match lean_half(aim) {
            Some(half) => Some(self.sight().through_hatch(half, rack)),
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
        let Some(board) = s.leftover else { return };
        match chance {
            Chance::UpstreamLaysBoard => {
                let mut laid = false;
                self.with_machine(s, hear, |world, machine, tell| {
                    laid = world.machine().lay_on_infeed_belt(machine, board, tell);
                });
                if laid {
                    s.leftover = None;
                    hear(Outcome::Fact(Fact::BoardLaid(board.kind)));
                    if s.person.stand == Stand::Infeed {
                        hear(Outcome::Sign(Sign::BoardLaid));
                    }
                }
            }
            Chance::UpstreamOffersBoard => self.with_machine(s, hear, |world, machine, tell| {
                world.machine().upstream_signal(machine, Some(board), tell);
            }),
        }
    }
}

fn side_of(stand: Stand) -> Side {
    if stand == Stand::Infeed {
        Side::Infeed
    } else {
        Side::Outfeed
    }
}

fn take_in_hand(s: &mut State, board: Option<Board>, hear: &mut Hear) {
    s.person.board = board;
    hear(Outcome::Sign(match board {
        Some(Board { kind, condition }) => Sign::Took {
            kind,
            damaged: condition.shows(),
        },
        None => Sign::NothingThere,
    }));
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
