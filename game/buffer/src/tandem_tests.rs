//! Two boards in one slot.

use crate::{
    Half, MiddleBeam, Question,
    plant::{Plant, middle_beam, mm, tandem},
    sample,
};

#[test]
fn two_boards_fill_a_slot_outfeed_half_first_and_leave_in_order() {
    let mut plant = Plant::running(tandem);
    plant.fill(1);
    assert!(plant.has(0, Half::Outfeed) && !plant.has(0, Half::Infeed));
    plant.fill(2);
    assert_eq!(plant.stored(), [0, 0, 1]);
    assert!(plant.has(0, Half::Infeed) && plant.has(1, Half::Outfeed));
    assert_eq!(plant.machine.believed_boards(&plant.state, 0), 2);
    plant.send();
    // The second one comes up to the mouth when the first has left.
    assert!(plant.has(0, Half::Outfeed) && !plant.has(0, Half::Infeed));
    assert_eq!(plant.state.outfeed_belt, [None; 2]);
    // Nobody may be stored behind it now: the one in slot 2 is older than who comes.
    plant.fill(1);
    assert_eq!(plant.stored(), [0, 0, 1, 1]);
    (0..3).for_each(|_| plant.send());
    assert_eq!(plant.sent(), [0, 0, 1, 1]);
    assert!(plant.state.rack.present().is_empty() && plant.state.map.is_empty());
    assert_eq!(plant.harms(), []);
}

/// Rack 500, at rest 10 from the end of each half, beam at 250, clear of it by 5: in the infeed
/// half 240 − 10 = 230 mm, in the outfeed half 490 − 255 = 235 mm.
#[test]
fn the_longest_tandem_board_follows_from_the_rack() {
    let mut parts = sample::parts();
    assert_eq!(parts.longest_tandem_board(), None);
    tandem(&mut parts);
    assert_eq!(parts.longest_tandem_board(), Some(mm(230)));
    for (at, longest) in [(270, 215), (245, 230), (244, 0)] {
        let beam = MiddleBeam {
            at: mm(at),
            ..middle_beam()
        };
        parts.storing.middle_beam = Some(beam);
        assert_eq!(parts.longest_tandem_board(), Some(mm(longest)), "{at}");
    }
}

/// A board of 240 mm ends at 490 and begins at 250 mm: on the beam.
#[test]
fn a_board_that_stays_in_the_middle_beam_has_not_arrived() {
    for (length, arrives) in [(239, true), (240, false)] {
        let mut plant = Plant::running(|parts| {
            tandem(parts);
            parts.kinds[sample::WREN as usize].length = mm(length);
        });
        plant.fill(1);
        let asked = plant.state.question() == Some(Question::Arrival(0));
        let stored = plant.stored().len() == 1;
        assert_eq!((stored, asked), (arrives, !arrives), "{length}");
    }
}
