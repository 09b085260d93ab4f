//! What is done at the panel: products and settings, clear-out, alarms and unit.

use crate::neighbours::Case;

/// Products, their widths, machine settings.
pub(crate) const SETTINGS: &[Case] = &[
    (
        "slots-counted-too-few",
        &[
            "SweepSawNothing",
            "Harm(SprungOut, wren, Slot(14, Outfeed), 4800, 4800)",
        ],
        &["SweepSaw("],
        &["Overstrained", "SprungOut"],
    ),
    // 220 mm, side play 0.8, offset 2.5: a board falls beyond 3.
    (
        "width-offset-wrong",
        &[
            "SettingChanged(WidthOffset(2.5))",
            "Harm(Dropped, kestrel, Belt(Infeed), 3300, 3000)",
        ],
        &["Alarmed"],
        &["Dropped"],
    ),
    (
        "signals-off",
        &[
            "Harm(Collided, wren, Belt(Outfeed), 180000, 0)",
            "Alarmed(NoArrival)",
        ],
        &["BoardSent"],
        &["Collided"],
    ),
    (
        "edited-not-saved",
        &["WidthTyped(224000)", "ProductLoaded", "WidthReached"],
        &["ProductSaved"],
        &[],
    ),
    (
        "saved-then-loaded",
        &["ProductSaved(kestrel)", "ProductLoaded", "WidthReached"],
        &[],
        &[],
    ),
    (
        "saved-not-loaded",
        &[
            "ProductLoaded(kestrel)",
            "ProductSaved(wren)",
            "WidthReached",
        ],
        &[],
        &[],
    ),
    (
        "saved-after-loading",
        &[
            "ProductLoaded(kestrel)",
            "ProductSaved(kestrel)",
            "WidthReached",
        ],
        &[],
        &[],
    ),
    (
        "loaded-anew",
        &[
            "ProductLoaded(kestrel)",
            "ProductSaved(kestrel)",
            "WidthReached",
            "ProductLoaded(kestrel)",
            "WidthReached",
        ],
        &[],
        &[],
    ),
    (
        "number-slips",
        &[
            "Refused(WidthBeyondTravel)",
            "Refused(WidthBeyondTravel)",
            "ProductSaved(wren)",
        ],
        &[],
        &[],
    ),
    (
        "saved-over-another",
        &["ProductSaved(wren)"],
        &["Refused"],
        &[],
    ),
    (
        "setters-only",
        &[
            "Refused(SetterOnly)",
            "Refused(SetterOnly)",
            "ProductSaved(kestrel)",
            "Refused(SettingBeyondBounds(SlotCount(41)))",
            "SettingChanged(SlotCount(10))",
        ],
        &[],
        &[],
    ),
    (
        "board-too-long",
        &["Refused(BoardTooLong)"],
        &["ProductLoaded"],
        &[],
    ),
    (
        "sensor-confirms",
        &["SettingChanged(WidthCheck(true))", "WidthReached"],
        &["Alarmed"],
        &[],
    ),
    (
        "sensor-finds-offset",
        &[
            "WaitsForWidth",
            "Alarmed(NoConfirmation)",
            "Asked(Confirmation)",
        ],
        &["WidthReached"],
        &[],
    ),
];

/// Clear-outs that somebody else began, that are cut off, that downstream helps with.
pub(crate) const CLEAR_OUT: &[Case] = &[
    // Slots 1 to 10 were answered for by the shift before, and a board lies in slot 3.
    (
        "handed-over-believed",
        &[
            "Answered(11, SeenEmpty)",
            "ClearedOut",
            "SweepSawNothing",
            "Harm(Broken, raven, Slot(3, Infeed), 4000, 4000)",
        ],
        &["Answered(3"],
        &["Overstrained", "Broken"],
    ),
    (
        "handed-over-anew",
        &[
            "UnitChanged(Stopped)",
            "Asked(Answer(1))",
            "Answered(1, SeenEmpty)",
            "Asked(Answer(2))",
        ],
        &["Answered(11"],
        &[],
    ),
    (
        "power-lost-in-clear-out",
        &[
            "Answered(2, SeenEmpty)",
            "Powered(false)",
            "TaskChanged(None)",
            "ReferenceLost",
            "Powered(true)",
            "ReferenceFound",
            "Asked(Answer(1))",
        ],
        &["Alarmed"],
        &[],
    ),
    (
        "power-lost-while-rails-move",
        &[
            "Started(Rails)",
            "Powered(false)",
            "TaskChanged(None)",
            "ReferenceLost",
            "Powered(true)",
            "Refused(WidthNotReached)",
            "ReferenceFound",
            "Started(Rails)",
            "WidthReached",
        ],
        &["Alarmed"],
        &[],
    ),
    (
        "downstream-takes",
        &[
            "BoardReachedEnd(1)",
            "BoardSent(1)",
            "Asked(AnswerHalf(1, Infeed))",
        ],
        &["Asked(Take"],
        &[],
    ),
];

/// Alarms, unit states and modes, and what is refused.
pub(crate) const UNIT: &[Case] = &[
    (
        "first-alarm-is-kept",
        &["Alarmed(HatchOpened)", "Alarmed(EmergencyStop)"],
        &[],
        &[],
    ),
    ("alarm-acknowledged", &["Alarmed(EmergencyStop)"], &[], &[]),
    ("alarm-returned", &["Alarmed(EmergencyStop)"], &[], &[]),
    ("alarm-latched", &["Alarmed(EmergencyStop)"], &[], &[]),
    (
        "alarm-latched-unseen",
        &["Alarmed(EmergencyStop)"],
        &[],
        &[],
    ),
    (
        "held-suspended-completed",
        &[
            "UnitChanged(Holding)",
            "UnitChanged(Held)",
            "UnitChanged(Unholding)",
            "UnitChanged(Suspending)",
            "UnitChanged(Suspended)",
            "UnitChanged(Unsuspending)",
            "UnitChanged(Completing)",
            "UnitChanged(Complete)",
            "UnitChanged(Resetting)",
            "UnitChanged(Aborting)",
            "UnitChanged(Aborted)",
            "UnitChanged(Clearing)",
            "UnitChanged(Stopped)",
        ],
        &["Refused"],
        &[],
    ),
    (
        "orders-refused",
        &[
            "Refused(Order(Hold, Stopped))",
            "Refused(Order(Unhold, Stopped))",
            "Refused(Order(Complete, Stopped))",
            "Refused(Button(Start, Stopped))",
            "Refused(NoTask)",
            "Refused(Order(Suspend, Idle))",
            "Refused(Order(Unsuspend, Idle))",
        ],
        &["Started("],
        &[],
    ),
    (
        "refused-in-a-stop",
        &[
            "Refused(EmergencyLatched)",
            "Refused(Button(Start, Aborted))",
            "Refused(Key)",
            "Refused(HatchOpen)",
            "DeclaredEmpty",
            "Refused(NoTask)",
        ],
        &["Started("],
        &[],
    ),
    (
        "refused-with-boards",
        &[
            "Refused(MapNotEmpty)",
            "Asked(Answer(1))",
            "Refused(Question)",
            "Answered(1, NotSure)",
            "Refused(MapUnknown)",
        ],
        &["Started(Rails)"],
        &[],
    ),
    (
        "refused-after-the-sweep",
        &["SweepSaw(5)", "Refused(BoardSeen)", "Asked(Take(5))"],
        &["Started(Rails)"],
        &[],
    ),
    (
        "manual",
        &[
            "ModeChanged(Manual)",
            "Refused(Manual)",
            "ModeChanged(Production)",
        ],
        &["Started("],
        &[],
    ),
    (
        "stop-while-belts-run",
        &["Refused(BoardOnItsWay)", "BoardStored(1)"],
        &["UnitChanged(Held)"],
        &[],
    ),
];
