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
        &["Cue(BeamOutOfLine(OutfeedMouth))", "SweepSawNothing"],
        &["SweepSaw("],
        &[],
    ),
    (
        "beam-blinded",
        &["Cue(BeamLit(InfeedMouth))", "SweepSaw(1)"],
        &[],
        &[],
    ),
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
    // Of 490 + 409 mm the board comes 40 %.
    (
        "belts-slip",
        &[
            "Cue(BeltSlips(Infeed))",
            "Alarmed(NoArrival)",
            "SawBelt(Infeed, 1)",
        ],
        &["BoardStored"],
        &[],
    ),
    (
        "lift-sinks",
        &[
            "BrakeTicked",
            "LiftSank",
            "Cue(LiftSinks)",
            "Cue(LiftSinks)",
        ],
        &["MotorHummed"],
        &[],
    ),
    // √(2 · 9.80665 m/s² · 30 mm), in µm/s.
    (
        "lift-falls",
        &[
            "Harm(LiftFell, none, nowhere, 767071, 0)",
            "Cue(LiftSinks)",
            "Harm(CaughtUnderLift, none, nowhere, 767071, 0)",
        ],
        &[],
        &["LiftFell", "CaughtUnderLift"],
    ),
    ("lift-propped", &["HandEntered"], &["LiftSank"], &[]),
    (
        "lift-sinks-across-mouth",
        &[
            "BrakeTicked",
            "Harm(Overstrained, wren, Mouth(Outfeed), 500, 500)",
            "Harm(Sheared, wren, Mouth(Outfeed), 3000, 3000)",
        ],
        &["BoardSent"],
        &["Overstrained", "Sheared"],
    ),
    (
        "count-lost",
        &[
            "BoardStored(1)",
            "Cue(LiftJerks)",
            "Alarmed(LiftDrive)",
            "ReferenceLost",
            "UnitChanged(Aborted)",
            "Refused(WidthNotReached)",
            "ReferenceFound",
        ],
        &[],
        &[],
    ),
    (
        "bowed-board",
        &[
            "Alarmed(NoArrival)",
            "SawMouth(Infeed, taken true)",
            "Cue(Bowed(Mouth(Infeed)))",
            "Took(wren",
            "SawMouth(Infeed, taken false)",
        ],
        &["BoardStored"],
        &[],
    ),
    (
        "board-askew",
        &[
            "SweepSaw(16)",
            "Asked(Answer(16))",
            "Cue(Askew(Slot(16, Outfeed)))",
        ],
        &["BoardReachedEnd"],
        &[],
    ),
    (
        "board-turned",
        &["Cue(Turned(Slot(9, Outfeed)))"],
        &["SawMouth"],
        &[],
    ),
    (
        "warm-board-grown",
        &["Alarmed(NoArrival)", "Cue(StandsAgainstRails)"],
        &["BoardEntered"],
        &[],
    ),
    ("warm-board", &["Took(wren", "Cue(Heat(80))"], &[], &[]),
    (
        "hot-board",
        &["Harm(Burned, wren, nowhere, 80, 51)", "Cue(Heat(80))"],
        &[],
        &["Burned"],
    ),
    (
        "contact-stuck",
        &[
            "Harm(Collided, wren, Belt(Outfeed), 180000, 0)",
            "Alarmed(NoArrival)",
            "Cue(LampsDiffer(DownstreamReady))",
        ],
        &["BoardSent"],
        &["Collided"],
    ),
    (
        "own-ready-stuck",
        &[
            "Cue(LampsDiffer(OwnReady))",
            "BoardLaid(wren)",
            "SawBelt(Infeed, 1)",
        ],
        &["MachineReady(true)", "Alarmed"],
        &[],
    ),
    (
        "strip-met",
        &[
            "Chose(FaultComes",
            "SweepSawNothing",
            "MotorHummed",
            "Alarmed(RailsNoZero)",
            "ReferenceLost",
        ],
        &["WidthReached"],
        &[],
    ),
    (
        "beams-blinded-at-outfeed",
        &[
            "Cue(BeamLit(OutfeedMouth))",
            "Cue(BeamLit(End))",
            "SweepSaw(1)",
        ],
        &[],
        &[],
    ),
    (
        "beams-out-of-line-at-ends",
        &["Cue(BeamOutOfLine(InfeedMouth))", "Cue(BeamOutOfLine(End))"],
        &["BeamOutOfLine(OutfeedMouth)"],
        &[],
    ),
    (
        "film-on-outfeed-lens",
        &[
            "Cue(LensesWiped(false))",
            "Cue(LensFilmed(OutfeedMouth))",
            "Cue(LensesWiped(true))",
        ],
        &[],
        &[],
    ),
    (
        "belts-slip-at-outfeed",
        &["Cue(BeltSlips(Outfeed))", "Alarmed(NoArrival)"],
        &["BoardStored"],
        &[],
    ),
    (
        "own-available-cut",
        &["BoardAvailable(true)", "Cue(LampsDiffer(OwnAvailable))"],
        &["BoardSent", "Alarmed"],
        &[],
    ),
    (
        "screw-clear",
        &["HandEntered", "Cue(ScrewCleared(false))"],
        &["StripOnScrew"],
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
