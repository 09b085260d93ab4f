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
    let slots = table.hatch[0].rays.len() as u8;
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

/// The definition, half by half and point by point.
fn slowly(table: &SightTable, view: &View, rack: &Rack) -> (Halves, Halves) {
    let present = rack.by_kind();
    let (mut empty, mut boards) = (Halves::NONE, Halves::NONE);
    for slot in 0..view.rays.len() as u8 {
        for half in Half::BOTH {
            let at = HalfSlot { slot, half };
            let rays = &view.rays[slot as usize][half as usize];
            let shown = |ray: &Ray| ray.open && !hidden(ray, &present);
            match rack.get(at) {
                Some(board) => {
                    let covers = &table.covers[board.kind as usize][half as usize];
                    if rays.iter().zip(covers).any(|(ray, &on)| on && shown(ray)) {
                        boards.insert(at);
                    }
                }
                None if rays.iter().all(shown) => empty.insert(at),
                None => {}
            }
        }
    }
    (empty, boards)
}

#[test]
fn going_through_the_boards_shows_the_same_as_going_through_all_points() {
    let (machine, hall) = alder();
    let table = SightTable::new(&machine, &hall.sight);
    let kinds = machine.kinds().len() as u64;
    let mut seed = 1_u64;
    let mut drawn = |most: u64| {
        seed = seed
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (seed >> 33) % most
    };
    let mut seen = 0;
    for _ in 0..400 {
        let mut rack = Rack::default();
        for _ in 0..drawn(6) {
            let slot = drawn(u64::from(machine.slots())) as u8;
            let half = Half::BOTH[drawn(2) as usize];
            rack.set(HalfSlot { slot, half }, Board::good(drawn(kinds) as u8));
        }
        for lean in Half::BOTH {
            let view = &table.hatch[lean as usize];
            let found = table.through_hatch(lean, &rack);
            assert_eq!(found, slowly(&table, view, &rack));
            seen += found.1.len();
        }
    }
    assert!(seen > 400, "{seen}");
}
