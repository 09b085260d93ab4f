//! The changeover: sweep, then rails to zero, then rails to the product's width.

use crate::{
    Alarm, Defect, Hear, LiftPlace, Machine, Mistrust, Mode, Outcome, Phase, State,
    halves::slots_mask,
};

impl Machine {
    /// Sends the lift to the lowest slot; the sweep runs upwards from there.
    pub(crate) fn begin_sweep(&self, s: &mut State, hear: &mut Hear) {
        s.phase = Phase::ToSweep;
        s.slot = 0;
        self.send_lift(s, LiftPlace::At(0), hear);
    }

    /// The lift came to rest: what next depends on the phase.
    pub(crate) fn lift_arrived(&self, s: &mut State, hear: &mut Hear) {
        match s.phase {
            Phase::Referencing => {
                s.referenced = true;
                s.phase = Phase::Rest;
                hear(Outcome::ReferenceFound);
                self.begin_work(s, hear);
            }
            Phase::ToSweep => {
                s.phase = Phase::Sweeping;
                self.send_lift(s, LiftPlace::At(self.highest_used(s)), hear);
            }
            Phase::SweepSaw => {
                // Holding ends by itself when all axes rest; the question is put then.
                s.phase = Phase::AskSeen;
                self.unit_done(s, hear);
                hear(Outcome::Asked(crate::Question::Seen(s.slot)));
            }
            Phase::Indexing => self.run_out(s, hear),
            Phase::Seeking | Phase::ToSend => self.production_indexed(s, hear),
            _ => {}
        }
    }

    /// The sweep has slot `s.slot` at belt height.
    pub(crate) fn sweep_passed(&self, s: &mut State, hear: &mut Hear) {
        let slot = s.slot;
        if self.mouths_see(s, slot) {
            self.sweep_saw(s, hear);
        } else if let Some(next) = self.used_above(s, slot) {
            s.slot = next;
        } else {
            // The last slot: the lift is at its target and comes to rest in this very event.
            s.phase = Phase::Rest;
            hear(Outcome::SweepSawNothing);
            self.finish_sweep(s, hear);
        }
    }

    fn finish_sweep(&self, s: &mut State, hear: &mut Hear) {
        if self.parts.behaviours.rails_asked {
            self.hold(s, Phase::AskRails, hear);
        } else {
            self.begin_rails(s, hear);
        }
    }

    fn sweep_saw(&self, s: &mut State, hear: &mut Hear) {
        hear(Outcome::SweepSaw(s.slot));
        let all = self.used_slots(s);
        s.map.unknown |= match self.parts.behaviours.sweep_seen {
            Mistrust::All => all,
            Mistrust::FromThereUp => all & !slots_mask(s.slot),
        };
        s.map.full &= !s.map.unknown;
        hear(Outcome::Alarmed(Alarm::BoardSeen));
        s.phase = Phase::SweepSaw;
        crate::panel::set_task(s, crate::Task::None, hear);
        self.command(s, crate::Command::Hold, hear);
        self.brake_lift(s);
    }

    /// Rails to zero, the first of the two rail moves.
    pub(crate) fn begin_rails(&self, s: &mut State, hear: &mut Hear) {
        s.phase = Phase::RailsToZero;
        self.forget_width(s);
        if self.has(Defect::ReadyWhileRailsMove) {
            self.set_machine_ready(s, true, hear);
        }
        self.send_rails(s, self.zero_width(), hear);
    }

    /// The rails came to rest.
    pub(crate) fn rails_arrived(&self, s: &mut State, hear: &mut Hear) {
        match s.phase {
            Phase::RailsToZero if s.width_from != self.zero_width() => {
                self.zero_not_found(s, hear);
            }
            Phase::RailsToZero => {
                s.phase = Phase::RailsToWidth;
                let width = self.width_in_truth(s, self.wanted_width(s));
                self.send_rails(s, width, hear);
            }
            Phase::RailsToWidth => self.confirm_width(s, hear),
            _ => {}
        }
    }

    /// The changeover is done: the rails stand where the controller counts that they do.
    pub(crate) fn width_reached(&self, s: &mut State, hear: &mut Hear) {
        s.width_known = true;
        hear(Outcome::WidthReached);
        self.complete(s, hear);
        if self.parts.behaviours.runs_after_changeover {
            self.run_by_itself(s, hear);
        }
    }

    fn run_by_itself(&self, s: &mut State, hear: &mut Hear) {
        for button in [
            crate::Button::Reset,
            crate::Button::Mode(Mode::Production),
            crate::Button::Start,
        ] {
            self.press(s, button, hear);
        }
    }
}
