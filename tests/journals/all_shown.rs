//! Nothing that the core can say of a fault, a harm, an alarm, a refusal or the unit goes without a
//! kept journal that says it.

use std::{collections::BTreeSet, fs, path::Path};

use rackproof_attempt::{Attempt, Journal, journal_drill, outcome_text};
use rackproof_buffer::{
    Alarm, BeamName, Contact, HarmKind, Outcome as Shown, Refusal, Side, UnitState,
};
use rackproof_drill::{Cue, Fact, Sign};
use rackproof_files::Problems;
use rackproof_library::{drill, files_in, load};

use crate::play::root;

/// A journal, played.
pub(crate) fn played(path: &Path) -> Attempt {
    let text = fs::read_to_string(path).expect("it is there");
    let (problems, file) = (Problems::new(), path.to_string_lossy());
    let report = problems.for_file(&file, &text);
    let named = journal_drill(report).expect("it names its drill");
    let found = drill(&named, path).expect("its drill is there");
    let loaded = load(found, &problems).expect("it has no problem");
    let journal = Journal::read(report, &loaded.exercise).expect("it has no problem");
    let judged = loaded.exercise.judged(journal.variant);
    let mut attempt = Attempt::new(judged.expect("it is listed"));
    assert!(journal.run(&mut attempt, report, &mut |_| true), "{file}");
    attempt
}

/// Whether a file of the clone lies in a folder of this name, at any depth. Where the clone lies is
/// none of it.
pub(crate) fn lies_in(path: &Path, folder: &str) -> bool {
    let inside = path.strip_prefix(root()).expect("it lies in the clone");
    inside.components().any(|one| one.as_os_str() == folder)
}

#[test]
fn where_the_clone_lies_says_nothing_of_its_files() {
    let name = root().file_name().and_then(|name| name.to_str());
    let journal = root().join("tests/journals/left-inside/by-hand.ron");
    assert!(!lies_in(&journal, name.expect("it has a name")));
    assert!(lies_in(&journal, "left-inside"));
}

/// All that is told in all kept journals.
fn told() -> BTreeSet<String> {
    let files = files_in(&root().join("tests/journals"), "ron").expect("it can be read");
    let mut told = BTreeSet::new();
    for path in files.iter().filter(|path| !lies_in(path, "scenarios")) {
        let attempt = played(path);
        let heard = attempt.heard().iter();
        told.extend(heard.map(|one| outcome_text(attempt.judged(), &one.outcome)));
    }
    told
}

/// The names of all variants of an enum. One that is new there does not compile until it is here.
macro_rules! names {
    ($kind:ident: $($name:ident),+ $(,)?) => {{
        let _ = |value: $kind| match value {
            $($kind::$name { .. } => {})+
        };
        [$(stringify!($name)),+]
    }};
}

/// Cues of faults and of neighbours: each one, of each side, beam and signal that it can be of.
fn cues() -> Vec<String> {
    let mut cues: Vec<String> = names!(
        Cue: StripOnScrew, ScrewCleared, BeltSlips, LensFilmed, BeamOutOfLine, BeamLit,
        LensesWiped, LiftSinks, LiftJerks, LampsDiffer, Heat, Bowed, Askew, NeighbourStands, Jumper,
        TakesAlways, BoardWaitsUpstream, TestBox, OtherWidth, FedByHand, FailedLampLit,
        LampFlickers, Turned, NoMachine, JumperOut, TestBoxOff, PlugInOrder, StandsAgainstRails,
    )
    .map(str::to_owned)
    .into();
    for side in names!(Side: Infeed, Outfeed) {
        let of_sides = [
            "BeltSlips",
            "NeighbourStands",
            "Jumper",
            "TestBox",
            "NoMachine",
            "OtherWidth",
            "JumperOut",
            "TestBoxOff",
            "PlugInOrder",
        ];
        cues.extend(of_sides.map(|cue| format!("{cue}({side})")));
    }
    for (_, beam) in BeamName::ALL {
        let of_beams = ["LensFilmed", "BeamOutOfLine", "BeamLit"];
        cues.extend(of_beams.map(|cue| format!("{cue}({beam:?})")));
    }
    cues.extend(Contact::ALL.map(|(_, contact)| format!("LampsDiffer({contact:?})")));
    cues.extend([true, false].map(|there| format!("ScrewCleared({there})")));
    cues.extend([true, false].map(|there| format!("LensesWiped({there})")));
    cues.into_iter().map(|cue| format!("Cue({cue}")).collect()
}

fn refusals() -> Vec<String> {
    let refusals = names!(
        Refusal: State, Button, EmergencyLatched, HatchOpen, NoTask, NoProduct, MapNotEmpty,
        MapUnknown, BoardSeen, Mode, Question, Reference, Key, WidthBeyondTravel, WidthNotReached,
        Order, BoardOnItsWay, ModeAlready, Manual, SetterOnly, SettingBeyondBounds, NotFitted,
        BoardTooLong,
    );
    let refusals = refusals.map(|refusal| format!("Refused({refusal}"));
    refusals.into()
}

/// What the machine publishes, what is perceived, and what is hidden.
fn outcomes() -> Vec<String> {
    let shown = names!(
        Shown: UnitChanged, ModeChanged, TaskChanged, Started, Stopped, Asked, Refused, Alarmed,
        SweepSaw, SweepSawNothing, Answered, ClearedOut, DeclaredEmpty, ProductChosen,
        ProductLoaded, ProductSaved, ReferenceFound, ReferenceLost, Powered, WidthReached,
        MachineReady, BoardAvailable, BoardEntered, BoardStored, BoardSent, BoardPassed,
        BoardRanPast, BoardReachedEnd, Harmed, MotorHummed, BrakeTicked, LiftSank, AnsweredHalf,
        WidthTyped, SettingChanged, WaitsForWidth,
    );
    let signs = names!(
        Sign: Machine, LooksVoided, Looked, Dark, SawBoard, SawBelt, SawMouth, Took, NothingThere,
        NoRoom, NothingStarted, Told, StrapsTested, HandEntered, Crack, BoardLaid, Cue,
    );
    let facts = names!(
        Fact: BoardEntered, LiftSank, BoardLaid, FailedBoardCame, FailedBoardTakenAway, BoardTaken,
        BoardPutIn, BoardPutDown,
    );
    let as_written = |name: &'static str| match name {
        // A sign of the machine is one of what it publishes, and a harm is an outcome of its own.
        "Machine" => None,
        "Harmed" => Some("Harm"),
        name => Some(name),
    };
    let signs = signs.map(|name| match name {
        // Upstream was seen to lay a board; that it did is the fact of the same name.
        "BoardLaid" => "SawBoardLaid",
        name => name,
    });
    let all = shown.into_iter().chain(signs).chain(facts);
    all.filter_map(as_written).map(str::to_owned).collect()
}

/// What no kept journal tells, each with its reason.
const UNTOLD: &[(&str, &str)] = &[
    ("Refused(NoProduct", "a product is loaded from the start"),
    (
        "Refused(State",
        "all but commands is on offer where the unit's state takes it",
    ),
    ("Refused(Mode", "tasks are on offer in Changeover alone"),
    ("Refused(ModeAlready", "the mode that is on is not on offer"),
    (
        "Refused(Reference",
        "Declare empty is on offer where it is not refused for it",
    ),
];

/// Whether a name is told: alone, or with values behind it.
fn is_told(told: &BTreeSet<String>, name: &str) -> bool {
    told.iter().any(|told| {
        let rest = told.strip_prefix(name);
        rest.is_some_and(|rest| rest.is_empty() || rest.starts_with(['(', ',', ')']))
    })
}

#[test]
fn each_cue_harm_alarm_refusal_state_and_outcome_is_told_in_a_kept_journal() {
    let told = told();
    let harms = HarmKind::NAMED
        .iter()
        .map(|(name, _)| format!("Harm({name}"));
    let alarms = Alarm::ALL.iter().map(|(name, _)| format!("Alarmed({name}"));
    let states = UnitState::ALL
        .iter()
        .map(|state| format!("UnitChanged({state:?}"));
    let wanted = harms.chain(alarms).chain(states).chain(cues());
    let wanted: Vec<String> = wanted.chain(refusals()).chain(outcomes()).collect();
    let untold: Vec<&str> = UNTOLD.iter().map(|(name, _)| *name).collect();
    let missing: Vec<&str> = wanted
        .iter()
        .filter(|wanted| !is_told(&told, wanted))
        .map(String::as_str)
        .collect();
    let sorted = |names: &[&str]| -> BTreeSet<String> {
        names.iter().map(|name| (*name).to_owned()).collect()
    };
    // Both ways: an exception that is told by now is none any more.
    assert_eq!(sorted(&missing), sorted(&untold));
}
