//! Random attempts on random machines: whatever is offered is done, whenever it is offered, and
//! after each event all must hold that holds of every machine.
//!
//! `RACKPROOF_FUZZ=1000000 cargo test -p rackproof-drill random_offers` does a million.
//! `RACKPROOF_SEED` begins elsewhere. What fails names the seed that does it again by itself.
//! That enough happens is asked where it was seen: from the first seed on, with as many offers.

use std::collections::BTreeSet;

use rackproof_buffer::{Button, Mode, Task, UnitState};
use rackproof_model::{Instants, Micros, Model};

use crate::{
    Cause, Intent, Outcome, Stand, State, World,
    fuzz_files::{Chance, any_world},
    fuzz_rules::{belief, boards_in, touches_truth_alone},
};

/// Offers in one attempt.
const ATTEMPT: u32 = 250;
/// Offers in all, unless others are asked for.
const OFFERS: u64 = 60_000;

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
    // With a hand, while boards were believed in slots.
    "Take, true",
    "PutIn, true",
];

/// One attempt, and what is known of it.
pub(crate) struct Attempt<'w> {
    pub(crate) world: &'w World,
    pub(crate) state: State,
    pub(crate) heard: Vec<Outcome>,
    /// Boards that are in the world, those that left it apart.
    pub(crate) boards: u32,
    /// The board that came last is ours, though it may still bridge the two machines.
    pub(crate) is_ours: bool,
    standing_still: u32,
    /// In the mood to reach in, not to press buttons.
    hands: bool,
    /// The names of what the machine published.
    pub(crate) told: BTreeSet<String>,
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

/// What somebody would do who works with their hands, mostly where boards are.
fn reaches_in(intent: Intent, s: &State) -> bool {
    let still = !s.machine.moves();
    match intent {
        Intent::Walk(stand) => stand == Stand::Hatch || stand == Stand::Outfeed,
        Intent::OpenHatch | Intent::HandIn => still,
        Intent::Take(at) => s.machine.rack.get(at).is_some() || at.slot == 0,
        Intent::PutIn(_) | Intent::TakeFromBelt | Intent::TakeFromMouth => still,
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
        let boards = boards_in(world, &state, false);
        Attempt {
            world,
            state,
            heard: Vec::new(),
            boards,
            is_ours: false,
            standing_still: 0,
            hands: false,
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
        if chance.below(20) == 0 {
            self.hands = chance.below(3) > 0;
        }
        let wants = if self.hands { reaches_in } else { leads_on };
        let leads = |cause: &Cause| matches!(cause, Cause::Did(one) if wants(*one, &self.state));
        let leading: Vec<Cause> = offers.iter().copied().filter(leads).collect();
        let panel = Cause::Did(Intent::Walk(Stand::Panel));
        let cause = match chance.below(8) {
            0 if !chances.is_empty() => chance.of(&chances),
            1..6 if !leading.is_empty() => chance.of(&leading),
            1..4 if !self.hands && offers.contains(&panel) => panel,
            _ => chance.of(&offers),
        };
        if matches!(cause, Cause::Did(one) if ends_much(one, moves)) && chance.below(30) > 0 {
            return true;
        }
        let before = self.state;
        let (world, heard) = (self.world, &mut self.heard);
        world.act(&mut self.state, cause, &mut |one| heard.push(one));
        if let Cause::Did(intent @ (Intent::Take(_) | Intent::PutIn(_))) = cause {
            let known = self.state.machine.map.full != 0;
            self.told.insert(format!("{:?}, {known}", intent.kind()));
        }
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
}

fn setting(name: &str, otherwise: u64) -> u64 {
    let text = std::env::var(name).ok();
    text.map_or(otherwise, |text| text.parse().expect("a whole number"))
}

/// Says what does it again, unless it is told that all went well.
struct Telltale {
    seed: u64,
    machine: String,
    well: bool,
}

impl Drop for Telltale {
    fn drop(&mut self) {
        if !self.well {
            let Telltale { seed, machine, .. } = self;
            eprintln!("{machine}\nagain: RACKPROOF_SEED={seed} RACKPROOF_FUZZ=1");
        }
    }
}

#[test]
fn random_offers_on_random_machines_break_no_rule() {
    let most = setting("RACKPROOF_FUZZ", OFFERS);
    let mut seed = setting("RACKPROOF_SEED", 0);
    let is_known_to_suffice = seed == 0 && most >= OFFERS;
    let (mut offers, mut worlds, mut refused, mut harms) = (0, 0, 0, 0);
    let mut told = BTreeSet::new();
    while offers < most {
        let mut telltale = Telltale {
            seed,
            machine: String::new(),
            well: false,
        };
        let mut chance = Chance(seed.wrapping_mul(0x2545_f491_4f6c_dd1d));
        seed += 1;
        let Some((world, text)) = any_world(&mut chance) else {
            refused += 1;
            telltale.well = true;
            continue;
        };
        telltale.machine = text;
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
        telltale.well = true;
    }
    println!("{told:?}");
    println!("{offers} offers, {worlds} machines, {refused} files refused, harms {harms:#b}");
    if !is_known_to_suffice {
        return;
    }
    assert!(worlds > refused / 20, "too few machines are taken");
    assert!(harms.count_ones() > 3, "too little happens: {harms:#b}");
    for rare in RARE {
        assert!(told.contains(*rare), "{rare} never came");
    }
}
