//! Slot intervals and tall parts.

use rackproof_model::Micrometres;

use crate::{
    Answer, Board, Button, Half, HalfSlot, HarmKind, LiftPlace, MachineParts, Mode, Outcome,
    Question, SlotMap,
    plant::{Plant, mm},
    sample,
};

fn outfeed(slot: u8) -> HalfSlot {
    HalfSlot {
        slot,
        half: Half::Outfeed,
    }
}

#[test]
fn only_every_third_slot_is_visited_and_no_other_is_protected() {
    let mut plant = Plant::running(|parts| parts.products[0].storing.interval = 3);
    plant.fill(6);
    assert_eq!(
        plant.stored(),
        [0, 3, 6, 9, 12, 15],
        "16 slots: six of them"
    );
    assert_eq!(plant.machine.next_room(&plant.state), None, "full");
    (0..6).for_each(|_| plant.send());
    // A board that somebody put into a slot between.
    plant.state.rack.set(outfeed(4), Board::good(sample::WREN));
    plant.press_all(&[Button::Stop, Button::Reset, Button::Mode(Mode::Changeover)]);
    plant.press_all(&[Button::Load, Button::Start]);
    let asked = plant.state.question();
    assert_eq!(asked, Some(Question::Rails), "the sweep saw nothing");
    // Nor does a clear-out go there.
    plant.press_all(&[Button::Stop, Button::Reset, Button::ClearOut]);
    assert_eq!(plant.state.map.unknown, 0b1001_0010_0100_1001);
    plant.state.map = SlotMap::default();
    // The rails meet it.
    plant.press_all(&[Button::Load, Button::Start, Button::Start]);
    let harms: Vec<HarmKind> = plant.harms().iter().map(|harm| harm.0).collect();
    assert_eq!(harms, [HarmKind::Overstrained, HarmKind::SprungOut]);
}

/// A board in a slot that is used is seen, one above in a slot that is not stays where it is.
#[test]
fn the_sweep_makes_unknown_what_is_used() {
    let mut plant = Plant::of(|parts| parts.products[0].storing.interval = 3);
    plant.state.rack.set(outfeed(6), Board::good(sample::WREN));
    plant.press_all(&[Button::Mode(Mode::Changeover), Button::Reset, Button::Load]);
    plant.press_all(&[Button::Start]);
    assert!(plant.heard.contains(&Outcome::SweepSaw(6)));
    assert_eq!(plant.state.map.unknown, 0b1001_0010_0100_0000);
}

#[test]
fn a_clear_out_goes_to_every_slot_that_the_map_does_not_believe_empty() {
    let mut plant = Plant::running(|parts| parts.products[1].storing.interval = 2);
    plant.fill(2);
    plant.press_all(&[Button::Stop, Button::Reset, Button::Mode(Mode::Changeover)]);
    plant.press_all(&[Button::Choose(1), Button::Load, Button::ClearOut]);
    // Slots 1 and 2 are believed full; with an interval of two, slot 2 is not used.
    assert_eq!(plant.state.map.unknown, 0b0101_0101_0101_0111);
}

/// Answers of one clear-out over all slots and of another over fewer do not add up.
#[test]
fn after_one_that_was_broken_off_a_clear_out_of_fewer_slots_asks_about_all() {
    let mut plant = Plant::of(|parts| parts.products[1].storing.interval = 2);
    let seen = Button::Answer(Answer::SeenEmpty);
    let (every_second, all) = (0b0101_0101_0101_0101, 0b1111_1111_1111_1111);
    plant.press_all(&[Button::Mode(Mode::Changeover), Button::Reset]);
    plant.press_all(&[Button::Choose(1), Button::Load, Button::ClearOut]);
    plant.press_all(&[Button::Start, seen, Button::Stop, Button::Reset]);
    plant.press_all(&[Button::ClearOut]);
    assert_eq!(plant.state.map.unknown, every_second, "none is passed over");
    plant.press_all(&[Button::Choose(0), Button::Load, Button::ClearOut]);
    plant.press_all(&[Button::Start, seen, seen, Button::Stop, Button::Reset]);
    assert_eq!(plant.state.map.unknown, all & !0b11);
    plant.press_all(&[Button::Choose(1), Button::Load, Button::ClearOut]);
    assert_eq!(plant.state.map.unknown, all);
}

#[test]
fn the_lift_goes_no_higher_than_the_highest_slot_that_is_used() {
    let mut plant = Plant::of(|parts| parts.products[0].storing.interval = 4);
    plant.change_over(sample::WREN);
    assert_eq!(plant.state.question(), Some(Question::Rails));
    let highest = LiftPlace::At(12);
    assert_eq!(plant.state.lift_place, highest, "slots 1, 5, 9, 13");
}

/// Pitch 10, thickness 1.6, margin 2. Source of the cases: the reckoned table of slot steps for
/// tall parts (5/0 mm: 1; 15/3: 3; 25/3: 4; the limit for 1 is 6.4 mm).
#[test]
fn the_least_interval_follows_from_pitch_and_heights() {
    let mut parts = sample::parts();
    parts.pitch = mm(10);
    for (above, below, least) in [
        (5_000, 0, 1),
        (6_400, 0, 1),
        (6_401, 0, 2),
        (15_000, 3_000, 3),
        (25_000, 3_000, 4),
    ] {
        let mut kind = parts.kinds[0];
        (kind.above, kind.below) = (Micrometres(above), Micrometres(below));
        assert_eq!(parts.least_interval(&kind), least, "{above}/{below}");
    }
}

fn tall_heron(parts: &mut MachineParts) {
    parts.kinds[sample::HERON as usize].above = mm(25);
}

/// Parts of 25 mm on a board of 1.6 mm reach 26.6 mm up; the next slot is 20 mm above.
#[test]
fn a_board_driven_over_or_under_tall_parts_strikes_them() {
    let (wren, heron) = (sample::WREN, sample::HERON);
    let struck = [(HarmKind::PartsStruck, 26_600, 20_000)];
    // What lies in slots 1 and 3, what is driven into slot 2, what is struck.
    let cases: [(Option<u8>, Option<u8>, u8, &[_]); 4] = [
        (Some(heron), None, wren, &struck),
        (Some(wren), Some(wren), heron, &struck),
        (Some(wren), Some(heron), wren, &[]),
        (Some(wren), None, heron, &[]),
    ];
    for (number, (below, above, driven, expected)) in cases.into_iter().enumerate() {
        let mut plant = Plant::running(tall_heron);
        plant.fill(1);
        for (slot, kind) in [(0, below), (2, above)] {
            plant.state.take_from_rack(outfeed(slot));
            if let Some(kind) = kind {
                plant.state.rack.set(outfeed(slot), Board::good(kind));
            }
        }
        plant.offer(driven);
        plant.settle();
        assert_eq!(plant.harms(), expected, "case {number}");
    }
}

#[test]
fn no_hand_puts_a_board_where_tall_parts_are() {
    let mut plant = Plant::of(tall_heron);
    let mut put = |slot, half, kind| {
        let (at, board) = (HalfSlot { slot, half }, Board::good(kind));
        plant
            .machine
            .put_in_rack(&mut plant.state, at, board, &mut |_| {})
    };
    assert!(put(4, Half::Infeed, sample::HERON));
    let above = put(5, Half::Infeed, sample::WREN);
    assert!(!above, "its parts reach into slot 6");
    assert!(put(3, Half::Infeed, sample::WREN) && put(5, Half::Outfeed, sample::WREN));
}
