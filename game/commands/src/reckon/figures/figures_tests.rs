//! The figures against forms worked out by hand, and against the machine itself.

use rackproof_buffer::{Answer, Button, Half, HalfSlot, Mode, Outcome, Question, Side};
use rackproof_drill::{Hall, file};
use rackproof_files::Problems;
use rackproof_library::machines;

use super::*;
use crate::reckon::leaving_tests::{Line, cases};

/// The machine of a text, which has no problem.
pub(in crate::reckon) fn machine_of(text: &str) -> (Machine, Hall) {
    let problems = Problems::new();
    let read = file::read_machine(problems.for_file("machine.ron", text));
    assert_eq!(problems.sorted(), []);
    read.expect("it has no problem")
}

/// What is asked of a machine of ours.
pub(in crate::reckon) fn asked(name: &str, product: &str, boards: Option<u8>) -> Asked {
    let texts = machines();
    let text = texts.iter().find(|text| text.file.contains(name));
    let (machine, hall) = machine_of(&text.expect("it is ours").text);
    let place = hall.product_names.iter().position(|one| one == product);
    let product = place.expect("it has the product") as u8;
    let most = machine.capacity(product).boards;
    Asked {
        machine,
        hall,
        product,
        next: u8::from(product == 0),
        boards: boards.unwrap_or(most),
        takt: None,
        changeover: None,
    }
}

/// Way and speed of a move that begins and ends at rest, in mm, mm/s and mm/s²: how long, in s.
/// Source: kinematics of any handbook, 2·√(s/a) while s ≤ v²/a, else s/v + v/a.
fn move_s(way: f64, speed: f64, acceleration: f64) -> f64 {
    if way <= speed * speed / acceleration {
        2.0 * (way / acceleration).sqrt()
    } else {
        way / speed + speed / acceleration
    }
}

/// Less than two microseconds for each term, which are rounded up one by one.
fn near(is: u64, want: f64, terms: usize) {
    let off = is as f64 - want * 1e6;
    assert!(off.abs() < 2.0 * terms as f64, "{is} µs is not {want} s");
}

/// alder-16 from its file: 16 slots, 20 mm apart, lift 200 mm/s and 400 mm/s², belts 150 and 600.
/// A board's leading edge rests 10 mm from the rack's end at 500 and leaves when its 180 mm are
/// past 509 + 500. Every term by hand from handbook kinematics.
#[test]
fn the_drain_of_one_machine_is_the_sum_by_hand() {
    let lift = |slots: usize| move_s(20.0 * slots as f64, 200.0, 400.0);
    let belts = move_s(500.0 + 9.0 + 500.0 + 180.0 - 490.0, 150.0, 600.0);
    // The lift waits at slot 16. Signals stay open for 50 ms at least: IPC-SMEMA-9851.
    let mut free = lift(15) + belts + 0.05;
    free += (1..15).map(|at| 2.0 * lift(at) + belts).sum::<f64>();
    free += lift(15) + belts;
    let figures = Figures::of(&asked("alder-16", "wren", None));
    near(figures.drain.time(), free, 60);
    assert_eq!((figures.capacity.used, figures.capacity.boards), (16, 16));
}

/// A queue of n that is emptied at a fixed takt, longer than each service: (n - 1) · takt until the
/// last one is called, and its own time. Common practice; D/D/1 of any textbook of queues.
#[test]
fn behind_a_long_takt_the_drain_is_n_less_one_takts_and_the_last_board() {
    for (name, product) in [
        ("alder-16", "wren"),
        ("alder-16", "kestrel"),
        ("rowan-40", "wren"),
        ("rowan-40", "kestrel"),
        ("rowan-40", "plover"),
    ] {
        for boards in [1, 2, 13] {
            let mut asked = asked(name, product, Some(boards));
            asked.takt = Some(Micros(60_000_000));
            let figures = Figures::of(&asked);
            let last = figures.drain.sendings.last().expect("there is one");
            let takts = u64::from(boards - 1) * 60_000_000;
            let time = takts + u64::from(last.until_left().0);
            assert_eq!(figures.drain.time(), time, "{name} {product} {boards}");
            assert_eq!(figures.waiting(), (u64::from(boards - 1), 0));
            assert_eq!(figures.minutes_before(), u64::from(boards));
        }
    }
}

/// ⌈16 / 1⌉; ⌈40 / 1⌉ and ⌈40 / 2⌉ with two in each; ⌈40 / 3⌉ with one. By hand from the files.
#[test]
fn the_room_is_that_of_the_files() {
    for (name, product, used, boards) in [
        ("alder-16", "wren", 16, 16),
        ("rowan-40", "wren", 40, 80),
        ("rowan-40", "kestrel", 20, 40),
        ("rowan-40", "plover", 14, 14),
    ] {
        let capacity = Figures::of(&asked(name, product, None)).capacity;
        assert_eq!((capacity.used, capacity.boards), (used, boards), "{name}");
    }
}

/// Two products and what is reckoned between them: from the first to the second and back.
const PRODUCTS: [[u8; 2]; 2] = [[0, 1], [1, 0]];

/// Chooses another product and lets the rails come to its width. Some machines run on by
/// themselves then: that counts no more.
fn change_over(line: &mut Line<'_>, product: u8) {
    for button in [Button::Choose(product), Button::Load, Button::Start] {
        line.press(button);
    }
    while !line.heard.contains(&Outcome::WidthReached) {
        if line.state.question() == Some(Question::Rails) {
            line.press(Button::Start);
        }
        assert!(line.step(), "stuck in {:?}", line.state.phase());
    }
}

/// A clear-out by belt from its start to its end, with every question answered.
fn clear_out(line: &mut Line<'_>) -> u8 {
    let mut taken = 0;
    loop {
        line.settle();
        match line.state.question() {
            Some(Question::Take(_)) => {
                let board = line.machine.take_from_belt(&mut line.state, Side::Outfeed);
                taken += u8::from(board.is_some());
                line.press(Button::Start);
            }
            Some(Question::Answer(_) | Question::AnswerHalf(_)) => {
                line.press(Button::Answer(Answer::SeenEmpty));
            }
            _ => return taken,
        }
    }
}

#[test]
fn a_clear_out_by_belt_and_the_changeover_behind_it_take_as_long_as_is_reckoned() {
    for ((name, machine), [old, new]) in each_way() {
        let capacity = machine.capacity(old);
        for boards in [1, 3, capacity.boards] {
            let mut line = Line::filled(&machine, old, boards);
            for button in [
                Button::Stop,
                Button::Mode(Mode::Changeover),
                Button::Reset,
                Button::ClearOut,
                Button::Start,
            ] {
                line.press(button);
            }
            let from = machine.waits_at(old, boards);
            let reckoned = belt(&machine, old, boards, from);
            let case = format!("{name}, {old} to {new}, {boards} boards");
            assert_eq!(clear_out(&mut line), boards, "{case}");
            assert_eq!(line.clock, reckoned.time(), "{case}");

            line.press(Button::Reset);
            change_over(&mut line, new);
            let hand = machine.clear_out_by_hand(old, new, from);
            let changeover = hand.time()
                - u64::from(hand.declare.0 + hand.reference.0 + hand.to_sweep.0)
                + u64::from(back_to_sweep(&machine, &capacity).0);
            assert_eq!(line.clock, reckoned.time() + changeover, "{case}");
        }
    }
}

#[test]
fn a_clear_out_by_hand_and_the_changeover_behind_it_take_as_long_as_is_reckoned() {
    for ((name, machine), [old, new]) in each_way() {
        for boards in [1, 3] {
            let from = machine.waits_at(old, boards);
            let mut line = Line::filled(&machine, old, boards);
            machine.press_emergency(&mut line.state, &mut |_| {});
            for slot in 0..machine.slots() {
                for half in Half::BOTH {
                    line.state.take_from_rack(HalfSlot { slot, half });
                }
            }
            machine.release_emergency(&mut line.state);
            machine.turn_key(&mut line.state, true);
            line.press(Button::HoldDeclare);
            line.settle();
            for button in [Button::Reset, Button::Reset, Button::Mode(Mode::Changeover)] {
                line.press(button);
                line.settle();
            }
            change_over(&mut line, new);
            let reckoned = machine.clear_out_by_hand(old, new, from);
            assert_eq!(line.clock, reckoned.time(), "{name}, {boards} boards");
        }
    }
}

/// Each machine, from each product to the other.
fn each_way() -> impl Iterator<Item = ((String, Machine), [u8; 2])> {
    let both = |case: (String, Machine)| PRODUCTS.map(|pair| (case.clone(), pair));
    cases().into_iter().flat_map(both)
}

#[test]
fn draining_begins_so_that_it_ends_with_the_changeover() {
    let mut asked = asked("alder-16", "wren", Some(3));
    asked.takt = Some(Micros(30_000_000));
    // 2 · 30 s + the last board, from slot 3 with the lift at slot 1: 40 mm and 699 mm.
    let last = move_s(40.0, 200.0, 400.0) + move_s(699.0, 150.0, 600.0);
    let drain = Figures::of(&asked).drain;
    near(drain.time(), 60.0 + last, 3);
    let cases = [
        (
            Changeover::Within(2),
            Begin::Within(120_000_000 - drain.time()),
        ),
        // After one minute: the first left at 5 s, the second at 35 s, the third begins at 60 s.
        (Changeover::Within(1), Begin::Late(1)),
        (Changeover::Within(0), Begin::Late(3)),
        (
            Changeover::At(10),
            Begin::At(600_000_000 - drain.time(), false),
        ),
        (
            Changeover::At(1),
            Begin::At(DAY + 60_000_000 - drain.time(), true),
        ),
        (Changeover::At(0), Begin::At(DAY - drain.time(), true)),
    ];
    for (changeover, expected) in cases {
        assert_eq!(begin(&drain, changeover), expected, "{changeover:?}");
    }
    assert_eq!(Figures::of(&asked).minutes_before(), 2);
}
