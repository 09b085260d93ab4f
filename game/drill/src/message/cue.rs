//! What a person perceives of a fault, in words.

use rackproof_buffer::{BeamName, Contact, Side};

use super::{Argument, Message, of_place};
use crate::{Cue, FailedLine, World};

/// A cue of a fault.
pub fn of_cue(world: &World, cue: Cue) -> Message {
    let at = |id, beam| Message::with(id, [("beam", Argument::Id(beam_id(beam)))]);
    match cue {
        Cue::StripOnScrew => Message::plain("cue-strip-on-screw"),
        Cue::ScrewCleared(true) => Message::plain("cue-screw-cleared"),
        Cue::ScrewCleared(false) => Message::plain("cue-screw-was-clear"),
        Cue::BeltSlips(Side::Infeed) => Message::plain("cue-infeed-belt-slips"),
        Cue::BeltSlips(Side::Outfeed) => Message::plain("cue-outfeed-belt-slips"),
        Cue::LensFilmed(beam) => at("cue-lens-filmed", beam),
        Cue::BeamOutOfLine(beam) => at("cue-beam-out-of-line", beam),
        Cue::BeamLit(beam) => at("cue-beam-lit", beam),
        Cue::LensesWiped(true) => Message::plain("cue-lenses-wiped"),
        Cue::LensesWiped(false) => Message::plain("cue-lenses-were-clean"),
        Cue::LiftSinks => Message::plain("cue-lift-sinks"),
        Cue::LiftJerks => Message::plain("cue-lift-jerks"),
        Cue::LampsDiffer(contact) => {
            let signal = Argument::Id(contact_id(contact));
            Message::with("cue-lamps-differ", [("signal", signal)])
        }
        Cue::Heat(degrees) => {
            let degrees = Argument::Number(i64::from(degrees));
            Message::with("cue-heat", [("degrees", degrees)])
        }
        Cue::NeighbourStands(Side::Infeed) => Message::plain("cue-upstream-stands"),
        Cue::NeighbourStands(Side::Outfeed) => Message::plain("cue-downstream-stands"),
        Cue::Jumper(Side::Infeed) => Message::plain("cue-jumper-upstream"),
        Cue::Jumper(Side::Outfeed) => Message::plain("cue-jumper-downstream"),
        Cue::TestBox(Side::Infeed) => Message::plain("cue-test-box-upstream"),
        Cue::TestBox(Side::Outfeed) => Message::plain("cue-test-box-downstream"),
        Cue::NoMachine(Side::Infeed) => Message::plain("cue-no-machine-upstream"),
        Cue::NoMachine(Side::Outfeed) => Message::plain("cue-no-machine-downstream"),
        Cue::JumperOut(Side::Infeed) => Message::plain("cue-jumper-out-upstream"),
        Cue::JumperOut(Side::Outfeed) => Message::plain("cue-jumper-out-downstream"),
        Cue::TestBoxOff(Side::Infeed) => Message::plain("cue-test-box-off-upstream"),
        Cue::TestBoxOff(Side::Outfeed) => Message::plain("cue-test-box-off-downstream"),
        Cue::PlugInOrder(side) => {
            let id = match side {
                Side::Infeed => "cue-plug-in-order-upstream",
                Side::Outfeed => "cue-plug-in-order-downstream",
            };
            let pin = Argument::Number(i64::from(world.hall().plugs.shield.number()));
            Message::with(id, [("pin", pin)])
        }
        Cue::OtherWidth(Side::Infeed) => Message::plain("cue-other-width-upstream"),
        Cue::OtherWidth(Side::Outfeed) => Message::plain("cue-other-width-downstream"),
        Cue::FedByHand => Message::plain("cue-fed-by-hand"),
        Cue::FailedLampLit => Message::plain(match world.upstream().map(|it| it.failed_line) {
            Some(FailedLine::Either) => "cue-failed-lamp-lit-alone",
            Some(FailedLine::Both) | None => "cue-failed-lamp-lit",
        }),
        Cue::LampFlickers => Message::plain("cue-lamp-flickers"),
        Cue::Turned(place) => Message::with(
            "cue-turned",
            [("place", Argument::Message(of_place(place)))],
        ),
        Cue::TakesAlways => Message::plain("cue-downstream-takes-always"),
        Cue::BoardWaitsUpstream => Message::plain("cue-board-waits-upstream"),
        Cue::StandsAgainstRails => Message::plain("cue-stands-against-rails"),
        Cue::Bowed(place) => {
            Message::with("cue-bowed", [("place", Argument::Message(of_place(place)))])
        }
        Cue::Askew(place) => {
            Message::with("cue-askew", [("place", Argument::Message(of_place(place)))])
        }
    }
}

fn beam_id(beam: BeamName) -> &'static str {
    match beam {
        BeamName::InfeedMouth => "beam-infeed-mouth",
        BeamName::OutfeedMouth => "beam-outfeed-mouth",
        BeamName::End => "beam-end",
    }
}

fn contact_id(contact: Contact) -> &'static str {
    match contact {
        Contact::UpstreamAvailable => "contact-upstream-available",
        Contact::DownstreamReady => "contact-downstream-ready",
        Contact::OwnReady => "contact-own-ready",
        Contact::OwnAvailable => "contact-own-available",
    }
}
