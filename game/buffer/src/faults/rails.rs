//! Rails that stall: where they stand in truth, and where they stand by step count.

use rackproof_model::Micrometres;

use super::Fault;
use crate::{Alarm, Hear, Machine, Outcome, Phase, State};

impl State {
    /// Width between the rails now, in µm.
    pub fn width(&self, machine: &Machine) -> Micrometres {
        let commanded = self.width_from + self.rails.covered(&machine.parts.axes.rails);
        match self.faults.stall_at {
            Some(at) if self.rails.way().0 < 0 => commanded.max(at),
            Some(at) if self.rails.way().0 > 0 => commanded.min(at),
            _ => commanded,
        }
    }

    /// The width by step count, in µm, or `None` if it is not known. It is true only if no step was
    /// lost and nobody set an offset.
    pub fn width_by_count(&self, machine: &Machine) -> Option<Micrometres> {
        let counted = self.width(machine) + self.faults.count_off;
        let counted = counted - self.service.settings.width_offset;
        self.width_known.then_some(counted)
    }
}

impl Machine {
    /// Where a move of the rails from where they stand to a width stalls, if it does.
    pub(crate) fn rails_stall(&self, s: &State, to: Micrometres) -> Option<Micrometres> {
        if s.faults.present == 0 {
            return None;
        }
        let from = s.width_from;
        let closing = to < from;
        let stalls = self.present(s).filter_map(|fault| match fault {
            Fault::Debris { from: near, .. } if !closing && from <= near && near < to => Some(near),
            Fault::Debris { to: far, .. } if closing && to < far && far <= from => Some(far),
            // The zero is looked for until its switch is met: only a counted move ends short.
            Fault::StepsLost(lost) if s.phase == Phase::RailsToWidth && to != from => {
                let end = if closing {
                    (to + lost).min(from)
                } else {
                    (to - lost).max(from)
                };
                Some(end)
            }
            _ => None,
        });
        stalls.min_by_key(|at| (at.0 - from.0).abs())
    }

    /// The way from here to where this move stalls, until it has.
    pub(crate) fn stall_mark(&self, s: &State) -> Option<Micrometres> {
        let at = s.faults.stall_at.filter(|_| !s.faults.stalled)?;
        Some(at - s.width_from)
    }

    /// Whether a way of the rails' move, with its sign, lies beyond its stall.
    pub(crate) fn beyond_stall(s: &State, way: Micrometres) -> bool {
        s.faults
            .stall_at
            .is_some_and(|at| way.0.abs() > (at - s.width_from).0.abs())
    }

    /// The motor hums from the moment at which its rails stand still.
    pub(crate) fn hum_if_stalled(&self, s: &mut State, width: Micrometres, hear: &mut Hear) {
        let commanded = s.rails.way().0 != 0 && s.rails.is_run();
        if commanded && !s.faults.stalled && s.faults.stall_at == Some(width) {
            s.faults.stalled = true;
            hear(Outcome::MotorHummed);
        }
    }

    /// The rails came to rest at `width`, sent to `target`. By its steps the controller takes them
    /// to be there.
    pub(crate) fn count_steps(&self, s: &mut State, width: Micrometres, target: Micrometres) {
        if s.phase == Phase::RailsToWidth && s.rails.is_run() {
            s.faults.count_off = target - width;
        }
        s.faults.stall_at = None;
        s.faults.stalled = false;
    }

    /// The rails ran for their zero and never met its switch: the controller knows that.
    pub(crate) fn zero_not_found(&self, s: &mut State, hear: &mut Hear) {
        self.abort(s, Some(Alarm::RailsNoZero), hear);
    }
}
