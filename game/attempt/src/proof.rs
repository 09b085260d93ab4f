//! The kept proof of a drill: what was claimed about which texts and which core, and what came out.
//!
//! A proof is kept as a file in RON beside its drill: `NAME.ron` has `NAME.proof.ron`. It holds for
//! the texts and for the core whose hashes it carries, and for nothing else.

mod read;
mod replayed;
mod write;

#[cfg(test)]
mod proof_tests;

pub use replayed::{end_of, replay};

use crate::{Exercise, Hashes, Material, hash_of};

/// The form of the file that this program writes and reads. It changes with what is claimed.
pub(crate) const FORM: u64 = 6;

/// The name of what level 6 merges: the order of slots. A proof of it shows that the rules suffice
/// and that the drill is fair, and nothing else.
pub const UNORDERED: &str = "unordered-slots";

/// What stands there where level 6 was asked for and something hangs on the order of slots, so that
/// it was kept. It shows what level 6 shows, and no more.
pub const ORDERED: &str = "slots-in-order";

/// The hash of the core that this program was built with: of the sources of machine, world, rules
/// and monitors, without what changes nothing (comments, tests).
pub fn core_hash() -> &'static str {
    env!("RACKPROOF_CORE")
}

/// What a proof rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ground {
    /// The machine file.
    Machine,
    /// The drill file.
    Drill,
    /// The rules file.
    Rules,
    /// The procedure file.
    Procedure,
    /// The program's own core.
    Core,
}

/// How a drill stands to its proof.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ProofState {
    /// Every claim holds for these texts and this core. The SHA-256 of the proof's file.
    Proved(String),
    /// The claims of level 6 hold, and it cannot show the others: the drill is not proved.
    Partial,
    /// The proof is of something else: what changed since.
    Stale(Vec<Ground>),
    /// The proof is of this, and keeps attempts of the guide that do not come out as it says: the
    /// variant and the way of each.
    Strayed(Vec<(String, String)>),
    /// The proof is of this, and these claims fail.
    Failed(Vec<String>),
    /// There is a file, and it cannot be read as a proof.
    Broken,
    /// There is no proof.
    Missing,
}

impl ProofState {
    /// Whether there is a proof of this, and nothing that it claims fails.
    pub fn shows_something(&self) -> bool {
        matches!(self, ProofState::Proved(_) | ProofState::Partial)
    }

    /// The hash of the proof's file, if every claim holds.
    pub fn hash(&self) -> Option<&str> {
        match self {
            ProofState::Proved(hash) => Some(hash),
            _ => None,
        }
    }
}

/// A kept proof. Names are those of the drill's files, counts are whole numbers.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Proof {
    /// It was written in an older form, in which less was claimed: it shows nothing today.
    pub older: bool,
    /// The drill's name.
    pub drill: String,
    /// The version of the program that proved it. It decides nothing.
    pub program: String,
    /// The hash of each text.
    pub texts: Hashes,
    /// The hash of the core, see [`core_hash`].
    pub core: String,
    /// Slots that may be left "not sure" at a time: states beyond were not followed.
    pub not_sure: u64,
    /// What was merged, each in a name of its own.
    pub merged: Vec<String>,
    /// Sizes of the racks that were searched, in slots.
    pub sizes: Vec<u64>,
    /// The variants that were searched.
    pub variants: Vec<String>,
    /// What is claimed, and whether it holds.
    pub claims: Vec<(String, bool)>,
    /// The searches: for each size one for each group of variants that begin together.
    pub searches: Vec<Search>,
    /// The milestones, and how many runs of the guide that pass meet them.
    pub milestones: Vec<(String, u64)>,
    /// Harms that the drill speaks of, and whether they were reached with the rules off.
    pub harms: Vec<(String, bool)>,
    /// The guide's runs, one for each variant and way.
    pub times: Vec<Time>,
    /// The rules, and what each is needed for.
    pub rules: Vec<RuleNeed>,
    /// The traps, and how each springs.
    pub traps: Vec<TrapSprung>,
    /// Kinds of intent that break a rule wherever they are on offer.
    pub always_wrong: Vec<String>,
    /// What the environment may choose, and where that comes up.
    pub choices: Vec<Choice>,
    /// A way by plain steps to a state that no machine may be in; empty if there is none.
    pub machine: Vec<String>,
    /// Timers of the machine that ran at once.
    pub races: Vec<Race>,
    /// Where a moment decides what an act comes to.
    pub decisive: Vec<Decisive>,
    /// How many states there are on the smallest rack, by `states`, and how many of them differ
    /// without each fact. Empty if they were not counted.
    pub facts: Vec<(String, u64)>,
}

/// Something that the environment may choose, by what the drill says.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Choice {
    /// As journals write it: `UpstreamDrops`, `FaultComes("strip")`.
    pub chance: String,
    /// The variants in which it comes up in some state that keeps the rules.
    pub arises: Vec<String>,
    /// The variants that have it, and in which it comes up in none.
    pub never: Vec<String>,
}

/// Two timers of the machine that ran at once.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Race {
    /// The one that stands first in the list of timers.
    pub one: String,
    /// The other.
    pub other: String,
    /// In so many states both ran.
    pub states: u64,
}

/// Moments at which an act comes out otherwise than just before.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Decisive {
    /// What they belong to: an axis that moves, or upstream's board.
    pub source: String,
    /// So many states have such moments before their next event.
    pub states: u64,
    /// The most of them that one state has.
    pub most: u64,
    /// Kinds of intent that break the motion off there.
    pub by: Vec<String>,
}

/// One search, with the rules kept.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Search {
    /// The variants whose starts it began with.
    pub variants: Vec<String>,
    /// The size of the rack.
    pub slots: u64,
    /// States found.
    pub states: u64,
    /// Steps tried.
    pub steps: u64,
    /// Bytes that it took at most.
    pub memory: u64,
    /// Whether all was found.
    pub complete: bool,
    /// States in which the job is done and reported.
    pub finished: u64,
    /// States beyond the bound, which were not followed.
    pub beyond_bound: u64,
    /// Landings whose congruence was checked.
    pub checked: u64,
    /// States from which a finish can be reached for sure.
    pub won: u64,
    /// Ways to what should not be.
    pub broken: Vec<Broken>,
}

/// A way to what should not be.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Broken {
    /// The claim that it breaks.
    pub claim: String,
    /// The variant in which it begins.
    pub variant: String,
    /// Its lines.
    pub way: Vec<String>,
}

/// What the guide needs for a variant on one way.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Time {
    /// The variant.
    pub variant: String,
    /// The way.
    pub way: String,
    /// Time with the neighbours quiet, in µs. `None`: it did not finish.
    pub time: Option<u64>,
    /// Runs against all that the neighbours could choose.
    pub runs: u64,
    /// Runs that did not end or did not pass.
    pub failed: u64,
    /// What it did with the neighbours quiet, in its order: what was proved is what is replayed.
    /// Empty if it did not finish.
    pub attempt: Vec<Deed>,
    /// The state of the world at its end, see [`end_of`]. Empty if it did not finish.
    pub end: String,
}

/// One cause of a kept attempt.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Deed {
    /// The time since the one before, or since the start, in µs.
    pub after: u64,
    /// The cause, as journals write it.
    pub cause: String,
}

/// What a rule is needed for.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct RuleNeed {
    /// The rule.
    pub rule: String,
    /// Whether it rests on a source from outside.
    pub sourced: bool,
    /// Whether it is there to name a mistake early.
    pub early: bool,
    /// States of the searches in which it was the first to be broken.
    pub first_broken: u64,
    /// Whether it was the first to be broken anywhere, by plain steps too, or by leaving out a
    /// preparation.
    pub tested: bool,
    /// The variant in which harm is done without it.
    pub harm_without: Option<String>,
    /// The variant in which a corner is reached without it, and no harm found.
    pub corner_without: Option<String>,
}

/// How a trap springs.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct TrapSprung {
    /// The trap.
    pub trap: String,
    /// Variants in which it waits.
    pub armed: Vec<String>,
    /// The variant in which the way springs it.
    pub sprung: Option<String>,
    /// The size of the rack on which it does, in slots; 0 if there is no way.
    pub slots: u64,
    /// A shortest way that springs it there.
    pub way: Vec<String>,
}

impl Proof {
    /// Whether every claim holds.
    pub fn holds(&self) -> bool {
        self.claims.iter().all(|(_, holds)| *holds)
    }

    /// What changed since the proof was made: in which of these texts, or in the core and what is
    /// claimed of it.
    pub fn changed(&self, material: &Material) -> Vec<Ground> {
        let now = Hashes::of(material);
        let then = &self.texts;
        [
            (Ground::Machine, then.machine == now.machine),
            (Ground::Drill, then.drill == now.drill),
            (Ground::Rules, then.rules == now.rules),
            (Ground::Procedure, then.procedure == now.procedure),
            (Ground::Core, self.core == core_hash() && !self.older),
        ]
        .into_iter()
        .filter(|(_, same)| !same)
        .map(|(ground, _)| ground)
        .collect()
    }

    /// How a drill's texts stand to this proof, whose file is `text`. `exercise` is what they say.
    pub fn state(&self, material: &Material, exercise: &Exercise, text: &str) -> ProofState {
        let changed = self.changed(material);
        if !changed.is_empty() {
            return ProofState::Stale(changed);
        }
        let strayed: Vec<(String, String)> = self
            .strayed(exercise)
            .into_iter()
            .map(|one| (one.variant.clone(), one.way.clone()))
            .collect();
        if !strayed.is_empty() {
            return ProofState::Strayed(strayed);
        }
        let failed: Vec<String> = self
            .claims
            .iter()
            .filter(|(_, holds)| !holds)
            .map(|(claim, _)| claim.clone())
            .collect();
        if !failed.is_empty() {
            ProofState::Failed(failed)
        } else if self
            .merged
            .iter()
            .any(|merged| merged == UNORDERED || merged == ORDERED)
        {
            ProofState::Partial
        } else {
            ProofState::Proved(hash_of(text))
        }
    }
}
