//! How long doings take. The core lets every intent happen at once: what is safe for a person who
//! is infinitely quick is safe for all. An attempt waits this long before the intent takes effect.

use rackproof_model::Micros;

use crate::{Intent, Stand};

/// Times of a person's doings. Common practice, to be measured on site.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pace {
    /// From one standing place to the next.
    pub walk: Micros,
    /// A look into a mouth.
    pub look_mouth: Micros,
    /// A look through the hatch at one half of every slot.
    pub look_hatch: Micros,
    /// Pressing a button, turning a switch.
    pub press: Micros,
    /// Taking a board, putting one down, and the like.
    pub handle: Micros,
    /// Asking somebody and hearing the answer.
    pub talk: Micros,
    /// Writing the log.
    pub write: Micros,
}

impl Pace {
    /// How long an intent takes before it takes effect, for somebody who stands at `from`.
    pub fn of(&self, intent: Intent, from: Stand) -> Micros {
        match intent {
            Intent::Walk(to) => Micros(self.walk.0 * steps(from, to)),
            Intent::Look(crate::Aim::Mouth) => self.look_mouth,
            Intent::Look(_) => self.look_hatch,
            Intent::AskUpstreamHold
            | Intent::LetUpstreamGo
            | Intent::AskDownstreamHold
            | Intent::LetDownstreamGo
            | Intent::CallLead
            | Intent::Report => self.talk,
            Intent::WriteLog => self.write,
            Intent::TestStraps
            | Intent::OpenHatch
            | Intent::ShutHatch
            | Intent::PlugCord
            | Intent::UnplugCord
            | Intent::SetProp
            | Intent::RemoveProp
            | Intent::LockOn
            | Intent::LockOff
            | Intent::HandIn
            | Intent::HandOut
            | Intent::Take(_)
            | Intent::PutIn(_)
            | Intent::TakeFromBelt
            | Intent::TakeFromMouth
            | Intent::PutDown(_)
            | Intent::WearGloves
            | Intent::ClearScrew
            | Intent::WipeLenses
            | Intent::ClearPlug
            | Intent::KeyIn
            | Intent::KeyOut => self.handle,
            Intent::Torch(_)
            | Intent::IsolatorOff
            | Intent::IsolatorOn
            | Intent::TryStart
            | Intent::PressEmergency
            | Intent::ReleaseEmergency
            | Intent::Press(_) => self.press,
        }
    }
}

/// Places stand in a row along the machine: infeed, hatch, isolator, panel, outfeed.
fn steps(from: Stand, to: Stand) -> u32 {
    let place = |stand: Stand| match stand {
        Stand::Infeed => 0_u32,
        Stand::Hatch => 1,
        Stand::Isolator => 2,
        Stand::Panel => 3,
        Stand::Outfeed => 4,
    };
    place(from).abs_diff(place(to))
}
