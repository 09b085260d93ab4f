//! Faults with figures worked out by hand. The sample machine: slot 1 at 30 mm above the lift's
//! reference, pitch 20 mm, a board across a mouth is bent after 0.5 mm and cut after 3 mm.

use rackproof_model::{Micrometres, quantity::MicrometresPerSecond};

use super::{BoardFault, BoardPlace, Contact, Fault};
use crate::{
    Board, Button, HarmKind, LiftPlace, Machine, Mode, Outcome, Side, State, impact_speed, sample,
};

fn mm(millimetres: i32) -> Micrometres {
    Micrometres::from_millimetres(millimetres)
}

/// A machine with one fault that is there, and what it publishes.
struct Run {
    machine: Machine,
    s: State,
    heard: Vec<Outcome>,
    clock: u64,
}

impl Run {
    fn with(fault: Fault) -> Run {
        let machine = sample::machine().with_faults(vec![fault]);
        let mut s = machine.at_rest(sample::WREN);
        machine.fault_comes(&mut s, 0, &mut |_| {});
        Run {
            machine,
            s,
            heard: Vec::new(),
            clock: 0,
        }
    }

    fn with_machine(&mut self, work: impl FnOnce(&Machine, &mut State, &mut dyn FnMut(Outcome))) {
        let heard = &mut self.heard;
        work(&self.machine, &mut self.s, &mut |outcome| {
            heard.push(outcome)
        });
    }

    fn press(&mut self, buttons: &[Button]) {
        for &button in buttons {
            self.with_machine(|machine, s, hear| machine.press(s, button, hear));
            self.settle();
        }
    }

    /// A whole changeover to another product.
    fn change_to(&mut self, product: u8) {
        self.press(&[
            Button::Mode(Mode::Changeover),
            Button::Reset,
            Button::Choose(product),
            Button::Load,
            Button::Start,
            Button::Start,
        ]);
    }

    /// Until nothing happens by itself. The moment of each outcome, in µs.
    fn settle(&mut self) -> Vec<(u64, Outcome)> {
        let mut moments = Vec::new();
        for _ in 0..1_000 {
            let Some(next) = self.machine.next_event(&self.s) else {
                return moments;
            };
            let before = self.heard.len();
            self.with_machine(|machine, s, hear| machine.advance(s, next, hear));
            self.clock += u64::from(next.0);
            moments.extend(
                self.heard[before..]
                    .iter()
                    .map(|&outcome| (self.clock, outcome)),
            );
        }
        panic!("it never comes to rest");
    }
}

fn sinks(speed: u32, by: i32) -> Fault {
    Fault::LiftSinks {
        speed: MicrometresPerSecond(speed),
        by: mm(by),
    }
}

/// Free fall. Source: v = √(2·g·h), g = 9.806 65 m/s² (ISO 80000-3): 50 mm 0.990 m/s, 200 mm
/// 1.981 m/s, 500 mm 3.132 m/s.
#[test]
fn a_fall_strikes_at_the_speed_of_the_formula() {
    let cases = [(0, 0), (50, 990_285), (200, 1_980_570), (500, 3_131_557)];
    for (height, speed) in cases {
        assert_eq!(impact_speed(mm(height)), speed, "{height} mm");
    }
}

/// 4 mm/s: 0.501 mm after 125.25 ms it is below slot 1, 12 mm after 3 s the brake grips. The board
/// across the mouth is bent at 0.5 mm (125 ms) and cut at 3 mm (750 ms).
#[test]
fn a_worn_brake_lets_the_lift_sink_by_its_figure_and_shears_what_bridges_a_mouth() {
    let mut run = Run::with(sinks(4_000, 12));
    run.s.mouths[0] = Some(Board::good(sample::WREN));
    run.with_machine(|machine, s, hear| machine.press_emergency(s, hear));
    assert!(run.heard.contains(&Outcome::BrakeTicked));
    let moments = run.settle();
    let harm = |wanted: HarmKind| {
        let found = moments.iter().find_map(|&(at, outcome)| match outcome {
            Outcome::Harmed(harm) if harm.kind == wanted => Some((at, harm.number)),
            _ => None,
        });
        found.expect("it came")
    };
    assert_eq!(harm(HarmKind::Overstrained), (125_000, 500));
    assert_eq!(harm(HarmKind::Sheared), (750_000, 3_000));
    let sank = moments
        .iter()
        .find(|(_, outcome)| *outcome == Outcome::LiftSank);
    assert_eq!(sank.map(|(at, _)| *at), Some(125_250));
    assert_eq!(run.clock, 3_000_000);
    assert_eq!(run.machine.lift_height(&run.s), mm(18));
    assert_eq!(run.machine.sinking_speed(&run.s), 0);
}

/// From slot 3 (70 mm) by 25 mm: past slot 2 (50 mm) and on to 45 mm, between slots 1 and 2.
#[test]
fn a_lift_that_sinks_passes_slots() {
    let mut run = Run::with(sinks(10_000, 25));
    run.s.lift_place = LiftPlace::At(2);
    run.s.lift_from = mm(70);
    run.with_machine(|machine, s, hear| machine.open_hatch(s, hear));
    let mut places = Vec::new();
    while let Some(next) = run.machine.next_event(&run.s) {
        run.with_machine(|machine, s, hear| machine.advance(s, next, hear));
        places.push(run.s.lift_place);
    }
    places.dedup();
    let expected = [
        LiftPlace::At(2),
        LiftPlace::Above(1),
        LiftPlace::At(1),
        LiftPlace::Above(0),
    ];
    assert_eq!(places[places.len() - 3..], expected[1..]);
    assert_eq!(run.machine.lift_height(&run.s), mm(45));
}

#[test]
fn drives_or_a_prop_hold_a_lift_whose_brake_does_not() {
    let mut run = Run::with(Fault::BrakeFails);
    run.press(&[Button::Reset, Button::Start, Button::Stop]);
    assert_eq!(run.s.lift_place, LiftPlace::At(0), "the drives hold it");
    let mut propped = Run::with(Fault::BrakeFails);
    propped.with_machine(|machine, s, hear| {
        machine.set_prop(s, true, hear);
        machine.turn_isolator(s, false, hear);
    });
    assert_eq!(propped.s.lift_place, LiftPlace::At(0), "the prop holds it");
    propped.with_machine(|machine, s, hear| machine.set_prop(s, false, hear));
    assert_eq!(propped.s.lift_place, LiftPlace::Reference);
    // √(2 · 9.80665 · 0.030) = 0.76707 m/s.
    let fell = propped.heard.iter().find_map(|outcome| match outcome {
        Outcome::Harmed(harm) if harm.kind == HarmKind::LiftFell => Some(harm.number),
        _ => None,
    });
    assert_eq!(fell, Some(767_071));
}

/// A count that is off by 2 mm lets a board in that is 1.2 mm too wide by truth: nobody lays it.
#[test]
fn rails_that_lost_steps_take_no_board_of_the_width_shown() {
    let mut run = Run::with(Fault::StepsLost(mm(2)));
    run.change_to(sample::KESTREL);
    assert!(run.machine.width_is_wanted(&run.s));
    assert_eq!(run.s.width(&run.machine), mm(220) - Micrometres(1_200));
    let board = Board::good(sample::KESTREL);
    let mut laid = true;
    run.with_machine(|machine, s, hear| laid = machine.lay_on_infeed_belt(s, board, hear));
    assert!(!laid);
}

/// Lead in mm, microsteps to a full step; way of one microstep in tenths of a nanometre, of four
/// full steps in µm. Source: a motor of 1.8° has 200 full steps a turn, so that a microstep is
/// lead/(200 · microsteps): the common definition. Out of step it falls in again four full steps
/// on, where its poles stand as before: handbooks of motors, from memory.
const DRIVES: [(i32, i32, i32, i32); 4] = [
    (5, 16, 15_625, 100),
    (2, 16, 6_250, 40),
    (4, 1, 200_000, 80),
    (40, 16, 125_000, 800),
];

/// Rails of any of these drives lose what their motor loses, to the micrometre, and the count shows
/// the width that was asked for.
#[test]
fn rails_lose_steps_by_fours_as_a_motor_does() {
    let wanted = mm(220) + sample::parts().side_play;
    for (lead, microsteps, microstep, four) in DRIVES {
        assert_eq!(lead * 10_000_000 / (200 * microsteps), microstep);
        assert_eq!(4 * lead * 1_000 / 200, four);
        // A place is whole micrometres: rounded, it is off by less than a microstep.
        assert!(10_000 / 2 < microstep, "lead {lead} mm");
        for times in [1, 3, 25] {
            let lost = Micrometres(times * four);
            let mut run = Run::with(Fault::StepsLost(lost));
            run.change_to(sample::KESTREL);
            assert_eq!(run.s.steps_lost(), lost, "lead {lead} mm, {times}");
            assert_eq!(run.s.width(&run.machine), wanted - lost);
            assert_eq!(run.s.width_by_count(&run.machine), Some(wanted));
        }
    }
    // 640 pulses to a millimetre: lead 5 mm, sixteenth steps.
    assert_eq!(200 * DRIVES[0].1 / DRIVES[0].0, 640);
}

/// A board 160.134 mm wide reaches the strain limit of a wren 0.134 mm earlier, but for what its
/// width changes of its bow (under 0.001 mm).
#[test]
fn a_board_that_has_grown_is_overstrained_earlier() {
    let fault = Fault::Board {
        place: BoardPlace::InfeedBelt,
        kind: sample::WREN,
        odd: BoardFault::Warm {
            degrees: 80,
            grown: Micrometres(134),
        },
    };
    let machine = sample::machine().with_faults(vec![fault]);
    let warm = machine.odd_kind(0).expect("it is a board's");
    let [cold, warm] = [sample::WREN, warm].map(|kind| machine.press_limits(kind));
    let earlier = (warm.overstrained_at - cold.overstrained_at).0;
    assert!((133..=135).contains(&earlier), "{earlier}");
}

/// Downstream is ready, and does not learn that we send: the cable of our signal is cut.
#[test]
fn a_board_sent_through_a_cut_cable_is_driven_into_belts_that_stand() {
    let mut run = Run::with(Fault::Contact {
        contact: Contact::OwnAvailable,
        closed: false,
    });
    let board = Some(Board::good(sample::WREN));
    run.press(&[Button::Reset, Button::Start]);
    run.with_machine(|machine, s, hear| machine.upstream_signal(s, board, hear));
    run.settle();
    assert!(!run.machine.signal_given(&run.s, Side::Outfeed) && run.s.board_available);
    run.with_machine(|machine, s, hear| machine.downstream_signal(s, true, hear));
    run.settle();
    let struck = run.heard.iter().any(|outcome| {
        matches!(outcome, Outcome::Harmed(harm)
            if harm.kind == HarmKind::Collided && harm.number == 180_000)
    });
    assert!(
        struck
            && !run
                .heard
                .iter()
                .any(|heard| matches!(heard, Outcome::BoardSent(_)))
    );
}

/// Belts that slip by 33 %: 100 mm of belt are 67 mm of board, and no way of boards is reached
/// before its belts have run so far.
#[test]
fn belts_that_slip_run_the_longer_way() {
    let mut run = Run::with(Fault::BeltsSlip(33));
    run.s.faults.slip = 33;
    assert_eq!(run.machine.board_way(&run.s, 100_000), 67_000);
    for way in [1, 2, 66, 67, 68, 67_000, 899_000] {
        let belt = run.machine.belt_way(&run.s, way).0;
        assert!(run.machine.board_way(&run.s, belt) >= way);
        assert!(run.machine.board_way(&run.s, belt - 1) < way, "{way}");
    }
}

#[test]
fn a_strip_is_met_from_either_side_at_its_own_end() {
    let strip = Fault::Debris {
        from: mm(190),
        to: mm(195),
    };
    let mut run = Run::with(strip);
    let stall = |run: &mut Run, from: i32, to: i32| {
        run.s.width_from = mm(from);
        run.machine.rails_stall(&run.s, mm(to))
    };
    let cases = [
        (160, 220, Some(mm(190))),
        (220, 160, Some(mm(195))),
        (160, 190, None),
        (190, 160, None),
        (190, 220, Some(mm(190))),
        (195, 220, None),
        (195, 160, Some(mm(195))),
        (192, 220, None),
    ];
    for (from, to, at) in cases {
        assert_eq!(stall(&mut run, from, to), at, "{from} to {to}");
    }
}
