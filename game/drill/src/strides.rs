//! The person's steps as the explorer takes them.
//!
//! Plain: walk and act are one, and whoever looks at the hatch looks both ways with the torch lit.
//!
//! Prepared: on top of that, what only prepares is done right before the act that needs it, and
//! undone right after: straps, cord, prop, hatch while the power is off, lock and trying to start,
//! key, choosing a product, the log. Such doings commute with all others (they only allow the act):
//! every attempt that keeps the rules has a twin among the prepared ones that passes through the
//! same places of rack, rails and boards. The acts themselves are also tried unprepared.

use rackproof_buffer::{Answer, Button, HalfSlot, Mode, Question, Task, UnitState};
use rackproof_model::Stride;

use crate::{
    Aim, Cause, Intent, Stand, State, Tray, World,
    offers::{free_to_walk, injured},
};

/// Which steps the explorer takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mergers {
    /// Walk and act are one.
    Plain,
    /// Prepare and act are one as well.
    Prepared,
}

/// Which half-slots a hand in the rack reaches for, of those with nothing in them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reaches {
    /// Each.
    Each,
    /// One that is reached from under the lift, and one that is not: all of a sort look alike.
    /// Right only if no rule asks for the place; with faults each is tried all the same.
    OfEachSort,
}

impl World {
    /// Adds the steps of the explorer.
    pub fn strides_by(
        &self,
        (mergers, reaches): (Mergers, Reaches),
        s: &State,
        out: &mut Vec<Stride<Cause>>,
    ) {
        let person = &s.person;
        if person.reported || injured(s) {
            return;
        }
        if s.machine.hold_left().0 > 0 {
            out.push(
                Path::new(s)
                    .then(Intent::Press(Button::LetGoDeclare))
                    .done(),
            );
            return;
        }
        match mergers {
            Mergers::Plain => self.plain(s, out),
            Mergers::Prepared => Prepared {
                world: self,
                reaches,
                s,
                out,
            }
            .all(),
        }
    }

    fn plain(&self, s: &State, out: &mut Vec<Stride<Cause>>) {
        let mut found = Vec::with_capacity(64);
        if !free_to_walk(s) {
            self.offered(s, &mut found);
            push_plain(s, s.person.stand, &found, out);
            return;
        }
        for (_, stand) in Stand::ALL {
            found.clear();
            self.offered_here(s, stand, &mut found);
            push_plain(s, stand, &found, out);
        }
        found.clear();
        self.offered_anywhere(s, &mut found);
        push_plain(s, s.person.stand, &found, out);
    }
}

fn push_plain(s: &State, to: Stand, found: &[Intent], out: &mut Vec<Stride<Cause>>) {
    for &intent in found {
        let path = Path::new(s).to(to);
        out.push(match intent {
            Intent::Torch(_) | Intent::Look(Aim::LeanOutfeed) => continue,
            Intent::Look(Aim::LeanInfeed) => path
                .lit()
                .then(intent)
                .then(Intent::Look(Aim::LeanOutfeed))
                .done(),
            Intent::Look(Aim::Mouth) => path.lit().then(intent).done(),
            // The panel's arm reaches the outfeed: what can be done at the panel is done there.
            Intent::Press(_) | Intent::TryStart if to == Stand::Outfeed => continue,
            other => path.then(other).done(),
        });
    }
}

/// A stride in the making: where the person is and what they have lit by now.
#[derive(Clone, Copy)]
pub(crate) struct Path {
    stride: Stride<Cause>,
    stand: Stand,
    torch: bool,
    straps: bool,
}

impl Path {
    pub(crate) fn new(s: &State) -> Path {
        Path {
            stride: Stride::none(),
            stand: s.person.stand,
            torch: s.person.torch,
            straps: s.person.straps_tested,
        }
    }

    #[inline]
    pub(crate) fn then(mut self, intent: Intent) -> Path {
        self.stride = self.stride.then(Cause::Did(intent));
        self
    }

    #[inline]
    pub(crate) fn when(self, needed: bool, intent: Intent) -> Path {
        if needed { self.then(intent) } else { self }
    }

    #[inline]
    pub(crate) fn to(self, stand: Stand) -> Path {
        let walked = self.when(stand != self.stand, Intent::Walk(stand));
        Path { stand, ..walked }
    }

    fn lit(self) -> Path {
        Path {
            torch: true,
            ..self.when(!self.torch, Intent::Torch(true))
        }
    }

    fn tested(self) -> Path {
        Path {
            straps: true,
            ..self.when(!self.straps, Intent::TestStraps)
        }
    }

    pub(crate) fn press(self, button: Button) -> Path {
        self.then(Intent::Press(button))
    }

    pub(crate) fn done(self) -> Stride<Cause> {
        self.stride
    }
}

/// The prepared steps from one state.
struct Prepared<'p> {
    world: &'p World,
    reaches: Reaches,
    s: &'p State,
    out: &'p mut Vec<Stride<Cause>>,
}

impl Prepared<'_> {
    fn all(&mut self) {
        if self.s.person.hand_in {
            return self.hand_is_in();
        }
        self.looks();
        self.hands();
        if self.world.has_faults() {
            self.mending();
        }
        self.people();
        self.switches();
        if self.s.machine.powered() {
            self.panel();
        }
    }

    fn path(&self) -> Path {
        Path::new(self.s)
    }

    fn push(&mut self, path: Path) {
        self.out.push(path.done());
    }

    /// Hand out, and all that the hand needed is put back.
    fn hand_is_in(&mut self) {
        let (machine, person) = (&self.s.machine, &self.s.person);
        let back = self
            .path()
            .then(Intent::HandOut)
            .when(machine.propped(), Intent::RemoveProp)
            .when(person.cord, Intent::UnplugCord)
            .then(Intent::ShutHatch);
        self.put_down(back, person.board.is_some());
        let mut found = Vec::with_capacity(96);
        self.world.offered_here(self.s, Stand::Hatch, &mut found);
        let mut reached = [false; 2];
        for intent in found {
            let tries = match intent {
                Intent::Take(at) => self.tries(at, &mut reached),
                Intent::PutIn(_) | Intent::ClearScrew => true,
                _ => false,
            };
            if tries {
                self.push(self.path().then(intent));
            }
        }
    }

    /// Whether a half-slot is reached for; `reached`: an empty one beside the lift, under it.
    fn tries(&self, at: HalfSlot, reached: &mut [bool; 2]) -> bool {
        let world = self.world;
        let each = self.reaches == Reaches::Each || world.has_faults();
        if each || self.s.machine.rack.get(at).is_some() {
            return true;
        }
        let under = at.slot < world.hall().reached_from_under;
        !std::mem::replace(&mut reached[usize::from(under)], true)
    }

    fn looks(&mut self) {
        let mouths = self
            .path()
            .to(Stand::Infeed)
            .lit()
            .then(Intent::Look(Aim::Mouth))
            .to(Stand::Outfeed)
            .then(Intent::Look(Aim::Mouth));
        self.push(mouths);
        if self.world.hall().sight.clear_glass.is_some() {
            let glass = self.path().to(Stand::Hatch).lit();
            let looked = glass.then(Intent::Look(Aim::LeanInfeed));
            self.push(looked.then(Intent::Look(Aim::LeanOutfeed)));
        }
        // With the power on, opening the hatch aborts: that is a step of its own.
        let hatch = self.path().to(Stand::Hatch).then(Intent::OpenHatch);
        if self.s.machine.powered() && self.s.machine.unit() != UnitState::Aborted {
            self.push(hatch.then(Intent::ShutHatch));
        } else {
            let looked = [Aim::LeanInfeed, Aim::LeanOutfeed]
                .into_iter()
                .map(Intent::Look);
            let looked = looked.fold(hatch.lit(), Path::then);
            self.push(looked.then(Intent::ShutHatch));
        }
    }

    fn hands(&mut self) {
        let hatch = self.path().to(Stand::Hatch).then(Intent::OpenHatch);
        self.push(hatch.then(Intent::HandIn));
        let propped = self.s.machine.propped();
        let ready = hatch.tested().then(Intent::PlugCord);
        let ready = ready.when(!propped, Intent::SetProp);
        self.push(ready.then(Intent::HandIn));
        for stand in [Stand::Infeed, Stand::Outfeed] {
            for take in [Intent::TakeFromBelt, Intent::TakeFromMouth] {
                let comes = self.world.would_take(self.s, stand, take);
                let taken = self.path().tested().to(stand).then(take);
                self.put_down(taken, comes);
            }
        }
        if self.s.person.board.is_some() {
            self.put_down(self.path(), true);
        }
    }

    /// A board in hand is put down at once, in quarantine or with the good ones, as rules allow.
    fn put_down(&mut self, path: Path, holds: bool) {
        if !holds {
            return self.push(path);
        }
        for tray in [Tray::Quarantine, Tray::Good] {
            self.push(path.then(Intent::PutDown(tray)));
        }
    }

    /// What mends a fault, or keeps it from harm. With a bad brake the prop is more than a
    /// preparation: from when on it stands there matters.
    fn mending(&mut self) {
        for stand in [Stand::Infeed, Stand::Outfeed] {
            self.push(self.path().to(stand).then(Intent::WipeLenses));
        }
        if !self.s.person.gloves {
            self.push(self.path().then(Intent::WearGloves));
        }
        let prop = if self.s.machine.propped() {
            Intent::RemoveProp
        } else {
            Intent::SetProp
        };
        let hatch = self.path().to(Stand::Hatch).then(Intent::OpenHatch);
        self.push(hatch.then(prop).then(Intent::ShutHatch));
    }

    fn people(&mut self) {
        let held = self.s.upstream_held;
        let upstream = if held {
            Intent::LetUpstreamGo
        } else {
            Intent::AskUpstreamHold
        };
        self.push(self.path().then(upstream));
        if self.world.drill().neighbours.downstream.is_some() {
            let downstream = if self.s.downstream_held {
                Intent::LetDownstreamGo
            } else {
                Intent::AskDownstreamHold
            };
            self.push(self.path().then(downstream));
        }
        for stand in [Stand::Infeed, Stand::Outfeed] {
            // Looking over a plug that is in order changes nothing.
            let clears = stand.side().is_some_and(|side| {
                self.world.may_touch_plug(self.s, side)
                    && self.world.wrong_in_plug(self.s, side).is_some()
            });
            if clears {
                self.push(self.path().to(stand).then(Intent::ClearPlug));
            }
        }
        let report = self
            .path()
            .to(Stand::Panel)
            .when(self.s.machine.key_turned(), Intent::KeyOut)
            .when(!self.s.person.log_written, Intent::WriteLog);
        self.push(report.then(Intent::Report));
    }

    fn switches(&mut self) {
        if let Some(&stand) = self.world.hall().emergency_stops.first() {
            let stopped = self.path().to(stand).then(Intent::PressEmergency);
            self.push(stopped.then(Intent::ReleaseEmergency));
        }
        let isolator = self.path().to(Stand::Isolator);
        if self.s.machine.powered() {
            let locked = isolator.then(Intent::IsolatorOff).then(Intent::LockOn);
            self.push(locked.to(Stand::Panel).then(Intent::TryStart));
        } else {
            let unlocked = isolator.when(self.s.person.lock_on, Intent::LockOff);
            self.push(unlocked.then(Intent::IsolatorOn));
        }
    }

    fn panel(&mut self) {
        let machine = &self.s.machine;
        let panel = self.path().to(Stand::Panel);
        let changeover = Button::Mode(Mode::Changeover);
        let changing = machine.mode() == Mode::Changeover;
        let ready = panel.when(!changing, Intent::Press(changeover));
        let production = panel.when(changing, Intent::Press(Button::Mode(Mode::Production)));
        if machine.unit().lets_mode_change() {
            // The mode is a preparation here: Start is tried in both.
            self.push(production.press(Button::Start));
            let kept = if machine.task() == Task::None {
                ready
            } else {
                panel
            };
            self.push(kept.press(Button::Start));
        } else {
            self.push(panel.press(Button::Start));
        }
        self.push(panel.press(Button::Stop));
        self.push(panel.press(Button::Reset));
        if let Some(Question::Answer(_) | Question::AnswerHalf(_)) = machine.question() {
            for answer in [Answer::Taken, Answer::SeenEmpty, Answer::NotSure] {
                self.push(panel.press(Button::Answer(answer)));
            }
        }
        if machine.unit() == UnitState::Idle {
            for product in 0..self.world.machine().parts().products.len() as u8 {
                let choose = Intent::Press(Button::Choose(product));
                let chosen = ready.when(machine.chosen() != product, choose);
                self.push(chosen.press(Button::Load));
            }
            self.push(ready.press(Button::ClearOut));
        }
        self.world.prepared_on_pages(self.s, ready, self.out);
        if let Some(Question::Seen(_)) = machine.question() {
            self.push(panel.press(Button::ClearOut));
        }
        if self.world.machine().may_declare(machine) {
            let key = panel.when(!machine.key_turned(), Intent::KeyIn);
            self.push(key.press(Button::HoldDeclare));
        }
    }
}
