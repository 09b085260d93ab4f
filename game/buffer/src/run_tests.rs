//! Whole runs of the machine: what a drill does with it, in small.

use rackproof_model::Micros;

use crate::{
    Answer, Board, Button, Condition, Half, HalfSlot, HarmKind, Machine, Mode, Outcome, Question,
    Side, State, Task, UnitState, sample,
};

/// A machine, its state, and all that it published.
struct Run {
    machine: Machine,
    state: State,
    heard: Vec<Outcome>,
    clock: u64,
}

impl Run {
    fn new() -> Run {
        let machine = sample::machine();
        let state = machine.at_rest(sample::WREN);
        Run {
            machine,
            state,
            heard: Vec::new(),
            clock: 0,
        }
    }

    fn press(&mut self, button: Button) {
        let heard = &mut self.heard;
        self.machine
            .press(&mut self.state, button, &mut |outcome| heard.push(outcome));
    }

    fn step(&mut self) -> bool {
        let Some(next) = self.machine.next_event(&self.state) else {
            return false;
        };
        self.wait(next);
        true
    }

    fn wait(&mut self, span: Micros) {
        let heard = &mut self.heard;
        self.clock += u64::from(span.0);
        self.machine
            .advance(&mut self.state, span, &mut |outcome| heard.push(outcome));
    }

    fn settle(&mut self) {
        for _ in 0..1_000 {
            if !self.step() {
                return;
            }
        }
        panic!("it never comes to rest");
    }

    fn board(&mut self, slot: u8, half: Half, kind: u8) {
        self.state
            .rack
            .set(HalfSlot { slot, half }, Board::good(kind));
    }

    /// Up to the end of the sweep for a change to Kestrel.
    fn changeover(&mut self) {
        for button in [
            Button::Mode(Mode::Changeover),
            Button::Reset,
            Button::Choose(sample::KESTREL),
            Button::Load,
            Button::Start,
        ] {
            self.press(button);
        }
        self.settle();
    }

    fn harms(&self) -> Vec<HarmKind> {
        let harms = self.heard.iter().filter_map(|outcome| match outcome {
            Outcome::Harmed(harm) => Some(harm.kind),
            _ => None,
        });
        harms.collect()
    }
}

#[test]
fn an_empty_rack_is_changed_over() {
    let mut run = Run::new();
    run.changeover();
    assert_eq!(run.state.question(), Some(Question::Rails));
    run.press(Button::Start);
    run.settle();
    assert_eq!(run.state.unit(), UnitState::Complete);
    assert_eq!(run.state.width(&run.machine).0, 220_800);
    assert!(run.harms().is_empty());
    run.press(Button::Reset);
    assert_eq!(run.state.unit(), UnitState::Idle);
}

#[test]
fn a_board_that_the_sweep_sees_holds_the_unit() {
    let mut run = Run::new();
    run.board(4, Half::Infeed, sample::WREN);
    run.changeover();
    assert_eq!(run.state.question(), Some(Question::Seen(4)));
    assert_eq!(run.state.map.unknown, 0xfff0);
    run.press(Button::Start);
    assert!(
        run.heard
            .contains(&Outcome::Refused(crate::Refusal::BoardSeen))
    );
    run.press(Button::ClearOut);
    assert_eq!(
        run.state.question(),
        Some(Question::Seen(4)),
        "still that slot"
    );
}

#[test]
fn a_board_that_no_beam_sees_is_pressed() {
    let mut run = Run::new();
    run.board(6, Half::Outfeed, sample::RAVEN);
    run.changeover();
    run.press(Button::Start);
    run.settle();
    assert_eq!(run.harms(), [HarmKind::Overstrained, HarmKind::SprungOut]);
    let board = run
        .state
        .rack
        .get(HalfSlot {
            slot: 6,
            half: Half::Outfeed,
        })
        .expect("it is there");
    assert_eq!(board.condition, Condition::SprungOut);
}

#[test]
fn a_board_on_the_infeed_belt_is_pressed_too() {
    let mut run = Run::new();
    run.state.infeed_belt = Some(Board::good(sample::WREN));
    run.changeover();
    run.press(Button::Start);
    run.settle();
    assert_eq!(run.harms(), [HarmKind::Overstrained, HarmKind::SprungOut]);
}

#[test]
fn a_clear_out_visits_every_slot_and_brings_boards_to_the_end() {
    let mut run = Run::new();
    run.board(2, Half::Infeed, sample::WREN);
    run.board(2, Half::Outfeed, sample::WREN);
    run.board(9, Half::Outfeed, sample::RAVEN);
    for button in [
        Button::Mode(Mode::Changeover),
        Button::Reset,
        Button::ClearOut,
        Button::Start,
    ] {
        run.press(button);
    }
    let (mut taken, mut asked) = (0, 0);
    for _ in 0..100 {
        run.settle();
        match run.state.question() {
            Some(Question::Take(2)) => {
                let board = run.machine.take_from_belt(&mut run.state, Side::Outfeed);
                assert_eq!(board, Some(Board::good(sample::WREN)));
                taken += 1;
                run.press(Button::Start);
            }
            Some(Question::Answer(slot)) => {
                asked += 1;
                let found = run.machine.take_from_belt(&mut run.state, Side::Outfeed);
                assert_eq!(
                    found.is_some(),
                    slot == 9,
                    "no beam sees the matt black one"
                );
                run.press(Button::Answer(if slot == 9 {
                    Answer::Taken
                } else {
                    Answer::SeenEmpty
                }));
            }
            other => {
                assert_eq!(other, None);
                break;
            }
        }
    }
    assert_eq!((taken, asked), (2, 16));
    assert_eq!(run.state.unit(), UnitState::Complete);
    assert!(run.state.map.is_empty() && run.state.rack.present().is_empty());
    assert!(run.harms().is_empty());
}

#[test]
fn not_sure_keeps_a_slot_unknown_and_comes_round_again() {
    let mut run = Run::new();
    for button in [
        Button::Mode(Mode::Changeover),
        Button::Reset,
        Button::ClearOut,
        Button::Start,
    ] {
        run.press(button);
    }
    for _ in 0..40 {
        run.settle();
        let Some(Question::Answer(slot)) = run.state.question() else {
            panic!("it asks")
        };
        let answer = if slot == 3 {
            Answer::NotSure
        } else {
            Answer::SeenEmpty
        };
        run.press(Button::Answer(answer));
    }
    assert_eq!(run.state.map.unknown, 1 << 3);
}

/// The sequence of ISO 13850 and section 4.1 of the design: pressed, axes stopped and signals open;
/// turned out, nothing moves; Clear, Reset, Start; only then the reference run.
#[test]
fn the_emergency_stop_keeps_its_sequence() {
    let mut run = Run::new();
    run.changeover();
    run.press(Button::Start);
    run.wait(Micros::from_millis(500));
    assert!(run.state.moves());
    run.machine.press_emergency(&mut run.state, &mut |_| {});
    assert_eq!(run.state.unit(), UnitState::Aborting);
    run.settle();
    assert_eq!(run.state.unit(), UnitState::Aborted);
    assert!(!run.state.referenced() && run.state.task() == Task::None);
    run.press(Button::Reset);
    assert_eq!(
        run.state.unit(),
        UnitState::Aborted,
        "latched: Clear has no effect"
    );
    run.machine.release_emergency(&mut run.state);
    assert!(!run.state.moves() && run.state.unit() == UnitState::Aborted);
    run.press(Button::Reset);
    assert_eq!(run.state.unit(), UnitState::Stopped);
    run.press(Button::Reset);
    assert_eq!(run.state.unit(), UnitState::Idle);
    run.press(Button::Start);
    assert_eq!(run.state.unit(), UnitState::Idle, "the task is forgotten");
    run.press(Button::Load);
    run.press(Button::Start);
    assert_eq!(run.state.unit(), UnitState::Starting);
    run.settle();
    assert!(run.state.referenced());
}

#[test]
fn declare_needs_key_hold_and_a_lost_reference() {
    let mut run = Run::new();
    run.state.map.unknown = 0b1010;
    run.press(Button::HoldDeclare);
    assert_eq!(
        run.state.hold_left(),
        Micros(0),
        "the reference is not lost"
    );
    run.machine
        .turn_isolator(&mut run.state, false, &mut |_| {});
    run.machine.turn_isolator(&mut run.state, true, &mut |_| {});
    run.press(Button::HoldDeclare);
    assert_eq!(run.state.hold_left(), Micros(0), "no key");
    run.machine.turn_key(&mut run.state, true);
    run.press(Button::HoldDeclare);
    run.wait(Micros::from_millis(1_900));
    run.press(Button::LetGoDeclare);
    assert_eq!(
        run.state.map.unknown, 0b1010,
        "let go early: nothing happens"
    );
    run.press(Button::HoldDeclare);
    run.settle();
    assert!(run.state.map.is_empty());
}

#[test]
fn a_product_is_edited_saved_and_loaded_in_three_steps() {
    let mut run = Run::new();
    run.press(Button::Mode(Mode::Changeover));
    run.press(Button::Reset);
    run.press(Button::Choose(sample::KESTREL));
    run.press(Button::EditWidth(rackproof_model::Micrometres(218_000)));
    assert_eq!(
        run.state.stored_width(sample::KESTREL).0,
        220_000,
        "edited is not saved"
    );
    run.press(Button::Save);
    assert_eq!(run.state.stored_width(sample::KESTREL).0, 218_000);
    assert_eq!(run.state.loaded(), sample::WREN, "saved is not loaded");
    run.press(Button::Load);
    assert_eq!(
        (run.state.loaded(), run.state.task()),
        (sample::KESTREL, Task::Changeover)
    );
    run.press(Button::EditWidth(rackproof_model::Micrometres(400_000)));
    assert!(
        run.heard
            .contains(&Outcome::Refused(crate::Refusal::WidthBeyondTravel))
    );
}

#[test]
fn a_lift_cuts_a_board_across_a_mouth() {
    let mut run = Run::new();
    run.state.mouths[1] = Some(Board::good(sample::WREN));
    run.machine
        .turn_isolator(&mut run.state, false, &mut |_| {});
    run.machine.turn_isolator(&mut run.state, true, &mut |_| {});
    run.changeover();
    assert_eq!(run.harms(), [HarmKind::Overstrained, HarmKind::Sheared]);
}

#[test]
fn a_board_is_driven_into_a_taken_slot() {
    let mut run = Run::new();
    run.board(0, Half::Outfeed, sample::WREN);
    run.press(Button::Reset);
    run.press(Button::Start);
    run.settle();
    let heard = &mut run.heard;
    let board = Some(Board::good(sample::WREN));
    run.machine
        .upstream_signal(&mut run.state, board, &mut |outcome| heard.push(outcome));
    run.settle();
    assert_eq!(run.harms(), [HarmKind::Collided]);
}

/// A board each 30 s for eight hours, in and out: first in, first out, and every hand-over under
/// two closed signals. Source of the invariants: IPC-SMEMA-9851 as quoted in
/// tests/outside/README.md.
#[test]
fn a_working_day_keeps_both_handshakes() {
    let mut run = Run::new();
    run.press(Button::Reset);
    run.press(Button::Start);
    let (mut stored, mut sent) = (Vec::new(), Vec::new());
    let (mut fed, mut next_feed, mut next_call) = (0, 0_u64, 200_000_000_u64);
    while run.clock < 8 * 3_600 * 1_000_000 {
        run.heard.clear();
        let next = run
            .machine
            .next_event(&run.state)
            .map_or(1_000_000, |next| next.0.min(1_000_000));
        run.wait(Micros(next));
        let mut heard = std::mem::take(&mut run.heard);
        if run.clock >= next_feed && run.state.upstream_board.is_none() {
            let board = Some(Board::good(sample::WREN));
            run.machine
                .upstream_signal(&mut run.state, board, &mut |o| heard.push(o));
            next_feed += 30_000_000;
            fed += 1;
        }
        let ready = run.clock >= next_call;
        if ready != run.state.downstream_ready {
            run.machine
                .downstream_signal(&mut run.state, ready, &mut |o| heard.push(o));
        }
        for outcome in heard {
            match outcome {
                Outcome::BoardStored(slot) => stored.push(slot),
                Outcome::BoardSent(slot) => {
                    sent.push(slot);
                    next_call += 30_000_000;
                    run.machine
                        .downstream_signal(&mut run.state, false, &mut |_| {});
                }
                Outcome::Harmed(harm) => panic!("{harm:?}"),
                _ => {}
            }
        }
    }
    assert!(
        fed >= 940 && sent.len() >= 900,
        "{fed} fed, {} sent",
        sent.len()
    );
    assert_eq!(stored[..sent.len()], sent[..], "first in, first out");
}
