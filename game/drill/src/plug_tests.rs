//! What does not belong in a neighbour's plug, and taking it out.

use rackproof_buffer::Side;
use rackproof_model::Model;

use crate::{
    Aim, Cue, Intent, Stand,
    fault_tests::{Run, Step},
    message::{Argument, of_cue},
    neighbour_line::{count, next, producing},
    world_tests::MACHINE,
};

const WORKS: &str = "Every(cycle_s: 5.0)";

/// A line whose downstream works so, with this in its plug.
fn run(works: &str, ready: &str) -> Run {
    let line = format!(
        "leftover: \"wren\", lays_by_hand: false,
        upstream: Upstream(boards: 3, works: Every(cycle_s: 20.0)),
        downstream: Downstream(works: {works}, ready: {ready})"
    );
    producing(MACHINE, &line)
}

/// Whether the plug of the neighbour here may be looked over now.
fn offers_plug(run: &Run) -> bool {
    let mut offers = Vec::new();
    run.world.offered(&run.state, &mut offers);
    offers.contains(&Intent::ClearPlug)
}

/// A jumper taken out while nobody hands anything over: from then on Machine Ready says what is so.
/// Its people are asked to hold first, and no belt runs. Source: common practice.
#[test]
fn a_jumper_that_is_taken_out_lets_the_contact_say_what_is_so() {
    let mut run = run("Stopped", "Jumper");
    run.step(Step::Do(Intent::Walk(Stand::Outfeed)));
    assert!(run.state.machine.neighbour_signal(Side::Outfeed));
    assert!(!offers_plug(&run), "nobody was asked");
    run.step(Step::Do(Intent::AskDownstreamHold));
    run.step(Step::Rest);
    assert!(offers_plug(&run));
    run.step(Step::Do(Intent::ClearPlug));
    assert!(run.has_heard("Cue(JumperOut(Outfeed))"));
    assert!(!run.state.machine.neighbour_signal(Side::Outfeed));
    run.step(Step::Do(Intent::LetDownstreamGo));
    assert!(
        !run.state.machine.neighbour_signal(Side::Outfeed),
        "it stands"
    );
    run.heard.clear();
    run.step(Step::Do(Intent::Look(Aim::Mouth)));
    assert!(!run.has_heard("Cue(Jumper"), "{:?}", run.heard);
    assert!(run.has_heard("Cue(NeighbourStands(Outfeed))"));
}

/// While belts run nobody pulls a plug.
#[test]
fn no_plug_is_touched_while_a_board_is_handed_over() {
    let mut run = run(WORKS, "Jumper");
    run.step(Step::Do(Intent::Walk(Stand::Outfeed)));
    let (mut runs, mut rests) = (0, 0);
    for _ in 0..30 {
        run.step(Step::Do(Intent::AskDownstreamHold));
        let rest = run.state.machine.motions()[2].is_rest();
        assert_eq!(offers_plug(&run), rest);
        if rest {
            rests += 1;
        } else {
            runs += 1;
        }
        run.step(Step::Do(Intent::LetDownstreamGo));
        if run.world.next_event(&run.state).is_none() {
            break;
        }
        next(&mut run);
    }
    assert!(runs > 2 && rests > 2, "{runs} {rests}");
}

/// Without its box nobody is there: the contact stays open, and nothing is sent to fall.
#[test]
fn a_test_box_that_is_taken_off_leaves_an_open_contact() {
    let mut run = run(WORKS, "TestBox");
    run.step(Step::Do(Intent::Walk(Stand::Outfeed)));
    run.step(Step::Do(Intent::AskDownstreamHold));
    while !offers_plug(&run) {
        next(&mut run);
    }
    run.step(Step::Do(Intent::ClearPlug));
    run.step(Step::Do(Intent::LetDownstreamGo));
    let sent = count(&run, "BoardSent");
    run.step(Step::Rest);
    assert_eq!(count(&run, "TestBoxOff(Outfeed)"), 1);
    assert!(count(&run, "BoardStored") > sent, "more are inside");
    assert_eq!(count(&run, "BoardSent"), sent);
    run.step(Step::Do(Intent::Look(Aim::Mouth)));
    assert!(run.has_heard("NoMachine(Outfeed)"));
}

/// Where the sources of the interface disagree, the machine file chooses, and the text says so: on
/// which pin the shield lies, and what a failed board closes where a drill says nothing of it.
#[test]
fn the_machine_file_chooses_where_the_sources_disagree() {
    let gives = "leftover: \"wren\", lays_by_hand: false,
        upstream: Upstream(boards: 3, works: Every(cycle_s: 20.0), failed: Failed(boards: [1])),
        downstream: Downstream(works: Every(cycle_s: 5.0))";
    let other = MACHINE
        .replace("shield_pin: Pin14", "shield_pin: Pin8")
        .replace("failed_board: Both", "failed_board: Either");
    for (machine, pin, entered, lamp) in [
        (MACHINE, 14, true, "cue-failed-lamp-lit"),
        (&other, 8, false, "cue-failed-lamp-lit-alone"),
    ] {
        let mut run = producing(machine, gives);
        run.step(Step::Rest);
        assert_eq!(run.has_heard("FailedBoardCame"), entered, "{pin}");
        let told = |cue| of_cue(&run.world, cue);
        let plug = told(Cue::PlugInOrder(Side::Infeed));
        assert_eq!(plug.arguments[0].1, Argument::Number(pin));
        assert_eq!(told(Cue::FailedLampLit).id, lamp);
    }
}
