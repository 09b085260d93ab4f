//! What goes first, how boards are sent, and how long one is waited for.

use rackproof_model::{Micros, quantity::Percent};

use crate::{
    Button, Half, HarmKind, Outcome, Phase, Priority, Question, Side, UnitState,
    plant::{Plant, draws_back},
    sample,
};

#[test]
fn priority_says_who_goes_first_when_both_wait() {
    for (priority, sent_first) in [(Priority::Filling, false), (Priority::Emptying, true)] {
        let mut plant = Plant::running(|parts| parts.storing.priority = priority);
        plant.fill(1);
        plant.offer(sample::WREN);
        while plant.state.phase() != Phase::Seeking {
            plant.step();
        }
        // Both neighbours wait while the lift is on its way.
        plant.offer(sample::WREN);
        plant.call(true);
        while plant.stored().len() == 2 && plant.sent().is_empty() {
            plant.step();
        }
        assert_eq!(plant.sent().len() == 1, sent_first, "{priority:?}");
    }
}

#[test]
fn a_release_interval_paces_boards_to_a_neighbour_that_never_opens_its_signal() {
    for (release, sent) in [(0, 1), (20, 3)] {
        let mut plant = Plant::running(|parts| {
            parts.storing.release_interval = Micros::from_seconds(release);
        });
        plant.fill(3);
        plant.call(true);
        let mut at = Vec::new();
        for _ in 0..200 {
            let before = plant.sent().len();
            plant.step();
            if plant.sent().len() > before {
                at.push(plant.clock);
            }
        }
        assert_eq!(at.len(), sent, "{release} s");
        let paced = at.windows(2).all(|pair| pair[1] - pair[0] >= 20_000_000);
        assert!(paced, "{at:?}");
    }
}

/// From 490 to 515 mm and back: 25 mm each way, 2·√(25/600) = 0.408 249 s (handbook kinematics).
#[test]
fn a_board_runs_past_the_mouth_and_is_drawn_back_before_it_is_sent() {
    let mut plant = Plant::running(draws_back);
    plant.fill(1);
    plant.call(true);
    let begun = plant.clock;
    while plant.state.phase() != Phase::DrawingBack {
        plant.step();
    }
    // The lift came down from slot 2: 20 mm in 2·√(20/400) = 0.447 214 s.
    assert_eq!(plant.clock - begun, 447_214 + 408_249);
    assert_eq!(plant.heard.last(), Some(&Outcome::BoardRanPast(0)));
    while plant.state.phase() == Phase::DrawingBack {
        plant.step();
    }
    assert_eq!(plant.clock - begun, 447_214 + 2 * 408_249);
    plant.settle();
    assert_eq!(plant.sent(), [0]);
    assert_eq!(plant.harms(), []);
}

/// Whoever stops the machine for it leaves the board across the mouth, and the lift cuts it.
#[test]
fn who_stops_a_board_past_the_mouth_has_it_cut() {
    let mut plant = Plant::running(draws_back);
    plant.fill(1);
    plant.call(true);
    while plant.state.phase() != Phase::DrawingBack {
        plant.step();
    }
    plant.press(Button::Stop);
    plant.settle();
    assert!(plant.state.mouths[Side::Outfeed as usize].is_some());
    plant.call(false);
    plant.press_all(&[Button::Reset, Button::Start]);
    let cut: Vec<HarmKind> = plant.harms().iter().map(|harm| harm.0).collect();
    assert_eq!(cut, [HarmKind::Overstrained, HarmKind::Sheared]);
}

#[test]
fn a_board_that_the_beam_past_the_mouth_does_not_see_is_not_sent() {
    let mut plant = Plant::running(|parts| {
        draws_back(parts);
        if let Some(back) = &mut parts.storing.draw_back {
            back.reflectance = Percent(60);
        }
    });
    plant.fill(1);
    plant.send();
    assert_eq!(plant.sent(), []);
    assert_eq!(plant.state.question(), Some(Question::Arrival(0)));
    assert!(plant.has(0, Half::Outfeed), "drawn back all the same");
}

/// A matt black board is not seen to arrive. The belts run 899 mm: 899/150 + 150/600 = 6.243 334 s.
#[test]
fn a_board_that_is_not_seen_is_waited_for_until_the_time_out() {
    for (time_out, asked_at) in [(0, 6_243_334), (6, 6_243_334), (10, 10_000_000)] {
        let mut plant = Plant::running(|parts| {
            parts.storing.arrival_time_out = Micros::from_seconds(time_out);
        });
        plant.offer(sample::RAVEN);
        while plant.state.question().is_none() {
            assert!(plant.step(), "never asked");
        }
        assert_eq!(plant.clock, asked_at, "{time_out} s");
        assert_eq!(plant.state.unit(), UnitState::Held);
    }
}
