//! Faults that somebody can see, hear or mend: a journal and a small drill for each. What the
//! attempt must hold, what it must not, and which harms come of it.

use crate::neighbours::{Case, all_are_listed, each_shows};

const CASES: &[Case] = &[
    (
        "strip-on-screw",
        &["Cue(StripOnScrew)", "Cue(ScrewCleared(true))"],
        &["Alarmed"],
        &[],
    ),
    (
        "film-on-lens",
        &[
            "Alarmed(NoArrival)",
            "Cue(LensFilmed(InfeedMouth))",
            "Cue(LensesWiped(true))",
        ],
        &["BoardStored"],
        &[],
    ),
    (
        "film-on-end-lens",
        &["Cue(LensFilmed(End))", "Cue(LensesWiped(true))"],
        &[],
        &[],
    ),
    (
        "beam-out-of-line",
        &["Cue(BeamOutOfLine(OutfeedMouth))"],
        &[],
        &[],
    ),
    ("beam-blinded", &["Cue(BeamLit(InfeedMouth))"], &[], &[]),
    (
        "cable-cut",
        &["Cue(LampsDiffer(UpstreamAvailable))"],
        &["BoardStored", "Alarmed"],
        &[],
    ),
    (
        "motor-hums",
        &["MotorHummed", "WidthReached"],
        &["Alarmed"],
        &[],
    ),
];

#[test]
fn each_fault_shows_in_its_journal() {
    each_shows("faults", CASES);
}

#[test]
fn every_journal_of_a_fault_has_its_drill_and_is_listed() {
    all_are_listed("faults", CASES);
}
