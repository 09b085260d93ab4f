//! The machine between neighbours that do something by themselves, each with its quirk.
//!
//! Source of the signals: IPC-SMEMA-9851 as quoted in technical articles: closed means yes, either
//! of the two may close first, one board for one closing of both, each open for at least 50 ms
//! before its next closing. What a jumper or a machine that stands does then is common practice.

use rackproof_buffer::{HarmKind, ReadyRule, Side};
use rackproof_files::render_plain;
use rackproof_model::{Model, key::KeyWriter};

use crate::{
    Chance, Intent, Stand,
    fault_tests::{Run, Step},
    neighbour_line::{count, looks_at, next, on_offer, producing, read},
    world_tests::MACHINE,
};

const GIVES: &str = "leftover: \"wren\", lays_by_hand: false,
    upstream: Upstream(boards: 3, works: Every(cycle_s: 20.0))";

fn line(downstream: &str) -> String {
    format!("{GIVES}, downstream: Downstream({downstream})")
}

#[test]
fn boards_go_from_one_neighbour_to_the_other_at_their_pace() {
    for machine in [MACHINE, &on_offer()] {
        let text = line("works: Every(cycle_s: 30.0, first_s: 60.0)");
        let mut run = producing(machine, &text);
        run.step(Step::Wait(59_999));
        assert_eq!(count(&run, "BoardStored"), 3, "one each 20 s");
        assert_eq!(count(&run, "BoardSent"), 0, "no room yet");
        run.step(Step::Rest);
        assert_eq!(count(&run, "BoardSent"), 3);
        assert_eq!(count(&run, "Harm"), 0);
    }
}

/// Slow is a figure: 120 s a board, and the rack holds what waits.
#[test]
fn behind_a_slow_neighbour_boards_wait_in_the_rack() {
    let mut run = producing(MACHINE, &line("works: Every(cycle_s: 120.0)"));
    run.step(Step::Wait(100_000));
    assert_eq!(
        (count(&run, "BoardStored"), count(&run, "BoardSent")),
        (3, 1)
    );
    run.step(Step::Rest);
    assert_eq!(count(&run, "BoardSent"), 3);
}

#[test]
fn a_neighbour_that_stands_is_seen_to_stand_and_takes_nothing() {
    let mut run = producing(MACHINE, &line("works: Stopped"));
    run.step(Step::Rest);
    assert_eq!(
        (count(&run, "BoardStored"), count(&run, "BoardSent")),
        (3, 0)
    );
    looks_at(&mut run, Stand::Outfeed);
    assert!(run.has_heard("NeighbourStands(Outfeed)"));
    let upstream = GIVES.replace("Every(cycle_s: 20.0)", "Stopped");
    let mut run = producing(MACHINE, &format!("{upstream}, downstream_ready: true"));
    run.step(Step::Rest);
    assert_eq!(count(&run, "BoardStored"), 0);
    looks_at(&mut run, Stand::Infeed);
    assert!(run.has_heard("NeighbourStands(Infeed)"));
}

/// Two machines that each wait for the other wait for ever: ours closes Machine Ready on an offer
/// alone, and upstream offers only to a machine that is ready. Either alone is no harm.
#[test]
fn two_that_wait_for_each_other_wait_for_ever() {
    let waits = GIVES.replace("20.0)", "20.0), available: WhenReady");
    let takes = "downstream: Downstream(works: Every(cycle_s: 5.0))";
    let other = on_offer();
    let cases = [
        (other.as_str(), waits.as_str(), false),
        (&other, GIVES, true),
        (MACHINE, waits.as_str(), true),
    ];
    for (machine, gives, goes_on) in cases {
        let mut run = producing(machine, &format!("{gives}, {takes}"));
        let rule = run.world.machine().parts().behaviours.machine_ready;
        assert_eq!(rule == ReadyRule::OnOffer, machine == other);
        run.step(Step::Rest);
        // Nothing is to come by itself: this is for ever.
        assert_eq!(run.world.next_event(&run.state), None);
        let wanted = if goes_on { 3 } else { 0 };
        assert_eq!(count(&run, "BoardSent"), wanted, "{rule:?}, {gives}");
        looks_at(&mut run, Stand::Infeed);
        assert_eq!(run.has_heard("BoardWaitsUpstream"), !goes_on);
    }
}

/// Downstream that waits for an offer gets one: our Board Available waits for nobody.
#[test]
fn who_waits_for_our_offer_gets_it() {
    for machine in [MACHINE, &on_offer()] {
        let mut run = producing(machine, &line("works: Every(cycle_s: 5.0), ready: OnOffer"));
        run.step(Step::Rest);
        assert_eq!(count(&run, "BoardSent"), 3);
    }
}

/// A jumper says yes for a machine that stands: the board is driven into it.
#[test]
fn a_jumper_gives_a_board_to_a_machine_that_does_not_take_it() {
    let mut run = producing(MACHINE, &line("works: Stopped, ready: Jumper"));
    run.step(Step::Rest);
    assert!(run.harmed(HarmKind::Collided));
    assert!(run.has_heard("Alarmed(NoArrival)"));
    assert_eq!(count(&run, "BoardSent"), 0);
    looks_at(&mut run, Stand::Outfeed);
    assert!(run.has_heard("Jumper(Outfeed)"));
    assert!(run.has_heard("NeighbourStands(Outfeed)"));
}

/// With a release interval the jumpered machine gets one board after the other, room or not: the
/// second one comes while it works at the first.
#[test]
fn behind_a_jumper_the_release_interval_must_be_longer_than_the_cycle() {
    let released = MACHINE.replace("release_interval_s: 0.0", "release_interval_s: 30.0");
    for (cycle, sent) in [("29.0", 3), ("60.0", 1)] {
        let text = line(&format!("works: Every(cycle_s: {cycle}), ready: Jumper"));
        let mut run = producing(&released, &text);
        run.step(Step::Rest);
        assert_eq!(count(&run, "BoardSent"), sent, "{cycle} s");
        assert_eq!(run.harmed(HarmKind::Collided), sent < 3, "{cycle} s");
    }
}

/// An oven or a plain link never opens its signal: by the rule of one board for one closing it gets
/// one, and with a release interval each.
#[test]
fn a_link_that_is_always_ready_takes_each_board() {
    for (release, sent) in [("0.0", 1), ("12.0", 3)] {
        let changed = format!("release_interval_s: {release}");
        let machine = MACHINE.replace("release_interval_s: 0.0", &changed);
        let mut run = producing(
            &machine,
            &line("works: Every(cycle_s: 300.0), ready: Design"),
        );
        run.step(Step::Do(Intent::AskDownstreamHold));
        run.step(Step::Rest);
        assert_eq!(count(&run, "BoardSent"), sent, "{release} s");
        assert_eq!(count(&run, "Harm"), 0);
        looks_at(&mut run, Stand::Outfeed);
        assert!(run.has_heard("TakesAlways"));
    }
}

/// Board Available by a jumper: the first board comes, and the machine waits for a fresh closing
/// for ever. With none at the exit the belts run for nothing.
#[test]
fn upstream_that_always_offers_gives_one_board_or_none() {
    let gives = |first: &str| {
        let works = format!("Every(cycle_s: 20.0, first_s: {first}), available: Jumper");
        let gives = GIVES.replace("Every(cycle_s: 20.0)", &works);
        let mut run = producing(MACHINE, &format!("{gives}, downstream_ready: false"));
        run.step(Step::Rest);
        looks_at(&mut run, Stand::Infeed);
        assert!(run.has_heard("Jumper(Infeed)"));
        (
            count(&run, "BoardStored"),
            run.has_heard("Alarmed(NoArrival)"),
        )
    };
    assert_eq!(gives("0.0"), (1, false));
    assert_eq!(gives("10.0"), (0, true));
}

/// Machine Ready stays closed until the board has arrived, Board Available until it has left:
/// whoever is asked to hold in the middle of a hand-over holds after it.
#[test]
fn who_holds_in_the_middle_of_a_hand_over_holds_after_it() {
    let mut run = producing(MACHINE, &line("works: Every(cycle_s: 5.0)"));
    while !run
        .world
        .machine()
        .hands_over(&run.state.machine, Side::Infeed)
    {
        next(&mut run);
    }
    run.step(Step::Do(Intent::AskUpstreamHold));
    assert!(run.state.machine.neighbour_signal(Side::Infeed));
    while !run
        .world
        .machine()
        .hands_over(&run.state.machine, Side::Outfeed)
    {
        next(&mut run);
    }
    assert!(!run.state.machine.neighbour_signal(Side::Infeed));
    run.step(Step::Do(Intent::AskDownstreamHold));
    assert!(run.state.machine.neighbour_signal(Side::Outfeed));
    run.step(Step::Rest);
    assert!(!run.state.machine.neighbour_signal(Side::Outfeed));
    assert_eq!(
        (count(&run, "BoardStored"), count(&run, "BoardSent")),
        (1, 1)
    );
    for intent in [Intent::LetUpstreamGo, Intent::LetDownstreamGo] {
        run.step(Step::Do(intent));
    }
    run.step(Step::Rest);
    assert_eq!(
        (count(&run, "BoardStored"), count(&run, "BoardSent")),
        (3, 3)
    );
}

/// Each neighbour's signal stays open for 50 ms at least (IPC-SMEMA-9851), however quick it is.
#[test]
fn quick_neighbours_keep_their_signals_open_for_fifty_milliseconds() {
    let quick = "leftover: \"wren\", lays_by_hand: false,
        upstream: Upstream(boards: 12, works: Every(cycle_s: 0.1)),
        downstream: Downstream(works: Every(cycle_s: 0.1), ready: OnOffer)";
    let mut run = producing(MACHINE, quick);
    let (mut clock, mut closings) = (0_u64, [0; 2]);
    let mut opened = [None; 2];
    let signals = |run: &Run| {
        [Side::Infeed, Side::Outfeed].map(|side| run.state.machine.neighbour_signal(side))
    };
    let mut before = signals(&run);
    while let Some(next) = run.world.next_event(&run.state) {
        run.world.advance(&mut run.state, next, &mut |_| {});
        clock += u64::from(next.0);
        let now = signals(&run);
        for at in 0..2 {
            if before[at] && !now[at] {
                opened[at] = Some(clock);
            }
            if !before[at] && now[at] {
                closings[at] += 1;
                let open = opened[at].map_or(u64::MAX, |since| clock - since);
                assert!(open >= 50_000, "open for {open} µs");
            }
        }
        before = now;
    }
    assert!(
        closings.iter().all(|&closings| closings >= 11),
        "{closings:?}"
    );
}

/// What the environment chooses is a chance, and nothing of it comes by itself.
#[test]
fn neighbours_that_do_as_they_like_are_chances() {
    let like = "leftover: \"wren\", lays_by_hand: false,
        upstream: Upstream(boards: 2, works: Chance),
        downstream: Downstream(works: Chance)";
    let mut run = producing(MACHINE, like);
    run.step(Step::Rest);
    for _ in 0..2 {
        run.step(Step::Chose(Chance::UpstreamOffersBoard));
        run.step(Step::Rest);
        run.step(Step::Chose(Chance::DownstreamMakesRoom));
        run.step(Step::Rest);
    }
    assert_eq!(
        (count(&run, "BoardStored"), count(&run, "BoardSent")),
        (2, 2)
    );
    let mut chances = Vec::new();
    run.world.chosen(&run.state, &mut chances);
    assert_eq!(chances, [Chance::DownstreamMakesRoom]);
}

#[test]
fn all_problems_of_a_line_are_told_at_once() {
    let wrong = "lays_by_hand: false, downstream_ready: true,
        upstream: Upstream(boards: 41, works: Every(cycle_s: 0.05), available: AtExt),
        downstream: Downstream(works: Sometimes, ready: Rom)";
    let (world, problems) = read(MACHINE, wrong);
    assert!(world.is_none());
    let plain = |problem| render_plain(problem, &|id, arguments| format!("{id} {arguments:?}"));
    let all: Vec<String> = problems.sorted().iter().map(plain).collect();
    let all = all.join("\n");
    for wanted in [
        "problem-ready-twice",
        "problem-upstream-no-board",
        "boards",
        "cycle_s",
        "AtExt",
        "Sometimes",
        "Rom",
    ] {
        assert!(all.contains(wanted), "{wanted}: {all}");
    }
}

/// Bits that other drills pay: none. 35 bytes is what the key took before there were neighbours.
#[test]
fn a_drill_without_such_neighbours_pays_nothing() {
    let bytes = |line: &str| {
        let world = read(MACHINE, line).0.expect("it has no problem");
        let mut writer = KeyWriter::new();
        world.write_key(&world.start(), &mut writer);
        writer.finish().len()
    };
    let plain = bytes("leftover: \"wren\", lays_by_hand: true, downstream_ready: false");
    assert_eq!(plain, 35);
    assert!(bytes(&line("works: Every(cycle_s: 5.0)")) > plain);
}
