//! Choices of a machine file, and production.

use crate::neighbours::Case;

/// Each choice of the table of behaviours, both ways.
pub(crate) const CHOICES: &[Case] = &[
    (
        "ready-with-room",
        &["MachineReady(true)"],
        &["BoardEntered"],
        &[],
    ),
    (
        "ready-on-offer-none",
        &["UnitChanged(Execute)"],
        &["MachineReady(true)"],
        &[],
    ),
    (
        "ready-on-offer",
        &["MachineReady(true)", "BoardStored(1)"],
        &[],
        &[],
    ),
    (
        "same-product-whole-cycle",
        &[
            "ProductLoaded(wren)",
            "SweepSawNothing",
            "Started(Rails)",
            "WidthReached",
        ],
        &[],
        &[],
    ),
    (
        "same-product-nothing",
        &["ProductLoaded(wren)", "Refused(NoTask)"],
        &["Started(", "SweepSawNothing"],
        &[],
    ),
    (
        "sweep-saw-from-there-up",
        &[
            "SweepSaw(5)",
            "Asked(Take(5))",
            "Asked(Answer(5))",
            "Asked(Answer(6))",
        ],
        &["Asked(Answer(1))", "Asked(Answer(4))"],
        &[],
    ),
    (
        "sweep-saw-all-unknown",
        &["SweepSaw(19)", "Asked(AnswerHalf(1, Infeed))"],
        &[],
        &[],
    ),
    (
        "unfitted-refused",
        &["Refused(NotFitted)"],
        &["SettingChanged"],
        &[],
    ),
    (
        "unfitted-waits",
        &[
            "SettingChanged(WidthCheck(true))",
            "WaitsForWidth",
            "UnitChanged(Stopped)",
        ],
        &["WidthReached", "Alarmed"],
        &[],
    ),
    (
        "unfitted-times-out",
        &[
            "WaitsForWidth",
            "Alarmed(NoConfirmation)",
            "Asked(Confirmation)",
            "WaitsForWidth",
        ],
        &["WidthReached"],
        &[],
    ),
    (
        "side-play-of-all",
        &["SettingChanged(SidePlay(1.2))", "WidthReached"],
        &[],
        &[],
    ),
    (
        "side-play-of-one",
        &["SettingChanged(SidePlay(1.2))", "WidthReached"],
        &[],
        &[],
    ),
    (
        "order-of-the-machine",
        &["BoardPassed(1)", "BoardPassed(1)"],
        &["BoardStored"],
        &[],
    ),
    (
        "glass-clear",
        &["SawBoard(20, Outfeed, wren"],
        &["Alarmed", "Dark"],
        &[],
    ),
    (
        "runs-after-changeover",
        &[
            "WidthReached",
            "UnitChanged(Complete)",
            "UnitChanged(Execute)",
            "BoardStored(1)",
        ],
        &[],
        &[],
    ),
    (
        "waits-after-changeover",
        &["WidthReached", "UnitChanged(Complete)"],
        &["MachineReady(true)", "BoardEntered"],
        &[],
    ),
];

/// What is stored, and what leaves when.
pub(crate) const PRODUCTION: &[Case] = &[
    (
        "first-in-first-out",
        &[
            "BoardStored(3)",
            "BoardSent(1)",
            "BoardSent(2)",
            "BoardSent(3)",
        ],
        &["Alarmed"],
        &[],
    ),
    (
        "last-in-first-out",
        &[
            "BoardStored(3)",
            "BoardSent(3)",
            "BoardSent(2)",
            "BoardSent(1)",
        ],
        &["Alarmed"],
        &[],
    ),
    (
        "straight-through",
        &["BoardPassed(1)", "BoardPassed(1)"],
        &["BoardStored"],
        &[],
    ),
    (
        "nothing-overtakes",
        &["BoardStored(1)", "BoardSent(1)", "BoardSent(1)"],
        &["BoardPassed"],
        &[],
    ),
    (
        "two-in-a-slot",
        &["BoardStored(1)", "BoardStored(1)", "BoardStored(2)"],
        &[],
        &[],
    ),
    (
        "every-second-slot",
        &[
            "BoardStored(1)",
            "BoardStored(1)",
            "BoardStored(3)",
            "BoardStored(3)",
            "BoardStored(5)",
        ],
        &["BoardStored(2)", "BoardStored(4)"],
        &[],
    ),
    (
        "filling-first",
        &["BoardStored(2)", "BoardSent(1)", "BoardSent(2)"],
        &[],
        &[],
    ),
    (
        "emptying-first",
        &["BoardSent(1)", "BoardStored(1)", "BoardSent(1)"],
        &[],
        &[],
    ),
    (
        "released-by-interval",
        &["BoardSent(1)", "BoardSent(2)", "BoardSent(3)"],
        &["Alarmed"],
        &[],
    ),
    (
        "drawn-back",
        &["BoardRanPast(1)", "BoardSent(1)"],
        &["Alarmed"],
        &[],
    ),
    (
        "rack-full",
        &["BoardStored(7)", "BoardStored(8)", "SawBoard(8, Outfeed"],
        &["Collided"],
        &[],
    ),
    // 1.6 + 15 + 3 mm in slots 12 mm apart.
    (
        "no-room",
        &["Took(kestrel", "NoRoom(3, Outfeed)", "BoardPutDown(kestrel"],
        &["BoardPutIn", "PartsStruck"],
        &[],
    ),
    // The beams look 100 mm from the fixed rail, and the board is 80 mm wide: the controller takes
    // it for one that never came, and whoever looks into the mouth sees where it lies.
    (
        "runs-beside-the-beam",
        &[
            "BoardEntered",
            "Alarmed(NoArrival)",
            "Asked(Arrival(1))",
            "SawMouth(Infeed, taken false)",
            "SawBoard(1, Outfeed, dunlin, damaged false)",
        ],
        &["BoardStored"],
        &[],
    ),
    // The same in a sweep: the panel asks for the rails, and a look from the other side of the
    // hatch finds what one from the first did not.
    (
        "swept-beside-the-beam",
        &[
            "SweepSawNothing",
            "Asked(Rails)",
            "Looked(empty ff/0, boards 0/0)",
            "SawBoard(3, Outfeed, dunlin, damaged false)",
            "Took(dunlin, damaged false)",
            "Looked(empty 0/ff, boards 0/0)",
        ],
        &["SweepSaw(", "Started(Rails)"],
        &[],
    ),
];
