//! What is seen from where in a machine that ships.

use rackproof_buffer::Board;

use super::*;
use crate::world_tests::{alder, sample_world};

fn table() -> SightTable {
    let (machine, hall) = alder();
    SightTable::new(&machine, &hall.sight)
}

#[test]
fn each_lean_shows_its_own_half_of_an_empty_rack() {
    let table = table();
    let slots = table.slots;
    let full = Halves::all(slots);
    let (infeed, boards) = table.through_hatch(Half::Infeed, &Rack::default());
    assert_eq!((infeed.infeed, infeed.outfeed), (full.infeed, 0));
    assert!(boards.is_empty());
    let (outfeed, _) = table.through_hatch(Half::Outfeed, &Rack::default());
    assert_eq!((outfeed.infeed, outfeed.outfeed), (0, full.outfeed));
}

#[test]
fn a_board_is_seen_and_hides_what_is_below_it() {
    let table = table();
    let mut rack = Rack::default();
    let at = HalfSlot {
        slot: 9,
        half: Half::Infeed,
    };
    rack.set(at, Board::good(0));
    let (empty, boards) = table.through_hatch(Half::Infeed, &rack);
    assert_eq!(boards, Halves::one(at));
    assert!(
        !empty.contains(HalfSlot {
            slot: 8,
            half: Half::Infeed
        }),
        "hidden by it"
    );
    assert!(empty.contains(HalfSlot {
        slot: 10,
        half: Half::Infeed
    }));
    let (_, other) = table.through_hatch(Half::Outfeed, &rack);
    assert!(!other.contains(HalfSlot {
        slot: 10,
        half: Half::Infeed
    }));
}

#[test]
fn from_either_mouth_the_whole_slot_at_the_belts_is_seen() {
    let table = table();
    for mouth in [0, 1] {
        let (empty, _) = table.through_mouth(mouth, 4, &Rack::default());
        assert_eq!(empty, Halves::slot(4));
    }
}

/// Points lie 12 and 45 mm behind the fixed rail, the glass 40 mm before it: 52 and 85 mm. Light
/// that reaches 60 mm shows a board, and no half as empty; light that reaches 90 mm shows both.
#[test]
fn clear_glass_lets_through_what_light_there_is() {
    let (machine, hall) = alder();
    let mut rack = Rack::default();
    let at = HalfSlot {
        slot: 9,
        half: Half::Infeed,
    };
    rack.set(at, Board::good(0));
    assert_eq!(table().through_glass(Half::Infeed, &rack), None, "tinted");
    for (reach, shows_empty) in [(40, false), (60, false), (90, true)] {
        let mut sight = hall.sight.clone();
        sight.clear_glass = Some(Micrometres::from_millimetres(reach));
        let table = SightTable::new(&machine, &sight);
        let seen = table.through_glass(Half::Infeed, &rack);
        let (empty, boards) = seen.expect("clear");
        assert_eq!(boards.contains(at), reach > 52, "{reach}");
        assert_eq!(!empty.is_empty(), shows_empty, "{reach}");
    }
}

#[test]
fn matt_black_is_seen_by_an_eye_with_a_torch() {
    let world = sample_world();
    let table = SightTable::new(world.machine(), &world.hall().sight);
    let mut rack = Rack::default();
    let at = HalfSlot {
        slot: 3,
        half: Half::Outfeed,
    };
    rack.set(at, Board::good(3));
    let (_, boards) = table.through_hatch(Half::Outfeed, &rack);
    assert_eq!(boards, Halves::one(at));
}
