//! What the world publishes, split into what can be perceived and what cannot.

use rackproof_buffer::{self as buffer, AxisName, Half, HalfSlot, Halves, Harm, Side};

use crate::Cue;

/// What made all looks void.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum VoidCause {
    /// The lift, the rails or a slot's belts moved.
    Moved(AxisName),
    /// A hand entered the rack.
    HandEntered,
    /// Upstream was let go.
    UpstreamLetGo,
}

/// What somebody said.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Told {
    /// Upstream holds all boards.
    UpstreamHolds,
    /// Upstream goes on.
    UpstreamGoesOn,
    /// Downstream holds.
    DownstreamHolds,
    /// Downstream goes on.
    DownstreamGoesOn,
    /// Downstream stands, and holds.
    DownstreamStands,
    /// Downstream stands; a jumper was in its plug and is out now.
    DownstreamMends,
    /// The line lead knows.
    LeadKnows,
}

/// An outcome of the machine that can be perceived: on the panel, by ear, by eye. It cannot hold a
/// harm or a hidden fact; [`MachineSign::of`] is the only way to make one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MachineSign(buffer::Outcome);

impl MachineSign {
    /// The sign that an outcome gives, or `None` if nobody perceives it.
    pub fn of(outcome: buffer::Outcome) -> Option<MachineSign> {
        match outcome {
            buffer::Outcome::Harmed(_)
            | buffer::Outcome::BoardEntered
            | buffer::Outcome::LiftSank => None,
            shown => Some(MachineSign(shown)),
        }
    }

    /// What is shown or heard.
    pub fn shown(&self) -> buffer::Outcome {
        self.0
    }
}

/// Something that a person standing there perceives.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sign {
    /// The machine showed it.
    Machine(MachineSign),
    /// All looks are void.
    LooksVoided(VoidCause),
    /// A look into the rack: half-slots seen empty, and half-slots in which a board was seen.
    Looked {
        /// Seen empty.
        empty: Halves,
        /// A board seen.
        boards: Halves,
    },
    /// A look into the rack showed nothing: it is dark in there.
    Dark,
    /// A board was seen: where, which kind, and whether damage shows.
    SawBoard {
        /// Where.
        at: HalfSlot,
        /// Which kind.
        kind: u8,
        /// Whether damage shows.
        damaged: bool,
    },
    /// A belt was seen: how many boards lie on it.
    SawBelt(Side, u8),
    /// A mouth was seen: whether a board lies across it.
    SawMouth(Side, bool),
    /// A board was taken in hand: its kind, and whether damage shows.
    Took {
        /// Which kind.
        kind: u8,
        /// Whether damage shows.
        damaged: bool,
    },
    /// The hand found nothing there.
    NothingThere,
    /// The half-slot is taken: the board does not go in.
    NoRoom(HalfSlot),
    /// Start was tried with the isolator off, and nothing moved.
    NothingStarted,
    /// Somebody said something.
    Told(Told),
    /// The straps were tested.
    StrapsTested,
    /// A hand entered the rack.
    HandEntered,
    /// Something cracked, or fell: it could be heard.
    Crack,
    /// A board was laid on the infeed belt by upstream. Seen from the infeed only.
    BoardLaid,
    /// A cue of a fault.
    Cue(Cue),
}

/// True, and nobody is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fact {
    /// A board came wholly onto the infeed belt.
    BoardEntered,
    /// The lift came down on its own.
    LiftSank,
    /// Upstream laid a board on the infeed belt.
    BoardLaid(u8),
    /// A board came from upstream that had failed its test.
    FailedBoardCame(u8),
    /// Upstream took its failed board away.
    FailedBoardTakenAway(u8),
    /// A board was taken out of a half-slot.
    BoardTaken(HalfSlot, u8),
    /// A board was put into a half-slot.
    BoardPutIn(HalfSlot, u8),
    /// A board was put down; whether it was overstrained or worse.
    BoardPutDown {
        /// Which kind.
        kind: u8,
        /// Whether it is good in truth.
        good: bool,
    },
}

/// What the world publishes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// Perceived.
    Sign(Sign),
    /// Hidden.
    Fact(Fact),
    /// Cannot be taken back.
    Harm(Harm),
}

macro_rules! sign_kinds {
    ($($(#[$doc:meta])* $name:ident,)*) => {
        /// What sort of sign it is: what rules and procedures name. At most 64.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        #[repr(u8)]
        pub enum SignKind {
            $($(#[$doc])* $name,)*
        }

        impl SignKind {
            /// All kinds with the names that files use.
            pub const ALL: &[(&'static str, SignKind)] =
                &[$((stringify!($name), SignKind::$name),)*];
        }
    };
}

sign_kinds! {
    /// Looks are void.
    LooksVoided,
    /// A hand entered the rack.
    HandEntered,
    /// Upstream was let go.
    UpstreamLetGo,
    /// Lift or rails or belts began to move.
    Started,
    /// An axis came to rest.
    Stopped,
    /// The rails came to rest.
    RailsStopped,
    /// The lift began to move.
    LiftStarted,
    /// The rails began to move.
    RailsStarted,
    /// The belts began to move.
    BeltsStarted,
    /// The sweep saw a board.
    SweepSaw,
    /// The sweep saw nothing.
    SweepSawNothing,
    /// The panel asks.
    Asked,
    /// A command was refused.
    Refused,
    /// The clear-out is done.
    ClearedOut,
    /// The map was declared empty.
    DeclaredEmpty,
    /// A product was loaded.
    ProductLoaded,
    /// The width is reached.
    WidthReached,
    /// The reference was found.
    ReferenceFound,
    /// The reference was lost.
    ReferenceLost,
    /// A slot was answered for.
    Answered,
    /// A board was stored.
    BoardStored,
    /// A board was sent, stored before or not.
    BoardSent,
    /// A board ran a little past the outfeed mouth and is drawn back.
    BoardRanPast,
    /// A board reached the end beam.
    BoardReachedEnd,
    /// The infeed belt was seen empty.
    InfeedBeltSeenEmpty,
    /// A board was seen on the infeed belt.
    InfeedBeltSeenTaken,
    /// The outfeed belt was seen empty.
    OutfeedBeltSeenEmpty,
    /// A board was seen on the outfeed belt.
    OutfeedBeltSeenTaken,
    /// The infeed mouth was seen free.
    InfeedMouthSeenFree,
    /// A board was seen across the infeed mouth.
    InfeedMouthSeenTaken,
    /// The outfeed mouth was seen free.
    OutfeedMouthSeenFree,
    /// A board was seen across the outfeed mouth.
    OutfeedMouthSeenTaken,
    /// A board was taken in hand.
    Took,
    /// The hand found nothing.
    NothingThere,
    /// Start was tried and nothing moved.
    NothingStarted,
    /// Upstream said that it holds.
    UpstreamHolds,
    /// Somebody else said something.
    Told,
    /// The straps were tested.
    StrapsTested,
    /// Something cracked or fell.
    Crack,
    /// A look showed nothing for want of light.
    Dark,
    /// An alarm came.
    Alarmed,
    /// Power came or went.
    Powered,
    /// A motor hummed.
    MotorHummed,
    /// The lift's brake ticked.
    BrakeTicked,
    /// A strip was seen on the screw.
    StripSeen,
    /// A belt was seen to slip.
    BeltSlipSeen,
    /// A beam was seen to be at fault.
    BeamFaultSeen,
    /// The lift was seen to come down.
    LiftSinkSeen,
    /// Lamps of a signal were seen to differ.
    LampsDifferSeen,
    /// A board felt warm.
    HeatFelt,
    /// A board was seen bowed, or askew.
    BoardOddSeen,
    /// Something of a neighbour was seen that its signal does not tell.
    NeighbourSeen,
    /// A width was typed.
    WidthTyped,
    /// A product was saved.
    ProductSaved,
    /// A machine setting was changed.
    SettingChanged,
    /// A changeover waits for the width sensor.
    WaitsForWidth,
    /// A panel sign without a name of its own.
    Other,
}

impl Sign {
    /// Calls `found` with each sort of sign that this one is.
    pub fn kinds(&self, found: &mut impl FnMut(SignKind)) {
        use SignKind as Kind;
        match *self {
            Sign::Machine(sign) => machine_kinds(sign.shown(), found),
            Sign::LooksVoided(cause) => {
                found(Kind::LooksVoided);
                if cause == VoidCause::UpstreamLetGo {
                    found(Kind::UpstreamLetGo);
                }
            }
            Sign::Looked { .. } | Sign::SawBoard { .. } | Sign::NoRoom(_) | Sign::BoardLaid => {
                found(Kind::Other);
            }
            Sign::Dark => found(Kind::Dark),
            Sign::SawBelt(Side::Infeed, 0) => found(Kind::InfeedBeltSeenEmpty),
            Sign::SawBelt(Side::Infeed, _) => found(Kind::InfeedBeltSeenTaken),
            Sign::SawBelt(Side::Outfeed, 0) => found(Kind::OutfeedBeltSeenEmpty),
            Sign::SawBelt(Side::Outfeed, _) => found(Kind::OutfeedBeltSeenTaken),
            Sign::SawMouth(Side::Infeed, false) => found(Kind::InfeedMouthSeenFree),
            Sign::SawMouth(Side::Infeed, true) => found(Kind::InfeedMouthSeenTaken),
            Sign::SawMouth(Side::Outfeed, false) => found(Kind::OutfeedMouthSeenFree),
            Sign::SawMouth(Side::Outfeed, true) => found(Kind::OutfeedMouthSeenTaken),
            Sign::Took { .. } => found(Kind::Took),
            Sign::NothingThere => found(Kind::NothingThere),
            Sign::NothingStarted => found(Kind::NothingStarted),
            Sign::Told(Told::UpstreamHolds) => found(Kind::UpstreamHolds),
            Sign::Told(_) => found(Kind::Told),
            Sign::StrapsTested => found(Kind::StrapsTested),
            Sign::HandEntered => found(Kind::HandEntered),
            Sign::Crack => found(Kind::Crack),
            Sign::Cue(cue) => found(cue.kind()),
        }
    }
}

fn machine_kinds(shown: buffer::Outcome, found: &mut impl FnMut(SignKind)) {
    use SignKind as Kind;
    use buffer::Outcome as Shown;
    let kind = match shown {
        Shown::Started(axis) => {
            found(Kind::Started);
            match axis {
                AxisName::Lift => Kind::LiftStarted,
                AxisName::Rails => Kind::RailsStarted,
                AxisName::Belts => Kind::BeltsStarted,
            }
        }
        Shown::Stopped(axis) => {
            if axis == AxisName::Rails {
                found(Kind::RailsStopped);
            }
            Kind::Stopped
        }
        Shown::SweepSaw(_) => Kind::SweepSaw,
        Shown::SweepSawNothing => Kind::SweepSawNothing,
        Shown::Asked(_) => Kind::Asked,
        Shown::Refused(_) => Kind::Refused,
        Shown::ClearedOut => Kind::ClearedOut,
        Shown::DeclaredEmpty => Kind::DeclaredEmpty,
        Shown::ProductLoaded(_) => Kind::ProductLoaded,
        Shown::WidthReached => Kind::WidthReached,
        Shown::ReferenceFound => Kind::ReferenceFound,
        Shown::ReferenceLost => Kind::ReferenceLost,
        Shown::Answered(..) => Kind::Answered,
        Shown::BoardStored(_) => Kind::BoardStored,
        Shown::BoardSent(_) | Shown::BoardPassed(_) => Kind::BoardSent,
        Shown::BoardRanPast(_) => Kind::BoardRanPast,
        Shown::BoardReachedEnd(_) => Kind::BoardReachedEnd,
        Shown::Alarmed(_) => Kind::Alarmed,
        Shown::Powered(_) => Kind::Powered,
        Shown::MotorHummed => Kind::MotorHummed,
        Shown::BrakeTicked => Kind::BrakeTicked,
        Shown::WidthTyped(_) => Kind::WidthTyped,
        Shown::ProductSaved(_) => Kind::ProductSaved,
        Shown::SettingChanged(_) => Kind::SettingChanged,
        Shown::WaitsForWidth => Kind::WaitsForWidth,
        _ => Kind::Other,
    };
    found(kind);
}

/// The half of a slot that a lean shows.
pub(crate) fn lean_half(aim: crate::Aim) -> Option<Half> {
    match aim {
        crate::Aim::LeanInfeed => Some(Half::Infeed),
        crate::Aim::LeanOutfeed => Some(Half::Outfeed),
        crate::Aim::Mouth => None,
    }
}
