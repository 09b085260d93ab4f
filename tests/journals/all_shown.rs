//! Nothing that the core can say of a fault, a harm, an alarm, a refusal or the unit goes without a
//! kept journal that says it.

use std::{collections::BTreeSet, fs, path::Path};

use rackproof_attempt::{Attempt, Journal, journal_drill, outcome_text};
use rackproof_buffer::{Alarm, HarmKind, UnitState};
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

/// All that is told in all kept journals.
fn told() -> BTreeSet<String> {
    let files = files_in(&root().join("tests/journals"), "ron").expect("it can be read");
    let is_drill = |path: &Path| path.components().any(|one| one.as_os_str() == "scenarios");
    let mut told = BTreeSet::new();
    for path in files.iter().filter(|path| !is_drill(path)) {
        let attempt = played(path);
        let heard = attempt.heard().iter();
        told.extend(heard.map(|one| outcome_text(attempt.judged(), &one.outcome)));
    }
    told
}

/// Cues of faults and of neighbours.
const CUES: &[&str] = &[
    "StripOnScrew",
    "ScrewCleared(true)",
    "BeltSlips",
    "LensFilmed(InfeedMouth)",
    "LensFilmed(End)",
    "BeamOutOfLine",
    "BeamLit",
    "LensesWiped(true)",
    "LiftSinks",
    "LampsDiffer(UpstreamAvailable)",
    "LampsDiffer(DownstreamReady)",
    "LampsDiffer(OwnReady)",
    "Heat(80)",
    "Bowed",
    "Askew",
    "Turned",
    "StandsAgainstRails",
    "NeighbourStands(Infeed)",
    "NeighbourStands(Outfeed)",
    "Jumper(Infeed)",
    "Jumper(Outfeed)",
    "TakesAlways",
    "BoardWaitsUpstream",
    "TestBox(Infeed)",
    "TestBox(Outfeed)",
    "NoMachine(Outfeed)",
    "JumperOut(Infeed)",
    "JumperOut(Outfeed)",
    "TestBoxOff(Outfeed)",
    "PlugInOrder(Outfeed)",
    "OtherWidth(Infeed)",
    "OtherWidth(Outfeed)",
    "FedByHand",
    "FailedLampLit",
    "LampFlickers",
];

/// Refused commands. `NoProduct` and `Mode` cannot be met by what is on offer: a product is loaded
/// from the start, and tasks are chosen in Changeover alone. `ModeAlready` neither: the mode that
/// is on is not offered. Declare empty is offered where it is not refused for its `Reference`.
const REFUSALS: &[&str] = &[
    "State",
    "EmergencyLatched",
    "HatchOpen",
    "NoTask",
    "MapNotEmpty",
    "MapUnknown",
    "BoardSeen",
    "Question",
    "Key",
    "WidthBeyondTravel",
    "WidthNotReached",
    "Order(",
    "BoardOnItsWay",
    "Manual",
    "SetterOnly",
    "SettingBeyondBounds(",
    "NotFitted",
    "BoardTooLong",
];

/// What is heard of faults that have no look of their own.
const SOUNDS: &[&str] = &["MotorHummed", "BrakeTicked", "LiftSank", "Crack"];

#[test]
fn each_cue_harm_alarm_refusal_and_state_is_told_in_a_kept_journal() {
    let told = told();
    let harms = HarmKind::NAMED
        .iter()
        .map(|(name, _)| format!("Harm({name},"));
    let alarms = Alarm::ALL
        .iter()
        .map(|(name, _)| format!("Alarmed({name})"));
    let states = UnitState::ALL
        .iter()
        .map(|state| format!("UnitChanged({state:?})"));
    let cues = CUES.iter().map(|cue| format!("Cue({cue}"));
    let refusals = REFUSALS.iter().map(|refusal| format!("Refused({refusal}"));
    let sounds = SOUNDS.iter().map(|sound| (*sound).to_owned());
    let wanted = harms
        .chain(alarms)
        .chain(states)
        .chain(cues)
        .chain(refusals)
        .chain(sounds);
    let missing: Vec<String> = wanted
        .filter(|wanted| !told.iter().any(|told| told.starts_with(wanted)))
        .collect();
    assert_eq!(missing, [""; 0]);
}
