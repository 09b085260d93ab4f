//! Whatever is done to the machine: split time gives the same state, a key gives the state back, no
//! board is lost, and nothing moves that must not.

use std::collections::BTreeSet;

use proptest::prelude::*;

use crate::{
    Alarm, Answer, Button, Half, HalfSlot, Mode, Outcome, State,
    deeds::{Chance, Deed, Step},
    trial::Trial,
    variants::{VARIANT_BITS, variant},
};

#[test]
fn a_step_from_numbers_reaches_every_kind() {
    let mut chance = Chance(0);
    let steps: Vec<String> = (0..5_000)
        .map(|_| format!("{:?}", Step::from(chance.below(32), chance.next() as u32)))
        .collect();
    for word in [
        "GoOn",
        "Events",
        "Wait",
        "Isolator",
        "Emergency",
        "Hatch",
        "Prop",
        "Key",
        "Upstream",
        "Downstream",
        "TakeFromBelt",
        "TakeFromMouth",
        "TakeFromRack",
        "PutInRack",
        "LayOnBelt",
        "Start",
        "Stop",
        "Reset",
        "Production",
        "Changeover",
        "Choose",
        "EditWidth",
        "Save",
        "Load",
        "ClearOut",
        "Answer",
        "HoldDeclare",
        "LetGoDeclare",
        "Acknowledge",
        "Fault",
        "ClearScrew",
        "WipeLenses",
        "Claims",
        "Stands",
        "UpstreamDrops",
        "Chatters",
        "SaveOver",
        "Order",
        "Manual",
        "SlotCount",
        "WidthOffset",
        "SidePlay",
        "Signals",
        "Priority",
        "WidthCheck",
        "ConfirmWithin",
    ] {
        assert!(steps.iter().any(|step| step.contains(word)), "{word}");
    }
}

fn any_step() -> impl Strategy<Value = Step> {
    (0_u32..32, any::<u32>()).prop_map(|(which, value)| Step::from(which, value))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None,
        ..ProptestConfig::default() })]

    #[test]
    fn whatever_is_done_the_machine_keeps_its_rules(
        seed: u64, bits in 0_u32..1 << VARIANT_BITS,
        steps in prop::collection::vec(any_step(), 1..150),
    ) {
        let mut trial = Trial::new(seed, variant(bits));
        for step in steps {
            trial.step(step);
        }
    }
}

/// Trials that were found by chance and broke a rule once: their variants and steps, and what they
/// come across.
#[test]
fn trials_that_broke_a_rule_keep_it() {
    use Step::{Do, Events, GoOn};
    let above = HalfSlot {
        slot: 1,
        half: Half::Infeed,
    };
    let cases: [(u32, Vec<Step>, Outcome); 2] = [
        // Of a half that was answered for, a key keeps only whether somebody was sure of it.
        (
            93_585_408,
            vec![
                Do(Deed::Emergency(true)),
                Do(Deed::Press(Button::Mode(Mode::Changeover))),
                GoOn(0),
                GoOn(46_582_360),
                GoOn(83_366_432),
                GoOn(56_777_209),
                GoOn(0),
                Events(3),
                Do(Deed::Press(Button::Answer(Answer::Taken))),
                GoOn(0),
            ],
            Outcome::Answered(0, Answer::Taken),
        ),
        // A hand laid a board with tall parts over boards that ran on the belts.
        (
            67_712_128,
            vec![
                Do(Deed::LayOnBelt(3)),
                GoOn(0),
                Do(Deed::Upstream(Some(2))),
                GoOn(353_611_977),
                Events(4),
                GoOn(0),
                GoOn(0),
                GoOn(204_048_817),
                GoOn(886_263_523),
                Do(Deed::PutInRack(above, 1)),
                Events(2),
                Events(1),
            ],
            Outcome::Alarmed(Alarm::NoArrival),
        ),
    ];
    for (bits, steps, expected) in cases {
        let mut trial = Trial::new(0, variant(bits));
        steps.into_iter().for_each(|step| trial.step(step));
        assert!(trial.heard.contains(&expected), "{:?}", trial.heard);
    }
}

/// What the long runs must have come across, or they show nothing. Parts of one outcome have a star
/// between them.
const RARE: &[&str] = &[
    "BoardEntered",
    "BoardStored",
    "BoardSent",
    "BoardReachedEnd",
    "BoardPassed",
    "BoardRanPast",
    "PartsStruck",
    "SweepSawNothing",
    "SweepSaw(",
    "WidthReached",
    "ClearedOut",
    "DeclaredEmpty",
    "ReferenceFound",
    "NoArrival",
    "Asked(Take",
    "Asked(Answer",
    "Asked(Arrival",
    "Asked(Rails",
    "Collided",
    // Neighbours: a board driven into one that stands, fallen over our end, fallen between our
    // rails as it came.
    "Collided*Some(Belt(Outfeed))",
    "Dropped*place: None*limit: 0 ",
    "Dropped*Some(Belt(Infeed))",
    "Sheared",
    "SprungOut",
    "Dropped",
    "Overstrained",
    "PropStruck",
    "Complete",
    "Refused(WidthBeyondTravel)",
    "MotorHummed",
    "BrakeTicked",
    "LiftSank",
    "LiftFell",
    "Alarmed(RailsNoZero)",
    "Alarmed(LiftDrive)",
    "Refused(Order",
    "Refused(BoardOnItsWay)",
    "Refused(SetterOnly)",
    "Refused(SettingBeyondBounds",
    "Refused(NotFitted)",
    "Refused(Manual)",
    "AnsweredHalf(",
    "SettingChanged(",
    "WaitsForWidth",
    "NoConfirmation",
    "UnitChanged(Suspended)",
    "UnitChanged(Completing)",
];

/// Long runs, so that rare places are reached: boards in both halves, across mouths, on both belts.
#[test]
fn long_runs_keep_the_rules_and_come_across_rare_things() {
    let mut told = BTreeSet::new();
    for seed in 0..60_u64 {
        let mut chance = Chance(seed);
        let mut trial = Trial::new(seed, variant(chance.below(1 << VARIANT_BITS)));
        // Some runs are calm: few things get in the way of one that takes long.
        let calm = 1 + chance.below(64);
        for _ in 0..1_500 {
            let disturbed = chance.below(calm) == 0;
            let which = chance.below(if disturbed { 32 } else { 12 });
            trial.step(Step::from(which, chance.next() as u32));
            told.extend(trial.heard.drain(..).map(|outcome| format!("{outcome:?}")));
        }
    }
    let came = |rare: &str| {
        let is_it = |told: &String| rare.split('*').all(|part| told.contains(part));
        told.iter().any(is_it)
    };
    let never: Vec<&&str> = RARE.iter().filter(|rare| !came(rare)).collect();
    assert!(never.is_empty(), "never came: {never:?}");
}

#[test]
fn a_state_stays_small() {
    let size = size_of::<State>();
    println!("a state of the machine takes {size} bytes");
    assert!(size <= 512, "{size} bytes");
}
