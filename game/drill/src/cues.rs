//! What a person can see, hear or feel of a fault, from where they are.

use rackproof_buffer::{BeamFault, BeamName, BoardFault, Contact, Fault, Place, Side};

use crate::{Aim, Outcome, Sign, SignKind, Stand, State, World, act::Hear, act::side_of};

/// A cue of a fault.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cue {
    /// A strip was seen on the rails' screw.
    StripOnScrew,
    /// A hand felt along the screw: whether a strip lay there and is off it now.
    ScrewCleared(bool),
    /// A belt was seen to slip under its board.
    BeltSlips(Side),
    /// A film was seen on the lens of a beam.
    LensFilmed(BeamName),
    /// A beam was seen to stand out of line.
    BeamOutOfLine(BeamName),
    /// The lamp of a beam was seen lit with nothing before it.
    BeamLit(BeamName),
    /// Lenses were wiped: whether a film was on one.
    LensesWiped(bool),
    /// The lift was seen to come down on its own.
    LiftSinks,
    /// The lift was heard to jerk and stand: its drive lost its count.
    LiftJerks,
    /// The lamps at the two ends of a signal's cable were seen to differ.
    LampsDiffer(Contact),
    /// A board in hand is warm: its temperature in °C.
    Heat(u8),
    /// A board was seen to be bowed.
    Bowed(Place),
    /// A board was seen to lie askew.
    Askew(Place),
    /// A neighbour was seen to stand.
    NeighbourStands(Side),
    /// A jumper was seen in a neighbour's plug.
    Jumper(Side),
    /// Downstream was seen to be a plain link or an oven, which takes whatever comes.
    TakesAlways,
    /// A board was seen to stand at upstream's exit, while its lamp is dark.
    BoardWaitsUpstream,
    /// A board was seen to stand at upstream's exit against our rails, wider than they are apart.
    StandsAgainstRails,
    /// A test box was seen in a neighbour's place.
    TestBox(Side),
    /// No machine was seen at a side, and nothing hangs in its socket.
    NoMachine(Side),
    /// A jumper was taken out of a neighbour's plug.
    JumperOut(Side),
    /// A test box was taken off a neighbour's socket.
    TestBoxOff(Side),
    /// A neighbour's plug was looked over, and nothing was in it that does not belong there.
    PlugInOrder(Side),
    /// A neighbour's rails were seen to stand at another width than ours.
    OtherWidth(Side),
    /// A person was seen who feeds boards by hand.
    FedByHand,
    /// Upstream's lamp for a failed board was seen lit.
    FailedLampLit,
    /// The lamp of downstream's Machine Ready was seen to flicker.
    LampFlickers,
    /// A board was seen to lie turned by 90 degrees.
    Turned(Place),
}

impl Cue {
    /// What sort of sign it is.
    pub(crate) fn kind(self) -> SignKind {
        match self {
            Cue::StripOnScrew => SignKind::StripSeen,
            Cue::BeltSlips(_) => SignKind::BeltSlipSeen,
            Cue::LensFilmed(_) | Cue::BeamOutOfLine(_) | Cue::BeamLit(_) => SignKind::BeamFaultSeen,
            Cue::LiftSinks => SignKind::LiftSinkSeen,
            Cue::LampsDiffer(_) => SignKind::LampsDifferSeen,
            Cue::Heat(_) => SignKind::HeatFelt,
            Cue::Bowed(_) | Cue::Askew(_) | Cue::Turned(_) => SignKind::BoardOddSeen,
            Cue::NeighbourStands(_)
            | Cue::Jumper(_)
            | Cue::TakesAlways
            | Cue::TestBox(_)
            | Cue::NoMachine(_)
            | Cue::OtherWidth(_)
            | Cue::FedByHand
            | Cue::FailedLampLit
            | Cue::LampFlickers
            | Cue::BoardWaitsUpstream
            | Cue::StandsAgainstRails => SignKind::NeighbourSeen,
            Cue::ScrewCleared(_)
            | Cue::LensesWiped(_)
            | Cue::JumperOut(_)
            | Cue::TestBoxOff(_)
            | Cue::PlugInOrder(_)
            | Cue::LiftJerks => SignKind::Other,
        }
    }
}

impl World {
    /// What a look shows of faults.
    pub(crate) fn look_for_cues(&self, s: &State, aim: Aim, hear: &mut Hear) {
        if aim == Aim::Mouth && self.has_neighbours() {
            let side = side_of(s.person.stand);
            self.look_at_neighbour(s, side, &mut |cue| hear(Outcome::Sign(Sign::Cue(cue))));
        }
        if !self.has_faults() {
            return;
        }
        let mut cue = |cue| hear(Outcome::Sign(Sign::Cue(cue)));
        if self.machine().sinking_speed(&s.machine) > 0 {
            cue(Cue::LiftSinks);
        }
        if let Some((_, boards)) = self.seen(s, aim) {
            for at in boards.iter() {
                let board = s.machine.rack.get(at);
                self.see_shape(board.map(|board| board.kind), Place::Slot(at), &mut cue);
            }
        }
        if aim == Aim::Mouth {
            return self.look_at_side(s, &mut cue);
        }
        let lies = |fault: &Fault| matches!(fault, Fault::Debris { .. });
        if s.person.torch && self.is_present(s, lies) {
            cue(Cue::StripOnScrew);
        }
    }

    fn is_present(&self, s: &State, which: impl Fn(&Fault) -> bool) -> bool {
        let present = s.machine.faults().present();
        let mut faults = self.machine().faults().iter().enumerate();
        faults.any(|(number, fault)| present >> number & 1 == 1 && which(fault))
    }

    /// Edge-on, in the light of the hall or the torch.
    fn see_shape(&self, kind: Option<u8>, place: Place, cue: &mut dyn FnMut(Cue)) {
        match kind.and_then(|kind| self.machine().odd(kind)) {
            Some(BoardFault::Bowed(_)) => cue(Cue::Bowed(place)),
            Some(BoardFault::Askew(_)) => cue(Cue::Askew(place)),
            Some(BoardFault::Turned) => cue(Cue::Turned(place)),
            _ => {}
        }
    }

    /// At a mouth stand that mouth's beams, the neighbour's plug, and the belt.
    fn look_at_side(&self, s: &State, cue: &mut dyn FnMut(Cue)) {
        let (side, machine) = (side_of(s.person.stand), &s.machine);
        for (_, beam) in BeamName::ALL {
            if beam.side() != side {
                continue;
            }
            match self.machine().beam_fault(machine, beam) {
                Some(BeamFault::Nothing) => cue(Cue::LensFilmed(beam)),
                Some(BeamFault::Elsewhere { .. }) => cue(Cue::BeamOutOfLine(beam)),
                Some(BeamFault::Always) => cue(Cue::BeamLit(beam)),
                None => {}
            }
        }
        self.look_at_lamps(s, side, cue);
        if self.machine().belts_slip(machine) {
            cue(Cue::BeltSlips(side));
        }
        let mouth = machine.mouths[side as usize];
        self.see_shape(mouth.map(|board| board.kind), Place::Mouth(side), cue);
        let on_belt = match side {
            Side::Infeed => machine.infeed_belt,
            Side::Outfeed => machine.outfeed_belt[0].or(machine.outfeed_belt[1]),
        };
        self.see_shape(on_belt.map(|board| board.kind), Place::Belt(side), cue);
    }

    /// The lamps of the signals at a side.
    pub(crate) fn look_at_lamps(&self, s: &State, side: Side, cue: &mut dyn FnMut(Cue)) {
        for (_, contact) in Contact::ALL {
            if contact.side() == side && self.machine().lamps_differ(&s.machine, contact) {
                cue(Cue::LampsDiffer(contact));
            }
        }
    }

    /// What a look with this aim, from where the person stands, shows now of faults and of
    /// neighbours: what it tells, and what a picture of it may show.
    pub fn cues_seen(&self, s: &State, aim: Aim) -> Vec<Cue> {
        let mut seen = Vec::new();
        self.look_for_cues(s, aim, &mut |outcome| {
            if let Outcome::Sign(Sign::Cue(cue)) = outcome {
                seen.push(cue);
            }
        });
        seen
    }

    /// Whether the person sees the lift come down when it does.
    pub(crate) fn sees_lift(&self, s: &State) -> bool {
        match s.person.stand {
            Stand::Hatch => s.machine.hatch_open(),
            Stand::Infeed | Stand::Outfeed => true,
            Stand::Panel | Stand::Isolator => false,
        }
    }
}
