//! What may be wrong with a machine or a board, and which of it is so now.
//!
//! A fault changes truth alone. What the controller believes changes by what its beams, switches
//! and contacts then tell it, never by the fault itself. A fault of an axis that runs takes effect
//! with its next move.

mod beams;
mod belts;
mod contacts;
mod odd;
mod rails;
#[cfg(test)]
pub(crate) mod sample;
mod sink;
mod state;
#[cfg(test)]
mod storing_tests;
#[cfg(test)]
mod tests;

use rackproof_model::{Micrometres, quantity::MicrometresPerSecond};

pub use self::{
    odd::{BoardFault, BoardPlace},
    sink::impact_speed,
    state::Faults,
};
use crate::{Alarm, Hear, Machine, Side, State};

/// Most faults of one attempt.
pub const FAULTS_MOST: usize = 16;

/// One of the machine's beams.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum BeamName {
    /// The one at the infeed mouth.
    InfeedMouth,
    /// The one at the outfeed mouth.
    OutfeedMouth,
    /// The one before the end of the outfeed belt.
    End,
}

impl BeamName {
    /// All beams with the names that files use.
    pub const ALL: [(&'static str, BeamName); 3] = [
        ("InfeedMouth", BeamName::InfeedMouth),
        ("OutfeedMouth", BeamName::OutfeedMouth),
        ("End", BeamName::End),
    ];

    /// The end of the machine at which it stands.
    pub fn side(self) -> Side {
        match self {
            BeamName::InfeedMouth => Side::Infeed,
            BeamName::OutfeedMouth | BeamName::End => Side::Outfeed,
        }
    }
}

/// What a faulty beam sees.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BeamFault {
    /// Nothing: a film lies on its lens.
    Nothing,
    /// What is elsewhere: it was knocked out of line. The end beam then sees nothing.
    Elsewhere {
        /// How far its spot is off along the flow.
        along: Micrometres,
        /// How far its spot is off across the flow, away from the fixed rail.
        across: Micrometres,
    },
    /// Something, always: other light shines into it.
    Always,
}

/// A contact of the two handshakes of IPC-SMEMA-9851. Closed means yes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Contact {
    /// Upstream's Board Available, as our controller reads it.
    UpstreamAvailable,
    /// Downstream's Machine Ready, as our controller reads it.
    DownstreamReady,
    /// Our Machine Ready, as upstream reads it.
    OwnReady,
    /// Our Board Available, as downstream reads it.
    OwnAvailable,
}

impl Contact {
    /// All contacts with the names that files use.
    pub const ALL: [(&'static str, Contact); 4] = [
        ("UpstreamAvailable", Contact::UpstreamAvailable),
        ("DownstreamReady", Contact::DownstreamReady),
        ("OwnReady", Contact::OwnReady),
        ("OwnAvailable", Contact::OwnAvailable),
    ];

    /// The end of the machine at which its cable is.
    pub fn side(self) -> Side {
        match self {
            Contact::UpstreamAvailable | Contact::OwnReady => Side::Infeed,
            Contact::DownstreamReady | Contact::OwnAvailable => Side::Outfeed,
        }
    }
}

/// What may be wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// The rails run stiff: in each move to a width the motor stalls so far short of it. Steps
    /// lost = way commanded − way moved.
    StepsLost(Micrometres),
    /// A strip lies on the rails' screw: the rails come no nearer than its two ends.
    Debris {
        /// Width at its near end, for rails that open.
        from: Micrometres,
        /// Width at its far end, for rails that close.
        to: Micrometres,
    },
    /// The belts slip: boards come so much less far than commanded, in hundredths. 1 to 99.
    BeltsSlip(u8),
    /// A beam sees wrongly.
    Beam(BeamName, BeamFault),
    /// The lift's brake is worn: with the drives off the lift sinks until the brake grips again.
    LiftSinks {
        /// How fast. Not nought.
        speed: MicrometresPerSecond,
        /// How far, each time the drives go off.
        by: Micrometres,
    },
    /// The lift's brake fails: with the drives off the lift falls.
    BrakeFails,
    /// The lift's drive loses its count, and says so. A moment, not a lasting state.
    ReferenceLost,
    /// A contact stays closed (stuck, or a jumper), or stays open (a cut cable).
    Contact {
        /// Which.
        contact: Contact,
        /// Whether it stays closed.
        closed: bool,
    },
    /// A board is not as its kind is.
    Board {
        /// Where it is when the fault comes.
        place: BoardPlace,
        /// Its kind.
        kind: u8,
        /// What is odd about it.
        odd: BoardFault,
    },
}

impl Machine {
    /// The same machine, with faults that it may come to have. Each fault of a board adds the kind
    /// of board that such a one then is. At most [`FAULTS_MOST`] faults, and at most
    /// [`crate::KINDS_MOST`] kinds with those (a bug of the caller otherwise).
    #[must_use]
    pub fn with_faults(self, faults: Vec<Fault>) -> Machine {
        assert!(faults.len() <= FAULTS_MOST, "too many faults");
        let mut parts = self.parts;
        let mut odds = vec![None; parts.kinds.len()];
        for fault in &faults {
            if let Fault::Board { kind, odd, .. } = *fault {
                parts.kinds.push(odd.applied_to(parts.kinds[kind as usize]));
                odds.push(Some((kind, odd)));
            }
        }
        let (defect, neighbouring) = (self.defect, self.neighbouring);
        let mut machine = Machine::new(parts);
        machine.defect = defect;
        machine.neighbouring = neighbouring;
        machine.smooth = self.smooth && faults.is_empty();
        machine.faults = faults;
        machine.odds = odds;
        machine
    }

    /// The faults that it may come to have. Bit n of [`Faults::present`] is for the n-th.
    pub fn faults(&self) -> &[Fault] {
        &self.faults
    }

    /// The faults that are there now.
    pub(crate) fn present<'m>(&'m self, s: &State) -> impl Iterator<Item = Fault> + use<'m> {
        let present = s.faults.present;
        let faults = self.faults.iter().enumerate();
        faults
            .filter(move |(number, _)| present >> number & 1 == 1)
            .map(|(_, &fault)| fault)
    }

    /// The fault with this number comes.
    pub fn fault_comes(&self, s: &mut State, number: u8, hear: &mut Hear) {
        s.faults.present |= 1 << number;
        match self.faults[number as usize] {
            Fault::ReferenceLost => {
                s.faults.present &= !(1 << number);
                self.abort(s, Some(Alarm::LiftDrive), hear);
            }
            Fault::Board { place, kind, .. } => self.make_odd(s, place, kind, number),
            Fault::Contact { contact, closed } => match contact {
                Contact::UpstreamAvailable => s.upstream_fresh |= !closed,
                Contact::DownstreamReady => s.downstream_fresh |= !closed,
                Contact::OwnReady | Contact::OwnAvailable => {}
            },
            _ => {}
        }
        self.settle(s, hear);
    }

    /// A hand clears the screw. Whether something lay there.
    pub fn clear_screw(&self, s: &mut State) -> bool {
        self.mend(s, |fault| matches!(fault, Fault::Debris { .. }))
    }

    /// A hand wipes the lenses at one end. Whether there was a film on one.
    pub fn wipe_lenses(&self, s: &mut State, side: Side) -> bool {
        self.mend(
            s,
            |fault| matches!(fault, Fault::Beam(beam, BeamFault::Nothing) if beam.side() == side),
        )
    }

    fn mend(&self, s: &mut State, which: impl Fn(Fault) -> bool) -> bool {
        let before = s.faults.present;
        for (number, &fault) in self.faults.iter().enumerate() {
            if which(fault) {
                s.faults.present &= !(1 << number);
            }
        }
        s.faults.present != before
    }
}
