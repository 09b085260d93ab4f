//! Random attempts on random machines: whatever is offered is done, whenever it is offered, and
//! after each event all must hold that holds of every machine.
//!
//! `RACKPROOF_FUZZ=1000000 cargo test -p rackproof-drill random_offers` does a million.
//! `RACKPROOF_SEED` begins elsewhere. What fails names the seed that does it again by itself.

use std::collections::BTreeSet;

use rackproof_buffer::{self as buffer, AxisName, Board, Button, LyingOn, Mode, Task, UnitState};
use rackproof_model::{
    Instants, Micros, Model,
    key::{Key, KeyWriter},
};

use crate::{
    Cause, Fact, Intent, Outcome, Sign, Stand, State, World,
    fuzz_files::{Chance, any_world},
};

/// Offers in one attempt.
const ATTEMPT: u32 = 250;

/// What must have come, or the test shows nothing.
const RARE: &[&str] = &[
    "BoardStored",
    "BoardSent",
    "BoardReachedEnd",
    "SweepSaw",
    "SweepSawNothing",
    "WidthReached",
    "DeclaredEmpty",
    "ClearedOut",
    "ReferenceFound",
    "Alarmed",
];

/// One attempt, and what is known of it.
struct Attempt<'w> {
    world: &'w World,
    state: State,
    heard: Vec<Outcome>,
    /// Boards that are in the world, those that left it apart.
    boards: u32,
    standing_still: u32,
    /// The names of what the machine published.
    told: BTreeSet<String>,
}

fn boards_in(world: &World, s: &State) -> u32 {
    let machine = world.machine();
    let start = -machine.parts().gap.0 - machine.parts().infeed_length.0;
    // A board that still lies partly in the machine upstream is counted there.
    let length = |board: Board| machine.kinds()[board.kind as usize].length.0;
    let lying = machine.lying(&s.machine).filter(|one| {
        let bridges = one.on == LyingOn::Running && one.lead.0 - length(one.board) < start;
        !(bridges && s.leftover.is_some())
    });
    let others = [s.leftover.is_some(), s.person.board.is_some()];
    let others = others.into_iter().filter(|there| *there).count();
    s.machine.rack.present().len() + (lying.count() + others) as u32
}

/// What the controller believes, as far as it can be read.
fn belief(s: &State) -> (buffer::SlotMap, bool, bool, u8, u8, UnitState, Mode, Task) {
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
fn touches_truth_alone(intent: Intent) -> bool {
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

/// What somebody would do who wants the machine to go on.
fn leads_on(intent: Intent, s: &State) -> bool {
    let m = &s.machine;
    let idle = m.unit() == UnitState::Idle;
    match intent {
        Intent::Press(Button::Reset) => !idle && m.unit().lets_mode_change() || ended(m.unit()),
        Intent::Press(Button::Mode(_)) => m.mode() == Mode::Production,
        Intent::Press(Button::Choose(_)) => m.task() == Task::None && m.chosen() == m.loaded(),
        Intent::Press(Button::Load) => m.task() == Task::None,
        Intent::Press(Button::Start) => idle || m.question().is_some(),
        Intent::Press(Button::Stop | Button::LetGoDeclare) => false,
        Intent::Press(_) => true,
        Intent::ReleaseEmergency | Intent::ShutHatch | Intent::HandOut | Intent::IsolatorOn => true,
        Intent::LockOff | Intent::UnplugCord | Intent::KeyIn | Intent::LetDownstreamGo => true,
        _ => false,
    }
}

fn ended(unit: UnitState) -> bool {
    matches!(
        unit,
        UnitState::Aborted | UnitState::Stopped | UnitState::Complete
    )
}

/// What ends an attempt, or throws it far back: seldom.
fn ends_much(intent: Intent, moves: bool) -> bool {
    match intent {
        Intent::Report | Intent::PressEmergency | Intent::IsolatorOff => true,
        Intent::OpenHatch | Intent::HandIn => moves,
        Intent::TakeFromBelt | Intent::TakeFromMouth => moves,
        Intent::Press(Button::Stop) => true,
        _ => false,
    }
}

impl<'w> Attempt<'w> {
    fn new(world: &'w World) -> Attempt<'w> {
        let state = world.start();
        let boards = boards_in(world, &state);
        Attempt {
            world,
            state,
            heard: Vec::new(),
            boards,
            standing_still: 0,
            told: BTreeSet::new(),
        }
    }

    /// Does something that is on offer, or a chance. False if nothing is.
    fn act(&mut self, chance: &mut Chance) -> bool {
        let (mut offers, mut chances) = (Vec::new(), Vec::new());
        self.world.offers(&self.state, &mut offers);
        self.world.chances(&self.state, &mut chances);
        if offers.is_empty() {
            return false;
        }
        let moves = self.state.machine.moves();
        let leads = |cause: &Cause| matches!(cause, Cause::Did(one) if leads_on(*one, &self.state));
        let leading: Vec<Cause> = offers.iter().copied().filter(leads).collect();
        let panel = Cause::Did(Intent::Walk(Stand::Panel));
        let cause = match chance.below(8) {
            0 if !chances.is_empty() => chance.of(&chances),
            1..6 if !leading.is_empty() => chance.of(&leading),
            1..4 if offers.contains(&panel) => panel,
            _ => chance.of(&offers),
        };
        if matches!(cause, Cause::Did(one) if ends_much(one, moves)) && chance.below(30) > 0 {
            return true;
        }
        let before = self.state;
        let (world, heard) = (self.world, &mut self.heard);
        world.act(&mut self.state, cause, &mut |one| heard.push(one));
        if let Cause::Did(intent) = cause
            && touches_truth_alone(intent)
        {
            let same = belief(&before) == belief(&self.state);
            assert!(same, "{intent:?} told the controller something");
        }
        self.check(&before, &format!("{cause:?}"));
        true
    }

    /// Lets time pass to the next event, or for a part of the way.
    fn pass(&mut self, chance: &mut Chance) {
        let Some(next) = self.world.next_event(&self.state) else {
            return;
        };
        self.standing_still = if next.0 > 0 {
            0
        } else {
            self.standing_still + 1
        };
        assert!(
            self.standing_still < 50,
            "time stands still: {:?}",
            self.state
        );
        let mut instants = Instants::new();
        self.world.critical_instants(&self.state, &mut instants);
        let span = match (chance.below(4), instants.as_slice()) {
            (0, _) => Micros(chance.below(u64::from(next.0) + 1) as u32),
            (1, instants) if !instants.is_empty() => chance.of(instants),
            _ => next,
        };
        assert!(span <= next, "a critical instant beyond the next event");
        let before = self.state;
        let (world, heard) = (self.world, &mut self.heard);
        world.advance(&mut self.state, span, &mut |one| heard.push(one));
        self.check(&before, "time");
    }

    /// All that must hold after each event.
    fn check(&mut self, before: &State, did: &str) {
        for one in &self.heard {
            if let Outcome::Sign(Sign::Machine(sign)) = one {
                let name = format!("{:?}", sign.shown());
                let name = name.split(['(', ' ', '{']).next().unwrap_or("");
                if !self.told.contains(name) {
                    self.told.insert(name.to_owned());
                }
            }
            self.boards -= match one {
                Outcome::Fact(Fact::BoardPutDown { .. }) => 1,
                Outcome::Sign(Sign::Machine(sign)) => match sign.shown() {
                    buffer::Outcome::BoardSent(_) | buffer::Outcome::BoardPassed(_) => 1,
                    _ => 0,
                },
                _ => 0,
            };
        }
        let (s, heard) = (&self.state, &self.heard);
        let boards = boards_in(self.world, s);
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

fn setting(name: &str, otherwise: u64) -> u64 {
    let text = std::env::var(name).ok();
    text.map_or(otherwise, |text| text.parse().expect("a whole number"))
}

/// Says what does it again, if the test stops here.
struct Telltale(u64, String);

impl Drop for Telltale {
    fn drop(&mut self) {
        if std::thread::panicking() {
            let Telltale(seed, text) = self;
            eprintln!("{text}\nagain: RACKPROOF_SEED={seed} RACKPROOF_FUZZ=1");
        }
    }
}

#[test]
fn random_offers_on_random_machines_break_no_rule() {
    let most = setting("RACKPROOF_FUZZ", 20_000);
    let mut seed = setting("RACKPROOF_SEED", 0);
    let (mut offers, mut worlds, mut refused, mut harms) = (0, 0, 0, 0);
    let mut told = BTreeSet::new();
    while offers < most {
        let mut telltale = Telltale(seed, String::new());
        let mut chance = Chance(seed.wrapping_mul(0x2545_f491_4f6c_dd1d));
        seed += 1;
        let Some((world, text)) = any_world(&mut chance) else {
            refused += 1;
            continue;
        };
        telltale.1 = text;
        worlds += 1;
        for _ in 0..2 {
            let mut attempt = Attempt::new(&world);
            for _ in 0..ATTEMPT {
                offers += 1;
                if !attempt.act(&mut chance) {
                    break;
                }
                for _ in 0..chance.below(6) {
                    attempt.pass(&mut chance);
                }
            }
            harms |= attempt.state.harms();
            told.append(&mut attempt.told);
        }
    }
    println!("{told:?}");
    println!("{offers} offers, {worlds} machines, {refused} files refused, harms {harms:#b}");
    if most < 10_000 {
        return;
    }
    assert!(worlds > refused / 20, "too few machines are taken");
    assert!(harms.count_ones() > 3, "too little happens: {harms:#b}");
    for rare in RARE {
        assert!(told.contains(*rare), "{rare} never came");
    }
}
