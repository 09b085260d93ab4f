//! One exercise: what its file says, checked.

use rackproof_buffer::{Answer, Board, HalfSlot, HarmKind, Mode, Setting, Timer};
use rackproof_files::{Place, Value};

use crate::{Downstream, DrillFault, FinishItem, Upstream};

/// What must be so in a variant for a trap to be armed there. Checked against geometry.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Arming {
    /// A board in the rack that the sweep does not see: no beam at the mouths sees it, or it lies
    /// in a slot that the next product does not use.
    UnseenBySweep,
    /// A board in a slot that the next product does not use: nothing is asked about it once that
    /// product is loaded.
    PassedOver,
    /// A slot that holds a board in one half only.
    OneHalf,
    /// A board on the infeed belt.
    OnInfeedBelt,
    /// A board in the rack that the controller knows of.
    Stored,
    /// Downstream stands, and its Machine Ready is closed all the same.
    DownstreamLies,
}

impl Arming {
    /// All of them with the names that files use.
    pub const ALL: [(&'static str, Arming); 6] = [
        ("UnseenBySweep", Arming::UnseenBySweep),
        ("PassedOver", Arming::PassedOver),
        ("OneHalf", Arming::OneHalf),
        ("OnInfeedBelt", Arming::OnInfeedBelt),
        ("Stored", Arming::Stored),
        ("DownstreamLies", Arming::DownstreamLies),
    ];
}

/// Something that a drill prepares that tempts or misleads.
#[derive(Clone, Debug)]
pub struct Trap {
    /// Its name.
    pub id: String,
    /// What must be so for it to be armed.
    pub armed: Arming,
    /// When it is sprung: a formula over intents and signs, read by `grade`.
    pub sprung: Value,
}

/// One of the drill's listed starts.
#[derive(Clone, Debug)]
pub struct Variant {
    /// Its name.
    pub id: String,
    /// Boards in the rack that the controller knows nothing of.
    pub boards: Vec<(HalfSlot, Board)>,
    /// Boards in the rack that were stored, in the order in which they came.
    pub stored: Vec<(HalfSlot, Board)>,
    /// The board on the infeed belt.
    pub infeed_belt: Option<Board>,
    /// The neighbours, where they are not those of the drill.
    pub line: Option<Neighbours>,
    /// Which traps are armed, as places in the list of traps.
    pub traps: Vec<usize>,
    /// Which faults there are, as places in the list of faults.
    pub faults: Vec<usize>,
}

/// The neighbours and their quirks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Neighbours {
    /// The kind of the one board that upstream has left over.
    pub leftover: Option<u8>,
    /// Whether upstream may lay it on the belt by hand.
    pub lays_by_hand: bool,
    /// Whether downstream's Machine Ready is closed.
    pub downstream_ready: bool,
    /// What upstream does by itself. Without it, only what the environment chooses.
    pub upstream: Option<Upstream>,
    /// What downstream does by itself. Without it, its signal stays as it is until somebody talks.
    pub downstream: Option<Downstream>,
}

/// How the drill begins, variants apart.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Start {
    /// The product that is loaded.
    pub product: u8,
    /// The mode.
    pub mode: Mode,
    /// Machine settings that somebody changed before.
    pub settings: Vec<Setting>,
    /// A clear-out that the shift before left half done.
    pub left: Option<Left>,
}

/// A clear-out that was left half done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Left {
    /// The badge of who answered.
    pub by: String,
    /// What they answered for which slot, slots from 0.
    pub said: Vec<(u8, Answer)>,
    /// The slot that the panel asks about. Without one the unit was stopped.
    pub asked: Option<u8>,
}

/// A page of the panel that a drill opens. Shut, nothing on it is on offer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Page {
    /// Typing a width, saving it.
    Edit,
    /// Machine settings.
    Settings,
    /// Commands that have no button of their own, and mode Manual.
    Orders,
}

impl Page {
    /// All pages with the names that files use.
    pub const ALL: [(&'static str, Page); 3] = [
        ("Edit", Page::Edit),
        ("Settings", Page::Settings),
        ("Orders", Page::Orders),
    ];
}

/// What an attempt is allowed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Limits {
    /// Time for the whole drill, in minutes. Longer is a finding, not a failure.
    pub minutes: u32,
    /// Most major breaches of an attempt that passes.
    pub majors: u32,
    /// In the proof: most slots that a clear-out leaves "not sure" at a time.
    pub not_sure: u32,
    /// In the proof: slots of the smaller rack on which all is searched as well.
    pub small_rack: u8,
}

/// One exercise.
#[derive(Clone, Debug)]
pub struct Drill {
    /// Its name.
    pub id: String,
    /// The name of its machine file.
    pub machine: String,
    /// The name of its rules file.
    pub rules: String,
    /// The name of its procedure file.
    pub procedure: String,
    /// The neighbours.
    pub neighbours: Neighbours,
    /// How it begins.
    pub start: Start,
    /// Pages of the panel that are open.
    pub pages: Vec<Page>,
    /// The product that is asked for.
    pub next: u8,
    /// Kinds of intent that are on offer and always wrong here: a proof finds no other such.
    pub always_wrong: Vec<crate::IntentKind>,
    /// Pairs of the machine's timers that may run at once, the one that stands first in their list
    /// first: a proof finds no other such.
    pub races: Vec<(Timer, Timer)>,
    /// The traps.
    pub traps: Vec<Trap>,
    /// What may be wrong, or go wrong.
    pub faults: Vec<DrillFault>,
    /// The variants.
    pub variants: Vec<Variant>,
    /// What must hold at the end.
    pub finish: Vec<FinishItem>,
    /// Limits.
    pub limits: Limits,
    /// What the drill is about: each a formula that some good attempt must meet.
    pub milestones: Vec<(String, Value)>,
    /// Harms that the drill speaks of: a proof reaches each with the rules off. None is named:
    /// those that rails, lift, belts and hands do to boards of its kinds.
    pub harms: Vec<HarmKind>,
    /// Rules that no harm comes of breaking here, each with its place in the file: they only name a
    /// mistake early, though elsewhere they keep harm away.
    pub early: Vec<(String, Place)>,
    /// Sources of what the drill teaches.
    pub sources: Vec<String>,
}
