//! The person's share of a clear-out, by the pace of the machine file.
//!
//! What is done by hand follows 29 CFR 1910.147 (d): stop, isolate, lock, try to start, and only
//! then hands. The tests compare it with what the guide of the first drill does. The pace of the
//! file is common practice until it is measured.

use rackproof_buffer::{Answer, Asks, Button, Half, HalfSlot, Machine, Mode};
use rackproof_drill::{Aim, Hall, Intent, Stand, Tray};

/// Where a thing is done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum At {
    /// At this place.
    Stand(Stand),
    /// From the nearest place that reaches the panel.
    Panel,
}

/// Times of a person in one clear-out, in µs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Share {
    /// Before the first board.
    pub(super) before: u64,
    /// With each board.
    pub(super) board: u64,
    /// With each slot that is asked about.
    pub(super) slot: u64,
    /// After the last board.
    pub(super) after: u64,
}

impl Share {
    /// In all, in µs.
    pub(super) fn time(&self, boards: u8, slots: u8) -> u64 {
        let each = u64::from(boards) * self.board + u64::from(slots) * self.slot;
        self.before + each + self.after
    }
}

const HATCH: At = At::Stand(Stand::Hatch);
const ISOLATOR: At = At::Stand(Stand::Isolator);
const OUTFEED: At = At::Stand(Stand::Outfeed);
/// Any place in the rack: all take as long.
const PLACE: HalfSlot = HalfSlot {
    slot: 0,
    half: Half::Outfeed,
};

/// By hand, up to the first board.
pub(super) const BEFORE_HAND: [(At, Intent); 9] = [
    (At::Panel, Intent::Press(Button::Stop)),
    (ISOLATOR, Intent::IsolatorOff),
    (ISOLATOR, Intent::LockOn),
    (At::Panel, Intent::TryStart),
    (HATCH, Intent::OpenHatch),
    (HATCH, Intent::PlugCord),
    (HATCH, Intent::Look(Aim::LeanInfeed)),
    (HATCH, Intent::Look(Aim::LeanOutfeed)),
    (HATCH, Intent::SetProp),
];

/// By hand, with each board.
pub(super) const EACH_BY_HAND: [(At, Intent); 4] = [
    (HATCH, Intent::HandIn),
    (HATCH, Intent::Take(PLACE)),
    (HATCH, Intent::HandOut),
    (HATCH, Intent::PutDown(Tray::Quarantine)),
];

/// By hand, from the last board to the empty map. The looks before hands went in are void.
pub(super) const AFTER_HAND: [(At, Intent); 10] = [
    (HATCH, Intent::Look(Aim::LeanInfeed)),
    (HATCH, Intent::Look(Aim::LeanOutfeed)),
    (HATCH, Intent::RemoveProp),
    (HATCH, Intent::UnplugCord),
    (HATCH, Intent::ShutHatch),
    (ISOLATOR, Intent::LockOff),
    (ISOLATOR, Intent::IsolatorOn),
    (At::Stand(Stand::Panel), Intent::KeyIn),
    (At::Panel, Intent::Press(Button::HoldDeclare)),
    (At::Stand(Stand::Panel), Intent::KeyOut),
];

/// By belt, until the machine begins.
const BEFORE_BELT: [(At, Intent); 5] = [
    (At::Panel, Intent::Press(Button::Stop)),
    (At::Panel, Intent::Press(Button::Mode(Mode::Changeover))),
    (At::Panel, Intent::Press(Button::Reset)),
    (At::Panel, Intent::Press(Button::ClearOut)),
    (At::Panel, Intent::Press(Button::Start)),
];

/// By belt, with each board: it is taken at the end of the outfeed belt.
const EACH_BY_BELT: [(At, Intent); 3] = [
    (OUTFEED, Intent::TakeFromBelt),
    (OUTFEED, Intent::PutDown(Tray::Quarantine)),
    (At::Panel, Intent::Press(Button::Start)),
];

/// Somebody who does one thing after the other.
struct Person<'h> {
    hall: &'h Hall,
    stand: Stand,
}

impl Person<'_> {
    fn walk(&self, to: Stand) -> u64 {
        u64::from(self.hall.pace.of(Intent::Walk(to), self.stand).0)
    }

    /// The nearest place that reaches the panel.
    fn panel(&self) -> Stand {
        let reach = self.hall.panel_reach.iter().copied();
        reach
            .min_by_key(|&stand| self.walk(stand))
            .unwrap_or(Stand::Panel)
    }

    /// Does all of this. How long it takes with the walks, in µs.
    fn does(&mut self, doings: &[(At, Intent)]) -> u64 {
        let mut time = 0;
        for &(at, intent) in doings {
            let stand = match at {
                At::Stand(stand) => stand,
                At::Panel => self.panel(),
            };
            time += self.walk(stand) + u64::from(self.hall.pace.of(intent, stand).0);
            self.stand = stand;
        }
        time
    }
}

/// The share of a clear-out by belt. The person stands where the panel is reached with the outfeed
/// nearest, and looks into each slot from there before they answer.
pub(super) fn by_belt(machine: &Machine, hall: &Hall) -> Share {
    let stand = Stand::Outfeed;
    let mut person = Person { hall, stand };
    person.stand = person.panel();
    let answer = (At::Panel, Intent::Press(Button::Answer(Answer::SeenEmpty)));
    let look = (OUTFEED, Intent::Look(Aim::Mouth));
    let answers: &[(At, Intent)] = match machine.parts().service.clear_out_asks {
        Asks::Slot => &[look, answer],
        Asks::Place => &[look, answer, answer],
    };
    Share {
        before: person.does(&BEFORE_BELT),
        board: person.does(&EACH_BY_BELT),
        slot: person.does(answers),
        after: 0,
    }
}

/// The share of a clear-out by hand, begun at the panel.
pub(super) fn by_hand(hall: &Hall) -> Share {
    let stand = Stand::Panel;
    let mut person = Person { hall, stand };
    Share {
        before: person.does(&BEFORE_HAND),
        board: person.does(&EACH_BY_HAND),
        slot: 0,
        after: person.does(&AFTER_HAND),
    }
}

#[cfg(test)]
mod person_tests;
