//! What must hold after each event of a random attempt.

use rackproof_buffer::{self as buffer, AxisName, Board, LyingOn, Mode, Task, UnitState};
use rackproof_model::{
    Model,
    key::{Key, KeyWriter},
};

use crate::{Fact, Intent, Outcome, Sign, State, World, fuzz_tests::Attempt};

/// How many boards are in the world, those apart that left it. `is_ours`: the board that came last
/// was told to have come in, so that what lies ready upstream is another one.
pub(crate) fn boards_in(world: &World, s: &State, is_ours: bool) -> u32 {
    let machine = world.machine();
    let start = -machine.parts().gap.0 - machine.parts().infeed_length.0;
    // A board that still lies partly in the machine upstream is counted there.
    let length = |board: Board| machine.kinds()[board.kind as usize].length.0;
    let lying = machine.lying(&s.machine).filter(|one| {
        let bridges = one.on == LyingOn::Running && one.lead.0 - length(one.board) < start;
        !(bridges && s.leftover.is_some() && !is_ours)
    });
    let others = [s.leftover.is_some(), s.person.board.is_some()];
    let others = others.into_iter().filter(|there| *there).count();
    let behind = u32::from(s.next_door.stock);
    s.machine.rack.present().len() + (lying.count() + others) as u32 + behind
}

/// What the controller believes, as far as it can be read.
pub(crate) fn belief(s: &State) -> (buffer::SlotMap, bool, bool, u8, u8, UnitState, Mode, Task) {
    let m = &s.machine;
    let known = (m.referenced(), m.width_known());
    let products = (m.chosen(), m.loaded());
    (
        m.map,
        known.0,
        known.1,
        products.0,
        products.1,
        m.unit(),
        m.mode(),
        m.task(),
    )
}

/// Whether an intent touches truth alone: no button, no switch, no signal, no hatch.
pub(crate) fn touches_truth_alone(intent: Intent) -> bool {
    !matches!(
        intent,
        Intent::Press(_)
            | Intent::OpenHatch
            | Intent::IsolatorOff
            | Intent::IsolatorOn
            | Intent::PressEmergency
            | Intent::ReleaseEmergency
            | Intent::AskUpstreamHold
            | Intent::LetUpstreamGo
            | Intent::AskDownstreamHold
            | Intent::LetDownstreamGo
            | Intent::CallLead
    )
}

impl Attempt<'_> {
    /// All that must hold after each event.
    pub(crate) fn check(&mut self, before: &State, did: &str) {
        for one in &self.heard {
            if let Outcome::Sign(Sign::Machine(sign)) = one {
                let name = format!("{:?}", sign.shown());
                let name = name.split(['(', ' ', '{']).next().unwrap_or("");
                if !self.told.contains(name) {
                    self.told.insert(name.to_owned());
                }
            }
            // Belts that are cut off while a board comes make it ours, and let it run out.
            match one {
                Outcome::Fact(Fact::BoardEntered) => self.is_ours = true,
                Outcome::Sign(Sign::Machine(sign)) => {
                    self.is_ours &= sign.shown() != buffer::Outcome::Started(AxisName::Belts);
                }
                _ => {}
            }
            self.boards -= match one {
                Outcome::Fact(Fact::BoardPutDown { .. } | Fact::FailedBoardTakenAway(_)) => 1,
                Outcome::Sign(Sign::Machine(sign)) => match sign.shown() {
                    buffer::Outcome::BoardSent(_) | buffer::Outcome::BoardPassed(_) => 1,
                    _ => 0,
                },
                _ => 0,
            };
        }
        let (s, heard) = (&self.state, &self.heard);
        let boards = boards_in(self.world, s, self.is_ours);
        assert_eq!(boards, self.boards, "boards, after {did}: {heard:?}");
        self.check_motions(did);
        self.check_belief(before, did);
        let key = |state: &State| {
            let mut writer = KeyWriter::new();
            self.world.write_key(state, &mut writer);
            Key::from_bytes(writer.finish())
        };
        let written = key(s);
        let read = self.world.read_key(&written);
        assert_eq!(key(&read), written, "a key reads back as another class");
        let later = |state: &State| {
            let mut state = *state;
            if let Some(next) = self.world.next_event(&state) {
                self.world.advance(&mut state, next, &mut |_| {});
            }
            key(&state)
        };
        assert!(later(&read) == later(s), "a key forgets something: {did}");
        self.heard.clear();
    }

    fn check_motions(&self, did: &str) {
        let m = &self.state.machine;
        let [lift, rails, belts] = m.motions();
        let moving = [lift, rails, belts].map(|one| !one.is_rest());
        assert!(
            moving.iter().filter(|one| **one).count() < 2,
            "two axes at once"
        );
        let drives = lift.is_run() || rails.is_run() || belts.is_run();
        let must_rest = m.emergency() || m.hatch_open() || !m.powered();
        assert!(!(drives && must_rest), "driven after {did}: {:?}", m.unit());
        let signals = m.machine_ready() || m.board_available();
        assert!(!(signals && must_rest), "a signal is closed after {did}");
        // The rails move in a changeover alone, and only with a slot map that is empty.
        let may = m.mode() == Mode::Changeover
            && m.task() == Task::Changeover
            && m.unit() == UnitState::Execute
            && m.map.is_empty();
        assert!(
            !rails.is_run() || may,
            "rails run after {did}: {:?} {:?}",
            m.unit(),
            m.map
        );
        let ready = m.machine_ready();
        assert!(
            !(ready && (moving[0] || moving[1])),
            "ready while an axis moves"
        );
    }

    /// Belief changes only by what the machine showed as well, or by what was pressed or switched.
    fn check_belief(&self, before: &State, did: &str) {
        let m = &self.state.machine;
        if before.machine.map == m.map || did != "time" {
            return;
        }
        let shown = self.heard.iter().any(|one| {
            let Outcome::Sign(Sign::Machine(sign)) = one else {
                return false;
            };
            use buffer::Outcome as Shown;
            !matches!(
                sign.shown(),
                Shown::Started(_) | Shown::MachineReady(_) | Shown::BoardAvailable(_)
            )
        });
        assert!(
            shown,
            "the slot map changed and nothing showed it: {:?}",
            self.heard
        );
        let lift_only = self.heard.iter().all(|one| match one {
            Outcome::Sign(Sign::Machine(sign)) => {
                sign.shown() == buffer::Outcome::Stopped(AxisName::Lift)
            }
            _ => true,
        });
        assert!(!lift_only, "the lift told the controller about boards");
    }
}
