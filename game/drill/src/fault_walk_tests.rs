//! Whatever people and neighbours do with faults about: what is on offer can be done, keys read
//! back to states with the same next event, and time goes on.

use rackproof_model::{Instants, Micros, Model, key::KeyWriter};

use crate::{
    Cause, Mergers,
    fault_tests::{Run, Step, world},
};

const FAULTS: [&str; 3] = [
    "Fault(name: \"strip\", what: Debris(at_mm: 190.0, wide_mm: 4.0), comes: Start),
     Fault(name: \"stiff\", what: StepsLost(lost_mm: 1.5), comes: Chance),
     Fault(name: \"brake\", what: LiftSinks(speed_mm_s: 3, by_mm: 45.0), comes: Chance),
     Fault(name: \"bow\", comes: Chance,
        what: Bowed(board: \"wren\", place: Upstream, bow_mm: 2.0))",
    "Fault(name: \"fails\", what: BrakeFails, comes: After(20.0)),
     Fault(name: \"drive\", what: ReferenceLost, comes: OnIntent(Walk)),
     Fault(name: \"slip\", what: BeltsSlip(percent: 35), comes: Start),
     Fault(name: \"oven\", comes: Chance,
        what: Warm(board: \"wren\", place: InfeedBelt, degrees: 70, grown_mm: 0.2))",
    "Fault(name: \"sun\", what: Beam(beam: InfeedMouth, sees: Always), comes: Chance),
     Fault(name: \"film\", what: Beam(beam: End, sees: Nothing), comes: Chance),
     Fault(name: \"jumper\", comes: Chance,
        what: Contact(contact: UpstreamAvailable, stays: Closed)),
     Fault(name: \"stuck\", comes: Chance, what: Contact(contact: OwnReady, stays: Closed)),
     Fault(name: \"askew\", comes: OnSign(Stopped),
        what: Askew(board: \"wren\", place: Slot(slot: 16, half: Outfeed), more_mm: 0.5))",
];

/// Numbers from a seed: the generator of Knuth's MMIX, upper half.
struct Numbers(u64);

impl Numbers {
    fn below(&mut self, bound: usize) -> usize {
        let step = self.0.wrapping_mul(6_364_136_223_846_793_005);
        self.0 = step.wrapping_add(1_442_695_040_888_963_407);
        ((self.0 >> 33) % bound as u64) as usize
    }
}

fn random_step(run: &Run, numbers: &mut Numbers) -> Option<Step> {
    let mut causes = Vec::new();
    run.world.offers(&run.state, &mut causes);
    let own = causes.len();
    run.world.chances(&run.state, &mut causes);
    if own == 0 {
        return None;
    }
    let next = run.world.next_event(&run.state).unwrap_or(Micros(0)).0;
    Some(match numbers.below(3) {
        0 if next > 0 => Step::Wait(1 + next / 1_000),
        1 => Step::Rest,
        _ => match causes[numbers.below(causes.len())] {
            // Whoever reports ends it all, and whoever only walks sees little.
            Cause::Did(crate::Intent::Report) => Step::Wait(1),
            Cause::Did(intent) => Step::Do(intent),
            Cause::Chose(chance) => Step::Chose(chance),
        },
    })
}

#[test]
fn any_walk_with_faults_keeps_its_keys_and_its_clock() {
    let mut told = String::new();
    for seed in 0..60 {
        let faults = FAULTS[seed % FAULTS.len()];
        let mut run = Run::of(world(faults, seed % 2 == 0));
        let mut numbers = Numbers(seed as u64);
        for _ in 0..400 {
            let Some(step) = random_step(&run, &mut numbers) else {
                break;
            };
            let mut instants = Instants::new();
            run.world.critical_instants(&run.state, &mut instants);
            run.step(step);
        }
        told += &run.heard.join("\n");
    }
    // Or the walks show nothing.
    for rare in [
        "Cue(LiftSinks)",
        "Cue(LampsDiffer",
        "Cue(StripOnScrew)",
        "LiftFell",
        "CaughtUnderLift",
        "Charged",
        "BrakeTicked",
        "Alarmed(LiftDrive)",
    ] {
        assert!(told.contains(rare), "{rare} never came");
    }
}

/// Whoever reached in without straps charges the next board that they take: a key that forgot them
/// would make the ways alike of those who tested theirs and of those who did not.
#[test]
fn straps_stand_in_a_key_while_a_hand_with_its_cord_is_in() {
    let world = world("", true);
    let key = |straps: bool, hand_in: bool, cord: bool| {
        let (mut state, mut writer) = (world.start(), KeyWriter::new());
        let person = &mut state.person;
        (person.straps_tested, person.hand_in, person.cord) = (straps, hand_in, cord);
        world.code(&mut state, Mergers::Prepared, &mut writer);
        writer.finish().to_vec()
    };
    assert_ne!(key(false, true, true), key(true, true, true));
    // Out of the rack they are tested before a hand goes in; without the cord they ground nobody.
    assert_eq!(key(false, false, true), key(true, false, true));
    assert_eq!(key(false, true, false), key(true, true, false));
}
