//! Rails, belts and lift.

use rackproof_buffer::{HarmKind, LiftPlace};

use super::*;

pub(super) const CASES: &[Case] = &[
    Case {
        name: "steps lost",
        fault: "Fault(name: \"stiff\", what: StepsLost(lost_mm: 2.0), comes: Start)",
        steps: CHANGE,
        heard: &["MotorHummed", "WidthReached"],
        // Steps lost = commanded − moved: 220.8 − 218.8.
        then: |run| {
            assert_eq!(widths(run), (218_800, Some(220_800)));
            assert_eq!(run.state.machine.steps_lost().0, 2_000);
        },
        ..NONE
    },
    Case {
        name: "strip met while opening",
        fault: "Fault(name: \"strip\", what: Debris(at_mm: 200.0, wide_mm: 5.0), comes: Start)",
        steps: CHANGE,
        heard: &["MotorHummed", "WidthReached"],
        then: |run| assert_eq!(widths(run), (200_000, Some(220_800))),
        ..NONE
    },
    Case {
        name: "strip met while closing for the zero",
        fault: "Fault(name: \"strip\", what: Debris(at_mm: 100.0, wide_mm: 5.0), comes: Start)",
        steps: CHANGE,
        heard: &["MotorHummed", "Alarmed(RailsNoZero)", "ReferenceLost"],
        unheard: &["WidthReached"],
        then: |run| assert_eq!(widths(run).1, None),
        ..NONE
    },
    Case {
        name: "strip seen and cleared",
        fault: "Fault(name: \"strip\", what: Debris(at_mm: 200.0, wide_mm: 5.0), comes: Start)",
        plays_without_fault: false,
        steps: &[
            Step::Do(Intent::Torch(true)),
            go(Stand::Hatch),
            Step::Do(Intent::OpenHatch),
            Step::Rest,
            Step::Do(Intent::Look(Aim::LeanInfeed)),
            Step::Do(Intent::HandIn),
            Step::Do(Intent::ClearScrew),
        ],
        heard: &["Cue(StripOnScrew)", "Cue(ScrewCleared(true))"],
        then: |run| assert_eq!(run.state.machine.faults().present(), 0),
        ..NONE
    },
    Case {
        name: "belts slip much",
        fault: "Fault(name: \"worn\", what: BeltsSlip(percent: 60), comes: Start)",
        steps: TAKE_IN_SEEN,
        heard: &["Cue(BeltSlips(Infeed))", "Alarmed(NoArrival)"],
        unheard: &["BoardStored"],
        // Commanded 490 + 409 = 899 mm; 40 % of it: 359.6 mm, 49.4 mm short of the rack.
        then: |run| assert!(run.state.machine.infeed_belt.is_some()),
        ..NONE
    },
    Case {
        name: "belts slip a little",
        fault: "Fault(name: \"worn\", what: BeltsSlip(percent: 20), comes: Start)",
        steps: TAKE_IN_SEEN,
        heard: &["Cue(BeltSlips(Infeed))", "BoardStored(0)"],
        // 80 % of 899 mm: its leading edge at 719.2 − 409 = 310.2 mm, short of the outfeed half.
        then: |run| assert_eq!(run.state.machine.rack.present().infeed, 1),
        ..NONE
    },
    Case {
        name: "lift sinks",
        fault: "Fault(name: \"brake\", what: LiftSinks(speed_mm_s: 4, by_mm: 12.0), comes: Start)",
        steps: STOP_AT_INFEED,
        heard: &[
            "BrakeTicked",
            "Cue(LiftSinks)",
            "LooksVoided(Moved(Lift))",
            "Fact(LiftSank)",
        ],
        // 30 − 12 mm, and it stays there.
        then: |run| {
            let (world, machine) = width(run);
            assert_eq!(world.machine().lift_height(machine).0, 18_000);
            assert_eq!(machine.lift_place, LiftPlace::BelowFirst);
        },
        ..NONE
    },
    Case {
        name: "lift on its prop",
        fault: "Fault(name: \"brake\", what: LiftSinks(speed_mm_s: 4, by_mm: 12.0), comes: Start)",
        plays_without_fault: false,
        steps: &[
            go(Stand::Hatch),
            Step::Do(Intent::OpenHatch),
            Step::Wait(100),
            Step::Do(Intent::SetProp),
            Step::Do(Intent::HandIn),
            Step::Rest,
        ],
        heard: &["BrakeTicked"],
        unheard: &["LiftSank", "CaughtUnderLift"],
        // 0.4 mm in 100 ms: still at slot 1.
        then: |run| assert_eq!(run.state.machine.lift_place, LiftPlace::At(0)),
        ..NONE
    },
    Case {
        name: "hand under a lift that sinks",
        fault: "Fault(name: \"brake\", what: LiftSinks(speed_mm_s: 4, by_mm: 12.0), comes: Start)",
        steps: &[
            go(Stand::Hatch),
            Step::Do(Intent::OpenHatch),
            Step::Do(Intent::HandIn),
        ],
        heard: &[
            "BrakeTicked",
            "kind: CaughtUnderLift, board: None, place: None, number: 4000",
        ],
        then: |run| assert!(run.harmed(HarmKind::CaughtUnderLift)),
        ..NONE
    },
    Case {
        name: "lift falls on a hand",
        fault: "Fault(name: \"brake\", what: BrakeFails, comes: After(60.0))",
        steps: &[
            go(Stand::Hatch),
            Step::Do(Intent::OpenHatch),
            Step::Do(Intent::HandIn),
            Step::Wait(60_000),
        ],
        // √(2 · 9.80665 · 0.030) = 0.767 m/s.
        heard: &[
            "Cue(LiftSinks)",
            "kind: LiftFell, board: None, place: None, number: 76707",
        ],
        then: |run| {
            assert_eq!(run.state.machine.lift_place, LiftPlace::Reference);
            assert!(run.harmed(HarmKind::CaughtUnderLift));
        },
        ..NONE
    },
    Case {
        name: "count of the lift lost",
        fault: "Fault(name: \"drive\", what: ReferenceLost, comes: OnSign(BoardStored))",
        steps: TAKE_IN,
        heard: &[
            "Cue(LiftJerks)",
            "Alarmed(LiftDrive)",
            "ReferenceLost",
            "UnitChanged(Aborted)",
        ],
        then: |run| assert!(!run.state.machine.referenced()),
        ..NONE
    },
];
