//! Harms: a journal and a small drill for each kind that is not shown elsewhere, with the number
//! that passed its limit. A harm reads `Harm(KIND, board, place, number, limit)`: strain in
//! microstrain, lengths in micrometres, speeds as their kind says.

use crate::neighbours::{Case, all_are_listed, each_shows};

const CASES: &[Case] = &[
    // Nobody perceives it: no crack, no damage that shows. The board is passed on.
    (
        "overstrained-passed-on",
        &[
            "Harm(Overstrained, wren, Belt(Infeed), 1000, 1000)",
            "Took(wren, damaged false)",
            "Broke(doubtful-board-good)",
            "BoardPutDown(wren, good false)",
        ],
        &["Crack"],
        &["Overstrained"],
    ),
    // 3 % of 160 mm.
    (
        "sprung-out",
        &[
            "SweepSawNothing",
            "Harm(SprungOut, wren, Belt(Infeed), 4800, 4800)",
            "Crack",
        ],
        &[],
        &["Overstrained", "SprungOut"],
    ),
    (
        "broken",
        &[
            "SweepSawNothing",
            "Harm(Broken, raven, Slot(12, Outfeed), 4000, 4000)",
            "Crack",
        ],
        &[],
        &["Overstrained", "Broken"],
    ),
    // The first micrometre beyond a ledge of 2.5 mm.
    (
        "dropped",
        &[
            "SweepSawNothing",
            "Harm(Dropped, heron, Slot(27, Outfeed), 2501, 2500)",
            "Crack",
        ],
        &[],
        &["Dropped"],
    ),
    (
        "sheared-at-the-mouth",
        &[
            "BoardRanPast(1)",
            "Alarmed(EmergencyStop)",
            "Harm(Overstrained, wren, Mouth(Outfeed), 400, 400)",
            "Harm(Sheared, wren, Mouth(Outfeed), 2500, 2500)",
        ],
        &["BoardSent"],
        &["Overstrained", "Sheared"],
    ),
    // As far as the board in the slot is long.
    (
        "driven-into-a-taken-slot",
        &["Harm(Collided, wren, Slot(1, Outfeed), 180000, 0)", "Crack"],
        &[],
        &["Collided"],
    ),
    // 150 mm/s, in nm/s.
    (
        "hand-at-running-belts",
        &["Harm(HandInjured, none, nowhere, 150000000, 0)"],
        &["Took("],
        &["HandInjured"],
    ),
    // The lift goes 30 mm down to its reference.
    (
        "prop-left-in",
        &[
            "Broke(power-given-early)",
            "Harm(PropStruck, none, nowhere, 30000, 0)",
        ],
        &[],
        &["PropStruck"],
    ),
    // 1.6 + 15 + 3 mm in slots 12 mm apart.
    (
        "parts-struck",
        &[
            "Harm(PartsStruck, kestrel, Slot(1, Outfeed), 19600, 12000)",
            "Crack",
        ],
        &["Alarmed"],
        &["PartsStruck"],
    ),
    (
        "charged",
        &[
            "Broke(hands-ungrounded)",
            "Harm(Charged, wren, nowhere, 1500, 100)",
            "Took(wren, damaged false)",
            "BoardPutDown(wren, good false)",
        ],
        &["Crack"],
        &["Charged"],
    ),
];

#[test]
fn each_harm_is_done_in_its_journal() {
    each_shows("harms", CASES);
}

#[test]
fn every_journal_of_a_harm_has_its_drill_and_is_listed() {
    all_are_listed("harms", CASES);
}
