//! What must hold in every trial: of boards, of motions, of signals.

use crate::{
    Alarm, Board, Condition, HalfSlot, HarmKind, Mode, Outcome, Phase, Side, State, deeds::Deed,
    trial::Trial,
};

/// The longest run-down of the sample's axes is well under a second.
const RUN_DOWN: u64 = 1_000_000;

impl Trial {
    /// No board comes, goes or moves but by belts and hands.
    pub(crate) fn check_boards(&mut self, before: &State, heard: &[Outcome], deed: Option<Deed>) {
        for outcome in heard {
            match outcome {
                Outcome::BoardEntered => self.boards += 1,
                Outcome::BoardSent(_) | Outcome::BoardPassed(_) => self.boards -= 1,
                _ => {}
            }
        }
        assert_eq!(
            census(&self.state),
            self.boards,
            "boards, after {deed:?} {heard:?}"
        );
        let by_hand = matches!(
            deed,
            Some(
                Deed::TakeFromBelt(_)
                    | Deed::TakeFromMouth(_)
                    | Deed::TakeFromRack(_)
                    | Deed::PutInRack(..)
                    | Deed::LayOnBelt(_)
            )
        );
        let belts = !before.belts.is_rest()
            || !self.state.belts.is_rest()
            || heard.contains(&Outcome::Started(crate::AxisName::Belts));
        if by_hand {
            return;
        }
        let base = |kind| self.machine.base_kind(kind);
        for (at, kind) in cells(before) {
            let same = |(place, other)| place == at && base(other) == base(kind);
            let there = cells(&self.state).any(same);
            assert!(
                there || belts,
                "a board went from {at:?}, after {deed:?} {heard:?}"
            );
            // Belts reach no slot but the one at their height.
            if let Cell::Slot(at) = at {
                let reached = before.slot_at_belts() == Some(at.slot)
                    || self.state.slot_at_belts() == Some(at.slot);
                assert!(there || reached, "a board went from {at:?} past the belts");
            }
        }
    }

    /// What stops stays stopped until Start (ISO 13850, ISO 14118), and nothing jumps.
    pub(crate) fn check_motions(&mut self, before: &State, heard: &[Outcome], deed: Option<Deed>) {
        let s = &self.state;
        let motions = s.motions();
        let started = heard
            .iter()
            .any(|outcome| matches!(outcome, Outcome::Started(_)));
        assert!(self.armed || !started, "started after {deed:?}: {heard:?}");
        if s.emergency || s.hatch_open || !s.powered {
            assert!(
                !motions.iter().any(crate::Motion::is_run),
                "driven after {deed:?}"
            );
            assert!(!s.machine_ready && !s.board_available, "a signal is closed");
            let since = self.stopped_at.unwrap_or(self.clock);
            assert!(
                self.clock - since < RUN_DOWN || !s.moves(),
                "moves long after the stop"
            );
        }
        let waits = s.powered && s.unit.when_done().is_none();
        assert!(
            !waits || !s.moves(),
            "{:?} though an axis moves, after {deed:?}",
            s.unit
        );
        if heard.contains(&Outcome::DeclaredEmpty) {
            let allowed = before.key_turned && self.machine.may_declare(before);
            assert!(allowed, "declared empty in {:?}", before.unit);
        }
        // A place at rest is a class, so that an axis may be moved to its class as it comes to
        // rest.
        let sank = heard.contains(&Outcome::LiftSank) || before.faults.sink.is_some();
        if deed.is_some() && !sank && (before.lift.is_rest() || !s.lift.is_rest()) {
            let [was, is] = [before, s].map(|s| self.machine.lift_height(s));
            assert_eq!(was, is, "the lift jumps by {deed:?}");
        }
        if deed.is_some() && (before.rails.is_rest() || !s.rails.is_rest()) {
            let [was, is] = [before, s].map(|s| s.width(&self.machine));
            assert_eq!(was, is, "the rails jump by {deed:?}");
        }
        let lift = !motions[0].is_rest();
        let rails = !motions[1].is_rest();
        let belts = !motions[2].is_rest();
        assert!(
            u8::from(lift) + u8::from(rails) + u8::from(belts) <= 1,
            "two axes at once"
        );
    }

    /// Each signal stays open for 50 ms (IPC-SMEMA-9851), and Machine Ready means a free slot.
    pub(crate) fn check_signals(&mut self, heard: &[Outcome]) {
        for outcome in heard {
            let (at, closed) = match outcome {
                Outcome::MachineReady(closed) => (0, *closed),
                Outcome::BoardAvailable(closed) => (1, *closed),
                _ => continue,
            };
            if closed {
                let opened = self.opened_at[at].unwrap_or(0);
                assert!(
                    self.opened_at[at].is_none() || self.clock - opened >= 50_000,
                    "open for {} µs only",
                    self.clock - opened
                );
            } else {
                self.opened_at[at] = Some(self.clock);
            }
        }
        let s = &self.state;
        if s.machine_ready {
            assert!(s.lift.is_rest() && s.rails.is_rest());
            assert_eq!(s.slot_at_belts(), Some(s.slot));
            assert_eq!(s.map.unknown >> s.slot & 1, 0, "not known");
            let last = s.order_len > 0 && s.order[s.order_len as usize - 1] == s.slot;
            let second = last && self.machine.stores_pairs(s);
            let most = u8::from(second);
            let believed = self.machine.believed_boards(s, s.slot);
            assert!(believed <= most, "not free");
        }
    }

    /// Slots that the loaded product does not use are not visited: nothing is stored there,
    /// offered there, or seen there by the sweep.
    pub(crate) fn check_visits(&self, heard: &[Outcome]) {
        let s = &self.state;
        let used = self.machine.used_slots(s);
        assert!(
            !s.machine_ready || used >> s.slot & 1 == 1,
            "ready at {}",
            s.slot
        );
        for outcome in heard {
            let slot = match *outcome {
                Outcome::SweepSaw(slot) | Outcome::BoardStored(slot) => slot,
                Outcome::BoardPassed(slot) => slot,
                _ => continue,
            };
            assert!(
                used >> slot & 1 == 1,
                "{outcome:?}: not a slot that is used"
            );
        }
    }
}

impl Trial {
    /// No two boards lie where their parts meet, but those that struck each other; and none strikes
    /// where there is room.
    pub(crate) fn check_parts(&self, heard: &[Outcome]) {
        let machine = &self.machine;
        for outcome in heard {
            if let Outcome::Harmed(harm) = outcome
                && harm.kind == HarmKind::PartsStruck
            {
                assert!(harm.number > harm.limit, "{harm:?}");
            }
        }
        if !machine.parts_may_meet() {
            return;
        }
        let lying: Vec<(HalfSlot, Board)> = self.state.rack.iter().collect();
        for (number, &(at, one)) in lying.iter().enumerate() {
            for &(other_at, other) in &lying[..number] {
                let struck = [one, other].map(|board| board.condition >= Condition::Collided);
                let meet = machine.parts_meet((at, one.kind), (other_at, other.kind));
                assert!(
                    !meet || struck == [true; 2],
                    "{at:?} meets {other_at:?}: {heard:?}"
                );
            }
        }
    }

    /// Settings change by the key alone, at rest. What is alarmed is so, and what is so is alarmed.
    pub(crate) fn check_service(&self, before: &State, heard: &[Outcome]) {
        let (s, machine) = (&self.state, &self.machine);
        if s.service.settings != before.service.settings {
            assert!(before.key_turned && before.unit.lets_mode_change() && !before.moves());
            let told = |outcome: &Outcome| matches!(outcome, Outcome::SettingChanged(_));
            assert!(heard.iter().any(told), "a setting changed without a sign");
        }
        let settings = &s.service.settings;
        assert!((2..=machine.parts.slots).contains(&settings.slot_count));
        let manual = machine.parts.service.manual_mode;
        assert!(manual || s.mode != Mode::Manual, "a mode that is not there");
        let holds = [
            (Alarm::EmergencyStop, s.emergency),
            (Alarm::HatchOpened, s.hatch_open),
            (Alarm::NoArrival, s.phase == Phase::AskArrival),
        ];
        for (alarm, holds) in holds {
            let letter = s.alarms.state(alarm).letter();
            let possible = match (s.powered, holds) {
                (false, _) => "A",
                (true, true) => "BCEF",
                (true, false) => "ADEF",
            };
            assert!(possible.contains(letter), "{alarm:?} in {letter}");
        }
        let list: Vec<Alarm> = s.alarms.list().map(|(alarm, _)| alarm).collect();
        assert_eq!(s.alarms.first_up().is_some(), !list.is_empty());
    }
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Cell {
    Slot(HalfSlot),
    Mouth(Side),
    Infeed,
    Outfeed(usize),
}

/// Where boards lie at rest, with their kinds.
fn cells(s: &State) -> impl Iterator<Item = (Cell, u8)> {
    let slots = s
        .rack
        .iter()
        .map(|(at, board)| (Cell::Slot(at), board.kind));
    let mouth = |side: Side| {
        let board = s.mouths[side as usize];
        board.map(|board| (Cell::Mouth(side), board.kind))
    };
    let outfeed = |at: usize| s.outfeed_belt[at].map(|board| (Cell::Outfeed(at), board.kind));
    let infeed = s.infeed_belt.map(|board| (Cell::Infeed, board.kind));
    let others = [
        mouth(Side::Infeed),
        mouth(Side::Outfeed),
        outfeed(0),
        outfeed(1),
        infeed,
    ];
    slots.chain(others.into_iter().flatten())
}

/// How many boards are in the machine. One that still leaves the machine upstream is not.
fn census(s: &State) -> i64 {
    cells(s).count() as i64 + s.runners.boards_inside() as i64
}
