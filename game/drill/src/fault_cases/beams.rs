//! Beams and contacts.

use rackproof_buffer::{Button, Side};

use super::*;

pub(super) const CASES: &[Case] = &[
    Case {
        name: "film on the infeed lens",
        fault: "Fault(name: \"film\", what: Beam(beam: InfeedMouth, sees: Nothing), comes: Start)",
        steps: TAKE_IN,
        heard: &["Cue(LensFilmed(InfeedMouth))", "Alarmed(NoArrival)"],
        unheard: &["BoardStored"],
        then: |run| assert_eq!(run.state.machine.rack.present().outfeed, 1),
        ..NONE
    },
    Case {
        name: "film wiped off",
        fault: "Fault(name: \"film\", what: Beam(beam: InfeedMouth, sees: Nothing), comes: Start)",
        plays_without_fault: false,
        steps: &[
            go(Stand::Infeed),
            LOOK,
            Step::Do(Intent::WipeLenses),
            go(Stand::Panel),
            RESET,
            START,
            Step::Rest,
            OFFERS,
            Step::Rest,
        ],
        heard: &["Cue(LensFilmed", "Cue(LensesWiped(true))", "BoardStored(0)"],
        ..NONE
    },
    Case {
        name: "outfeed beam sees nothing",
        board_inside: true,
        fault: "Fault(name: \"film\", what: Beam(beam: OutfeedMouth, sees: Nothing), comes: Start)",
        steps: SWEEP,
        heard: &["Cue(LensFilmed(OutfeedMouth))", "SweepSawNothing"],
        then: |run| assert_eq!(run.state.machine.rack.present().outfeed, 1 << 15),
        ..NONE
    },
    Case {
        name: "outfeed beam looks elsewhere",
        board_inside: true,
        // Its spot is 100 mm from the fixed rail, and now 170 mm: past a board of 160 mm.
        fault: "Fault(name: \"knocked\", comes: Start, what: Beam(beam: OutfeedMouth,
            sees: Elsewhere(along_mm: 0.0, across_mm: 70.0)))",
        steps: SWEEP,
        heard: &["Cue(BeamOutOfLine(OutfeedMouth))", "SweepSawNothing"],
        ..NONE
    },
    Case {
        name: "blinded beam",
        fault: "Fault(name: \"sun\", what: Beam(beam: InfeedMouth, sees: Always), comes: Start)",
        steps: SWEEP,
        heard: &["Cue(BeamLit(InfeedMouth))", "SweepSaw(0)"],
        ..NONE
    },
    Case {
        name: "end beam sees nothing",
        board_inside: true,
        fault: "Fault(name: \"film\", what: Beam(beam: End, sees: Nothing), comes: Start)",
        // The sweep sees the board in slot 16: the clear-out asks for that slot alone.
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
            go(Stand::Outfeed),
            LOOK,
        ],
        heard: &["Cue(LensFilmed(End))", "Asked(Answer(15))"],
        unheard: &["BoardReachedEnd"],
        then: |run| assert!(run.state.machine.outfeed_belt[0].is_some()),
        ..NONE
    },
    Case {
        name: "end beam blinded",
        board_inside: true,
        fault: "Fault(name: \"sun\", what: Beam(beam: End, sees: Always), comes: Start)",
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
            START,
            Step::Rest,
            go(Stand::Outfeed),
            LOOK,
        ],
        heard: &["Cue(BeamLit(End))", "Asked(Take(15))"],
        // It asks for a board that is not there, and never runs the belts.
        unheard: &["Asked(Answer", "Started(Belts)"],
        plays_without_fault: false,
        then: |run| assert_eq!(run.state.machine.outfeed_belt, [None; 2]),
    },
    Case {
        name: "input stays closed",
        fault: "Fault(name: \"jumper\", comes: Start,
            what: Contact(contact: UpstreamAvailable, stays: Closed))",
        steps: &[RESET, START, Step::Rest, go(Stand::Infeed), LOOK],
        // A board is announced that is not there.
        heard: &["Cue(LampsDiffer(UpstreamAvailable))", "Alarmed(NoArrival)"],
        ..NONE
    },
    Case {
        name: "cable of an input cut",
        fault: "Fault(name: \"cut\", comes: Start,
            what: Contact(contact: UpstreamAvailable, stays: Open))",
        steps: TAKE_IN,
        // Cut reads as open, which means no: nothing moves, and no alarm comes.
        heard: &["Cue(LampsDiffer(UpstreamAvailable))"],
        unheard: &["Started(Belts)", "Alarmed", "BoardEntered"],
        ..NONE
    },
    Case {
        name: "downstream's contact stays closed",
        fault: "Fault(name: \"jumper\", comes: Start,
            what: Contact(contact: DownstreamReady, stays: Closed))",
        steps: &[
            RESET,
            START,
            Step::Rest,
            OFFERS,
            Step::Rest,
            go(Stand::Outfeed),
            LOOK,
        ],
        // Downstream stands: the board is driven into it, its whole length of 180 mm too far.
        heard: &[
            "Cue(LampsDiffer(DownstreamReady))",
            "kind: Collided, board: Some(0), place: Some(Belt(Outfeed)), number: 180000",
            "Alarmed(NoArrival)",
        ],
        unheard: &["BoardSent"],
        then: |run| assert!(run.state.machine.outfeed_belt[0].is_some()),
        ..NONE
    },
    Case {
        name: "our ready stays closed",
        fault: "Fault(name: \"stuck\", comes: Start,
            what: Contact(contact: OwnReady, stays: Closed))",
        plays_without_fault: false,
        steps: &[go(Stand::Infeed), LOOK, OFFERS],
        // The unit is Stopped, and upstream pushes its board onto the belt.
        heard: &["Cue(LampsDiffer(OwnReady))", "Fact(BoardLaid(0))"],
        then: |run| assert!(run.state.machine.infeed_belt.is_some()),
        ..NONE
    },
    Case {
        name: "cable of our ready cut",
        fault: "Fault(name: \"cut\", comes: Start, what: Contact(contact: OwnReady, stays: Open))",
        steps: &[RESET, START, Step::Rest, go(Stand::Infeed), LOOK],
        // We are ready, and upstream does not know it.
        heard: &["Cue(LampsDiffer(OwnReady))", "MachineReady(true)"],
        then: |run| {
            let mut open = Vec::new();
            run.world.chosen(&run.state, &mut open);
            assert!(!open.contains(&Chance::UpstreamOffersBoard), "{open:?}");
            let (world, machine) = width(run);
            assert!(!world.machine().signal_given(machine, Side::Infeed));
        },
        ..NONE
    },
];
