//! From what the machine publishes to what the world publishes, and what both do to people.

use rackproof_buffer::{self as buffer, AxisName, Board, Hand, Harm, HarmKind};

use crate::{Cue, Fact, MachineSign, Outcome, Sign, Stand, State, VoidCause, World, act::Hear};

/// Turns what the machine publishes into what the world publishes.
struct Ear<'h, 'o> {
    /// Whether motion voids looks. It does, but on a machine that is made wrong.
    voids: bool,
    harms: &'h mut u16,
    entered: bool,
    sent: bool,
    sank: bool,
    /// Speed at the end of a fall, in µm/s.
    fell: u32,
    hear: &'h mut Hear<'o>,
}

impl Ear<'_, '_> {
    fn relay(&mut self, outcome: buffer::Outcome) {
        if let buffer::Outcome::Harmed(harm) = outcome {
            self.relay_harm(harm);
        } else if let Some(sign) = MachineSign::of(outcome) {
            self.sent |= matches!(
                outcome,
                buffer::Outcome::BoardSent(_) | buffer::Outcome::BoardPassed(_)
            );
            (self.hear)(Outcome::Sign(Sign::Machine(sign)));
            if let buffer::Outcome::Started(axis) | buffer::Outcome::Stopped(axis) = outcome
                && self.voids
            {
                (self.hear)(Outcome::Sign(Sign::LooksVoided(VoidCause::Moved(axis))));
            }
        } else if outcome == buffer::Outcome::LiftSank {
            self.sank = true;
            (self.hear)(Outcome::Fact(Fact::LiftSank));
        } else {
            self.entered = true;
            (self.hear)(Outcome::Fact(Fact::BoardEntered));
        }
    }

    fn relay_harm(&mut self, harm: Harm) {
        *self.harms |= 1 << harm.kind as u8;
        (self.hear)(Outcome::Harm(harm));
        if harm.kind == HarmKind::LiftFell {
            self.fell = harm.number.unsigned_abs();
        }
        // What is latent makes no sound, and a burn is felt, not heard.
        if !harm.kind.is_latent() && harm.kind != HarmKind::Burned {
            (self.hear)(Outcome::Sign(Sign::Crack));
        }
    }
}

impl World {
    /// Lets the machine do something and relays what it publishes.
    pub(crate) fn with_machine(
        &self,
        s: &mut State,
        hear: &mut Hear,
        work: impl FnOnce(&World, &mut buffer::State, &mut dyn FnMut(buffer::Outcome)),
    ) {
        let voids = !self.machine().has(buffer::Defect::LooksOutliveMotion);
        let mut ear = Ear {
            voids,
            harms: &mut s.harms,
            entered: false,
            sent: false,
            sank: false,
            fell: 0,
            hear,
        };
        work(self, &mut s.machine, &mut |outcome| ear.relay(outcome));
        let (entered, sent, sank, fell) = (ear.entered, ear.sent, ear.sank, ear.fell);
        if entered {
            self.note_two_at_once(s);
            self.board_came_from_upstream(s, hear);
        }
        if sent {
            self.board_came_downstream(s);
            self.chatters(s, hear);
        }
        // Who sees the lift come down knows that it moved.
        if sank && self.sees_lift(s) {
            hear(Outcome::Sign(Sign::Cue(Cue::LiftSinks)));
            if voids {
                let moved = VoidCause::Moved(AxisName::Lift);
                hear(Outcome::Sign(Sign::LooksVoided(moved)));
            }
        }
        self.guard_under_lift(s, fell, hear);
    }

    /// Does something, then lets the faults come that waited for a sign of it.
    pub(crate) fn and_faults(
        &self,
        s: &mut State,
        hear: &mut Hear,
        work: &mut dyn FnMut(&mut State, &mut Hear),
    ) {
        if !self.waits_for_signs(s) {
            return work(s, hear);
        }
        let mut sorts = 0;
        work(s, &mut |outcome| {
            sorts |= self.sorts_waited_for(outcome);
            hear(outcome);
        });
        self.faults_on_signs(s, sorts, hear);
    }

    /// A hand in the rack while an axis moves is an injury.
    pub(crate) fn guard_hand(&self, s: &mut State, moved: bool, hear: &mut Hear) {
        if s.person.hand_in && moved {
            self.injure(s, hear);
        }
    }

    pub(crate) fn injure(&self, s: &mut State, hear: &mut Hear) {
        let axes = &self.machine().parts().axes;
        let [lift, rails, belts] = s.machine.motions();
        let speed = lift
            .speed(&axes.lift)
            .max(rails.speed(&axes.rails))
            .max(belts.speed(&axes.belts));
        hurt(s, HarmKind::HandInjured, speed as i32, hear);
    }

    /// A hand in the rack while the lift comes down on its own, at so many µm/s.
    pub(crate) fn guard_under_lift(&self, s: &mut State, speed: u32, hear: &mut Hear) {
        if s.person.hand_in && speed > 0 {
            hurt(s, HarmKind::CaughtUnderLift, speed as i32, hear);
        }
    }

    /// The hand holds a board, or found none.
    pub(crate) fn take_in_hand(&self, s: &mut State, board: Option<Board>, hear: &mut Hear) {
        let Some(board) = board else {
            return hear(Outcome::Sign(Sign::NothingThere));
        };
        let person = &s.person;
        let hand = Hand {
            grounded: person.straps_tested && (person.cord || person.stand != Stand::Hatch),
            gloved: person.gloves,
        };
        let mut held = board;
        self.with_machine(s, hear, |world, _, tell| {
            held = world.machine().take_in_hand(board, hand, tell);
        });
        s.person.board = Some(held);
        hear(Outcome::Sign(Sign::Took {
            kind: held.kind,
            damaged: held.condition.shows(),
        }));
        if let Some(degrees) = self.machine().degrees(held) {
            hear(Outcome::Sign(Sign::Cue(Cue::Heat(degrees))));
        }
    }
}

/// A person is hurt, once.
fn hurt(s: &mut State, kind: HarmKind, number: i32, hear: &mut Hear) {
    let bit = 1 << kind as u8;
    if s.harms & bit != 0 {
        return;
    }
    s.harms |= bit;
    hear(Outcome::Harm(Harm {
        kind,
        board: None,
        place: None,
        number,
        limit: 0,
    }));
}
