//! The person's place, what somebody said, what made looks void, and what a neighbour chose.

use rackproof_buffer::AxisName;

use super::{Argument, Message, board};
use crate::{Chance, Stand, Told, VoidCause, World};

/// A standing place.
pub fn of_stand(stand: Stand) -> Message {
    Message::plain(match stand {
        Stand::Panel => "stand-panel",
        Stand::Infeed => "stand-infeed",
        Stand::Outfeed => "stand-outfeed",
        Stand::Hatch => "stand-hatch",
        Stand::Isolator => "stand-isolator",
    })
}

/// What somebody said.
pub fn of_told(told: Told) -> Message {
    Message::plain(match told {
        Told::UpstreamHolds => "told-upstream-holds",
        Told::UpstreamGoesOn => "told-upstream-goes-on",
        Told::DownstreamHolds => "told-downstream-holds",
        Told::DownstreamGoesOn => "told-downstream-goes-on",
        Told::DownstreamStands => "told-downstream-stands",
        Told::DownstreamMends => "told-downstream-mends",
        Told::LeadKnows => "told-lead-knows",
    })
}

/// What made all looks void.
pub fn of_void(cause: VoidCause) -> Message {
    Message::plain(match cause {
        VoidCause::Moved(AxisName::Lift) => "void-lift-moved",
        VoidCause::Moved(AxisName::Rails) => "void-rails-moved",
        VoidCause::Moved(AxisName::Belts) => "void-belts-moved",
        VoidCause::HandEntered => "void-hand-entered",
        VoidCause::UpstreamLetGo => "void-upstream-let-go",
    })
}

/// What the environment chose: for the debrief, nobody is told.
pub fn of_chance(world: &World, chance: Chance) -> Message {
    let leftover = world.drill().neighbours.leftover;
    let named = leftover.map_or(("board", Argument::Id("board-some")), |kind| {
        board(world, kind)
    });
    let id = match chance {
        Chance::FaultComes(number) => {
            let fault = world.faults().nth(usize::from(number));
            let name = fault.map_or_else(String::new, |fault| fault.id.clone());
            return Message::with("chance-goes-wrong", [("name", Argument::Name(name))]);
        }
        Chance::DownstreamMakesRoom => return Message::plain("chance-downstream-makes-room"),
        Chance::UpstreamDrops => return Message::plain("chance-upstream-drops"),
        Chance::DownstreamDrops => return Message::plain("chance-downstream-drops"),
        Chance::UpstreamGivesTwo => return Message::plain("chance-upstream-gives-two"),
        Chance::UpstreamLaysBoard => "chance-upstream-lays-board",
        Chance::UpstreamOffersBoard => "chance-upstream-offers-board",
    };
    Message::with(id, [named])
}
