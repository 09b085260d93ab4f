//! What in the hall has a name and can be touched.

use rackproof_buffer::{HalfSlot, Side};
use rackproof_drill::message::{Argument, Message, of_half};
use rackproof_drill::{Aim, Intent, Stand, Tray};

/// A part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    /// The hatch in the long side.
    Hatch,
    /// The isolator's handle.
    Isolator,
    /// The hasp on the isolator, or the lock in it.
    Lock,
    /// The prop: in its clips, or under the lift.
    Prop,
    /// The bonding stud with the wrist cord.
    CordStud,
    /// The emergency stop at a standing place.
    EmergencyStop(Side),
    /// The panel.
    Panel,
    /// The lock for the setter's key.
    Key,
    /// The belt at a side, under its hood.
    Belt(Side),
    /// The rack.
    Rack,
    /// A half-slot.
    Slot(HalfSlot),
    /// The light tower.
    Tower,
    /// The machine at a side.
    Neighbour(Side),
    /// A standing place on the floor.
    StandingPlace(Stand),
    /// A tray.
    Tray(Tray),
}

impl Part {
    /// Every part but the slots, in reading order: for a list by keyboard.
    pub const ALL: [Part; 23] = [
        Part::StandingPlace(Stand::Infeed),
        Part::StandingPlace(Stand::Hatch),
        Part::StandingPlace(Stand::Isolator),
        Part::StandingPlace(Stand::Panel),
        Part::StandingPlace(Stand::Outfeed),
        Part::Neighbour(Side::Infeed),
        Part::Belt(Side::Infeed),
        Part::EmergencyStop(Side::Infeed),
        Part::Hatch,
        Part::Rack,
        Part::CordStud,
        Part::Prop,
        Part::Isolator,
        Part::Lock,
        Part::Tower,
        Part::Panel,
        Part::Key,
        Part::EmergencyStop(Side::Outfeed),
        Part::Belt(Side::Outfeed),
        Part::Neighbour(Side::Outfeed),
        Part::Tray(Tray::Good),
        Part::Tray(Tray::Quarantine),
        Part::Tray(Tray::Scrap),
    ];

    /// Its name. It never tells its condition.
    pub fn name(self) -> Message {
        let id = match self {
            Part::Hatch => "part-hatch",
            Part::Isolator => "part-isolator",
            Part::Lock => "part-lock",
            Part::Prop => "part-prop",
            Part::CordStud => "part-cord-stud",
            Part::EmergencyStop(_) => "part-emergency-stop",
            Part::Panel => "part-panel",
            Part::Key => "part-key",
            Part::Belt(Side::Infeed) => "part-infeed-belt",
            Part::Belt(Side::Outfeed) => "part-outfeed-belt",
            Part::Rack => "part-rack",
            Part::Slot(at) => return slot_name(at),
            Part::Tower => "part-tower",
            Part::Neighbour(Side::Infeed) => "part-upstream",
            Part::Neighbour(Side::Outfeed) => "part-downstream",
            Part::StandingPlace(Stand::Panel) => "part-place-panel",
            Part::StandingPlace(Stand::Infeed) => "part-place-infeed",
            Part::StandingPlace(Stand::Outfeed) => "part-place-outfeed",
            Part::StandingPlace(Stand::Hatch) => "part-place-hatch",
            Part::StandingPlace(Stand::Isolator) => "part-place-isolator",
            Part::Tray(Tray::Good) => "part-tray-good",
            Part::Tray(Tray::Quarantine) => "part-tray-quarantine",
            Part::Tray(Tray::Scrap) => "part-tray-scrap",
        };
        Message {
            id,
            arguments: Vec::new(),
        }
    }

    /// Which of the offers belong to it, for a person at `stand`.
    pub fn intents(self, stand: Stand, offers: &[Intent]) -> Vec<Intent> {
        let mine = |intent: &&Intent| Part::of(**intent, stand) == Some(self);
        offers.iter().filter(mine).copied().collect()
    }

    /// The part that an intent belongs to, for a person at `stand`. `None` if it is about nothing
    /// that stands in the hall: the torch, the shoe straps, the line lead, the report.
    pub fn of(intent: Intent, stand: Stand) -> Option<Part> {
        let side = if stand == Stand::Infeed {
            Side::Infeed
        } else {
            Side::Outfeed
        };
        Some(match intent {
            Intent::Walk(to) => Part::StandingPlace(to),
            Intent::TestStraps
            | Intent::Torch(_)
            | Intent::WearGloves
            | Intent::CallLead
            | Intent::Report => return None,
            Intent::Look(Aim::Mouth)
            | Intent::WipeLenses
            | Intent::TakeFromBelt
            | Intent::TakeFromMouth => Part::Belt(side),
            Intent::Look(_) | Intent::ClearScrew | Intent::HandIn | Intent::HandOut => Part::Rack,
            Intent::OpenHatch | Intent::ShutHatch => Part::Hatch,
            Intent::PlugCord | Intent::UnplugCord => Part::CordStud,
            Intent::SetProp | Intent::RemoveProp => Part::Prop,
            Intent::IsolatorOff | Intent::IsolatorOn => Part::Isolator,
            Intent::LockOn | Intent::LockOff => Part::Lock,
            Intent::Take(at) | Intent::PutIn(at) => Part::Slot(at),
            Intent::PutDown(tray) => Part::Tray(tray),
            Intent::PressEmergency | Intent::ReleaseEmergency => Part::EmergencyStop(side),
            Intent::KeyIn | Intent::KeyOut => Part::Key,
            Intent::TryStart | Intent::Press(_) | Intent::WriteLog => Part::Panel,
            Intent::ClearPlug => Part::Neighbour(side),
            Intent::AskUpstreamHold | Intent::LetUpstreamGo => Part::Neighbour(Side::Infeed),
            Intent::AskDownstreamHold | Intent::LetDownstreamGo => Part::Neighbour(Side::Outfeed),
        })
    }
}

fn slot_name(at: HalfSlot) -> Message {
    Message {
        id: "part-slot",
        arguments: vec![
            ("slot", Argument::Number(i64::from(at.slot) + 1)),
            ("half", Argument::Message(of_half(at.half))),
        ],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn offers_are_sorted_to_their_parts_and_none_to_two() {
        let offers = [
            Intent::OpenHatch,
            Intent::Walk(Stand::Hatch),
            Intent::TakeFromBelt,
            Intent::PressEmergency,
            Intent::Torch(true),
        ];
        let at = |part: Part, stand| part.intents(stand, &offers);
        assert_eq!(at(Part::Hatch, Stand::Hatch), [Intent::OpenHatch]);
        let place = Part::StandingPlace(Stand::Hatch);
        assert_eq!(at(place, Stand::Panel), [Intent::Walk(Stand::Hatch)]);
        assert_eq!(
            at(Part::Belt(Side::Infeed), Stand::Infeed),
            [Intent::TakeFromBelt]
        );
        assert!(at(Part::Belt(Side::Infeed), Stand::Outfeed).is_empty());
        let near = Part::EmergencyStop(Side::Outfeed);
        assert_eq!(at(near, Stand::Panel), [Intent::PressEmergency]);
        let of_some: usize = Part::ALL
            .map(|part| at(part, Stand::Infeed).len())
            .iter()
            .sum();
        assert_eq!(of_some, offers.len() - 1, "the torch belongs to no part");
    }

    #[test]
    fn parts_are_listed_once() {
        for (at, part) in Part::ALL.iter().enumerate() {
            assert!(!Part::ALL[..at].contains(part), "{part:?}");
        }
    }
}
