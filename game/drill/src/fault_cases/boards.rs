//! Boards that are not as they should be.

use rackproof_buffer::Button;

use super::*;

pub(super) const CASES: &[Case] = &[
    Case {
        name: "warm board",
        fault: "Fault(name: \"oven\", comes: Start,
            what: Warm(board: \"wren\", place: Upstream, degrees: 80, grown_mm: 0.134))",
        plays_without_fault: false,
        steps: &[
            Step::Do(Intent::TestStraps),
            Step::Chose(Chance::UpstreamLaysBoard),
            go(Stand::Infeed),
            Step::Do(Intent::TakeFromBelt),
            Step::Do(Intent::PutDown(Tray::Quarantine)),
        ],
        heard: &[
            "Cue(Heat(80))",
            "kind: Burned, board: Some(4), place: None, number: 80, limit: 51",
        ],
        unheard: &["Charged", "Crack"],
        // 14 ppm/K · 60 K · 160 mm = 0.134 mm.
        then: |run| {
            let kinds = run.world.machine().kinds();
            assert_eq!(kinds[4].width.0, 160_000 + 14 * 60 * 160_000 / 1_000_000);
        },
        ..NONE
    },
    Case {
        name: "warm board in gloves",
        fault: "Fault(name: \"oven\", comes: Start,
            what: Warm(board: \"wren\", place: Upstream, degrees: 80, grown_mm: 0.134))",
        plays_without_fault: false,
        steps: &[
            Step::Do(Intent::TestStraps),
            Step::Do(Intent::WearGloves),
            Step::Chose(Chance::UpstreamLaysBoard),
            go(Stand::Infeed),
            Step::Do(Intent::TakeFromBelt),
        ],
        heard: &["Cue(Heat(80))"],
        unheard: &["Burned"],
        ..NONE
    },
    Case {
        name: "board touched without straps",
        fault: "",
        steps: &[
            Step::Chose(Chance::UpstreamLaysBoard),
            go(Stand::Infeed),
            Step::Do(Intent::TakeFromBelt),
            Step::Do(Intent::PutDown(Tray::Good)),
        ],
        // Nobody perceives it: no crack, no damage that shows.
        heard: &[
            "kind: Charged, board: Some(0), place: None, number: 1500, limit: 100",
            "good: false",
        ],
        unheard: &["Crack", "damaged: true"],
        ..NONE
    },
    Case {
        name: "bowed board",
        // More than 0.75 % of 180 mm, which is 1.35 mm (IPC-A-610).
        fault: "Fault(name: \"bow\", comes: Start,
            what: Bowed(board: \"wren\", place: Upstream, bow_mm: 1.4))",
        steps: TAKE_IN,
        heard: &["Cue(Bowed(Mouth(Infeed)))", "Alarmed(NoArrival)"],
        then: |run| assert!(run.state.machine.mouths[0].is_some()),
        ..NONE
    },
    Case {
        name: "board bowed no more than it may be",
        fault: "Fault(name: \"bow\", comes: Start,
            what: Bowed(board: \"wren\", place: Upstream, bow_mm: 1.3))",
        steps: TAKE_IN,
        heard: &["BoardStored(0)"],
        ..NONE
    },
    Case {
        name: "board askew",
        board_inside: true,
        fault: "Fault(name: \"askew\", comes: Start,
            what: Askew(board: \"wren\", place: Slot(slot: 16, half: Outfeed), more_mm: 0.5))",
        steps: &[
            CHANGEOVER,
            RESET,
            CHOOSE,
            LOAD,
            START,
            Step::Rest,
            press(Button::ClearOut),
            START,
            Step::Rest,
            Step::Do(Intent::Torch(true)),
            go(Stand::Outfeed),
            LOOK,
        ],
        // It rests on the divider: the belts run, and it does not come.
        heard: &[
            "Cue(Askew(Slot(HalfSlot { slot: 15, half: Outfeed })))",
            "Asked(Answer(15))",
        ],
        unheard: &["BoardReachedEnd"],
        plays_without_fault: false,
        then: |run| assert_eq!(run.state.machine.rack.present().outfeed, 1 << 15),
    },
];
