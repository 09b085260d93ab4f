//! What a person switches by hand on the machine: isolator, emergency stop, hatch, prop, key.

use rackproof_model::Micrometres;

use crate::{Alarm, Command, Defect, Hear, Machine, Outcome, State, UnitState};

impl Machine {
    /// Turns the isolator. Off: all axes lose power and run down, the reference is lost, the task
    /// is forgotten; the slot map stays. On: the panel comes up in Stopped, by way of Stopping if
    /// an axis still runs down (in Aborted if the hatch is open or the emergency stop latched).
    /// Nothing moves by itself (ISO 14118).
    pub fn turn_isolator(&self, s: &mut State, on: bool, hear: &mut Hear) {
        if s.powered == on || self.has(Defect::LockCutsNothing) {
            return;
        }
        s.powered = on;
        hear(Outcome::Powered(on));
        if on {
            // Axes that still run down come to rest first: nobody may start one of them now.
            s.unit = match (s.emergency || s.hatch_open, s.moves()) {
                (true, true) => UnitState::Aborting,
                (true, false) => UnitState::Aborted,
                (false, true) => UnitState::Stopping,
                (false, false) => UnitState::Stopped,
            };
        } else {
            self.forget(s, hear);
            self.lose_reference(s, hear);
            s.unit = UnitState::Stopped;
            // The panel comes up in mode Production.
            s.mode = crate::Mode::Production;
            if self.has(Defect::MapLostWithPower) {
                s.map = crate::SlotMap::default();
            }
        }
        hear(Outcome::UnitChanged(s.unit));
        self.settle(s, hear);
    }

    /// Presses the emergency stop. It latches (ISO 13850).
    pub fn press_emergency(&self, s: &mut State, hear: &mut Hear) {
        let new = !std::mem::replace(&mut s.emergency, true);
        self.abort(s, new.then_some(Alarm::EmergencyStop), hear);
        if self.has(Defect::StopUnlatched) {
            s.emergency = false;
        }
    }

    /// Turns the emergency stop out. That moves nothing and resets nothing (ISO 13850).
    pub fn release_emergency(&self, s: &mut State) {
        s.emergency = false;
        self.note_alarms(s);
    }

    /// Opens the hatch. The interlock takes the power from the axes, which run down.
    pub fn open_hatch(&self, s: &mut State, hear: &mut Hear) {
        let new = !std::mem::replace(&mut s.hatch_open, true);
        if !self.has(Defect::InterlockOff) {
            self.abort(s, new.then_some(Alarm::HatchOpened), hear);
        }
    }

    /// Shuts the hatch. That starts nothing.
    pub fn shut_hatch(&self, s: &mut State) {
        s.hatch_open = false;
        self.note_alarms(s);
    }

    /// Sets the prop under the lift, or takes it out.
    pub fn set_prop(&self, s: &mut State, set: bool, hear: &mut Hear) {
        s.propped = set;
        self.settle(s, hear);
    }

    /// Puts the setter's key in and turns it, or turns it back and takes it out.
    pub fn turn_key(&self, s: &mut State, turned: bool) {
        s.key_turned = turned;
        if !turned {
            s.hold_left.0 = 0;
        }
    }

    /// The alarm comes with the switch, acknowledged or not: what was acknowledged is not in the
    /// key.
    pub(crate) fn abort(&self, s: &mut State, alarm: Option<Alarm>, hear: &mut Hear) {
        if !s.powered {
            return;
        }
        if let Some(alarm) = alarm {
            self.raise(s, alarm);
            hear(Outcome::Alarmed(alarm));
        }
        if self.command(s, Command::Abort, hear) {
            self.forget(s, hear);
            self.lose_reference(s, hear);
        }
        self.settle(s, hear);
    }

    /// The controller counts the rails' steps no more.
    pub(crate) fn forget_width(&self, s: &mut State) {
        s.width_known = false;
        s.faults.count_off = Micrometres(0);
    }

    fn lose_reference(&self, s: &mut State, hear: &mut Hear) {
        if self.has(Defect::ReferenceKept) {
            return;
        }
        self.forget_width(s);
        if s.referenced {
            s.referenced = false;
            hear(Outcome::ReferenceLost);
        }
    }
}
