//! Everything that can be done now. The only door: window, terminal, guide and prover use this
//! list.

use rackproof_buffer::{Answer, Button, Half, HalfSlot, HarmKind, Mode, Question, Side, UnitState};

use rackproof_model::Instants;

use crate::{Aim, Chance, Comes, Intent, Page, Stand, State, Tray, World};

/// Both looks through the hatch.
const LEANS: [Intent; 2] = [
    Intent::Look(Aim::LeanInfeed),
    Intent::Look(Aim::LeanOutfeed),
];

impl World {
    /// Adds everything that the person could do now, in a fixed order. It depends on where they
    /// stand and what they wear and hold, never on a truth that they cannot perceive.
    pub fn offered(&self, s: &State, out: &mut Vec<Intent>) {
        let person = &s.person;
        if person.reported || injured(s) {
            return;
        }
        if s.machine.hold_left().0 > 0 {
            // Both hands and both eyes are on the button.
            out.push(Intent::Press(Button::LetGoDeclare));
            return;
        }
        if free_to_walk(s) {
            let elsewhere = Stand::ALL
                .into_iter()
                .filter(|&(_, stand)| stand != person.stand);
            out.extend(elsewhere.map(|(_, stand)| Intent::Walk(stand)));
        }
        out.push(Intent::Torch(!person.torch));
        self.offered_here(s, person.stand, out);
        self.offered_anywhere(s, out);
    }

    /// What can be done at a standing place, walking and the torch apart.
    pub(crate) fn offered_here(&self, s: &State, stand: Stand, out: &mut Vec<Intent>) {
        if self.hall().emergency_stops.contains(&stand) {
            out.push(if s.machine.emergency() {
                Intent::ReleaseEmergency
            } else {
                Intent::PressEmergency
            });
        }
        if self.hall().panel_reach.contains(&stand) {
            self.offered_at_panel(s, out);
        }
        match stand {
            Stand::Panel => {
                let turned = s.machine.key_turned();
                out.push(if turned {
                    Intent::KeyOut
                } else {
                    Intent::KeyIn
                });
                if !s.person.log_written {
                    out.push(Intent::WriteLog);
                }
            }
            Stand::Infeed | Stand::Outfeed => {
                out.push(Intent::Look(Aim::Mouth));
                if self.has_faults() {
                    out.push(Intent::WipeLenses);
                }
                if stand
                    .side()
                    .is_some_and(|side| self.may_touch_plug(s, side))
                {
                    out.push(Intent::ClearPlug);
                }
                if s.person.board.is_none() {
                    out.extend([Intent::TakeFromBelt, Intent::TakeFromMouth]);
                }
            }
            Stand::Hatch => self.offered_at_hatch(s, out),
            Stand::Isolator => offered_at_isolator(s, out),
        }
    }

    pub(crate) fn offered_anywhere(&self, s: &State, out: &mut Vec<Intent>) {
        let person = &s.person;
        if !person.straps_tested && !person.hand_in {
            out.push(Intent::TestStraps);
        }
        if self.has_faults() && !person.gloves && !person.hand_in {
            out.push(Intent::WearGloves);
        }
        if person.board.is_some() && !person.hand_in {
            out.extend([Tray::Good, Tray::Quarantine, Tray::Scrap].map(Intent::PutDown));
        }
        out.push(if s.upstream_held {
            Intent::LetUpstreamGo
        } else {
            Intent::AskUpstreamHold
        });
        out.push(if s.downstream_held {
            Intent::LetDownstreamGo
        } else {
            Intent::AskDownstreamHold
        });
        out.push(Intent::CallLead);
        if free_to_walk(s) {
            out.push(Intent::Report);
        }
    }

    fn offered_at_panel(&self, s: &State, out: &mut Vec<Intent>) {
        let machine = &s.machine;
        if !machine.powered() {
            out.push(Intent::TryStart);
            return;
        }
        out.extend([Button::Start, Button::Stop, Button::Reset].map(Intent::Press));
        if let Some(Question::Answer(_) | Question::AnswerHalf(_)) = machine.question() {
            let answers = [Answer::Taken, Answer::SeenEmpty, Answer::NotSure];
            out.extend(answers.map(|answer| Intent::Press(Button::Answer(answer))));
        }
        if machine.unit().lets_mode_change() {
            let manual = self.machine().parts().service.manual_mode && self.opens(Page::Orders);
            let modes = [Mode::Production, Mode::Changeover, Mode::Manual];
            let others = modes
                .into_iter()
                .filter(|&mode| mode != machine.mode() && (manual || mode != Mode::Manual));
            out.extend(others.map(|mode| Intent::Press(Button::Mode(mode))));
        }
        if machine.unit() == UnitState::Idle && machine.mode() == Mode::Changeover {
            let products = 0..self.machine().parts().products.len() as u8;
            let others = products.filter(|&product| product != machine.chosen());
            out.extend(others.map(|product| Intent::Press(Button::Choose(product))));
            out.extend([Button::Load, Button::ClearOut].map(Intent::Press));
        }
        if let Some(Question::Seen(_)) = machine.question() {
            out.push(Intent::Press(Button::ClearOut));
        }
        if self.machine().may_declare(machine) {
            out.push(Intent::Press(Button::HoldDeclare));
        }
        if machine.alarms().waiting() != 0 {
            out.push(Intent::Press(Button::Acknowledge));
        }
        self.offered_on_pages(s, out);
    }

    fn offered_at_hatch(&self, s: &State, out: &mut Vec<Intent>) {
        let person = &s.person;
        if !s.machine.hatch_open() {
            if self.hall().sight.clear_glass.is_some() {
                out.extend(LEANS);
            }
            out.push(Intent::OpenHatch);
            return;
        }
        if person.hand_in {
            let slots = (0..self.machine().slots())
                .flat_map(|slot| Half::BOTH.map(|half| HalfSlot { slot, half }));
            let holds = person.board.is_some();
            out.extend(slots.map(|at| {
                if holds {
                    Intent::PutIn(at)
                } else {
                    Intent::Take(at)
                }
            }));
            if self.has_faults() && !holds {
                out.push(Intent::ClearScrew);
            }
            out.push(Intent::HandOut);
            return;
        }
        out.extend(LEANS);
        out.push(if person.cord {
            Intent::UnplugCord
        } else {
            Intent::PlugCord
        });
        out.push(if s.machine.propped() {
            Intent::RemoveProp
        } else {
            Intent::SetProp
        });
        out.push(Intent::HandIn);
        if !person.cord {
            out.push(Intent::ShutHatch);
        }
    }

    /// Adds what the environment could choose now.
    pub fn chosen(&self, s: &State, out: &mut Vec<Chance>) {
        if s.person.reported {
            return;
        }
        out.extend(self.faults_by_chance(s).map(Chance::FaultComes));
        self.neighbours_choose(s, out);
        let Some(board) = s.leftover else { return };
        if s.upstream_held || self.line_has_changed(s) {
            return;
        }
        let neighbours = &self.drill().neighbours;
        let width = self.machine().kinds()[board.kind as usize].width;
        let machine = &s.machine;
        let room = machine.infeed_belt.is_none() && machine.motions()[2].is_rest();
        if neighbours.lays_by_hand && room && machine.width(self.machine()) >= width {
            out.push(Chance::UpstreamLaysBoard);
        }
        if neighbours.upstream.is_some() {
            if self.may_bring_board(s) {
                out.push(Chance::UpstreamOffersBoard);
            }
            return;
        }
        let fits = room && machine.width(self.machine()) >= width;
        let ready = self.machine().signal_given(machine, Side::Infeed);
        let takes = machine.machine_ready() || fits;
        if ready && takes && !machine.neighbour_signal(Side::Infeed) {
            out.push(Chance::UpstreamOffersBoard);
        }
    }

    /// What the environment may choose in this variant at some time, by what its drill says: a
    /// drill in which one of these never comes up says more than it does.
    pub fn choices(&self) -> Vec<Chance> {
        let mut choices = Vec::new();
        self.neighbours_may_choose(&mut choices);
        let faults = self.faults().enumerate();
        let by_chance = faults.filter(|(_, fault)| fault.comes == Comes::Chance);
        choices.extend(by_chance.map(|(number, _)| Chance::FaultComes(number as u8)));
        choices
    }

    /// Adds the moments before the next event at which a chance comes or goes, or comes out
    /// otherwise: while the rails move, upstream's board fits from one width on and falls from
    /// another.
    pub fn critical_chances(&self, s: &State, out: &mut Instants) {
        let (Some(board), Some(next)) = (s.leftover, self.machine().next_event(&s.machine)) else {
            return;
        };
        if s.upstream_held || !self.drill().neighbours.lays_by_hand {
            return;
        }
        let fits = self.machine().kinds()[board.kind as usize].width;
        let falls = self.machine().press_limits(board.kind).dropped_over;
        for width in [fits, falls] {
            let at = self.machine().time_to_width(&s.machine, width);
            if let Some(at) = at.filter(|at| at.0 > 0 && *at < next) {
                out.push(at);
            }
        }
    }

    /// Upstream sees that the rails stand at the next product's width: nobody lays an old board
    /// there any more. That is what the eye sees, whatever the step count says.
    pub(crate) fn line_has_changed(&self, s: &State) -> bool {
        let (machine, drill) = (&s.machine, self.drill());
        if drill.next == drill.start.product {
            return false;
        }
        let next = machine.stored_width(drill.next);
        machine.motions()[1].is_rest()
            && machine.width(self.machine()) == self.machine().rails_for(next)
    }
}

fn offered_at_isolator(s: &State, out: &mut Vec<Intent>) {
    if s.machine.powered() {
        out.push(Intent::IsolatorOff);
    } else if s.person.lock_on {
        out.push(Intent::LockOff);
    } else {
        out.extend([Intent::LockOn, Intent::IsolatorOn]);
    }
}

/// Whether the person can walk: no hand inside, and not tied by the cord.
pub(crate) fn free_to_walk(s: &State) -> bool {
    !s.person.hand_in && !s.person.cord
}

/// Whoever is hurt does nothing more. A burn is a harm, and the person goes on.
pub(crate) fn injured(s: &State) -> bool {
    let hurt = 1 << HarmKind::HandInjured as u8 | 1 << HarmKind::CaughtUnderLift as u8;
    s.harms & hurt != 0
}
