//! Alarms and what became of them: the states of ANSI/ISA-18.2 for each, the order in which they
//! came, and which came first.
//!
//! Whether the condition of an alarm holds is read from the rest of the state, so that only the
//! memory of the panel is kept here. Shelving is not offered on a machine's own panel: what is
//! hidden there is missed by who works there next. So the states G, H and I do not occur.

use rackproof_model::key::Coder;

use crate::{Alarm, Machine, Phase, State, UnitState};

impl Alarm {
    /// All alarms with the names that files use, each at the place of its number.
    pub const ALL: [(&'static str, Alarm); COUNT] = [
        ("EmergencyStop", Alarm::EmergencyStop),
        ("HatchOpened", Alarm::HatchOpened),
        ("BoardSeen", Alarm::BoardSeen),
        ("NoArrival", Alarm::NoArrival),
        ("RailsNoZero", Alarm::RailsNoZero),
        ("LiftDrive", Alarm::LiftDrive),
        ("NoConfirmation", Alarm::NoConfirmation),
    ];
}

/// How many alarms there are.
const COUNT: usize = 7;

/// The state of one alarm. Letters: ANSI/ISA-18.2-2016.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
#[repr(u8)]
pub enum AlarmState {
    /// A: its condition does not hold, nothing waits.
    #[default]
    Normal,
    /// B: its condition holds, nobody acknowledged it.
    Unacknowledged,
    /// C: its condition holds, it was acknowledged.
    Acknowledged,
    /// D: its condition is gone, nobody acknowledged it.
    Returned,
    /// E: its condition is gone, it latches, nobody acknowledged it.
    LatchedUnacknowledged,
    /// F: its condition is gone, it latches, it was acknowledged and waits for a reset.
    LatchedAcknowledged,
}

/// What happens to an alarm.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AlarmEvent {
    /// Its condition comes.
    Comes,
    /// A person acknowledges it.
    Acknowledged,
    /// Its condition is gone.
    Clears,
    /// A person resets it.
    Reset,
}

impl AlarmState {
    /// All states, each at the place of its number.
    pub const ALL: [AlarmState; 6] = [
        AlarmState::Normal,
        AlarmState::Unacknowledged,
        AlarmState::Acknowledged,
        AlarmState::Returned,
        AlarmState::LatchedUnacknowledged,
        AlarmState::LatchedAcknowledged,
    ];

    /// The state after an event, or `None` if it changes nothing.
    pub fn after(self, event: AlarmEvent, latches: bool) -> Option<AlarmState> {
        use AlarmEvent::{Acknowledged, Clears, Comes, Reset};
        match (self, event) {
            (AlarmState::Normal | AlarmState::Returned, Comes) => Some(AlarmState::Unacknowledged),
            (AlarmState::Unacknowledged, Acknowledged) => Some(AlarmState::Acknowledged),
            (AlarmState::Unacknowledged, Clears) if latches => {
                Some(AlarmState::LatchedUnacknowledged)
            }
            (AlarmState::Unacknowledged, Clears) => Some(AlarmState::Returned),
            (AlarmState::Acknowledged, Clears) if latches => Some(AlarmState::LatchedAcknowledged),
            (AlarmState::Acknowledged, Clears) => Some(AlarmState::Normal),
            (AlarmState::Returned, Acknowledged) => Some(AlarmState::Normal),
            (AlarmState::LatchedUnacknowledged, Acknowledged) => {
                Some(AlarmState::LatchedAcknowledged)
            }
            (AlarmState::LatchedAcknowledged, Reset) => Some(AlarmState::Normal),
            _ => None,
        }
    }

    /// Its letter in the standard.
    pub fn letter(self) -> char {
        ['A', 'B', 'C', 'D', 'E', 'F'][self as usize]
    }

    /// Whether it waits to be acknowledged.
    pub fn waits(self) -> bool {
        matches!(
            self,
            AlarmState::Unacknowledged | AlarmState::Returned | AlarmState::LatchedUnacknowledged
        )
    }
}

/// What the panel remembers of all alarms.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Alarms {
    states: [AlarmState; COUNT],
    /// The place in the order of coming, from 1; nought for one that is normal.
    ranks: [u8; COUNT],
    /// The one that came while all others were normal.
    first: Option<Alarm>,
}

impl Alarms {
    /// The state of one alarm.
    pub fn state(&self, alarm: Alarm) -> AlarmState {
        self.states[alarm as usize]
    }

    /// Those that wait to be acknowledged, bit n for the n-th of [`Alarm::ALL`].
    pub fn waiting(&self) -> u8 {
        (0_u8..)
            .zip(self.states)
            .fold(0, |mask, (at, state)| mask | u8::from(state.waits()) << at)
    }

    /// The one that came first of all that are not normal now, kept until all are: the place to
    /// begin to look.
    pub fn first_up(&self) -> Option<Alarm> {
        self.first
    }

    /// All that are not normal, in the order in which they came.
    pub fn list(&self) -> impl Iterator<Item = (Alarm, AlarmState)> + '_ {
        (1..=COUNT as u8).filter_map(|rank| {
            let at = self.ranks.iter().position(|own| *own == rank)?;
            Some((Alarm::ALL[at].1, self.states[at]))
        })
    }

    fn note(&mut self, alarm: Alarm, event: AlarmEvent, latches: bool) {
        let at = alarm as usize;
        let Some(after) = self.states[at].after(event, latches) else {
            return;
        };
        self.states[at] = after;
        if after == AlarmState::Normal {
            let gone = std::mem::take(&mut self.ranks[at]);
            for rank in self.ranks.iter_mut().filter(|rank| **rank > gone) {
                *rank -= 1;
            }
        } else if self.ranks[at] == 0 {
            let most = self.ranks.iter().max().copied().unwrap_or(0);
            self.ranks[at] = most + 1;
            if most == 0 {
                self.first = Some(alarm);
            }
        }
        if self.ranks == [0; COUNT] {
            self.first = None;
        }
    }
}

impl Machine {
    fn latches(&self, alarm: Alarm) -> bool {
        self.parts.service.latching >> alarm as u8 & 1 == 1
    }

    /// Whether what an alarm is about is so now.
    fn holds(&self, s: &State, alarm: Alarm) -> bool {
        match alarm {
            Alarm::EmergencyStop => s.emergency,
            Alarm::HatchOpened => s.hatch_open,
            Alarm::BoardSeen => matches!(s.phase, Phase::SweepSaw | Phase::AskSeen),
            Alarm::NoArrival => s.phase == Phase::AskArrival,
            Alarm::RailsNoZero | Alarm::LiftDrive => {
                // Nothing else in the state tells of it: it was raised, and nobody pressed Clear.
                let raised = matches!(
                    s.alarms.state(alarm),
                    AlarmState::Unacknowledged | AlarmState::Acknowledged
                );
                raised && matches!(s.unit, UnitState::Aborting | UnitState::Aborted)
            }
            Alarm::NoConfirmation => s.phase == Phase::AskConfirmation,
        }
    }

    /// Whether the condition of an alarm can hold that was not raised before. Where it cannot,
    /// [`Machine::holds`] says no to all of them.
    fn may_hold(s: &State) -> bool {
        let asks = matches!(
            s.phase,
            Phase::SweepSaw | Phase::AskSeen | Phase::AskArrival | Phase::AskConfirmation
        );
        s.emergency || s.hatch_open || asks
    }

    /// Lets the panel notice which conditions came and which are gone. Without power it forgets.
    #[inline]
    pub(crate) fn note_alarms(&self, s: &mut State) {
        // Mostly nothing is wrong, and nothing was: there is nothing to notice then.
        if s.alarms.first.is_some() || Machine::may_hold(s) {
            self.note_each_alarm(s);
        }
        debug_assert!(
            s.alarms.first.is_some() || s.alarms == Alarms::default(),
            "an alarm came before the first"
        );
    }

    #[cold]
    #[inline(never)] // keeps the frame of `settle` small
    fn note_each_alarm(&self, s: &mut State) {
        if !s.powered {
            s.alarms = Alarms::default();
            return;
        }
        for (_, alarm) in Alarm::ALL {
            let event = if self.holds(s, alarm) {
                AlarmEvent::Comes
            } else {
                AlarmEvent::Clears
            };
            s.alarms.note(alarm, event, self.latches(alarm));
        }
    }

    /// Raises an alarm whose condition nothing else in the state tells of.
    pub(crate) fn raise(&self, s: &mut State, alarm: Alarm) {
        if matches!(alarm, Alarm::RailsNoZero | Alarm::LiftDrive) {
            s.alarms.note(alarm, AlarmEvent::Comes, self.latches(alarm));
        }
    }

    pub(crate) fn acknowledge_alarms(&self, s: &mut State) {
        for (_, alarm) in Alarm::ALL {
            let latches = self.latches(alarm);
            s.alarms.note(alarm, AlarmEvent::Acknowledged, latches);
        }
    }

    /// Resets the alarms that latch and were acknowledged. `true` if there was one.
    pub(crate) fn reset_alarms(&self, s: &mut State) -> bool {
        let before = s.alarms;
        for (_, alarm) in Alarm::ALL {
            s.alarms.note(alarm, AlarmEvent::Reset, self.latches(alarm));
        }
        before != s.alarms
    }

    /// Codes the alarms, where one latches: a reset does something then. Otherwise nothing but the
    /// panel asks for them, and no rule can.
    pub(crate) fn code_alarms(&self, s: &mut State, coder: &mut impl Coder) {
        if self.parts.service.latching == 0 {
            s.alarms = Alarms::default();
            return;
        }
        for (state, rank) in s.alarms.states.iter_mut().zip(&mut s.alarms.ranks) {
            let mut number = *state as u8;
            coder.byte(&mut number, 3);
            coder.byte(rank, 3);
            *state = AlarmState::ALL[number as usize % AlarmState::ALL.len()];
        }
        let mut first = s.alarms.first.map_or(0, |alarm| alarm as u8 + 1);
        coder.byte(&mut first, 3);
        s.alarms.first = Alarm::ALL
            .get((first as usize).wrapping_sub(1))
            .map(|(_, alarm)| *alarm);
    }
}

#[cfg(test)]
#[path = "alarm_tests.rs"]
mod tests;
