//! Faults for this crate's tests. All figures invented.

use rackproof_model::{Micrometres, quantity::MicrometresPerSecond};

use crate::{
    BeamFault, BeamName, BoardFault, BoardPlace, Contact, Fault, Half, HalfSlot,
    sample::{KESTREL, WREN},
};

fn mm(millimetres: i32) -> Micrometres {
    Micrometres::from_millimetres(millimetres)
}

/// One fault of each sort, and of some sorts more. As many as may be.
pub(crate) fn faults() -> Vec<Fault> {
    let at = HalfSlot {
        slot: 2,
        half: Half::Outfeed,
    };
    let contact = |contact, closed| Fault::Contact { contact, closed };
    let board = |place, kind, odd| Fault::Board { place, kind, odd };
    let warm = BoardFault::Warm {
        degrees: 80,
        grown: Micrometres(134),
    };
    let astray = BeamFault::Elsewhere {
        along: mm(0),
        across: mm(70),
    };
    vec![
        Fault::StepsLost(mm(2)),
        Fault::Debris {
            from: mm(190),
            to: mm(195),
        },
        Fault::BeltsSlip(30),
        Fault::Beam(BeamName::InfeedMouth, BeamFault::Nothing),
        Fault::Beam(BeamName::OutfeedMouth, astray),
        Fault::Beam(BeamName::End, BeamFault::Always),
        Fault::LiftSinks {
            speed: MicrometresPerSecond(4_000),
            by: mm(12),
        },
        Fault::BrakeFails,
        Fault::ReferenceLost,
        contact(Contact::UpstreamAvailable, true),
        contact(Contact::DownstreamReady, true),
        contact(Contact::OwnReady, false),
        contact(Contact::OwnAvailable, false),
        board(BoardPlace::Slot(at), WREN, warm),
        board(BoardPlace::InfeedBelt, WREN, BoardFault::Bowed(mm(2))),
        board(BoardPlace::Slot(at), KESTREL, BoardFault::Askew(mm(1))),
    ]
}
