//! Faults on machines that store and send in other ways than the plain one. The sample machine:
//! belts of 0.3 m and 0.6 m, a rack of 0.5 m, wrens of 0.2 m.

use super::{BeamFault, BeamName, BoardFault, BoardPlace, Contact, Fault};
use rackproof_model::Micros;

use crate::{
    Board, Half, HalfSlot, HarmKind, MachineParts, Order, Outcome, Side,
    plant::{Plant, draws_back, mm, tandem},
    sample,
};

/// A machine in production with faults that are all there.
fn with_faults(faults: Vec<Fault>, change: impl FnOnce(&mut MachineParts)) -> Plant {
    let mut plant = Plant::running(change);
    plant.settle();
    let count = faults.len() as u8;
    plant.machine = plant.machine.with_faults(faults);
    for number in 0..count {
        let heard = &mut plant.heard;
        plant
            .machine
            .fault_comes(&mut plant.state, number, &mut |one| heard.push(one));
    }
    plant
}

fn straight_through(parts: &mut MachineParts) {
    parts.storing.order = Order::StraightThrough;
}

fn passed(plant: &Plant) -> usize {
    plant.slots(crate::plant::passed).len()
}

/// A contact that stays closed says ready for a machine that stands: what is sent straight through
/// is driven into it, and is not taken for gone.
#[test]
fn a_board_sent_straight_through_is_driven_into_a_machine_that_stands() {
    let stuck = Fault::Contact {
        contact: Contact::DownstreamReady,
        closed: true,
    };
    let mut plant = with_faults(vec![stuck], straight_through);
    plant.state.downstream_fresh = true;
    plant.offer(sample::WREN);
    plant.settle();
    assert_eq!(passed(&plant), 0);
    assert_eq!(plant.harms().len(), 1);
    assert_eq!(plant.harms()[0].0, HarmKind::Collided);
    assert!(plant.state.outfeed_belt[0].is_some());
}

/// Our Machine Ready does not reach the machine upstream: its belts stand. Ours run as long as a
/// board would need, and nothing has gone through.
#[test]
fn nothing_goes_through_where_upstream_does_not_read_our_signal() {
    let cut = Fault::Contact {
        contact: Contact::OwnReady,
        closed: false,
    };
    let mut plant = with_faults(vec![cut], straight_through);
    plant.call(true);
    let before = plant.clock;
    plant.offer(sample::WREN);
    plant.settle();
    assert_eq!(passed(&plant), 0);
    assert!(!plant.heard.contains(&Outcome::BoardEntered));
    assert!(plant.clock > before, "the belts ran");
    assert!(plant.state.upstream_board.is_some());
}

/// Belts that slip by 95 hundredths bring a board by a twentieth of their way: not off the machine
/// upstream. It bridges the two, and is ours.
#[test]
fn a_board_that_slipping_belts_left_half_way_counts_once() {
    for change in [straight_through as fn(&mut MachineParts), |_| {}] {
        let mut plant = with_faults(vec![Fault::BeltsSlip(95)], change);
        plant.call(true);
        plant.offer(sample::WREN);
        plant.settle();
        let entered = plant.heard.iter();
        let entered = entered.filter(|one| **one == Outcome::BoardEntered);
        assert_eq!(entered.count(), 1);
        assert!(plant.state.upstream_board.is_none() && plant.state.infeed_belt.is_some());
        assert_eq!(passed(&plant), 0);
        assert_eq!(plant.stored(), [0_u8; 0]);
    }
}

/// Run past and drawn back on belts that slip, a board comes to rest where it lay, and is not seen
/// past the mouth if it did not come so far: 15 mm past a rack's end that is 10 mm away, less 90
/// hundredths, is short of it.
#[test]
fn what_slips_is_drawn_back_as_far_as_it_came() {
    for (slip, seen) in [(10, true), (90, false)] {
        let mut plant = with_faults(vec![Fault::BeltsSlip(slip)], draws_back);
        let at = HalfSlot {
            slot: 0,
            half: Half::Outfeed,
        };
        plant.state.rack.set(at, Board::good(sample::WREN));
        let slot = 0;
        plant.machine.note_stored(&mut plant.state, slot);
        plant.settle();
        plant.call(true);
        while !plant.state.belts.is_run() || plant.state.belts.way().0 > 0 {
            assert!(plant.step(), "it never turns");
        }
        let ran_past = plant.heard.contains(&Outcome::BoardRanPast(0));
        assert_eq!(ran_past, seen, "{slip}");
        let almost = plant.machine.next_event(&plant.state).expect("it runs") - Micros(1);
        plant.machine.advance(&mut plant.state, almost, &mut |_| {});
        let (lead, rest) = (
            plant.machine.leads(&plant.state)[0],
            plant.machine.rest_leads(),
        );
        assert!((lead - rest[1].0).abs() <= 1, "{slip}: {lead}");
        plant.settle();
        let lies = plant.has(0, Half::Outfeed);
        assert!(lies || seen, "{slip}");
    }
}

/// A board that jams lies where it is, forth and back.
#[test]
fn a_board_that_jams_is_not_drawn_back() {
    let at = HalfSlot {
        slot: 0,
        half: Half::Outfeed,
    };
    let askew = Fault::Board {
        place: BoardPlace::Slot(at),
        kind: sample::WREN,
        odd: BoardFault::Askew(mm(1)),
    };
    let mut plant = Plant::running(draws_back);
    plant.fill(1);
    plant.machine = plant.machine.with_faults(vec![askew]);
    plant.machine.fault_comes(&mut plant.state, 0, &mut |_| {});
    plant.call(true);
    let mut drawn = false;
    while let Some(next) = plant.machine.next_event(&plant.state) {
        drawn |= plant.state.belts.way().0 < 0;
        let (mut half_way, hear) = (plant.state, &mut |_| {});
        plant
            .machine
            .advance(&mut half_way, Micros(next.0 / 2), hear);
        let lead = plant.machine.leads(&half_way)[0];
        let start = half_way.runners.first().map(|runner| runner.start);
        assert!(start.is_none_or(|start| start == lead), "{lead}");
        plant.step();
    }
    assert!(drawn, "the belts ran back");
    assert!(plant.has(0, Half::Outfeed));
    assert!(!plant.heard.contains(&Outcome::BoardRanPast(0)));
}

/// In slots for two, each board must be seen to come, and the first must have left the middle beam.
#[test]
fn a_film_on_the_infeed_lens_hides_each_board_of_a_pair() {
    let film = Fault::Beam(BeamName::InfeedMouth, BeamFault::Nothing);
    let mut plant = Plant::running(tandem);
    plant.fill(1);
    assert_eq!(plant.stored(), [0]);
    plant.machine = plant.machine.with_faults(vec![film]);
    let hear = &mut |_| {};
    plant.machine.fault_comes(&mut plant.state, 0, hear);
    plant.offer(sample::WREN);
    plant.settle();
    assert_eq!(plant.stored(), [0]);
    assert!(plant.has(0, Half::Infeed), "it is there and was not seen");
    assert_eq!(plant.machine.believed_boards(&plant.state, 0), 1);
    let mut wiped = plant.state;
    assert!(plant.machine.wipe_lenses(&mut wiped, Side::Infeed));
}

/// A machine made wrong on purpose stays so when it is given faults.
#[test]
fn a_defect_outlives_the_faults() {
    for defect in crate::Defect::ALL {
        let machine = sample::machine().with_defect(defect);
        assert_eq!(machine.with_faults(Vec::new()).defect(), Some(defect));
    }
}
