//! What the drill page shows. It is made here from signs, the panel, and what the person knows of
//! themselves: no page reads what is true.

use rackproof_attempt::{Ahead, Heard, Looks, Sheet};
use rackproof_drill::{Intent, PanelView, Person, State, World};
use rackproof_grade::Verdict;
use rackproof_model::Micros;
use rackproof_phrases::WayOnTold;
use rackproof_words::{Arg, Words};

use crate::wish::{Over, PanelPage, Way};

/// What can be perceived of the machine from every standing place, the panel apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Around {
    /// Isolator on.
    pub powered: bool,
    /// The hatch is open.
    pub hatch_open: bool,
    /// The prop is under the lift.
    pub propped: bool,
    /// The setter's key is in and turned.
    pub key_turned: bool,
    /// The emergency stop is latched.
    pub emergency: bool,
    /// Something moves: it can be heard.
    pub moves: bool,
    /// How long the declare button is still to be held; nought while it is not held.
    pub hold_left: Micros,
    /// Upstream said that it holds.
    pub upstream_holds: bool,
}

/// What the person is doing: it takes a while.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Doing {
    /// What.
    pub intent: Intent,
    /// How much of it is done, 0 to 1.
    pub part: f32,
}

/// What a person chose for themselves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Preferences {
    /// Size of all text and marks, 0.9 to 2.0.
    pub scale: f32,
    /// Whether the person chose that size; else it follows the size of the window.
    pub own_scale: bool,
    /// Cuts in place of camera moves, and no alternating marks.
    pub less_motion: bool,
    /// Letter keys do nothing.
    pub no_letters: bool,
    /// Press twice in place of holding.
    pub press_twice: bool,
    /// Our own words in place of those of the site.
    pub plain_words: bool,
    /// How many times as long everything takes outside exams: one of [`STRETCHES`].
    pub stretch: u32,
}

/// What time can be stretched to. Figures and limits of the drill stay as they are.
pub const STRETCHES: [u32; 3] = [1, 2, 4];

impl Default for Preferences {
    fn default() -> Preferences {
        Preferences {
            scale: 1.0,
            own_scale: false,
            less_motion: false,
            no_letters: false,
            press_twice: false,
            plain_words: false,
            stretch: 1,
        }
    }
}

/// Watch mode: where in the attempt that plays.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Watching {
    /// Whether it plays, or stands still for talk.
    pub plays: bool,
    /// How many times as fast.
    pub speed: f32,
    /// How long the whole takes, in µs.
    pub whole: u64,
    /// At its end: what became of it.
    pub ended: Option<Verdict>,
}

/// A part of the hall as the list of parts shows it.
#[derive(Clone, Debug, PartialEq)]
pub struct PartRow {
    /// Its name, in words.
    pub name: String,
    /// What can be done with it from here.
    pub offers: Vec<Intent>,
}

/// All that the drill page shows.
#[derive(Clone, Debug)]
pub struct DrillView<'v> {
    /// What everything is called.
    pub words: &'v Words,
    /// Constants and names: the machine's slots, the products, the drill's limits. Nothing in it
    /// says where boards are but [`World::variant`], which no page reads.
    pub world: &'v World,
    /// How the drill is gone through.
    pub way: Way,
    /// Drill time, in µs.
    pub at: u64,
    /// How long the line stood, in µs.
    pub down: u64,
    /// Whether both times are told in whole minutes: a clock in seconds would ask for a picture
    /// each second. What is looked at later has its seconds.
    pub in_minutes: bool,
    /// The reference time, in µs. Never in an exam.
    pub reference: Option<u64>,
    /// The panel, or `None` while it is dark.
    pub panel: Option<PanelView>,
    /// The person.
    pub person: Person,
    /// What can be perceived without the panel.
    pub around: Around,
    /// What can be done now. Nothing else may be asked for.
    pub offers: &'v [Intent],
    /// All that was heard so far: pages show its signs, and nothing else of it.
    pub heard: &'v [Heard],
    /// What was looked at.
    pub looks: &'v Looks,
    /// The tick sheet.
    pub sheet: &'v Sheet,
    /// The next step: in guided and watch mode, and in practice after a hint was asked for.
    pub ahead: Option<&'v Ahead>,
    /// A safe way on, in practice after it was asked for. Never in an exam.
    pub way_on: Option<&'v WayOnTold>,
    /// What is being done.
    pub doing: Option<Doing>,
    /// An intent that came too late: it is not on offer any more.
    pub gone: Option<Intent>,
    /// The panel's page.
    pub page: PanelPage,
    /// What lies over the page.
    pub over: Option<Over>,
    /// The name of the part of the hall under the pointer.
    pub pointed: Option<&'v str>,
    /// The parts of the hall.
    pub parts: &'v [PartRow],
    /// What the person chose for themselves.
    pub preferences: Preferences,
    /// In watch mode.
    pub watching: Option<Watching>,
    /// The log as it was written, newest last: what a person could write down.
    pub log: &'v [String],
    /// Real time, in s, for what alternates. Nothing is decided by it.
    pub seconds: f64,
}

impl Around {
    /// What can be perceived now.
    pub fn of(state: &State) -> Around {
        let machine = &state.machine;
        Around {
            powered: machine.powered(),
            hatch_open: machine.hatch_open(),
            propped: machine.propped(),
            key_turned: machine.key_turned(),
            emergency: machine.emergency(),
            moves: machine.moves(),
            hold_left: machine.hold_left(),
            upstream_holds: state.upstream_held(),
        }
    }
}

impl DrillView<'_> {
    /// A time since the start, in µs, as this page tells it.
    pub(crate) fn told(&self, micros: u64) -> String {
        if !self.in_minutes {
            return Arg::Clock(micros).to_string();
        }
        let minutes = i64::try_from(micros / 60_000_000).unwrap_or(i64::MAX);
        let minutes = ("minutes", Arg::Number(minutes));
        self.words.say("top-minutes", &[minutes])
    }

    /// Whether this can be asked for now.
    pub fn can(&self, intent: Intent) -> bool {
        self.doing.is_none() && self.over.is_none() && self.offers_this(intent)
    }

    /// Whether this is on offer, or the same but for the figure that is typed.
    pub(crate) fn offers_this(&self, intent: Intent) -> bool {
        self.world.is_offered(self.offers, intent)
    }
}
